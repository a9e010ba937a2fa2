package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// The lesson runs on the board: on a plan of its own, a step at a time, each seen done by
// what is done on the board, by no press of Next; what was not saved is asked about first,
// and leaving it leaves the plan.
func TestTheLessonRunsOnTheBoard(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	s.press(10, -20) // nothing there
	s.commands.run("lesson")
	pane := s.lesson.pane
	require.True(t, pane.Visible())
	assert.True(t, s.board.Bare())
	assert.Equal(t, "Curlew Moss, lesson", s.board.Plan().Title)
	assert.Empty(t, s.file.path, "it is no file")
	saidDone := func() bool {
		s.refresh()
		said := texts(pane)
		require.NotEqual(t, strings.Contains(said, "not done yet"), strings.Contains(said, "\ndone"), said)
		return !strings.Contains(said, "not done yet")
	}
	answers := []string{"2500 kg", "hub", "0", "45 kN", "2400 kg", "120", "40", "alive"} // as the lesson says
	acts := []func(){
		func() { s.click(s.begin.pane, "begin "+board.StartRedirect) },
		func() {
			s.focusBoard() // a tap of the test takes the keys away
			for n := 0; s.board.Question() != nil; n++ {
				require.Less(t, n, len(answers))
				s.keys(answers[n], "<Return>")
			}
		},
		func() {
			for _, id := range ids(s.findings.pane) {
				if strings.HasPrefix(id, "finding ") && !strings.HasSuffix(id, "/there") {
					s.click(s.findings.pane, id)
					return
				}
			}
		},
		func() {
			v, ok := s.board.Plan().Vehicle("V2")
			require.True(t, ok)
			s.drag(v.At.X, v.At.Y, v.At.X+2, v.At.Y-1)
		},
		func() {
			s.travel.hand.Tapped(&fyne.PointEvent{Position: fyne.NewPos(s.travel.hand.Size().Width/2, 5)})
		},
		func() {
			require.NoError(t, s.board.Set("V2", "winch/control", plan.ControlWireless))
			s.commands.run("stand")
			var both []draw.PlaceMark
			for _, m := range s.board.Overlay().Places {
				if m.Number == 1 {
					both = append(both, m)
				}
			}
			require.Len(t, both, 2, "%s", s.board.Prompt())
			for _, m := range both {
				s.press(m.At.X, m.At.Y)
			}
		},
		func() { s.commands.run("print") },
	}
	require.Len(t, acts, len(lessonSteps))
	for i, act := range acts {
		assert.Contains(t, texts(pane), s.label("lesson-"+itoa(i+1)))
		assert.False(t, saidDone(), "step %d before", i+1)
		act()
		assert.True(t, saidDone(), "step %d", i+1)
		if i+1 < len(acts) {
			s.click(pane, "next")
		}
	}
	assert.True(t, pane.Visible(), "beside the sheets too")
	s.printer.close()
	p := s.board.Plan()
	s.click(pane, "back")
	assert.Contains(t, texts(pane), s.label("lesson-6"))
	s.click(pane, "leave")
	assert.False(t, pane.Visible())
	assert.Same(t, p, s.board.Plan())
	assert.True(t, s.file.dirty(), "and is asked about as any other")
	s.commands.run("lesson")
	require.NotNil(t, s.asking, "what is not saved")
	assert.Same(t, p, s.board.Plan())
}

// The keys alone reach the steps, and another plan ends the lesson.
func TestTheLessonByKeys(t *testing.T) {
	s := sitAt(t, 1024, 640, "")
	s.commands.run("lesson")
	require.True(t, s.lesson.pane.Visible())
	for n := 0; s.focused() != fyne.Focusable(s.lesson.pane); n++ {
		require.Less(t, n, 30)
		s.nextRegion(1)
	}
	s.lesson.pane.Focus = "next"
	s.lesson.pane.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, 1, s.lesson.at)
	s.lesson.pane.Focus = "back"
	s.lesson.pane.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, 0, s.lesson.at)
	view := s.view.Size().Height
	s.file.openExample("doubled")
	assert.False(t, s.lesson.pane.Visible())
	assert.Greater(t, s.view.Size().Height, view, "the board has its room again")
	assert.NotEqual(t, plan.ID(""), s.board.Rig())
}
