package statics

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
)

// How fast the ratio of a sheave and of a ring follows the angle of its legs is the
// difference of neighbours. Else the iteration loses its way, or many steps.
func TestRatesOfRatiosAreTheirDifferences(t *testing.T) {
	kappa := (1 - 0.85) / (1 + 0.85)
	for name, v := range map[string]visit{"by wrap": {model: ByWrap, kappa2: kappa * kappa}, "ring": {model: Ring, mu: 0.12}} {
		for _, deg := range []float64{5, 30, 60, 90, 120, 150, 170} {
			ub := r3.Vector{X: math.Cos(0.3), Y: math.Sin(0.3)}
			legs := func(rad float64) r3.Vector { // the angle of the legs −ub and ua
				s, c := math.Sincos(rad)
				return r3.Vector{X: -c*ub.X + s*ub.Y, Y: -c*ub.Y - s*ub.X}
			}
			const step = 1e-5
			at := deg * math.Pi / 180
			rho := v.haulRatio(ub, legs(at))
			want := v.haulRatio(ub, legs(at+step)) - v.haulRatio(ub, legs(at-step))
			got := v.haulRatioRate(ub, legs(at), rho, math.Cos(at+step)-math.Cos(at-step))
			if !(math.Abs(got-want) <= 1e-5*math.Abs(want)) || want == 0 {
				t.Errorf("%s at %v°: %v, by differences %v", name, deg, got, want)
			}
		}
	}
}
