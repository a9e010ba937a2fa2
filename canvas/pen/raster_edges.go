package pen

// edge is one directed straight piece of an outline, in pixels, inside the
// box it was clipped to. Horizontal ones carry no area and are not kept.
type edge struct{ x0, y0, x1, y1 float32 }

// edgeBox is what edges are clipped to, in pixels.
type edgeBox struct{ x0, y0, x1, y1 float64 }

// addEdge clips the piece from a to b to the box in float64 and appends it.
// Above and below nothing is kept; left and right of the box the piece is
// pressed onto the box's side, so that what lies between it and the other side
// stays covered.
func addEdge(edges []edge, b *edgeBox, x0, y0, x1, y1 float64) []edge {
	if y0 == y1 || y0 <= b.y0 && y1 <= b.y0 || y0 >= b.y1 && y1 >= b.y1 {
		return edges
	}
	if y0 < b.y0 {
		x0, y0 = x0+(x1-x0)*((b.y0-y0)/(y1-y0)), b.y0
	} else if y0 > b.y1 {
		x0, y0 = x0+(x1-x0)*((b.y1-y0)/(y1-y0)), b.y1
	}
	if y1 < b.y0 {
		x1, y1 = x0+(x1-x0)*((b.y0-y0)/(y1-y0)), b.y0
	} else if y1 > b.y1 {
		x1, y1 = x0+(x1-x0)*((b.y1-y0)/(y1-y0)), b.y1
	}
	if x0 >= b.x0 && x0 <= b.x1 && x1 >= b.x0 && x1 <= b.x1 {
		return pushEdge(edges, x0, y0, x1, y1)
	}
	switch {
	case x0 <= b.x0 && x1 <= b.x0:
		return pushEdge(edges, b.x0, y0, b.x0, y1)
	case x0 >= b.x1 && x1 >= b.x1:
		return pushEdge(edges, b.x1, y0, b.x1, y1)
	}
	// The piece crosses one or both sides: cut it there.
	cross := func(x float64) float64 { return y0 + (y1-y0)*((x-x0)/(x1-x0)) }
	near, far := b.x0, b.x1
	if x0 > x1 {
		near, far = b.x1, b.x0
	}
	outside := func(x, side float64) bool { // beyond the side, seen from the box
		return side == b.x0 && x < b.x0 || side == b.x1 && x > b.x1
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
func addContours(edges []edge, b *edgeBox, f *flattener, span [2]int) []edge {
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
