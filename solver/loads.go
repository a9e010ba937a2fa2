package solver

import (
	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
)

// solution is the equilibrium at one pull, with one end of friction.
type solution struct {
	*statics.Result
	has   bool
	times float64 // its forces are those of Result times this
}

// isNone reports whether there is no balance; nil is none.
func (r *solution) isNone() bool { return r == nil || !r.has }

// load is a known load of a vector, without a direction it is meant to have.
func load(v r3.Vector) part.Load {
	if !finite(v) {
		return part.Load{} // statics does not know it
	}
	return part.Load{Known: true, Force: quantity.Force(v.Norm()), Vec: v}
}

// loadAlong is a known load with its share across an axis.
func loadAlong(v, axis r3.Vector) part.Load {
	l := load(v)
	u := axis.Normalize()
	if u == (r3.Vector{}) || !l.Known {
		return l
	}
	l.Axis = u
	l.Off = part.Angle(v, u)
	l.Side = quantity.Force(v.Cross(u).Norm())
	return l
}

// stretchLoad is the tension of one stretch.
func (a *loading) stretchLoad(r *solution, line, stretch int) part.Load {
	if r.isNone() || line < 0 || stretch >= len(r.Lines[line].Stretches) {
		return part.Load{}
	}
	st := &r.Lines[line].Stretches[stretch]
	return load(st.Dir.Mul(st.TensionN * r.times))
}

// linesOn is the force of all lines on a point that is a block: the vector sum
// of every stretch that ends there. Where nothing but a line holds the point,
// that line balances the others: only those that run through it count.
func (a *loading) linesOn(r *solution, node int) part.Load {
	if r.isNone() {
		return part.Load{}
	}
	held := a.g.held(node)
	var sum r3.Vector
	for li := range r.Lines {
		sts := r.Lines[li].Stretches
		if !held && (sts[0].A == node || sts[len(sts)-1].B == node) {
			continue
		}
		for _, st := range sts {
			u := st.Dir
			if st.A == node {
				sum = sum.Add(u.Mul(st.TensionN))
			}
			if st.B == node {
				sum = sum.Sub(u.Mul(st.TensionN))
			}
		}
	}
	return load(sum.Mul(r.times))
}

// held reports whether a point is fast to the site, or that a sling holds it.
func (g *rigging) held(node int) bool {
	if g.rig.Points[node].Kind != statics.Free {
		return true
	}
	return some(g.slings, func(s *riggedSling) bool { return s.index >= 0 && (s.from == node || s.to == node) })
}

// slingLoad is the tension of a sling, as the force on what it is on.
func (a *loading) slingLoad(r *solution, rs *riggedSling) part.Load {
	if r.isNone() || rs.index < 0 {
		return part.Load{}
	}
	s := &r.Slings[rs.index]
	return a.takenUp(r, rs, load(s.Dir.Mul(s.TensionN*r.times)))
}

// pullAt is the force of the pull on the points of the site that match, newtons.
// Legs of a fixed bridle count with their factor, whatever share of the balance
// is theirs.
func (a *loading) pullAt(r *solution, match func(plan.Port) bool) (sum r3.Vector) {
	take := func(f r3.Vector) { sum = sum.Add(f.Mul(r.times)) }
	for n := range r.Points {
		if on := a.g.on[n]; !on.IsZero() && match(on) {
			take(r.Points[n].ForceN)
		}
	}
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if rs.index < 0 || !(rs.times > 1) {
			continue
		}
		f := r.Slings[rs.index].Dir.Mul(r.Slings[rs.index].TensionN * (rs.times - 1))
		if on := a.g.on[rs.from]; !on.IsZero() && match(on) {
			take(f)
		}
		if on := a.g.on[rs.to]; !on.IsZero() && match(on) {
			take(f.Mul(-1))
		}
	}
	return a.mostBy(r, sum, a.g.onPort(match))
}

// siteLoad is the force on the ports of the site that match: of the pull, of
// the restraints, or of both, whichever is the most. A restraint may be slack
// while the pull is on, and the pull gone while it holds.
func (a *loading) siteLoad(r *solution, match func(plan.Port) bool) part.Load {
	if r.isNone() {
		return part.Load{}
	}
	pull := a.pullAt(r, match)
	l := load(pull)
	if tie, any := a.restrained(r, match); any {
		for _, f := range [2]r3.Vector{tie, pull.Add(tie)} {
			if m := load(f); !m.Known || m.Force > l.Force {
				l = m
			}
		}
	}
	return l
}

// ofThing matches every port of a thing, atPort one.
func ofThing(id plan.ID) func(plan.Port) bool {
	return func(p plan.Port) bool { return p.Thing == id }
}

func atPort(q plan.Port) func(plan.Port) bool {
	return func(p plan.Port) bool { return p == q }
}

// tension is the tension at the hauling end of line i of the statics.
func (r *solution) tension(i int) float64 { return r.Lines[i].TensionN * r.times }
