package effort_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
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
