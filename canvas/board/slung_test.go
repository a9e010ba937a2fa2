package board_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

func hyp(x, y float64) float64 { return math.Hypot(x, y) }

func nodeOf(h *hand, id plan.ID) (plan.Point, bool) {
	for _, n := range h.b.Answer().Nodes {
		if n.Thing == id {
			return plan.Point{X: n.At.X, Y: n.At.Y}, true
		}
	}
	return plan.Point{}, false
}

func redirect(t *testing.T) *hand {
	h := rigged(t)
	straight(h)
	bendOnTree(h)
	h.keys("<Escape>")
	require.Len(t, h.b.Plan().Rigs[0].Blocks, 1)
	return h
}

// A slung block is not moved: its ghost says what sling its place would need.
// Sling lengths: L = 2r·(cot h + π/2 + h), sin h = r/a, for a trunk of 0.48 m
// (closed form, see package gear).
func TestSlungBlockUnderThePointer(t *testing.T) {
	h := redirect(t)
	before := h.b.Plan()
	at, _ := nodeOf(h, "B1")
	h.move(at.X, at.Y)
	h.down(at.X, at.Y)
	const reach = 1.6 // metres from the trunk's middle
	dx, dy := at.X-24, at.Y-19.5
	l := hyp(dx, dy)
	x, y := 24+dx*reach/l, 19.5+dy*reach/l
	h.move(x, y)
	o := h.b.Overlay()
	require.NotNil(t, o.Ghost)
	half := math.Asin(0.24 / reach)
	need := 2 * 0.24 * (1/math.Tan(half) + math.Pi/2 + half)
	assert.InDelta(t, 3.99, need, 0.01)
	assert.Contains(t, plain(o.Ghost.Label), "needs a ")
	assert.Contains(t, plain(o.Ghost.Label), "now 3")
	require.NotEmpty(t, o.Arcs)
	shown := bytesOf(t, h.b.Shown())
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	require.NotEqual(t, bytesOf(t, before), shown, "within 12 px of the arc of 4 m it is shown with 4 m")
	preview := h.b.Answer()
	h.up(x, y)
	assert.Equal(t, shown, h.bytes())
	assert.Equal(t, preview.Parts, h.b.Answer().Parts, "preview = release, to the digit")
	near(t, 4, float64(h.b.Plan().Rigs[0].Slings[0].Length), 0, "sling")
	assert.Equal(t, "Length of Sling 1", h.b.UndoName())

	h.b.Undo()
	h.move(at.X, at.Y)
	h.down(at.X, at.Y)
	h.move(21, 14)
	h.up(21, 14)
	assert.True(t, before == h.b.Plan(), "let go anywhere else nothing is done")
	assert.Equal(t, "Block 1 lies where the forces put it. Drag to a ring for a longer sling, or to another anchor.", h.b.Prompt())
}

func TestBlockHungElsewhere(t *testing.T) {
	h := redirect(t)
	at, _ := nodeOf(h, "B1")
	h.move(at.X, at.Y)
	h.down(at.X, at.Y)
	h.move(18, 20)
	h.move(12.3, 21)
	shown := bytesOf(t, h.b.Shown())
	assert.NotNil(t, h.b.Overlay().Moved, "it jumped by more than half a metre")
	h.up(12.3, 21)
	assert.Equal(t, shown, h.bytes())
	s := h.b.Plan().Rigs[0].Slings
	require.Len(t, s, 1)
	assert.Equal(t, plan.ID("T2"), s[0].On.Thing)
	// The shortest sling of the kit that opens under 60° round 0.34 m: 1.5 m opens 44°,
	// from cot h + h = 1.5/0.34 − π/2 = 2.841, h = 22.2° (closed form).
	near(t, 1.5, float64(s[0].Length), 0, "sling")
	assert.Len(t, h.b.Plan().Rigs[0].Shackles, 1)
	h.b.Undo()
	assert.Equal(t, plan.ID("T1"), h.b.Plan().Rigs[0].Slings[0].On.Thing)
}

func TestBlockFixedWithCtrl(t *testing.T) {
	h := redirect(t)
	at, _ := nodeOf(h, "B1")
	ctrl := board.Mods{Ctrl: true}
	h.move(at.X, at.Y)
	h.down(at.X, at.Y, ctrl)
	h.move(6, 9, ctrl)
	h.move(2.9, 8.5, ctrl) // the casualty's rear point
	assert.Equal(t, "fix the block here", h.b.Prompt())
	h.up(2.9, 8.5, ctrl)
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Blocks, 1)
	assert.Equal(t, plan.Port{Thing: "V1", Point: "rear"}, r.Blocks[0].Fixed)
	assert.Empty(t, r.Slings)
	require.Len(t, r.Shackles, 1)
	assert.ElementsMatch(t, []plan.Port{{Thing: "V1", Point: "rear"}, {Thing: "B1"}}, r.Shackles[0].Joins)
	assert.Equal(t, "Fix Block 1", h.b.UndoName())
}

func TestDeletedBlockLeavesTheLineWithItsSlingAndShackle(t *testing.T) {
	h := rigged(t)
	straight(h)
	whole := h.bytes()
	bendOnTree(h)
	h.keys("<Escape>")
	at, _ := nodeOf(h, "B1")
	h.click(at.X, at.Y)
	require.Equal(t, []plan.ID{"B1"}, h.b.Selection())
	h.keys("<Delete>")
	assert.Equal(t, whole, h.bytes())
	assert.Equal(t, "Delete Block 1", h.b.UndoName())
}

func TestDeletedAnchorLeavesWhatHungOnItLoose(t *testing.T) {
	h := redirect(t)
	h.b.Select("T1")
	h.keys("<Delete>")
	r := h.b.Plan().Rigs[0]
	assert.Len(t, h.b.Plan().Site.Anchors, 2)
	require.Len(t, r.Slings, 1)
	assert.True(t, r.Slings[0].On.IsZero())
	assert.Equal(t, plan.ID("B1"), r.Slings[0].Holds.Thing)
	require.Len(t, r.Lines, 1)
	assert.Len(t, r.Lines[0].Path, 3)
	h.b.Undo()
	assert.Equal(t, plan.ID("T1"), h.b.Plan().Rigs[0].Slings[0].On.Thing)
}

func TestDeletedVehicleTakesItsLineAlong(t *testing.T) {
	h := redirect(t)
	h.keys("d")
	h.click(27, 12.8)
	require.Len(t, h.b.Plan().Rigs[0].Dampers, 1)
	h.keys("<Escape>")
	h.b.Select("V2")
	h.keys("<Delete>")
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Lines, 1, "from the block to the casualty there is still a line")
	assert.Empty(t, r.Dampers, "the damper lay on the stretch that went")
	h.b.Select("V1")
	h.keys("<Delete>")
	assert.Empty(t, h.b.Plan().Rigs[0].Lines, "with one point left there is none")
}

func TestLineEndHungElsewhere(t *testing.T) {
	h := rigged(t)
	straight(h)
	require.Equal(t, []plan.ID{"L1"}, h.b.Selection())
	h.drag(front, [2]float64{10, 5}, [2]float64{2.9, 8.5})
	assert.Equal(t, plan.Port{Thing: "V1", Point: "rear"}, h.b.Plan().Rigs[0].Lines[0].Path[1])
	assert.Equal(t, "Re-hang line", h.b.UndoName())
	before := h.b.Plan()
	h.drag([2]float64{2.9, 8.5}, [2]float64{4, 14})
	assert.True(t, before == h.b.Plan(), "the plan is untouched")
	assert.Equal(t, "Loose end: the line stays where it was", h.b.Prompt())
	h.drag([2]float64{2.9, 8.5}, [2]float64{8, 15}, [2]float64{12, 21.2}) // on to a tree: in a sling
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Slings, 1)
	require.Len(t, r.Shackles, 1)
	end := plan.Port{Thing: r.Shackles[0].ID}
	assert.Equal(t, end, r.Lines[0].Path[1], "in a shackle")
	assert.Equal(t, end, r.Slings[0].Holds, "that a sling holds")
	assert.Equal(t, plan.ID("T2"), r.Slings[0].On.Thing)
	at, ok := nodeOf(h, r.Shackles[0].ID)
	require.True(t, ok)
	h.drag([2]float64{at.X, at.Y}, [2]float64{8, 12}, front)
	assert.Equal(t, plan.Port{Thing: "V1", Point: "front"}, h.b.Plan().Rigs[0].Lines[0].Path[1])
	assert.Empty(t, h.b.Plan().Rigs[0].Slings, "the sling that only held the line's end goes with it")
	assert.Empty(t, h.b.Plan().Rigs[0].Shackles)
}

// A line from a winch to a trunk ends in a shackle that a sling holds, and the
// trunk is pulled with what the winch pulls.
func TestLineThatEndsAtATrunk(t *testing.T) {
	h := rigged(t)
	h.keys("l")
	h.drag(fairlead, [2]float64{27, 14}, [2]float64{24, 19.4})
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Lines, 1)
	require.Len(t, r.Slings, 1)
	require.Len(t, r.Shackles, 1)
	assert.Equal(t, "Added: shackle, sling 3 m (undo: Ctrl+Z)", plain(h.b.Prompt()))
	a := h.b.Answer()
	require.Len(t, a.Stretches, 1)
	// The apex lies 1.097 m from the trunk's middle (closed form, see package
	// gear), on the way from the fairlead, a little under the winch's height.
	near(t, hyp(24-29.95, 19.5-7.6)-1.097, hyp(a.Stretches[0].B.X-29.95, a.Stretches[0].B.Y-7.6), 0.02, "length")
}
