package solver

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/quantity"
)

// A sling of 10 kN at a stall of 10 kN that gives at 40 kN gives at 40 kN of line
// tension. What carries a thousand-millionth of the tension is slack: it has no
// place in the order, and need not be feared to give first.
func TestSlackPartsAreInNoOrder(t *testing.T) {
	sling := func(loadN, givesN quantity.Force) part.Part {
		return part.Part{Kind: part.KindSling, Stall: part.Load{Known: true, Force: loadN}, Ultimate: part.Range{Known: givesN > 0, Low: givesN}}
	}
	a := &concluding{}
	a.g = &rigging{}
	a.notes = &notes{out: &Assessment{First: -1, Stall: Pull{Known: true, Tension: 10e3},
		Parts: []part.Part{sling(1e-5, 40e3), sling(10e3, 40e3), sling(1e-5, 0), sling(10e3, 0)}}}
	a.order()
	require.Len(t, a.out.Order, 1)
	assert.Equal(t, 1, a.out.Order[0].Part)
	assert.InEpsilon(t, 40e3, float64(a.out.Order[0].Tension), 1e-12)
	assert.Equal(t, []int{3}, a.out.MayGive)
	assert.Equal(t, 1, a.out.First)
}
