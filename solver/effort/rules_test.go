package effort_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// situation is a finding with what raises it and, where a border exists, the
// same just beyond it.
type situation struct {
	id    string
	level part.Level
	raise func(found *[]part.Finding)
	clear func(found *[]part.Finding)
}

func resist(change func(*plan.Vehicle), g plan.Ground) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Resistance(effort.ResistanceIn{Vehicle: casualty(change), Ground: &g}, nil, found)
	}
}

func climb(deg float64, measured quantity.Force) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		v := casualty(stuck(plan.Stuck{Depth: plan.DepthNone, Measured: measured}))
		effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: deg}, nil, found)
	}
}

// toward is a way out at that bearing, of a vehicle that points north.
func toward(bearing quantity.Degrees) func(*plan.Vehicle) {
	return func(v *plan.Vehicle) {
		v.Bearing = 0
		v.Stuck = &plan.Stuck{Depth: plan.DepthNone, Way: plan.WayFree, WayBearing: plan.Known(bearing)}
	}
}

// A vehicle that is taken out 60° off the way its wheels roll is dragged with
// sin 60° of what it is with all wheels locked, or it swings round and rolls.
func TestDraggedAside(t *testing.T) {
	of := func(change func(*plan.Vehicle)) effort.ResistanceResult {
		return effort.Resistance(effort.ResistanceIn{Vehicle: casualty(change), Ground: &moss}, nil, nil)
	}
	askew, locked, rolls := of(toward(60)), of(stuck(plan.Stuck{Depth: plan.DepthNone, LockedWheels: 4})), of(toward(0))
	sin := math.Sqrt(3) / 2
	assert.InEpsilon(t, sin*float64(locked.Terms.Dragged.High), float64(askew.Terms.Dragged.High), 1e-9)
	assert.InEpsilon(t, sin*float64(locked.Terms.Dragged.Likely), float64(askew.Terms.Dragged.Likely), 1e-9)
	assert.Equal(t, rolls.Low, askew.Low)
	assert.Greater(t, float64(askew.High), float64(rolls.High))
}

func stuck(s plan.Stuck) func(*plan.Vehicle) { return func(v *plan.Vehicle) { v.Stuck = &s } }

func stands(tensionN float64, change func(*plan.Vehicle), in effort.HoldIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		in.Vehicle, in.Ground, in.TensionN, in.TensionKnown = warden(change), &moss, tensionN, true
		if in.Ends == nil {
			in.Ends = pullAhead()
		}
		effort.PullerHold(in, nil, found)
	}
}

// lowHold is the closed form of a rear brake under a front winch for the warden's
// truck on gravel: a textbook's average of 0.35, 0.8 of it at the low end (ours).
var lowHold = 0.28 * 2600 * quantity.Gravity * 1.3 / (2.8 + 0.28*0.85)

func free(in effort.FreeIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		if in.Vehicle == nil {
			in.Vehicle = casualty(stuck(plan.Stuck{Surface: "roll.book.gravel-dry-packed"})) // 0.012 at every end
		}
		effort.Free(in, nil, found)
	}
}

// rollDeg is the fall at which 0.012 just holds: tan a = 0.012.
var rollDeg = math.Atan(0.012) * 180 / math.Pi

// sided is a side force that many newtons to the left, a metre up; under
// warden's truck on the level share = F·h/(W·t/2).
func sided(share float64) []effort.Pull {
	return []effort.Pull{{Force: r3.Vector{Y: share * 2600 * quantity.Gravity * 0.8}, HeightM: 1}}
}

func tip(share float64) func(*[]part.Finding) { return tips(effort.TipIn{Move: sided(share)}) }

func tips(in effort.TipIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		if in.Vehicle == nil {
			in.Vehicle = warden(nil)
		}
		effort.Tipping(in, nil, found)
	}
}

// tipDeg is the slope across at which warden's truck is at that share of
// tipping by itself: tan β = share·(t/2)/h.
func tipDeg(share float64) float64 { return math.Atan(share*0.8/0.75) * 180 / math.Pi }

func pitched(tensionN float64, depth string) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		v := casualty(stuck(plan.Stuck{Depth: depth}))
		effort.Pitches(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.6, HeightM: 2}}, LoosenN: tensionN}, found)
	}
}

func parked(change func(*plan.Vehicle), in effort.StandIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		in.Vehicle = warden(change)
		if in.Ground == nil {
			in.Ground = &moss
		}
		effort.Stands(in, found)
	}
}

// lockedAt is a casualty on gravel that somebody measured.
func lockedAt(measured quantity.Force, change func(*plan.Vehicle)) func(*[]part.Finding) {
	return resist(func(v *plan.Vehicle) {
		v.Grip, v.Stuck = "grip.gravel", &plan.Stuck{Depth: plan.DepthNone, Measured: measured}
		change(v)
	}, moss)
}

// sized is a vehicle of 4.6 m by 1.9 m by 2 m, and of that mass.
func sized(kg quantity.Mass) func(*plan.Vehicle) {
	return func(v *plan.Vehicle) { v.Length, v.Width, v.Height, v.Mass, v.Load = 4.6, 1.9, 2, kg, 0 }
}

func body(change func(*plan.Vehicle)) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Body(warden(func(v *plan.Vehicle) { sized(2600)(v); change(v) }), found)
	}
}

func placed(ahead, left, height quantity.Length) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Place(warden(sized(2600)), "warden/front", ahead, left, height, found)
	}
}

// drum is a winch's drum of that width and flange on such a vehicle.
func drum(width, flange quantity.Length) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		v := warden(sized(2600))
		v.Winch = &plan.Winch{DrumWidth: width, FlangeDiameter: flange}
		effort.Drum(v, "warden/winch", found)
	}
}

func noFoot(chocks string) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.NoFoot(warden(func(v *plan.Vehicle) { v.FootBrake, v.Chocks = true, chocks }), found)
	}
}

func loosens(low, high quantity.Force) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Loosens(effort.LoosenIn{Casualty: "casualty", Breakaway: part.Range{Known: true, Low: low, Likely: low, High: high}, GivesN: 9000, GivesKnown: true}, found)
	}
}

func off(deg float64, known bool) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.OffWay(effort.OffWayIn{Casualty: "casualty", OffDeg: deg, PullN: 10_000, PullKnown: known}, nil, found)
	}
}

func tieBack(in effort.TieBackIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		in.Vehicle, in.TieBack, in.TensionN = "warden", "strap", 27_000
		effort.TieBack(in, nil, found)
	}
}

func dead(point plan.ID, kind string) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		v := casualty(nil)
		effort.SelfRecovery(effort.SelfIn{Vehicle: v, Dead: plan.Port{Thing: v.ID, Point: point}, DeadKind: kind, TensionN: 1, Ratio: 1}, nil, found)
	}
}

func slip(fallDeg float64, change func(*plan.Vehicle)) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.SideSlip(effort.SideSlipIn{Vehicle: casualty(change), Ground: &plan.Ground{Grip: "grip.grass-wet"}, FallSideDeg: fallDeg}, nil, found)
	}
}

func upright(height quantity.Length, slow bool, over bool) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		v := casualty(stuck(plan.Stuck{Overturned: over}))
		v.Height = height
		effort.Uprighting(effort.UprightingIn{Vehicle: v, SlowLine: slow}, found)
	}
}

func jump(dropN float64, k float64) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Jump(effort.JumpIn{Casualty: "casualty", BreakawayN: dropN, MassKg: 2450, LineNPerM: k}, nil, found)
	}
}

func kinetic(stretches, winch bool) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		effort.Kinetic(effort.KineticIn{Line: "rope", Stretches: stretches, HasWinch: winch}, found)
	}
}

// situations hold each finding twice: what raises it, and the same just past
// its border, where it must be gone. A border's figure has its source in
// worked by hand unless a comment says more.
var situations = []situation{
	{"mass-not-known", part.Warning, resist(func(v *plan.Vehicle) { v.Mass = 0 }, moss), resist(nil, moss)},
	{"mass-odd", part.Warning, resist(func(v *plan.Vehicle) { v.Mass, v.Load = 99, 0 }, moss), resist(func(v *plan.Vehicle) { v.Mass, v.Load = 101, 0 }, moss)},
	{"mass-odd", part.Warning, resist(func(v *plan.Vehicle) { v.Mass, v.Load = 100001, 0 }, moss), resist(func(v *plan.Vehicle) { v.Mass, v.Load = 99999, 0 }, moss)},
	{"mass-odd", part.Warning, stands(1, func(v *plan.Vehicle) { v.Mass, v.Load = 1.5, 0 }, effort.HoldIn{}), stands(1, nil, effort.HoldIn{})},
	{"depth-not-known", part.Caution, resist(stuck(plan.Stuck{Sinkage: 0.151}), moss), resist(stuck(plan.Stuck{Sinkage: 0.15}), moss)},
	{"surface-not-known", part.Caution, resist(nil, plan.Ground{Surface: "roll.nowhere"}), resist(nil, moss)},
	{"sinkage-beyond-rule", part.Notice, resist(stuck(plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.1501}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.15}), moss)},
	{"grip-not-known", part.Caution, resist(stuck(plan.Stuck{Depth: plan.DepthNone, LockedWheels: 1}), plan.Ground{Surface: "roll.grass"}), resist(stuck(plan.Stuck{Depth: plan.DepthNone, LockedWheels: 0}), plan.Ground{Surface: "roll.grass"})},
	{"own-drive-not-counted", part.Notice, resist(func(v *plan.Vehicle) { v.Stuck.OwnDrive = true }, moss), resist(nil, moss)},
	{"planned-below-high", part.Caution, resist(func(v *plan.Vehicle) { v.Stuck.PlanOn = plan.PlanLikely }, moss), resist(func(v *plan.Vehicle) { v.Stuck.PlanOn = plan.PlanHigh }, moss)},
	{"plan-rule-not-computed", part.Caution, resist(func(v *plan.Vehicle) { v.Stuck.Rule = effort.RulePhysics }, moss), resist(stuck(plan.Stuck{Depth: plan.DepthNone, Rule: effort.RulePhysics}), moss)},
	{"resistance-measured", part.Notice, resist(func(v *plan.Vehicle) { v.Stuck.Measured = 9000 }, moss), resist(nil, moss)},
	{"trapped-water-assumed", part.Notice, resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, TrappedWater: 1}), moss)},
	{"current-not-known", part.Caution, resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(0.1))}), moss)},
	{"current-pushes", part.Warning, resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(0.1)), WaterDepth: 0.5}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true}), moss)},
	{"water-depth-not-known", part.Caution, resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1))}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1)), WaterDepth: 0.5}), moss)},
	{"current-not-computed", part.Warning, resist(func(v *plan.Vehicle) {
		v.Length = 0
		v.Stuck = &plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1)), WaterDepth: 0.5}
	}, moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1)), WaterDepth: 0.5}), moss)},

	{"casualty-braked", part.Caution, resist(func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthNone; v.Brake = plan.BrakeRear }, moss), resist(func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthNone; v.Brake = plan.BrakeNone }, moss)},
	{"casualty-braked-unknown", part.Caution, resist(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }, moss), resist(nil, moss)},
	{"not-counted", part.Notice, resist(stuck(plan.Stuck{Overturned: true, LockedWheels: 1}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthNone, LockedWheels: 1}), moss)},
	{"locked-not-computed", part.Caution, resist(stuck(plan.Stuck{Depth: plan.DepthHub, LockedWheels: 1}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthNone, LockedWheels: 1}), moss)},
	{"locked-not-computed", part.Caution, resist(stuck(plan.Stuck{Depth: plan.DepthHub, LockedWheels: 1}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub}), moss)},
	{"dragged-aside", part.Caution, resist(toward(31), moss), resist(toward(29), moss)},
	{"dragged-aside", part.Caution, resist(toward(149), moss), resist(toward(151), moss)},
	{"measured-below-locked", part.Warning, lockedAt(8400, func(v *plan.Vehicle) { v.Stuck.Depth, v.Stuck.LockedWheels = plan.DepthHub, 4 }), lockedAt(8420, func(v *plan.Vehicle) { v.Stuck.Depth, v.Stuck.LockedWheels = plan.DepthHub, 4 })},
	{"not-counted", part.Notice, resist(stuck(plan.Stuck{Depth: plan.DepthNone, BackTheWay: true}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthHub, BackTheWay: true}), moss)},
	{"not-counted", part.Notice, resist(stuck(plan.Stuck{Depth: plan.DepthHub, Sinkage: 0.1}), moss), resist(stuck(plan.Stuck{Depth: plan.DepthNone, Sinkage: 0.1}), moss)},
	// Half of the fraction of grass, 0.1429 of 2 450 kg: 1 716.7 N.
	{"measured-below-rules", part.Caution, resist(func(v *plan.Vehicle) { v.Stuck.Measured = 1716 }, moss), resist(func(v *plan.Vehicle) { v.Stuck.Measured = 1717 }, moss)},
	// Gravel 0.35 on 2 450 kg, all chocked: 8 409 N; the parking brake alone 0.2·W: 4 805 N.
	{"measured-below-locked", part.Warning, lockedAt(8400, func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }), lockedAt(8420, func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll })},
	{"measured-below-locked", part.Warning, lockedAt(8400, func(v *plan.Vehicle) { v.Stuck.LockedWheels = 4 }), lockedAt(8420, func(v *plan.Vehicle) { v.Stuck.LockedWheels = 4 })},
	{"measured-below-locked", part.Warning, lockedAt(4800, func(v *plan.Vehicle) { v.Brake = plan.BrakeAll }), lockedAt(4810, func(v *plan.Vehicle) { v.Brake = plan.BrakeAll })},
	{"measured-below-locked", part.Warning, lockedAt(2900, func(v *plan.Vehicle) { v.Brake, v.BrakeForce = plan.BrakeAll, 3000 }), lockedAt(3010, func(v *plan.Vehicle) { v.Brake, v.BrakeForce = plan.BrakeAll, 3000 })},
	{"measured-below-slope", part.Warning, climb(12.1, 5000), climb(11.9, 5000)}, // W·sin a 5 036, 4 954 N
	{"does-not-break-loose", part.Warning, loosens(9001, 12_000), loosens(9000, 12_000)},
	{"does-not-break-loose", part.Caution, loosens(5000, 9001), loosens(5000, 9000)},

	{"off-way-out", part.Notice, off(15.01, true), off(15, true)},
	{"off-way-out", part.Warning, off(30.01, true), off(14, true)},
	{"off-way-out-unknown", part.Notice, off(15.01, false), off(15, false)},
	{"off-way-out-unknown", part.Warning, off(30.01, false), off(30.01, true)},
	{"off-way-out-refused", part.Danger, off(60.01, true), off(60, true)},

	// A jump of 0.1 m and more is worth a sentence (ours): 2·ΔR/k.
	{"jump", part.Notice, jump(5000, 100_000), jump(4999, 100_000)},
	{"jump-not-computed", part.Notice, jump(5000, 0), jump(5000, 100_000)},
	{"kinetic-not-computed", part.Danger, kinetic(true, false), kinetic(false, false)},

	{"vehicle-slides", part.Danger, stands(lowHold*1.0001, nil, effort.HoldIn{}), stands(lowHold*0.9999, nil, effort.HoldIn{})},
	{"vehicle-slides", part.Danger, stands(1, nil, effort.HoldIn{LoosenN: lowHold * 1.0001}), stands(1, nil, effort.HoldIn{LoosenN: lowHold * 0.9999})},
	{"vehicle-near-sliding", part.Warning, stands(lowHold*0.7501, nil, effort.HoldIn{}), stands(lowHold*0.7499, nil, effort.HoldIn{})},
	{"vehicle-near-sliding", part.Warning, stands(1, nil, effort.HoldIn{LoosenN: lowHold * 0.7501}), stands(1, nil, effort.HoldIn{LoosenN: lowHold * 0.7499})},
	{"vehicle-slides-at-stall", part.Caution, stands(1, nil, effort.HoldIn{StallN: lowHold * 1.0001}), stands(1, nil, effort.HoldIn{StallN: lowHold * 0.9999})},
	{"vehicle-slides-at-stall", part.Danger, stands(1, nil, effort.HoldIn{StallN: lowHold * 1.0001, Anchor: true}), stands(1, nil, effort.HoldIn{StallN: lowHold * 0.9999, Anchor: true})},
	{"vehicle-turns", part.Danger, stands(8000, func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll; v.Grip = "grip.earth-firm" }, effort.HoldIn{Ends: []effort.LineEnd{{PerTension: r3.Vector{Y: 1}, AheadM: 2.5}}}),
		stands(8000, func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll; v.Grip = "grip.earth-firm" }, effort.HoldIn{})},
	// The rear axle is lifted by what a line presses down before the front one:
	// T·h/wb = W·b/wb.
	{"axle-lifts", part.Danger, stands(2600*quantity.Gravity*1.3/0.85*1.001, nil, effort.HoldIn{}), stands(2600*quantity.Gravity*1.3/0.85*0.999, nil, effort.HoldIn{})},
	{"axle-lifts", part.Danger, stands(1, nil, effort.HoldIn{LoosenN: 2600 * quantity.Gravity * 1.3 / 0.85 * 1.001}), stands(1, nil, effort.HoldIn{LoosenN: 2600 * quantity.Gravity * 1.3 / 0.85 * 0.999})},
	{"axle-lifts", part.Danger, stands(1, nil, effort.HoldIn{StallN: 2600 * quantity.Gravity * 1.3 / 0.85 * 1.001, Anchor: true}), stands(1, nil, effort.HoldIn{StallN: 2600 * quantity.Gravity * 1.3 / 0.85 * 1.001})},
	// A casualty pulled at 2 m: its rear axle carries W·1.4/3, lifts at W·1.4/2.
	{"axle-lifts", part.Danger, pitched(2450*quantity.Gravity*0.7*1.001, plan.DepthNone), pitched(2450*quantity.Gravity*0.7*0.999, plan.DepthNone)},
	{"axle-lifts", part.Danger, pitched(2450*quantity.Gravity*0.7*1.001, plan.DepthNone), pitched(2450*quantity.Gravity*0.7*1.001, plan.DepthHub)},
	{"centre-of-gravity-assumed", part.Caution, stands(1, func(v *plan.Vehicle) { v.CGBehindFront = 0 }, effort.HoldIn{}), stands(1, nil, effort.HoldIn{})},
	{"centre-of-gravity-assumed", part.Caution, stands(1, func(v *plan.Vehicle) { v.CGHeight = 0 }, effort.HoldIn{FallAheadDeg: 1}), stands(1, func(v *plan.Vehicle) { v.CGHeight = 0 }, effort.HoldIn{})},

	{"in-gear-not-counted", part.Notice, parked(func(v *plan.Vehicle) { v.InGear = true }, effort.StandIn{}), parked(func(v *plan.Vehicle) { v.InGear, v.FootBrake = true, true }, effort.StandIn{})},
	{"no-brake", part.Danger, parked(func(v *plan.Vehicle) { v.Brake = plan.BrakeNone }, effort.StandIn{}), parked(func(v *plan.Vehicle) { v.Brake = plan.BrakeNone; v.Chocks = plan.ChocksRear }, effort.StandIn{})},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang = 4.61, 0 }), body(func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang = 4.59, 0 })},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang = 2.8, 1.81 }), body(func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang = 2.8, 1.79 })},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.Track = 1.91 }), body(func(v *plan.Vehicle) { v.Track = 1.89 })},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.CGHeight = 2.01 }), body(func(v *plan.Vehicle) { v.CGHeight = 1.99 })},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.CGBehindFront = 2.81 }), body(func(v *plan.Vehicle) { v.CGBehindFront = 2.79 })},
	{"figures-odd", part.Warning, placed(2.81, 0, 0.6), placed(2.79, 0, 0.6)},
	{"figures-odd", part.Warning, placed(-2.81, 0, 0.6), placed(-2.79, 0, 0.6)},
	{"figures-odd", part.Warning, placed(2.3, -1.46, 0.6), placed(2.3, -1.44, 0.6)},
	{"figures-odd", part.Warning, placed(2.3, 0, 2.51), placed(2.3, 0, 2.49)},
	// A fifth of 2 m; 2 600 kg weigh 25.50 kN.
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.CGHeight = 0.39 }), body(func(v *plan.Vehicle) { v.CGHeight = 0.41 })},
	{"figures-odd", part.Warning, body(func(v *plan.Vehicle) { v.BrakeForce = 25_510 }), body(func(v *plan.Vehicle) { v.BrakeForce = 25_490 })},
	{"figures-odd", part.Warning, drum(1.91, 0.2), drum(1.89, 0.2)},
	{"figures-odd", part.Warning, drum(0.23, 2.01), drum(0.23, 1.99)},
	{"load-heavy", part.Warning, resist(func(v *plan.Vehicle) { v.Load = 2*v.Mass + 1 }, moss), resist(func(v *plan.Vehicle) { v.Load = 2*v.Mass - 1 }, moss)},
	{"breakaway-odd", part.Caution, resist(func(v *plan.Vehicle) { v.Stuck.Breakaway = 0.99 }, moss), resist(func(v *plan.Vehicle) { v.Stuck.Breakaway = 1 }, moss)},
	{"load-odd", part.Warning, resist(func(v *plan.Vehicle) { v.Load = 2.1 }, moss), resist(func(v *plan.Vehicle) { v.Load = 20 }, moss)},
	// 4.6 m by 1.9 m: 8.74 m², 350 kg at 40 and 26.2 t at 3 000 kg/m² (ours).
	{"mass-against-size", part.Warning, stands(1, sized(349), effort.HoldIn{}), stands(1, sized(351), effort.HoldIn{})},
	{"mass-against-size", part.Warning, stands(1, sized(26_230), effort.HoldIn{}), stands(1, sized(26_210), effort.HoldIn{})},
	{"casualty-must-hold", part.Danger, parked(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Overturned: true} }, effort.StandIn{}), parked(nil, effort.StandIn{})},
	{"foot-brake-nobody", part.Caution, noFoot(plan.ChocksNone), noFoot(plan.ChocksAll)},
	// All wheels chocked on gravel, 0.28: it slides by itself above atan 0.28 = 15.64°.
	{"vehicle-moves-by-itself", part.Danger, parked(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }, effort.StandIn{FallAheadDeg: 15.65}),
		parked(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }, effort.StandIn{FallAheadDeg: 15.63})},
	{"vehicle-moves-by-itself", part.Danger, parked(func(v *plan.Vehicle) { v.Chocks, v.Mass, v.Wheelbase = plan.ChocksAll, 0, 0 }, effort.StandIn{FallLeftDeg: 15.65}),
		parked(func(v *plan.Vehicle) { v.Chocks, v.Mass, v.Wheelbase = plan.ChocksAll, 0, 0 }, effort.StandIn{FallLeftDeg: 15.63})},

	{"tips-sideways", part.Warning, tip(0.501), tip(0.499)},
	{"tips-sideways", part.Danger, tip(0.751), tip(0.499)},
	{"tips-sideways", part.Danger, tips(effort.TipIn{Loosen: sided(-0.751)}), tips(effort.TipIn{Stall: sided(-0.751)})},
	{"tips-by-itself", part.Warning, tips(effort.TipIn{FallLeftDeg: tipDeg(0.501)}), tips(effort.TipIn{FallLeftDeg: tipDeg(0.499)})},
	{"tips-by-itself", part.Danger, tips(effort.TipIn{FallLeftDeg: -tipDeg(0.751)}), tips(effort.TipIn{FallLeftDeg: -tipDeg(0.749)})},
	{"tips-at-stall", part.Caution, tips(effort.TipIn{Stall: sided(0.751)}), tips(effort.TipIn{Stall: sided(0.749)})},
	{"tips-at-stall", part.Warning, tips(effort.TipIn{Stall: sided(1.001)}), tips(effort.TipIn{Stall: sided(0.999)})},
	{"tips-at-stall", part.Danger, tips(effort.TipIn{Stall: sided(1.001), Anchor: true}), tips(effort.TipIn{Stall: sided(0.999), Anchor: true})},

	{"rolls-by-itself", part.Danger, free(effort.FreeIn{FallAlongDeg: -rollDeg * 1.001}), free(effort.FreeIn{FallAlongDeg: -rollDeg * 0.999})},
	{"downhill-pull", part.Danger, free(effort.FreeIn{FallAlongDeg: rollDeg * 1.001}), free(effort.FreeIn{FallAlongDeg: rollDeg * 0.999})},
	{"rolls-by-itself-unknown", part.Danger, free(effort.FreeIn{Vehicle: unweighed, FallAlongDeg: -rollDeg * 1.001}), free(effort.FreeIn{Vehicle: unweighed, FallAlongDeg: -rollDeg * 0.999})},
	{"downhill-pull-unknown", part.Danger, free(effort.FreeIn{Vehicle: unweighed, FallAlongDeg: rollDeg * 1.001, HoldBack: true, HoldBackN: 1e6}), free(effort.FreeIn{Vehicle: unweighed, FallAlongDeg: rollDeg * 0.999})},
	{"hold-back-weak", part.Danger, free(effort.FreeIn{FallAlongDeg: 10, HoldBack: true, Holds: true, HoldBackN: holdBack10 * 0.999}), free(effort.FreeIn{FallAlongDeg: 10, HoldBack: true, Holds: true, HoldBackN: holdBack10 * 1.001})},
	{"hold-back-no-limit", part.Danger, free(effort.FreeIn{FallAlongDeg: 10, HoldBack: true}), free(effort.FreeIn{FallAlongDeg: 10, HoldBack: true, HoldBackN: 1})},
	// Wet grass 0.2: atan 0.2 = 11.31°.
	{"side-slip", part.Warning, slip(11.32, nil), slip(11.30, nil)},
	{"side-slip-unknown", part.Warning, slip(11.32, func(v *plan.Vehicle) { v.Mass = 0 }), slip(11.30, func(v *plan.Vehicle) { v.Mass = 0 })},
	{"uprighting-needs-slow-line", part.Danger, upright(2, false, true), upright(2, true, true)},
	{"height-not-known", part.Caution, upright(0, true, true), upright(2, true, true)},

	{"dead-end-refused", part.Danger, dead("ball", plan.PointTowBall), dead("front", plan.PointHook)},
	{"dead-end-not-known", part.Caution, dead("front", plan.PointUnknown), dead("front", plan.PointHook)},
	{"dead-end-not-rated", part.Warning, dead("front", plan.PointHook), dead("front", plan.PointRated)},

	{"tie-back-weak", part.Danger, tieBack(effort.TieBackIn{LimitN: 26_999}), tieBack(effort.TieBackIn{LimitN: 27_000})},
	{"tie-back-no-limit", part.Warning, tieBack(effort.TieBackIn{}), tieBack(effort.TieBackIn{LimitN: 27_000})},
	{"tie-back-askew", part.Danger, tieBack(effort.TieBackIn{OffDeg: 30.1, LimitN: 1e6}), tieBack(effort.TieBackIn{OffDeg: 30, LimitN: 1e6})},
}

var holdBack10 = 1.5 * 2450 * quantity.Gravity * (math.Sin(10*math.Pi/180) - 0.012*math.Cos(10*math.Pi/180))

// unweighed is a casualty on packed gravel whose mass nobody knows.
var unweighed = casualty(func(v *plan.Vehicle) {
	v.Mass, v.Stuck = 0, &plan.Stuck{Surface: "roll.book.gravel-dry-packed"}
})

func TestFindings(t *testing.T) {
	for _, s := range situations {
		t.Run(s.id+" "+s.level.String(), func(t *testing.T) {
			var found []part.Finding
			s.raise(&found)
			var got *part.Finding
			for i := range found {
				if found[i].ID == s.id && found[i].Level == s.level {
					got = &found[i]
				}
			}
			require.NotNil(t, got, "%v", idsOf(found))
			require.NotEmpty(t, got.Things)
			assert.NotEmpty(t, got.Things[0])
			for _, f := range found {
				known(t, f)
			}
			found = nil
			s.clear(&found)
			for _, f := range found {
				assert.False(t, f.ID == s.id && f.Level == s.level, "still raised past its border: %v", f)
				known(t, f)
			}
		})
	}
}

// known checks a finding against its rule: id, level and values.
func known(t *testing.T, f part.Finding) {
	t.Helper()
	if f.ID == part.NotDecidedID {
		assert.NotEmpty(t, f.Lacks)
		return
	}
	i := slices.IndexFunc(effort.Rules, func(r part.Rule) bool { return r.ID == f.ID })
	require.GreaterOrEqual(t, i, 0, "%s is in no rule", f.ID)
	r := effort.Rules[i]
	assert.Contains(t, r.Levels, f.Level, f.ID)
	var names []string
	for _, v := range f.Values {
		names = append(names, v.Name)
		assert.False(t, math.IsNaN(v.X) || math.IsInf(v.X, 0), "%s: %s", f.ID, v.Name)
	}
	assert.ElementsMatch(t, r.Values, names, f.ID)
}

func TestRules(t *testing.T) {
	assert.True(t, slices.IsSortedFunc(effort.Rules, func(a, b part.Rule) int { return strings.Compare(a.ID, b.ID) }))
	raised := map[string]bool{"hold-not-computed": true} // no input is known to reach it
	for _, s := range situations {
		raised[s.id] = true
	}
	var texts struct {
		Finding map[string]struct{ What, Do string }
		Formula map[string]string
	}
	_, err := toml.DecodeFile("../../assets/words/en-effort.toml", &struct {
		Finding *map[string]struct{ What, Do string } `toml:"finding"`
		Formula *map[string]string                    `toml:"formula"`
	}{&texts.Finding, &texts.Formula})
	require.NoError(t, err)
	for _, r := range effort.Rules {
		t.Run(r.ID, func(t *testing.T) {
			assert.True(t, raised[r.ID], "no test raises it")
			assert.NotEmpty(t, r.Levels)
			if r.Fact == "" {
				assert.NotEmpty(t, r.Why)
			} else {
				_, ok := facts.Get(facts.ID(r.Fact))
				assert.True(t, ok, "no row %q", r.Fact)
			}
			text, ok := texts.Finding[r.ID]
			require.True(t, ok, "no text")
			assert.NotEmpty(t, text.What)
			assert.NotEmpty(t, text.Do)
			for _, bad := range []string{"safe", "OK", "clear of"} {
				assert.NotContains(t, text.What+text.Do, bad)
			}
		})
	}
	assert.Len(t, texts.Finding, len(effort.Rules), "a text without a rule")
	data, err := os.ReadFile("../../assets/words/en-effort.toml")
	require.NoError(t, err)
	assert.NotContains(t, strings.ToLower(string(data)), " safe")
}
