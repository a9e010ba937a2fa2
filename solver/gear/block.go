package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// BlockIn is a block or ring as rigged.
type BlockIn struct {
	Block   *plan.Block
	Line    *plan.Line       // the line that runs through it; nil: none yet
	Load    quantity.Force   // the vector sum of its lines
	Tension quantity.Force   // the higher of its two line tensions
	Between quantity.Degrees // between the two lines: 0 is a half turn
	Lifting bool
}

// Block is what a block may be asked for, as the load on its hanger: its
// working tag, or breaking ÷ 3 (lifting ÷ 5; Alberta OHS Code s.292). A rating
// on each line is worth twice on the hanger, and the line itself must keep to
// it; of one whose place is not known the lower of both readings counts.
// Ultimate: breaking, or the tag times 4 (ASME B30.26, from memory).
func Block(in BlockIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	k := in.Block
	where := at{thing: k.ID}
	r := readRating(k.Rating, k.Presets, where, found)
	beyondSize(ofBlock(k), &r, where, found)
	onHanger, onLine := k.RatingOn == plan.RatedHanger, k.RatingOn == plan.RatedLine
	blockUnclear(k, r, where, found)
	if !blockTakes(in, where, found) || !r.known {
		return part.Capacity{}
	}
	factor, basis := facts.Figure{X: 1}, "tag"
	if !r.working {
		factor, basis = facts.FactorPullingBlock.Conservative(), "block 3:1"
		if in.Lifting {
			factor, basis = facts.FactorLiftingBlock.Conservative(), "block 5:1"
		}
	}
	allowed, hanger := r.forceN/factor.X, facts.Figure{X: 1}
	if onLine {
		hanger = facts.BlockHangerOfLine.Conservative()
	}
	limit := allowed * hanger.X
	lineGoverns := false
	if load, t := float64(in.Load), float64(in.Tension); !onHanger && load > 0 && t > 0 && load*allowed/t < limit {
		limit, lineGoverns = load*allowed/t, true // the line reaches its rating before the hanger does
	}
	confidence := factor.Confidence.Weaker(hanger.Confidence)
	var c part.Capacity
	c.Limit = limited(limit, basis, r, confidence)
	strength := r.forceN * hanger.X
	if r.working {
		c.Ultimate, c.Note = tagUltimate(strength, facts.FactorUltimateBlock.Conservative()), "from the standard's factor, not tested"
	} else {
		u := quantity.Force(strength)
		c.Ultimate, c.Note = part.Range{Known: true, Low: u, Likely: u, High: u}, "breaking strength as rigged"
	}
	if derivation.On() {
		formula := "block-limit"
		if lineGoverns {
			formula = "block-limit-line"
		}
		derivation.Add(formula, part.Number("limit", part.UnitLimit, c.Limit.Force),
			typed("rating", part.UnitLimit, r.forceN, r.preset), cited("factor", part.UnitNone, factor),
			cited("hanger", part.UnitFactor, hanger), computed("load", part.UnitForce, float64(in.Load)),
			computed("tension", part.UnitForce, float64(in.Tension)),
			computed("between", part.UnitAngle, float64(in.Between)))
	}
	return c
}

// blockUnclear tells what the block itself leaves open.
func blockUnclear(k *plan.Block, r rated, where at, found *[]part.Finding) {
	if k.HeadLength > 0 && k.Sheave > 2*k.HeadLength {
		raise(found, "sheave-beyond-head", part.Warning, where, nil,
			part.Length("sheave", k.Sheave), part.Length("head", k.HeadLength))
	}
	if frictionOdd(k) {
		raise(found, "friction-odd", part.Caution, where, nil)
	}
	if r.known && k.RatingOn != plan.RatedHanger && k.RatingOn != plan.RatedLine {
		raise(found, "block-rating-place", part.Notice, where, &part.Remedy{Do: "say-rating-place", Thing: k.ID},
			part.Number("rating", part.UnitLimit, r.forceN))
	}
	switch k.Kind {
	case plan.BlockRoller, plan.BlockPlain, plan.BlockRing:
	default:
		raise(found, "block-kind-unknown", part.Notice, where, &part.Remedy{Do: "type-kind", Thing: k.ID})
		part.NotDecided(found, "ring-rubs", k.ID, where.lack("kind"))
	}
}

// blockTakes checks the line against the sheave; false where it cannot run.
func blockTakes(in BlockIn, where at, found *[]part.Finding) bool {
	k, l := in.Block, in.Line
	if k.Kind == plan.BlockRing {
		raise(found, "ring-rubs", part.Caution, where, &part.Remedy{Do: "block-for-ring", Thing: k.ID})
	}
	if l == nil {
		return true
	}
	blockLacks(k, l, found)
	if !positive(float64(l.Diameter)) {
		return true
	}
	d, ok := float64(l.Diameter), true
	if positive(float64(k.Sheave)) && float64(k.Sheave) < d {
		raise(found, "sheave-smaller-than-line", part.Danger, where, nil,
			part.Length("sheave", k.Sheave), part.Length("line", d))
		with(found, l.ID)
		ok = false
	} else if least, synthetic := leastSheave(l, d); synthetic && positive(float64(k.Sheave)) && float64(k.Sheave) < least {
		raise(found, "sheave-small", part.Caution, where, nil, part.Length("sheave", k.Sheave),
			part.Length("least", least))
		with(found, l.ID)
	}
	if k.Kind != plan.BlockRing && positive(float64(k.LineMax)) && d > float64(k.LineMax) {
		raise(found, "line-too-thick", part.Danger, where, nil, part.Length("line", d),
			part.Length("most", k.LineMax))
		with(found, l.ID)
		ok = false
	}
	if k.Kind != plan.BlockRing && positive(float64(k.LineMin)) && d < float64(k.LineMin) {
		raise(found, "line-too-thin", part.Warning, where, nil, part.Length("line", d),
			part.Length("least", k.LineMin))
		with(found, l.ID)
	}
	return ok
}

// blockLacks says what nobody can tell of a line in a block without the measures
// of both.
func blockLacks(k *plan.Block, l *plan.Line, found *[]part.Finding) {
	if found == nil {
		return
	}
	sheave, line := positive(float64(k.Sheave)), positive(float64(l.Diameter))
	open := func(rule string, known bool, name string) {
		if !known {
			part.NotDecided(found, rule, k.ID, member(k.ID, name))
		}
		if !line {
			part.NotDecided(found, rule, k.ID, member(l.ID, "diameter_m"))
		}
	}
	open("sheave-smaller-than-line", sheave, "sheave_diameter_m")
	if _, fibre := leastSheave(l, 1); fibre {
		open("sheave-small", sheave, "sheave_diameter_m")
	}
	if k.Kind != plan.BlockRing {
		open("line-too-thick", positive(float64(k.LineMax)), "line_max_m")
		open("line-too-thin", positive(float64(k.LineMin)), "line_min_m")
	}
}

// leastSheave is the least sheave for a running rope of fibres. (A wire wears
// on any field block; that is fatigue, not strength, and is not said.)
func leastSheave(l *plan.Line, d float64) (leastM float64, ok bool) {
	switch {
	case l.Material == plan.MaterialHMPE:
		return d * facts.SheaveHMPE8d.Conservative().X, true
	case synthetic(l.Material):
		return d * facts.SheaveFibreD.Likely().X, true
	}
	return 0, false
}
