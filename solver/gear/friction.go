package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// SheaveEfficiency is the tension behind a block over the tension before it at
// a half turn, 0 to 1: the user's own figure, or the handbook's by kind. A
// figure outside 0 to 1 counts as plain, the lower of the two. Not for what
// [CountsAsRing].
//
// Source: roller 0.962, plain 0.917 (Pipeline Rules of Thumb Handbook p. 6).
func SheaveEfficiency(b *plan.Block) float64 {
	switch {
	case b.Efficiency > 0 && b.Efficiency <= 1:
		return b.Efficiency
	case b.Kind == plan.BlockRoller:
		return facts.SheaveRoller.Conservative().X
	}
	return facts.SheavePlain.Conservative().X
}

// SheaveEfficiencyHigh is the other end of [SheaveEfficiency]: the least loss a
// block can have. What lies behind a sheave, and the part that takes both of its
// lines, is loaded most with it. The user's own figure is both ends.
//
// Source: a loss of 2 to 10 % a sheave (rigger's textbook p. 35).
func SheaveEfficiencyHigh(b *plan.Block) float64 {
	if b.Efficiency > 0 && b.Efficiency <= 1 {
		return b.Efficiency
	}
	return 1 - facts.SheaveLossTextbook.Low().X
}

// CountsAsRing reports whether the line is counted as sliding through a block, at the
// end that loses most: a ring, and a block of unknown kind, which may be one, unless
// an efficiency is typed, which no ring has.
func CountsAsRing(b *plan.Block) bool {
	switch b.Kind {
	case plan.BlockRing:
		return true
	case plan.BlockRoller, plan.BlockPlain:
		return false
	}
	return !(b.Efficiency > 0 && b.Efficiency <= 1)
}

// RingFriction is the friction μ of a line sliding through a ring, so that the
// tension behind it is e^(−μ·wrap) times the tension before it: the user's own
// figure, or the handbook's high end for the line's material. Wire and unknown
// materials count as the bare contact, the highest.
func RingFriction(b *plan.Block, l *plan.Line) float64 {
	if b.Friction > 0 && !math.IsInf(b.Friction, 1) {
		return b.Friction
	}
	switch l.Material {
	case plan.MaterialHMPE:
		return facts.RingFrictionHMPE.Conservative().X
	case plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialFibre, plan.MaterialKinetic:
		return facts.RingFrictionFibre.Conservative().X
	}
	return facts.ContactTrunkRock.Conservative().X
}

// RingFrictionLow is the other end of [RingFriction]: the low end for the line's
// material, and the lowest there is for wire and unknown materials.
func RingFrictionLow(b *plan.Block, l *plan.Line) float64 {
	if b.Friction > 0 && !math.IsInf(b.Friction, 1) {
		return b.Friction
	}
	switch l.Material {
	case plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialFibre, plan.MaterialKinetic:
		return facts.RingFrictionFibre.Low().X
	}
	return facts.RingFrictionHMPE.Low().X
}

// frictionOdd tells a loss that no block or ring has: less than the least of any
// sheave, or half the friction of the slipperiest rope. It counts as it is typed:
// tables without losses are computed so. [ours]
func frictionOdd(b *plan.Block) bool {
	if CountsAsRing(b) && b.Friction > 0 && b.Friction < facts.RingFrictionHMPE.Low().X/2 {
		return true
	}
	return b.Kind != plan.BlockRing && b.Efficiency > 1-facts.SheaveLossTextbook.Low().X
}

// BareFriction is the friction μ of a line over a trunk, rock, shackle or eye:
// the high end of the handbook's range.
func BareFriction() float64 { return facts.ContactTrunkRock.Conservative().X }

// BareFrictionLow is the other end of [BareFriction]: a shackle or eye can be as
// slippery as a ring.
func BareFrictionLow() float64 {
	return lower(facts.ContactTrunkRock.Low(), facts.RingFrictionHMPE.Low()).X
}

// Wrap is the tension behind a ring or contact over the tension before it:
//
//	e^(−μ·wrap)
//
// It is 0 for arguments that cannot be.
func Wrap(mu float64, wrap quantity.Degrees) float64 {
	if !sane(mu) || !sane(float64(wrap)) {
		return 0
	}
	return math.Exp(-mu * wrap.Radians())
}
