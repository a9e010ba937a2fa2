package hold

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// girthSlack is what a girth read to the centimetre may make a stem too thick.
const girthSlack = 1.02

// breast is the diameter that the hold is computed by, with the steps to it. A
// girth and a diameter at a strap below it that cannot be those of one stem are
// told; the thinner counts.
func (in TreeIn) breast(derivation *part.Derivation, found *[]part.Finding) float64 {
	a := in.Tree
	d := float64(terrain.AtBreast(a))
	if !positive(d) {
		return d
	}
	diameter := part.Length("diameter", d)
	switch trunk := float64(a.Trunk); {
	case a.Girth == 0:
		raise(found, "tree-girth-assumed", part.Notice, a.ID, "type-girth", diameter,
			part.Length("trunk", trunk), part.Number("taper", part.UnitNone, facts.TreeTaper.Low().X))
		if derivation.On() {
			derivation.Add("tree-taper", diameter, cited("taper", part.UnitNone, facts.TreeTaper.Low()), typed("trunk", part.UnitLength, trunk))
		}
		return d
	case derivation.On():
		derivation.Add("tree-breast", diameter, typed("girth", part.UnitLength, float64(a.Girth)))
	}
	trunk, below := float64(a.Trunk), float64(in.Height) <= facts.TreeBreastHeight.Likely().X
	if a.Trunk == 0 {
		return d
	}
	if below && d > trunk*girthSlack || d < trunk*facts.TreeTaperLeast.Likely().X {
		raise(found, "tree-girth-doubtful", part.Caution, a.ID, "type-girth", diameter, part.Length("trunk", trunk))
	}
	if !(trunk < d) {
		return d
	}
	if derivation.On() {
		derivation.Add("tree-thinner", part.Length("thinner", trunk), part.Operand{Value: diameter}, typed("trunk", part.UnitLength, trunk))
	}
	return trunk
}

// strapAssumed tells that slings round a tree are computed by its girth.
func strapAssumed(a *plan.Anchor, found *[]part.Finding) {
	if d := float64(terrain.AtStrap(a)); a.Trunk == 0 && positive(d) {
		raise(found, "tree-trunk-assumed", part.Notice, a.ID, "type-trunk", part.Length("trunk", d),
			part.Length("diameter", terrain.AtBreast(a)), part.Number("taper", part.UnitNone, facts.TreeTaper.Low().X))
	}
}
