package effort_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The pulls that break it loose, in closed form: k 1.3, 1.6, 2 (ours) on what
// rolls and sinks, once what is dragged, climbed or taken from the handbook.
func TestBreakaway(t *testing.T) {
	w := 2450 * quantity.Gravity
	sin, cos := math.Sin(3*math.Pi/180), math.Cos(3*math.Pi/180)
	for _, c := range []struct {
		name              string
		stuck             plan.Stuck
		grade             float64
		low, likely, high float64
	}{
		// Rolling row of grass 0.0525, 0.08, 0.143; the fraction 0.1429 is a pull
		// that gets it going already.
		{"standing on grass", plan.Stuck{Depth: plan.DepthNone}, 0, 1.3 * 0.0525 * w, 1.6 * 0.08 * w, 2 * 0.143 * w},
		{"up 3 degrees", plan.Stuck{Depth: plan.DepthNone}, 3, w * (1.3*0.0525*cos + sin), w * (1.6*0.08*cos + sin), w * (2*0.143*cos + sin)},
		{"down 3 degrees", plan.Stuck{Depth: plan.DepthNone}, -3, w * (1.3*0.0525*cos - sin), w * (1.6*0.08*cos - sin), w * (2*0.143*cos - sin)},
		// Gravel 0.35 to 0.55 under four locked wheels, nothing rolls; the low end is
		// the fraction of grass.
		{"four wheels locked", plan.Stuck{Depth: plan.DepthNone, LockedWheels: 4}, 0, 0.1429 * w, 0.35 * w, 0.55 * w},
		// The army's factors and the bog fraction (from memory) are break-out pulls.
		{"hub deep", plan.Stuck{Depth: plan.DepthHub}, 0, 0.1429 * w, 0.5 * w, w},
		{"body deep", plan.Stuck{Depth: plan.DepthBody}, 0, 0.5 * w, 3 * w, 3 * w},
		{"overturned", plan.Stuck{Depth: plan.DepthNone, Overturned: true}, 0, 0.5 * w, 0.5 * w, 0.5 * w},
		// 0.02 + 0.0059·10 = 0.079: below the high end of grass, above its low.
		{"ruts of 10 cm", plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.10}, 0, 1.3 * 0.079 * w, 1.6 * 0.08 * w, 2 * 0.143 * w},
		{"the user's own k, and suction", plan.Stuck{Depth: plan.DepthNone, Breakaway: 1.5, Suction: 4000}, 0, 1.5*0.0525*w + 4000, 1.5*0.08*w + 4000, 1.5*0.143*w + 4000},
		{"suction, hub deep", plan.Stuck{Depth: plan.DepthHub, Suction: 4000}, 0, 0.1429*w + 4000, 0.5*w + 4000, w + 4000},
		{"measured", plan.Stuck{Measured: 6000}, 0, 1.3 * 6000, 1.6 * 6000, 2 * 6000},
		{"measured, up 3 degrees", plan.Stuck{Measured: 6000}, 3, w*sin + 1.3*(6000-w*sin), w*sin + 1.6*(6000-w*sin), w*sin + 2*(6000-w*sin)},
		{"measured, down 3 degrees", plan.Stuck{Measured: 6000}, -3, 1.3*(6000+w*sin) - w*sin, 1.6*(6000+w*sin) - w*sin, 2*(6000+w*sin) - w*sin},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &c.stuck })
			res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: c.grade}, nil, nil)
			require.True(t, res.Breakaway.Known)
			near(t, c.low, float64(res.Breakaway.Low), 1e-6*w, "low")
			near(t, c.likely, float64(res.Breakaway.Likely), 1e-6*w, "likely")
			near(t, c.high, float64(res.Breakaway.High), 1e-6*w, "high")
			near(t, c.high, float64(res.BreakPlanned), 1e-6*w, "planned on the high end")
			assert.GreaterOrEqual(t, res.BreakPlanned, res.Planned)
		})
	}
}

func TestBreakawayOnWhatThePlanIsOn(t *testing.T) {
	w := 2450 * quantity.Gravity
	for _, c := range []struct {
		name, on, rule string
		want           float64
	}{
		{"likely", plan.PlanLikely, "", 1.6 * 0.08 * w},
		{"low of physics", plan.PlanLow, effort.RulePhysics, 1.3 * 0.0525 * w},
		{"common practice", plan.PlanHigh, effort.RuleCommon, 0.1429 * w},
		{"a rule that gives no figure here", plan.PlanHigh, effort.RuleHandbook, 2 * 0.143 * w},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone, PlanOn: c.on, Rule: c.rule} })
			res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
			near(t, c.want, float64(res.BreakPlanned), 1e-6*w, "pull to break it loose")
		})
	}
}

func TestMeasuredBelowTheSlopeIsNotPlannedOn(t *testing.T) {
	w := 2450 * quantity.Gravity
	v := casualty(func(v *plan.Vehicle) {
		v.Stuck = &plan.Stuck{Depth: plan.DepthNone, Measured: 5000, PlanOn: plan.PlanLow, Rule: effort.RulePhysics}
	})
	var found []part.Finding
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: 12.1}, nil, &found)
	require.Equal(t, 1, idsOf(found)["measured-below-slope"], "%v", idsOf(found))
	assert.False(t, res.Measured)
	near(t, w, float64(res.Planned), 1e-6*w, "the handbook's grade rule: the high end of all rules")
	assert.Equal(t, plan.PlanHigh, res.PlannedOn)
	// W·sin a is 5 036 N at 12.1°, 4 954 N at 11.9°.
	res = effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: 11.9}, nil, nil)
	assert.True(t, res.Measured)
}

func TestACurrentPushesAcrossAMeasuredCasualty(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) {
		v.Length = 4.5
		v.Stuck = &plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1.5)), WaterDepth: 1, Measured: 30_000}
	})
	var found []part.Finding
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, &found)
	near(t, 0.5*1000*1.1*4.5*1.5*1.5, float64(res.CurrentSide.High), 1e-6, "by hand: 5.6 kN")
	near(t, 30_000, float64(res.Planned), 0, "what was measured has it in it")
	assert.Equal(t, 1, idsOf(found)["current-pushes"])
}

func TestBrakesAndChocksDragTheCasualty(t *testing.T) {
	w := 2450 * quantity.Gravity
	// Centre of gravity 1.4 m behind the front axle of 3.0 m; gravel 0.55, grass 0.143 at the high end.
	front := 1.6 / 3
	for _, c := range []struct {
		name string
		set  func(*plan.Vehicle)
		high float64
	}{
		{"all brakes", func(v *plan.Vehicle) { v.Brake = plan.BrakeAll }, 0.55 * w},
		{"all chocked", func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }, 0.55 * w},
		{"a foot on the brake", func(v *plan.Vehicle) { v.FootBrake = true }, 0.55 * w},
		{"in gear", func(v *plan.Vehicle) { v.InGear = true }, 0.55 * w},
		{"rear brake", func(v *plan.Vehicle) { v.Brake = plan.BrakeRear }, w * (0.55*(1-front) + 0.143*front)},
		{"front chocked", func(v *plan.Vehicle) { v.Chocks = plan.ChocksFront }, w * (0.55*front + 0.143*(1-front))},
		{"rear brake, front chocked", func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeRear, plan.ChocksFront }, 0.55 * w},
		{"rear brake, one more counted", func(v *plan.Vehicle) { v.Brake, v.Stuck.LockedWheels = plan.BrakeRear, 3 },
			w * (0.55*(front+(1-front)/2) + 0.143*(1-front)/2)},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone}; c.set(v) })
			var found []part.Finding
			res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, &found)
			near(t, c.high, float64(res.Physics.High), 1e-6*w, "μ·N of the locked wheels")
			i := indexOf(found, "casualty-braked")
			require.GreaterOrEqual(t, i, 0, "%v", idsOf(found))
			near(t, float64(res.High), found[i].Values[0].X, 1e-6*w, "as it stands")
			if v.Stuck.LockedWheels == 0 {
				near(t, 0.143*w, found[i].Values[1].X, 1e-6*w, "on wheels that turn")
			}
			assert.Equal(t, "release-brakes", found[i].Remedies[0].Do)
		})
	}
	// Left in gear drags nothing for sure.
	v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone}; v.InGear = true })
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	near(t, 0.0525*w, float64(res.Physics.Low), 1e-6*w, "low end: it rolls")
	near(t, w*(0.35*(1-front)+0.08*front), float64(res.Physics.Likely), 1e-6*w, "likely: the rear axle drags")
}

func indexOf(found []part.Finding, id string) int {
	for i := range found {
		if found[i].ID == id {
			return i
		}
	}
	return -1
}
