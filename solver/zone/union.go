package zone

import (
	"cmp"
	"slices"

	"github.com/peterstace/simplefeatures/geom"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// order is the kinds of zone in the order in which a person's are named.
var order = part.ZoneKinds

// Union joins the zones of each kind, over the rig and over all moments of the
// travel, into outlines that do not overlap. A pocket ringed by a zone counts
// as inside: the only way to it leads through. Zones that cannot be joined are
// handed on as they are; none is ever lost.
//
// Each outline is named after its thing and rule where all it is made of have
// the same, a ring keeps its radius likewise.
func Union(zones []part.Zone) []part.Zone {
	out := make([]part.Zone, 0, len(zones))
	for _, kind := range order {
		var same []part.Zone
		for _, z := range zones {
			if z.Kind == kind && len(z.Outline) >= 3 {
				same = append(same, z)
			}
		}
		out = append(out, unite(same)...)
	}
	for _, z := range zones { // a kind this version does not know
		if !slices.Contains(order[:], z.Kind) {
			out = append(out, z)
		}
	}
	return out
}

// unite joins zones of one kind.
func unite(zs []part.Zone) []part.Zone {
	if len(zs) < 2 {
		return zs
	}
	gs := make([]geom.Geometry, 0, len(zs))
	for _, z := range zs {
		gs = append(gs, polygon(z.Outline))
	}
	joined, err := geom.UnionMany(gs)
	if err != nil {
		return zs
	}
	outer := rings(joined)
	if outer == nil {
		return zs
	}
	out := make([]part.Zone, 0, len(outer))
	for _, r := range outer {
		out = append(out, named(r, zs))
	}
	slices.SortStableFunc(out, func(a, b part.Zone) int {
		return cmp.Or(cmp.Compare(a.Thing, b.Thing), cmp.Compare(a.Outline[0].X, b.Outline[0].X), cmp.Compare(a.Outline[0].Y, b.Outline[0].Y))
	})
	return out
}

// named is an outline with what all zones in it have in common.
func named(outline []plan.Point, zs []part.Zone) part.Zone {
	z := part.Zone{Outline: outline}
	first := true
	for _, s := range zs {
		// A zone lies wholly in one outline: one corner of it tells which. The
		// corner may stand on the edge, moved by the last bit of a crossing.
		if !insideOrNear(outline, s.Outline) {
			continue
		}
		if first {
			z.Kind, z.Thing, z.Fact, z.Radius = s.Kind, s.Thing, s.Fact, s.Radius
			first = false
			continue
		}
		if z.Thing != s.Thing {
			z.Thing = ""
		}
		if z.Fact != s.Fact {
			z.Fact = ""
		}
		if z.Radius != s.Radius {
			z.Radius = 0
		}
	}
	if first {
		z.Kind = zs[0].Kind
	}
	return z
}

func insideOrNear(outline, zone []plan.Point) bool {
	m := middle(zone)
	return inside(zone, m) && inside(outline, m) || slices.ContainsFunc(zone, func(p plan.Point) bool { return inside(outline, p) })
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
