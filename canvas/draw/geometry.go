package draw

import (
	"math"

	"kedge/canvas/pen"
)

func add(a, b pen.Point) pen.Point              { return pen.Point{X: a.X + b.X, Y: a.Y + b.Y} }
func sub(a, b pen.Point) pen.Point              { return pen.Point{X: a.X - b.X, Y: a.Y - b.Y} }
func scaled(a pen.Point, k float64) pen.Point   { return pen.Point{X: a.X * k, Y: a.Y * k} }
func along(a, d pen.Point, k float64) pen.Point { return pen.Point{X: a.X + d.X*k, Y: a.Y + d.Y*k} }
func mix(a, b pen.Point, t float64) pen.Point {
	return pen.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}
func dist(a, b pen.Point) float64  { return math.Hypot(a.X-b.X, a.Y-b.Y) }
func dot(a, b pen.Point) float64   { return a.X*b.X + a.Y*b.Y }
func cross(a, b pen.Point) float64 { return a.X*b.Y - a.Y*b.X }
func square(a pen.Point) pen.Point { return pen.Point{X: -a.Y, Y: a.X} }
func angleDeg(d pen.Point) float64 { return math.Atan2(-d.Y, d.X) * 180 / math.Pi } // counter-clockwise as seen
func unit(a pen.Point) pen.Point {
	l := math.Hypot(a.X, a.Y)
	if !(l > 0) {
		return pen.Point{}
	}
	return pen.Point{X: a.X / l, Y: a.Y / l}
}

// frame maps a thing's own axes, ahead and left, to the picture.
func frame(at, ahead pen.Point) pen.Affine {
	left := pen.Point{X: ahead.Y, Y: -ahead.X}
	return pen.Affine{A: ahead.X, B: ahead.Y, C: left.X, D: left.Y, E: at.X, F: at.Y}
}

// box is an upright rectangle in pen units.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) middle() pen.Point      { return pen.Point{X: (b.x0 + b.x1) / 2, Y: (b.y0 + b.y1) / 2} }
func (b box) grown(by float64) box   { return box{b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by} }
func (b box) inside(o box) bool      { return b.x0 >= o.x0 && b.x1 <= o.x1 && b.y0 >= o.y0 && b.y1 <= o.y1 }
func (b box) meets(o box) bool       { return b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 }
func (b box) holds(p pen.Point) bool { return p.X >= b.x0 && p.X <= b.x1 && p.Y >= b.y0 && p.Y <= b.y1 }
func around(c pen.Point, w, h float64) box {
	return box{c.X - w/2, c.Y - h/2, c.X + w/2, c.Y + h/2}
}

// nearest is the point of the box that is nearest to p.
func (b box) nearest(p pen.Point) pen.Point {
	return pen.Point{X: math.Max(b.x0, math.Min(p.X, b.x1)), Y: math.Max(b.y0, math.Min(p.Y, b.y1))}
}

// clipped is the share from t0 to t1 of the segment ab inside the box, false if
// none is (Liang and Barsky).
func (b box) clipped(p, q pen.Point) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	d := sub(q, p)
	for _, e := range [...][2]float64{{-d.X, p.X - b.x0}, {d.X, b.x1 - p.X}, {-d.Y, p.Y - b.y0}, {d.Y, b.y1 - p.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return 0, 0, false
			}
		case e[0] < 0:
			t0 = math.Max(t0, e[1]/e[0])
		default:
			t1 = math.Min(t1, e[1]/e[0])
		}
	}
	return t0, t1, t0 < t1
}

// nearestOnSegment is the point of ab nearest to p.
func nearestOnSegment(p, a, b pen.Point) pen.Point {
	d := sub(b, a)
	l := dot(d, d)
	if !(l > 0) {
		return a
	}
	return mix(a, b, math.Max(0, math.Min(1, dot(sub(p, a), d)/l)))
}

// insidePolygon is the even-odd test.
func insidePolygon(p pen.Point, poly []pen.Point) bool {
	in := false
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// view is the picture as a box.
func (v *View) box() box { return box{v.X0, v.Y0, v.X0 + v.W, v.Y0 + v.H} }
