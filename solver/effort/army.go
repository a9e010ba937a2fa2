package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// ArmyIn is the paper exercise of the army's recovery method: a cross-check
// beside the exact statics, never a substitute.
type ArmyIn struct {
	WeightN       float64 // vehicle and cargo
	MireFactor    float64 // 1, 2, 3 by depth
	Reduction     float64 // 0 to 0.5, taken off after the mire factor
	WinchN        float64 // what the winch gives
	DeadLineParts int     // most parts of the winch line carried by one dead line; 0: as many as the advantage
	LeadBlocks    int     // blocks that only change the direction, a sheave each
}

// ArmyResult is the chain of the method. Known false: it ends nowhere.
type ArmyResult struct {
	Known     bool
	Load      quantity.Force // load resistance
	Advantage int            // parts of line
	Sheaves   int
	Tackle    quantity.Force // resistance of the sheaves
	Total     quantity.Force
	FallLine  quantity.Force // at the winch
	DeadLine  quantity.Force
	Added     int // parts added because the verify step failed
}

// mostParts of line the chain is followed to: more than any field rig has.
const mostParts = 40

// ArmyChain is the army's chain: load resistance, advantage rounded up, ten
// per cent of the load for each sheave, fall line, verify and add, dead line.
//
//	LR = W·MF·(1−RF), MA = ⌈LR/WC⌉, TR = 0.1·LR·sheaves, FLF = (LR+TR)/MA ≤ WC
//
// (US Army 63H34F01 Suppl 1b and TB 9-2350-292-10, steps 4 and 5.)
func ArmyChain(in ArmyIn, derivation *part.Derivation) (res ArmyResult) {
	if !finite(in.WeightN, in.MireFactor, in.Reduction, in.WinchN) ||
		!(in.WeightN > 0 && in.MireFactor > 0 && in.WinchN > 0) || in.Reduction < 0 || in.Reduction >= 1 || in.LeadBlocks < 0 {
		return ArmyResult{}
	}
	lr := in.WeightN * in.MireFactor * (1 - in.Reduction)
	first := math.Ceil(lr/in.WinchN - roundingSlack)
	if !(first <= mostParts) {
		return ArmyResult{}
	}
	n := max(1, int(first))
	for ma := n; ma <= mostParts; ma++ {
		sheaves := ma - 1 + in.LeadBlocks
		fall := TacklePull(lr, sheaves, ma)
		if fall > in.WinchN*(1+roundingSlack) {
			continue
		}
		parts := in.DeadLineParts
		if parts <= 0 {
			parts = ma
		}
		tackle := facts.ArmyTacklePerSheave.Value() * lr * float64(sheaves)
		res = ArmyResult{
			Known: true, Load: quantity.Force(lr), Advantage: ma, Sheaves: sheaves,
			Tackle: quantity.Force(tackle), Total: quantity.Force(lr + tackle),
			FallLine: quantity.Force(fall), DeadLine: quantity.Force(fall * float64(parts)), Added: ma - n,
		}
		break
	}
	if res.Known && derivation.On() {
		derivation.Add("army-load", part.Force("load", lr), computed(part.Force("weight", in.WeightN)), computed(factor("times", in.MireFactor)), computed(number("less", in.Reduction)))
		derivation.Add("army-tackle", part.Force("tackle", res.Tackle), fromFact(number("sheave", facts.ArmyTacklePerSheave.Value()), facts.ArmyTacklePerSheave),
			computed(part.Count("sheaves", res.Sheaves)), computed(part.Force("load", lr)))
		derivation.Add("army-fall-line", part.Force("fall", res.FallLine), computed(part.Force("total", res.Total)),
			computed(part.Count("parts", res.Advantage)))
	}
	return res
}

// roundingSlack keeps a load that is a whole multiple of the winch's pull from
// being rounded up a part by the last bit of a division. No unit.
const roundingSlack = 1e-12

// TacklePull is the pull on a tackle by the ten-per-cent rule, newtons: NaN
// for fewer than one part.
//
//	pull = (load + 0.1·load·sheaves)/parts
func TacklePull(loadN float64, sheaves, parts int) float64 {
	if parts < 1 || sheaves < 0 {
		return math.NaN()
	}
	return loadN * (1 + facts.ArmyTacklePerSheave.Value()*float64(sheaves)) / float64(parts)
}
