package window

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"

	"kedge/canvas/panel"
)

// flat is what a panel shows with its lines joined and ordinary spaces.
func flat(p *panel.Pane) string {
	return strings.Join(strings.Fields(quantity.PlainSpaces(texts(p))), " ")
}

// The finding about a line that bears on something has a button for the ways
// round; arrows and presses look at them, the button or Enter takes one.
func TestWaysPanel(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "straight"))
	before := s.board.Plan()
	assert.False(t, s.ways.pane.Scroll.Visible())
	s.click(s.findings.pane, "finding line-bears L1 O1 L1/1/ways-round")
	require.True(t, s.ways.pane.Scroll.Visible())
	assert.False(t, s.findings.pane.Scroll.Visible(), "it lies over Findings")
	assert.False(t, s.details.pane.Scroll.Visible())
	assert.True(t, s.loads.pane.Scroll.Visible(), "the loads of what is looked at stay in sight")
	said := flat(s.ways.pane)
	for _, want := range []string{"Ways round", "1 Over Tree 1", "to move 29.4 kN at the winch · takes 31.1 m of line", "Winch vehicle sliding",
		"DANGER", "WARNING", "Take it", "Left out", "Over Tree 3 passes 0.4 m from Boulder 1, needs 1.0 m", "followed over 6.0 m of exit path"} {
		assert.Contains(t, said, want)
	}
	assert.True(t, before == s.board.Plan(), "nothing is taken yet")
	assert.False(t, before == s.board.Shown(), "it is looked at in place")
	assert.Contains(t, flat(s.frame.verdict), "preview")
	assert.Contains(t, flat(s.loads.pane), "Block 1")
	assert.Equal(t, fyne.Focusable(s.view), s.win.Canvas().Focused(), "the board has the keys")
	assert.Contains(t, quantity.PlainSpaces(flat(s.frame.status)), "Over Tree 1 · 1 of 1")

	s.click(s.frame.verdict, "more") // what is found of it, without its buttons: they are for the plan
	assert.True(t, s.ways.pane.Scroll.Visible())
	assert.True(t, s.findings.pane.Scroll.Visible())
	assert.False(t, s.loads.pane.Scroll.Visible())
	for _, h := range s.findings.pane.Hits {
		if strings.Contains(h.ID, "/add-damper") {
			assert.Equal(t, "Take the way first (Enter), then this is done to it", h.Why)
			test.TapAt(s.findings.pane, fyne.NewPos(float32(h.X0+h.X1)/2, float32(h.Y0+h.Y1)/2))
		}
	}
	assert.True(t, before == s.board.Plan())

	s.click(s.ways.pane, "way 0") // looked at already
	require.True(t, s.ways.pane.Scroll.Visible())
	shown := s.board.Shown()
	s.click(s.ways.pane, "take-way")
	assert.False(t, s.ways.pane.Scroll.Visible())
	assert.True(t, s.findings.pane.Scroll.Visible())
	assert.True(t, shown == s.board.Plan())
	require.Len(t, s.board.Plan().Rigs, 2)
	assert.Equal(t, plan.ID("R2"), s.board.Rig())
	assert.Equal(t, "Take way: Over Tree 1", quantity.PlainSpaces(s.board.UndoName()))
}

// By keys alone: W, Enter; and by the menu and Escape.
func TestWaysByKeysAndMenu(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "straight"))
	before := s.board.Plan()
	test.Type(s.view, "w")
	require.True(t, s.ways.pane.Scroll.Visible())
	s.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	s.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, s.ways.pane.Scroll.Visible())
	assert.True(t, before == s.board.Shown())

	var found bool
	for _, i := range s.menus.of("rig") {
		found = found || strings.HasPrefix(i.Label, "Find a way round…")
	}
	assert.True(t, found, "it stands in the menu of rigs")
	s.commands.run("ways")
	require.True(t, s.ways.pane.Scroll.Visible())
	s.win.Canvas().Focus(s.ways.pane)
	for _, k := range []fyne.KeyName{fyne.KeyEnd, fyne.KeyUp, fyne.KeyReturn} {
		s.ways.pane.TypedKey(&fyne.KeyEvent{Name: k})
	}
	assert.False(t, s.ways.pane.Scroll.Visible())
	require.Len(t, s.board.Plan().Rigs, 2)
	assert.Equal(t, fyne.Focusable(s.view), s.win.Canvas().Focused())
	s.commands.run("undo")
	assert.True(t, before == s.board.Plan())

	s.commands.run("ways")
	s.win.Canvas().Focus(s.ways.pane)
	s.ways.pane.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, s.ways.pane.Scroll.Visible())
	assert.Equal(t, fyne.Focusable(s.view), s.win.Canvas().Focused())
}

// What is about the plan as it is leaves the ways first; a larger text does not.
func TestCommandsLeaveTheWays(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "straight"))
	s.commands.run("ways")
	s.commands.run("field")
	require.True(t, s.ways.pane.Scroll.Visible())
	s.commands.run("fit")
	require.True(t, s.ways.pane.Scroll.Visible())
	s.commands.run("rename-rig")
	assert.False(t, s.ways.pane.Scroll.Visible())
	assert.Equal(t, plan.ID("R1"), s.board.Rig())
	s.commands.run("ways")
	s.commands.run("print")
	assert.False(t, s.ways.pane.Scroll.Visible())
	assert.True(t, s.board.Plan() == s.board.Shown())
}

// In a narrow window the list lies over the board, below the verdict, and what
// was open there before comes back.
func TestWaysNarrow(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1024, Height: 640}, {Width: 1150, Height: 760}} {
		s := sitAt(t, size.Width, size.Height, example(t, "straight"))
		open := s.shell.open
		s.commands.run("ways")
		require.True(t, s.ways.pane.Scroll.Visible())
		assert.False(t, s.findings.pane.Scroll.Visible())
		assert.False(t, s.frame.heads.Visible())
		assert.GreaterOrEqual(t, s.ways.pane.Scroll.Position().Y, float32(0))
		assert.LessOrEqual(t, s.ways.pane.Scroll.Position().X+s.ways.pane.Scroll.Size().Width, size.Width)
		s.view.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		assert.False(t, s.ways.pane.Scroll.Visible())
		assert.Equal(t, open, s.shell.open)
		s.commands.run("ways")
		s.commands.run("loads") // no room for both
		assert.False(t, s.ways.pane.Scroll.Visible())
		assert.True(t, s.loads.pane.Scroll.Visible())
		assert.True(t, s.board.Plan() == s.board.Shown())
	}
}

// Nothing to propose: a sentence says what is needed.
func TestNoWaysPanel(t *testing.T) {
	s := sitAt(t, 1440, 900, "")
	test.Type(s.view, "w")
	require.True(t, s.ways.pane.Scroll.Visible())
	assert.Contains(t, flat(s.ways.pane), "Place the vehicle to be moved")
	s.click(s.ways.pane, "close-ways")
	assert.False(t, s.ways.pane.Scroll.Visible())
}
