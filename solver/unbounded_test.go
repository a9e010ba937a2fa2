package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What no line moves has no hold to be within: a figure of a million kilonewtons
// is none. A casualty on a cross slope that its line pulls uphill is not tipped
// by that line, however hard it pulls.
func TestNoLimitThatNoLineReachesIsShown(t *testing.T) {
	for what, c := range map[string]change{
		"across a slope": do(sloped(30, 0), casualty(func(v *plan.Vehicle) { v.CGHeight = 0.2 }), winch(func(w *plan.Winch) { w.Limiter = 9000 })),
		"a hold-back from a car": do(sloped(8, 90), stuck(func(s *plan.Stuck) { s.Measured = 3000 }), func(p *plan.Plan) {
			v := truck()
			v.ID, v.At, v.Bearing, v.Mass, v.Winch = "V3", plan.Point{X: -14}, 90, 900, nil
			v.Recovery[0].Left = plan.Known(quantity.Length(0))
			p.Site.Vehicles = append(p.Site.Vehicles, v)
		}, heldBackBy(func(l *plan.Line) { l.Path[0], l.Length = port("V3", "front"), 8.4 })),
	} {
		p := basePlan()
		p.Site.Anchors[0].Rise = 0 // no pull is quite along a vehicle
		c(p)
		a := solver.Assess(p, "R1")
		require.Equal(t, part.Within, a.Status, what)
		for i := range a.Parts {
			q := &a.Parts[i]
			assert.Less(t, float64(q.Limit.Force), 2e6, "%s: %s", what, q.ID)
			assert.Less(t, float64(q.Ultimate.High), 2e6, "%s: %s", what, q.ID)
		}
	}
}

// A truck above the pull that its line presses down is moved by no line, and has
// no row; what it holds up is computed all the same.
func TestAVehicleThatNoPullMovesHasNoRow(t *testing.T) {
	p := basePlan()
	v := &p.Site.Vehicles[1] // on a wall, the line leads down at 1 in 5 between its axles
	v.Rise, v.Wheelbase, v.FrontOverhang, v.CGBehindFront, v.Winch.Ahead, v.Winch.Height = 80, 6, 0, 3, 2.99, 0.01
	p.Rigs[0].Lines[0].Length = 200
	a := solver.Assess(p, "R1")
	require.Equal(t, part.Within, a.Status, a.Why)
	_, has := a.Part("V2/slide")
	assert.False(t, has)
	assert.NotContains(t, levels(a), "ends-on-nothing")
	assert.True(t, partOf(t, a, "V2/winch").Move.Known)
}
