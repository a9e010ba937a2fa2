package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// kept is the share of its strength that a line keeps as it is rigged.
type kept struct {
	x                          float64
	condition, wet, knot, bend facts.Figure
	end                        facts.Figure
	confidence                 part.Confidence
}

// unity is a share that takes nothing off.
func unity() facts.Figure { return facts.Figure{X: 1} }

// lineKeeps multiplies what takes strength off a line. ok is false where it
// must not be used or its state is not known; the findings say why.
func lineKeeps(in StretchIn, found *[]part.Finding) (k kept, ok bool) {
	l := in.Line
	where := at{thing: l.ID}
	k = kept{x: 1, wet: unity(), knot: unity(), bend: unity(), end: unity()}
	ok = true
	if !knownMaterial(l.Material) {
		raise(found, "line-material-unknown", part.Warning, where, &part.Remedy{Do: "type-material", Thing: l.ID})
		lacking(found, overLimit, where.lack("material"))
		ok = false
	}
	var good bool
	if k.condition, good = condition(l.Condition, wornLine, where, found); !good {
		ok = false
	}
	if l.Wet && (l.Material == plan.MaterialNylon || l.Material == plan.MaterialKinetic) {
		k.wet = facts.ConditionWetNylon.Conservative()
	}
	k.knot = worstKnot(l, found)
	if in.End {
		k.end = lineEnd(l, found)
	}
	if ok { // an unknown material has no table of bends, and that is said already
		bend, _, can := worstBend(l, in.Bends, at{thing: l.ID, part: in.Part}, found)
		if !can {
			return k, false
		}
		k.bend = bend
	}
	worse := k.bend
	if k.end.X < worse.X {
		worse = k.end
	}
	k.x = k.condition.X * k.wet.X * k.knot.X * worse.X
	k.confidence = k.condition.Confidence.Weaker(k.wet.Confidence).Weaker(k.knot.Confidence).Weaker(k.bend.Confidence).Weaker(k.end.Confidence)
	return k, ok
}

// record writes the sum of the share kept, with the factors that take nothing
// off too: the product is followed by hand.
func (k kept) record(derivation *part.Derivation) {
	ops := []part.Operand{cited("condition", part.UnitFactor, k.condition)}
	for _, o := range []struct {
		name string
		f    facts.Figure
	}{{"wet", k.wet}, {"knot", k.knot}, {"bend", k.bend}, {"end", k.end}} {
		ops = append(ops, cited(o.name, part.UnitFactor, o.f))
	}
	derivation.Add("line-keeps", part.Number("keeps", part.UnitFactor, k.x), ops...)
}

// worn are the findings about the state of a piece.
type worn struct{ kinked, doubtful, unknown string }

var (
	wornLine  = worn{"line-kinked", "line-doubtful", "line-condition-unknown"}
	wornSling = worn{"sling-kinked", "sling-doubtful", "sling-condition-unknown"}
)

// condition reads the state of a line or sling. Not said is not known: used
// and inspected is never assumed.
func condition(c string, rules worn, where at, found *[]part.Finding) (f facts.Figure, ok bool) {
	switch c {
	case plan.ConditionNew:
		return facts.ConditionNew.Conservative(), true
	case plan.ConditionUsed:
		return facts.ConditionUsed.Conservative(), true
	case plan.ConditionKinked:
		raise(found, rules.kinked, part.Danger, where, &part.Remedy{Do: "replace", Thing: where.thing})
	case plan.ConditionDoubtful:
		raise(found, rules.doubtful, part.Danger, where, &part.Remedy{Do: "replace", Thing: where.thing})
	default:
		raise(found, rules.unknown, part.Warning, where, &part.Remedy{Do: "type-condition", Thing: where.thing})
		lacking(found, overLimit, where.lack("condition"))
	}
	return facts.Figure{}, false
}

// worstKnot is the share the weakest knot leaves. Any knot in HMPE counts with
// the low end of 0.3 to 0.5; one that is not in the table as the lowest there.
func worstKnot(l *plan.Line, found *[]part.Finding) facts.Figure {
	b, worst := book(), unity()
	for _, id := range l.Knots {
		f, ok := b.knot(id)
		if !ok {
			f = facts.KnotUnknown.Conservative()
		}
		if l.Material == plan.MaterialHMPE && id != "knot.eye-splice" && id != "eye-splice" {
			f = facts.KnotHMPE.Conservative()
		}
		if f.X < worst.X {
			worst = f
		}
	}
	if worst.X < 1 {
		raise(found, "line-knot", part.Caution, at{thing: l.ID}, &part.Remedy{Do: "splice", Thing: l.ID},
			part.Number("share", part.UnitShare, worst.X))
	}
	return worst
}

// lineEnd is the share the end fitting leaves. One that is not known counts as
// the lowest of the table for wire; for a rope it may be a knot and counts so.
func lineEnd(l *plan.Line, found *[]part.Finding) facts.Figure {
	b := book()
	if f, ok := b.end(l.End); ok {
		return f
	}
	if f, ok := b.knot(l.End); ok {
		if l.Material == plan.MaterialHMPE && l.End != "knot.eye-splice" {
			return facts.KnotHMPE.Conservative()
		}
		return f
	}
	f := b.lowestEndFibre
	switch l.Material {
	case plan.MaterialWire:
		f = b.lowestEndWire
	case plan.MaterialHMPE:
		f = facts.KnotHMPE.Conservative()
	case plan.MaterialChain:
		return unity() // a link; its hook has a tag of its own
	}
	raise(found, "end-unknown", part.Caution, at{thing: l.ID}, &part.Remedy{Do: "type-end", Thing: l.ID},
		part.Number("share", part.UnitShare, f.X))
	lacking(found, overLimit, member(l.ID, "end_fitting"))
	return f
}

// knownMaterial tells a material this package has figures for.
func knownMaterial(m string) bool {
	switch m {
	case plan.MaterialWire, plan.MaterialChain, plan.MaterialWeb, plan.MaterialRound:
		return true
	}
	return synthetic(m)
}
