package terrain

import (
	"math"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/solver/plan"
)

// roundCorners is how many corners a circle gets, drawn round it: 4 mm too wide
// at half a metre. (ours)
const roundCorners = 24

// Round is the outline of a circle, from outside; of no radius the point itself.
func Round(middle plan.Point, radiusM float64) []plan.Point {
	return Circle(middle, radiusM, roundCorners)
}

// Swath is the ground that outlines may cover as they move along a way without
// turning: wider than that, and quick to ask.
type Swath struct {
	way                 r3.Vector
	left, right         float64 // across the way, metres
	behind, ahead, farM float64 // along it
}

// NewSwath is the swath of outlines that move so far at most along a unit vector on
// the ground.
func NewSwath(way r3.Vector, farM float64, outlines ...[]plan.Point) Swath {
	s := Swath{way: way, left: math.Inf(1), right: math.Inf(-1), behind: math.Inf(1), ahead: math.Inf(-1)}
	for _, o := range outlines {
		lo, hi := Span(o, r2.Point{X: -way.Y, Y: way.X})
		s.left, s.right = min(s.left, lo), max(s.right, hi)
		lo, hi = Span(o, r2.Point{X: way.X, Y: way.Y})
		s.behind, s.ahead = min(s.behind, lo), max(s.ahead, hi)
	}
	s.farM = farM * (way.X*way.X + way.Y*way.Y)
	return s
}

// Misses reports whether [Driven] would meet no circle of a radius about a place
// within that travel, drawn by [Round], from any of the outlines.
func (s *Swath) Misses(at plan.Point, radiusM float64) bool {
	r := max(0, radiusM)/math.Cos(math.Pi/roundCorners) + 2*touch
	across, along := at.X*-s.way.Y+at.Y*s.way.X, at.X*s.way.X+at.Y*s.way.Y
	return across+r < s.left || across-r > s.right || along+r < s.behind || along-r > s.ahead+s.farM
}

// Driven is the travel, metres along way, at which an outline that moves along
// it without turning first meets another; false: it never does. way is a unit
// vector along the ground, and the travel counts along the ground. Outlines may
// be single points. Where the two overlap from the start the travel is 0 if they
// lie into each other as deep ahead as behind or deeper; else it moves out, and
// within tells it.
//
// Each corner of one runs along the way until it meets an edge of the other.
func Driven(moving, other []plan.Point, way r3.Vector) (travelM float64, meets, within bool) {
	if apart(moving, other, way) {
		return 0, false, false
	}
	first, last, back := math.Inf(1), math.Inf(-1), math.Inf(1)
	hit := func(t float64) {
		if t >= -touch {
			first = min(first, max(0, t))
		}
		last, back = max(last, t), min(back, t)
	}
	for i := range moving {
		for k := range other {
			runs(moving[i], other[k], other[(k+1)%len(other)], way.X, way.Y, hit)
			runs(other[k], moving[i], moving[(i+1)%len(moving)], -way.X, -way.Y, hit)
		}
	}
	if !Overlap(moving, other) {
		return first, !math.IsInf(first, 1), false
	}
	if ahead, behind := last, -back; !(ahead >= behind) {
		return 0, false, true
	}
	return 0, true, true
}

// apart reports whether an outline moved along a way passes beside another, or leaves
// it behind: quickly, for most do.
func apart(moving, other []plan.Point, way r3.Vector) bool {
	ahead, across := r2.Point{X: way.X, Y: way.Y}, r2.Point{X: -way.Y, Y: way.X}
	a0, a1 := Span(moving, across)
	b0, b1 := Span(other, across)
	if a1+touch < b0 || b1+touch < a0 {
		return true
	}
	a0, _ = Span(moving, ahead)
	_, b1 = Span(other, ahead)
	return b1+touch < a0
}

// runs tells hit how far a point at p runs along (dx, dy) until it meets the edge
// from a to b; less than 0: it lies behind. Edges along the way are met at their
// ends, which are corners themselves.
func runs(p, a, b plan.Point, dx, dy float64, hit func(t float64)) {
	ex, ey := b.X-a.X, b.Y-a.Y
	cross := dx*ey - dy*ex
	if a == b { // a single point: met where it lies on the way
		if off := dx*(a.Y-p.Y) - dy*(a.X-p.X); math.Abs(off) <= touch*math.Hypot(dx, dy) {
			hit(((a.X-p.X)*dx + (a.Y-p.Y)*dy) / (dx*dx + dy*dy))
		}
		return
	}
	if math.Abs(cross) <= 1e-12*math.Hypot(ex, ey) {
		return
	}
	if f := (dx*(p.Y-a.Y) - dy*(p.X-a.X)) / cross; f >= 0 && f <= 1 {
		hit(((a.X-p.X)*ey - (a.Y-p.Y)*ex) / cross)
	}
}
