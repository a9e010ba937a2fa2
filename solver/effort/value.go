package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func holds(name string, n float64) part.Value {
	return part.Number(name, part.UnitLimit, n)
}

func angle(name string, deg float64) part.Value {
	return part.Number(name, part.UnitAngle, deg)
}

func share(name string, x float64) part.Value {
	return part.Number(name, part.UnitShare, x)
}

func factor(name string, x float64) part.Value {
	return part.Number(name, part.UnitFactor, x)
}

func number(name string, x float64) part.Value {
	return part.Number(name, part.UnitNone, x)
}

func speed(name string, ms float64) part.Value {
	return part.Number(name, part.UnitSpeed, ms)
}

func mass(name string, kg float64) part.Value {
	return part.Number(name, part.UnitMass, kg)
}

func moment(name string, nm float64) part.Value {
	return part.Number(name, part.UnitMoment, nm)
}

func computed(v part.Value) part.Operand { return part.Operand{Value: v} }

func fromFact(v part.Value, id facts.ID) part.Operand {
	return part.Operand{Value: v, Fact: string(id), From: part.FromFact}
}

func typed(v part.Value) part.Operand { return part.Operand{Value: v, From: part.FromTyped} }

// typedOr is typed, or from the program's preset if the plan says so.
func typedOr(v part.Value, presets []string, member string) part.Operand {
	for _, p := range presets {
		if p == member {
			return part.Operand{Value: v, From: part.FromPreset}
		}
	}
	return typed(v)
}

// raise adds a finding about one thing. Call it only with found not nil.
func raise(found *[]part.Finding, id string, level part.Level, thing plan.ID, values ...part.Value) *part.Finding {
	f := part.Finding{ID: id, Level: level}
	f.About(thing, "", values)
	*found = append(*found, f)
	return &(*found)[len(*found)-1]
}

// lacking raises a finding about a thing that is raised for want of one of its
// own members.
func lacking(found *[]part.Finding, id string, level part.Level, thing plan.ID, member string) *part.Finding {
	f := raise(found, id, level, thing)
	f.Lacks = []part.Lack{{Thing: thing, Member: member, Rule: id}}
	return f
}

func sinDeg(d float64) float64 { return math.Sin(quantity.Degrees(d).Radians()) }
func cosDeg(d float64) float64 { return math.Cos(quantity.Degrees(d).Radians()) }

// finite reports whether every number is one.
func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// flatness is the cosine of the steepest slope whose sines along two
// directions at right angles are a and b.
//
//	sin² β = sin² a + sin² b
func flatness(a, b float64) float64 { return math.Sqrt(max(0, 1-a*a-b*b)) }

func rangeOf(t triple) part.Range {
	return part.Range{Known: true, Low: quantity.Force(t[low]), Likely: quantity.Force(t[likely]), High: quantity.Force(t[high])}
}
