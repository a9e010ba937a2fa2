package hold

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// raise adds a finding; with a nil found it does nothing.
func raise(found *[]part.Finding, id string, level part.Level, thing plan.ID, remedy string, values ...part.Value) {
	if found == nil {
		return
	}
	f := part.Finding{ID: id, Level: level}
	f.About(thing, "", values)
	if remedy != "" {
		f.Remedies = []part.Remedy{{Do: remedy, Thing: thing}}
	}
	*found = append(*found, f)
}

// lacks adds to the finding just raised which members of its thing it is for
// want of.
func lacks(found *[]part.Finding, members ...string) {
	if found == nil {
		return
	}
	f := &(*found)[len(*found)-1]
	for _, m := range members {
		f.Lacks = append(f.Lacks, part.Lack{Thing: f.Things[0], Member: m, Rule: f.ID})
	}
}

// groundLacks reports whether a rule lacks a member of the ground, if it does.
func groundLacks(found *[]part.Finding, rule string, thing plan.ID, member string) bool {
	if member != "" {
		part.NotDecided(found, rule, thing, part.Lack{Member: member})
	}
	return member != ""
}

func computed(name string, unit part.Unit, x float64) part.Operand {
	return part.Operand{Value: part.Number(name, unit, x)}
}

func typed(name string, unit part.Unit, x float64) part.Operand {
	return part.Operand{Value: part.Number(name, unit, x), From: part.FromTyped}
}

func cited(name string, unit part.Unit, f facts.Figure) part.Operand {
	if f.ID == "" { // a factor of one that no row stands for
		return computed(name, unit, f.X)
	}
	return part.Operand{Value: part.Number(name, unit, f.X), Fact: string(f.ID), From: part.FromFact}
}

// positive tells a quantity that is known and can be: finite and above zero.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// ultimate is a hold as a range in newtons.
func ultimate(low, likely, high float64) part.Range {
	return part.Range{
		Known: positive(low), Low: quantity.Force(low),
		Likely: quantity.Force(math.Max(low, likely)), High: quantity.Force(math.Max(math.Max(low, likely), high)),
	}
}

// divisor is the factor that a hold is divided by, and the word for it.
func divisor(lifting bool) (facts.Figure, string) {
	if lifting {
		return facts.FactorLiftingHold.Conservative(), "hold ÷ 5"
	}
	return facts.FactorPullingHold.Conservative(), "hold ÷ 3"
}

// divided is the capacity of a hold: its low end by the factor. Its last step
// has the limit.
func divided(hold part.Range, s part.Confidence, note string, preset, lifting bool, derivation *part.Derivation) part.Capacity {
	if !hold.Known {
		return part.Capacity{}
	}
	f, basis := divisor(lifting)
	limit := float64(hold.Low) / f.X
	if derivation.On() {
		derivation.Add("hold-limit", part.Number("limit", part.UnitLimit, limit),
			computed("hold", part.UnitLimit, float64(hold.Low)), cited("factor", part.UnitNone, f))
	}
	return part.Capacity{
		Limit: part.Limit{Known: positive(limit), Force: quantity.Force(limit), Basis: basis,
			Confidence: s.Weaker(f.Confidence), Preset: preset},
		Ultimate: hold, Note: note,
	}
}
