package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sized is what a rating is compared with.
type sized struct {
	row    ends    // strength by size: newtons over a width, or over the square of a diameter
	power  int     // 1 of a width, 2 of a diameter
	sizeM  float64 // 0: not known
	member string  // the size's name in the file
	tag    float64 // breaking strength over a working tag
	rule   string  // id of the finding; empty: rating-beyond-size
}

// beyondSize raises a rating over 1.5 times what its material and size carry,
// and over the strongest made: a unit was mistaken, or the tag is another's
// [ours]. It lowers nothing, for which of the two figures is wrong is not known;
// nothing is known to be within it either.
func beyondSize(in sized, r *rated, where at, found *[]part.Finding) {
	if !r.known || in.power == 0 {
		return
	}
	rule := "rating-beyond-size"
	if in.rule != "" {
		rule = in.rule
	}
	if !positive(in.sizeM) {
		if found != nil {
			part.NotDecided(found, rule, where.thing, member(where.thing, in.member))
		}
		return
	}
	size := in.sizeM
	if in.power == 2 {
		size *= in.sizeM
	}
	carries, strongest := in.row.likely.X*size, in.row.high.X*size
	if r.working {
		carries, strongest = carries/in.tag, strongest/in.tag
	}
	if most := math.Max(carries*facts.StrengthRatingBeyond.Conservative().X, strongest); r.forceN <= most {
		if r.unsaid && r.forceN > most/in.tag { // as a working load it were
			part.NotDecided(found, rule, where.thing, where.lack("rating.basis"))
		}
		return
	}
	r.odd = true
	raise(found, rule, part.Warning, where, &part.Remedy{Do: "type-rating", Thing: where.thing},
		part.Number("rating", part.UnitLimit, r.forceN), part.Number("carries", part.UnitLimit, carries),
		part.Number("times", part.UnitNone, r.forceN/carries), part.Length("size", in.sizeM))
}

// ofBlock is what a block can be asked for by the thickest line that it takes:
// on its hanger twice what the strongest rope so thick carries, for it is made
// for a half turn of that [ours].
func ofBlock(k *plan.Block) sized {
	s := sized{row: rangeOf(facts.HMPEBreak), power: 2, sizeM: float64(k.LineMax), member: "line_max_m", tag: facts.FactorUltimateBlock.Conservative().X, rule: "block-rating-beyond"}
	if k.RatingOn != plan.RatedLine {
		hanger := facts.BlockHangerOfLine.Conservative().X
		for _, x := range [...]*facts.Figure{&s.row.low, &s.row.likely, &s.row.high} {
			x.X *= hanger
		}
	}
	return s
}

// ofConnector is what hooks on a line of that size: as a working load what breaks
// the strongest rope so thick, and to break five times that [ours].
func ofConnector(l *plan.Line) sized {
	s := sized{row: rangeOf(facts.HMPEBreak), power: 2, sizeM: float64(l.Diameter), member: "diameter_m", tag: facts.FactorUltimateShackle.Conservative().X, rule: "connector-beyond-line"}
	for _, x := range [...]*facts.Figure{&s.row.low, &s.row.likely, &s.row.high} {
		x.X *= s.tag
	}
	return s
}

// oddRating raises a rating beyond any piece that is carried to a vehicle
// recovery, whatever its size: a hundred tons as a working load. A unit was
// mistaken. [ours]
func oddRating(r *rated, where at, found *[]part.Finding) {
	most := oddWorkingN
	if !r.working && !r.unsaid {
		most = oddBreakingN
	}
	if r.known && r.forceN > most {
		r.odd = true
		raise(found, "rating-odd", part.Warning, where, &part.Remedy{Do: "type-rating", Thing: where.thing},
			part.Number("rating", part.UnitLimit, r.forceN), part.Number("most", part.UnitLimit, most))
	}
}

// Newtons, of any one piece of gear.
const (
	oddWorkingN  = 1e6
	oddBreakingN = 5e6
)

// ofMaterial is the strength by size of a material; the zero value where there
// is no row: a round sling's width says nothing of it.
func ofMaterial(material string, sizeM float64, name string, tag float64) sized {
	s := sized{power: 2, sizeM: sizeM, member: name, tag: tag}
	switch material {
	case plan.MaterialWire:
		s.row = rangeOf(facts.StrengthWire)
	case plan.MaterialHMPE:
		s.row = rangeOf(facts.HMPEBreak)
	case plan.MaterialNylon, plan.MaterialFibre:
		s.row = rangeOf(facts.StrengthNylon)
	case plan.MaterialKinetic:
		s.row = rangeOf(facts.StrengthKinetic)
	case plan.MaterialPolyester:
		s.row = rangeOf(facts.StrengthPolyester)
	case plan.MaterialChain:
		s.row = rangeOf(facts.StrengthChain)
	case plan.MaterialWeb:
		s.row, s.power = rangeOf(facts.StrengthWeb), 1
	default:
		return sized{}
	}
	return s
}
