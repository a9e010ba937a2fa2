package gear

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// rated is a rating as a rule reads it.
type rated struct {
	known      bool
	forceN     float64
	working    bool // false: breaking strength, or not said and counted so
	unsaid     bool // it was not said
	preset     bool
	odd        bool // beyond what there is: nothing is known to be within it
	confidence part.Confidence
}

// readRating reads a rating and says what is wrong with it. A rating whose
// basis is not said counts as breaking strength: the lower allowance of the
// two.
func readRating(r plan.Rating, presets []string, where at, found *[]part.Finding) rated {
	x := float64(r.Force)
	switch {
	case x == 0:
		raise(found, "no-rating", part.Warning, where, &part.Remedy{Do: "type-rating", Thing: where.thing})
		lacking(found, overLimit, where.lack("rating.force_n"))
		return rated{}
	case !positive(x):
		raise(found, "rating-impossible", part.Danger, where, &part.Remedy{Do: "type-rating", Thing: where.thing})
		return rated{}
	}
	out := rated{known: true, forceN: x, working: r.Basis == plan.BasisWorking, confidence: part.ConfidenceTyped}
	if isPreset(presets, "rating") {
		out.preset, out.confidence = true, part.ConfidenceMemory
	}
	if out.unsaid = r.Basis != plan.BasisWorking && r.Basis != plan.BasisBreaking; out.unsaid {
		raise(found, "rating-unsaid", part.Notice, where, &part.Remedy{Do: "say-rating-basis", Thing: where.thing},
			part.Number("rating", part.UnitLimit, x))
	}
	oddRating(&out, where, found)
	return out
}

// overLimit is the rule that whatever has no limit leaves open; package solver
// has it.
const overLimit = "over-limit"

// limited is a capacity with a limit and nothing else.
func limited(forceN float64, basis string, r rated, s part.Confidence) part.Limit {
	return part.Limit{
		Known: positive(forceN), Force: quantity.Force(forceN), Basis: basis,
		Confidence: r.confidence.Weaker(s), Preset: r.preset, AtMost: r.odd,
	}
}
