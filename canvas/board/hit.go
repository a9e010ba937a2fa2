package board

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// nearPx is how far from a thing, in pixels, the pointer still means it. (ours)
const nearPx = 9

// trunkPx is how near to the middle of an anchor, in pixels, the pointer means
// it before what hangs on it. (ours)
const trunkPx = 4

// hit is a thing under the pointer.
type hit struct {
	id      plan.ID
	kind    plan.ThingKind
	stretch int     // of a line
	share   float64 // along that stretch
	part    string  // of the answer
	distM   float64
	inTrunk bool // the pointer is over the trunk itself
}

// order is what is meant first where things lie over one another: what is small
// or lies on top before what is large or lies below, a line before an obstacle
// under it.
func order(h hit) int {
	switch h.kind {
	case plan.ThingNote, plan.ThingPin:
		return 0
	case plan.ThingPerson:
		return 1
	case plan.ThingDamper:
		return 2
	case plan.ThingBlock, plan.ThingShackle:
		return 3
	case plan.ThingSling:
		return 5
	case plan.ThingLine:
		return 6
	case plan.ThingMeasure:
		return 7
	case plan.ThingAnchor:
		if h.inTrunk { // the sling round it is met beside it
			return 4
		}
		return 8
	case plan.ThingVehicle:
		return 9
	}
	return 10
}

// hitsAt are the things at a place, what is meant first first.
func hitsAt(sc *scene, at plan.Point) []hit {
	var list []hit
	reach := nearPx / sc.view.PerM
	add := func(h hit) {
		if h.distM <= reach {
			list = append(list, h)
		}
	}
	pinHits(sc, at, add)
	rigHits(sc, at, add)
	s := &sc.plan.Site
	for i := range s.Notes {
		if n := &s.Notes[i]; !n.Hidden {
			add(hit{id: n.ID, kind: plan.ThingNote, distM: at.Dist(n.At)})
		}
	}
	for i := range s.People {
		if q := &s.People[i]; !q.Hidden && q.Vehicle == "" {
			add(hit{id: q.ID, kind: plan.ThingPerson, distM: at.Dist(q.At)})
		}
	}
	for i := range s.Measures {
		m := &s.Measures[i]
		d := math.Inf(1)
		for k := 0; k+1 < len(m.Points); k++ {
			e, _ := terrain.ToSegment(at, m.Points[k], m.Points[k+1])
			d = math.Min(d, e)
		}
		if !m.Hidden {
			add(hit{id: m.ID, kind: plan.ThingMeasure, distM: d})
		}
	}
	for i := range s.Anchors {
		if a := &s.Anchors[i]; !a.Hidden {
			d, r := at.Dist(a.At), float64(terrain.AtStrap(a))/2
			add(hit{id: a.ID, kind: plan.ThingAnchor, distM: math.Max(0, d-r), inTrunk: d <= math.Max(r, trunkPx/sc.view.PerM)})
		}
	}
	for i := range s.Vehicles {
		v := &s.Vehicles[i]
		c := v.Corners()
		if !v.Hidden {
			add(hit{id: v.ID, kind: plan.ThingVehicle, distM: toOutline(at, c[:])})
		}
	}
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; !o.Hidden {
			add(hit{id: o.ID, kind: plan.ThingObstacle, distM: toOutline(at, o.Outline)})
		}
	}
	slices.SortStableFunc(list, func(a, c hit) int {
		return cmp.Or(cmp.Compare(order(a), order(c)), cmp.Compare(a.distM, c.distM))
	})
	return list
}

// rigHits are the parts of the rig at a place, where they settled.
func rigHits(sc *scene, at plan.Point, add func(hit)) {
	x := sc.at()
	if x.Rig == nil {
		return
	}
	a := sc.planAnswer()
	hidden := func(id plan.ID) bool {
		h := headOf(sc.plan, x, id)
		return h != nil && h.Hidden
	}
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if d, share := terrain.ToSegment(at, part.Flat(s.A), part.Flat(s.B)); !hidden(s.Line) {
			add(hit{id: s.Line, kind: plan.ThingLine, stretch: s.Index, share: share, part: s.Part, distM: d})
		}
	}
	for i := range a.Nodes {
		n := &a.Nodes[i]
		if k := x.Kind(n.Thing); (k == plan.ThingBlock || k == plan.ThingShackle) && !hidden(n.Thing) {
			add(hit{id: n.Thing, kind: k, part: string(n.Thing), distM: at.Dist(part.Flat(n.At))})
		}
	}
	for i := range a.Slings {
		s := &a.Slings[i]
		if !hidden(s.Sling) {
			add(hit{id: s.Sling, kind: plan.ThingSling, part: string(s.Sling), distM: toSling(at, s)})
		}
	}
	for i := range x.Rig.Dampers {
		d := &x.Rig.Dampers[i]
		if p, ok := damperPlace(sc, d); ok && !d.Hidden {
			add(hit{id: d.ID, kind: plan.ThingDamper, distM: at.Dist(p)})
		}
	}
}

// toSling is how far p is from a sling's legs.
func toSling(p plan.Point, s *part.SlingShape) float64 {
	apex := part.Flat(s.Apex)
	if s.Radius <= 0 {
		d, _ := terrain.ToSegment(p, part.Flat(s.Centre), apex)
		return d
	}
	d1, _ := terrain.ToSegment(p, part.Flat(s.TangentA), apex)
	d2, _ := terrain.ToSegment(p, part.Flat(s.TangentB), apex)
	return math.Min(d1, d2)
}

// toOutline is how far p is from an outline, 0 inside it.
func toOutline(p plan.Point, corners []plan.Point) float64 {
	if terrain.Inside(corners, p) {
		return 0
	}
	return terrain.EdgeDistance(corners, p)
}

// damperPlace is where a damper lies over its line.
func damperPlace(sc *scene, d *plan.Damper) (plan.Point, bool) {
	s := sc.stretch(d.Line, d.Stretch)
	if s == nil {
		return plan.Point{}, false
	}
	p, q := part.Flat(s.A), part.Flat(s.B)
	return p.Plus(d.Share*(q.X-p.X), d.Share*(q.Y-p.Y)), true
}

// hitAt is the thing meant at a place; things behind one another are passed
// through with Alt or Tab.
func hitAt(sc *scene, at plan.Point) (hit, bool) {
	list := hitsAt(sc, at)
	if len(list) == 0 {
		return hit{}, false
	}
	return list[sc.cycle%len(list)], true
}
