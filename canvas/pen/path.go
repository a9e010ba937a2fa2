package pen

import (
	"math"

	"kedge/solver/quantity"

	"github.com/golang/geo/r2"
)

// Verb says what a step of a Path does and how many points it takes.
type Verb uint8

const (
	MoveVerb  Verb = iota // one point: starts a contour
	LineVerb              // one point
	QuadVerb              // two points: control, end
	CubeVerb              // three points: control, control, end
	CloseVerb             // none: back to the contour's start
)

func (v Verb) points() int { return [...]int{1, 1, 2, 3, 0}[v] }

// Path is a list of contours in pen units, x right, y down. The zero value is
// empty and ready; Reset keeps the memory for the next use. A pen copies what
// it needs, so a Path may be changed as soon as the call returns.
type Path struct {
	verbs []Verb
	pts   []r2.Point
	start r2.Point // of the open contour
	open  bool     // a contour was begun and not closed
}

// Reset empties the path and keeps its memory.
func (p *Path) Reset() { p.verbs, p.pts, p.start, p.open = p.verbs[:0], p.pts[:0], r2.Point{}, false }

// Empty reports whether nothing was added.
func (p *Path) Empty() bool { return len(p.verbs) == 0 }

// MoveTo starts a contour at (x, y); an open one before it stays open.
func (p *Path) MoveTo(x, y float64) {
	p.start, p.open = r2.Point{X: x, Y: y}, true
	p.verbs = append(p.verbs, MoveVerb)
	p.pts = append(p.pts, p.start)
}

// begin makes sure a contour is open: after Close the next step starts again
// at the closed contour's start, on an empty path at the given point.
func (p *Path) begin(x, y float64) {
	if p.open {
		return
	}
	if len(p.verbs) > 0 {
		x, y = p.start.X, p.start.Y
	}
	p.MoveTo(x, y)
}

// LineTo adds a straight step to (x, y). Without an open contour it starts one.
func (p *Path) LineTo(x, y float64) {
	p.begin(x, y)
	p.verbs = append(p.verbs, LineVerb)
	p.pts = append(p.pts, r2.Point{X: x, Y: y})
}

// QuadTo adds a quadratic Bézier step with one control point.
func (p *Path) QuadTo(cx, cy, x, y float64) {
	p.begin(cx, cy)
	p.verbs = append(p.verbs, QuadVerb)
	p.pts = append(p.pts, r2.Point{X: cx, Y: cy}, r2.Point{X: x, Y: y})
}

// CubeTo adds a cubic Bézier step with two control points.
func (p *Path) CubeTo(c1x, c1y, c2x, c2y, x, y float64) {
	p.begin(c1x, c1y)
	p.verbs = append(p.verbs, CubeVerb)
	p.pts = append(p.pts, r2.Point{X: c1x, Y: c1y}, r2.Point{X: c2x, Y: c2y}, r2.Point{X: x, Y: y})
}

// Close joins the contour's end to its start.
func (p *Path) Close() {
	if p.open {
		p.verbs = append(p.verbs, CloseVerb)
		p.open = false
	}
}

// Line adds the open contour from (x0, y0) to (x1, y1).
func (p *Path) Line(x0, y0, x1, y1 float64) {
	p.MoveTo(x0, y0)
	p.LineTo(x1, y1)
}

// Polyline adds the open contour through the points.
func (p *Path) Polyline(pts ...r2.Point) {
	for i, q := range pts {
		if i == 0 {
			p.MoveTo(q.X, q.Y)
		} else {
			p.LineTo(q.X, q.Y)
		}
	}
}

// Polygon adds the closed contour through the points.
func (p *Path) Polygon(pts ...r2.Point) {
	if len(pts) > 0 {
		p.Polyline(pts...)
		p.Close()
	}
}

// Rect adds a closed rectangle with its top left corner at (x, y), clockwise
// as seen.
func (p *Path) Rect(x, y, w, h float64) {
	p.MoveTo(x, y)
	p.LineTo(x+w, y)
	p.LineTo(x+w, y+h)
	p.LineTo(x, y+h)
	p.Close()
}

// RoundRect adds a closed rectangle whose corners are quarter circles of
// radius r, at most half the shorter side.
func (p *Path) RoundRect(x, y, w, h, r float64) {
	r = math.Min(r, math.Min(math.Abs(w), math.Abs(h))/2)
	if !(r > 0) {
		p.Rect(x, y, w, h)
		return
	}
	p.MoveTo(x+r, y)
	p.LineTo(x+w-r, y)
	p.Arc(x+w-r, y+r, r, 90, -90)
	p.LineTo(x+w, y+h-r)
	p.Arc(x+w-r, y+h-r, r, 0, -90)
	p.LineTo(x+r, y+h)
	p.Arc(x+r, y+h-r, r, 270, -90)
	p.LineTo(x, y+r)
	p.Arc(x+r, y+r, r, 180, -90)
	p.Close()
}

// Circle adds a closed circle, clockwise as seen.
func (p *Path) Circle(cx, cy, r float64) {
	p.MoveTo(cx+r, cy)
	p.Arc(cx, cy, r, 0, -360)
	p.Close()
}

// arcStepDeg is the widest angle one cubic stands for: at 45° the curve is
// within 4·10⁻⁶ of the radius (third-order fit, closed form below).
const arcStepDeg = 45

// Arc adds a circular arc about (cx, cy) from startDeg over sweepDeg, both
// counter-clockwise as seen. An open contour is joined to the arc's start by a
// straight line; otherwise the arc starts a contour.
//
//	k = 4/3 · tan(sweep/4)   (control arm of the cubic through both tangents)
func (p *Path) Arc(cx, cy, r, startDeg, sweepDeg float64) {
	sin, cos := quantity.Degrees(startDeg).SinCos()
	x, y := cx+r*cos, cy-r*sin
	switch {
	case !p.open:
		p.MoveTo(x, y)
	case p.pts[len(p.pts)-1] != (r2.Point{X: x, Y: y}):
		p.LineTo(x, y)
	}
	if !finite(sweepDeg) {
		p.LineTo(math.NaN(), math.NaN()) // the pen refuses the whole path
		return
	}
	sweepDeg = math.Max(-360, math.Min(360, sweepDeg))
	n := int(math.Ceil(math.Abs(sweepDeg) / arcStepDeg))
	for i := 1; i <= n; i++ {
		s1, c1 := quantity.Degrees(startDeg + sweepDeg*float64(i)/float64(n)).SinCos()
		k := r * 4 / 3 * math.Tan(sweepDeg/float64(n)*math.Pi/180/4)
		p.CubeTo(
			cx+r*cos-k*sin, cy-r*sin-k*cos,
			cx+r*c1+k*s1, cy-r*s1+k*c1,
			cx+r*c1, cy-r*s1)
		sin, cos = s1, c1
	}
}

// Append adds q's contours mapped by m.
func (p *Path) Append(q *Path, m Affine) {
	p.verbs = append(p.verbs, q.verbs...)
	for _, pt := range q.pts {
		p.pts = append(p.pts, m.Apply(pt))
	}
	p.start, p.open = m.Apply(q.start), q.open
}

// Each calls f for every step with its points: one for a move or line, two for
// a quadratic, three for a cubic, none for a close. The slice is only lent.
func (p *Path) Each(f func(v Verb, pts []r2.Point)) {
	i := 0
	for _, v := range p.verbs {
		n := v.points()
		f(v, p.pts[i:i+n])
		i += n
	}
}

// Bounds is the smallest upright box round all points, control points
// included; empty for an empty path or a coordinate that is not finite.
func (p *Path) Bounds() r2.Rect {
	box := r2.EmptyRect()
	for i, q := range p.pts {
		if !finite(q.X) || !finite(q.Y) {
			return r2.EmptyRect()
		}
		if i == 0 {
			box = r2.RectFromPoints(q)
		}
		box.X.Lo, box.X.Hi = math.Min(box.X.Lo, q.X), math.Max(box.X.Hi, q.X)
		box.Y.Lo, box.Y.Hi = math.Min(box.Y.Lo, q.Y), math.Max(box.Y.Hi, q.Y)
	}
	return box
}

// rect reports whether the path is one upright closed rectangle.
func (p *Path) rect() bool {
	if len(p.pts) != 4 || len(p.verbs) != 5 || p.verbs[4] != CloseVerb {
		return false
	}
	for _, v := range p.verbs[1:4] {
		if v != LineVerb {
			return false
		}
	}
	a, b, c, d := p.pts[0], p.pts[1], p.pts[2], p.pts[3]
	return a.Y == b.Y && b.X == c.X && c.Y == d.Y && d.X == a.X ||
		a.X == b.X && b.Y == c.Y && c.X == d.X && d.Y == a.Y
}
