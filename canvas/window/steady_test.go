package window

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
)

// A window made narrow keeps its board and its verdict in sight: what was open
// beside the board does not lie down over it.
func TestNarrowedWindowKeepsItsBoardInSight(t *testing.T) {
	s := sitAt(t, 1300, 800, example(t, "redirect"))
	s.open = true
	s.win.Resize(fyne.NewSize(1000, 700))
	s.refresh()
	_, edge := s.narrow()
	require.True(t, edge)
	require.False(t, s.open)
	s.open = true // asked for, it opens, and stays open while the window is narrow
	s.win.Resize(fyne.NewSize(990, 700))
	s.refresh()
	require.True(t, s.open)
}

// Steady work is kept at least every half minute, however few edits it is.
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
	clock = clock.Add(mostTime)
	nudge()
	require.NotNil(t, s.file.kept)
}
