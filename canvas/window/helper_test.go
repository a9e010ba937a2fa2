package window

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/store"
)

// seat is a window on Fyne's test driver that draws at once, with folders of
// its own.
type seat struct {
	*Window
	t    testing.TB
	home string
}

// ownStore is a store whose folders are in home.
func ownStore(home string) *store.Store {
	s := store.New(report.Program())
	s.Config, s.State = filepath.Join(home, "config"), filepath.Join(home, "state")
	return s
}

func sitAt(t testing.TB, width, height float32, file string) *seat {
	t.Helper()
	return sitIn(t, t.TempDir(), width, height, file)
}

func sitIn(t testing.TB, home string, width, height float32, file string) *seat {
	t.Helper()
	return sitWith(t, home, Options{Worker: inline{}, Size: fyne.NewSize(width, height), File: file})
}

// sitWith is a seat with a worker of its own, or those of a real window.
func sitWith(t testing.TB, home string, opt Options) *seat {
	t.Helper()
	if raced && opt.Worker != nil {
		t.Skip("all on one goroutine: there is nothing to race")
	}
	t.Setenv("FYNE_THEME", "light")
	t.Setenv("HOME", home)
	t.Setenv("LC_ALL", "C")
	app := test.NewTempApp(t)
	clock := time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)
	opt.Store, opt.Record, opt.how = ownStore(home), true, hurried
	opt.Tick = func(func()) func() { return func() {} }                         // tests tick themselves
	opt.Now = func() time.Time { clock = clock.Add(time.Second); return clock } // no two presses are a double click
	w, err := New(app, opt)
	require.NoError(t, err)
	w.win.Resize(opt.Size)
	w.refresh()
	t.Cleanup(func() {
		w.file.end()
		w.win.Close()
		if opt.Worker == nil {
			return // what a job of its own goroutine draws on is that goroutine's until it ends
		}
		w.view.ground, *w.view.surface = nil, panel.Surface{Raster: w.view.surface.Raster}
		for _, p := range w.panes { // the toolkit keeps what it drew of a closed window for long
			*p.Surface = panel.Surface{Raster: p.Surface.Raster}
		}
	})
	return &seat{Window: w, t: t, home: home}
}

// example writes an example plan into a folder and returns its path.
func example(t testing.TB, name string) string {
	t.Helper()
	data, err := fs.ReadFile(assets.Plans(), name+extension)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), name+extension)
	require.NoError(t, os.WriteFile(path, data, 0o644))
	return path
}

// texts are the texts a panel shows, as one string.
func texts(p *panel.Pane) string { return strings.Join(p.Record.Texts(), "\n") }

// click presses the hit of a panel.
func (s *seat) click(p *panel.Pane, id string) {
	s.t.Helper()
	i := p.Find(id)
	require.GreaterOrEqual(s.t, i, 0, "%s has nothing called %q: %v", p.Name, id, ids(p))
	h := p.Hits[i]
	test.TapAt(p, fyne.NewPos(float32(h.X0+h.X1)/2, float32(h.Y0+h.Y1)/2))
}

func ids(p *panel.Pane) []string {
	var out []string
	for _, h := range p.Hits {
		out = append(out, h.ID)
	}
	return out
}

// at is the place of the board where a point of the plan lies.
func (s *seat) at(x, y float64) fyne.Position {
	v := s.board.View()
	return fyne.NewPos(float32(v.W/2+(x-v.Middle.X)*v.PerM), float32(v.H/2-(y-v.Middle.Y)*v.PerM))
}

func (s *seat) press(x, y float64) {
	pos := s.at(x, y)
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = pos
	s.view.MouseMoved(e)
	s.view.MouseDown(e)
	s.view.MouseUp(e)
}

func (s *seat) drag(x0, y0, x1, y1 float64) {
	e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
	e.Position = s.at(x0, y0)
	s.view.MouseMoved(e)
	s.view.MouseDown(e)
	for i := 1; i <= 5; i++ {
		f := float64(i) / 5
		d := &fyne.DragEvent{}
		d.Position = s.at(x0+(x1-x0)*f, y0+(y1-y0)*f)
		s.view.Dragged(d)
	}
	e.Position = s.at(x1, y1)
	s.view.MouseUp(e)
	s.view.DragEnd()
}

// keys types characters, or presses a key named in <>.
func (s *seat) keys(all ...string) {
	for _, k := range all {
		if name, ok := strings.CutPrefix(k, "<"); ok {
			s.focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyName(strings.TrimSuffix(name, ">"))})
			continue
		}
		for _, r := range k {
			s.focused().TypedRune(r)
		}
	}
}

func (s *seat) focused() fyne.Focusable {
	f := s.win.Canvas().Focused()
	require.NotNil(s.t, f, "nothing has the keys")
	return f
}

// ctrl presses a key with Ctrl where the keys go.
func (s *seat) ctrl(k fyne.KeyName) {
	var sh fyne.Shortcut = &desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierControl}
	switch k {
	case fyne.KeyZ:
		sh = &fyne.ShortcutUndo{}
	case fyne.KeyA:
		sh = &fyne.ShortcutSelectAll{}
	}
	f, ok := s.focused().(fyne.Shortcutable)
	require.True(s.t, ok)
	f.TypedShortcut(sh)
}

// inline is a worker that does every job at once on the caller's goroutine.
type inline struct{}

func (inline) Do(_ string, draw func() func()) {
	if show := draw(); show != nil {
		show()
	}
}

func (inline) Close() {}

// overwritesNothingByEnter chooses the name of a file that is there already: Enter asks for
// another one, and the file stays as it is.
func (s *seat) overwritesNothingByEnter(name string) {
	s.t.Helper()
	path := filepath.Join(s.home, name)
	require.NoError(s.t, os.WriteFile(path, []byte("mine"), 0o600))
	s.choosing.Name.SetText(path)
	s.keys("<Return>")
	require.NotNil(s.t, s.asking)
	s.keys("<Return>")
	require.NotNil(s.t, s.choosing, "another name is asked for")
	s.choosing.Close()
	data, err := os.ReadFile(path)
	require.NoError(s.t, err)
	assert.Equal(s.t, "mine", string(data))
}
