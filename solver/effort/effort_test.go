package effort_test

import (
	"math"
	"os"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/facts/factstest"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// near fails on NaN, which InDelta lets pass when both are.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, want, got, within float64, why string) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.7g, want %.7g ± %g", why, got, want, within)
	}
}

func published(t testing.TB, file, id string) factstest.Case {
	t.Helper()
	return factstest.ByID(t, factstest.Published(t, os.DirFS("../../testdata/published"), file), id)
}

// casualty is a survey pickup of Curlew Moss.
func casualty(change func(*plan.Vehicle)) *plan.Vehicle {
	v := &plan.Vehicle{
		Head: plan.Head{ID: "casualty"}, Length: 5.2, Width: 1.9, Height: 1.9, Mass: 2450, Wheelbase: 3.0, FrontOverhang: 0.9,
		Track: 1.6, CGHeight: 0.75, CGBehindFront: 1.4,
		Stuck: &plan.Stuck{Depth: plan.DepthHub, WayLength: 6},
	}
	if change != nil {
		change(v)
	}
	return v
}

// warden is a warden's truck with a winch: the vehicle of the test by hand of
// the rear brake, 2 600 kg, wheelbase 2.8, centre of gravity 1.3 m behind the
// front axle.
func warden(change func(*plan.Vehicle)) *plan.Vehicle {
	v := &plan.Vehicle{
		Head: plan.Head{ID: "warden"}, Length: 5.1, Width: 1.9, Height: 1.9, Mass: 2600, Wheelbase: 2.8, FrontOverhang: 0.9,
		Track: 1.6, CGHeight: 0.75, CGBehindFront: 1.3, Brake: plan.BrakeRear,
	}
	if change != nil {
		change(v)
	}
	return v
}

var moss = plan.Ground{Surface: "roll.grass", Grip: "grip.gravel"}

// pullAhead is a line straight out of the nose at 0.85 m.
func pullAhead() []effort.LineEnd {
	return []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.55, HeightM: 0.85}}
}

func TestResistanceRules(t *testing.T) {
	w := 2450 * quantity.Gravity
	sin := func(d float64) float64 { return math.Sin(d * math.Pi / 180) }
	cos := func(d float64) float64 { return math.Cos(d * math.Pi / 180) }
	cases := []struct {
		name              string
		stuck             plan.Stuck
		ground            plan.Ground
		grade             float64
		low, likely, high float64
		lowBy, highBy     string
	}{
		// Army depth factor 1 (from memory); low the grass fraction 1/7, likely
		// the bog fraction 1/2 (Commonwealth, from memory and secondary copy).
		{"hub deep in grass", plan.Stuck{Depth: plan.DepthHub}, moss, 0, 0.1429 * w, 0.5 * w, w, effort.RuleCommon, effort.RuleHandbook},
		// Army depth factors 2 and 3 (from memory), bog fraction as low end.
		{"chassis deep", plan.Stuck{Depth: plan.DepthChassis}, moss, 0, 0.5 * w, 2 * w, 2 * w, effort.RuleCommon, effort.RuleHandbook},
		{"body deep", plan.Stuck{Depth: plan.DepthBody}, moss, 0, 0.5 * w, 3 * w, 3 * w, effort.RuleCommon, effort.RuleHandbook},
		// 10 % less back the way it came (from memory).
		{"back the way it came", plan.Stuck{Depth: plan.DepthChassis, BackTheWay: true}, moss, 0, 0.5 * w, 1.8 * w, 1.8 * w, effort.RuleCommon, effort.RuleHandbook},
		// Rolling row of grass 0.0525, 0.08, 0.143; the fraction 0.1429 lies inside.
		{"standing on grass", plan.Stuck{Depth: plan.DepthNone}, moss, 0, 0.0525 * w, 0.08 * w, 0.143 * w, effort.RulePhysics, effort.RulePhysics},
		// W·sin a joins physics; below 5° the handbook's grade rule is not asked.
		// Common practice adds degrees/60.
		{"up 3 degrees", plan.Stuck{Depth: plan.DepthNone}, moss, 3, w * (0.0525*cos(3) + sin(3)), w * (0.08*cos(3) + sin(3)), w * (0.143*cos(3) + sin(3)), effort.RulePhysics, effort.RulePhysics},
		// The grade rule, 1 W, already covers the slope.
		{"up 20 degrees", plan.Stuck{Depth: plan.DepthNone}, moss, 20, w * (0.0525*cos(20) + sin(20)), w * (0.08*cos(20) + sin(20)), w, effort.RulePhysics, effort.RuleHandbook},
		// Sunk to the hubs on a grade: the greater of the two, not their sum.
		{"hub deep up 20 degrees", plan.Stuck{Depth: plan.DepthHub}, moss, 20, w * (0.1429 + 20./60), w * (0.5 + 20./60), w, effort.RuleCommon, effort.RuleHandbook},
		// 0.02 + 0.0059·10 = 0.079 (Standard Handbook for Civil Engineers): less
		// than the high end of grass, about its likely, more than its low.
		{"ruts of 10 cm", plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.10}, moss, 0, 0.079 * w, 0.08 * w, 0.143 * w, effort.RulePhysics, effort.RulePhysics},
		// Half the weight to upright it (from memory); nothing else speaks of it.
		{"overturned", plan.Stuck{Depth: plan.DepthNone, Overturned: true}, moss, 0, 0.5 * w, 0.5 * w, 0.5 * w, effort.RuleHandbook, effort.RuleHandbook},
		// Depth not known: physics of the surface to body depth.
		{"depth not known", plan.Stuck{}, moss, 0, 0.0525 * w, 2 * w, 3 * w, effort.RulePhysics, effort.RuleHandbook},
		// Ruts deeper than the rule reaches, depth not known: no physics.
		{"ruts of 16 cm", plan.Stuck{Sinkage: 0.16}, moss, 0, 0.1429 * w, 2 * w, 3 * w, effort.RuleCommon, effort.RuleHandbook},
		// Surface not known: widest rows, hard road 0.008 to bog 0.5.
		{"surface not known", plan.Stuck{Depth: plan.DepthNone}, plan.Ground{Grip: "grip.gravel"}, 0, 0.008 * w, math.NaN(), 0.5 * w, effort.RulePhysics, effort.RulePhysics},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &c.stuck })
			res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &c.ground, GradeDeg: c.grade}, nil, nil)
			require.True(t, res.Known)
			near(t, c.low, float64(res.Low), 1e-6*w, "low")
			if !math.IsNaN(c.likely) {
				near(t, c.likely, float64(res.Likely), 1e-6*w, "likely")
			}
			near(t, c.high, float64(res.High), 1e-6*w, "high")
			assert.Equal(t, c.lowBy, res.LowRule)
			assert.Equal(t, c.highBy, res.HighRule)
			assert.Equal(t, plan.PlanHigh, res.PlannedOn)
			near(t, float64(res.High), float64(res.Planned), 0, "planned on the high end by default")
		})
	}
}

func TestSinkageTakesTheLargerFractionNeverTheSum(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.15} })
	hard := plan.Ground{Surface: "roll.hard-road"}
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &hard}, nil, nil)
	w := float64(v.Mass.Weight())
	// 0.02 + 0.0059·15 = 0.1085 at all three ends: above the road's 0.008 to 0.02.
	near(t, 0.1085*w, float64(res.Physics.High), 1e-6*w, "high")
	near(t, 0.1085*w, float64(res.Physics.Low), 1e-6*w, "low")
	near(t, 0.02*w, float64(res.Terms.Rolling.High), 1e-6*w, "its rolling is the 0.02")
	near(t, 0.0885*w, float64(res.Terms.Sinkage.High), 1e-6*w, "the rest is sinkage")
	deeper := *v.Stuck
	deeper.Sinkage = 0.151
	v.Stuck = &deeper
	res = effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &hard}, nil, nil)
	assert.False(t, res.Physics.Known)
	assert.Equal(t, effort.WhySunk, res.Physics.Why)
	assert.True(t, res.Handbook.Known, "the handbook alone is used beyond the rule")
}

func TestLockedWheelsDrag(t *testing.T) {
	w := 2450 * quantity.Gravity
	v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone, LockedWheels: 4} })
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	// All four locked: μ·W of gravel, 0.35 to 0.55, nothing rolls.
	near(t, 0.35*w, float64(res.Physics.Low), 1e-6*w, "low")
	near(t, 0.55*w, float64(res.Physics.High), 1e-6*w, "high")
	near(t, 0, float64(res.Terms.Rolling.High), 1e-9*w, "no wheel rolls")
	// Two locked: at the high end the two of the heavier axle. Centre of gravity
	// 1.4 m behind the front axle of 3.0 m: front carries 1.6/3.
	v.Stuck.LockedWheels = 2
	res = effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	near(t, w*(0.55*1.6/3+0.143*1.4/3), float64(res.Physics.High), 1e-6*w, "two on the heavier axle")
	near(t, w*(0.35*1.4/3+0.0525*1.6/3), float64(res.Physics.Low), 1e-6*w, "two on the lighter axle")
}

func TestNotKnownIsNotComputed(t *testing.T) {
	cases := []struct {
		name string
		v    *plan.Vehicle
		why  string
	}{
		{"no mass", casualty(func(v *plan.Vehicle) { v.Mass = 0 }), effort.WhyMass},
		{"mass not a number", casualty(func(v *plan.Vehicle) { v.Mass = quantity.Mass(math.NaN()) }), effort.WhyMass},
		{"mass without end", casualty(func(v *plan.Vehicle) { v.Mass = quantity.Mass(math.Inf(1)) }), effort.WhyMass},
		{"a current nobody can size", casualty(func(v *plan.Vehicle) {
			v.Height = 0
			v.Stuck = &plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1))}
		}), effort.WhyWater},
		{"no vehicle", nil, effort.WhyNotFinite},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			res := effort.Resistance(effort.ResistanceIn{Vehicle: c.v, Ground: &moss}, nil, nil)
			assert.False(t, res.Known)
			assert.False(t, res.PlannedKnown)
			assert.False(t, res.Breakaway.Known)
			for _, r := range []effort.RuleRange{res.Physics, res.Handbook, res.Common} {
				assert.False(t, r.Known)
				assert.Equal(t, c.why, r.Why)
			}
		})
	}
}

func TestPlannedOn(t *testing.T) {
	w := 2450 * quantity.Gravity
	for _, c := range []struct {
		name, on, rule string
		want           float64
		found          string
	}{
		{"nothing said", "", "", w, ""},
		{"high", plan.PlanHigh, "", w, ""},
		{"likely", plan.PlanLikely, "", 0.5 * w, "planned-below-high"},
		{"low", plan.PlanLow, "", 0.1429 * w, "planned-below-high"},
		{"high of common practice", plan.PlanHigh, effort.RuleCommon, 0.5 * w, "planned-below-high"},
		{"high of the handbook", plan.PlanHigh, effort.RuleHandbook, w, ""},
		{"physics that gives no figure here", plan.PlanHigh, effort.RulePhysics, w, "plan-rule-not-computed"},
		{"a rule nobody knows", "", "guess", w, "plan-rule-not-computed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found []part.Finding
			v := casualty(func(v *plan.Vehicle) { v.Stuck.PlanOn, v.Stuck.Rule = c.on, c.rule })
			res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, &found)
			near(t, c.want, float64(res.Planned), 1e-6*w, "planned")
			ids := idsOf(found)
			for _, id := range []string{"planned-below-high", "plan-rule-not-computed"} {
				assert.Equal(t, id == c.found, ids[id] > 0, "%s in %v", id, ids)
			}
		})
	}
}

func TestMeasuredOverrulesEveryRule(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) { v.Stuck.Measured = 9000; v.Stuck.Rule = effort.RuleHandbook })
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	require.True(t, res.Measured)
	near(t, 9000, float64(res.Planned), 0, "typed")
	assert.Equal(t, effort.RuleMeasured, res.HighRule)
	assert.Equal(t, part.ConfidenceTyped, res.Confidence)
	v.Doubts = []plan.Doubt{{Member: "casualty.measured_resistance_n", Low: 8000, High: 11000, PlusMinus: true}}
	res = effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	near(t, 11000, float64(res.Planned), 0, "its doubt is planned on too")
}

func TestPublishedResistance(t *testing.T) {
	t.Run("snow and slope", func(t *testing.T) {
		c := published(t, "loads.toml", "loads.t22")
		w := c.In(t, "weight_n")
		v := &plan.Vehicle{Mass: quantity.Mass(w / quantity.Gravity), Stuck: &plan.Stuck{Depth: plan.DepthNone, Surface: "roll.snow-15cm"}}
		res := effort.Resistance(effort.ResistanceIn{Vehicle: v, GradeDeg: c.In(t, "slope_deg")}, nil, nil)
		// The source measured the level term (0.0536 W) again on the slope
		// (0.0532 W); the row's 0.054 falls with the cosine instead. Its slope
		// term is what the case is about.
		near(t, w*math.Sin(math.Pi/6), float64(res.Terms.Slope.High), 1e-9*w, "W sin a")
		c.Check(t, "total_n", float64(res.Terms.Slope.High)+c.In(t, "level_n"))
	})
	t.Run("hard wet sand", func(t *testing.T) {
		c := published(t, "loads.toml", "loads.t23")
		v := &plan.Vehicle{Mass: quantity.Mass(c.In(t, "weight_lb")) * quantity.Pound, Stuck: &plan.Stuck{Depth: plan.DepthNone, Surface: "roll.sand-firm"}}
		res := effort.Resistance(effort.ResistanceIn{Vehicle: v}, nil, nil)
		c.Check(t, "pull_lb", float64(res.Common.High/quantity.PoundForce))
	})
	t.Run("parking brake on 20 per cent", func(t *testing.T) {
		c := published(t, "anchors.toml", "anchors.v3")
		v := &plan.Vehicle{Mass: quantity.Mass(c.In(t, "mass_kg")), Stuck: &plan.Stuck{Depth: plan.DepthNone, Surface: "roll.grass"}}
		res := effort.Resistance(effort.ResistanceIn{Vehicle: v, GradeDeg: math.Atan(0.2) * 180 / math.Pi}, nil, nil)
		c.Check(t, "hold_kn", float64(res.Terms.Slope.High)/1000)
	})
	t.Run("current", func(t *testing.T) {
		c := published(t, "trade.toml", "trade.water")
		var got []float64
		for _, v := range c.Ins(t, "speed_m_per_s") {
			f, ok := effort.Current(effort.CurrentIn{SpeedMS: v, LengthM: c.In(t, "length_m"), DepthM: c.In(t, "depth_m")}, nil)
			require.True(t, ok)
			got = append(got, float64(f)/1000)
		}
		c.Check(t, "push_kn", got...)
		f, _ := effort.Current(effort.CurrentIn{SpeedMS: 2, LengthM: 4, DepthM: 0.5}, nil)
		near(t, 0.5*1000*1.1*4*0.5*2*2, float64(f), 1e-9, "½·ρ·C·A·v², half a metre deep")
	})
}

func TestWaterPushesAlongAndAcross(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) {
		v.Stuck = &plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1.5)), WaterDepth: 1, TrappedWater: 500}
	})
	v.Length = 4.5
	res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	w := (2450 + 500) * quantity.Gravity
	push := 0.5 * 1000 * 1.1 * 4.5 * 1.5 * 1.5 // by hand: 5.6 kN
	near(t, w+push, float64(res.High), 1e-6*w, "as on land, trapped water in, current against")
	near(t, push, float64(res.CurrentSide.High), 1e-6*w, "across the way out too")
	v.Stuck.TrappedWater = 0
	res = effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	near(t, (2450+1500)*quantity.Gravity+push, float64(res.High), 1e-6*w, "0 to 1.5 t if not said (ours)")
}

func TestJump(t *testing.T) {
	// By hand: HMPE 30 m of EA 2.571 MN, 9 m of nylon of 0.40 MN.
	k, ok := effort.LineStiffness(effort.Piece{LengthM: 30, StiffnessN: 2.571e6})
	require.True(t, ok)
	near(t, 85_700, k, 1, "30 m of HMPE")
	soft, ok := effort.LineStiffness(effort.Piece{LengthM: 30, StiffnessN: 2.571e6}, effort.Piece{LengthM: 9, StiffnessN: 0.40e6})
	require.True(t, ok)
	near(t, 29_300, soft, 50, "with 9 m of nylon")
	for _, id := range []string{"trade.jump-hmpe", "trade.jump-nylon"} {
		t.Run(id, func(t *testing.T) {
			c := published(t, "trade.toml", id)
			res := effort.Jump(effort.JumpIn{BreakawayN: 30_000 + c.In(t, "drop_n"), RunN: 30_000, MassKg: c.In(t, "mass_kg"), LineNPerM: c.In(t, "stiffness_n_per_m")}, nil, nil)
			require.True(t, res.Known)
			c.Check(t, "jump_m", float64(res.Jump))
			c.Check(t, "speed_m_per_s", float64(res.Speed))
		})
	}
	_, ok = effort.LineStiffness(effort.Piece{LengthM: 30})
	assert.False(t, ok, "a piece whose stiffness is not known makes it not known")
	assert.False(t, effort.Jump(effort.JumpIn{BreakawayN: 1, RunN: 2, MassKg: 1, LineNPerM: 1}, nil, nil).Known)
}

func TestArmyChain(t *testing.T) {
	for _, id := range []string{"loads.army-a1", "loads.army-a2", "loads.army-a3", "loads.army-a4", "loads.army-a5"} {
		t.Run(id, func(t *testing.T) {
			c := published(t, "loads.toml", id)
			res := effort.ArmyChain(effort.ArmyIn{
				WeightN: c.In(t, "vehicle_lb") + c.In(t, "cargo_lb"), MireFactor: c.In(t, "mire"),
				Reduction: c.In(t, "reduction"), WinchN: c.In(t, "winch_lb"),
			}, nil)
			require.True(t, res.Known)
			c.Check(t, "load_resistance_lb", float64(res.Load))
			c.Check(t, "advantage", float64(res.Advantage))
			c.Check(t, "sheaves", float64(res.Sheaves))
			c.Check(t, "tackle_lb", float64(res.Tackle))
			c.Check(t, "total_lb", float64(res.Total))
			c.Check(t, "fall_line_lb", float64(res.FallLine))
			assert.Equal(t, id == "loads.army-a5", res.Added == 1, "only A5 fails the verify step and adds a part")
			if id == "loads.army-a2" {
				// One block on the casualty, its dead line carries both parts.
				near(t, 26_400, float64(res.DeadLine), 1e-6, "dead line")
			}
		})
	}
	assert.False(t, effort.ArmyChain(effort.ArmyIn{WeightN: 1e6, MireFactor: 3, WinchN: 1}, nil).Known,
		"ten per cent a sheave: a winch below a tenth of the load never gets there")
}

func TestTackleRule(t *testing.T) {
	// Printed answers: Navy Steelworker vol. 2; Nicholls pp. 40 to 48.
	for _, c := range []struct {
		id             string
		load           float64
		sheaves, parts int
		want, within   float64
	}{
		{"T1", 1000, 4, 4, 350, 1e-9},
		{"T7", 4, 2, 2, 2.4, 1e-9},
		{"T8", 4, 3, 4, 1.3, 1e-9},
		{"T9 disadvantage", 12, 6, 6, 3.2, 1e-9},
		{"T9 advantage", 12, 6, 7, 2.743, 5e-4},
		{"T11", 40, 6, 7, 64. / 7, 1e-9},
		{"T13", 12, 7, 7, 2.914, 5e-4},
		{"T14", 10, 6, 12, 4. / 3, 1e-9},
		{"T16", 10, 5, 4, 3.75, 1e-9},
	} {
		t.Run(c.id, func(t *testing.T) {
			near(t, c.want, effort.TacklePull(c.load, c.sheaves, c.parts), c.within, "pull")
		})
	}
	assert.True(t, math.IsNaN(effort.TacklePull(1, 1, 0)))
}

func idsOf(found []part.Finding) map[string]int {
	m := map[string]int{}
	for _, f := range found {
		m[f.ID]++
	}
	return m
}
