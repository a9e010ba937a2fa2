package seeded

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// DrawnOut is the redirect drawn out over some blocks: five parts for each of
// them, and a few more.
func DrawnOut(t testing.TB, blocks int) *plan.Plan {
	src := Example(t, "redirect")
	p := *src
	p.Site.Obstacles = slices.Clone(src.Site.Obstacles)
	p.Site.People = slices.Clone(src.Site.People)
	r := plan.Rig{Head: plan.Head{ID: "R1"}}
	line := src.Rigs[0].Lines[0]
	line.Length = quantity.Length(42 * blocks)
	line.Path = []plan.Port{{Thing: "V2", Point: plan.PortWinch}}
	p.Site.Anchors = nil
	east := 2 * max(0, float64(blocks-12)) // the puller stands so much further, so that the casualty stays where it is
	for i := range blocks {
		id := fmt.Sprint(i + 1)
		tree := src.Site.Anchors[0]
		tree.ID, tree.At = plan.ID("T"+id), plan.Point{X: 30 + east - 2*float64(i), Y: 20 + 12*float64(i%2)}
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
		} else {
			v.At.X += east
		}
	}
	for i := range p.Site.People {
		p.Site.People[i].At.X += east
	}
	return &p
}
