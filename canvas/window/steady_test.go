package window

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/travel"
)

// A window made narrow keeps its board and its verdict in sight: what was open
// beside the board does not lie down over it.
func TestNarrowedWindowKeepsItsBoardInSight(t *testing.T) {
	s := sitAt(t, 1300, 800, example(t, "redirect"))
	s.shell.open = true
	s.win.Resize(fyne.NewSize(1000, 700))
	s.refresh()
	_, edge := s.shell.narrow()
	require.True(t, edge)
	require.False(t, s.shell.open)
	s.shell.open = true // asked for, it opens, and stays open while the window is narrow
	s.win.Resize(fyne.NewSize(990, 700))
	s.refresh()
	require.True(t, s.shell.open)
}

// Steady work is kept within five seconds, however few edits it is and however
// little rest there is between them.
func TestSteadyWorkIsKept(t *testing.T) {
	s := sitAt(t, 1300, 800, example(t, "redirect"))
	clock := time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC)
	s.opt.Now = func() time.Time { return clock }
	nudge := func() {
		s.board.Select("T2")
		s.board.Handle(board.Key{Name: "ArrowUp"})
		s.board.Select()
		s.file.changed()
	}
	nudge()
	require.Nil(t, s.file.kept)
	require.LessOrEqual(t, s.file.waits(clock), restTime)
	clock = clock.Add(mostTime - time.Second)
	nudge()
	require.Nil(t, s.file.kept)
	require.LessOrEqual(t, mostTime-time.Second+s.file.waits(clock), 5*time.Second)
	clock = clock.Add(time.Second)
	nudge()
	require.NotNil(t, s.file.kept)
}

// While what a drag leads to is being assessed, the window waits for nothing: of
// the moves since, the newest is shown, and letting go takes the last place.
func TestADragWaitsForNoAssessment(t *testing.T) {
	for _, c := range []struct {
		name string
		goOn int // moves after which the worker is let go on
		end  func(s *seat, to fyne.Position)
		want float64 // how far east the tree ends
	}{
		{"let go while it is assessed", 0, func(s *seat, to fyne.Position) {
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = to
			s.view.MouseUp(e)
		}, 4},
		{"let go later", 2, func(s *seat, to fyne.Position) {
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = to
			s.view.MouseUp(e)
		}, 4},
		{"given up while it is assessed", 1, func(s *seat, _ fyne.Position) { s.keys("<Escape>") }, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := sitAt(t, 1440, 900, example(t, "redirect"))
			s.focusBoard()
			work := &held{}
			s.worker = work
			tree := s.board.Plan().Site.Anchors[1] // of no rig, with nothing over it
			e := &desktop.MouseEvent{Button: desktop.MouseButtonPrimary}
			e.Position = s.at(tree.At.X, tree.At.Y)
			s.view.MouseMoved(e)
			s.view.MouseDown(e)
			for i := 1; i <= 4; i++ {
				d := &fyne.DragEvent{}
				d.Position = s.at(tree.At.X+float64(i), tree.At.Y)
				s.view.Dragged(d)
				if i == 1 {
					assert.True(t, s.view.asking, "the worker was asked, the window goes on")
				}
				if i == c.goOn {
					work.goOn()
					assert.False(t, s.view.asking)
					at, _ := s.board.Shown().Anchor(tree.ID)
					assert.InDelta(t, tree.At.X+float64(i), at.At.X, 1e-9, "the newest move is shown")
				}
			}
			c.end(s, s.at(tree.At.X+4, tree.At.Y))
			work.goOn()
			at, _ := s.board.Plan().Anchor(tree.ID)
			assert.InDelta(t, tree.At.X+c.want, at.At.X, 1e-9)
			assert.Same(t, s.board.Plan(), s.board.Shown())
			assert.Equal(t, travel.Whole(s.board.Plan(), s.board.Rig()), s.board.Answer(), "the answer is that of the plan")
		})
	}
}
