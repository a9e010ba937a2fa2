package layout

import (
	"math"

	"kedge/solver/plan"
)

// FineM is the step, in metres, to which places are rounded that nobody chose to
// the digit: a centimetre, what a tape gives over rough ground. (ours)
const FineM = 0.01

// Stepped is x rounded to a step above 0.
func Stepped(x, step float64) float64 {
	n := math.Round(x / step)
	if inverse := math.Round(1 / step); inverse >= 1 && math.Abs(inverse*step-1) < 1e-12 {
		return n / inverse // n × 0.1 is not the nearest number to n tenths
	}
	return n * step
}

// Rounded is p with both coordinates rounded to a step in metres.
func Rounded(p plan.Point, stepM float64) plan.Point {
	return plan.Point{X: Stepped(p.X, stepM) + 0, Y: Stepped(p.Y, stepM) + 0}
}

// toward is the place so far from a on the way to b, rounded to [FineM]; a
// itself if the two are one.
func toward(a, b plan.Point, lengthM float64) plan.Point {
	d := a.Dist(b)
	if !(d > 0) {
		return a
	}
	return Rounded(plan.Point{X: a.X + (b.X-a.X)*lengthM/d, Y: a.Y + (b.Y-a.Y)*lengthM/d}, FineM)
}

func finite(p plan.Point) bool {
	return !math.IsNaN(p.X+p.Y) && !math.IsInf(p.X, 0) && !math.IsInf(p.Y, 0)
}
