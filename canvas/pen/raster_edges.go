package pen

import "github.com/golang/geo/r2"

// edge is one directed straight piece of an outline, in pixels, inside the
// box it was clipped to. Horizontal ones carry no area and are not kept.
type edge struct{ x0, y0, x1, y1 float32 }

// addEdge clips the piece from a to b to the box in float64 and appends it.
// Above and below nothing is kept; left and right of the box the piece is
// pressed onto the box's side, so that what lies between it and the other side
// stays covered.
func addEdge(edges []edge, b *r2.Rect, x0, y0, x1, y1 float64) []edge {
	if y0 == y1 || y0 <= b.Y.Lo && y1 <= b.Y.Lo || y0 >= b.Y.Hi && y1 >= b.Y.Hi {
		return edges
	}
	if y0 < b.Y.Lo {
		x0, y0 = x0+(x1-x0)*((b.Y.Lo-y0)/(y1-y0)), b.Y.Lo
	} else if y0 > b.Y.Hi {
		x0, y0 = x0+(x1-x0)*((b.Y.Hi-y0)/(y1-y0)), b.Y.Hi
	}
	if y1 < b.Y.Lo {
		x1, y1 = x0+(x1-x0)*((b.Y.Lo-y0)/(y1-y0)), b.Y.Lo
	} else if y1 > b.Y.Hi {
		x1, y1 = x0+(x1-x0)*((b.Y.Hi-y0)/(y1-y0)), b.Y.Hi
	}
	if x0 >= b.X.Lo && x0 <= b.X.Hi && x1 >= b.X.Lo && x1 <= b.X.Hi {
		return pushEdge(edges, x0, y0, x1, y1)
	}
	switch {
	case x0 <= b.X.Lo && x1 <= b.X.Lo:
		return pushEdge(edges, b.X.Lo, y0, b.X.Lo, y1)
	case x0 >= b.X.Hi && x1 >= b.X.Hi:
		return pushEdge(edges, b.X.Hi, y0, b.X.Hi, y1)
	}
	// The piece crosses one or both sides: cut it there.
	cross := func(x float64) float64 { return y0 + (y1-y0)*((x-x0)/(x1-x0)) }
	near, far := b.X.Lo, b.X.Hi
	if x0 > x1 {
		near, far = b.X.Hi, b.X.Lo
	}
	outside := func(x, side float64) bool { // beyond the side, seen from the box
		return side == b.X.Lo && x < b.X.Lo || side == b.X.Hi && x > b.X.Hi
	}
	sx, sy, ex, ey := x0, y0, x1, y1
	if outside(x0, near) {
		sx, sy = near, cross(near)
		edges = pushEdge(edges, near, y0, near, sy)
	}
	if outside(x1, far) {
		ex, ey = far, cross(far)
	}
	edges = pushEdge(edges, sx, sy, ex, ey)
	if outside(x1, far) {
		edges = pushEdge(edges, far, ey, far, y1)
	}
	return edges
}

func pushEdge(edges []edge, x0, y0, x1, y1 float64) []edge {
	e := edge{float32(x0), float32(y0), float32(x1), float32(y1)}
	if e.y0 == e.y1 {
		return edges
	}
	return append(edges, e)
}

// addContours appends the edges of filled contours, open ones closed.
func addContours(edges []edge, b *r2.Rect, f *flattener, span [2]int) []edge {
	for _, c := range contoursIn(f.contours, span) {
		pts := f.pts[c.from:c.to]
		prev := pts[len(pts)-1]
		for _, p := range pts {
			edges = addEdge(edges, b, prev.X, prev.Y, p.X, p.Y)
			prev = p
		}
	}
	return edges
}
