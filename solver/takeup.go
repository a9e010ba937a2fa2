package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
)

// takeUp is a leg that the balance gives nothing, or a share that is not
// determined, and that carries all as soon as those beside it have stretched:
// the slings of it one behind another, from the point at which the legs meet to
// where it ends. It is judged for the whole, as they are.
type takeUp struct {
	node  int   // where the legs meet
	end   int   // where this one ends
	chain []int // of the rigging's slings, from node on
	group []leg // all legs of its side, itself too
}

// leg is one of several slings that pull on a point from one side.
type leg struct {
	first *riggedSling // at the point where they meet
	last  *riggedSling // at its end
	end   int
}

// Metres, and a share of the length of a leg: what it may be longer than the
// others reach and still take up, for straps stretch by 2 to 7 % and nobody
// measures knots and hitches. (ours)
const (
	takeUpM     = 0.05
	takeUpShare = 0.02
)

// takesUp finds the legs that are slack as drawn and are not when the pull is on,
// and those whose share nobody can tell. It is said of the slack ones.
func (a *loading) takesUp() {
	if a.refused || a.solved.status != part.Within {
		return
	}
	r := a.solved.unit
	shared := make(map[int]bool)
	for _, f := range r.Flags {
		if f.Kind == statics.SharedSlings {
			shared[f.A], shared[f.B] = true, true
		}
	}
	for node := range a.g.rig.Points {
		if a.g.rig.Points[node].Kind != statics.Free || !a.loadedAt(r, node) {
			continue
		}
		for _, side := range a.legsAt(r, node) {
			if len(side) > 1 {
				a.legsTakeUp(r, node, side, shared)
			}
		}
	}
}

// loadedAt reports whether something pulls on a point: legs that hang there all slack
// hold nothing up.
func (a *loading) loadedAt(r *solution, node int) bool {
	return some(a.g.slings, func(s *riggedSling) bool {
		return s.meets(node) && r.Slings[s.index].TensionN > 0
	})
}

// legsTakeUp is takesUp for the legs of one side of a point.
func (a *loading) legsTakeUp(r *solution, node int, side []*riggedSling, shared map[int]bool) {
	group := make([]leg, 0, len(side))
	found := make([]*takeUp, 0, len(side))
	for _, rs := range side {
		t, lengthM := a.chainOf(rs, node)
		slack := r.Slings[rs.index].TensionN <= slackShare*r.Lines[0].TensionN
		last := &a.g.slings[t.chain[len(t.chain)-1]]
		group = append(group, leg{rs, last, t.end})
		missing := lengthM - r.Points[t.end].Pos.Sub(r.Points[node].Pos).Norm()
		switch most := max(takeUpM, takeUpShare*lengthM); {
		case slack && missing <= most && a.g.rig.Points[t.end].Kind != statics.Free:
			a.find(part.Finding{ID: "leg-takes-up", Level: part.Caution, Things: a.things(rs.sling.ID), Values: a.given(
				part.Length("longer", max(0, missing)), part.Length("most", most))})
		case slack:
			continue
		case shared[rs.index]:
		case !a.bridleAt(node) && a.besideAnother(r, node, rs, side):
		default:
			continue
		}
		found = append(found, t)
	}
	for _, t := range found {
		t.group = group
		for _, k := range t.chain {
			a.g.slings[k].takes = t
		}
	}
}

// parallelDeg, degrees: legs nearer to each other than this share as nobody can
// tell: five centimetres more of one, on two metres, and it hangs slack. (ours)
const parallelDeg = 15

// besideAnother reports whether a leg runs beside another one of its side, which is
// said of the two.
func (a *loading) besideAnother(r *solution, node int, rs *riggedSling, side []*riggedSling) (beside bool) {
	own := rs.pullAt(r, node)
	for _, o := range side {
		f := o.pullAt(r, node)
		if o == rs || !(f.Norm() > slackShare*own.Norm()) || part.Angle(own, f) >= parallelDeg {
			continue
		}
		if beside = true; rs.index < o.index {
			a.find(part.Finding{ID: "shared-slings", Level: part.Caution, Things: a.things(rs.sling.ID, o.sling.ID)})
		}
	}
	return beside
}

// chainOf follows a leg from the point where it meets others to its end, through
// slings one behind another, and how long it is.
func (a *loading) chainOf(rs *riggedSling, node int) (t *takeUp, lengthM float64) {
	t = &takeUp{node: node, end: node}
	for range mostJoints {
		at := slices.IndexFunc(a.g.slings, func(s riggedSling) bool { return s.sling == rs.sling })
		t.chain = append(t.chain, at)
		lengthM += a.g.rig.Slings[rs.index].LengthM
		if t.end = rs.to + rs.from - t.end; a.g.rig.Points[t.end].Kind != statics.Free || a.g.lineAt(t.end) {
			return t, lengthM
		}
		var next *riggedSling
		for i := range a.g.slings {
			if o := &a.g.slings[i]; o.sling != rs.sling && o.meets(t.end) {
				if next != nil {
					return t, lengthM
				}
				next = o
			}
		}
		if next == nil {
			return t, lengthM
		}
		rs = next
	}
	return t, lengthM
}

// whole is the force of a leg that takes up on what it ends at: all that its side
// holds, along the straight way there.
func (a *loading) whole(r *solution, t *takeUp) r3.Vector {
	var total r3.Vector
	for _, l := range t.group {
		total = total.Add(l.first.pullAt(r, t.node))
	}
	return r.Points[t.node].Pos.Sub(r.Points[t.end].Pos).Normalize().Mul(total.Norm())
}

// mostBy is the worst of a force on the points that match: as it is, or with one
// leg of several carrying all of what they hold and the others nothing.
func (a *loading) mostBy(r *solution, sum r3.Vector, match func(node int) bool) r3.Vector {
	worst := sum
	for i := range a.g.slings {
		t := a.g.slings[i].takes
		if t == nil || t.chain[0] != i || !match(t.end) {
			continue
		}
		alone := sum.Add(a.whole(r, t))
		for _, l := range t.group {
			if match(l.end) {
				alone = alone.Sub(l.last.pullAt(r, l.end).Mul(max(1, l.last.times)))
			}
		}
		if alone.Norm() > worst.Norm() {
			worst = alone
		}
	}
	return worst
}

// takenUp is the load of a sling that takes up, as the force on what it is on:
// no less than all that its side holds.
func (a *loading) takenUp(r *solution, rs *riggedSling, l part.Load) part.Load {
	if rs.takes == nil {
		return l
	}
	f := a.whole(r, rs.takes)
	if n := f.Norm(); l.Known && float64(l.Force) >= n {
		return l
	}
	if a.g.slings[rs.takes.chain[0]].from == rs.takes.node {
		f = f.Mul(-1)
	}
	return load(f)
}

// onPort turns a match of ports into one of points.
func (g *rigging) onPort(match func(plan.Port) bool) func(node int) bool {
	return func(n int) bool { return !g.on[n].IsZero() && match(g.on[n]) }
}
