package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/statics"
)

// meets reports whether an end of a sling that is loaded lies at a point.
func (rs *riggedSling) meets(node int) bool {
	return rs.index >= 0 && (rs.to == node || rs.from == node)
}

// pullAt is the force of a sling on the point at one of its ends, newtons.
func (rs *riggedSling) pullAt(r *solution, node int) r3.Vector {
	s := &r.Slings[rs.index]
	f := s.Dir.Mul(s.TensionN * r.times)
	if rs.to == node {
		f = f.Mul(-1)
	}
	return f
}

// lineAt reports whether a line of the balance runs to a point or through it.
func (g *rigging) lineAt(node int) bool {
	return some(g.lines, func(rl *riggedLine) bool { return rl.index >= 0 && slices.Contains(rl.path, node) })
}

// meeting reports whether a line comes to a point, or two slings do: it passes on what
// they carry.
func (g *rigging) meeting(node int) bool {
	n := 0
	for i := range g.slings {
		if g.slings[i].meets(node) {
			n++
		}
	}
	return n > 1 || g.lineAt(node)
}

// legsAt are the slings that meet at a free point, by the side they pull from.
// Where a line comes to it they are all on one side. Without one those drawn
// toward the point stand against those drawn away from it; if all are drawn
// alike, the one that pulls hardest stands against the others.
func (a *loading) legsAt(r *solution, node int) (sides [2][]*riggedSling) {
	w := a.work
	straight := a.g.lineAt(node)
	w.legs = slices.Grow(w.legs, 2*len(a.g.slings))
	for side := range sides {
		from := len(w.legs)
		for i := range a.g.slings {
			if rs := &a.g.slings[i]; rs.meets(node) && (rs.from == node && !straight) == (side == 1) {
				w.legs = append(w.legs, rs)
			}
		}
		sides[side] = w.legs[from:len(w.legs):len(w.legs)]
	}
	if straight || len(sides[0]) > 0 && len(sides[1]) > 0 {
		return sides
	}
	all := append(sides[0], sides[1]...)
	hardest := 0
	for i := range all {
		if r.Slings[all[i].index].TensionN > r.Slings[all[hardest].index].TensionN {
			hardest = i
		}
	}
	if len(all) == 0 {
		return sides
	}
	return [2][]*riggedSling{{all[hardest]}, slices.Delete(all, hardest, hardest+1)}
}

// meetingLoad is what is passed on at a free point: all that its lines pull, or
// the most that one sling does. What pulls from both sides balances there.
func (a *loading) meetingLoad(r *solution, node int) part.Load {
	most := a.linesOn(r, node)
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if !rs.meets(node) || r.isNone() {
			continue
		}
		l := load(rs.pullAt(r, node))
		if t := rs.takes; t != nil && t.node != node { // between the slings of one leg
			l = a.slingLoad(r, rs)
		}
		if !l.Known || !most.Known || l.Force > most.Force {
			most = l
		}
	}
	return most
}

// between reports whether a sling passes on what something pulls at each of its free
// ends, however long it is.
func (g *rigging) between(rs *riggedSling) bool {
	if rs.from < 0 || rs.to < 0 || !g.movable(rs.from, rs.to) {
		return false
	}
	for _, n := range [2]int{rs.from, rs.to} {
		if g.rig.Points[n].Kind == statics.Free && !g.lineAt(n) && !some(g.slings, func(o *riggedSling) bool {
			return o.sling != rs.sling && (o.from == n || o.to == n)
		}) {
			return false
		}
	}
	return true
}

// leg reports whether another sling comes to the free end of one: how long each reaches
// decides which of them carries.
func (g *rigging) leg(rs *riggedSling) bool {
	return g.rig.Points[rs.to].Kind == statics.Free && some(g.slings, func(o *riggedSling) bool {
		return o.sling != rs.sling && o.to == rs.to
	})
}

// holdsFast marks the points that are fast to the site, by slings and by ends of
// lines one behind another.
func (g *rigging) holdsFast() []bool {
	fast := make([]bool, len(g.rig.Points))
	for n := range fast {
		fast[n] = g.rig.Points[n].Kind != statics.Free
	}
	for i := range g.lines {
		if rl := &g.lines[i]; rl.index >= 0 {
			fast[rl.path[0]], fast[rl.path[len(rl.path)-1]] = true, true
		}
	}
	for grown := true; grown; {
		grown = false
		for i := range g.slings {
			if s := &g.slings[i]; s.from >= 0 && s.to >= 0 && fast[s.from] != fast[s.to] {
				fast[s.from], fast[s.to], grown = true, true, true
			}
		}
	}
	return fast
}
