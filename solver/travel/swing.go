package travel

import (
	"math"
	"slices"

	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// How far apart a body is looked at that goes round bends, metres, and how often at
// most. (ours: a corner 3 m from the middle of a turn of 5 m goes 12 mm meanwhile)
const (
	swingM     = 0.02
	mostSwings = 2000
)

// swingsInto are the places of a way with bends, metres along it, where the casualty's
// body comes to lie in something that it did not lie in just before: its tail may swing
// into it and out again between two moments.
func swingsInto(p *plan.Plan, v *plan.Vehicle, w *plan.WayLine, longM float64) (at []float64) {
	if len(w.Knots()) == 0 || !(v.Length > 0 && v.Width > 0) {
		return nil
	}
	var things [][]plan.Point
	bodies := terrain.Bodies(&p.Site)
	for i := range bodies {
		if bodies[i].ID != v.ID {
			least, _ := bodies[i].Covers()
			things = append(things, least)
		}
	}
	for i := range p.Site.Anchors {
		things = append(things, terrain.Round(p.Site.Anchors[i].At, 0))
	}
	for i := range p.Site.People {
		if q := &p.Site.People[i]; q.Vehicle == "" {
			things = append(things, terrain.Round(q.At, zone.PersonReach(q)))
		}
	}
	in := make([]bool, len(things))
	n := int(min(mostSwings, math.Ceil(longM/swingM)))
	for i := range n + 1 {
		s := longM * float64(i) / float64(n)
		on, there := w.At(s), *v
		there.At, there.Bearing = on.At, on.Bearing
		corners := there.Corners()
		for k, o := range things {
			was := in[k]
			if in[k] = terrain.Overlap(corners[:], o); in[k] && !was && i > 0 && !slices.Contains(at, s) {
				at = append(at, s)
			}
		}
	}
	return at
}
