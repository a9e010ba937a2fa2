package effort_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What a vehicle does where it stands is decided as far as what is known goes:
// the weight cancels, and chocks make brake and wheelbase idle.
func TestStandsOnWhatIsKnown(t *testing.T) {
	chocked := func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }
	for _, c := range []struct {
		name    string
		change  func(*plan.Vehicle)
		fallDeg float64
		want    string   // finding; empty: none
		lacks   []string // members that it lacks
	}{
		// Gravel at the low end: 0.8·0.35 = 0.28, atan 15.6° (ours).
		{"no mass, all chocked", func(v *plan.Vehicle) { chocked(v); v.Mass = 0 }, 15, "", nil},
		{"no mass, too steep", func(v *plan.Vehicle) { chocked(v); v.Mass = 0 }, 16, "vehicle-moves-by-itself", nil},
		{"no mass, brake's own strength", func(v *plan.Vehicle) { v.Mass, v.BrakeForce = 0, 4000 }, 5, part.NotDecidedID, []string{"mass_kg"}},
		{"no mass, no strength would do", func(v *plan.Vehicle) { v.Mass, v.BrakeForce = 0, 4000 }, 16, "vehicle-moves-by-itself", nil},
		{"no mass, no brake", func(v *plan.Vehicle) { v.Mass, v.Brake = 0, plan.BrakeNone }, 0, "no-brake", nil},
		{"brake not known", func(v *plan.Vehicle) { v.Brake = plan.BrakeUnknown }, 0, part.NotDecidedID, []string{"brake"}},
		{"brake not known, front chocked", func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeUnknown, plan.ChocksFront }, 1, "", nil},
		{"brake not known, front chocked, steep", func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeUnknown, plan.ChocksFront }, 12, part.NotDecidedID, []string{"brake"}},
		{"brake not known, all chocked", func(v *plan.Vehicle) { chocked(v); v.Brake = plan.BrakeUnknown }, 15, "", nil},
		{"brake not known, foot on it", func(v *plan.Vehicle) { v.Brake, v.FootBrake = plan.BrakeUnknown, true }, 15, "", nil},
		{"no wheelbase, rear brake", func(v *plan.Vehicle) { v.Wheelbase = 0 }, 5, part.NotDecidedID, []string{"wheelbase_m"}},
		{"no wheelbase, on the level", func(v *plan.Vehicle) { v.Wheelbase = 0 }, 0, "", nil},
		{"no wheelbase, all chocked", func(v *plan.Vehicle) { chocked(v); v.Wheelbase = 0 }, 15, "", nil},
		{"neither brake nor wheelbase", func(v *plan.Vehicle) { v.Brake, v.Wheelbase, v.Chocks = plan.BrakeUnknown, 0, plan.ChocksFront }, 5, part.NotDecidedID, []string{"brake", "wheelbase_m"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found []part.Finding
			effort.Stands(effort.StandIn{Vehicle: warden(c.change), Ground: &moss, FallAheadDeg: c.fallDeg}, &found)
			if c.want == "" {
				assert.Empty(t, found)
				return
			}
			require.Len(t, found, 1, "%v", idsOf(found))
			assert.Equal(t, c.want, found[0].ID)
			var got []string
			for _, l := range found[0].Lacks {
				assert.Equal(t, plan.ID("warden"), l.Thing)
				got = append(got, l.Member)
			}
			assert.Equal(t, c.lacks, got)
		})
	}
}

// Without the slope nothing of it is decided; what needs none still speaks.
func TestWithoutTheSlopeNothingIsPassed(t *testing.T) {
	slope := []part.Lack{{Member: "slope_deg"}}
	lacksSlope := func(t *testing.T, found []part.Finding, rule string) {
		t.Helper()
		for _, f := range found {
			if f.ID == part.NotDecidedID {
				for _, l := range f.Lacks {
					if l.Rule == rule && l.Member == "slope_deg" {
						return
					}
				}
			}
		}
		t.Errorf("%s is not said to lack the slope: %v", rule, found)
	}
	var found []part.Finding
	res := effort.Resistance(effort.ResistanceIn{Vehicle: casualty(nil), Ground: &moss, Lacks: slope}, nil, &found)
	lacksSlope(t, found, "does-not-break-loose")
	assert.True(t, res.Known, "as on the level")
	found = nil
	effort.Resistance(effort.ResistanceIn{Vehicle: casualty(func(v *plan.Vehicle) { v.Stuck.Measured = 20_000 }), Ground: &moss, Lacks: slope}, nil, &found)
	lacksSlope(t, found, "measured-below-slope")
	found = nil
	effort.Stands(effort.StandIn{Vehicle: warden(nil), Ground: &moss, Lacks: slope}, &found)
	lacksSlope(t, found, "vehicle-moves-by-itself")
	found = nil
	effort.Stands(effort.StandIn{Vehicle: warden(func(v *plan.Vehicle) { v.Brake = plan.BrakeNone }), Ground: &moss, Lacks: slope}, &found)
	assert.Equal(t, 1, idsOf(found)["no-brake"])
	found = nil
	effort.PullerHold(effort.HoldIn{Vehicle: warden(nil), Ground: &moss, Ends: pullAhead(), TensionN: 1e6, TensionKnown: true, Lacks: slope}, nil, &found)
	lacksSlope(t, found, "vehicle-slides")
	assert.Equal(t, 1, idsOf(found)["vehicle-slides"], "on the level it slides as it is")
	found = nil
	effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: sided(0.1), Lacks: slope}, nil, &found)
	lacksSlope(t, found, "tips-sideways")
	found = nil
	assert.False(t, effort.Free(effort.FreeIn{Vehicle: casualty(nil), Ground: &moss, Lacks: slope}, nil, &found).Known)
	lacksSlope(t, found, "rolls-by-itself")
	found = nil
	effort.SideSlip(effort.SideSlipIn{Vehicle: casualty(nil), Ground: &moss, SideN: 1e6, Lacks: slope}, nil, &found)
	lacksSlope(t, found, "side-slip")
	assert.Equal(t, 1, idsOf(found)["side-slip"])
}

// Each member that a rule of the puller lacks is named, and passes nothing.
func TestWhatTheHoldLacks(t *testing.T) {
	height := []part.Lack{{Thing: "warden", Member: "winch.height_m"}}
	for _, c := range []struct {
		name, member string
		change       func(*plan.Vehicle)
		heights      []part.Lack
		known        bool // the hold is computed all the same
	}{
		{"mass", "mass_kg", func(v *plan.Vehicle) { v.Mass = 0 }, nil, false},
		{"wheelbase", "wheelbase_m", func(v *plan.Vehicle) { v.Wheelbase = 0 }, nil, false},
		{"brake", "brake", func(v *plan.Vehicle) { v.Brake = plan.BrakeUnknown }, nil, true},
		{"brake, front chocked", "brake", func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeUnknown, plan.ChocksFront }, nil, true},
		{"brake, all chocked", "", func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeUnknown, plan.ChocksAll }, nil, true},
		{"brake, a foot on it", "", func(v *plan.Vehicle) { v.Brake, v.FootBrake = plan.BrakeUnknown, true }, nil, true},
		{"height of the line", "winch.height_m", nil, height, true},
		{"grip", "grip", func(v *plan.Vehicle) { v.Grip = "grip.nowhere" }, nil, true},
		{"centre of gravity", "cg_behind_front_axle_m", func(v *plan.Vehicle) { v.CGBehindFront = 0 }, nil, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			var found []part.Finding
			res := effort.PullerHold(effort.HoldIn{Vehicle: warden(c.change), Ground: &moss, Ends: pullAhead(), TensionN: 1, TensionKnown: true, HeightLacks: c.heights}, nil, &found)
			assert.Equal(t, c.known, res.Hold.Known)
			assert.Equal(t, c.member == "brake", res.AtMost)
			if c.member == "" {
				assert.Empty(t, found)
				return
			}
			require.Len(t, found, 1)
			assert.GreaterOrEqual(t, found[0].Level, part.Caution)
			require.Len(t, found[0].Lacks, 1)
			assert.Equal(t, c.member, found[0].Lacks[0].Member)
		})
	}
}

// What a rule lacks is named whatever else it lacks: a mass that nobody knows
// silences no other member.
func TestAMassNobodyKnowsSilencesNoOtherMember(t *testing.T) {
	slope := []part.Lack{{Member: "slope_deg"}}
	height := []part.Lack{{Thing: "warden", Member: "recovery_points.front.height_m"}}
	bare := func(v *plan.Vehicle) { v.Mass, v.Wheelbase, v.Track, v.Grip = 0, 0, 0, "grip.nowhere" }
	for _, c := range []struct {
		name    string
		raise   func(found *[]part.Finding)
		members []string
	}{
		{"hold", stands(1, bare, effort.HoldIn{Lacks: slope, HeightLacks: height}),
			[]string{"slope_deg", "recovery_points.front.height_m", "wheelbase_m", "grip", "mass_kg"}},
		{"tipping", tips(effort.TipIn{Vehicle: warden(bare), Move: sided(0.1), Lacks: slope, HeightLacks: height}),
			[]string{"slope_deg", "recovery_points.front.height_m", "track_m", "mass_kg"}},
		{"pitching", func(found *[]part.Finding) {
			effort.Pitches(effort.HoldIn{Vehicle: warden(bare), Ends: pullAhead(), LoosenN: 1}, found)
		}, []string{"wheelbase_m", "mass_kg"}},
	} {
		var found []part.Finding
		c.raise(&found)
		var members []string
		for _, l := range lacked(found) {
			members = append(members, l.Member)
		}
		assert.ElementsMatch(t, c.members, members, c.name)
	}
}

// A brake that acts on all wheels holds its fifth of the weight once, not once
// an axle: by closed form, 0.2·W on dry concrete (FMVSS 135, from memory).
func TestAnAllWheelBrakeCountsOnce(t *testing.T) {
	w := 2600 * quantity.Gravity
	v := warden(func(v *plan.Vehicle) { v.Brake, v.Grip = plan.BrakeAll, "grip.concrete-dry" })
	res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead()}, nil, nil)
	near(t, 0.2*w, float64(res.Hold.Low), 1e-6*w, "low")
	near(t, 0.2*w, float64(res.Hold.Likely), 1e-6*w, "likely")
	near(t, 0.9*w, float64(res.Hold.High), 1e-6*w, "high: grip alone, of all four")
	v.BrakeForce = 3000
	near(t, 3000, float64(effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead()}, nil, nil).Hold.High), 1e-6*w, "a known one once, too")
}

// Where the centre of gravity is not known the worse end of the handbook's range
// counts at the low end: rear brake under a front winch, μ·W·b/(wb + μ·h) with
// b 0.42 to 0.60 of the wheelbase (ours).
func TestAnAssumedCentreOfGravityLiesAtItsWorseEnd(t *testing.T) {
	w := 2600 * quantity.Gravity
	at := func(change func(*plan.Vehicle), pull float64) part.Range {
		v := warden(func(v *plan.Vehicle) { v.CGBehindFront, v.BrakeForce, v.Grip = 0, 50_000, "grip.earth-firm"; change(v) })
		return effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{{PerTension: r3.Vector{X: pull}, AheadM: 2.55, HeightM: 0.85}}}, nil, nil).Hold
	}
	r := at(func(*plan.Vehicle) {}, 1)
	near(t, 0.5*w*0.42*2.8/(2.8+0.5*0.85), float64(r.Low), 1e-6*w, "low: 0.42 of the wheelbase")
	near(t, 0.55*w*0.47*2.8/(2.8+0.55*0.85), float64(r.Likely), 1e-6*w, "likely: 0.47")
	near(t, 0.65*w*0.60*2.8/(2.8+0.65*0.85), float64(r.High), 1e-6*w, "high: 0.60")
	r = at(func(v *plan.Vehicle) { v.Brake = plan.BrakeFront }, -1)
	near(t, 0.5*w*0.40*2.8/(2.8+0.5*0.85), float64(r.Low), 1e-6*w, "front brake, pulled back: the front carries least at 0.60")
}

// A line high up lifts the far axle before the tyres slide; that counts at every
// end of the range: T = W·b/h.
func TestLiftingAnAxleIsTheHoldAtEveryEnd(t *testing.T) {
	w := 2600 * quantity.Gravity
	v := warden(func(v *plan.Vehicle) { v.Chocks, v.Grip = plan.ChocksAll, "grip.concrete-dry" })
	res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.55, HeightM: 4}}}, nil, nil)
	for name, f := range map[string]quantity.Force{"low": res.Hold.Low, "likely": res.Hold.Likely, "high": res.Hold.High} {
		near(t, w*1.3/4, float64(f), 1e-6*w, name)
	}
}

func TestGripThatIsAnAverage(t *testing.T) {
	w := 2600 * quantity.Gravity
	for _, c := range []struct {
		grip      string
		low, like float64
	}{
		{"grip.gravel", 0.8 * 0.35, 0.35}, // low and likely are the textbook's average
		{"grip.book.ice", 0.8 * 0.1, 0.1}, // a single source
		{"grip.earth-firm", 0.5, 0.55},    // its low end is another source's low figure
		{"grip.ice", 0.07, 0.1},           // likewise
		{"grip.nowhere", 0.07, 0.4},       // not known: the widest of all rows
	} {
		t.Run(c.grip, func(t *testing.T) {
			v := warden(func(v *plan.Vehicle) { v.Chocks, v.Grip = plan.ChocksAll, c.grip })
			res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.55}}}, nil, nil)
			near(t, c.low*w, float64(res.Hold.Low), 1e-6*w, "low")
			near(t, c.like*w, float64(res.Hold.Likely), 1e-6*w, "likely")
		})
	}
}

// Whatever its brake acts on, a vehicle holds no more than with all wheels
// chocked. Beyond that it slides for sure.
func TestAnUnknownBrakeHoldsNoMoreThanLockedWheels(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.Grip, v.Brake = "grip.gravel", plan.BrakeUnknown })
	level := []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.55}}
	locked := warden(func(v *plan.Vehicle) { v.Grip, v.Brake, v.Chocks = "grip.gravel", plan.BrakeNone, plan.ChocksAll })
	most := effort.PullerHold(effort.HoldIn{Vehicle: locked, Ground: &moss, Ends: level}, nil, nil).Hold.Low
	for times, slides := range map[float64]bool{0.99: false, 1.01: true} {
		var found []part.Finding
		res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: level, TensionN: times * float64(most), TensionKnown: true}, nil, &found)
		assert.True(t, res.AtMost && res.Capacity(false).Limit.AtMost)
		near(t, float64(most), float64(res.Hold.Low), 1e-9*float64(most), "all wheels locked")
		assert.Equal(t, slides, idsOf(found)["vehicle-slides"] > 0)
		assert.Positive(t, idsOf(found)["not-decided"])
	}
}

// Wheels that turn roll where the slope along them is more than the surface takes of
// what presses on it, which a slope across lessens: on grass of 0.0525, 12° across, from
// sin a = 0.0525·√(1 − sin²a − sin²12°) on. (closed form)
func TestWheelsThatTurnOnACrossSlope(t *testing.T) {
	across, c := math.Sin(12*math.Pi/180), 0.0525
	edge := math.Asin(c*math.Sqrt((1-across*across)/(1+c*c))) * 180 / math.Pi
	for off, moves := range map[float64]bool{-0.01: false, 0.01: true} {
		for _, way := range []float64{1, -1} {
			var found []part.Finding
			v := warden(func(v *plan.Vehicle) { v.Brake = plan.BrakeNone })
			effort.Stands(effort.StandIn{Vehicle: v, Ground: &moss, FallAheadDeg: way * (edge + off), FallLeftDeg: 12}, &found)
			assert.Equal(t, moves, idsOf(found)["vehicle-moves-by-itself"] > 0, "%v: %v", off, idsOf(found))
		}
	}
}
