//go:build cgo

package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.design/x/clipboard"

	"kedge/solver/plan"
)

// Storyboard A of the design on a real window: from an empty sheet to a redirect
// round a boulder, a turned vehicle and a spotter out of the bight, saved,
// checked against the command line, and all the way back; once with the pointer,
// once by keys alone, to the same bytes.
func TestWindowRedirectRoundABoulder(t *testing.T) {
	var pointer, keys string
	t.Parallel()
	t.Run("both", func(t *testing.T) {
		t.Run("pointer", func(t *testing.T) { t.Parallel(); pointer = byPointer(t) })
		t.Run("keyboard", func(t *testing.T) { t.Parallel(); keys = byKeyboard(t) })
	})
	if pointer != "" && keys != "" { // unless one of them was left out, or failed
		assert.Equal(t, pointer, keys, "the same plan, to the byte")
	}
}

// The site of the storyboard.
var (
	boulder = [][2]float64{{16.5, 6.5}, {19, 6}, {21, 7.5}, {20.5, 10}, {18, 11}, {16, 9}}
	trees   = []struct {
		x, y         float64
		girth, trunk string
	}{{24, 19.5, "145", "48"}, {12, 21.5, "100", "34"}, {27, 2, "90", "30"}}
)

func byPointer(t *testing.T) string {
	d := sit(t)
	docs := filepath.Join(d.home, "Documents")

	// the empty plan's bytes, and where the plan lies on the screen
	d.keys("<ctrl+s>", "empty", "<Return>")
	s := d.saved()
	require.Greater(t, s.PerM, 5.0)
	empty := read(t, filepath.Join(docs, "empty.kedge"))
	d.until("title", func() bool { return d.title() == "empty · saved · Kedge" })

	move := func(x, y float64) { d.do(append([]string{"mousemove"}, s.at(x, y)...)...) }
	click := func(x, y float64) { move(x, y); d.do("click", "1") }
	drag := func(x0, y0, x1, y1 float64) {
		move(x0, y0)
		d.do("mousedown", "1")
		for i := 1; i <= 10; i++ {
			f := float64(i) / 10
			move(x0+(x1-x0)*f, y0+(y1-y0)*f)
		}
		d.do("mouseup", "1")
	}

	// 1 to 5: two vehicles
	d.keys("v")
	click(5.5, 8.5)
	d.keys("2450", "<Tab>", "h", "<Return>")
	click(32.5, 7.5)
	// 6 to 8: the boulder
	d.keys("o")
	for _, c := range boulder {
		click(c[0], c[1])
	}
	d.keys("<Return>")
	// 9: three trees
	d.keys("a")
	for _, tree := range trees {
		click(tree.x, tree.y)
		d.keys(tree.girth, "<Tab>", tree.trunk, "<Return>")
	}
	// 10 to 12: the line, refused where it bears on the boulder
	d.keys("l")
	drag(29.95, 7.60, 8.1, 8.5)
	straight := d.save()
	p := load(t, filepath.Join(docs, "empty.kedge"))
	require.Len(t, p.Rigs[0].Lines, 1)
	require.Len(t, p.Site.Vehicles, 2)
	require.Len(t, p.Site.Anchors, 3)
	require.Len(t, p.Site.Obstacles, 1)
	assert.Len(t, p.Site.Obstacles[0].Outline, 6)
	assert.InDelta(t, 2450, float64(p.Site.Vehicles[0].Mass), 0)
	assert.Equal(t, plan.DepthHub, p.Site.Vehicles[0].Stuck.Depth)
	require.NotEmpty(t, straight.Loads)
	assert.Equal(t, "refused", straight.Loads[0].Status, "what was refused comes first")
	for _, l := range straight.Loads {
		assert.Nil(t, l.Load, "%s: a line that bears on a boulder has no load", l.ID)
	}

	// 13 to 15: bent on to Tree 1
	drag(23, 7.9, 24, 19.3)
	d.keys("<ctrl+shift+s>", "<ctrl+a>", "moss", "<Return>")
	bent := d.saved()
	moss := filepath.Join(docs, "moss.kedge")
	p = load(t, moss)
	require.Len(t, p.Rigs[0].Blocks, 1, "a block was hung on the tree")
	require.Len(t, p.Rigs[0].Slings, 1)
	assert.InDelta(t, 3, float64(p.Rigs[0].Slings[0].Length), 0, "the kit's sling")
	sameAsCheck(t, moss, bent)

	// 16 and 17: the winch vehicle is turned to its line by the finding's button
	d.press("findings", "/turn-vehicle")
	turned := d.save()
	turnedToItsLine(t, moss)
	for _, id := range [...]string{"L1/1", "L1/2", "B1"} {
		assert.InEpsilon(t, bent.load(t, id), turned.load(t, id), 0.01, "%s: turning about the fairlead leaves it as it was", id)
	}

	// 18 and 19: a spotter in the bight
	d.keys("p", "p")
	click(22, 13)
	d.save()
	assert.Contains(t, check(t, moss), "Spotter 1 stands inside the bight.")

	// 20 and 21: led out of it
	d.keys("<Escape>")
	drag(22, 13, 36, 16)
	s = d.save()
	said := check(t, moss)
	assert.NotContains(t, said, "Spotter 1 stands inside the bight.")
	assert.Contains(t, said, "Spotter 1 is inside the stand-off")

	// 22: the sum of what is pointed at, pinned by a question mark
	of := "" // the worst of what hangs together at the redirect
	for _, id := range []string{"K1", "S1", "T1", "B1"} {
		if _, ok := s.Tags[id]; ok {
			of = id
		}
	}
	require.NotEmpty(t, of, "the redirect has a tag")
	tag := s.Tags[of]
	d.do("mousemove", fmt.Sprint(int(tag[0])), fmt.Sprint(int(tag[1])))
	assert.Equal(t, of, d.save().Pointed)
	d.keys("?")
	assert.Equal(t, of, d.save().Pinned)

	// 23: the window's table is what the command line says
	sameAsCheck(t, moss, d.save())

	// 24: everything undone is the empty plan again, to the byte
	d.again(40, "ctrl+z")
	d.keys("<ctrl+shift+s>", "<ctrl+a>", "undone", "<Return>")
	d.saved()
	assert.Equal(t, string(empty), string(read(t, filepath.Join(docs, "undone.kedge"))))

	// a window that is killed loses nothing that was saved
	d.kill()
	d.open(moss)
	d.until("title", func() bool { return d.title() == "moss · saved · Kedge" })
	sameAsCheck(t, moss, d.save())
	return string(read(t, moss))
}

func byKeyboard(t *testing.T) string {
	d := sit(t)
	docs := filepath.Join(d.home, "Documents")
	moss := filepath.Join(docs, "moss.kedge")
	place := func(x, y float64) { d.keys(fmt.Sprintf("%g;%g", x, y), "<Return>", "<Return>") }
	d.keys("<ctrl+s>", "moss", "<Return>")
	d.saved()
	empty := read(t, moss)

	// 1 to 9
	d.keys("v")
	place(5.5, 8.5)
	d.keys("2450", "<Tab>", "h", "<Return>")
	place(32.5, 7.5)
	d.keys("o")
	for _, c := range boulder {
		place(c[0], c[1])
	}
	d.keys("<Return>", "a")
	for _, tree := range trees {
		place(tree.x, tree.y)
		d.keys(tree.girth, "<Tab>", tree.trunk, "<Return>")
	}
	// 10 to 12
	d.keys("l")
	d.tabTo(29.95, 7.6)
	d.keys("<Return>")
	d.tabTo(8.1, 8.5)
	d.keys("<Return>", "<Return>")
	// 13 to 15: the line is selected and led over Tree 1
	d.tabSelect("L1")
	d.keys("h")
	d.tabTo(24, 19.5)
	d.keys("<Return>")
	bent := d.save()
	p := load(t, moss)
	require.Len(t, p.Rigs, 1)
	require.Len(t, p.Rigs[0].Blocks, 1, "a block was hung on the tree")
	sameAsCheck(t, moss, bent)

	// 16 and 17: from the board to Findings, to the button
	d.keys("<Escape>", "<F6>", "<F6>", "<F6>", "<F6>") // tools, rigs, verdict, findings
	d.walk("findings", "/turn-vehicle")
	d.keys("<Return>")
	d.save()
	turnedToItsLine(t, moss)

	// 18 to 21: a spotter, walked out of the bight
	d.keys("<Escape>", "<Escape>", "p", "p")
	place(22, 13)
	d.save()
	assert.Contains(t, check(t, moss), "Spotter 1 stands inside the bight.")
	d.keys("<Escape>", "<Escape>")
	d.tabSelect("P1")
	d.again(28, "Right") // 14 m east
	d.again(6, "Up")
	// 22: the sum of Tree 1
	d.tabSelect("T1")
	d.keys("?")
	s := d.save()
	assert.Equal(t, "T1", s.Pinned)
	// 23
	sameAsCheck(t, moss, s)
	said := check(t, moss)
	assert.NotContains(t, said, "Spotter 1 stands inside the bight.")
	assert.Contains(t, said, "Spotter 1 is inside the stand-off")
	whole := string(read(t, moss))

	// 24
	d.again(50, "ctrl+z")
	d.save()
	assert.Equal(t, string(empty), string(read(t, moss)))
	return whole
}

// turnedToItsLine checks step 17's figures, as near as the design's own:
// within 1 %.
func turnedToItsLine(t *testing.T, moss string) {
	t.Helper()
	v := load(t, moss).Site.Vehicles[1]
	assert.InEpsilon(t, 119.8, 450-float64(v.Bearing), 0.01, "nose, anticlockwise from east")
	assert.InEpsilon(t, 31.22, v.At.X, 0.01)
	assert.InEpsilon(t, 5.39, v.At.Y, 0.01)
}

// A picture that is copied is a PNG for whichever program pastes it.
func TestWindowCopiesAPicture(t *testing.T) {
	d := sit(t)
	d.keys("v", "5.5;8.5", "<Return>", "<Return>", "<Escape>", "<Escape>")
	d.keys("<ctrl+shift+c>")
	t.Setenv("DISPLAY", d.display)
	require.NoError(t, clipboard.Init())
	var img image.Config
	d.until("picture on the clipboard", func() (ok bool) {
		var err error
		img, err = png.DecodeConfig(bytes.NewReader(clipboard.Read(clipboard.FmtImage)))
		return err == nil
	})
	assert.Greater(t, img.Width, 1000)
	assert.Greater(t, img.Height, 1000)
}

// What was drawn and never saved is offered again after the window was killed.
func TestWindowOffersWhatACrashLeft(t *testing.T) {
	t.Parallel()
	d := sit(t)
	docs := filepath.Join(d.home, "Documents")
	d.keys("<ctrl+s>", "moss", "<Return>")
	s := d.saved()
	d.keys("v")
	d.do(append([]string{"mousemove"}, s.at(5.5, 8.5)...)...)
	d.do("click", "1")
	d.keys("2450", "<Return>")
	d.until("title", func() bool { return d.title() == "moss · changed · Kedge" })
	d.until("snapshot", func() bool { // taken after a rest
		found := false
		_ = filepath.WalkDir(filepath.Join(d.home, "state", "kedge", "recovery"), func(_ string, e os.DirEntry, err error) error {
			if err == nil && !e.IsDir() && e.Name() == "plan.snapshot" {
				found = true
			}
			return nil
		})
		return found
	})
	d.kill()
	require.Empty(t, load(t, filepath.Join(docs, "moss.kedge")).Site.Vehicles, "the file is as it was saved")

	d.open()
	d.keys("<Return>") // Open it
	d.until("title", func() bool { return d.title() == "moss · changed · Kedge" })
	d.save()
	p := load(t, filepath.Join(docs, "moss.kedge"))
	require.Len(t, p.Site.Vehicles, 1)
	assert.InDelta(t, 2450, float64(p.Site.Vehicles[0].Mass), 0)
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return data
}

func load(t *testing.T, path string) *plan.Plan {
	t.Helper()
	p, err := plan.ParsePlan(read(t, path))
	require.NoError(t, err)
	return p
}

// check is what `kedge check` prints.
func check(t *testing.T, args ...string) string {
	t.Helper()
	bin, err := built.kedge()
	require.NoError(t, err)
	check := exec.Command(bin, append([]string{"check"}, args...)...)
	var told bytes.Buffer
	check.Stdout = &told
	_ = check.Run() // its status tells of dangers
	return told.String()
}

// sameAsCheck compares the window's table with `kedge check --json`.
func sameAsCheck(t *testing.T, path string, s shown) {
	t.Helper()
	told := check(t, "--json", path)
	var doc struct {
		Rigs []struct {
			Parts []struct {
				ID     string   `json:"id"`
				Status string   `json:"status"`
				Load   *float64 `json:"load_n"`
				Stall  *float64 `json:"at_stall_n"`
				Limit  *float64 `json:"limit_n"`
				Used   *float64 `json:"used"`
			} `json:"parts"`
		} `json:"rigs"`
	}
	require.NoError(t, json.Unmarshal([]byte(told), &doc), told)
	require.Len(t, doc.Rigs, 1)
	parts := doc.Rigs[0].Parts
	require.NotEmpty(t, parts)
	require.Len(t, s.Loads, len(parts))
	for _, l := range s.Loads {
		found := false
		for _, p := range parts {
			if p.ID != l.ID {
				continue
			}
			found = true
			assert.Equal(t, p.Status, l.Status, l.ID)
			for _, f := range [...]struct {
				what      string
				want, got *float64
			}{{"load", p.Load, l.Load}, {"at stall", p.Stall, l.Stall}, {"limit", p.Limit, l.Limit}, {"used", p.Used, l.Used}} {
				require.Equal(t, f.want == nil, f.got == nil, "%s %s", l.ID, f.what)
				if f.want != nil { // the command line writes at most six digits
					require.InEpsilon(t, *f.want, *f.got, 1e-5, "%s %s", l.ID, f.what)
				}
			}
		}
		assert.True(t, found, "%s is in the window's table only", l.ID)
	}
}

// The keyboard alone, without the pointer: two things at typed places, one
// moved by arrows, and the program left through its question.
func TestWindowFromTheKeyboard(t *testing.T) {
	t.Parallel()
	d := sit(t)
	moss := filepath.Join(d.home, "Documents", "moss.kedge")
	d.keys("v", "5.5;8.5", "<Return>", "<Return>", "2450", "<Return>", "<Escape>")
	d.keys("a", "24;19.5", "<Return>", "<Return>", "145", "<Tab>", "48", "<Return>", "<Escape>")
	d.keys("<ctrl+s>", "moss", "<Return>")
	d.saved()
	p := load(t, moss)
	require.Len(t, p.Site.Vehicles, 1)
	assert.Equal(t, plan.Point{X: 5.5, Y: 8.5}, p.Site.Vehicles[0].At)
	require.Len(t, p.Site.Anchors, 1)
	assert.Equal(t, plan.Point{X: 24, Y: 19.5}, p.Site.Anchors[0].At)
	assert.InDelta(t, 1.45, float64(p.Site.Anchors[0].Girth), 1e-12)
	assert.InDelta(t, 0.48, float64(p.Site.Anchors[0].Trunk), 1e-12)

	// the anchor is still selected: arrows nudge it, with Ctrl by 5 m, with
	// Shift by 0.1 m
	d.keys("<Escape>", "<Escape>", "<Tab>")
	d.do("key", "ctrl+a")
	d.do("key", "Right")
	d.do("key", "ctrl+Up")
	d.do("key", "shift+Left")
	d.save()
	p = load(t, moss)
	assert.InDelta(t, 5.5+0.5-0.1, p.Site.Vehicles[0].At.X, 1e-9)
	assert.InDelta(t, 8.5+5, p.Site.Vehicles[0].At.Y, 1e-9)

	// regions, menu and field by keys
	d.keys("<F6>", "<F6>", "<F6>", "<Escape>", "<F10>", "<Return>", "<Escape>", "<F2>", "<F2>", "<F1>", "<Escape>")
	d.keys("<Delete>")
	d.until("title", func() bool { return d.title() == "moss · changed · Kedge" })
	d.keys("<ctrl+q>")
	time.Sleep(2 * time.Second) // until the question stands: a key before goes to the board
	d.keys("<Tab>", "<Return>") // Discard
	ended := make(chan error, 1)
	board := d.board
	go func() { ended <- board.Wait() }()
	require.NoError(t, <-ended, d.said.String())
	d.board = nil
	require.NotContains(t, d.said.String(), "Error in Fyne call thread")
	assert.Len(t, load(t, moss).Site.Vehicles, 1, "discarding leaves the file as it was saved")
}

// The keys that desktops know, each arriving from a real keyboard.
func TestWindowKnowsTheUsualKeys(t *testing.T) {
	t.Parallel()
	d := sit(t)
	docs := filepath.Join(d.home, "Documents")
	moss := filepath.Join(docs, "moss.kedge")
	d.keys("a", "10;10", "<Return>", "<Return>", "<Escape>", "<Escape>")
	d.keys("<ctrl+s>", "moss", "<Return>")
	first := d.saved()
	anchors := func() int {
		d.t.Helper()
		d.save()
		return len(load(t, moss).Site.Anchors)
	}
	require.Equal(t, 1, anchors())
	d.keys("<ctrl+a>", "<ctrl+c>", "<ctrl+v>")
	assert.Equal(t, 2, anchors(), "copied and pasted")
	d.keys("<ctrl+d>")
	assert.Equal(t, 3, anchors(), "duplicated")
	d.keys("<ctrl+z>")
	assert.Equal(t, 2, anchors(), "undone")
	d.keys("<ctrl+y>")
	assert.Equal(t, 3, anchors(), "redone")
	d.keys("<ctrl+z>", "<ctrl+shift+z>")
	assert.Equal(t, 3, anchors(), "redone")
	d.keys("<Tab>", "<ctrl+x>")
	assert.Equal(t, 2, anchors(), "cut")
	d.keys("<ctrl+a>", "<Delete>")
	assert.Equal(t, 0, anchors(), "deleted")

	zoom := func(keys ...string) float64 {
		d.keys(keys...)
		return d.save().PerM
	}
	in := zoom("<ctrl+plus>")
	assert.Greater(t, in, first.PerM)
	assert.Less(t, zoom("<ctrl+minus>", "<ctrl+minus>"), in)
	assert.InEpsilon(t, first.PerM, zoom("<ctrl+0>"), 0.2)

	// a new plan, opened again by its name
	d.keys("<ctrl+n>")
	d.until("title", func() bool { return d.title() == "new plan · Kedge" })
	d.keys("<ctrl+o>", "<Escape>")
	d.keys("<ctrl+o>", "moss.kedge", "<Return>")
	d.until("title", func() bool { return d.title() == "moss · saved · Kedge" })
	// the page and back
	d.keys("<ctrl+p>", "<Escape>")
	d.keys("v", "<Escape>")
	assert.Equal(t, "moss · saved · Kedge", d.title())
}

// Where there is no display it says so, and what to do, and not where the toolkit broke.
func TestWithoutADisplayASentenceIsSaid(t *testing.T) {
	bin, err := built.board()
	require.NoError(t, err)
	d := &desk{t: t, display: ":none", home: t.TempDir()}
	out, err := d.command(bin).CombinedOutput()
	var exit *exec.ExitError
	require.ErrorAs(t, err, &exit)
	assert.Equal(t, 1, exit.ExitCode())
	assert.Contains(t, string(out), "no display answers (DISPLAY is \":none\")")
	assert.NotContains(t, string(out), "goroutine")
}
