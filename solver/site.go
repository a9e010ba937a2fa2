package solver

import (
	"slices"

	"kedge/solver/plan"
	"kedge/solver/statics"
)

// mostJoints is how many shackles, blocks and slings may lie one on another
// before a port counts as fast to nothing: a plan can join them in a ring.
const mostJoints = 16

// site is the port of the site that a port is fast to: itself, or what the
// shackles and blocks it stands for are joined and fixed to. A sling's port is
// its free end, fast to whatever that holds. False: it hangs free, or what it
// is joined to leads nowhere.
func (g *rigging) site(p plan.Port) (plan.Port, bool) { return g.siteFrom(p, mostJoints) }

func (g *rigging) siteFrom(p plan.Port, joints int) (plan.Port, bool) {
	if p.IsZero() || joints == 0 {
		return plan.Port{}, false
	}
	slot := g.things.Find(p.Thing)
	switch slot.Kind {
	case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle:
		_, ok := g.things.PortPlace(p)
		return p, ok
	case plan.ThingBlock:
		return g.siteFrom(g.r.Blocks[slot.Pos].Fixed, joints-1)
	case plan.ThingSling:
		return g.siteFrom(g.r.Slings[slot.Pos].Holds, joints-1)
	case plan.ThingShackle:
		k := &g.r.Shackles[slot.Pos]
		for _, j := range k.Joins {
			if j.Thing == k.ID || g.hangsOn(j.Thing, k.ID) {
				continue
			}
			if s, ok := g.siteFrom(j, joints-1); ok {
				return s, true
			}
		}
	}
	return plan.Port{}, false
}

// hangsOn reports whether a thing is a sling or block that is itself hooked on a
// shackle: its far end is not where the shackle lies.
func (g *rigging) hangsOn(id, shackle plan.ID) bool {
	if s := g.things.Sling(id); s != nil {
		return s.On.Thing == shackle || s.Holds.Thing == shackle
	}
	b := g.things.Block(id)
	return b != nil && b.Fixed.Thing == shackle
}

// hook notes what of the site the members of the pull are fast to.
func (g *rigging) hook() {
	n := len(g.r.Lines) + len(g.r.Slings) + len(g.r.Blocks)
	g.hooked, g.touched = make([]plan.Port, 0, n), make(map[plan.ID]bool, n)
	note := func(p plan.Port) {
		if s, ok := g.site(p); ok {
			g.hooked, g.touched[s.Thing] = append(g.hooked, s), true
		}
	}
	for i := range g.r.Lines {
		if l := &g.r.Lines[i]; l.Use == plan.UsePull {
			for _, p := range l.Path {
				note(p)
			}
		}
	}
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; s.Use == plan.UsePull && !g.restrains[s.ID] {
			note(s.On)
			note(s.Holds)
		}
	}
	for i := range g.r.Blocks {
		note(g.r.Blocks[i].Fixed)
	}
}

// touches reports whether a line, sling or block of the pull is fast to a thing of
// the site, through whatever joins them.
func (g *rigging) touches(id plan.ID) bool { return g.touched[id] }

// used reports whether something of the pull is fast to a port of the site.
func (g *rigging) used(p plan.Port) bool { return slices.Contains(g.hooked, p) }

// inPath reports whether a line runs through a thing, or is it.
func (g *rigging) inPath(id plan.ID) bool {
	for i := range g.r.Lines {
		l := &g.r.Lines[i]
		if l.ID == id || slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == id }) {
			return true
		}
	}
	return false
}

// reach marks the points that a line loads: those of its path, and through
// free ones whatever slings and dead lines hold on to there, down to the points
// of the site.
func (g *rigging) reach(rl *riggedLine) []bool {
	at := slices.Grow(rl.room[:0], len(g.rig.Points))[:len(g.rig.Points)]
	clear(at)
	rl.room = at
	for _, n := range rl.path {
		at[n] = true
	}
	free := func(n int) bool { return at[n] && g.rig.Points[n].Kind == statics.Free }
	for grown := true; grown; {
		grown = false
		take := func(a, b int) {
			if free(a) && !at[b] || free(b) && !at[a] {
				at[a], at[b], grown = true, true, true
			}
		}
		for i := range g.slings {
			if s := &g.slings[i]; s.index >= 0 {
				take(s.from, s.to)
			}
		}
		for i := range g.lines {
			l := &g.lines[i]
			if l.index < 0 || l.winch != nil {
				continue
			}
			for k := 1; k < len(l.path); k++ {
				take(l.path[k-1], l.path[k])
			}
		}
	}
	return at
}
