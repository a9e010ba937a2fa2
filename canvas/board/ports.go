package board

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// hitPx is the radius, in pixels, within which a hook-on point takes the
// pointer: half a finger. (ours)
const hitPx = 22

// spot is a hook-on point at its place.
type spot struct {
	port plan.Port
	at   plan.Point
	kind draw.PortKind
	name string // as shown: name, rating, angle
	site bool   // it is a point of the site, not of the rig

	heightM float64 // above the ground
}

// spots are all hook-on points of the plan and the rig shown, west to east. The
// list is kept from frame to frame: read only.
func (sc *scene) spots() []spot {
	if c := &sc.found; c.plan != sc.plan || c.rig != sc.rig || c.words != sc.words {
		c.plan, c.rig, c.words, c.spots, c.none = sc.plan, sc.rig, sc.words, sc.findSpots(), true
		sc.everything(func(plan.ID, plan.ThingKind, []plan.Point) { c.none = false })
	}
	return sc.found.spots
}

// findSpots finds them.
func (sc *scene) findSpots() []spot {
	var list []spot
	x := sc.at()
	add := func(port plan.Port, at plan.Spot, kind draw.PortKind, name string) {
		list = append(list, spot{port, at.At, kind, name, onSite(x.Kind(port.Thing)), float64(at.Height)})
	}
	siteSpots(sc, add)
	if x.Rig != nil {
		rigSpots(sc, x.Rig, add)
	}
	slices.SortStableFunc(list, func(a, c spot) int { return cmp.Compare(a.at.X, c.at.X) })
	return list
}

// addSpot takes a hook-on point.
type addSpot func(port plan.Port, at plan.Spot, kind draw.PortKind, name string)

// siteSpots finds the hook-on points of what stands on the site.
func siteSpots(sc *scene, add addSpot) {
	s, names := &sc.plan.Site, sc.naming()
	for i := range s.Vehicles {
		v := &s.Vehicles[i]
		if v.Hidden {
			continue
		}
		if v.Winch != nil {
			p, _ := v.PortPlace(plan.PortWinch)
			add(plan.Port{Thing: v.ID, Point: plan.PortWinch}, p, draw.PortFairlead, sc.label("prompt-line-start"))
		}
		for k := range v.Recovery {
			q := &v.Recovery[k]
			p, _ := v.PortPlace(q.ID)
			name := sc.words.PointName(v, q.ID) + " · " + ratingText(sc, q.Rating)
			if q.MaxAngle > 0 {
				name += " · " + sc.label("to-angle", degrees("angle", q.MaxAngle))
			}
			add(plan.Port{Thing: v.ID, Point: q.ID}, p, draw.PortRecovery, name)
		}
	}
	for i := range s.Anchors {
		a := &s.Anchors[i]
		if a.Hidden {
			continue
		}
		kind, name, at := draw.PortEye, names(a.ID), plan.Spot{At: a.At, Height: a.Rise}
		switch a.Kind {
		case plan.AnchorRated:
			kind, name = draw.PortRated, name+" · "+ratingText(sc, a.Rating)
		case plan.AnchorTree:
			kind = draw.PortTrunk
			at.Height += solver.PresetStrapHeight
		}
		add(plan.Port{Thing: a.ID}, at, kind, name)
	}
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; o.Anchor && !o.Hidden {
			add(plan.Port{Thing: o.ID}, plan.Spot{At: plan.Centroid(o.Outline), Height: solver.PresetStrapHeight}, draw.PortTrunk, names(o.ID))
		}
	}
}

// rigSpots finds the hook-on points of the parts of a rig, where they settled.
func rigSpots(sc *scene, r *plan.Rig, add addSpot) {
	ground, _ := terrain.NewGround(sc.plan.Site.Ground)
	names := sc.naming()
	put := func(port plan.Port, kind draw.PortKind, name string) {
		if at, ok := sc.settledAt(port.Thing); ok {
			add(port, plan.Spot{At: part.Flat(at), Height: quantity.Length(ground.Above(at))}, kind, name)
		}
	}
	for i := range r.Blocks {
		id := r.Blocks[i].ID
		put(plan.Port{Thing: id}, draw.PortSheave, names(id))
		put(plan.Port{Thing: id, Point: plan.PortBecket}, draw.PortEye, sc.label("becket", part.Text("thing", names(id))))
	}
	for i := range r.Shackles { // one where slings and lines meet
		if k := &r.Shackles[i]; len(k.Joins) == 0 {
			put(plan.Port{Thing: k.ID}, draw.PortEye, names(k.ID))
		}
	}
	for i := range r.Slings {
		if sl := &r.Slings[i]; sl.Holds.IsZero() {
			put(plan.Port{Thing: sl.ID}, draw.PortSling, names(sl.ID))
		}
	}
}

// onSite reports whether a kind of thing stands on the site.
func onSite(k plan.ThingKind) bool {
	return k == plan.ThingVehicle || k == plan.ThingAnchor || k == plan.ThingObstacle
}

// settled is where a block, or a sling's free end, came to lie.
func (sc *scene) settled(id plan.ID) (plan.Point, bool) {
	at, ok := sc.settledAt(id)
	return part.Flat(at), ok
}

// settledAt is [scene.settled] in space.
func (sc *scene) settledAt(id plan.ID) (r3.Vector, bool) {
	a := sc.planAnswer()
	for i := range a.Nodes {
		if a.Nodes[i].Thing == id {
			return a.Nodes[i].At, true
		}
	}
	for i := range a.Slings {
		if a.Slings[i].Sling == id {
			return a.Slings[i].Apex, true
		}
	}
	if k := sc.at().Block(id); k != nil {
		ground, _ := terrain.NewGround(sc.plan.Site.Ground)
		return ground.Lift(k.At, 0), true
	}
	return r3.Vector{}, false
}

// spotAt is the hook-on point under the pointer: the nearest within reach that
// want accepts. Points at one place are passed through with Alt or Tab.
func spotAt(sc *scene, p pointer, want func(spot) bool) (spot, bool) {
	if !p.port.IsZero() { // Tab says which one is meant
		if s, ok := sc.spotOf(p.port); ok && (want == nil || want(s)) {
			return s, true
		}
	}
	var near []spot
	reachM := hitPx / sc.view.PerM
	spots := sc.spots()
	for i := range spots {
		if d := spotDist(sc, p.at, spots[i]); d <= reachM && (want == nil || want(spots[i])) {
			near = append(near, spots[i])
		}
	}
	if len(near) == 0 {
		return spot{}, false
	}
	slices.SortStableFunc(near, func(a, c spot) int {
		switch da, dc := spotDist(sc, p.at, a), spotDist(sc, p.at, c); {
		case da < dc:
			return -1
		case da > dc:
			return 1
		}
		return 0
	})
	return near[sc.cycle%len(near)], true
}

// spotDist is how far p is from a hook-on point in metres: from the bark of a
// trunk, 0 inside it.
func spotDist(sc *scene, p plan.Point, s spot) float64 {
	d := p.Dist(s.at)
	if s.kind == draw.PortTrunk {
		x := sc.at()
		if a := x.Anchor(s.port.Thing); a != nil {
			d -= float64(terrain.AtStrap(a)) / 2
		} else if o := x.Obstacle(s.port.Thing); o != nil && terrain.Inside(o.Outline, p) {
			d = 0
		}
	}
	return math.Max(0, d)
}

// portMarks are the hook-on points as offered: those want accepts are open, the one
// under the pointer is named; why says what speaks against one.
func portMarks(sc *scene, p pointer, want func(spot) bool, taken []plan.Port, why func(spot) string) []draw.PortMark {
	under, has := spotAt(sc, p, want)
	spots := sc.spots()
	marks := make([]draw.PortMark, 0, len(spots))
	for i := range spots {
		s := spots[i]
		m := draw.PortMark{Port: s.port, At: s.at, Kind: s.kind, State: draw.PortOffered}
		refused := ""
		if why != nil {
			refused = why(s)
		}
		switch {
		case want != nil && !want(s):
			continue
		case slices.Contains(taken, s.port):
			m.State = draw.PortTaken
		case refused != "":
			m.State = draw.PortRefused
			if has && p.on && under.port == s.port {
				m.Label = refused
			}
		case has && p.on && under.port == s.port:
			m.State, m.Label = draw.PortUnder, s.name
		}
		marks = append(marks, m)
	}
	return marks
}

// whyNotLine is what speaks against leading a line over a hook-on point; empty:
// nothing.
func whyNotLine(sc *scene, s spot, l *plan.Line) string {
	k := sc.at().Block(s.port.Thing)
	if k == nil || s.port.Point != "" || !(l.Diameter > 0) {
		return ""
	}
	if k.LineMin > 0 && l.Diameter < k.LineMin || k.LineMax > 0 && l.Diameter > k.LineMax {
		return sc.label("sheave-takes",
			part.Length("line", l.Diameter),
			part.Length("least", k.LineMin),
			part.Length("most", k.LineMax))
	}
	return ""
}

// spotOf is where a hook-on point lies.
func (sc *scene) spotOf(port plan.Port) (spot, bool) {
	for _, s := range sc.spots() {
		if s.port == port {
			return s, true
		}
	}
	return spot{}, false
}

func (sc *scene) places(path []plan.Port) []plan.Point {
	pts := make([]plan.Point, len(path))
	for i, port := range path {
		if s, ok := sc.spotOf(port); ok {
			pts[i] = s.at
		}
	}
	return pts
}
