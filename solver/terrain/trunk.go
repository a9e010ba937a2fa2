package terrain

import (
	"math"

	"kedge/solver/facts"
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

// AtBreast is the diameter of a stem 1.3 m above the ground, which its hold is
// computed by: its girth there ÷ π, or the low end of the taper of its diameter
// at the strap. 0: neither is known.
func AtBreast(a *plan.Anchor) quantity.Length {
	switch {
	case a.Girth != 0:
		return a.Girth / math.Pi
	case a.Trunk != 0:
		return a.Trunk * quantity.Length(facts.TreeTaper.Low().X)
	}
	return 0
}

// AtStrap is the diameter of a stem at the strap, which slings, lines and
// pictures are drawn and computed by: as entered, or by its girth the thickest
// it may be there, ÷ the low end of the taper, since a thicker trunk takes more
// of a sling and spreads its legs. 0: neither is known.
func AtStrap(a *plan.Anchor) quantity.Length {
	if a.Trunk != 0 || a.Girth == 0 {
		return a.Trunk
	}
	return AtBreast(a) / quantity.Length(facts.TreeTaper.Low().X)
}

// AtStrapThin is the thinnest that a stem may be at the strap, for what bends
// round it: as entered, or the diameter at breast height.
func AtStrapThin(a *plan.Anchor) quantity.Length {
	if a.Trunk != 0 {
		return a.Trunk
	}
	return AtBreast(a)
}
