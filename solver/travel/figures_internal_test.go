package travel

import (
	"io/fs"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// bent is an example whose casualty comes out of its hole after 2 m and is driven
// round a bend.
func bent(t *testing.T, name string) *plan.Plan {
	p := straight(t, name)
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := &p.Site.Vehicles[i]
	v.Stuck.Bends = []plan.Point{{X: v.At.X + 3, Y: v.At.Y}, {X: v.At.X + 9, Y: v.At.Y + 2}}
	v.Stuck.TurnRadius = 6
	v.Stuck.Stages = []plan.Stage{{After: 2, Depth: plan.DepthNone}}
	return p
}

func straight(t testing.TB, name string) *plan.Plan {
	data, err := fs.ReadFile(assets.Plans(), name+".kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	return p
}

// The figures that events are sought on are, to the bit, those of Assess for the plan
// with the casualty there, in whatever order places are asked about.
func TestFiguresAreAssess(t *testing.T) {
	for _, name := range []string{"redirect", "doubled"} {
		p := bent(t, name)
		q := newAsker(newMover(p, "R1"))
		asked := 0
		for _, s := range []float64{0, 3.1, 1.9, 2, 5.5, 0.4, 2.6, 4} {
			want := solver.Assess(plan.AdvancedOf(p, p.Casualty().ID, quantity.Length(s)), "R1")
			if !q.ask(s) {
				require.NotEqual(t, part.Within, want.Status, "%s at %g m: %v", name, s, q.err)
				continue
			}
			if want.Status != part.Within {
				continue // what lines bear on is for Assess to say
			}
			asked++
			require.Equal(t, want.Move, q.f.Move, "%s at %g m", name, s)
			require.Equal(t, want.Nodes, q.f.Nodes, "%s at %g m", name, s)
			require.Len(t, q.f.Parts, len(want.Parts))
			for i := range want.Parts {
				g, w := q.f.Parts[i], want.Parts[i]
				require.Equal(t, w.Move, g.Move, "%s: %s at %g m", name, w.ID, s)
				require.Equal(t, w.Limit, g.Limit, "%s: %s at %g m", name, w.ID, s)
				require.Equal(t, w.Most(), g.Most(), "%s: %s at %g m", name, w.ID, s)
			}
		}
		require.Greater(t, asked, 3, name)
	}
}

// BenchmarkLoads is what a curve of the loads takes: every 5 cm of 6 m.
func BenchmarkLoads(b *testing.B) {
	for _, c := range []struct {
		name string
		p    *plan.Plan
	}{{"redirect", straight(b, "redirect")}, {"sixty", seeded.DrawnOut(b, 12)}} {
		p := c.p
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				q := newAsker(newMover(p, "R1"))
				for i := range 120 {
					if !q.ask(float64(i) * 0.05) {
						b.Fatal(q.err)
					}
				}
			}
		})
	}
}
