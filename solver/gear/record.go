package gear

import (
	"math"
	"slices"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// at is what a finding is about: a thing, and its part if it has several.
type at struct {
	thing plan.ID
	part  string
	below string // where its members stand below the thing, "recovery_points.front."; empty: its own
}

// lack is a member that a rule lacks.
func (a at) lack(name string) part.Lack { return part.Lack{Thing: a.thing, Member: a.below + name} }

// raise adds a finding; with a nil found it does nothing.
func raise(found *[]part.Finding, id string, level part.Level, where at, remedy *part.Remedy, values ...part.Value) {
	if found == nil {
		return
	}
	f := part.Finding{ID: id, Level: level}
	f.About(where.thing, where.part, values)
	if remedy != nil {
		f.Remedies = []part.Remedy{*remedy}
	}
	*found = append(*found, f)
}

// with names a second thing of the last finding raised.
func with(found *[]part.Finding, other plan.ID) {
	if found == nil || len(*found) == 0 || other == "" {
		return
	}
	f := &(*found)[len(*found)-1]
	f.Things = append(f.Things, other)
}

// lacking says what the last finding raised could not tell without, and which
// rule is left open by it.
func lacking(found *[]part.Finding, rule string, lacks ...part.Lack) {
	if found == nil || len(*found) == 0 {
		return
	}
	f := &(*found)[len(*found)-1]
	for _, l := range lacks {
		l.Rule = rule
		f.Lacks = append(f.Lacks, l)
	}
}

// member is a member of a thing that a rule lacks.
func member(thing plan.ID, name string) part.Lack { return part.Lack{Thing: thing, Member: name} }

// computed is an operand that another step gave or the statics found.
func computed(name string, unit part.Unit, x float64) part.Operand {
	return part.Operand{Value: part.Number(name, unit, x)}
}

// typed is an operand out of the plan.
func typed(name string, unit part.Unit, x float64, preset bool) part.Operand {
	from := part.FromTyped
	if preset {
		from = part.FromPreset
	}
	return part.Operand{Value: part.Number(name, unit, x), From: from}
}

// cited is an operand out of the handbook.
func cited(name string, unit part.Unit, f facts.Figure) part.Operand {
	if f.ID == "" { // a factor of one that no row stands for
		return computed(name, unit, f.X)
	}
	return part.Operand{Value: part.Number(name, unit, f.X), Fact: string(f.ID), From: part.FromFact}
}

// positive tells a quantity that is known and can be: finite and above zero.
func positive(x float64) bool { return x > 0 && !math.IsInf(x, 1) }

// sane tells a quantity that is known or left out: not negative, not NaN.
func sane(x float64) bool { return x >= 0 && !math.IsInf(x, 1) }

// isPreset reports whether a member still has the value the program proposed.
func isPreset(presets []string, member string) bool { return slices.Contains(presets, member) }
