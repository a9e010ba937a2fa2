package effort_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"pgregory.net/rapid"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// followed are the formulas of what a vehicle holds and when it tips, as their
// texts say them, from nothing but the operands of each step.
var followed = map[string]func(o map[string]float64) float64{
	"puller-weight": func(o map[string]float64) float64 { return (o["mass"] + o["load"]) * o["g"] },
	"slope-flat": func(o map[string]float64) float64 {
		return math.Sqrt(1 - sq(math.Sin(rad(o["ahead"]))) - sq(math.Sin(rad(o["left"]))))
	},
	"puller-grip": func(o map[string]float64) float64 { return o["average"] * o["times"] },
	"puller-front": func(o map[string]float64) float64 {
		return (o["weight"]*o["flat"]*o["behind"] + o["weight"]*math.Sin(rad(o["ahead"]))*o["cg"]) / o["wheelbase"]
	},
	"puller-rear":        func(o map[string]float64) float64 { return o["weight"]*o["flat"] - o["front"] },
	"puller-end":         func(o map[string]float64) float64 { return o["before"] + o["ahead"]*o["height"] - o["up"]*o["from"] },
	"puller-shift-front": func(o map[string]float64) float64 { return o["turns"] / o["wheelbase"] },
	"puller-shift-rear":  func(o map[string]float64) float64 { return -o["up"] - o["front"] },
	"puller-brake":       func(o map[string]float64) float64 { return o["weight"] * o["times"] },
	"puller-rest":        func(o map[string]float64) float64 { return o["grip"]*(o["front"]+o["rear"]) + o["brake"] },
	"puller-down":        func(o map[string]float64) float64 { return o["weight"] * math.Sin(rad(o["fall"])) },
	"puller-straight": func(o map[string]float64) float64 {
		return (o["rest"] - o["down"]) / (o["along"] - o["grip"]*(o["front"]+o["rear"]))
	},
	"puller-holds-nothing": func(o map[string]float64) float64 { return max(0, min(0, o["rest"]-o["down"])) },
	"puller-lifts":         func(o map[string]float64) float64 { return o["rest"] / o["shift"] },
	"puller-load":          func(o map[string]float64) float64 { return max(0, o["rest"]+o["shift"]*o["tension"]) },
	"puller-across":        func(o map[string]float64) float64 { return o["grip"] * o["load"] / 2 },
	"puller-brake-wheel":   func(o map[string]float64) float64 { return o["brake"] * o["share"] / 2 },
	"puller-wheel": func(o map[string]float64) float64 {
		return o["before"] + math.Hypot(o["along"]*o["ahead"], o["across"]*o["aside"])
	},
	"puller-slope": func(o map[string]float64) float64 {
		return o["weight"] * (math.Sin(rad(o["ahead-fall"]))*o["ahead"] + math.Sin(rad(o["left-fall"]))*o["aside"])
	},
	"puller-work":    func(o map[string]float64) float64 { return o["work"] - o["slope"] },
	"puller-against": func(o map[string]float64) float64 { return o["slope"] - o["work"] },
	"resistance-sinkage": func(o map[string]float64) float64 {
		return o["weight"] * o["flat"] * o["turning"] * o["per-cm"] * o["cm"]
	},
	"resistance-rolling": func(o map[string]float64) float64 { return o["weight"] * o["flat"] * o["turning"] * o["fraction"] },
	"resistance-dragged": func(o map[string]float64) float64 { return o["weight"] * o["flat"] * o["locked"] * o["grip"] },
	"resistance-slope":   func(o map[string]float64) float64 { return o["weight"] * math.Sin(rad(o["grade"])) },
	"resistance-break": func(o map[string]float64) float64 {
		return o["k"]*(o["rolling"]+o["sinkage"]) + o["dragged"] + o["slope"] + o["current"] + o["suction"]
	},
	"resistance-physics": func(o map[string]float64) float64 {
		return max(0, o["rolling"]+o["sinkage"]+o["dragged"]+o["slope"]+o["current"])
	},
	"resistance-handbook": func(o map[string]float64) float64 { return o["weight"]*o["times"]*o["less"] + o["current"] },
	"resistance-common":   func(o map[string]float64) float64 { return o["weight"]*(o["fraction"]+o["climb"]) + o["current"] },
	"puller-brake-axle":   func(o map[string]float64) float64 { return o["brake"] * o["share"] },
	"side-slip":           func(o map[string]float64) float64 { return o["weight"]*math.Sin(rad(o["fall"])) + o["side"] },
	"side-grip":           func(o map[string]float64) float64 { return o["mu"] * (o["weight"]*o["flat"] - o["up"]) },
	"tip-slope":           func(o map[string]float64) float64 { return o["weight"] * math.Sin(rad(o["fall"])) * o["cg"] },
	"tip-line":            func(o map[string]float64) float64 { return o["before"] + o["side"]*o["height"] },
	"tip-over":            func(o map[string]float64) float64 { return o["lines"] + o["slope"] },
	"tip-half":            func(o map[string]float64) float64 { return o["track"] / 2 * o["sunk"] },
	"tip-lift":            func(o map[string]float64) float64 { return o["before"] + o["up"]*o["lever"] },
	"tip-rights":          func(o map[string]float64) float64 { return o["weight"] * o["flat"] * o["half"] },
	"tip-righting":        func(o map[string]float64) float64 { return o["whole"] - o["lift"] },
	"tip-share":           func(o map[string]float64) float64 { return o["over"] / o["righting"] },
	"tip-arm":             func(o map[string]float64) float64 { return (o["lines"] + o["share"]*o["lift"]) / o["side"] },
	"tip-limit":           func(o map[string]float64) float64 { return (o["share"]*o["whole"] - o["slope"]) / o["arm"] },
	"tip-lifts":           func(o map[string]float64) float64 { return o["whole"] * o["side"] / o["lift"] },
}

func sq(x float64) float64 { return x * x }

// follow computes every step anew from its own operands.
func follow(t interface{ Fatalf(string, ...any) }, derivation *part.Derivation) {
	for _, s := range derivation.Steps {
		f := followed[s.Formula]
		if f == nil {
			t.Fatalf("no way to follow %s", s.Formula)
		}
		o := map[string]float64{}
		size := math.Abs(s.Result.X)
		for _, x := range s.Operands {
			o[x.Name] = x.X
			size = max(size, math.Abs(x.X))
		}
		if got := f(o); !(math.Abs(got-s.Result.X) <= 1e-6*size) && !(math.IsInf(s.Result.X, 1)) {
			t.Fatalf("%s of %v: %v, the step says %v", s.Formula, o, got, s.Result.X)
		}
	}
}

// Each step of a hold follows from its own operands, straight or askew, on a
// slope, by grip or by the brake's strength.
func TestWhatAVehicleHoldsIsFollowedByHand(t *testing.T) {
	used := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.SampledFrom([]float64{0, 180, 20, -75, 130}).Draw(t, "deg")
		fall := rapid.SampledFrom([]float64{0, 4, -6, 25}).Draw(t, "fall")
		left := rapid.SampledFrom([]float64{0, 0, 5}).Draw(t, "left")
		h := rapid.SampledFrom([]float64{0.6, 0.85, 4}).Draw(t, "height")
		v := warden(func(v *plan.Vehicle) {
			v.Brake = rapid.SampledFrom([]string{plan.BrakeRear, plan.BrakeFront, plan.BrakeAll, plan.BrakeNone}).Draw(t, "brake")
			v.Chocks = rapid.SampledFrom([]string{plan.ChocksNone, plan.ChocksFront, plan.ChocksAll}).Draw(t, "chocks")
			v.Grip = rapid.SampledFrom([]string{"grip.gravel", "grip.concrete-dry", "grip.earth-firm"}).Draw(t, "grip")
			v.BrakeForce = rapid.SampledFrom([]quantity.Force{0, 4000}).Draw(t, "force")
		})
		ends := []effort.LineEnd{{PerTension: r3.Vector{X: math.Cos(rad(deg)), Y: math.Sin(rad(deg)), Z: rapid.SampledFrom([]float64{0, 0.2, -0.2}).Draw(t, "up")}, AheadM: 2.55, HeightM: h}}
		if rapid.Bool().Draw(t, "two") {
			ends = append(ends, effort.LineEnd{PerTension: r3.Vector{X: -0.3}, AheadM: -2, HeightM: 0.5})
		}
		var derivation part.Derivation
		effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: ends, FallAheadDeg: fall, FallLeftDeg: left}, &derivation, nil)
		if n := len(derivation.Steps); n > 0 && derivation.Steps[n-1].Formula == "puller-pressed" {
			derivation.Steps = derivation.Steps[:n-1]
		}
		follow(t, &derivation)
		for _, s := range derivation.Steps {
			used[s.Formula] = true
		}
	})
	if testing.Short() { // too few cases to meet each
		return
	}
	for _, f := range []string{"puller-straight", "puller-work", "puller-lifts", "puller-holds-nothing", "puller-brake-wheel"} {
		if !used[f] {
			t.Errorf("%s was not met", f)
		}
	}
}

// So does what slips aside, with lines that pull across and lift and without.
func TestWhatSlipsAsideIsFollowedByHand(t *testing.T) {
	for _, in := range []effort.SideSlipIn{{SideN: 500, UpN: 300}, {SideN: -500, UpN: -300}, {FallSideDeg: 8, FallLongDeg: 5}, {SideN: 2000, FallSideDeg: 8}} {
		in.Vehicle, in.Ground = casualty(func(v *plan.Vehicle) { v.Load = 200 }), &plan.Ground{Grip: "grip.grass-wet"}
		var derivation part.Derivation
		if !effort.SideSlip(in, &derivation, nil).Known || len(derivation.Steps) != 3 {
			t.Fatalf("%+v: %d steps", in, len(derivation.Steps))
		}
		follow(t, &derivation)
		if w := derivation.Steps[0].Operands[0].X; math.Abs(w-2650*quantity.Gravity) > 1e-6 { // 2 450 kg and what it carries
			t.Errorf("weighs %v", w)
		}
	}
}

// A line 4 m up that pulls backwards, up a slope of 25° ahead and 5° to the
// left, takes (4 + 0.2·3.7)/2.8 = 1.69 N of load a newton off the chocked front
// wheels, which carry 15,210 N at rest: they would lift at 8,990 N. A little
// before, with some 500 N left on them, the nose swings down to the left about
// the rear wheels: what turns it is W·sin 5°·1.5 m = 3,330 Nm, and the rear
// brake of 0.2·W, of which 2,100 N hold the vehicle back, resists with 2,400 Nm
// at most, the front grip with the rest. As it swings it goes a little ahead,
// against the pull, so that for each metre of line run back
//
//	slope = work + T, T = slope − work
//
// which is the virtual work of a rigid body (closed form).
func TestAPullMayLetAVehicleGoAgainstIt(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.Chocks, v.Grip = plan.ChocksFront, "grip.concrete-dry" })
	ends := []effort.LineEnd{{PerTension: r3.Vector{X: math.Cos(math.Pi), Y: math.Sin(math.Pi), Z: 0.2}, AheadM: 2.55, HeightM: 4}}
	var derivation part.Derivation
	hold := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: ends, FallAheadDeg: 25, FallLeftDeg: 5}, &derivation, nil).Hold.Low
	follow(t, &derivation)
	if !(hold > 8000 && hold < 8990) {
		t.Errorf("holds %v", hold)
	}
	if last := derivation.Steps[len(derivation.Steps)-1].Formula; last != "puller-against" {
		t.Errorf("ends with %s", last)
	}
}

func TestTippingIsFollowedByHand(t *testing.T) {
	used := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		pull := leftward(rapid.Float64Range(-9000, 9000).Draw(t, "side"), rapid.Float64Range(0.2, 1.2).Draw(t, "height"),
			rapid.SampledFrom([]float64{0, 900, -900, 20_000}).Draw(t, "up"), rapid.Float64Range(-1, 1).Draw(t, "left"))
		if rapid.Bool().Draw(t, "two") {
			pull = append(pull, leftward(700, 0.4, -100, 0.3)...)
		}
		var derivation part.Derivation
		effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: pull, FallLeftDeg: rapid.SampledFrom([]float64{0, 8, -5, 35}).Draw(t, "fall"),
			Sunk: rapid.Bool().Draw(t, "sunk")}, &derivation, nil)
		follow(t, &derivation)
		for _, s := range derivation.Steps {
			used[s.Formula] = true
		}
	})
	for _, f := range []string{"tip-limit", "tip-lifts"} {
		if !used[f] {
			t.Errorf("%s was not met", f)
		}
	}
}

func TestTheResistanceIsFollowedByHand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, g := anyStuck(t), anyGround(t)
		s.TrappedWater, s.WaterSpeed = 300, plan.Known(quantity.Speed(0))
		v := casualty(func(v *plan.Vehicle) {
			v.Stuck = &s
			v.Brake = rapid.SampledFrom([]string{"", plan.BrakeRear, plan.BrakeAll}).Draw(t, "brake")
		})
		var derivation part.Derivation
		effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &g, GradeDeg: rapid.Float64Range(0, 20).Draw(t, "grade"), LateralDeg: 4}, &derivation, nil)
		derivation.Steps = derivation.Steps[:len(derivation.Steps)-1] // the last one is a choice among them
		follow(t, &derivation)
	})
}
