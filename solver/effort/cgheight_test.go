package effort_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// How high its weight lies decides on a slope alone; where nobody measured it, a vehicle
// holds no more than with any height that it may have, nose up or down, whatever axle is
// braked. (the worst-case rule; 0.65 m to 0.9 m lie within what the handbook presets)
func TestAHeightNobodyMeasuredHoldsTheLeast(t *testing.T) {
	for _, brake := range []string{plan.BrakeRear, plan.BrakeFront, plan.BrakeAll} {
		for _, fall := range []float64{-12, -5, 5, 12} {
			holds := func(h quantity.Length) float64 {
				v := warden(func(v *plan.Vehicle) { v.Brake, v.CGHeight, v.BrakeForce, v.Grip = brake, h, 50_000, "grip.gravel" })
				r := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead(), FallAheadDeg: fall}, nil, nil).Hold
				require.True(t, r.Known)
				return float64(r.Low)
			}
			unknown := holds(0)
			for _, h := range []quantity.Length{0.65, 0.75, 0.9} {
				assert.LessOrEqual(t, unknown, holds(h)*(1+1e-6), "%s, falls %v° ahead, %v m", brake, fall, float64(h))
			}
		}
	}
}

// The height that nobody measured lies between the lesser and the greater of 0.65 to
// 0.95 m and 0.4 to 0.6 of the track (ours): at the low end the vehicle holds what it
// does with the worse of the two, at the high one with the better.
func TestBothEndsOfAHeightNobodyMeasured(t *testing.T) {
	for _, c := range []struct{ track, low, high quantity.Length }{{1.2, 0.48, 0.95}, {1.6, 0.64, 0.96}, {2, 0.65, 1.2}, {0, 0.65, 0.95}} {
		for _, fall := range []float64{-12, -5, 5, 12} {
			hold := func(h quantity.Length) part.Range {
				v := warden(func(v *plan.Vehicle) { v.CGHeight, v.Track, v.BrakeForce, v.Grip = h, c.track, 50_000, "grip.gravel" })
				return effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead(), FallAheadDeg: fall}, nil, nil).Hold
			}
			got, one, other := hold(0), hold(c.low), hold(c.high)
			near(t, float64(min(one.Low, other.Low)), float64(got.Low), 1e-3, "low")
			near(t, float64(max(one.High, other.High)), float64(got.High), 1e-3, "high")
		}
	}
}
