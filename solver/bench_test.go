package solver_test

import (
	"testing"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// asked are the plans that the benchmarks ask about, by the number of their parts.
func asked(b *testing.B) []struct {
	name string
	p    *plan.Plan
} {
	return []struct {
		name string
		p    *plan.Plan
	}{{"redirect", example(b, "redirect")}, {"thirty", seeded.DrawnOut(b, 6)}, {"sixty", seeded.DrawnOut(b, 12)}, {"hundredtwenty", seeded.DrawnOut(b, 24)}, {"threehundred", seeded.DrawnOut(b, 60)}}
}

func BenchmarkAssess(b *testing.B) {
	for _, c := range asked(b) {
		b.Run(c.name, func(b *testing.B) {
			a := solver.Assess(c.p, "R1")
			if a.Status != part.Within {
				b.Fatal(a.Status, a.Why)
			}
			b.ReportMetric(float64(len(a.Parts)), "parts")
			b.ReportAllocs()
			for b.Loop() {
				solver.Assess(c.p, "R1")
			}
		})
	}
}

// Asked of a prepared rig: another mass each time, or the casualty a step back or
// forth on its way out, and a little turned.
func BenchmarkPrepared(b *testing.B) {
	for _, c := range asked(b) {
		b.Run(c.name, func(b *testing.B) {
			benchPrepared(b, c.p, func(q *plan.Plan, i int) { q.Site.Vehicles[0].Mass += quantity.Mass(1 - 2*(i%2)) })
		})
		b.Run("moved/"+c.name, func(b *testing.B) {
			benchPrepared(b, c.p, func(q *plan.Plan, i int) {
				step := float64(i/20%2*2 - 1)
				alongWay(q, 0.05*step, 0.01*step)
			})
		})
	}
}

func benchPrepared(b *testing.B, p *plan.Plan, change func(q *plan.Plan, i int)) {
	q, err := solver.Prepare(p, "R1")
	if err != nil {
		b.Fatal(err)
	}
	var f solver.Figures
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		change(q.Plan(), i)
		if err := q.Ask(&f); err != nil {
			b.Fatal(err)
		}
	}
}

// alongWay moves each casualty along its way out, metres, and turns it, degrees.
func alongWay(p *plan.Plan, byM, turnDeg float64) {
	for i := range p.Site.Vehicles {
		if v := &p.Site.Vehicles[i]; v.Stuck != nil {
			out, _ := v.WayOut()
			east, north := plan.Heading(out)
			v.At.X, v.At.Y = v.At.X+byM*east, v.At.Y+byM*north
			v.Bearing = (v.Bearing + quantity.Degrees(turnDeg)).Normal()
		}
	}
}
