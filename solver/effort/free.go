package effort

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// FreeIn is the casualty at one step of its travel, come free: it rolls on
// wheels that turn. FallAlongDeg is how the ground falls along its wheels,
// positive the way it is going; FallSideDeg across.
type FreeIn struct {
	Vehicle      *plan.Vehicle
	Ground       *plan.Ground
	FallAlongDeg float64
	FallSideDeg  float64
	Lacks        []part.Lack // what the plan lacks to tell the slope; the falls then mean nothing
	HoldBackN    float64     // limit of the hold-back line in the plan; 0: there is none, or its limit is not known
	HoldBack     bool        // there is one that counts
	Holds        bool        // and every part of it is within its limit
	Driver       bool        // a driver who brakes sits in it
	Chocked      bool        // chocks follow the wheels
	TravelM      float64
}

// FreeResult is what the ground does with it. Known false: not computed.
type FreeResult struct {
	Known    bool           // Roll and HoldBack are known
	Rolls    bool           // it rolls by itself, whatever it weighs
	Roll     quantity.Force // it rolls by itself with this; 0 or less: it stands
	HoldBack quantity.Force // a hold-back line must be good for this; 0: none asked for
	Forward  bool           // it rolls the way it is going: the pulling line goes slack
}

// Free computes whether a casualty that has come free rolls away, either way.
//
//	F_roll = W·(|sin a| − c_free·cos β),  hold-back good for 1.5·F_roll (ours)
//
// c_free is the low end of its surface: what rolls best. The weight cancels in
// whether it rolls; only how hard needs it.
func Free(in FreeIn, derivation *part.Derivation, found *[]part.Finding) (res FreeResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallAlongDeg, in.FallSideDeg, in.HoldBackN) {
		return res
	}
	if len(in.Lacks) > 0 {
		part.NotDecided(found, "rolls-by-itself", "", in.Lacks...)
		return res
	}
	n := book()
	c, id := rollingOf(v, in.Ground, n)
	sinA, sinS := sinDeg(in.FallAlongDeg), sinDeg(in.FallSideDeg)
	flat := flatness(sinA, sinS)
	share := abs(sinA) - c[low]*flat
	res.Rolls, res.Forward = share > 0, in.FallAlongDeg > 0
	if weighed(v) {
		kg := float64(v.Mass + v.Load)
		switch s := v.Stuck; {
		case s == nil:
		case s.TrappedWater > 0:
			kg += float64(s.TrappedWater)
		case s.InWater:
			kg += facts.WaterTrapped.High().X
		}
		w := kg * quantity.Gravity
		res.Known, res.Roll = true, quantity.Force(w*share)
		if res.Rolls {
			res.HoldBack = quantity.Force(facts.RollAwayHoldback.Value() * w * share)
		}
		if derivation.On() {
			derivation.Add("slope-flat", number("flat", flat), computed(angle("ahead", in.FallAlongDeg)), computed(angle("left", in.FallSideDeg)))
			derivation.Add("roll-away", part.Force("roll", res.Roll), computed(part.Force("weight", w)), computed(angle("fall", abs(in.FallAlongDeg))),
				fromFact(number("rolling", c[low]), facts.ID(id)), computed(number("flat", flat)))
			if res.Rolls {
				derivation.Add("hold-back", part.Force("back", res.HoldBack), computed(part.Force("roll", res.Roll)), fromFact(factor("times", facts.RollAwayHoldback.Value()), facts.RollAwayHoldback))
			}
		}
	}
	if found != nil && res.Rolls {
		in.advise(&res, found)
	}
	return res
}

// rollingOf is what the surface under a vehicle takes of its weight, with the row
// it comes from; the widest of all, and no row, where nobody said which it is.
func rollingOf(v *plan.Vehicle, ground *plan.Ground, n *numbers) (c triple, id string) {
	if v.Stuck != nil {
		id = v.Stuck.Surface
	}
	if id == "" && ground != nil {
		id = ground.Surface
	}
	if s, ok := find(n.rolling, id); ok {
		return s.v, id
	}
	return n.widestRoll, ""
}

// advise raises what a casualty that rolls asks for.
func (in *FreeIn) advise(res *FreeResult, found *[]part.Finding) {
	id := in.Vehicle.ID
	need := float64(res.HoldBack)
	if in.HoldBack && res.Known {
		if in.HoldBackN < need || !in.Holds {
			r := raise(found, "hold-back-weak", part.Danger, id, part.Force("needs", need), holds("limit", max(0, in.HoldBackN)))
			r.Travel = in.TravelM
			if !(in.HoldBackN > 0) {
				r.ID = "hold-back-no-limit"
			}
		}
		return
	}
	// A hold-back of which nobody knows whether it suffices silences nothing.
	rule, unknown := "rolls-by-itself", "rolls-by-itself-unknown"
	switch {
	case res.Forward:
		// The line goes slack as soon as it rolls: a driver or chocks alone do
		// not steer it, a hold-back is required.
		rule, unknown = "downhill-pull", "downhill-pull-unknown"
	case in.Driver || in.Chocked:
		return
	}
	r := raise(found, rule, part.Danger, id)
	r.Travel = in.TravelM
	if res.Known {
		r.Values = []part.Value{part.Force("roll", res.Roll), part.Force("back", need)}
		return
	}
	r.ID = unknown
	r.Lacks = []part.Lack{{Thing: id, Member: "mass_kg", Rule: r.ID}}
}

// SideSlipIn is a casualty pulled across a slope. SideN is positive downhill;
// a force uphill takes nothing off.
type SideSlipIn struct {
	Vehicle     *plan.Vehicle
	Ground      *plan.Ground
	FallSideDeg float64 // size of the fall across the way out
	FallLongDeg float64
	Lacks       []part.Lack // what the plan lacks to tell the slope; the falls then count as given
	SideN       float64
	UpN         float64 // what lines lift
	TravelM     float64
}

// SideSlipResult says whether the force across passes the grip across.
type SideSlipResult struct {
	Known bool
	Slips bool
}

// SideSlip tells whether the casualty leaves its way out downhill.
//
//	W·sin β_lat + F_y > μ·(W·cos β − V)
//
// Without its weight that can be told where the slope alone is enough, or where
// there is neither slope nor line across it.
func SideSlip(in SideSlipIn, derivation *part.Derivation, found *[]part.Finding) (res SideSlipResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallSideDeg, in.FallLongDeg, in.SideN, in.UpN) {
		return res
	}
	const rule = "side-slip"
	part.NotDecided(found, rule, "", in.Lacks...)
	mu := gripOf(v, in.Ground, book(), nil)
	sinS := abs(sinDeg(in.FallSideDeg))
	flat := flatness(sinS, sinDeg(in.FallLongDeg))
	if !weighed(v) {
		mass := part.Lack{Thing: v.ID, Member: "mass_kg"}
		switch {
		case sinS > mu[low]*flat:
			if found != nil {
				raise(found, "side-slip-unknown", part.Warning, v.ID).Travel = in.TravelM
			}
		case in.SideN > 0 || in.UpN > 0:
			part.NotDecided(found, rule, v.ID, mass)
		}
		return res
	}
	w := float64((v.Mass + v.Load).Weight())
	f := w*sinS + max(0, in.SideN)
	g := max(0, mu[low]*(w*flat-max(0, in.UpN)))
	res = SideSlipResult{true, f > g}
	if derivation.On() {
		derivation.Add("side-slip", part.Force("across", f), computed(part.Force("weight", w)), computed(angle("fall", abs(in.FallSideDeg))), computed(part.Force("side", max(0, in.SideN))))
		derivation.Add("slope-flat", number("flat", flat), computed(angle("ahead", in.FallLongDeg)), computed(angle("left", in.FallSideDeg)))
		derivation.Add("side-grip", holds("grip", g), computed(part.Force("weight", w)), computed(number("mu", mu[low])), computed(number("flat", flat)), computed(part.Force("up", max(0, in.UpN))))
	}
	if found != nil && res.Slips {
		raise(found, rule, part.Warning, v.ID, part.Force("across", f), holds("grip", g)).Travel = in.TravelM
	}
	return res
}

// UprightingIn is an overturned casualty. SlowLine: a second line that slows
// it past its balance is in the plan.
type UprightingIn struct {
	Vehicle  *plan.Vehicle
	SlowLine bool
}

// Uprighting asks for a second, slowing line: past balance the pull reverses.
func Uprighting(in UprightingIn, found *[]part.Finding) {
	v := in.Vehicle
	if v == nil || v.Stuck == nil || !v.Stuck.Overturned || found == nil {
		return
	}
	if !in.SlowLine {
		raise(found, "uprighting-needs-slow-line", part.Danger, v.ID)
	}
	if !(v.Height > 0) {
		lacking(found, "height-not-known", part.Caution, v.ID, "height_m")
	}
}
