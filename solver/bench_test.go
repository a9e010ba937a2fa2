package solver_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// sixtyParts is the redirect drawn out over twelve blocks: some sixty parts.
func sixtyParts(t testing.TB) *plan.Plan {
	src := example(t, "redirect")
	p := *src
	p.Site.Obstacles = slices.Clone(src.Site.Obstacles)
	r := plan.Rig{Head: plan.Head{ID: "R1"}}
	line := src.Rigs[0].Lines[0]
	line.Length = 500
	line.Path = []plan.Port{{Thing: "V2", Point: plan.PortWinch}}
	p.Site.Anchors = nil
	for i := range 12 {
		id := fmt.Sprint(i + 1)
		tree := src.Site.Anchors[0]
		tree.ID, tree.At = plan.ID("T"+id), plan.Point{X: 30 - 2*float64(i), Y: 20 + 12*float64(i%2)}
		b := src.Rigs[0].Blocks[0]
		b.ID, b.At = plan.ID("B"+id), plan.Point{X: tree.At.X, Y: tree.At.Y + 1 - 2*float64(i%2)}
		s := src.Rigs[0].Slings[0]
		s.ID, s.On.Thing, s.Holds.Thing = plan.ID("S"+id), tree.ID, b.ID
		k := src.Rigs[0].Shackles[0]
		k.ID, k.Joins = plan.ID("K"+id), []plan.Port{{Thing: s.ID}, {Thing: b.ID}}
		p.Site.Anchors = append(p.Site.Anchors, tree)
		r.Blocks, r.Slings, r.Shackles = append(r.Blocks, b), append(r.Slings, s), append(r.Shackles, k)
		line.Path = append(line.Path, plan.Port{Thing: b.ID})
	}
	line.Path = append(line.Path, plan.Port{Thing: "V1", Point: "front"})
	r.Lines = []plan.Line{line}
	p.Rigs = []plan.Rig{r}
	p.Site.Vehicles = slices.Clone(src.Site.Vehicles)
	for i := range p.Site.Vehicles { // the last tree is where it is to go
		if v := &p.Site.Vehicles[i]; v.Stuck != nil {
			k, last := *v.Stuck, p.Site.Anchors[len(p.Site.Anchors)-1].At
			k.Way, k.WayBearing = plan.WayFree, plan.Known(quantity.Degrees(math.Atan2(last.X-v.At.X, last.Y-v.At.Y)*180/math.Pi).Normal())
			v.Stuck = &k
		}
	}
	return &p
}

func BenchmarkAssess(b *testing.B) {
	for _, c := range []struct {
		name string
		p    *plan.Plan
	}{{"redirect", example(b, "redirect")}, {"sixty", sixtyParts(b)}} {
		b.Run(c.name, func(b *testing.B) {
			a := solver.Assess(c.p, "R1")
			b.ReportMetric(float64(len(a.Parts)), "parts")
			b.ReportAllocs()
			for b.Loop() {
				solver.Assess(c.p, "R1")
			}
		})
	}
}

func BenchmarkPrepared(b *testing.B) {
	for _, c := range []struct {
		name string
		p    *plan.Plan
	}{{"redirect", example(b, "redirect")}, {"sixty", sixtyParts(b)}} {
		b.Run(c.name, func(b *testing.B) {
			q, err := solver.Prepare(c.p, "R1")
			if err != nil {
				b.Fatal(err)
			}
			var f solver.Figures
			mass := &q.Plan().Site.Vehicles[0].Mass
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				*mass += quantity.Mass(1 - 2*(i%2))
				if err := q.Ask(&f); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
