package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
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
