package terrain

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Body is what a line can bear on: an obstacle, a vehicle or the trunk of a
// tree.
type Body struct {
	Shape // its outline from above; of a trunk the zero value
	Kind  plan.ThingKind
	Known bool // how far it reaches is

	middle  plan.Point // of a vehicle or trunk
	radiusM float64    // of a trunk
	halves  [2]r3.Vector
	lies    bool // an overturned vehicle: what it covers is not what is drawn
	corners [4]plan.Point
}

// Bodies are the obstacles, vehicles and trees of a site, in this order; they
// share the outlines of the obstacles. An anchor of a kind nobody knows may be a
// tree.
func Bodies(site *plan.Site) []Body { return BodiesIn(nil, site) }

// BodiesIn is [Bodies] in the room of a list that nobody uses any more.
func BodiesIn(list []Body, site *plan.Site) []Body {
	trees := 0
	for i := range site.Anchors {
		if t := &site.Anchors[i]; t.HasTrunk() || plan.AnchorKindOf(t.Kind) == nil {
			trees++
		}
	}
	list = slices.Grow(list[:0], len(site.Obstacles)+len(site.Vehicles)+trees)
	for i := range site.Obstacles {
		list = append(list, Body{Shape: NewShape(&site.Obstacles[i]), Kind: plan.ThingObstacle, Known: true})
	}
	for i := range site.Vehicles {
		v := &site.Vehicles[i]
		list = append(list, Body{Shape: Shape{ID: v.ID}, Kind: plan.ThingVehicle, Known: v.Length > 0 && v.Width > 0, middle: v.At})
		b := &list[len(list)-1]
		b.lies = v.Stuck != nil && v.Stuck.Overturned
		if !b.Known {
			continue
		}
		b.corners = v.Corners() // the list never grows past its room, so the corners stay where they are
		b.Shape = Outline(b.corners[:])
		b.ID = v.ID
		if v.Height > 0 {
			b.HeightM = float64(v.Rise + v.Height)
		}
		east, north := plan.Heading(v.Bearing)
		b.halves = [2]r3.Vector{{X: east, Y: north, Z: float64(v.Length) / 2}, {X: -north, Y: east, Z: float64(v.Width) / 2}}
	}
	for i := range site.Anchors {
		if t := &site.Anchors[i]; t.HasTrunk() || plan.AnchorKindOf(t.Kind) == nil {
			thick := AtStrap(t)
			list = append(list, Body{Shape: Shape{ID: t.ID}, Kind: plan.ThingAnchor, Known: thick > 0, middle: t.At, radiusM: float64(thick) / 2})
		}
	}
	return list
}

// Line is a straight run of a line or strap through the air. Ends are the things
// of the site that its ends are fast to, in any order, by themselves or through
// blocks, slings and shackles; empty: none.
type Line struct {
	A, B r3.Vector
	Ends [2]plan.ID
}

// Fast reports whether an end of l is fast to a thing.
func (l *Line) Fast(id plan.ID) bool { return id != "" && (l.Ends[0] == id || l.Ends[1] == id) }

// Bears is where l bears on b: the one rule for lines, straps and lines being
// drawn. Of what l is fast to the edge beside its end does not count: a line may
// begin at a point that lies in, but not run through the thing. A body whose
// extent is not known meets nothing: see [Body.Unmeasured].
func (b *Body) Bears(g *Ground, l *Line) Contact {
	if !b.Known || b.Apart(l) {
		return Contact{}
	}
	if !l.Fast(b.ID) {
		return b.meets(g, l)
	}
	own := *b
	var in [4]plan.Point
	if b.Kind == plan.ThingVehicle {
		if b.lies {
			return Contact{}
		}
		in = b.inset(facts.InWayBodyInset.Value())
		own.Shape = Outline(in[:])
		own.HeightM = b.HeightM
	}
	c := own.meets(g, l)
	if !c.Touches || float64(c.To) <= own.lead(flat(l.A))+touch ||
		float64(c.From) >= l.B.Sub(l.A).Norm()-own.lead(flat(l.B))-touch {
		return Contact{}
	}
	return c
}

// Apart reports whether b is a trunk of known thickness that lies beside the box
// about l: quick to tell, and most do.
func (b *Body) Apart(l *Line) bool {
	if b.Kind != plan.ThingAnchor || !b.Known {
		return false
	}
	r := b.radiusM + touch
	x, y := b.middle.X, b.middle.Y
	return l.A.X > x+r && l.B.X > x+r || l.A.X < x-r && l.B.X < x-r || l.A.Y > y+r && l.B.Y > y+r || l.A.Y < y-r && l.B.Y < y-r
}

// First is the place in bodies of what l bears on first, counted from its end A,
// and where; -1: nothing.
func First(bodies []Body, g *Ground, l *Line) (at int, c Contact) {
	at = -1
	for i := range bodies {
		if k := bodies[i].Bears(g, l); k.Touches && (at < 0 || k.From < c.From) {
			at, c = i, k
		}
	}
	return at, c
}

// meets is where l bears on b, whatever it is fast to.
func (b *Body) meets(g *Ground, l *Line) Contact {
	if b.Kind != plan.ThingAnchor {
		return b.Shape.Bears(g, l.A, l.B)
	}
	c := TrunkContact(flat(l.A), flat(l.B), b.middle, b.radiusM)
	if level := math.Hypot(l.B.X-l.A.X, l.B.Y-l.A.Y); c.Touches && level > 0 {
		along := quantity.Length(l.B.Sub(l.A).Norm() / level)
		c.From, c.To, c.Length = c.From*along, c.To*along, c.Length*along
	}
	return c
}

// lead is how far from its end at p a line may lie over b, which it is fast to:
// from a point that lies in by d up to the edge, led at most 60° off square to
// it. A strap round a boulder is assumed on a circle as long round as the
// outline, so that its end may lie well in or out: there half the way across is
// left to it too.
func (b *Body) lead(p plan.Point) float64 {
	d := 0.0
	switch {
	case b.Kind == plan.ThingAnchor:
		d = max(0, b.radiusM-math.Hypot(p.X-b.middle.X, p.Y-b.middle.Y))
	case b.Inside(p):
		d = EdgeDistance(b.Corners, p)
	}
	d *= steepestLead()
	if b.Kind == plan.ThingObstacle {
		d += Perimeter(b.Corners) / (2 * math.Pi)
	}
	return d
}

// inset are the corners of a vehicle's body that much within its drawn edge.
func (b *Body) inset(byM float64) (in [4]plan.Point) {
	for i, s := range [4][2]float64{{1, 1}, {-1, 1}, {-1, -1}, {1, -1}} {
		in[i] = b.middle
		for k, h := range b.halves {
			f := s[k] * max(0, h.Z-byM)
			in[i].X += f * h.X
			in[i].Y += f * h.Y
		}
	}
	return in
}

// Clear is how far l passes beside b, seen from above, metres; 0 where they
// meet. A trunk nobody measured counts as thin, a vehicle as infinitely far: see
// [Body.Unmeasured]. Where it is atMostM or more, some number not below comes
// back.
func (b *Body) Clear(l *Line, atMostM float64) float64 {
	if b.Kind == plan.ThingAnchor {
		return TrunkDistance(flat(l.A), flat(l.B), b.middle, b.radiusM)
	}
	return b.Distance(flat(l.A), flat(l.B), atMostM)
}

// Unmeasured reports whether b may reach to where l runs, and nobody said how far it
// reaches: l passes nearer to its middle than the largest of its kind does. From
// what it is fast to, l may lead away.
func (b *Body) Unmeasured(l *Line) bool {
	if b.Known || b.Kind == plan.ThingObstacle {
		return false
	}
	reach := facts.InWayLargestVehicle.Value()
	if b.Kind == plan.ThingAnchor {
		reach = largestTrunk()
	}
	pa, pb := flat(l.A), flat(l.B)
	if l.Fast(b.ID) {
		if b.lies {
			return false
		}
		near, far := pa, pb
		if square(pb, b.middle) < square(pa, b.middle) {
			near, far = pb, pa
		}
		if toward := (b.middle.X-near.X)*(far.X-near.X) + (b.middle.Y-near.Y)*(far.Y-near.Y); !(toward > touch) {
			return false
		}
	}
	return TrunkDistance(pa, pb, b.middle, reach) == 0
}

// Misses reports whether b is a trunk that a swath passes by.
func (b *Body) Misses(s *Swath) bool {
	r := b.radiusM
	if !b.Known {
		r = largestTrunk()
	}
	return b.Kind == plan.ThingAnchor && s.Misses(b.middle, r)
}

// Covers is the ground that b covers for sure, and at most, as outlines from
// above; single points where nobody said how far it reaches.
func (b *Body) Covers() (least, most []plan.Point) {
	switch {
	case b.Kind == plan.ThingAnchor && !b.Known:
		return Round(b.middle, 0), Round(b.middle, largestTrunk())
	case b.Kind == plan.ThingAnchor:
		least = Round(b.middle, b.radiusM)
	case !b.Known:
		return Round(b.middle, 0), Round(b.middle, facts.InWayLargestVehicle.Value())
	default:
		least = b.Corners
	}
	return least, least
}

// square is the square of the distance between two places, m².
func square(p, q plan.Point) float64 { return (p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) }

// flat is a place seen from above.
func flat(v r3.Vector) plan.Point { return plan.Point{X: v.X, Y: v.Y} }
