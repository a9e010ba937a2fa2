package doubt

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Two tags of one piece that were seen and differ contradict one another and set no rating,
// whichever is noted first; one that was seen does, whatever is told beside it.
func TestTagsThatDifferSetNoRating(t *testing.T) {
	m := example(t)
	tag := func(id plan.ID, force quantity.Force, known string) plan.Pin {
		return plan.Pin{ID: id, Kind: plan.PinTag, Thing: "S1", Known: known, Rating: plan.Rating{Force: force, Basis: plan.BasisBreaking}}
	}
	rated := func(pins ...plan.Pin) (quantity.Force, int) {
		m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Pins: pins})
		p, _ := dressed(m.plan, "R1")
		s, ok := p.Rigs[0].Sling("S1")
		require.True(t, ok)
		_, used := m.evidence(true, 0)
		return s.Rating.Force, len(Contradictions(used))
	}
	entered, _ := rated()
	a, b, told := tag("A", 31e3, plan.KnownObserved), tag("B", 62e3, plan.KnownObserved), tag("C", 93e3, plan.KnownTold)
	for _, pins := range [][]plan.Pin{{a, b}, {b, a}} {
		force, pairs := rated(pins...)
		assert.Equal(t, entered, force)
		assert.Equal(t, 1, pairs)
	}
	for _, pins := range [][]plan.Pin{{a, told}, {told, a}} {
		force, pairs := rated(pins...)
		assert.Equal(t, quantity.Force(31e3), force)
		assert.Equal(t, 1, pairs)
	}
	force, _ := rated(told)
	assert.Equal(t, entered, force)
	_, pairs := rated(a, tag("D", 31e3, plan.KnownObserved))
	assert.Zero(t, pairs)
}

// What was seen before the pull puts a prior where the handbook has it; told, three fifths
// of the way there: 2·0.8 - 1; assumed, nowhere.
func TestASeenWeaknessWeighsAsItIsKnown(t *testing.T) {
	m := example(t)
	i := slices.IndexFunc(m.groups, func(g group) bool { return g.id == "S1" })
	require.GreaterOrEqual(t, i, 0)
	cut := func(known string) float64 {
		m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Pins: []plan.Pin{{ID: "A", Kind: plan.PinSeenBefore, Thing: "S1", Look: plan.LookCut, Known: known}}})
		_, priors := m.weak(&m.groups[i], 1)
		k := slices.IndexFunc(priors, func(p PriorOf) bool { return p.Way == plan.WeakCut })
		return priors[k].Chance
	}
	base, seen := cut(plan.KnownAssumed), facts.DoubtPriorCutBefore.Value()
	assert.InDelta(t, seen, cut(plan.KnownObserved), 1e-12)
	assert.InDelta(t, base+0.6*(seen-base), cut(plan.KnownTold), 1e-12)
	m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Priors: []plan.Prior{{Thing: "S1", Weak: plan.WeakCut}, {Thing: "S1", Weak: plan.WeakKnot}, {Thing: "gone", Weak: plan.WeakCut}}})
	assert.Len(t, m.idle(), 2)
}
