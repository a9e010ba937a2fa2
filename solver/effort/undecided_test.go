package effort_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func lacked(found []part.Finding) (all []part.Lack) {
	for _, f := range found {
		all = append(all, f.Lacks...)
	}
	return all
}

func raised(found []part.Finding, id string) bool {
	for _, f := range found {
		if f.ID == id {
			return true
		}
	}
	return false
}

// Water that stands pushes nothing; water nobody measured may.
func TestStandingWaterIsKnown(t *testing.T) {
	in := func(speed plan.Maybe[quantity.Speed]) (found []part.Finding) {
		resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: speed}), moss)(&found)
		return found
	}
	stands := in(plan.Known(quantity.Speed(0)))
	assert.False(t, raised(stands, "current-not-known"))
	assert.False(t, raised(stands, "current-pushes"))
	lack := part.Lack{Thing: "casualty", Member: "casualty.water_speed_m_per_s", Rule: "current-not-known"}
	assert.NotContains(t, lacked(stands), lack)
	assert.Contains(t, lacked(in(plan.Maybe[quantity.Speed]{})), lack)
}

// Whether a casualty is dragged on locked wheels hangs on its brake.
func TestCasualtyOfUnknownBrakeIsNotDecided(t *testing.T) {
	lack := part.Lack{Thing: "casualty", Member: "brake", Rule: "casualty-braked"}
	with := func(brake string, foot bool) []part.Lack {
		var found []part.Finding
		resist(func(v *plan.Vehicle) { v.Brake, v.FootBrake = brake, foot }, moss)(&found)
		return lacked(found)
	}
	assert.Contains(t, with(plan.BrakeUnknown, false), lack)
	assert.NotContains(t, with(plan.BrakeNone, false), lack)
	assert.NotContains(t, with(plan.BrakeUnknown, true), lack, "it is braked by foot, whatever else")
}

// So it is of a casualty that nobody said how deep it sits: lying on its frame the
// least that is asked for is another.
func TestMeasuredAtUnknownDepthIsNotDecided(t *testing.T) {
	lack := part.Lack{Thing: "casualty", Member: "casualty.depth", Rule: "measured-below-rules"}
	lacks := func(n quantity.Force, depth string) []part.Lack {
		var found []part.Finding
		resist(stuck(plan.Stuck{Depth: depth, Measured: n, Surface: "roll.gravel-firm"}), plan.Ground{})(&found)
		return lacked(found)
	}
	assert.Contains(t, lacks(3000, plan.DepthUnknown), lack)
	for _, known := range []string{plan.DepthNone, plan.DepthHub, plan.DepthChassis, plan.DepthBody} {
		assert.NotContains(t, lacks(3000, known), lack, known)
	}
	assert.NotContains(t, lacks(1e6, plan.DepthUnknown), lack, "over the most of any")
}

// On ground nobody named a measured figure may be too low: for the hardest it is
// not, for the softest it is. Under half of the least it is too low on any.
func TestMeasuredOnUnknownGroundIsNotDecided(t *testing.T) {
	w := 2450 * quantity.Gravity
	lack := part.Lack{Member: "surface", Rule: "measured-below-rules"}
	measured := func(n float64, surface string) (lacks []part.Lack, low bool) {
		var found []part.Finding
		resist(stuck(plan.Stuck{Depth: plan.DepthNone, Measured: quantity.Force(n), Surface: surface}), plan.Ground{})(&found)
		return lacked(found), raised(found, "measured-below-rules")
	}
	lacks, low := measured(0.01*w, "")
	assert.Contains(t, lacks, lack)
	assert.False(t, low)
	lacks, low = measured(0.01*w, "roll.hard-road")
	assert.NotContains(t, lacks, lack)
	assert.False(t, low)
	lacks, low = measured(0.0001*w, "")
	assert.NotContains(t, lacks, lack)
	assert.True(t, low)
}
