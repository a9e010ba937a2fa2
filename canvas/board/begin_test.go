package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Each way to begin puts a rig on the bare sheet in one undo step, which is computed once
// mass and depth are answered, and asks for its figures one after another; Enter skips
// one, Esc all.
func TestWaysToBegin(t *testing.T) {
	for _, kind := range board.Begins() {
		h := sit(t, plan.New())
		require.True(t, h.b.Bare())
		bare := h.b.Plan()
		h.do("begin." + kind)
		require.NotNil(t, h.b.Question(), kind)
		casualty := h.b.Plan().Casualty().ID
		assert.Equal(t, casualty, h.b.Question().Thing)
		assert.Equal(t, "mass_kg", h.b.Question().Member)
		h.keys("2450", "<Enter>", "hub", "<Enter>")
		assert.InDelta(t, 2450, float64(h.b.Plan().Casualty().Mass), 1e-9)
		assert.Equal(t, plan.DepthHub, h.b.Plan().Casualty().Stuck.Depth)
		asked := map[plan.ID]bool{}
		for n := 0; h.b.Question() != nil; n++ {
			require.Less(t, n, 20, "it comes to an end")
			asked[h.b.Question().Thing] = true
			h.keys("<Enter>")
		}
		for _, v := range h.b.Plan().Site.Vehicles {
			assert.True(t, v.ID == casualty || asked[v.ID], v.ID)
		}
		for _, a := range h.b.Plan().Site.Anchors {
			assert.True(t, asked[a.ID], a.ID)
		}
		a := h.drawn()
		assert.NotEqual(t, part.Refused, a.Status, "%s: %s", kind, a.Why)
		assert.True(t, a.Move.Known, kind)
		h.do("undo") // depth
		h.do("undo") // mass
		h.do("undo")
		assert.Same(t, bare, h.b.Plan(), "it is one step")

		h.do("begin." + kind)
		h.keys("<Escape>")
		assert.Nil(t, h.b.Question())
		assert.False(t, h.b.Bare())
		n := len(h.b.Plan().Site.Vehicles)
		h.do("begin." + kind)
		assert.Len(t, h.b.Plan().Site.Vehicles, n, "only on a bare sheet")
	}
}
