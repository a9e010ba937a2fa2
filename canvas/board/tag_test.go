package board_test

import (
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// picture draws what the board shows and tells it where the labels lie.
func (h *hand) picture(mem *draw.Labels) {
	v := h.b.View()
	mem.Hand = h.b.LabelHand()
	s := draw.Scene{Plan: h.b.Shown(), Rig: h.b.Rig(), Answer: h.b.Answer(), Words: h.b.Words(), View: v, Overlay: h.b.Overlay(), Labels: mem}
	draw.Draw(&pen.Recorder{Hi: r2.Point{X: v.W, Y: v.H}}, &s)
	h.b.SetLabelBoxes(mem.Boxes)
}

func boxOf(t *testing.T, mem *draw.Labels, want func(l *draw.LabelBox) bool) draw.LabelBox {
	t.Helper()
	for i := range mem.Boxes {
		if want(&mem.Boxes[i]) {
			return mem.Boxes[i]
		}
	}
	require.Fail(t, "no such label")
	return draw.LabelBox{}
}

func middle(l draw.LabelBox) (x, y float64) { c := l.Box.Center(); return c.X, c.Y }

func TestTags(t *testing.T) {
	h := redirect(t)
	mem := &draw.Labels{}
	h.picture(mem)
	tag := boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Part == "B1" })
	x, y := middle(tag)
	before, plan0, generation := h.bytes(), h.b.Plan(), h.b.Generation()
	h.b.SetLabelBoxes(mem.Boxes)
	assert.Equal(t, generation, h.b.Generation(), "nothing is drawn anew for it")

	// pointed at, it shows its part
	h.b.Handle(board.PointerMove{X: x, Y: y})
	assert.Equal(t, "B1", h.b.HoverPart())
	assert.Equal(t, "B1", h.b.Overlay().HoverPart)
	assert.Equal(t, plan.ID("B1"), h.b.Overlay().Hover)

	// clicked, what it is about is selected; Shift adds
	h.b.Select("T1")
	h.b.Handle(board.PointerDown{X: x, Y: y, Mods: board.Mods{Shift: true}})
	h.b.Handle(board.PointerUp{X: x, Y: y, Mods: board.Mods{Shift: true}})
	assert.Equal(t, []plan.ID{"T1", "B1"}, h.b.Selection())
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerUp{X: x, Y: y})
	assert.Equal(t, []plan.ID{"B1"}, h.b.Selection())

	// dragged, it stays by hand, as a matter of the view
	h.keys("<Escape>")
	h.picture(mem)
	tag = boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Part == "B1" })
	x, y = middle(tag)
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerMove{X: x + 60, Y: y - 40})
	assert.Equal(t, "Let go where the tag is to stay; a double click gives it back", h.b.Prompt())
	h.picture(mem)
	near(t, x+60, first(middle(boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Key == tag.Key }))), 1e-6, "it follows")
	h.keys("<Escape>")
	assert.Empty(t, h.b.LabelHand(), "Escape leaves it where it was")
	h.b.Handle(board.PointerUp{X: x + 60, Y: y - 40})
	h.picture(mem)
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerMove{X: x + 30, Y: y})
	h.b.Handle(board.PointerUp{X: x + 60, Y: y - 40})
	require.Contains(t, h.b.LabelHand(), tag.Key)
	h.picture(mem)
	tag = boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Key == tag.Key })
	near(t, x+60, first(middle(tag)), 1e-6, "x")
	assert.Equal(t, before, h.bytes())
	assert.True(t, plan0 == h.b.Plan(), "no undo step")

	// a double click gives it back
	x, y = middle(tag)
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerUp{X: x, Y: y})
	h.b.Handle(board.PointerDown{X: x, Y: y, Clicks: 2})
	h.b.Handle(board.PointerUp{X: x, Y: y})
	assert.NotContains(t, h.b.LabelHand(), tag.Key)
	h.b.Handle(board.PointerDown{X: x, Y: y, Clicks: 2}) // nothing to give back: a click as any other
	h.b.Handle(board.PointerUp{X: x, Y: y})
	assert.True(t, plan0 == h.b.Plan())
}

func first(x, _ float64) float64 { return x }

func TestFlags(t *testing.T) {
	h := redirect(t)
	mem := &draw.Labels{}
	h.picture(mem)
	flag := boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Finding > 0 })
	f := h.b.Answer().Findings[flag.Finding-1]
	require.NotEmpty(t, f.Things)
	x, y := middle(flag)
	h.b.Handle(board.PointerMove{X: x, Y: y})
	assert.Equal(t, f.Key(), h.b.Overlay().Flagged)
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerUp{X: x, Y: y})
	assert.Equal(t, f.Things, h.b.Selection())
}

// A tool that places has no tags in its way, and what lies under none is met.
func TestTagsAreNotInTheWay(t *testing.T) {
	h := redirect(t)
	mem := &draw.Labels{}
	h.picture(mem)
	tag := boxOf(t, mem, func(l *draw.LabelBox) bool { return l.Part != "" })
	x, y := middle(tag)
	h.keys("n")
	h.b.Handle(board.PointerMove{X: x, Y: y})
	assert.Empty(t, h.b.Overlay().HoverPart)
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerUp{X: x, Y: y})
	assert.Len(t, h.b.Plan().Site.Notes, 1)
	require.NoError(t, h.b.Replace(board.Empty()))
	assert.Empty(t, h.b.LabelHand())
	h.b.Handle(board.PointerMove{X: x, Y: y})
	assert.Empty(t, h.b.HoverPart(), "another plan has none of the old one's tags")
}
