package terrain

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/golang/geo/r2"
	"github.com/peterstace/simplefeatures/geom"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Point is a place on the ground, metres, or in a picture, pen units: what the
// functions for polygons take. Corners run either way round, unless a function
// says which, and the last is joined to the first.
type Point interface{ plan.Point | r2.Point }

// Bounds is the upright box round points; the empty rectangle if there are none.
func Bounds[P Point](ps []P) r2.Rect {
	if len(ps) == 0 {
		return r2.EmptyRect()
	}
	p := r2.Point(ps[0])
	b := r2.RectFromPoints(p)
	for _, q := range ps[1:] {
		p = r2.Point(q)
		b.X.Lo, b.X.Hi = min(b.X.Lo, p.X), max(b.X.Hi, p.X)
		b.Y.Lo, b.Y.Hi = min(b.Y.Lo, p.Y), max(b.Y.Hi, p.Y)
	}
	return b
}

// Area is the area inside corners, m², positive if they run counter-clockwise
// with y up. It is summed from the first corner, so that far-off coordinates
// keep their digits.
func Area[P Point](corners []P) float64 {
	if len(corners) < 3 {
		return 0
	}
	o := r2.Point(corners[0])
	twice := 0.0
	for i := 1; i+1 < len(corners); i++ {
		twice += r2.Point(corners[i]).Sub(o).Cross(r2.Point(corners[i+1]).Sub(o))
	}
	return twice / 2
}

// Perimeter is the length of the edge of corners.
func Perimeter[P Point](corners []P) float64 {
	sum := 0.0
	for i, c := range corners {
		sum += r2.Point(corners[(i+1)%len(corners)]).Sub(r2.Point(c)).Norm()
	}
	return sum
}

// Span is how far points reach along a direction: the least and the greatest of
// p · along. Without points it is empty, from +Inf to −Inf.
func Span[P Point](ps []P, along r2.Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range ps {
		t := r2.Point(p).Dot(along)
		lo, hi = min(lo, t), max(hi, t)
	}
	return lo, hi
}

// Inside reports whether p is inside corners or on their edge. The answer is
// exact.
func Inside[P Point](corners []P, p P) bool {
	if len(corners) == 0 {
		return false
	}
	in, at := false, plan.Point(p)
	b := plan.Point(corners[len(corners)-1])
	for _, c := range corners {
		a := b
		b = plan.Point(c)
		turn := 2
		if (a.Y > at.Y) != (b.Y > at.Y) {
			turn = plan.Turn(a, b, at)
			if (turn > 0) == (b.Y > a.Y) {
				in = !in
			}
		}
		if turn == 2 && max(a.Y, b.Y) >= at.Y && min(a.Y, b.Y) <= at.Y && max(a.X, b.X) >= at.X && min(a.X, b.X) <= at.X {
			turn = plan.Turn(a, b, at)
		}
		if turn == 0 {
			return true
		}
	}
	return in
}

// Within reports whether p is inside corners or at most reach from their edge:
// whether a disc about p touches them.
func Within[P Point](corners []P, p P, reach float64) bool {
	if Inside(corners, p) {
		return true
	}
	at := r2.Point(p)
	for i, c := range corners {
		a, b := r2.Point(c), r2.Point(corners[(i+1)%len(corners)])
		if max(a.X, b.X) < at.X-reach || min(a.X, b.X) > at.X+reach || max(a.Y, b.Y) < at.Y-reach || min(a.Y, b.Y) > at.Y+reach {
			continue
		}
		if squareToSegment(at, a, b) <= reach*reach {
			return true
		}
	}
	return false
}

// EdgeDistance is the distance from p to the edge of corners, whether p is inside
// or not; infinite if there are none.
func EdgeDistance[P Point](corners []P, p P) float64 {
	best := math.Inf(1)
	for i, c := range corners {
		best = min(best, squareToSegment(p, c, corners[(i+1)%len(corners)]))
	}
	return math.Sqrt(best)
}

// Nearest is the point of the segment a–b nearest to p, and the share of a–b at
// which it lies.
func Nearest[P Point](p, a, b P) (q P, share float64) {
	o := r2.Point(a)
	d := r2.Point(b).Sub(o)
	if l2 := d.Dot(d); l2 > 0 {
		share = max(0, min(1, r2.Point(p).Sub(o).Dot(d)/l2))
	}
	return P(r2.Point{X: o.X + share*d.X, Y: o.Y + share*d.Y}), share
}

// ToSegment is the distance from p to the segment a–b, and the share of a–b at
// which the nearest place lies.
func ToSegment[P Point](p, a, b P) (distance, share float64) {
	q, share := Nearest(p, a, b)
	return r2.Point(p).Sub(r2.Point(q)).Norm(), share
}

// squareToSegment is the square of the distance from p to the segment a–b.
func squareToSegment[P Point](p, a, b P) float64 {
	q, _ := Nearest(p, a, b)
	d := r2.Point(p).Sub(r2.Point(q))
	return d.Dot(d)
}

// Meets reports whether the segment a–b has a place in common with corners, their
// edge included. The answer is exact.
func Meets[P Point](corners []P, a, b P) bool {
	if Inside(corners, a) {
		return true
	}
	for i, c := range corners {
		if plan.SegmentsMeet(plan.Point(a), plan.Point(b), plan.Point(c), plan.Point(corners[(i+1)%len(corners)])) {
			return true
		}
	}
	return false
}

// Overlap reports whether two outlines share a place, or come nearer than a
// millimetre.
func Overlap(p, q []plan.Point) bool {
	if len(p) < 3 {
		p, q = q, p
	}
	if len(p) < 3 || len(q) == 0 {
		return false
	}
	s := Outline(p)
	for k, a := range q {
		b := q[(k+1)%len(q)]
		if s.Inside(a) || s.contact(a, b, 0, 1, a.Dist(b)).Touches {
			return true
		}
	}
	return len(q) >= 3 && Inside(q, p[0])
}

// Convex reports whether corners are convex and run counter-clockwise, but for
// turns of no more than 1e-6 m².
func Convex(corners []plan.Point) bool {
	for i, p := range corners {
		a, b, c := r2.Point(p), r2.Point(corners[(i+1)%len(corners)]), r2.Point(corners[(i+2)%len(corners)])
		if b.Sub(a).Cross(c.Sub(b)) < -1e-6 {
			return false
		}
	}
	return Area(corners) > 0
}

// leastAreaM2, square metres: a smaller polygon is a line and encloses nobody.
const leastAreaM2 = 1e-9

// Hull is the convex hull, counter-clockwise from the westernmost corner; nil
// if all points lie on a line.
func Hull(ps []plan.Point) []plan.Point { return AppendHull(nil, ps) }

// AppendHull is [Hull] in the room of an empty list. Andrew, Another efficient
// algorithm for convex hulls in two dimensions, 1979.
func AppendHull(out, ps []plan.Point) []plan.Point {
	var few [2][16]plan.Point // room for what most hulls are of
	p := append(few[0][:0], ps...)
	slices.SortFunc(p, func(a, b plan.Point) int {
		if c := cmp.Compare(a.X, b.X); c != 0 { // mostly: Y need not be looked at
			return c
		}
		return cmp.Compare(a.Y, b.Y)
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return nil
	}
	h := few[1][:0]
	for pass, low := 0, 0; pass < 2; pass++ {
		low = len(h)
		for i := range p {
			q := p[i]
			if pass == 1 {
				q = p[len(p)-1-i]
			}
			for len(h) >= low+2 && !left(h[len(h)-2], h[len(h)-1], q) {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		h = h[:len(h)-1]
	}
	if len(h) < 3 || Area(h) <= leastAreaM2 {
		return nil
	}
	return append(out, h...)
}

// left reports whether the way from a over b to c turns left.
func left(a, b, c plan.Point) bool {
	return r2.Point(b).Sub(r2.Point(a)).Cross(r2.Point(c).Sub(r2.Point(b))) > 0
}

// Union are the outer rings of the union of outlines, counter-clockwise, each
// from its westernmost corner, without those that lie in a hole of another. It
// is an error if the outlines cannot be joined.
func Union(outlines [][]plan.Point) ([][]plan.Point, error) {
	var out [][]plan.Point
	err := joined(outlines, func(g geom.Polygon) {
		if ring := corners(g.ExteriorRing()); len(ring) >= 3 {
			out = append(out, fromWest(ring))
		}
	})
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(slices.Clone(out), func(r []plan.Point) bool {
		return slices.ContainsFunc(out, func(o []plan.Point) bool { return Area(o) > Area(r) && Inside(o, r[0]) })
	}), nil
}

// Hole is ground that outlines shut in and do not cover: its outline as [Union]'s, and
// a place in it.
type Hole struct {
	Outline []plan.Point
	At      plan.Point
}

// Holes are those of the union of outlines, in no order that means anything. It is an
// error if the outlines cannot be joined.
func Holes(outlines [][]plan.Point) (out []Hole, err error) {
	err = joined(outlines, func(g geom.Polygon) {
		for i := range g.NumInteriorRings() {
			ring := g.InteriorRingN(i)
			at, ok := geom.NewPolygon([]geom.LineString{ring}).PointOnSurface().XY()
			if hole := corners(ring); ok && len(hole) >= 3 {
				out = append(out, Hole{fromWest(hole), plan.Point{X: at.X, Y: at.Y}})
			}
		}
	})
	return out, err
}

// joined hands out the pieces of the union of outlines.
func joined(outlines [][]plan.Point, piece func(geom.Polygon)) error {
	shapes := make([]geom.Geometry, len(outlines))
	for i, ps := range outlines {
		xy := make([]float64, 0, 2*len(ps)+2)
		for k := range len(ps) + 1 {
			p := ps[k%len(ps)]
			xy = append(xy, p.X, p.Y)
		}
		shapes[i] = geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))}).AsGeometry()
	}
	all, err := geom.UnionMany(shapes)
	if err != nil {
		return fmt.Errorf("terrain: union of %d outlines: %w", len(outlines), err)
	}
	for _, g := range all.Dump() {
		if g.IsPolygon() {
			piece(g.MustAsPolygon())
		}
	}
	return nil
}

// corners are those of a closed ring, each once.
func corners(ring geom.LineString) []plan.Point {
	seq := ring.Coordinates()
	out := make([]plan.Point, max(0, seq.Length()-1))
	for i := range out {
		xy := seq.GetXY(i)
		out[i] = plan.Point{X: xy.X, Y: xy.Y}
	}
	return out
}

// fromWest turns a ring counter-clockwise and to start at its westernmost,
// southernmost corner.
func fromWest(ring []plan.Point) []plan.Point {
	if Area(ring) < 0 {
		slices.Reverse(ring)
	}
	k := 0
	for i, p := range ring {
		if p.X < ring[k].X || p.X == ring[k].X && p.Y < ring[k].Y {
			k = i
		}
	}
	return append(slices.Clone(ring[k:]), ring[:k]...)
}

// Circle is the outline of a circle, drawn round it with that many corners; of no
// radius the point itself.
func Circle(middle plan.Point, radius float64, corners int) []plan.Point {
	if !(radius > 0) {
		return []plan.Point{middle}
	}
	ps := make([]plan.Point, corners)
	r := radius / math.Cos(math.Pi/float64(corners))
	for i := range ps {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(corners))
		ps[i] = plan.Point{X: middle.X + r*c, Y: middle.Y + r*s}
	}
	return ps
}

// RoundOf is the circle that a strap round an outline is assumed on: about the
// middle of its area, as long round as the outline.
func RoundOf(outline []plan.Point) (middle plan.Point, radius quantity.Length) {
	return plan.Centroid(outline), quantity.Length(Perimeter(outline) / (2 * math.Pi))
}
