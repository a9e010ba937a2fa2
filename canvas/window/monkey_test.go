package window

import (
	"math/rand/v2"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"

	"kedge/canvas/panel"
)

// Whatever is pressed, dragged and typed, in whatever order, nothing falls
// over, no figure is NaN, and the plan stays one that can be saved.
func TestAnythingPressedInAnyOrder(t *testing.T) {
	for seed := range uint64(3) {
		s := sitAt(t, []float32{1440, 1024, 1150}[seed%3], []float32{900, 640, 800}[seed%3], example(t, []string{"redirect", "straight", "doubled"}[seed%3]))
		s.anything(seed, 200, func() {})
		left, err := filepath.Glob(filepath.Join(s.home, ".kedge*"))
		require.NoError(t, err)
		require.Empty(t, left)
	}
}

// So it is while work goes on beside: drawing, assessing, writing and what is kept
// for a crash, on the goroutines of a real window.
func TestAnythingPressedWhileWorkGoesOn(t *testing.T) {
	var mu sync.Mutex
	var waits []func()
	s := sitWith(t, t.TempDir(), Options{Size: fyne.NewSize(1024, 640), File: example(t, "redirect"), OnUI: func(do func()) {
		mu.Lock()
		defer mu.Unlock()
		waits = append(waits, do)
	}})
	done := 0
	s.anything(1, 100, func() {
		mu.Lock()
		now := waits
		waits = nil
		mu.Unlock()
		for _, do := range now {
			do()
		}
		done += len(now)
	})
	s.worker.Close()
	s.slow.Close()
	s.keeper.Close()
	require.Positive(t, done, "work went on beside")
}

// anything does so many steps of whatever a person could; what is meanwhile is
// done before each.
func (s *seat) anything(seed uint64, steps int, meanwhile func()) {
	t, r := s.t, rand.New(rand.NewPCG(seed, 7))
	keys := []fyne.KeyName{fyne.KeyTab, fyne.KeyReturn, fyne.KeyEscape, fyne.KeyLeft, fyne.KeyUp, fyne.KeyDelete, fyne.KeyBackspace, fyne.KeyF2, fyne.KeyF6, fyne.KeySpace}
	for step := range steps {
		meanwhile()
		place := fyne.NewPos(r.Float32()*s.view.Size().Width, r.Float32()*s.view.Size().Height)
		switch r.IntN(7) {
		case 0: // something that can be pressed
			panes := s.panes
			if s.asking != nil {
				panes = []*panel.Pane{s.asking.Pane}
			} else if s.choosing != nil {
				panes = s.choosing.Parts
			} else if s.finding != nil {
				panes = []*panel.Pane{s.finding.List}
			}
			p := panes[r.IntN(len(panes))]
			if len(p.Hits) == 0 || p.Scroll == nil && !p.Visible() {
				continue
			}
			h := p.Hits[r.IntN(len(p.Hits))]
			test.TapAt(p, fyne.NewPos(float32(h.X0+h.X1)/2, float32(h.Y0+h.Y1)/2))
		case 1:
			if s.busy() {
				continue
			}
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = place
			s.view.MouseMoved(e)
			s.view.MouseDown(e)
			if r.IntN(2) == 0 {
				d := &fyne.DragEvent{}
				d.Position = fyne.NewPos(r.Float32()*s.view.Size().Width, r.Float32()*s.view.Size().Height)
				s.view.Dragged(d)
				e.Position = d.Position
			}
			s.view.MouseUp(e)
			s.view.DragEnd()
		case 2:
			e := &desktop.MouseEvent{}
			e.Position = place
			s.view.MouseMoved(e)
		case 3:
			if f := s.win.Canvas().Focused(); f != nil {
				f.TypedKey(&fyne.KeyEvent{Name: keys[r.IntN(len(keys))]})
			}
		case 4:
			if f := s.win.Canvas().Focused(); f != nil {
				f.TypedRune(rune("vabsldopgmn12.5;?khw[] "[r.IntN(23)]))
			}
		case 5:
			if s.busy() {
				continue
			}
			list := s.board.Commands()
			s.commands.run(list[r.IntN(len(list))].ID)
		case 6:
			sc := &fyne.ScrollEvent{}
			sc.Position, sc.Scrolled.DY = place, float32(r.IntN(3)-1)*wheelPx
			s.view.Scrolled(sc)
		}
		for _, p := range s.panes {
			require.NotContains(t, texts(p), "NaN", "seed %d step %d: %s", seed, step, p.Name)
			require.NotContains(t, strings.ToLower(texts(p)), "+inf", "seed %d step %d: %s", seed, step, p.Name)
		}
		require.NoError(t, plan.Validate(s.board.Plan()), "seed %d step %d", seed, step)
	}
}
