package travel_test

import (
	"testing"

	"kedge/solver/plan"
	"kedge/solver/travel"
)

// BenchmarkPull is 12 m of way: loads alone at 5 cm and at the usual grid, and
// everything.
func BenchmarkPull(b *testing.B) {
	long := func(p *plan.Plan) *plan.Plan {
		q := *p
		q.Site.Obstacles = nil
		return with(&q, func(v *plan.Vehicle, k *plan.Stuck) { k.WayLength = 12 })
	}
	for _, c := range []struct {
		name string
		p    *plan.Plan
		o    travel.Options
	}{
		{"redirect", long(example(b, "redirect")), travel.Options{LoadsAlone: true}},
		{"redirect-5cm", long(example(b, "redirect")), travel.Options{LoadsAlone: true, StepM: 0.05}},
		{"redirect-judged", long(example(b, "redirect")), travel.Options{}},
		{"doubled", long(example(b, "doubled")), travel.Options{LoadsAlone: true}},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				pull(b, c.p, c.o)
			}
		})
	}
}
