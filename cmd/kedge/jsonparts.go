package main

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/canvas/report"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// unitSymbols are the units of values as an answer names them; forces and
// limits are both newtons.
var unitSymbols = [...]string{
	part.UnitNone: "", part.UnitForce: "N", part.UnitLimit: "N", part.UnitLength: "m", part.UnitMass: "kg", part.UnitAngle: "deg",
	part.UnitShare: "1", part.UnitEnergy: "J", part.UnitSpeed: "m/s", part.UnitTime: "s", part.UnitCurrent: "A", part.UnitMoment: "N·m",
	part.UnitCount: "count", part.UnitText: "word", part.UnitThing: "id", part.UnitBearing: "deg bearing", part.UnitFactor: "factor",
}

var confidences = [...]string{
	part.ConfidenceNone: "", part.ConfidenceOurs: "ours", part.ConfidenceMemory: "from memory", part.ConfidenceCommon: "common practice",
	part.ConfidenceCopy: "secondary copy", part.ConfidencePublished: "published", part.ConfidenceTyped: "typed",
}

var origins = [...]string{part.FromComputed: "computed", part.FromTyped: "typed", part.FromPreset: "preset", part.FromFact: "fact"}

// nameAt is a name of a table, empty outside of it.
func nameAt[I ~int](names []string, i I) string {
	if i < 0 || int(i) >= len(names) {
		return ""
	}
	return names[i]
}

func valueOf(v *part.Value) valueJSON {
	out := valueJSON{Name: v.Name, Unit: nameAt(unitSymbols[:], v.Unit), Text: v.Text}
	if v.Unit != part.UnitText && v.Unit != part.UnitThing {
		out.Value = known(v.X, v.Text == "")
	}
	return out
}

func pullOf(p solver.Pull) *pullJSON {
	if !p.Known {
		return nil
	}
	return &pullJSON{known(p.Tension, true), known(p.Along, true)}
}

func rangeOf(r part.Range) rangeJSON {
	return rangeJSON{known(r.Low, r.Known), known(r.Likely, r.Known), known(r.High, r.Known)}
}

func resistanceOf(r *solver.Resistance) resistanceJSON {
	on := r.PlanOn
	if on == "" {
		on = plan.PlanHigh
	}
	return resistanceJSON{
		rangeJSON: rangeOf(r.Range), Planned: positive(r.Planned), PlanOn: on, LowRule: r.LowRule, HighRule: r.HighRule,
		Depth: r.Depth, Confidence: nameAt(confidences[:], r.Confidence), Parts: report.Each(r.Parts, valueOf),
		Rules:     report.Each(r.Rules, func(x *solver.RuleRange) ruleJSON { return ruleJSON{x.Rule, rangeOf(x.Range), x.Why} }),
		Breakaway: rangeOf(r.Breakaway),
	}
}

func partOf(p *part.Part) partJSON {
	out := partJSON{
		ID: p.ID, Kind: string(p.Kind), Thing: string(p.Thing), Status: p.Status.String(), Why: p.Why,
		Load: known(p.Move.Force, p.Move.Known), Loosen: known(p.Loosen.Force, p.Loosen.Known), AtStall: known(p.Stall.Force, p.Stall.Known),
		Limit: known(p.Limit.Force, p.Limit.Known), Basis: p.Limit.Basis, Preset: p.Limit.Preset, Confidence: nameAt(confidences[:], p.Limit.Confidence),
		Ultimate: known(p.Ultimate.Low, p.Ultimate.Known), UltLikely: known(p.Ultimate.Likely, p.Ultimate.Known), UltHigh: known(p.Ultimate.High, p.Ultimate.Known),
		Angle: positive(p.Angle), Layer: layerOf(p.Layer), Values: report.Each(p.Values, valueOf), AtM: number(p.AtM),
	}
	if p.Known() {
		out.Used = known(float64(p.Move.Force/p.Limit.Force), true)
		out.LoosenUse = known(p.UsedToLoosen(), p.Loosen.Known)
	}
	if p.Move.Known && p.Move.Axis != (r3.Vector{}) {
		out.Side, out.Off = known(p.Move.Side, true), known(p.Move.Off, true)
	}
	share, ok := p.ToFailure(p.Move)
	out.ToFailure = known(share, ok)
	share, ok = p.ToFailure(p.Loosen)
	out.LoosenTF = known(share, ok)
	share, ok = p.ToFailure(p.Stall)
	out.AtStallTF = known(share, ok)
	return out
}

func layerOf(layer int) *int {
	if layer <= 0 {
		return nil
	}
	return &layer
}

func failingOf(a *solver.Assessment, f *solver.Failing) failingJSON {
	out := failingJSON{Tension: known(f.Tension, true), Beyond: f.Beyond}
	if id := partAt(a, f.Part); id != nil {
		out.Part = *id
	}
	return out
}

func (ans *answer) findingOf(f *part.Finding) findingJSON {
	out := findingJSON{ID: f.ID, Level: f.Level.String(), Things: report.Each(f.Things, func(id *plan.ID) string { return string(*id) }),
		Parts: f.Parts, Values: report.Each(f.Values, valueOf), Lacks: []string{}, Travel: number(f.Travel)}
	if out.Parts == nil {
		out.Parts = []string{}
	}
	for _, l := range f.Lacks {
		if path := plan.MemberPath(ans.plan, ans.rig, l.Thing, l.Member); !slices.Contains(out.Lacks, path) {
			out.Lacks = append(out.Lacks, path)
		}
	}
	return out
}

func lineOf(l *solver.LineUse) lineJSON {
	out := lineJSON{Line: string(l.Line), Out: known(l.Out, true), Has: positive(l.Has), Layer: layerOf(l.Layer), Missing: positive(l.Missing)}
	out.Wraps = known(l.Wraps, l.Layer > 0)
	return out
}

func at(p plan.Point) pointJSON { return pointJSON{number(p.X), number(p.Y)} }

func personOf(p *solver.PersonAt) personJSON {
	out := personJSON{Person: string(p.Person), At: at(p.At), Zoned: p.Zoned, Partly: p.Partly, Inside: report.Each(p.Inside, func(k *part.ZoneKind) string { return string(*k) }),
		Spans: report.Each(p.Spans, func(s *solver.Span) spanJSON { return spanJSON{number(s.FromM), number(s.ToM)} })}
	if p.OutKnown {
		way := at(p.Out)
		out.Out = &way
	}
	return out
}

func stretchOf(s *part.Stretch) stretchJSON {
	return stretchJSON{
		Part: s.Part, Line: string(s.Line), Length: known(s.Length, true), Refused: s.Refused,
		Contacts: report.Each(s.Contacts, func(c *part.Contact) contactJSON {
			return contactJSON{string(c.Obstacle), known(c.From, true), known(c.To, true), known(c.Length, true)}
		}),
		Clear: known(s.Clear, s.ClearOf != ""), ClearOf: string(s.ClearOf),
	}
}

func nodeOf(n *part.Node) nodeJSON {
	return nodeJSON{string(n.Thing), pointJSON{number(n.At.X), number(n.At.Y)}, number(n.At.Z), n.Loose, positive(n.Angle)}
}

func slingOf(s *part.SlingShape) slingJSON {
	return slingJSON{string(s.Sling), s.Hitch, positive(s.Opens), positive(s.Reach), positive(s.Short)}
}

func zoneOf(z *part.Zone) zoneJSON {
	return zoneJSON{string(z.Kind), string(z.Thing), z.Fact, positive(z.Radius), report.Each(z.Outline, func(p *plan.Point) pointJSON { return at(*p) })}
}

func stepOf(s *part.Step) stepJSON {
	return stepJSON{s.Formula, valueOf(&s.Result), report.Each(s.Operands, func(o *part.Operand) operandJSON {
		return operandJSON{valueOf(&o.Value), nameAt(origins[:], o.From), o.Fact}
	})}
}
