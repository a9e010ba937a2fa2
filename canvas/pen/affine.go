package pen

import (
	"math"

	"kedge/solver/quantity"

	"github.com/golang/geo/r2"
)

// Affine maps (x, y) to (A·x + C·y + E, B·x + D·y + F). The zero value
// collapses everything onto the origin; Identity leaves points where they are.
type Affine struct{ A, B, C, D, E, F float64 }

// Identity leaves points where they are.
func Identity() Affine { return Affine{A: 1, D: 1} }

// ScaleMove scales by s about the origin, then moves by (dx, dy).
func ScaleMove(s, dx, dy float64) Affine { return Affine{A: s, D: s, E: dx, F: dy} }

// BoxAffine places a picture of w×h pixels so that it fills the box whose top
// left corner is (x, y) and whose sides are boxW and boxH pen units, turned by
// rotateDeg (counter-clockwise as seen) about the box's centre.
func BoxAffine(w, h int, x, y, boxW, boxH, rotateDeg float64) Affine {
	sin, cos := quantity.Degrees(rotateDeg).SinCos()
	sx, sy := boxW/float64(w), boxH/float64(h)
	m := Affine{A: cos * sx, B: -sin * sx, C: sin * sy, D: cos * sy}
	cx, cy := float64(w)/2, float64(h)/2
	m.E = x + boxW/2 - m.A*cx - m.C*cy
	m.F = y + boxH/2 - m.B*cx - m.D*cy
	return m
}

// Apply maps one point.
func (m Affine) Apply(p r2.Point) r2.Point {
	return r2.Point{X: m.A*p.X + m.C*p.Y + m.E, Y: m.B*p.X + m.D*p.Y + m.F}
}

// After is the map that does first, then m.
func (m Affine) After(first Affine) Affine {
	return Affine{
		A: m.A*first.A + m.C*first.B, B: m.B*first.A + m.D*first.B,
		C: m.A*first.C + m.C*first.D, D: m.B*first.C + m.D*first.D,
		E: m.A*first.E + m.C*first.F + m.E, F: m.B*first.E + m.D*first.F + m.F,
	}
}

// invert returns the inverse and whether there is one.
func (m Affine) invert() (Affine, bool) {
	det := m.A*m.D - m.B*m.C
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return Affine{}, false
	}
	i := Affine{A: m.D / det, B: -m.B / det, C: -m.C / det, D: m.A / det}
	i.E = -(i.A*m.E + i.C*m.F)
	i.F = -(i.B*m.E + i.D*m.F)
	return i, true
}

func (m Affine) finite() bool {
	return finite(m.A) && finite(m.B) && finite(m.C) && finite(m.D) && finite(m.E) && finite(m.F)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
