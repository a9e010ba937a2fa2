package solver

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
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

// Of what moves before the casualty does the one that does so soonest is read first,
// whether it slides or turns meanwhile. (the rule's own words; shares made up)
func TestWhatMovesSoonestIsReadFirst(t *testing.T) {
	for _, tt := range []struct {
		turns, slides, tips float64 // shares of the three
		first               string
	}{{1.1, 1.9, 1.3, "vehicle-slides"}, {1.9, 1.1, 1.3, "vehicle-turns"}, {1.1, 1.3, 1.9, "tips-sideways"}} {
		a := &Assessment{}
		var found []part.Finding
		for _, m := range []struct {
			id    plan.ID
			rule  string
			kind  part.Kind
			share float64
		}{{"V2", "vehicle-turns", part.KindSlide, tt.turns}, {"V3", "vehicle-slides", part.KindSlide, tt.slides}, {"V1", "tips-sideways", part.KindTip, tt.tips}} {
			a.Parts = append(a.Parts, part.Part{Kind: m.kind, Thing: m.id, Status: part.Over, Used: m.share,
				Move: part.Load{Known: true, Force: quantity.Force(m.share)}, Limit: part.Limit{Known: true, Force: 1}})
			found = append(found, part.Finding{ID: m.rule, Level: part.Danger, Things: []plan.ID{m.id}})
		}
		assert.Equal(t, tt.first, a.Sorted(found)[0].ID)
	}
}
