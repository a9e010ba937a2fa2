package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// While a stretch is bent over open ground the loads are those of the rig with
// something that holds at that place, to the digit; let go there it is as it
// was. By keyboard the same is shown.
func TestBentInOpenAir(t *testing.T) {
	h, k := rigged1(t), rigged1(t)
	before := h.b.Plan()
	x, y := (fairlead[0]+front[0])/2, (fairlead[1]+front[1])/2
	h.move(x, y)
	h.down(x, y)
	h.move(22, 14)
	air := h.b.Answer()
	require.True(t, air.Move.Known)
	assert.True(t, h.b.Overlay().Preview)
	assert.True(t, before == h.b.Plan())

	k.keys("h", "22;14", "<Enter>")
	assert.Equal(t, bytesOf(t, h.b.Shown()), bytesOf(t, k.b.Shown()), "the keys show the same")

	q := *before // the same with a point there that holds
	q.Site.Anchors = append(q.Site.Anchors[:len(q.Site.Anchors):len(q.Site.Anchors)], plan.Anchor{Head: plan.Head{ID: "A1"}, Kind: plan.AnchorRated, At: plan.Point{X: 22, Y: 14}, Rating: plan.Rating{Force: 80e3, Basis: plan.BasisWorking}})
	held := sit(t, &q)
	held.drag([2]float64{x, y}, [2]float64{22, 12}, [2]float64{22, 14})
	require.Len(t, held.b.Plan().Rigs[0].Blocks, 1)
	assert.Equal(t, plan.ID("A1"), held.b.Plan().Rigs[0].Blocks[0].Fixed.Thing)
	for _, id := range []string{"L1/1", "L1/2", "B1"} {
		want, ok := held.b.Answer().Part(id)
		require.True(t, ok)
		got, ok := air.Part(id)
		require.True(t, ok)
		near(t, float64(want.Move.Force), float64(got.Move.Force), 1e-6*float64(want.Move.Force), id)
	}

	h.move(22, 14)
	h.up(22, 14)
	assert.True(t, before == h.b.Plan() && before == h.b.Shown(), "let go it is as it was")
	assert.Equal(t, "Draw line", h.b.UndoName())
	assert.Equal(t, "Drag a stretch on to an anchor to redirect the line there", h.b.Prompt())
	k.keys("<Enter>")
	assert.Equal(t, bytesOf(t, before), k.bytes(), "nothing is taken by the keys either")
	k.keys("<Escape>")
	assert.Equal(t, bytesOf(t, before), bytesOf(t, k.b.Shown()))
	assert.Equal(t, board.ToolSelect, k.b.Tool())
}
