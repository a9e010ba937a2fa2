package zone

import (
	"cmp"
	"math"
	"slices"

	"github.com/peterstace/simplefeatures/geom"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// order is the kinds of zone in the order in which a person's are named.
var order = part.ZoneKinds

// pocket tells that somebody outside the zones can leave only through one: the
// kinds that shut the place in, nil if there is a way. With ring the stand-off
// is one of them; else it may be crossed.
//
// A place is shut in if no free straight way leads out and it lies in a hole of
// the joined zones, obstacles and vehicles, but not in one of obstacles and
// vehicles alone.
func (c *crowd) pocket(at plan.Point, radiusM float64, ring bool) []part.ZoneKind {
	var kinds [len(order)]bool
	var s []span
	first := c.away(at) // where a way is likeliest
	for r := range wayRays {
		dir := rays()[(r+first)%wayRays]
		reach := c.blocked(at, dir, wayFarM)
		far := add(at, dir, reach)
		s = s[:0]
		for i := range c.Zones {
			if (ring || c.Zones[i].Kind != part.ZoneStandOff) && c.kind[i] >= 0 && c.boxes[i].meets(at, far, radiusM) && !c.boxes[i].beside(at, dir, radiusM) {
				s = spans(s, c.Zones[i].Outline, c.convex[i], i, at, dir, radiusM)
			}
		}
		if len(s) == 0 && reach >= wayFarM {
			return nil
		}
		if len(s) > 0 {
			nearest := slices.MinFunc(s, func(a, b span) int { return cmp.Compare(a.from, b.from) })
			kinds[c.kind[nearest.of]] = true
		}
	}
	if !c.shutIn(at, radiusM, ring) {
		return nil
	}
	var out []part.ZoneKind
	for k, is := range kinds {
		if is {
			out = append(out, order[k])
		}
	}
	return out
}

// away is the ray that leads away from the lines.
func (c *crowd) away(at plan.Point) int {
	var m plan.Point
	for i := range c.Stretches {
		m = add(m, c.Stretches[i].A, 1/float64(len(c.Stretches)))
	}
	d := sub(at, m)
	return int(math.Round(math.Atan2(d.Y, d.X)/(2*math.Pi)*wayRays)+wayRays) % wayRays
}

// joinedMost is how many outlines are joined to look for a roundabout way out
// of a pocket. Where there are more, a place without a straight one counts as
// shut in. (ours)
const joinedMost = 400

// shutIn reports whether a place lies in a hole of the joined zones and walls that
// is none of the walls alone.
func (c *crowd) shutIn(at plan.Point, radiusM float64, ring bool) bool {
	var walls, all []geom.Geometry
	for i := range c.walls {
		if w := &c.walls[i]; len(w.outline) >= 3 && !touched(w.outline, at, 0) {
			walls = append(walls, polygon(w.outline))
		}
	}
	if holds(walls, at) {
		return false
	}
	all = walls
	for i := range c.Zones {
		z := &c.Zones[i]
		if !ring && z.Kind == part.ZoneStandOff || len(z.Outline) < 3 {
			continue
		}
		if convex(z.Outline) {
			all = append(all, polygon(grown(z.Outline, radiusM)))
			continue
		}
		all = append(all, polygon(z.Outline))
		for k, a := range z.Outline { // the joints that its neighbourhood is made of
			if h := hull(append(circle(a, radiusM), circle(z.Outline[(k+1)%len(z.Outline)], radiusM)...)); h != nil {
				all = append(all, polygon(h))
			}
		}
	}
	return len(all) > joinedMost || holds(all, at)
}

// holds reports whether a place in none of some outlines lies in a hole of their
// union. Outlines that cannot be joined hold every place.
func holds(of []geom.Geometry, at plan.Point) bool {
	if len(of) == 0 {
		return false
	}
	joined, err := geom.UnionMany(of)
	if err != nil {
		return true
	}
	return slices.ContainsFunc(rings(joined), func(r []plan.Point) bool { return inside(r, at) })
}

// polygon is an outline in the library's terms.
func polygon(ps []plan.Point) geom.Geometry {
	xy := make([]float64, 0, 2*len(ps)+2)
	for _, p := range ps {
		xy = append(xy, p.X, p.Y)
	}
	xy = append(xy, ps[0].X, ps[0].Y)
	ring := geom.NewLineString(geom.NewSequence(xy, geom.DimXY))
	return geom.NewPolygon([]geom.LineString{ring}).AsGeometry()
}

// rings are the outer rings of a union, counter-clockwise, without those that
// lie in a filled pocket of another; nil if it is no area.
func rings(g geom.Geometry) [][]plan.Point {
	var polys []geom.Polygon
	switch g.Type() {
	case geom.TypePolygon:
		polys = append(polys, g.MustAsPolygon())
	case geom.TypeMultiPolygon:
		m := g.MustAsMultiPolygon()
		for i := range m.NumPolygons() {
			polys = append(polys, m.PolygonN(i))
		}
	default:
		return nil
	}
	var out [][]plan.Point
	for _, p := range polys {
		seq := p.ExteriorRing().Coordinates()
		n := seq.Length() - 1
		if n < 3 {
			continue
		}
		ring := make([]plan.Point, n)
		for i := range ring {
			xy := seq.GetXY(i)
			ring[i] = plan.Point{X: xy.X, Y: xy.Y}
		}
		if area(ring) < 0 {
			slices.Reverse(ring)
		}
		out = append(out, startLow(ring))
	}
	return slices.DeleteFunc(out, func(r []plan.Point) bool {
		for _, o := range out {
			if len(o) > 0 && len(r) > 0 && &o[0] != &r[0] && area(o) > area(r) && inside(o, middle(r)) && inside(o, r[0]) {
				return true
			}
		}
		return false
	})
}

// startLow turns a ring so that it starts at its westernmost, southernmost
// corner, whatever the library began with.
func startLow(ring []plan.Point) []plan.Point {
	k := 0
	for i, p := range ring {
		if p.X < ring[k].X || p.X == ring[k].X && p.Y < ring[k].Y {
			k = i
		}
	}
	return append(slices.Clone(ring[k:]), ring[:k]...)
}
