package statics_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// A block goes round its sling's end: near the answer a step squares what is missing.
// A winch dragged 5 cm turns lines of 20 m by 2.5e-3; swept once and squared twice that
// is below the tolerance of 1e-9. A length line over blocks takes one more.
func TestFewSteps(t *testing.T) {
	for _, c := range []struct {
		name       string
		warm, cold int
	}{{"redirect", 2, 1}, {"doubled", 2, 1}, {"free3", 3, 4}, {"free20", 2, 2}} {
		r := still(benchRig(c.name))
		var s statics.Solver
		var out statics.Result
		require.Equal(t, statics.Converged, s.Solve(&r, &out), c.name)
		require.LessOrEqual(t, out.Iterations, c.cold, c.name)
		y := r.Points[0].Pos.Y
		for i := range 6 {
			r.Points[0].Pos.Y = y + 0.05*float64(i&1)
			require.Equal(t, statics.Converged, s.Warm(&r, &out), c.name)
			require.LessOrEqual(t, out.Iterations, c.warm, c.name)
			require.LessOrEqual(t, out.ResidualN, 2e-9*out.ReferenceN, c.name) // 1e-9 an axis
			require.LessOrEqual(t, out.GapM, 1e-8, c.name)
		}
	}
}
