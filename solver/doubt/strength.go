package doubt

import (
	"slices"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// strength is how the strength of a group scatters while it is sound, and the row that
// says so.
func (m *rigModel) strength(g *group) (Dist, facts.ID) {
	likely := float64(g.likely())
	u := g.part.Ultimate
	x := plan.NewIndex(m.plan, m.laid())
	log := func(mean float64, row facts.ID) (Dist, facts.ID) {
		d, err := Lognormal(mean, row.Value())
		if err != nil {
			return Sure(mean), row
		}
		return d, row
	}
	tag := func(preset bool, r plan.Rating, row facts.ID) (Dist, facts.ID) {
		switch {
		case preset:
			return log(likely, facts.DoubtScatterUnmarked)
		case r.Basis == plan.BasisWorking:
			likely *= facts.DoubtMeanTag.Value()
		}
		return log(likely, row)
	}
	switch g.part.Kind {
	case part.KindStretch:
		if l := x.Line(g.part.Thing); l != nil && l.Condition == plan.ConditionNew {
			return log(likely, facts.StrengthScatterRope)
		}
		return log(likely, facts.DoubtScatterUsed)
	case part.KindSling:
		if s := x.Sling(g.part.Thing); s != nil {
			return tag(s.Preset("rating"), s.Rating, facts.StrengthScatterWeb)
		}
	case part.KindShackle:
		if s := x.Shackle(g.part.Thing); s != nil {
			return tag(s.Preset("rating"), s.Rating, facts.StrengthScatterShackle)
		}
	case part.KindBlock:
		if b := x.Block(g.part.Thing); b != nil {
			return tag(b.Preset("rating"), b.Rating, facts.StrengthScatterShackle)
		}
	case part.KindEnd:
		if l := x.Line(g.part.Thing); l != nil {
			return tag(l.Preset("connector.rating"), l.Connector.Rating, facts.StrengthScatterShackle)
		}
	case part.KindAnchor:
		if a := x.Anchor(g.part.Thing); a != nil && a.Kind == plan.AnchorTree {
			return log(likely, facts.DoubtScatterUprooting)
		}
	}
	if u.Low < u.High {
		if d, err := triangleOf(u); err == nil {
			return d, ""
		}
	}
	return log(likely, facts.DoubtScatterUnmarked)
}

// wears is the input that says what an earlier heavy pull left of a group: textiles wear,
// and what holds by the ground is loosened; empty: it has all it had.
func (m *rigModel) wears(g *group) string {
	x := plan.NewIndex(m.plan, m.laid())
	material := ""
	switch g.part.Kind {
	case part.KindStretch:
		if l := x.Line(g.part.Thing); l != nil {
			material = l.Material
		}
	case part.KindSling:
		if s := x.Sling(g.part.Thing); s != nil {
			material = s.Material
		}
	case part.KindAnchor:
		if a := x.Anchor(g.part.Thing); a != nil && (a.Kind == plan.AnchorRated || a.Kind == plan.AnchorBoulder) {
			return ""
		}
		return inAnchor
	default:
		return ""
	}
	if material == plan.MaterialWire || material == plan.MaterialChain {
		return ""
	}
	return inDamage
}

func (m *rigModel) laid() *plan.Rig {
	r, _ := m.plan.Rig(m.rig)
	return r
}

// weaknesses are the ways in which a group may be below strength, and the row that says
// how likely it is that it is in any of them but the last, coming off. What state it was in says the plan as it was.
func (m *rigModel) weaknesses(g *group) (ways []string, prior facts.ID) {
	r, _ := m.was.Rig(m.rig)
	x := plan.NewIndex(m.was, r)
	condition, material := "", ""
	switch g.part.Kind {
	case part.KindStretch:
		if l := x.Line(g.part.Thing); l != nil {
			condition, material = l.Condition, l.Material
		}
		ways = []string{plan.WeakCut, plan.WeakWorn, plan.WeakHeat, plan.WeakKnot}
		if material == plan.MaterialWire || material == plan.MaterialChain {
			ways = []string{plan.WeakWorn, plan.WeakKnot}
		}
	case part.KindSling:
		if s := x.Sling(g.part.Thing); s != nil {
			condition, material = s.Condition, s.Material
		}
		ways = []string{plan.WeakCut, plan.WeakWorn, plan.WeakHeat, plan.WeakOff}
		if material == plan.MaterialWire || material == plan.MaterialChain {
			ways = []string{plan.WeakWorn, plan.WeakClosed, plan.WeakOff}
		}
	case part.KindShackle, part.KindBlock, part.KindEnd:
		ways = []string{plan.WeakWorn, plan.WeakClosed, plan.WeakOff}
	case part.KindPoint:
		ways = []string{plan.WeakWorn}
	default:
		return nil, ""
	}
	switch condition {
	case plan.ConditionNew, plan.ConditionUsed:
		return ways, facts.DoubtPriorInspected
	case plan.ConditionDoubtful, plan.ConditionKinked:
		return ways, facts.DoubtPriorWorn
	}
	return ways, facts.DoubtPriorUnknown
}

// PriorOf is how likely a weakness is held before any evidence.
type PriorOf struct {
	Part, Way string
	Chance    float64
	Fact      facts.ID // empty: the plan's own
	Source    string   // who holds it, as the plan says
}

// weak are the ways of a group with their priors: those that the plan states, what was
// seen before the pull, and for the rest the handbook's, shared alike.
func (m *rigModel) weak(g *group, sound float64) (ways []Weak, priors []PriorOf) {
	names, row := m.weaknesses(g)
	spread := 0
	for _, name := range names {
		if name != plan.WeakOff {
			spread++
		}
	}
	total := 0.0
	for _, name := range names {
		p := PriorOf{Part: g.id, Way: name, Chance: row.Value() / float64(spread), Fact: row}
		if name == plan.WeakOff {
			p.Chance, p.Fact = facts.DoubtPriorOff.Value(), facts.DoubtPriorOff
		}
		m.stated(g, &p)
		if !(p.Chance > 0) {
			continue
		}
		priors = append(priors, p)
		total += p.Chance
		ways = append(ways, Weak{ID: name, Prior: p.Chance, Strength: m.left(g, name, sound), Unbroken: name == plan.WeakOff})
	}
	if total > mostWeak { // a sound part is never ruled out by what is only held
		for i := range ways {
			ways[i].Prior *= mostWeak / total
			priors[i].Chance = ways[i].Prior
		}
	}
	return ways, priors
}

// mostWeak is the most that the priors of a part's weaknesses may add up to.
const mostWeak = 0.98

// stated is what the plan says of a prior: in so many words, or by what was seen of the
// thing before the pull.
func (m *rigModel) stated(g *group, p *PriorOf) {
	n := m.laid().Incident
	if n == nil {
		return
	}
	for i := range n.Pins {
		q := &n.Pins[i]
		if q.Kind != plan.PinSeenBefore || !g.is(q.Thing) || !slices.Contains(waysOfLook[q.Look], p.Way) {
			continue
		}
		w := seenWeight(q)
		if w == 0 {
			continue
		}
		p.Fact = facts.DoubtPriorWorn
		if q.Look == plan.LookCut {
			p.Fact = facts.DoubtPriorCutBefore
		}
		p.Chance, p.Source = w*p.Fact.Value()+(1-w)*p.Chance, q.Source
	}
	for _, q := range n.Priors {
		if g.is(q.Thing) && q.Weak == p.Way {
			p.Chance, p.Fact, p.Source = q.Chance, "", q.Source
		}
	}
}

// is reports whether a pin or prior about a thing, or about a part by its id, is about
// the group.
func (g *group) is(about plan.ID) bool {
	if string(about) == g.id {
		return true
	}
	return g.part.Thing == about && (g.part.Kind != part.KindEnd && g.part.Kind != part.KindSlide)
}

// left is the strength of a group that is weak in a way.
func (m *rigModel) left(g *group, way string, sound float64) Dist {
	x := plan.NewIndex(m.plan, m.laid())
	row := facts.DoubtBelowMetal
	switch {
	case way == plan.WeakOff:
		row = facts.DoubtOff
	case g.part.Kind == part.KindSling:
		row = facts.DoubtBelowWeb
	case g.part.Kind == part.KindStretch:
		row = facts.DoubtBelowRope
		if l := x.Line(g.part.Thing); way == plan.WeakKnot && l != nil && l.Material == plan.MaterialHMPE {
			row = facts.DoubtBelowKnotHMPE
		}
	}
	return scaledSpread(row, sound)
}

// mean is the mean of a scatter, near enough to scale a strength by.
func (d Dist) mean() float64 {
	switch d.kind {
	case lognormal:
		return d.meanOfLog()
	case uniform:
		return (d.a + d.c) / 2
	case triangular:
		return (d.a + d.b + d.c) / 3
	}
	return d.a
}
