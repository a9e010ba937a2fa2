package zone

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// PersonReach is how far from the drawn place somebody may be touched, metres: a
// disc of half a metre (ours) and the greatest way from that place to the corner of
// its doubts. Whatever of the ground the disc touches, the person is inside.
func PersonReach(p *plan.Person) float64 {
	far := func(member string, at float64) float64 {
		d, ok := p.Doubt(member)
		if !ok {
			return 0
		}
		lo, hi := d.Around(at)
		return max(at-lo, hi-at)
	}
	return facts.PersonRadius.Value() + math.Hypot(far("at.x_m", p.At.X), far("at.y_m", p.At.Y))
}

// touched reports whether a disc reaches into a polygon. Corners may run either
// way round; its edge is inside.
func touched(ps []plan.Point, at plan.Point, radiusM float64) bool {
	return terrain.Within(ps, at, radiusM+edgeM)
}

// grown is a convex polygon, counter-clockwise, with all the ground within a
// margin of it: a polygon that contains the true outline with its round
// corners.
func grown(ps []plan.Point, marginM float64) []plan.Point {
	if !(marginM > 0) || len(ps) < 3 {
		return ps
	}
	const step = 15 * math.Pi / 180
	out := make([]plan.Point, 0, 4*len(ps)+8)
	before := normal(ps[len(ps)-1], ps[0])
	for i, p := range ps {
		after := normal(p, ps[(i+1)%len(ps)])
		turn := math.Atan2(cross(before, after), dot(before, after))
		from := math.Atan2(before.Y, before.X)
		// The corners stand where the tangents of the arc meet.
		n := max(1, math.Ceil(turn/step-1e-9))
		for k := range int(n) {
			out = append(out, polar(p, from+(float64(k)+0.5)*turn/n, marginM/math.Cos(turn/n/2)))
		}
		before = after
	}
	return out
}

// normal is the unit vector to the right of the way from a to b.
func normal(a, b plan.Point) plan.Point {
	u, _ := unit(sub(b, a))
	return plan.Point{X: u.Y, Y: -u.X}
}

// reaches reports whether the box about the segment p–q, wider by a radius, reaches
// a box. A box that it does not reach is touched by no part of that way.
func reaches(b *r2.Rect, p, q plan.Point, radiusM float64) bool {
	r := radiusM + edgeM
	return !b.IsEmpty() && max(p.X, q.X) >= b.X.Lo-r && min(p.X, q.X) <= b.X.Hi+r &&
		max(p.Y, q.Y) >= b.Y.Lo-r && min(p.Y, q.Y) <= b.Y.Hi+r
}

// beside reports whether a box lies wholly further than a radius to one side of
// the ray from p along dir, or behind it.
func beside(b *r2.Rect, p, dir plan.Point, radiusM float64) bool {
	c := plan.Point{X: (b.X.Lo+b.X.Hi)/2 - p.X, Y: (b.Y.Lo+b.Y.Hi)/2 - p.Y}
	w, h := (b.X.Hi-b.X.Lo)/2, (b.Y.Hi-b.Y.Lo)/2
	r := radiusM + edgeM
	return math.Abs(cross(dir, c)) > math.Abs(dir.Y)*w+math.Abs(dir.X)*h+r ||
		dot(dir, c) < -(math.Abs(dir.X)*w+math.Abs(dir.Y)*h)-r
}

// span is a part of a ray within reach of something, metres from its start.
type span struct {
	from, to float64
	of       int
}

// spans adds the parts of a ray from which a disc touches a polygon: where the
// ray is inside, and where it is within the radius of an edge. Of a convex
// outline it is one.
func spans(out []span, ps []plan.Point, isConvex bool, of int, from, dir plan.Point, radiusM float64) []span {
	if len(ps) == 0 {
		return out
	}
	r := radiusM + edgeM
	lo, hi := math.Inf(1), math.Inf(-1) // of a convex one
	var at [16]float64
	cut := at[:0]
	a := sub(ps[len(ps)-1], from)
	sa := cross(dir, a)
	for _, b := range ps {
		b = sub(b, from)
		sb := cross(dir, b)
		if (sa <= r || sb <= r) && (sa >= -r || sb >= -r) {
			ta, tb := dot(dir, a), dot(dir, b)
			if (sa > 0) != (sb > 0) {
				x := ta + (tb-ta)*sa/(sa-sb)
				if isConvex {
					lo, hi = min(lo, x), max(hi, x)
				} else {
					cut = append(cut, x)
				}
			}
			if n0, n1, ok := nearSpan(ta, sa, tb, sb, r); ok {
				if isConvex {
					lo, hi = min(lo, n0), max(hi, n1)
				} else if n1 >= 0 {
					out = append(out, span{n0, n1, of})
				}
			}
		}
		a, sa = b, sb
	}
	if isConvex {
		if hi >= 0 {
			out = append(out, span{lo, hi, of})
		}
		return out
	}
	slices.Sort(cut)
	for i := 0; i+1 < len(cut); i += 2 {
		if cut[i+1] >= 0 {
			out = append(out, span{cut[i], cut[i+1], of})
		}
	}
	return out
}

// sortSpans puts the nearest first. They are few.
func sortSpans(s []span) {
	for i := 1; i < len(s); i++ {
		x := s[i]
		k := i
		for ; k > 0 && (x.from < s[k-1].from || x.from == s[k-1].from && x.of < s[k-1].of); k-- {
			s[k] = s[k-1]
		}
		s[k] = x
	}
}

// nearSpan is the part of the axis within r of the segment from (ta, sa) to
// (tb, sb), s being the distance from the axis. It is one piece, as what lies
// within r of a segment is convex; its ends lie on the round ends or on the
// straight sides.
func nearSpan(ta, sa, tb, sb, r float64) (lo, hi float64, ok bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	put := func(t float64) { lo, hi = min(lo, t), max(hi, t) }
	if k := r*r - sa*sa; k >= 0 {
		k = math.Sqrt(k)
		put(ta - k)
		put(ta + k)
	}
	if k := r*r - sb*sb; k >= 0 {
		k = math.Sqrt(k)
		put(tb - k)
		put(tb + k)
	}
	dt, ds := tb-ta, sb-sa
	if l := math.Hypot(dt, ds); l > 0 && ds != 0 {
		for _, side := range [2]float64{r, -r} {
			// A straight side is the segment moved by side·(−ds, dt)/l.
			if x := -(sa + side*dt/l) / ds; x >= 0 && x <= 1 {
				put(ta - side*ds/l + x*dt)
			}
		}
	}
	return lo, hi, lo <= hi
}
