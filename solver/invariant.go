package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
)

// What carries load is a part, and the world balances. This file holds what is
// checked of every rig at run time, in the last stage.

// balanceShare, of the largest force on a thing of the site: what the forces on
// all of them may leave over. Far above the rounding of a sum, far below any
// figure shown. (ours)
const balanceShare = 1e-6

// checkWorld refuses the rig if a force ends on what is no part, or if the
// loads on all that stands on the ground do not cancel at one of the balances.
// Restraints cancel by themselves: each draws both its ends alike.
func (a *rating) checkWorld() {
	if a.refused || a.solved.status != part.Within {
		return
	}
	a.solved.distinct(func(_ int, r *solution) bool {
		if on, ok := a.unlisted(r); ok {
			a.withdraw("ends-on-nothing", a.things(on.Thing))
		} else if !a.balances(r) {
			a.withdraw("does-not-balance", a.things(a.g.r.ID))
		}
		return !a.refused
	})
}

// unlisted is a port of the site that takes a force and has no part.
func (a *rating) unlisted(r *solution) (plan.Port, bool) {
	for n := range r.Points {
		if a.g.rig.Points[n].Kind == statics.Free || r.Points[n].ForceN == (r3.Vector{}) {
			continue
		}
		if on := a.g.on[n]; on.IsZero() || !a.listed(on) {
			return on, true
		}
	}
	return plan.Port{}, false
}

// listed reports whether a port of the site is a part with its load: an anchor as a
// whole, a vehicle by its point or winch, and besides by what keeps it standing
// unless it is the casualty.
func (a *rating) listed(on plan.Port) bool {
	has := func(id string) bool { return a.part(id) != nil }
	v := a.g.things.Vehicle(on.Thing)
	if v == nil {
		return has(string(on.Thing))
	}
	return has(on.String()) && (v == a.g.casualty || has(string(v.ID)+"/slide") || slices.Contains(a.unmoved, v.ID))
}

// part is a part by its id; nil: there is none. It is looked for from the last one
// found on: who asks for many asks much in their order.
func (a *rating) part(id string) *part.Part {
	n := len(a.out.Parts)
	for k := range n {
		i := a.lastFound + k
		if i >= n {
			i -= n
		}
		if p := &a.out.Parts[i]; p.ID == id {
			a.lastFound = i
			return p
		}
	}
	return nil
}

// balances reports whether the loads on all listed things of the site cancel, each
// without the factors that are laid on legs and chains.
func (a *rating) balances(r *solution) bool {
	site := &a.g.p.Site
	w := a.work
	w.onThings = slices.Grow(w.onThings[:0], len(site.Vehicles)+len(site.Anchors)+len(site.Obstacles))
	on := w.onThings[:cap(w.onThings)]
	clear(on)
	for n := range r.Points {
		p := a.g.on[n]
		if p.IsZero() {
			continue
		}
		slot := a.g.things.Find(p.Thing)
		at := slot.Pos
		switch slot.Kind {
		case plan.ThingAnchor:
			at += len(site.Vehicles)
		case plan.ThingObstacle:
			at += len(site.Vehicles) + len(site.Anchors)
		}
		on[at] = on[at].Add(r.Points[n].ForceN.Mul(r.times))
	}
	var sum r3.Vector
	most := 0.0
	for _, f := range on {
		sum = sum.Add(f)
		most = max(most, f.Norm())
	}
	return sum.Norm() <= balanceShare*most
}

// withdraw takes back every load: nothing is shown as computed.
func (a *rating) withdraw(id string, things []plan.ID) {
	a.find(part.Finding{ID: id, Level: part.Danger, Things: things})
	a.refused, a.whyNot = true, id
	o := a.out
	o.Status, o.Why = part.Refused, id
	o.Move, o.Loosen, o.Stall, o.Moves = Pull{}, Pull{}, Pull{}, false
	o.Advantage, o.MotionRatio, o.Efficiency = 0, 0, 0
	for i := range o.Parts {
		p := &o.Parts[i]
		*p = part.Part{ID: p.ID, Kind: p.Kind, Thing: p.Thing, Index: p.Index, From: p.From, To: p.To, Status: part.Refused, Why: id}
	}
	for i := range o.Stretches {
		o.Stretches[i].Refused = true
	}
}
