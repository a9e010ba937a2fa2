package travel_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// A stop to rig anew stands before what happens: the part is within its limit there and
// over it just beyond, and its shares as drawn and at its worst are those of the plans
// drawn there.
func TestStopsToRigAnewStandBeforeWhatHappens(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	share := func(s float64, id string) float64 {
		q, ok := solver.Assess(travel.At(p, "R1", s), "R1").Part(id)
		require.True(t, ok)
		return q.Most()
	}
	told := map[travel.EventKind]int{}
	for _, r := range a.Rerigs {
		if told[r.Kind]++; r.Kind != travel.OverLimit {
			continue
		}
		assert.Less(t, share(r.AtM-1e-4, r.Part), 1.0, r.Part)
		assert.Greater(t, share(r.AtM+1e-4, r.Part), 1.0, r.Part)
		assert.InDelta(t, share(0, r.Part), r.Drawn, 1e-12, r.Part)
		assert.InDelta(t, share(r.WorstM, r.Part), r.Worst, 1e-12, r.Part)
		assert.Greater(t, r.Worst, r.Drawn)
	}
	assert.Positive(t, told[travel.OverLimit])
	assert.Positive(t, told[travel.ReachesFairlead], "a damper")
	for _, e := range a.Events {
		if e.Kind == travel.OverLimit && e.Start {
			for _, r := range a.Rerigs {
				assert.NotEqual(t, e.Part, r.Part, "what is over its limit as drawn needs no stop: it is not pulled")
			}
		}
	}
}

// A casualty that goes straight on, a line of 30 m lying 25° off its way, has it 30° off
// after 30·sin 5° / sin 30° metres, by the law of sines; after 8 m it lies
// atan(30·sin 25° / (30·cos 25° − 8)) off. (closed form)
func TestAStopBeforeTheLineLiesAskew(t *testing.T) {
	p := with(directPlan(t, 25), func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthHub })
	var found []travel.Rerig
	for _, r := range followed(t, p, "R1").Rerigs {
		if r.Kind == travel.OffWayBeyond {
			found = append(found, r)
		}
	}
	require.Len(t, found, 1)
	rad := math.Pi / 180
	r := found[0]
	assert.EqualValues(t, 30, r.LimitDeg)
	assert.InDelta(t, 30*math.Sin(5*rad)/math.Sin(30*rad), r.AtM, 1e-6)
	assert.InDelta(t, 25, r.Drawn, 1e-9)
	assert.InDelta(t, math.Atan2(30*math.Sin(25*rad), 30*math.Cos(25*rad)-8)/rad, r.Worst, 1e-6)
	assert.InDelta(t, 8, r.WorstM, 1e-9)
	for _, r := range followed(t, with(directPlan(t, 14), func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthHub }), "R1").Rerigs {
		assert.NotEqual(t, travel.OffWayBeyond, r.Kind, "it comes 19° off its way: noticed, not warned of")
	}
	still := with(p, func(v *plan.Vehicle) { v.Stuck.WayLength = 5 })
	for _, r := range followed(t, still, "R1").Rerigs {
		assert.NotEqual(t, travel.OffWayBeyond, r.Kind, "it ends before")
	}
}
