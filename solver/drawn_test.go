package solver_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A rig with a sling of unknown length shows no loads; what is wrong on the
// drawing is said all the same. In the base plan the block is drawn where its
// sling of 2 m and its head of 0.1 m put it: √(1.485² + 1.485²) = 2.100 m from
// the rated point.
func TestUnknownLengthHidesNoDanger(t *testing.T) {
	for id, raise := range map[string]change{
		"line-bears":      boulderAt(-0.01),
		"point-side-pull": front(func(q *plan.RecoveryPoint) { q.MaxAngle = 1; q.Axis = plan.Known(q.Axis.Or(0) + 20) }),
		"tree-dead":       do(onTree, theAnchor(func(a *plan.Anchor) { a.Health = plan.HealthDead })),
		"line-too-thick":  theBlock(func(b *plan.Block) { b.LineMax = 0.0099 }),
		"over-limit":      theBlock(func(b *plan.Block) { b.Rating = working(2000) }),
	} {
		p := basePlan()
		raise(p)
		p.Rigs[0].Slings[0].Length = 0
		require.NoError(t, plan.Validate(p))
		a := solver.Assess(p, "R1")
		assert.Equal(t, part.Refused, a.Status, id)
		assert.False(t, a.Move.Known, id)
		for i := range a.Parts {
			assert.Equal(t, part.Refused, a.Parts[i].Status, a.Parts[i].ID)
			assert.False(t, a.Parts[i].Move.Known, a.Parts[i].ID)
		}
		assert.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool { return f.ID == id }), id)
		assert.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool { return f.ID == "sling-length-unknown" }), id)
	}
	p := basePlan()
	p.Rigs[0].Slings[0].Length = 0
	for _, f := range solver.Assess(p, "R1").Findings {
		assert.True(t, f.Level < part.Caution || f.ID == "sling-length-unknown", "a quiet rig says no more than what it lacks: %s", f.ID)
	}
}
