package terrain

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Bearing is the bearing of the way from a to b, in [0, 360); 0 if they are one
// place.
func Bearing(a, b plan.Point) quantity.Degrees {
	return VecBearing(part.Vec{b.X - a.X, b.Y - a.Y})
}

// VecBearing is the bearing of the horizontal part of v, in [0, 360); 0 if it
// has none.
func VecBearing(v part.Vec) quantity.Degrees {
	if v[0] == 0 && v[1] == 0 {
		return 0
	}
	return quantity.FromRadians(math.Atan2(v[0], v[1])).Normal()
}

// Heading is the horizontal unit vector of a bearing.
func Heading(bearing quantity.Degrees) part.Vec {
	e, n := plan.Heading(bearing)
	return part.Vec{e, n}
}

// MathAngle is a bearing as an angle of statics: degrees counter-clockwise from
// +x, in [0, 360).
func MathAngle(bearing quantity.Degrees) quantity.Degrees { return (90 - bearing).Normal() }

// FromMathAngle is an angle of statics as a bearing, in [0, 360).
func FromMathAngle(angle quantity.Degrees) quantity.Degrees { return (90 - angle).Normal() }
