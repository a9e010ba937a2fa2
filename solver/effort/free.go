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
	HoldBackN    float64 // limit of the hold-back line in the plan; 0: there is none, or its limit is not known
	HoldBack     bool    // there is one that counts
	Holds        bool    // and every part of it is within its limit
	Driver       bool    // a driver who brakes sits in it
	Chocked      bool    // chocks follow the wheels
	TravelM      float64
}

// FreeResult is what the ground does with it. Known false: not computed.
type FreeResult struct {
	Known    bool
	Roll     quantity.Force // it rolls by itself with this; 0 or less: it stands
	HoldBack quantity.Force // a hold-back line must be good for this; 0: none asked for
	Forward  bool           // it rolls the way it is going: the pulling line goes slack
}

// Free reckons whether a casualty that has come free rolls away, either way.
//
//	F_roll = W·(|sin a| − c_free·cos β),  hold-back good for 1.5·F_roll (ours)
//
// c_free is the low end of its surface: what rolls best.
func Free(in FreeIn, sum *part.Sum, found *[]part.Finding) (res FreeResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallAlongDeg, in.FallSideDeg, in.HoldBackN) {
		return res
	}
	if !(v.Mass > 0) || !(v.Load >= 0) || !finite(float64(v.Mass+v.Load)) {
		if found != nil {
			raise(found, "mass-not-known", part.Warning, v.ID)
		}
		return res
	}
	n := book()
	kg := float64(v.Mass + v.Load)
	id := ""
	if v.Stuck != nil {
		id = v.Stuck.Surface
		switch {
		case v.Stuck.TrappedWater > 0:
			kg += float64(v.Stuck.TrappedWater)
		case v.Stuck.InWater:
			kg += n.trapped[high]
		}
	}
	if id == "" && in.Ground != nil {
		id = in.Ground.Surface
	}
	c := n.widestRoll
	s, ok := find(n.rolling, id)
	if ok {
		c = s.v
	}
	w := kg * quantity.Gravity
	sinA, sinS := sinDeg(in.FallAlongDeg), sinDeg(in.FallSideDeg)
	f := w * (abs(sinA) - c[low]*flatness(sinA, sinS))
	res = FreeResult{Known: true, Roll: quantity.Force(f), Forward: in.FallAlongDeg > 0}
	if sum.On() {
		op := fromFact(factor("rolling", c[low]), facts.ID(id))
		sum.Add("roll-away", force("roll", f), computed(force("weight", w)), computed(angle("fall", in.FallAlongDeg)), op)
	}
	if f <= 0 {
		return res
	}
	need := n.holdBack * f
	res.HoldBack = quantity.Force(need)
	if sum.On() {
		sum.Add("hold-back", force("back", need), computed(force("roll", f)), fromFact(factor("times", n.holdBack), facts.RollAwayHoldback))
	}
	if found == nil {
		return res
	}
	travel := in.TravelM
	switch {
	case in.HoldBack && (in.HoldBackN < need || !in.Holds):
		r := raise(found, "hold-back-weak", part.Danger, v.ID, force("needs", need), holds("limit", max(0, in.HoldBackN)))
		r.Travel = travel
		if !(in.HoldBackN > 0) {
			r.ID = "hold-back-no-limit"
		}
	case in.HoldBack:
	case res.Forward:
		// The line goes slack as soon as it rolls: a driver or chocks alone do
		// not steer it, a hold-back is required.
		raise(found, "downhill-pull", part.Danger, v.ID, force("roll", f), force("back", need)).Travel = travel
	case in.Driver || in.Chocked:
	default:
		raise(found, "rolls-by-itself", part.Danger, v.ID, force("roll", f), force("back", need)).Travel = travel
	}
	return res
}

// SideSlipIn is a casualty pulled across a slope. SideN is positive downhill;
// a force uphill takes nothing off.
type SideSlipIn struct {
	Vehicle     *plan.Vehicle
	Ground      *plan.Ground
	FallSideDeg float64 // size of the fall across the way out
	FallLongDeg float64
	SideN       float64
	UpN         float64 // what lines lift
	TravelM     float64
}

// SideSlipResult is the force across against the grip across.
type SideSlipResult struct {
	Known bool
	Slips bool
	Force quantity.Force // W·sin β_lat + F_y
	Grip  quantity.Force // μ·(W·cos β − V), low end
}

// SideSlip tells whether the casualty leaves its way out downhill.
//
//	W·sin β_lat + F_y > μ·(W·cos β − V)
func SideSlip(in SideSlipIn, sum *part.Sum, found *[]part.Finding) (res SideSlipResult) {
	v := in.Vehicle
	if v == nil || !finite(in.FallSideDeg, in.FallLongDeg, in.SideN, in.UpN, float64(v.Mass+v.Load)) || !(v.Mass > 0) {
		return res
	}
	mu := gripOf(v, in.Ground, book(), nil)
	w := float64((v.Mass + v.Load).Weight())
	sinS := abs(sinDeg(in.FallSideDeg))
	f := w*sinS + max(0, in.SideN)
	g := max(0, mu[low]*(w*flatness(sinS, sinDeg(in.FallLongDeg))-max(0, in.UpN)))
	res = SideSlipResult{true, f > g, quantity.Force(f), quantity.Force(g)}
	if sum.On() {
		sum.Add("side-slip", force("across", f), computed(force("weight", w)), computed(angle("fall", in.FallSideDeg)), computed(force("side", in.SideN)))
		sum.Add("side-grip", holds("grip", g), computed(force("weight", w)), computed(factor("mu", mu[low])))
	}
	if found != nil && res.Slips {
		raise(found, "side-slip", part.Warning, v.ID, force("across", f), holds("grip", g)).Travel = in.TravelM
	}
	return res
}

// UprightingIn is an overturned casualty. SlowLine: a second line that slows
// it past its balance is in the plan.
type UprightingIn struct {
	Vehicle  *plan.Vehicle
	SlowLine bool
}

// UprightingResult says that the basis is lifting, as the load reverses past
// balance, and how far the ground on both sides belongs to its fall.
type UprightingResult struct {
	Lifting bool
}

// Uprighting asks for a second, slowing line: past balance the pull reverses.
func Uprighting(in UprightingIn, found *[]part.Finding) UprightingResult {
	v := in.Vehicle
	if v == nil || v.Stuck == nil || !v.Stuck.Overturned {
		return UprightingResult{}
	}
	if found != nil {
		if !in.SlowLine {
			raise(found, "uprighting-needs-slow-line", part.Danger, v.ID)
		}
		if !(v.Height > 0) {
			raise(found, "height-not-known", part.Caution, v.ID)
		}
	}
	return UprightingResult{Lifting: true}
}
