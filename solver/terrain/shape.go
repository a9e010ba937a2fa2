package terrain

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/solver/plan"
)

// Shape is an obstacle made ready for many tests: its corners, the box round
// them and which way round they run. It shares the obstacle's corners.
type Shape struct {
	ID      plan.ID
	Corners []plan.Point
	HeightM float64 // 0: as high as any line

	box   r2.Rect
	sense float64 // 1 if the corners run counter-clockwise, -1 if clockwise
}

// NewShape is the shape of o.
func NewShape(o *plan.Obstacle) Shape {
	s := Outline(o.Outline)
	s.ID, s.HeightM = o.ID, float64(o.Height)
	return s
}

// Outline is the shape of a simple polygon: of a zone, a footprint. Without
// corners it meets nothing.
func Outline(corners []plan.Point) Shape {
	s := Shape{Corners: corners, sense: 1, box: Bounds(corners)}
	if Area(corners) < 0 {
		s.sense = -1
	}
	return s
}

// boxGap is a lower bound of the distance between the segment a–b and s: that
// between their boxes, 0 if these overlap.
func (s *Shape) boxGap(a, b plan.Point) float64 {
	dx := max(s.box.X.Lo-max(a.X, b.X), min(a.X, b.X)-s.box.X.Hi, 0)
	dy := max(s.box.Y.Lo-max(a.Y, b.Y), min(a.Y, b.Y)-s.box.Y.Hi, 0)
	if dx == 0 {
		return dy
	}
	if dy == 0 {
		return dx
	}
	return math.Hypot(dx, dy)
}

// Inside reports whether p is inside s or on its edge. The answer is exact.
func (s *Shape) Inside(p plan.Point) bool {
	return s.box.ContainsPoint(r2.Point(p)) && Inside(s.Corners, p)
}
