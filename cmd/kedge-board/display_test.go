//go:build cgo

package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// How long the test waits for what a person would wait for; no test passes or
// fails by how long something takes short of that.
const (
	longest = 60 * time.Second
	step    = 150 * time.Millisecond // the window's rest after a key or a click
	look    = 50 * time.Millisecond  // between two looks at whether something is so
)

// desk is a virtual display with the board's window on it.
type desk struct {
	t       *testing.T
	bin     string
	display string
	home    string
	window  string
	loads   string // file the window writes its table to
	board   *exec.Cmd
	said    bytes.Buffer
}

// built are the programs under test, each built at most once.
var built struct {
	folder string
	board  func() (string, error)
	kedge  func() (string, error)
}

// displays begin one after another and end when all tests have: one that looks for a
// free number, or ends, removes the socket of a number that another may just have taken.
var displays struct {
	sync.Mutex
	all []*exec.Cmd
}

func TestMain(m *testing.M) {
	var err error
	if built.folder, err = os.MkdirTemp("", "kedge-board"); err != nil {
		panic(err)
	}
	built.board = sync.OnceValues(theBoard)
	built.kedge = sync.OnceValues(func() (string, error) { return build("kedge", "kedge/cmd/kedge", "CGO_ENABLED=0") })
	status := m.Run()
	for _, server := range displays.all {
		_ = server.Process.Signal(os.Interrupt) // it removes its lock file
		_ = server.Wait()
	}
	_ = os.RemoveAll(built.folder)
	os.Exit(status)
}

func build(name, from string, env ...string) (string, error) {
	bin := filepath.Join(built.folder, name)
	c := exec.Command("go", "build", "-o", bin, from)
	c.Env = append(os.Environ(), env...)
	if out, err := c.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return bin, nil
}

// theBoard is the board's program: that of KEDGE_BOARD_BIN, else one built now.
func theBoard() (string, error) {
	bin := os.Getenv("KEDGE_BOARD_BIN")
	if bin == "" {
		return build("board", ".")
	}
	for _, from := range [...]string{".", filepath.Join("..", "..")} {
		if abs, err := filepath.Abs(filepath.Join(from, bin)); err == nil && !filepath.IsAbs(bin) {
			if _, err := os.Stat(abs); err == nil {
				return abs, nil
			}
		}
	}
	_, err := os.Stat(bin)
	return bin, err
}

// sit starts a display and the board on it.
func sit(t *testing.T, args ...string) *desk {
	for _, tool := range [...]string{"Xvfb", "xdotool"} {
		if _, err := exec.LookPath(tool); err != nil {
			t.Skipf("%s is not installed: the real window is not looked at", tool)
		}
	}
	bin, err := built.board()
	require.NoError(t, err)
	d := &desk{t: t, bin: bin, home: t.TempDir()}
	read, write, err := os.Pipe()
	require.NoError(t, err)
	server := exec.Command("Xvfb", "-displayfd", "3", "-nolisten", "tcp", "-noreset", "-screen", "0", "1440x900x24")
	server.ExtraFiles = []*os.File{write}
	displays.Lock()
	err = server.Start()
	closed := write.Close()
	number, unread := io.ReadAll(io.LimitReader(read, 16)) // it has its display then, or has ended
	if err == nil {
		displays.all = append(displays.all, server)
	}
	displays.Unlock()
	require.NoError(t, errors.Join(err, closed, unread))
	d.display = ":" + strings.TrimSpace(string(number))
	require.NotEqual(t, ":", d.display, "Xvfb named no display")
	d.loads = filepath.Join(d.home, "loads.json")
	require.NoError(t, os.Mkdir(filepath.Join(d.home, "Documents"), 0o755))
	d.open(args...)
	t.Cleanup(d.kill)
	return d
}

func (d *desk) env() []string {
	h := d.home
	return append(os.Environ(), "DISPLAY="+d.display, "WAYLAND_DISPLAY=", "HOME="+h, "XDG_CONFIG_HOME="+h+"/config", "XDG_DATA_HOME="+h+"/data",
		"XDG_STATE_HOME="+h+"/state", "XDG_CACHE_HOME="+h+"/cache", "LANG=en_GB.UTF-8", "LC_ALL=en_GB.UTF-8", "FYNE_THEME=light", "FYNE_SCALE=1")
}

// open starts the board and waits for its window.
func (d *desk) open(args ...string) {
	d.board = exec.Command(d.bin, append([]string{"-size", "1440x900", "-loads", d.loads}, args...)...)
	d.board.Env = d.env()
	d.board.Stdout, d.board.Stderr = &d.said, &d.said
	require.NoError(d.t, d.board.Start())
	d.window = ""
	d.until("a window", func() bool {
		out, _ := d.command("xdotool", "search", "--onlyvisible", "--name", "Kedge").Output() // status 1 while there is none
		d.window, _, _ = strings.Cut(string(out), "\n")
		return d.window != ""
	})
	d.do("windowmove", d.window, "0", "0", "windowsize", d.window, "1440", "900", "windowfocus", d.window)
	d.until("keys for the window", func() bool { // what is typed before goes nowhere
		out, _ := d.command("xdotool", "getwindowfocus").Output()
		return strings.TrimSpace(string(out)) == d.window
	})
	time.Sleep(4 * step)
}

// kill ends the board without giving it a chance to tidy up, and looks at what
// it said.
func (d *desk) kill() {
	if d.board == nil {
		return
	}
	_ = d.board.Process.Kill()
	_ = d.board.Wait()
	d.board = nil
	require.NotContains(d.t, d.said.String(), "Error in Fyne call thread")
	require.NotContains(d.t, d.said.String(), "panic")
	require.NotContains(d.t, d.said.String(), "DATA RACE")
}

func (d *desk) command(words ...string) *exec.Cmd {
	c := exec.Command(words[0], words[1:]...)
	c.Env = d.env()
	return c
}

// do gives xdotool its words and lets the window come to rest.
func (d *desk) do(words ...string) {
	d.t.Helper()
	d.run(append([]string{"xdotool"}, words...)...)
	time.Sleep(step)
}

func (d *desk) run(words ...string) {
	d.t.Helper()
	out, err := d.command(words...).CombinedOutput()
	require.NoError(d.t, err, "%v: %s", words, out)
}

// again presses a key n times, without a rest between.
func (d *desk) again(n int, key string) {
	d.t.Helper()
	if n > 0 {
		d.do(append([]string{"key", "--delay", "40"}, slices.Repeat([]string{key}, n)...)...)
	}
}

// save has the plan saved and reads what the window wrote then.
func (d *desk) save() shown {
	d.t.Helper()
	d.run("xdotool", "key", "ctrl+s") // what is waited for is the file
	return d.saved()
}

// keys types words, or presses a key named in <>.
func (d *desk) keys(all ...string) {
	d.t.Helper()
	for _, k := range all {
		if strings.HasPrefix(k, "<") {
			d.do("key", strings.Trim(k, "<>"))
		} else {
			d.do("type", "--delay", "40", k)
		}
	}
}

func (d *desk) until(what string, is func() bool) {
	d.t.Helper()
	for began := time.Now(); !is(); time.Sleep(look) {
		if time.Since(began) > longest {
			d.t.Fatalf("no %s within %v; the board said: %s", what, longest, d.said.String())
		}
	}
}

// title is what the window is called.
func (d *desk) title() string {
	out, err := d.command("xdotool", "getwindowname", d.window).Output()
	require.NoError(d.t, err)
	return strings.TrimSpace(string(out))
}

// shown is what the window wrote at its last save.
type shown struct {
	OriginX float64 `json:"origin_x_px"`
	OriginY float64 `json:"origin_y_px"`
	PerM    float64 `json:"px_per_m"`
	Loads   []struct {
		ID     string   `json:"id"`
		Status string   `json:"status"`
		Load   *float64 `json:"load"`
		Stall  *float64 `json:"at_stall"`
		Limit  *float64 `json:"limit"`
		Used   *float64 `json:"used"`
	} `json:"loads"`
	Panels map[string][]struct {
		ID   string  `json:"id"`
		X    float64 `json:"x_px"`
		Y    float64 `json:"y_px"`
		Seen bool    `json:"seen"`
		Keys bool    `json:"has_keys"`
	} `json:"panels"`
	Tags    map[string][2]float64 `json:"tags"`
	Cross   *plan.Point           `json:"crosshair"`
	Picked  []plan.ID             `json:"selected"`
	Pinned  string                `json:"pinned"`
	Pointed string                `json:"pointed"`
}

// load is what a part carries, newtons.
func (s *shown) load(t *testing.T, id string) float64 {
	t.Helper()
	for _, l := range s.Loads {
		if l.ID == id {
			require.NotNil(t, l.Load, id)
			return *l.Load
		}
	}
	t.Fatalf("the table has no %s", id)
	return 0
}

// press clicks what a panel offers, by the end of its id, scrolling it into
// sight first.
func (d *desk) press(panel, ending string) {
	d.t.Helper()
	for range 40 {
		s := d.save()
		for _, h := range s.Panels[panel] {
			if !strings.HasSuffix(h.ID, ending) {
				continue
			}
			if h.Seen {
				d.do("mousemove", fmt.Sprint(int(h.X)), fmt.Sprint(int(h.Y)))
				d.do("click", "1")
				return
			}
			first := s.Panels[panel][0]
			d.do("mousemove", fmt.Sprint(int(first.X)), fmt.Sprint(int(s.middle(panel))), "click", "5")
		}
	}
	d.t.Fatalf("%s offers nothing that ends with %q", panel, ending)
}

// tabTo presses Tab until the crosshair stands near a place of the plan.
func (d *desk) tabTo(x, y float64) {
	d.t.Helper()
	for range 40 {
		d.keys("<Tab>")
		if c := d.save().Cross; c != nil && math.Hypot(c.X-x, c.Y-y) < 0.2 {
			return
		}
	}
	d.t.Fatalf("Tab does not reach %g ; %g", x, y)
}

// tabSelect presses Tab until a thing is selected.
func (d *desk) tabSelect(id plan.ID) {
	d.t.Helper()
	for range 60 {
		if s := d.save(); len(s.Picked) == 1 && s.Picked[0] == id {
			return
		}
		d.keys("<Tab>")
	}
	d.t.Fatalf("Tab does not reach %s", id)
}

// middle is the height of the middle of what is seen of a panel.
func (s *shown) middle(panel string) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, h := range s.Panels[panel] {
		if h.Seen {
			lo, hi = min(lo, h.Y), max(hi, h.Y)
		}
	}
	return (lo + hi) / 2
}

// walk presses Tab in a panel that has the keys until it stands on what it offers, by the
// end of its id. After each it looks: what the panel offers may change as long as it is drawn,
// and presses that were counted before would end elsewhere.
func (d *desk) walk(panel, ending string) {
	d.t.Helper()
	for range 60 {
		for _, h := range d.save().Panels[panel] {
			if h.Keys && strings.HasSuffix(h.ID, ending) {
				return
			}
		}
		d.keys("<Tab>")
	}
	d.t.Fatalf("%s offers nothing that ends with %q", panel, ending)
}

// saved waits for a save and reads what the window wrote then.
func (d *desk) saved() shown {
	d.t.Helper()
	var s shown
	d.until("save", func() bool {
		data, err := os.ReadFile(d.loads)
		return err == nil && json.Unmarshal(data, &s) == nil
	})
	require.NoError(d.t, os.Remove(d.loads))
	return s
}

// at is the place of the screen where a point of the plan lies.
func (s *shown) at(x, y float64) []string {
	return []string{fmt.Sprint(int(s.OriginX + x*s.PerM + 0.5)), fmt.Sprint(int(s.OriginY - y*s.PerM + 0.5))}
}
