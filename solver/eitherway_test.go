package solver_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// While a block may lie in two places nothing is within its limit by the loads of
// one of them. Of the stretch behind it the other place has more by the loss of the
// sheave twice over: once while it hauls, once while it pays out (closed form).
func TestSheaveEitherWay(t *testing.T) {
	p := basePlan()
	swungBlock(10)(p)
	a := solver.Assess(p, "R1")
	require.True(t, a.Move.Known)
	for i := range a.Parts {
		require.NotContains(t, []part.Status{part.Within, part.Near}, a.Parts[i].Status, a.Parts[i].ID)
	}
	before, behind := partOf(t, a, "L1/2").Move.Force, partOf(t, a, "L1/3").Move.Force
	loss := float64(behind / before)
	times := 0.0
	for i := range a.Findings {
		if a.Findings[i].ID == "sheave-either-way" {
			times = a.Findings[i].Values[0].X
		}
	}
	require.Less(t, loss, 0.95)
	require.InDelta(t, math.Pow(loss, -2), times, 0.05) // both places wrap nearly alike, and pull nearly alike

	q, err := solver.Prepare(p, "R1")
	require.NoError(t, err)
	var f solver.Figures
	require.NoError(t, q.Ask(&f))
	require.Equal(t, a.Parts, f.Parts)
}

// A line that equalises two points over a block stands: how it shares the pull is
// known within the loss of the sheave alone, either way, and neither leg is within
// its limit by an even share.
func TestAStandingSheaveDecidesNothing(t *testing.T) {
	p := basePlan()
	v, w, r := &p.Site.Vehicles[0], &p.Site.Vehicles[1], &p.Rigs[0]
	v.Recovery = append(v.Recovery, vehiclePoint("left", 2.6, 0.6, 0), vehiclePoint("right", 2.6, -0.6, 0))
	w.At, w.Bearing = plan.Point{X: 30}, 270
	p.Site.Anchors, r.Slings = nil, []plan.Sling{strap("S1", port("K2", ""), port("B1", ""))}
	r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K2"}, Kind: plan.ShackleBow, At: plan.Point{X: 8}, Rating: working(47000), Body: 0.019})
	r.Blocks[0].At = plan.Point{X: 6}
	l := winchLine("L2", port("V1", "left"), port("B1", ""), port("V1", "right"))
	l.Length = 7
	r.Lines[0].Path = []plan.Port{port("V2", "winch"), port("K2", "")}
	r.Lines = append(r.Lines, l)
	a := solver.Assess(p, "R1")
	require.True(t, a.Move.Known)
	require.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool { return f.ID == "sheave-undetermined" }))
	for _, id := range []string{"L2/1", "L2/2", "V1/left", "V1/right"} {
		require.Equal(t, part.Undecided, partOf(t, a, id).Status, id)
	}
}
