package travel_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A straight doubled pull at constant tension: the time is line over speed, both by
// the closed form that [gear.Running] states, and the line is what the plan's own
// stretches lose. Rests: pauses between minutes at rated pull, by the handbook's row.
func TestHaulOfTheDoubledLine(t *testing.T) {
	rests := 0
	for _, measured := range []quantity.Force{0, 30 * quantity.Kilonewton, 45 * quantity.Kilonewton} {
		rests += hauled(t, with(examplePlan(t, "doubled"), func(v *plan.Vehicle) {
			if measured > 0 {
				v.Stuck.Measured, v.Stuck.Breakaway = measured, 1
			}
		}))
	}
	assert.Positive(t, rests, "the heaviest asks for a pause")
}

// hauled compares what a haul takes with the sum over its moments; how many rests.
func hauled(t *testing.T, p *plan.Plan) (rests int) {
	a := followed(t, p, "R1")
	hauls := a.Hauls(p, "R1")
	require.Len(t, hauls, 1)
	h := hauls[0]
	require.True(t, h.Known)
	first, last := a.Moments[0], a.Moments[len(a.Moments)-1]
	assert.InDelta(t, float64(first.Lines[0].Out-last.Lines[0].Out), float64(h.Line), 1e-9)
	v, _ := p.Vehicle(h.Vehicle)
	r, _ := p.Rig("R1")
	time, heat := 0.0, 0.0
	for k := 1; k < len(a.Moments); k++ { // on each layer alone the tension hardly changes
		m := a.Moments[k-1]
		in := m.Lines[0].Out - a.Moments[k].Lines[0].Out
		run := gear.Running(gear.RunIn{Vehicle: v.ID, Winch: v.Winch, Line: &r.Lines[0], Layer: m.Lines[0].Layer, Tension: m.Move.Tension, Haul: in}, nil, nil)
		time += float64(in) / float64(run.Speed)
		q, ok := m.Part(string(v.ID) + "/winch")
		require.True(t, ok)
		heat += float64(in) / float64(run.Speed) * math.Pow(float64(m.Move.Tension/q.Limit.Force), 2)
	}
	assert.InEpsilon(t, time, float64(h.Time), 1e-9)
	assert.Equal(t, max(0, int(math.Ceil(heat/facts.WinchDuty.Conservative().X))-1), h.Rests)
	return h.Rests
}

// A winch asked for more than it is rated for hauls at no known speed.
func TestNoHaulOfAWinchOverItsPull(t *testing.T) {
	p := with(examplePlan(t, "doubled"), func(v *plan.Vehicle) { v.Stuck.Measured, v.Stuck.Breakaway = 300*quantity.Kilonewton, 1 })
	for _, h := range followed(t, p, "R1").Hauls(p, "R1") {
		assert.False(t, h.Known)
	}
	assert.Empty(t, followed(t, examplePlan(t, "straight"), "R1").Hauls(p, "R1"), "what was not followed")
}
