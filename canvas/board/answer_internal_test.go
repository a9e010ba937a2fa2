package board

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// seated is a board with the plan of the redirect, seen whole.
func seated(t *testing.T) *Board {
	b, err := New(nil, Options{})
	require.NoError(t, err)
	b.Handle(Resize{W: 1000, H: 760})
	at := func(x, y float64) (float64, float64) { return b.view.ToPen(plan.Point{X: x, Y: y}) }
	put := func(key rune, x, y float64) {
		px, py := at(x, y)
		b.Handle(Rune{R: key})
		b.Handle(PointerMove{X: px, Y: py})
		b.Handle(PointerDown{X: px, Y: py})
		b.Handle(PointerUp{X: px, Y: py})
		b.Handle(Key{Name: "Escape"})
		b.Handle(Key{Name: "Escape"})
	}
	put('v', 5.5, 8.5)
	put('v', 32.5, 7.5)
	put('a', 24, 19.5)
	put('a', 12, 21.5)
	b.Handle(Command{ID: "start.redirect"})
	require.NotEmpty(t, b.plan.Rigs[0].Lines)
	b.Handle(Key{Name: "Escape"})
	b.Handle(Key{Name: "Escape"})
	return b
}

// Pointing about computes nothing: the answer of a plan is found by the plan
// itself, whatever tool is armed and whatever is under the pointer.
func TestPointingComputesNothing(t *testing.T) {
	b := seated(t)
	b.Answer()
	for _, tool := range Tools() {
		t.Run("tool "+string(tool), func(t *testing.T) {
			b.Arm(tool)
			b.Answer()
			kept := slices.Clone(b.pulls)
			for x := 10.0; x < 1000; x += 7 {
				for y := 10.0; y < 760; y += 41 {
					b.Handle(PointerMove{X: x, Y: y})
					b.Overlay()
					b.HoverPart()
					b.Answer()
				}
			}
			require.Equal(t, len(kept), len(b.pulls))
			for i := range kept {
				assert.Same(t, kept[i].answer, b.pulls[i].answer)
			}
			b.Handle(Key{Name: "Escape"})
			b.Handle(Key{Name: "Escape"})
		})
	}
}

// A frame of a drag computes its plan once, however often it is asked for, and
// coming back to a plan that was computed computes nothing.
func TestOneAnswerForAPlan(t *testing.T) {
	b := seated(t)
	before := b.Answer()
	x, y := b.view.ToPen(plan.Point{X: 12, Y: 21.5})
	b.Handle(PointerMove{X: x, Y: y})
	b.Handle(PointerDown{X: x, Y: y})
	b.Handle(PointerMove{X: x + 50, Y: y})
	shown := b.Answer()
	require.NotSame(t, before, shown)
	assert.Same(t, shown, b.Answer())
	b.Handle(Key{Name: "Escape"})
	assert.Same(t, before, b.Answer(), "cancelled, the plan's own answer still stands")
	b.Handle(PointerDown{X: x, Y: y})
	b.Handle(PointerMove{X: x + 50, Y: y})
	moved := b.Answer()
	b.Handle(PointerUp{X: x + 50, Y: y})
	after := b.Answer()
	assert.Equal(t, moved.Parts, after.Parts, "preview = release, to the digit")
	b.Undo()
	assert.Same(t, before, b.Answer(), "undone, it is found again")
}

// Names and hook-on points are kept by plan, rig and words: none is old.
func TestKeptNamesFollowThePlan(t *testing.T) {
	b := seated(t)
	require.Equal(t, "Tree 2", b.name("T2"))
	n := len(b.spots())
	require.NoError(t, b.Set("T2", "name", "Old pine"))
	assert.Equal(t, "Old pine", b.name("T2"))
	found := false
	for _, s := range b.spots() {
		found = found || s.name == "Old pine"
	}
	assert.True(t, found)
	b.Select("T2")
	b.Handle(Key{Name: "Delete"})
	assert.Len(t, b.spots(), n-1)
	b.Undo()
	assert.Len(t, b.spots(), n)
	p := b.words.Names(b.plan, b.rig)
	for _, id := range thingIDs(b.plan, b.at().Rig) {
		assert.Equal(t, p(id), b.naming()(id))
	}
}
