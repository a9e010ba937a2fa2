package terrain

import (
	"math"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// TrunkContact is where the segment a–b meets the round trunk of radiusM about
// c, seen from above.
func TrunkContact(a, b, c plan.Point, radiusM float64) Contact {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return Contact{Touches: math.Hypot(c.X-a.X, c.Y-a.Y) <= radiusM}
	}
	along := ((c.X-a.X)*dx + (c.Y-a.Y)*dy) / l
	across := ((c.Y-a.Y)*dx - (c.X-a.X)*dy) / l
	if !(math.Abs(across) <= radiusM) {
		return Contact{}
	}
	half := math.Sqrt(radiusM*radiusM - across*across)
	from, to := max(0, along-half), min(l, along+half)
	if from > to {
		return Contact{}
	}
	return Contact{Touches: true, From: quantity.Length(from), To: quantity.Length(to), Length: quantity.Length(to - from)}
}

// TrunkDistance is the least horizontal distance between the segment a–b and
// the bark of that trunk, metres; 0 where they meet.
func TrunkDistance(a, b, c plan.Point, radiusM float64) float64 {
	return max(0, math.Sqrt(squareToSegment(c, a, b))-radiusM)
}

// SegmentDistance is the least distance between the segments a–b and c–d,
// metres; 0 where they meet.
func SegmentDistance(a, b, c, d plan.Point) float64 {
	if plan.SegmentsMeet(a, b, c, d) {
		return 0
	}
	return math.Sqrt(min(squareToSegment(a, c, d), squareToSegment(b, c, d), squareToSegment(c, a, b), squareToSegment(d, a, b)))
}
