package effort

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Piece is a length of line or strap that stretches: its length and its A·E.
type Piece struct {
	LengthM    float64
	StiffnessN float64 // A·E, newtons; 0: not known
}

// LineStiffness is the stiffness of pieces pulled in a row, newtons a metre;
// ok is false if one of them is not known.
//
//	k = 1/Σ(L/EA)
func LineStiffness(pieces ...Piece) (nPerM float64, ok bool) {
	var c float64
	for _, p := range pieces {
		if !finite(p.LengthM, p.StiffnessN) || !(p.StiffnessN > 0) || !(p.LengthM >= 0) {
			return 0, false
		}
		c += p.LengthM / p.StiffnessN
	}
	if !(c > 0) {
		return 0, false
	}
	return 1 / c, true
}

// JumpIn is a casualty that lets go: the pull that breaks it loose, the running
// resistance behind it, and the stiffness of the line as the casualty feels it
// (behind a purchase of n parts n² times that of the line).
type JumpIn struct {
	Casualty   plan.ID
	BreakawayN float64
	RunN       float64
	MassKg     float64
	LineNPerM  float64
}

// JumpResult is how far and how fast it may jump. Known false: not computed.
type JumpResult struct {
	Known bool
	Jump  quantity.Length
	Speed quantity.Speed
}

// Jump computes the jump of the casualty on the stretch left in the line. It is
// a text, no load.
//
//	jump = 2·(R_b − R_r)/k,  speed = (R_b − R_r)/√(k·m)
func Jump(in JumpIn, derivation *part.Derivation, found *[]part.Finding) JumpResult {
	d := in.BreakawayN - in.RunN
	if !finite(in.BreakawayN, in.RunN, in.MassKg, in.LineNPerM) || !(in.MassKg > 0) || !(in.LineNPerM > 0) || !(d >= 0) {
		if found != nil {
			raise(found, "jump-not-computed", part.Notice, in.Casualty)
		}
		return JumpResult{}
	}
	res := JumpResult{true, quantity.Length(2 * d / in.LineNPerM), quantity.Speed(d / math.Sqrt(in.LineNPerM*in.MassKg))}
	if derivation.On() {
		derivation.Add("jump-speed", speed("speed", float64(res.Speed)), computed(part.Force("breakaway", in.BreakawayN)), computed(part.Force("running", in.RunN)),
			computed(number("stiffness", in.LineNPerM)), typed(mass("mass", in.MassKg)))
		derivation.Add("jump", part.Length("jump", res.Jump), computed(part.Force("breakaway", in.BreakawayN)), computed(part.Force("running", in.RunN)),
			computed(number("stiffness", in.LineNPerM)))
	}
	if found != nil && res.Jump >= leastJump {
		raise(found, "jump", part.Notice, in.Casualty, part.Force("breakaway", in.BreakawayN), part.Length("jump", res.Jump), speed("speed", float64(res.Speed)))
	}
	return res
}

// leastJump, metres: below a hand's breadth a jump is not worth a sentence. (ours)
const leastJump quantity.Length = 0.1
