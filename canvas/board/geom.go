package board

import (
	"math"

	"kedge/solver/layout"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// bearing is the direction from a to b, clockwise from north, [0, 360).
func bearing(a, b plan.Point) quantity.Degrees {
	return quantity.FromRadians(math.Atan2(b.X-a.X, b.Y-a.Y)).Normal()
}

// fineM is the step, in metres, to which places are rounded that nothing
// snapped.
const fineM = layout.FineM

// stepped is x rounded to a step.
func stepped(x, step float64) float64 { return layout.Stepped(x, step) }

func rounded(p plan.Point, step float64) plan.Point { return layout.Rounded(p, step) }

// fineDeg is the step in degrees to which bearings are rounded: finer than any
// compass on the spot. (ours)
const fineDeg = 0.1

func roundedBearing(d quantity.Degrees) quantity.Degrees {
	return quantity.Degrees(stepped(float64(d.Normal()), fineDeg)).Normal()
}

// between is the angle at c between the ways to a and b, 0 to 180°.
func between(c, a, b plan.Point) quantity.Degrees {
	ax, ay, bx, by := a.X-c.X, a.Y-c.Y, b.X-c.X, b.Y-c.Y
	return quantity.FromRadians(math.Abs(math.Atan2(ax*by-ay*bx, ax*bx+ay*by)))
}

// opensAt is what the legs of a basket open that reaches so far from the middle
// of a trunk.
func opensAt(radius quantity.Length, reachM float64) quantity.Degrees {
	return quantity.FromRadians(2 * math.Asin(math.Min(1, float64(radius)/reachM)))
}
