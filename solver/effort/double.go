package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// SelfIn is a casualty that winches itself: its line runs to a block on an
// anchor and back to it. Dead is where the line ends; DeadKind the kind of that
// recovery point (plan.PointRated, …), not used for the winch. OpensDeg is the
// angle between the two parts at the block, 0 folded back. Ratio is the tension
// behind the block over that before it.
type SelfIn struct {
	Vehicle  *plan.Vehicle
	Dead     plan.Port
	DeadKind string
	TensionN float64
	Ratio    float64
	OpensDeg float64
}

// SelfResult is what such a rig asks of its anchor.
type SelfResult struct {
	Anchor   quantity.Force
	Straight quantity.Force // (1+ρ)·T, with the parts folded back
}

// SelfRecovery computes the anchor of a doubled self-recovery. That the
// casualty slides is its purpose and no finding. The dead end belongs on a
// rated point of the same vehicle, never on winch, fairlead or bar.
//
//	anchor = T·√(1 + ρ² + 2·ρ·cos opens),  (1+ρ)·T when folded back
func SelfRecovery(in SelfIn, derivation *part.Derivation, found *[]part.Finding) (res SelfResult) {
	v := in.Vehicle
	if v == nil {
		return res
	}
	if in.Dead.Thing == v.ID {
		switch {
		case in.Dead.Point == plan.PortWinch: // said already: a fairlead is no attachment point
		case neverPulled(in.DeadKind):
			if found != nil {
				raise(found, "dead-end-refused", part.Danger, v.ID, part.Word("kind", in.DeadKind))
			}
		case in.DeadKind == plan.PointUnknown && found != nil:
			raise(found, "dead-end-not-known", part.Caution, v.ID)
		case in.DeadKind != plan.PointRated && found != nil:
			raise(found, "dead-end-not-rated", part.Warning, v.ID, part.Word("kind", in.DeadKind))
		}
	}
	if !finite(in.TensionN, in.Ratio, in.OpensDeg) || !(in.TensionN >= 0) || !(in.Ratio > 0) {
		return res
	}
	res.Straight = quantity.Force((1 + in.Ratio) * in.TensionN)
	k := 1 + in.Ratio*in.Ratio + 2*in.Ratio*cosDeg(in.OpensDeg)
	res.Anchor = quantity.Force(in.TensionN * math.Sqrt(max(0, k)))
	if derivation.On() {
		derivation.Add("self-anchor", part.Force("anchor", res.Anchor), computed(part.Force("tension", in.TensionN)), computed(number("ratio", in.Ratio)), computed(angle("opens", in.OpensDeg)))
	}
	return res
}

// neverPulled lists the points that are no recovery points whatever is stamped
// on them.
func neverPulled(kind string) bool {
	switch kind {
	case plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering:
		return true
	}
	return false
}

// KineticIn is two vehicles joined by a kinetic rope.
type KineticIn struct {
	Line      plan.ID
	Stretches bool // as a kinetic rope does, by package gear
	HasWinch  bool // a winch hauls on it: package gear speaks of that
}

// Kinetic refuses to compute a snatch: Kedge does not compute kinetic pulls.
func Kinetic(in KineticIn, found *[]part.Finding) (refused bool) {
	if in.HasWinch || !in.Stretches {
		return false
	}
	if found != nil {
		raise(found, "kinetic-not-computed", part.Danger, in.Line)
	}
	return true
}

// TieBackIn is the strap or line that holds a vehicle back. OffDeg is the
// angle between it and the pull's continuation; LimitN what it and its anchor
// may be asked for, 0: not known.
type TieBackIn struct {
	Vehicle  plan.ID
	TieBack  plan.ID
	TensionN float64 // of the winch line, all of it
	PullN    float64 // of all line ends on the vehicle; less than TensionN counts as TensionN
	OffDeg   float64
	LimitN   float64
}

// TieBackResult is what the tie-back must be good for. Counts false: it lies
// so far off the pull that it holds nothing back.
type TieBackResult struct {
	Known  bool
	Counts bool
	Load   quantity.Force
}

// TieBackMost is the angle off the pull, in degrees, beyond which a tie-back
// counts for nothing; HoldBackMost that of a hold-back off what it must hold.
// Both in space. (ours)
const (
	TieBackMost  = 30
	HoldBackMost = 30
)

// TieBack computes a tie-back for the whole line pull: grip counts nothing,
// strap and grip do not add.
//
//	load = pull/cos(off)
func TieBack(in TieBackIn, derivation *part.Derivation, found *[]part.Finding) (res TieBackResult) {
	if !finite(in.TensionN, in.PullN, in.OffDeg, in.LimitN) || !(in.TensionN >= 0) {
		return res
	}
	pull := facts.TiebackFactor.Value() * max(in.TensionN, in.PullN)
	off := abs(in.OffDeg)
	res.Known = true
	res.Counts = off <= TieBackMost
	if !res.Counts {
		if found != nil {
			f := raise(found, "tie-back-askew", part.Danger, in.Vehicle, angle("off", off), angle("limit", TieBackMost), part.Force("good", pull))
			f.Things = append(f.Things, in.TieBack)
		}
		return res
	}
	load := pull / cosDeg(off)
	res.Load = quantity.Force(load)
	if derivation.On() {
		derivation.Add("tie-back", part.Force("tie", load), computed(part.Force("pull", pull)), computed(angle("off", off)))
	}
	if found == nil {
		return res
	}
	switch {
	case !(in.LimitN > 0):
		f := raise(found, "tie-back-no-limit", part.Warning, in.Vehicle, part.Force("good", load))
		f.Things = append(f.Things, in.TieBack)
	case load > in.LimitN:
		f := raise(found, "tie-back-weak", part.Danger, in.Vehicle, part.Force("good", load), holds("limit", in.LimitN))
		f.Things = append(f.Things, in.TieBack)
	}
	return res
}
