package zone

import (
	"math"

	"kedge/solver/plan"
)

// arcStepDeg, degrees: corners along a drawn arc. The corners stand out by
// 1/cos(step/2), 0.1 %, so that the polygon contains the arc.
const arcStepDeg = 5

func sub(a, b plan.Point) plan.Point            { return plan.Point{X: a.X - b.X, Y: a.Y - b.Y} }
func add(a, b plan.Point, f float64) plan.Point { return plan.Point{X: a.X + f*b.X, Y: a.Y + f*b.Y} }
func cross(a, b plan.Point) float64             { return a.X*b.Y - a.Y*b.X }
func dot(a, b plan.Point) float64               { return a.X*b.X + a.Y*b.Y }
func dist(a, b plan.Point) float64              { return math.Hypot(a.X-b.X, a.Y-b.Y) }
func finitePoint(p plan.Point) bool             { return finite(p.X) && finite(p.Y) }
func finite(x float64) bool                     { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// unit is v with length 1; false if it has none.
func unit(v plan.Point) (plan.Point, bool) {
	l := math.Hypot(v.X, v.Y)
	if !(l > 0) || math.IsInf(l, 0) {
		return plan.Point{}, false
	}
	return plan.Point{X: v.X / l, Y: v.Y / l}, true
}

// sector is the ground within half an angle of a direction, as far as a
// radius, from a tip. dir has length 1.
func (r *room) sector(tip, dir plan.Point, halfDeg, radiusM float64) []plan.Point {
	if halfDeg >= 180 {
		return r.circle(tip, radiusM)
	}
	n := sectorCorners(halfDeg) - 3
	step := 2 * halfDeg * math.Pi / 180 / float64(n)
	out, far := append(r.corners(n+3), tip), radiusM/math.Cos(step/2)
	from := math.Atan2(dir.Y, dir.X) - halfDeg*math.Pi/180
	// The first and last corners lie on the edges; between them each pair of
	// tangents meets outside the arc.
	out = append(out, polar(tip, from, radiusM))
	for i := range n {
		out = append(out, polar(tip, from+(float64(i)+0.5)*step, far))
	}
	return append(out, polar(tip, from+float64(n)*step, radiusM))
}

// sectorCorners is how many corners a sector has that is no circle.
func sectorCorners(halfDeg float64) int { return max(1, int(math.Ceil(2*halfDeg/arcStepDeg-1e-9))) + 3 }

// circle is a ring of a radius, as a polygon round it.
func (r *room) circle(at plan.Point, radiusM float64) []plan.Point {
	out, far := r.corners(wayRays), radiusM/math.Cos(math.Pi/wayRays)
	for _, u := range rays() {
		out = append(out, add(at, u, far))
	}
	return out
}

// room is memory for the corners of outlines, many at a time.
type room []plan.Point

// corners is an empty outline with room for so many corners.
func (r *room) corners(n int) []plan.Point {
	if cap(*r)-len(*r) < n {
		*r = make([]plan.Point, 0, max(n, min(2*cap(*r), 2048), 4*wayRays))
	}
	from := len(*r)
	*r = (*r)[:from+n]
	return (*r)[from : from : from+n]
}

func polar(at plan.Point, rad, r float64) plan.Point {
	s, c := math.Sincos(rad)
	return plan.Point{X: at.X + r*c, Y: at.Y + r*s}
}

// swept is the strip that a footprint covers as it moves along dir by run,
// wider by a margin on both sides.
func swept(foot []plan.Point, dir plan.Point, runM, marginM float64) []plan.Point {
	if len(foot) == 0 {
		return nil
	}
	side := plan.Point{X: -dir.Y, Y: dir.X}
	o := foot[0]
	var a0, a1, s0, s1 float64
	for _, p := range foot {
		d := sub(p, o)
		a, s := dot(d, dir), dot(d, side)
		a0, a1, s0, s1 = min(a0, a), max(a1, a), min(s0, s), max(s1, s)
	}
	a1 += runM
	s0 -= marginM
	s1 += marginM
	at := func(a, s float64) plan.Point { return add(add(o, dir, a), side, s) }
	return []plan.Point{at(a0, s0), at(a1, s0), at(a1, s1), at(a0, s1)}
}

// edgeM, metres: a person this near an edge is inside, and segments this near meet.
const edgeM = 1e-6

// cuts is where the segment from p toward q (share 0 to 1) meets the segment
// a–b; false if they do not meet. Touching counts.
func cuts(p, q, a, b plan.Point) (share float64, ok bool) {
	d, e := sub(q, p), sub(b, a)
	den := cross(d, e)
	if den == 0 {
		if math.Abs(cross(sub(a, p), d)) > edgeM*math.Hypot(d.X, d.Y) {
			return 0, false
		}
		// Along one line: the nearer end of a–b that lies on p–q.
		l := dot(d, d)
		if l == 0 {
			return 0, false
		}
		s, t := dot(sub(a, p), d)/l, dot(sub(b, p), d)/l
		if s > t {
			s, t = t, s
		}
		if t < 0 || s > 1 {
			return 0, false
		}
		return max(0, s), true
	}
	s, t := cross(sub(a, p), e)/den, cross(sub(a, p), d)/den
	const slack = 1e-9
	if s < -slack || s > 1+slack || t < -slack || t > 1+slack {
		return 0, false
	}
	return min(1, max(0, s)), true
}
