package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// StretchIn is one straight part of a line.
type StretchIn struct {
	Line    *plan.Line
	Part    string  // id of the part
	Bends   [2]Bend // what it turns round at its hauling end and at its far end
	End     bool    // it has the line's end fitting
	OnWinch bool    // its line runs to a winch
	Pulled  bool    // a winch pulls on it, if only through other pieces
	Lifting bool    // the lifting basis
}

// Stretch is what a stretch may be asked for:
//
//	limit    = breaking · keeps ÷ 2, or the working tag · keeps
//	ultimate = breaking · keeps
//	keeps    = condition · wet · knot · the lower of bend and end fitting
//
// A line that runs to no winch counts as anchor gear, ÷ 3; lifting, ÷ 5
// (Alberta OHS Code s.292). Bend and end fitting are not multiplied: the worse
// governs (0027/ND 7.7.2). No limit without a rating, a material or a
// known state of the line.
func Stretch(in StretchIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	l := in.Line
	where := at{thing: l.ID}
	r := readRating(l.Rating, l.Presets, where, found)
	winched := facts.FactorPullingWinchLine.Conservative()
	beyondSize(ofMaterial(l.Material, float64(l.Diameter), "diameter_m", winched.X), &r, where, found)
	k, ok := lineKeeps(in, found)
	if found != nil && (in.OnWinch || in.Pulled) {
		if strain, level, is := stretchLine(l); is {
			onWinch(strain, level, "static-line", where, found)
		}
	}
	if !r.known || !ok {
		return part.Capacity{}
	}
	factor, basis := winched, "line 2:1"
	switch {
	case in.Lifting:
		factor, basis = facts.FactorLiftingLine.Conservative(), "line 5:1"
	case !in.OnWinch:
		factor, basis = facts.FactorPullingAnchorGear.Conservative(), "gear 3:1"
	}
	confidence := k.confidence.Weaker(factor.Confidence)
	var c part.Capacity
	switch {
	case r.working:
		c.Limit = limited(r.forceN*k.x, "line tag", r, k.confidence)
		c.Ultimate = tagUltimate(r.forceN*k.x, winched)
		c.Note = "from the line basis, not tested"
	default:
		c.Limit = limited(r.forceN*k.x/factor.X, basis, r, confidence)
		c.Ultimate = newRope(r.forceN * k.x)
		c.Note = "breaking strength as rigged"
	}
	if derivation.On() {
		k.record(derivation)
		if r.working {
			derivation.Add("line-limit-tag", part.Number("limit", part.UnitLimit, c.Limit.Force),
				typed("tag", part.UnitLimit, r.forceN, r.preset), computed("keeps", part.UnitFactor, k.x))
		} else {
			derivation.Add("line-limit", part.Number("limit", part.UnitLimit, c.Limit.Force),
				typed("breaking", part.UnitLimit, r.forceN, r.preset), computed("keeps", part.UnitFactor, k.x),
				cited("factor", part.UnitNone, factor))
		}
	}
	return c
}

// newRope is the range of real strength over the minimum: 1.05 to 1.15 of it
// is usual, none of it is vouched for, so the low end is the minimum.
func newRope(lowN float64) part.Range {
	_, likely, high := facts.StrengthMeanNewRope.Ends()
	return part.Range{Known: true, Low: quantity.Force(lowN), Likely: quantity.Force(lowN * likely.X), High: quantity.Force(lowN * high.X)}
}

// tagUltimate is what a tag says of the breaking strength: the tag times the
// factor of its standard.
func tagUltimate(tagN float64, factor facts.Figure) part.Range {
	u := quantity.Force(tagN * factor.X)
	return part.Range{Known: positive(float64(u)), Low: u, Likely: u, High: u}
}
