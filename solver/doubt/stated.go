package doubt

import (
	"slices"

	"kedge/solver/plan"
)

// whyTag is what becomes of the photograph of a tag: it sets the rating of its piece if the
// tag was seen, and no other that was seen says otherwise.
func whyTag(n *plan.Incident, q *plan.Pin) string {
	seen := func(o *plan.Pin) bool { return o.Kind == plan.PinTag && o.Thing == q.Thing && o.Trusted() == Observed }
	switch {
	case !q.Rating.Known():
		return NoFigure
	case !seen(q):
		return TagTold
	case slices.ContainsFunc(n.Pins, func(o plan.Pin) bool { return seen(&o) && otherTag(q, &o) }):
		return TagsDiffer
	}
	return SetsTag
}

// otherTag reports whether two tags say different ratings.
func otherTag(a, b *plan.Pin) bool {
	return a.Rating.Known() && b.Rating.Known() && (a.Rating.Force != b.Rating.Force || a.Rating.Basis != b.Rating.Basis)
}

// beside is why a pin weighs nothing by itself that says what was so before the pull, or
// nothing at all; a rig with a pin of any other kind is not understood.
func (m *rigModel) beside(n *plan.Incident, q *plan.Pin) string {
	switch q.Kind {
	case plan.PinTag:
		return m.tagFact(n, q)
	case plan.PinSeenBefore:
		return m.seenFact(q)
	}
	return AtRest
}

// tagFact is why a tag weighs nothing by itself.
func (m *rigModel) tagFact(n *plan.Incident, q *plan.Pin) string {
	switch plan.NewIndex(m.plan, m.laid()).Find(q.Thing).Kind {
	case plan.ThingLine, plan.ThingBlock, plan.ThingSling, plan.ThingShackle:
		return whyTag(n, q)
	}
	return NotOfRig
}

// mayBe reports whether a thing has a part that may be weak in one of these ways.
func (m *rigModel) mayBe(thing plan.ID, ways []string) bool {
	return slices.ContainsFunc(m.groups, func(g group) bool {
		may, _ := m.weaknesses(&g)
		return g.is(thing) && slices.ContainsFunc(ways, func(w string) bool { return slices.Contains(may, w) })
	})
}

// seenFact is why what was seen before the pull weighs nothing by itself.
func (m *rigModel) seenFact(q *plan.Pin) string {
	switch {
	case waysOfLook[q.Look] == nil:
		return NoFigure
	case seenWeight(q) == 0 || !m.mayBe(q.Thing, waysOfLook[q.Look]):
		return SeenIdle
	}
	return SetsPrior
}

// seenWeight is how far what was seen before the pull moves a prior: from not at all, of
// what is only assumed, to where it is put by what is beyond doubt. (ours)
func seenWeight(q *plan.Pin) float64 { return 2*q.Trusted() - 1 }

// idle are the priors of the plan that are of no part that may be weak so.
func (m *rigModel) idle() (all []plan.Prior) {
	for _, q := range m.laid().Incident.Priors {
		if !m.mayBe(q.Thing, []string{q.Weak}) {
			all = append(all, q)
		}
	}
	return all
}
