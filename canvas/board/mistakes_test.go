package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// The mistakes that the design's storyboard A says to forgive, one test each.

func rigged(t *testing.T) *hand {
	h := sit(t, nil)
	site(h)
	h.keys("<Escape>")
	return h
}

// straight leads the line of the storyboard from the winch to the casualty.
func straight(h *hand) {
	h.keys("l")
	h.drag(fairlead, [2]float64{20, 8}, front)
}

func bendOnTree(h *hand) {
	h.drag([2]float64{(fairlead[0] + front[0]) / 2, (fairlead[1] + front[1]) / 2}, [2]float64{22, 14}, [2]float64{23.5, 18.5})
}

func TestLineBegunAtTheCasualty(t *testing.T) {
	h := rigged(t)
	h.keys("l")
	h.drag(front, [2]float64{20, 8}, fairlead)
	other := rigged(t)
	straight(other)
	assert.Equal(t, other.bytes(), h.bytes(), "it starts at the winch all the same")
	assert.Equal(t, plan.PortWinch, h.b.Plan().Rigs[0].Lines[0].Path[0].Point)
}

func TestReleaseOnEmptyGroundGoesOn(t *testing.T) {
	h := rigged(t)
	before := h.b.Plan()
	h.keys("l")
	h.drag(fairlead, [2]float64{25, 14}, [2]float64{20, 16})
	assert.True(t, before == h.b.Plan(), "nothing is added yet")
	assert.Equal(t, "loose end", h.b.Prompt())
	assert.Equal(t, board.ToolLine, h.b.Tool())
	h.click(front[0], front[1])
	h.keys("<Enter>")
	other := rigged(t)
	straight(other)
	assert.Equal(t, other.bytes(), h.bytes())

	h = rigged(t)
	h.keys("l")
	h.drag(fairlead, [2]float64{20, 16})
	h.drag([2]float64{20, 16}, front)
	assert.Equal(t, other.bytes(), h.bytes(), "a drag goes on too")
}

func TestMassInTonnesWithComma(t *testing.T) {
	h := sit(t, nil)
	h.keys("v")
	h.click(5.5, 8.5)
	h.keys("2,45 t", "<Enter>")
	require.Nil(t, h.b.Question())
	near(t, 2450, float64(h.b.Plan().Site.Vehicles[0].Mass), 1e-9, "mass")
}

func TestRefusedEntryKeepsItsText(t *testing.T) {
	h := sit(t, nil)
	h.keys("v")
	h.click(5.5, 8.5)
	h.keys("2.450 t", "<Enter>") // 2 tonnes or 2 450 of them
	q := h.b.Question()
	require.NotNil(t, q)
	assert.Equal(t, "2.450 t", q.Text)
	assert.NotEmpty(t, q.Error)
	assert.Equal(t, q.Error, h.b.Prompt())
	assert.Zero(t, h.b.Plan().Site.Vehicles[0].Mass)
	before := h.b.Plan()
	h.click(20, 10)
	require.NotNil(t, h.b.Question(), "a click on the board does not lose it")
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	h.keys("<Backspace>", "<Backspace>", "<Backspace>", "<Backspace>", "<Backspace>", "5 t", "<Enter>")
	require.Nil(t, h.b.Question())
	near(t, 2500, float64(h.b.Plan().Site.Vehicles[0].Mass), 1e-9, "mass") // 2.5 t
}

func TestDoubleClickClosesWithoutSeventhCorner(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	for _, c := range boulder[:5] {
		h.click(c[0], c[1])
	}
	h.doubleClick(boulder[5][0], boulder[5][1])
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	assert.Len(t, h.b.Plan().Site.Obstacles[0].Outline, 6)
	assert.Equal(t, 1, undoSteps(h.b))
}

func TestBendDroppedOnTheBoulder(t *testing.T) {
	h := rigged(t)
	straight(h)
	before := h.b.Plan()
	h.drag([2]float64{(fairlead[0] + front[0]) / 2, (fairlead[1] + front[1]) / 2}, [2]float64{19, 9.5}, [2]float64{18.5, 8})
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	assert.Equal(t, "Boulder 1 may serve as anchor: no. Change?", h.b.Prompt())
	assert.Equal(t, []plan.ID{"O1"}, h.b.Selection())
	h.keys("<Tab>", "y", "<Enter>")
	require.True(t, h.b.Plan().Site.Obstacles[0].Anchor)
	h.drag([2]float64{(fairlead[0] + front[0]) / 2, (fairlead[1] + front[1]) / 2}, [2]float64{19, 9.5}, [2]float64{18.5, 8})
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Slings, 1, "now it takes the block")
	assert.Equal(t, plan.ID("O1"), r.Slings[0].On.Thing)
}

func TestBendDroppedNowhere(t *testing.T) {
	h := rigged(t)
	straight(h)
	before := h.b.Plan()
	h.drag([2]float64{(fairlead[0] + front[0]) / 2, (fairlead[1] + front[1]) / 2}, [2]float64{20, 14})
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	assert.Equal(t, "Drag a stretch on to an anchor to redirect the line there", h.b.Prompt())
}

func TestEscapeInMidDrag(t *testing.T) {
	h := rigged(t)
	straight(h)
	before, undo := h.b.Plan(), h.b.UndoName()
	x, y := (fairlead[0]+front[0])/2, (fairlead[1]+front[1])/2
	h.move(x, y)
	h.down(x, y)
	h.move(23.5, 18.5)
	require.False(t, before == h.b.Shown(), "something is previewed")
	h.keys("<Escape>")
	assert.True(t, before == h.b.Shown(), "nothing is previewed")
	h.up(23.5, 18.5)
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	assert.Equal(t, undo, h.b.UndoName())

	h.move(24, 19.5)
	h.down(24, 19.5) // a tree in mid-drag
	h.move(26, 21)
	assert.Equal(t, plan.Point{X: 26, Y: 21}, h.b.Shown().Site.Anchors[0].At)
	h.keys("<Escape>")
	h.up(26, 21)
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
}

func TestEscapeCancelsThenSelectsThenDeselects(t *testing.T) {
	h := rigged(t)
	h.keys("o")
	h.click(1, 1)
	require.Len(t, h.b.Overlay().Rubber, 2)
	h.keys("<Escape>")
	assert.Equal(t, board.ToolObstacle, h.b.Tool(), "first the corner goes")
	h.keys("<Escape>")
	assert.Equal(t, board.ToolSelect, h.b.Tool())
	h.click(24, 19.5)
	require.Equal(t, []plan.ID{"T1"}, h.b.Selection())
	h.keys("<Escape>")
	assert.Empty(t, h.b.Selection())
}

func TestOutlineThatCrossesItselfIsRefused(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	for _, c := range [][2]float64{{10, 10}, {14, 14}, {14, 10}, {10, 14}} {
		h.click(c[0], c[1])
	}
	h.keys("<Enter>")
	assert.Empty(t, h.b.Plan().Site.Obstacles)
	assert.Contains(t, h.b.Prompt(), "No outline")
	h.keys("<Backspace>", "<Enter>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1, "the last corner taken back, it closes")
	assert.Len(t, h.b.Plan().Site.Obstacles[0].Outline, 3)
}

func TestClickIsNoMove(t *testing.T) {
	h := rigged(t)
	before := h.b.Plan()
	h.click(24.1, 19.6)
	h.click(5.2, 8.1)
	h.click(18, 8)
	h.drag([2]float64{24, 19.5}, [2]float64{26, 20}, [2]float64{24, 19.5})
	assert.True(t, before == h.b.Plan(), "nothing moves that was not moved")
}

// While a question has the keys, all that is marked is what is typed into it: the next key
// takes its place, and nothing on the board is selected.
func TestAllOfAnOpenQuestionIsItsText(t *testing.T) {
	for _, next := range [][]string{{"5", "6"}, {"<Backspace>", "5", "6"}} {
		h := rigged(t)
		h.keys("a")
		h.click(40, 20)
		was := h.b.Selection()
		h.keys("4", "9")
		h.b.Handle(board.Command{ID: "select-all"})
		require.NotNil(t, h.b.Question())
		assert.True(t, h.b.Question().Marked)
		assert.Equal(t, was, h.b.Selection())
		h.keys(next...)
		assert.Equal(t, "56", h.b.Question().Text)
		h.keys("<Enter>")
		near(t, 0.56, float64(h.b.Plan().Site.Anchors[3].Girth), 1e-12, "girth")
	}
}

// While a question has the keys, Backspace and Delete are its own.
func TestKeysOfAnOpenQuestionDeleteNothing(t *testing.T) {
	h := rigged(t)
	h.keys("a")
	h.click(40, 20)
	h.keys("4", "<Backspace>", "<Backspace>", "<Delete>", "<ArrowLeft>")
	require.NotNil(t, h.b.Question())
	require.Len(t, h.b.Plan().Site.Anchors, 4)
	h.keys("5", "6", "<Enter>")
	near(t, 0.56, float64(h.b.Plan().Site.Anchors[3].Girth), 1e-12, "girth")
	assert.Equal(t, plan.Point{X: 40, Y: 20}, h.b.Plan().Site.Anchors[3].At)
}
