package pen

import (
	"math"

	"github.com/golang/geo/r1"
	"github.com/golang/geo/r2"
)

// Along is the point k times d away from a.
func Along(a, d r2.Point, k float64) r2.Point { return r2.Point{X: a.X + d.X*k, Y: a.Y + d.Y*k} }

// Mix is the point a share t of the way from a to b.
func Mix(a, b r2.Point, t float64) r2.Point {
	return r2.Point{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t}
}

// Box is the upright rectangle between two corners.
func Box(x0, y0, x1, y1 float64) r2.Rect {
	return r2.Rect{X: r1.Interval{Lo: x0, Hi: x1}, Y: r1.Interval{Lo: y0, Hi: y1}}
}

// Around is the upright rectangle of a width and a height round its middle.
func Around(c r2.Point, w, h float64) r2.Rect {
	return r2.RectFromCenterSize(c, r2.Point{X: w, Y: h})
}

// Cut is the share from t0 to t1 of the segment pq that is inside a rectangle;
// ok is false if none is (Liang and Barsky).
func Cut(b r2.Rect, p, q r2.Point) (t0, t1 float64, ok bool) {
	t0, t1 = 0, 1
	d := q.Sub(p)
	for _, e := range [...][2]float64{{-d.X, p.X - b.X.Lo}, {d.X, b.X.Hi - p.X}, {-d.Y, p.Y - b.Y.Lo}, {d.Y, b.Y.Hi - p.Y}} {
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
