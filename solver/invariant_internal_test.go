package solver

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A balance in which one force is off by more than 1e-6 of the largest takes every
// load back; one that is off by less than that is rounding.
func TestTheWorldMustBalance(t *testing.T) {
	data, err := fs.ReadFile(assets.Plans(), "redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	for _, tt := range []struct {
		off     float64
		refused bool
	}{{0, false}, {1e-7, false}, {1e-5, true}} {
		a := &concluding{}
		a.notes, a.work = &notes{out: &Assessment{Rig: p.Rigs[0].ID}}, &workspace{}
		a.resolve(p, p.Rigs[0].ID)
		a.solve()
		a.layOut()
		a.load()
		a.parts()
		require.False(t, a.refused, a.whyNot)
		most := 0
		points := a.solved.unit.Points
		for n := range points {
			if !a.g.on[n].IsZero() && points[n].ForceN.Norm() > points[most].ForceN.Norm() {
				most = n
			}
		}
		points[most].ForceN = points[most].ForceN.Mul(1 + tt.off)
		a.checkWorld()
		require.Equal(t, tt.refused, a.refused, "off by %v", tt.off)
		for i := range a.out.Parts {
			require.Equal(t, tt.refused, a.out.Parts[i].Status == part.Refused, a.out.Parts[i].ID)
		}
	}
}
