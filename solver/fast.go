package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// fairleads refuses a rig that is made fast to a fairlead or winch, whoever's it
// is: it is no attachment point. Only a line's own winch hauls there, and a
// hold-back is paid out from one.
func (a *resolving) fairleads() {
	g := a.g
	check := func(of plan.ID, p plan.Port, hauls bool) {
		s, ok := g.site(p)
		if !ok && p.Point == plan.PortWinch {
			s, ok = p, true
		}
		if !ok || s.Point != plan.PortWinch || hauls && s == p && g.winchOf(p) != nil {
			return
		}
		a.find(part.Finding{ID: "hooked-to-fairlead", Level: part.Danger, Things: a.things(of, s.Thing)})
		if !g.restrains[of] {
			a.refuse("hooked-to-fairlead")
		}
	}
	for i := range g.r.Lines {
		l := &g.r.Lines[i]
		for k, p := range l.Path {
			last := k == len(l.Path)-1
			check(l.ID, p, k == 0 || last && l.Use == plan.UseHoldBack || last && g.winchOf(l.Path[0]) == nil)
		}
	}
	for i := range g.r.Slings {
		s := &g.r.Slings[i]
		check(s.ID, s.On, false)
		check(s.ID, s.Holds, false)
	}
	for i := range g.r.Blocks {
		check(g.r.Blocks[i].ID, g.r.Blocks[i].Fixed, false)
	}
	for i := range g.r.Shackles {
		for _, j := range g.r.Shackles[i].Joins {
			if j.Point == plan.PortWinch {
				check(g.r.Shackles[i].ID, j, false)
			}
		}
	}
}

// deadLines refuses secondary lines whose length nobody knows: their tension
// is then whatever one likes.
func (a *resolving) deadLines() {
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch != nil || rl.line.Length > 0 || len(rl.line.Path) > 1 && a.g.winchOf(rl.line.Path[len(rl.line.Path)-1]) != nil {
			continue
		}
		a.refuse("dead-line-length-unknown")
		a.find(part.Finding{ID: "dead-line-length-unknown", Level: part.Warning, Things: a.things(rl.line.ID),
			Lacks: []part.Lack{{Thing: rl.line.ID, Member: "length_m", Rule: "dead-line-length-unknown"}}})
	}
}

// tether is a sling, a shackle, or a line without a winch between what stands:
// what it ties together stays together.
type tether struct {
	id    plan.ID
	ends  [2]plan.Port
	reach quantity.Length // 0: not known
}

// fastBy is what the casualty is made fast by up to some joint: from where on it,
// and how far that reaches; 0: not known.
type fastBy struct {
	port  plan.Port
	reach quantity.Length
}

// fastened finds the casualty still made fast to what stands, by straps or dead
// lines one behind another: the pull then goes into that. Hold-backs that count
// are paid out, and let it go. Of one that the way out slackens
// see [loading.still].
func (a *rating) fastened() {
	g := a.g
	if g.casualty == nil {
		return
	}
	ties := a.tethers()
	reached := map[plan.ID]fastBy{g.casualty.ID: {}}
	taken := make([]bool, len(ties))
	for grown := true; grown; {
		grown = false
		for i, t := range ties {
			if taken[i] {
				continue
			}
			for e, p := range t.ends {
				by, is := reached[g.knot(p, t.id)]
				if !is {
					continue
				}
				if by.port.IsZero() {
					by.port, _ = g.endSite(p, t.id)
					by.reach = t.reach
				} else if by.reach += t.reach; t.reach == 0 {
					by.reach = 0
				}
				taken[i], grown = true, true
				far := g.knot(t.ends[1-e], t.id)
				if far == "" || far == g.casualty.ID {
					break
				}
				if g.things.Vehicle(far) == nil && g.things.Anchor(far) == nil && g.things.Obstacle(far) == nil {
					reached[far] = by
					break
				}
				a.still(t.id, far, t.ends[1-e], by)
				break
			}
		}
	}
}

// tethers are all that may tie the casualty to what stands: straps, dead lines and
// shackles, but for the hold-backs that count.
func (a *rating) tethers() (ties []tether) {
	g := a.g
	ties = make([]tether, 0, len(g.r.Slings)+len(g.r.Shackles))
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; !a.paidOut(s.ID) {
			ties = append(ties, tether{s.ID, [2]plan.Port{s.On, s.Holds}, s.Length})
		}
	}
	for i := range g.r.Lines {
		l := &g.r.Lines[i]
		if len(l.Path) < 2 || a.paidOut(l.ID) || g.winchOf(l.Path[0]) != nil || g.winchOf(l.Path[len(l.Path)-1]) != nil {
			continue
		}
		stand := !slices.ContainsFunc(l.Path, func(p plan.Port) bool { _, ok := g.site(p); return !ok })
		if len(l.Path) > 2 && !stand {
			continue // it runs over what moves
		}
		for k := 1; k < len(l.Path); k++ {
			reach := l.Length
			if len(l.Path) > 2 {
				reach = 0
			}
			ties = append(ties, tether{l.ID, [2]plan.Port{l.Path[k-1], l.Path[k]}, reach})
		}
	}
	for i := range g.r.Shackles {
		if k := &g.r.Shackles[i]; len(k.Joins) == 2 {
			ties = append(ties, tether{k.ID, [2]plan.Port{k.Joins[0], k.Joins[1]}, shackleReach})
		}
	}
	return ties
}

// knot is what an end lies at: a thing of the site, or the joint that hangs
// free; empty: nothing.
func (g *rigging) knot(p plan.Port, of plan.ID) plan.ID {
	if s, ok := g.endSite(p, of); ok {
		return s.Thing
	}
	if p.IsZero() {
		return g.shackleOf(of)
	}
	return p.Thing
}

// still says that the casualty is made fast to a thing by a tether. One that its
// way out slackens is a WARNING, unless it is taut again before the way ends.
func (a *rating) still(by, to plan.ID, end plan.Port, from fastBy) {
	level := part.Danger
	v := a.g.casualty
	if s, ok := a.g.endSite(end, by); ok {
		off := a.portAt(s).Sub(a.g.ground.Lift(v.At, float64(v.Rise)))
		if off.Normalize().Dot(a.g.way) > slackens && !a.stopsShort(a.portAt(s), from) {
			level = part.Warning
		}
	}
	a.find(part.Finding{ID: "still-fastened", Level: level, Things: a.things(v.ID, by, to)})
}

// stopsShort reports whether a tether to a place stops the casualty on its way out: at
// the end of it, the farthest from the place but the start, it does not reach. One
// whose length is not known is as long as the way there.
func (a *rating) stopsShort(to r3.Vector, from fastBy) bool {
	v := a.g.casualty
	_, long := plan.Range(&v.Head, "casualty.way_length_m", float64(v.Stuck.WayLength))
	long = v.WayRun(long)
	if !(long > 0) {
		part.NotDecided(a.found(), "still-fastened", v.ID, part.Lack{Thing: v.ID, Member: "casualty.way_length_m"})
		return false
	}
	start := a.portAt(from.port)
	reach := float64(from.reach)
	if !(reach > 0) {
		reach = to.Sub(start).Norm()
	}
	return to.Sub(start.Add(a.g.way.Mul(long))).Norm() > reach+tieSlackM
}

// shackleReach, metres, is how far a shackle reaches. (ours)
const shackleReach quantity.Length = 0.1

// slackens is the cosine of the angle between the way out and a tether within
// which the casualty slackens it as it comes: 60°. (ours)
const slackens = 0.5

// paidOut reports whether a sling or line belongs to a hold-back that counts.
func (a *resolving) paidOut(id plan.ID) bool {
	return some(a.g.restraints, func(r *restraint) bool {
		return r.use == plan.UseHoldBack && r.counts && slices.ContainsFunc(r.members, func(m member) bool { return m.id() == id })
	})
}
