package terrain

import (
	"math"

	"kedge/solver/plan"
)

// Shape is an obstacle made ready for many tests: its corners, the box round
// them and which way round they run. It shares the obstacle's corners.
type Shape struct {
	ID      plan.ID
	Corners []plan.Point
	HeightM float64 // 0: as high as any line

	low, high plan.Point // the box
	sense     float64    // 1 if the corners run counter-clockwise, -1 if clockwise
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
	s := Shape{Corners: corners, sense: 1,
		low: plan.Point{X: math.Inf(1), Y: math.Inf(1)}, high: plan.Point{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, c := range corners {
		s.low.X, s.high.X = min(s.low.X, c.X), max(s.high.X, c.X)
		s.low.Y, s.high.Y = min(s.low.Y, c.Y), max(s.high.Y, c.Y)
	}
	if Area(corners) < 0 {
		s.sense = -1
	}
	return s
}

// Area is the area inside corners, m², positive if they run counter-clockwise.
func Area(corners []plan.Point) float64 {
	if len(corners) < 3 {
		return 0
	}
	o := corners[0]
	twice := 0.0
	for i := 1; i+1 < len(corners); i++ {
		a, b := corners[i], corners[i+1]
		twice += (a.X-o.X)*(b.Y-o.Y) - (a.Y-o.Y)*(b.X-o.X)
	}
	return twice / 2
}

// boxGap is a lower bound of the distance between the segment a–b and s: that
// between their boxes, 0 if these overlap.
func (s *Shape) boxGap(a, b plan.Point) float64 {
	dx := max(s.low.X-max(a.X, b.X), min(a.X, b.X)-s.high.X, 0)
	dy := max(s.low.Y-max(a.Y, b.Y), min(a.Y, b.Y)-s.high.Y, 0)
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
	if !(p.X >= s.low.X && p.X <= s.high.X && p.Y >= s.low.Y && p.Y <= s.high.Y) {
		return false
	}
	in := false
	b := s.Corners[len(s.Corners)-1]
	for _, c := range s.Corners {
		a := b
		b = c
		turn := 2
		if (a.Y > p.Y) != (b.Y > p.Y) {
			turn = plan.Turn(a, b, p)
			if (turn > 0) == (b.Y > a.Y) {
				in = !in
			}
		}
		if turn == 2 && max(a.Y, b.Y) >= p.Y && min(a.Y, b.Y) <= p.Y && max(a.X, b.X) >= p.X && min(a.X, b.X) <= p.X {
			turn = plan.Turn(a, b, p)
		}
		if turn == 0 {
			return true
		}
	}
	return in
}

// edgeDistance is the distance from p to the edge of s, whether p is inside or
// not, metres.
func (s *Shape) edgeDistance(p plan.Point) float64 {
	best := math.Inf(1)
	if len(s.Corners) == 0 {
		return best
	}
	a := s.Corners[len(s.Corners)-1]
	for _, b := range s.Corners {
		best = min(best, squareToSegment(p, a, b))
		a = b
	}
	return math.Sqrt(best)
}

// nearestOn is the point of the segment a–b nearest to p.
func nearestOn(p, a, b plan.Point) plan.Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	l2 := dx*dx + dy*dy
	if l2 == 0 {
		return a
	}
	t := max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l2))
	return plan.Point{X: a.X + t*dx, Y: a.Y + t*dy}
}

// squareToSegment is the square of the distance from p to the segment a–b, m².
func squareToSegment(p, a, b plan.Point) float64 {
	q := nearestOn(p, a, b)
	dx, dy := p.X-q.X, p.Y-q.Y
	return dx*dx + dy*dy
}
