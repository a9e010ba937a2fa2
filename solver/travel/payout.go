package travel

import (
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// paidOut is moved, which is p with the casualty elsewhere, with each line of the rig
// that is paid out by friction as much longer as its stretch to the casualty has
// become: who pays it out keeps it as taut as it was drawn. One that becomes
// shorter is taken in.
func paidOut(p, moved *plan.Plan, rig plan.ID) *plan.Plan {
	i := p.RigIndex(rig)
	v := solver.CasualtyOf(p, rig)
	if i < 0 || v == nil || p == moved {
		return moved
	}
	ground, err := terrain.NewGround(p.Site.Ground)
	if err != nil {
		return moved
	}
	from, to := plan.NewIndex(p, &p.Rigs[i]), plan.NewIndex(moved, &moved.Rigs[i])
	var d *plan.Draft
	for k := range p.Rigs[i].Lines {
		l := &p.Rigs[i].Lines[k]
		end, next, ok := heldBy(l, v.ID)
		if !ok {
			continue
		}
		before, okB := portsApart(ground, from, end, next)
		after, okA := portsApart(ground, to, end, next)
		if !okA || !okB {
			continue
		}
		if d == nil {
			e := plan.Edit(moved, rig)
			d = &e
		}
		d.Laid.Lines[k].Length = max(quantity.Length(leastLineM), l.Length+quantity.Length(after-before))
	}
	if d == nil {
		return moved
	}
	return d.Plan
}

// leastLineM, metres, is what is left of a line that was taken in wholly: zero would
// say that nobody knows. (ours)
const leastLineM = 1e-3

// heldBy is the port of a line that is paid out at which it holds the casualty, and
// the one next to it.
func heldBy(l *plan.Line, casualty plan.ID) (end, next plan.Port, ok bool) {
	n := len(l.Path)
	if l.PaidOut != plan.PaidOutFriction || !(l.Length > 0) || n < 2 {
		return end, next, false
	}
	switch casualty {
	case l.Path[n-1].Thing:
		return l.Path[n-1], l.Path[n-2], true
	case l.Path[0].Thing:
		return l.Path[0], l.Path[1], true
	}
	return end, next, false
}

// portsApart is how far apart two ports are, metres; of the rig's own as drawn.
func portsApart(g terrain.Ground, x *plan.Index, a, b plan.Port) (float64, bool) {
	p, okA := placeOf(x, a)
	q, okB := placeOf(x, b)
	return g.Spot(p).Sub(g.Spot(q)).Norm(), okA && okB
}

// placeOf is where a port is, that of a block, shackle or sling by where it is drawn
// or what it is round.
func placeOf(x *plan.Index, port plan.Port) (plan.Spot, bool) {
	if at, ok := x.PortPlace(port); ok {
		return at, true
	}
	if b := x.Block(port.Thing); b != nil {
		return plan.Spot{At: b.At}, true
	}
	if k := x.Shackle(port.Thing); k != nil {
		return plan.Spot{At: k.At}, true
	}
	if s := x.Sling(port.Thing); s != nil {
		return x.PortPlace(s.On)
	}
	return plan.Spot{}, false
}
