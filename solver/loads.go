package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
)

// solution is the equilibrium at one of the two pulls.
type solution struct {
	*statics.Result
	has   bool
	times float64 // its forces are those of Result times this
}

// isNone tells that there is no balance; nil is none.
func (r *solution) isNone() bool { return r == nil || !r.has }

// load is a known load of a vector, without a direction it is meant to have.
func load(v part.Vec) part.Load {
	if !finite(v) {
		return part.Load{} // statics does not know it
	}
	return part.Load{Known: true, Force: quantity.Force(v.Len()), Vec: v}
}

// loadAlong is a known load with its share across an axis.
func loadAlong(v, axis part.Vec) part.Load {
	l := load(v)
	u := axis.Unit()
	if u == (part.Vec{}) || !l.Known {
		return l
	}
	l.Axis = u
	l.Off = v.Angle(u)
	l.Side = quantity.Force(v.Cross(u).Len())
	return l
}

// stretchLoad is the tension of one stretch.
func (a *assessor) stretchLoad(r *solution, line, stretch int) part.Load {
	if r.isNone() || line < 0 || stretch >= len(r.Lines[line].Stretches) {
		return part.Load{}
	}
	st := &r.Lines[line].Stretches[stretch]
	return load(part.Vec(st.Dir).Scale(st.TensionN * r.times))
}

// linesOn is the force of all lines on a point that is a block: the vector sum
// of every stretch that ends there.
func (a *assessor) linesOn(r *solution, node int) part.Load {
	if r.isNone() {
		return part.Load{}
	}
	var sum part.Vec
	for li := range r.Lines {
		for _, st := range r.Lines[li].Stretches {
			u := part.Vec(st.Dir)
			if st.A == node {
				sum = sum.Add(u.Scale(st.TensionN))
			}
			if st.B == node {
				sum = sum.Sub(u.Scale(st.TensionN))
			}
		}
	}
	return load(sum.Scale(r.times))
}

// slingLoad is the tension of a sling, as the force on what it is on.
func (a *assessor) slingLoad(r *solution, rs *riggedSling) part.Load {
	if r.isNone() || rs.index < 0 {
		return part.Load{}
	}
	s := &r.Slings[rs.index]
	return load(part.Vec(s.Dir).Scale(s.TensionN * r.times))
}

// portsPull is the force on a fixed thing of the site by all that is hooked on
// to it at one of its ports (point "" for any), and the lever of it: the sum of
// the forces and the moment about the foot point, N and N·m.
func (a *assessor) portsPull(r *solution, thing, point plan.ID, foot part.Vec) (part.Load, part.Vec) {
	if r.isNone() {
		return part.Load{}, part.Vec{}
	}
	var sum, moment part.Vec
	take := func(at, f part.Vec) {
		f = f.Scale(r.times)
		sum = sum.Add(f)
		moment = moment.Add(at.Sub(foot).Cross(f))
	}
	on := func(p plan.Port) bool { return p.Thing == thing && (point == "" || p.Point == point) }
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if rs.index < 0 {
			continue
		}
		f := part.Vec(r.Slings[rs.index].Dir).Scale(r.Slings[rs.index].TensionN)
		if on(rs.sling.On) {
			take(part.Vec(r.Points[rs.from].Pos), f)
		}
		if on(rs.sling.Holds) {
			take(part.Vec(r.Points[rs.to].Pos), f.Scale(-1))
		}
	}
	for i := range a.g.blocks {
		rb := &a.g.blocks[i]
		if on(rb.block.Fixed) {
			take(part.Vec(r.Points[rb.node].Pos), part.Vec(r.Points[rb.node].ForceN))
		}
	}
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 {
			continue
		}
		for k, port := range rl.line.Path {
			if !on(port) {
				continue
			}
			sts := r.Lines[rl.index].Stretches
			at := part.Vec(r.Points[rl.path[k]].Pos)
			if k > 0 && k-1 < len(sts) {
				take(at, part.Vec(sts[k-1].Dir).Scale(-sts[k-1].TensionN))
			}
			if k < len(sts) {
				take(at, part.Vec(sts[k].Dir).Scale(sts[k].TensionN))
			}
		}
	}
	for i := range a.ties {
		t := &a.ties[i]
		if !on(t.other) {
			continue
		}
		if l := a.tieLoad(r, t); l.Known {
			sum = sum.Add(l.Vec)
			moment = moment.Add(a.portAt(t.other).Sub(foot).Cross(l.Vec))
		}
	}
	return load(sum), moment
}

// tension is the tension at the hauling end of line i of the statics.
func (r *solution) tension(i int) float64 { return r.Lines[i].TensionN * r.times }
