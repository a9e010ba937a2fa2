package solver

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// passes finds what a restraint that branches or runs round a corner may load:
// the things of the rig that it runs over or hangs on, and the ports of the site
// that these are fast to. Nothing of that is known to carry nothing.
func (g *rigging) passes(r *restraint) {
	var open []plan.Port
	for _, m := range r.members {
		open = append(open, plan.Port{Thing: m.id()})
		if m.line != nil {
			open = append(open, m.line.Path...)
		}
	}
	for _, j := range r.joints {
		open = append(open, plan.Port{Thing: j})
	}
	for len(open) > 0 {
		p := open[len(open)-1]
		open = open[:len(open)-1]
		switch g.things.Kind(p.Thing) {
		case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle:
			if !slices.Contains(r.passed, p) {
				r.passed = append(r.passed, p)
			}
			continue
		case plan.ThingBlock, plan.ThingSling, plan.ThingShackle, plan.ThingLine:
		default:
			continue
		}
		if slices.Contains(r.over, p.Thing) {
			continue
		}
		r.over = append(r.over, p.Thing)
		open = append(open, g.hangsWith(p.Thing, r.use)...)
	}
}

// hangsWith are the ports that a sling, block or shackle is fast to, and what of
// the rig is fast to it, but for what pulls through it.
func (g *rigging) hangsWith(id plan.ID, use string) (ports []plan.Port) {
	add := func(p plan.Port) {
		if !p.IsZero() {
			ports = append(ports, p)
		}
	}
	if b := g.things.Block(id); b != nil {
		add(b.Fixed)
	}
	if s := g.things.Sling(id); s != nil {
		add(s.On)
		add(s.Holds)
	}
	if k := g.things.Shackle(id); k != nil {
		for _, j := range k.Joins {
			add(j)
		}
	}
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; s.On.Thing == id || s.Holds.Thing == id {
			add(plan.Port{Thing: s.ID})
		}
	}
	for i := range g.r.Shackles {
		if k := &g.r.Shackles[i]; slices.ContainsFunc(k.Joins, func(j plan.Port) bool { return j.Thing == id }) {
			add(plan.Port{Thing: k.ID})
		}
	}
	for i := range g.r.Lines {
		if l := &g.r.Lines[i]; l.Use == use && slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == id }) {
			add(plan.Port{Thing: l.ID})
			ports = append(ports, l.Path...)
		}
	}
	return ports
}

// unknownBy reports whether a part may be loaded by a restraint of which nobody knows
// what it carries.
func (a *solving) unknownBy(p *part.Part) bool {
	return some(a.g.restraints, func(r *restraint) bool {
		if slices.Contains(r.over, p.Thing) {
			return true
		}
		return slices.ContainsFunc(r.passed, func(q plan.Port) bool {
			return p.Kind == part.KindAnchor && p.Thing == q.Thing || p.Kind == part.KindPoint && p.ID == q.String()
		})
	})
}

// tethered reports whether a strap between two places that stand is fast to a part that
// nothing else loads: the balance has no load for the strap, and none for it.
func (a *rating) tethered(p *part.Part) bool {
	if p.Kind != part.KindAnchor && p.Kind != part.KindPoint {
		return false
	}
	at := func(n int) bool {
		q := a.g.on[n]
		if p.Kind == part.KindPoint && p.ID != q.String() || p.Thing != q.Thing {
			return false
		}
		return a.solved.unit == nil || !(a.pullAt(a.solved.unit, func(o plan.Port) bool { return o == q }).Norm() > 0)
	}
	return some(a.g.slings, func(s *riggedSling) bool {
		return s.index < 0 && s.from >= 0 && s.to >= 0 && !a.g.restrains[s.sling.ID] && !a.g.movable(s.from, s.to) && (at(s.from) || at(s.to))
	})
}
