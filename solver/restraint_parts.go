package solver

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// restraintParts makes a part of each sling and line of the restraints, and of
// the winch that pays one out. Points, shackles and anchors are parts like those
// of the pull.
func (a *rating) restraintParts() {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		for _, m := range r.members {
			a.memberPart(r, m)
		}
		if v := a.g.things.Vehicle(r.far.Thing); v != nil && r.far.Point == plan.PortWinch && v.Winch != nil {
			a.holdingWinch(r, v)
		}
	}
}

func (a *rating) memberPart(r *restraint, m member) {
	id := m.partID()
	b := r.load
	p := part.Part{ID: id, Thing: m.id(), From: r.own.Thing, To: r.far.Thing, Use: r.use}
	var c part.Capacity
	if m.line != nil {
		p.Kind = part.KindStretch
		c = gear.Stretch(gear.StretchIn{Line: a.conservative.line(m.line), Part: id, End: true, OnWinch: r.winch, Pulled: r.use == plan.UseTieBack, Lifting: a.lifting}, a.derivationOf(id), a.found())
	} else {
		p.Kind = part.KindSling
		radius, round := a.g.holdsBy(m)
		in := gear.SlingIn{Sling: a.conservative.sling(m.sling), Part: id, Hitch: hitchOf(m.sling, round), OnTrunk: round, Radius: radius, Load: b.move.Force, OnWinch: r.use == plan.UseTieBack, Lifting: a.lifting}
		if round {
			in.Round = gear.SlingRound(radius, m.sling.Length, in.Hitch)
		}
		c = gear.Sling(in, a.derivationOf(id), a.found()).Capacity
	}
	a.sayHeld(id, r)
	a.add(&p, b, c)
	if m.line != nil {
		a.connectors(m.line, 0, 1, b, func(id string) { a.sayHeld(id, r) })
	}
}

// sayHeld records where the load of a restraint comes from: that of a tie-back
// from the pull, that of a hold-back from what the casualty does by itself.
func (a *rating) sayHeld(id string, r *restraint) {
	if r.use == plan.UseTieBack {
		a.say(id, r.load, func() []came { return []came{func(t *tracer) float64 { return t.tie(r) }} })
	} else if derivation := a.derivationOf(id); derivation.On() && r.load.move.Known {
		a.sayNeed(derivation, r)
	}
}

// sayNeed records what a hold-back must hold, and what that puts on it.
func (a *rating) sayNeed(derivation *part.Derivation, r *restraint) {
	if v := a.g.casualty; v != nil && !v.Stuck.Overturned {
		a.comeFree(v, restraintSum{}, derivation, nil)
	}
	load := part.Force("load", r.load.move.Force)
	if r.off > effort.HoldBackMost { // it takes all, and counts for nothing
		derivation.Add("hold-back-askew", load, operand("off", part.UnitAngle, float64(r.off)), forceOperand("need", r.needN))
		return
	}
	derivation.Add("hold-back-load", load, forceOperand("need", r.needN), operand("off", part.UnitAngle, float64(r.off)))
}

// tieBackSum records what a pull puts on a tie-back that lies off it.
func (a *rating) tieBackSum(derivation *part.Derivation, r *restraint, pullN float64) {
	in := effort.TieBackIn{Vehicle: r.own.Thing, TieBack: r.first, PullN: pullN, OffDeg: float64(r.off), LimitN: 1}
	effort.TieBack(in, derivation, nil) // askew it takes all, and counts for nothing
}

// sayTied records what a vehicle that is tied back may be asked for.
func (a *rating) sayTied(derivation *part.Derivation, v *plan.Vehicle, own, tied part.Capacity, tie float64) {
	if !derivation.On() {
		return
	}
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if r.own.Thing != v.ID || r.use != plan.UseTieBack || !r.checked {
			continue
		}
		pull := a.pullOfTension(v)
		if !same(float64(r.good.Limit.Force)*math.Cos(r.off.Radians())/pull, tie) {
			continue
		}
		derivation.Add("tie-good", part.Number("tie", part.UnitLimit, tie), operand("good", part.UnitLimit, float64(r.good.Limit.Force)),
			operand("off", part.UnitAngle, float64(r.off)), operand("pull", part.UnitNone, pull))
		break
	}
	limit := part.Number("limit", part.UnitLimit, tied.Limit.Force)
	if own.Limit.Known && !own.Limit.AtMost {
		derivation.Add("tied-more", limit, operand("own", part.UnitLimit, float64(own.Limit.Force)), operand("tie", part.UnitLimit, tie))
		return
	}
	derivation.Add("tied-hold", limit, operand("tie", part.UnitLimit, tie))
}

// holdingWinch is a winch that a hold-back is paid out from.
func (a *rating) holdingWinch(r *restraint, v *plan.Vehicle) {
	last := r.members[len(r.members)-1]
	if last.line == nil {
		return
	}
	id := r.far.String()
	w := gear.Winch(gear.WinchIn{Vehicle: v.ID, Part: id, Winch: a.conservative.vehicle(v).Winch, Line: a.conservative.line(last.line), Path: a.lineOut(last.line.ID)}, a.derivationOf(id), a.found())
	a.sayHeld(id, r)
	a.add(&part.Part{ID: id, Kind: part.KindWinch, Thing: v.ID, To: last.line.ID, Layer: w.Layer, Use: r.use}, r.load, w.Capacity)
	a.out.Lines = append(a.out.Lines, LineUse{Line: last.line.ID, Out: a.lineOut(last.line.ID), Has: last.line.Length, Layer: w.Layer, Wraps: w.Wraps, Missing: w.Missing, Held: true})
}

// restraintShapes lays out the members of the restraints between their ends,
// each its share of the way, so that they are drawn, captioned and zoned as
// what pulls is.
func (a *laying) restraintShapes() {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		at := a.restraintPlaces(r)
		for k, m := range r.members {
			if m.line == nil {
				continue
			}
			if len(m.line.Path) > 2 {
				a.bentShape(m.line)
				continue
			}
			s := part.Stretch{Part: m.partID(), Line: m.line.ID, A: at[k], B: at[k+1], PortA: m.line.Path[0], PortB: m.line.Path[len(m.line.Path)-1]}
			if s.PortA == r.far || k > 0 && s.PortB == r.own {
				s.A, s.B = s.B, s.A
			}
			s.Length = lengthOf(s.A, s.B)
			s.Refused = r.far.IsZero() || r.bent
			a.out.Stretches = append(a.out.Stretches, s)
		}
	}
}

// bentShape lays out the line of a restraint that runs round corners, as it is
// drawn: what it carries is not computed.
func (a *laying) bentShape(l *plan.Line) {
	for k := 0; k+1 < len(l.Path); k++ {
		s := part.Stretch{Part: stretchID(l.ID, k), Line: l.ID, Index: k, A: a.portAt(l.Path[k]), B: a.portAt(l.Path[k+1]), PortA: l.Path[k], PortB: l.Path[k+1], Refused: true}
		s.Length = lengthOf(s.A, s.B)
		a.out.Stretches = append(a.out.Stretches, s)
	}
}

// looseEnds are where a restraint lies that ends on nothing, as far as the plan
// tells: what hangs free lies at what it hangs on.
func (a *laying) looseEnds(r *restraint) (from, to r3.Vector) {
	some := !r.own.IsZero()
	if some {
		from, to = a.portAt(r.own), a.portAt(r.own)
	}
	for _, m := range [2]member{r.members[0], r.members[len(r.members)-1]} {
		for _, p := range m.ports() {
			if a.g.node(p) < 0 {
				continue
			}
			to = a.portAt(p)
			if !some {
				from, some = to, true
			}
			if to != from {
				return from, to
			}
		}
	}
	return from, to
}

// restraintPlaces are the ends of the members, from the vehicle on.
func (a *laying) restraintPlaces(r *restraint) []r3.Vector {
	from, to := r.ends[0], r.ends[1]
	if r.far.IsZero() || r.own.IsZero() {
		from, to = a.looseEnds(r)
	}
	total := 0.0
	reach := make([]float64, len(r.members))
	for i, m := range r.members {
		l, _, known := a.g.reachOf(m)
		if !known {
			l = 1
		}
		reach[i] = float64(l)
		total += reach[i]
	}
	at := make([]r3.Vector, 1, len(r.members)+1)
	at[0] = from
	run := 0.0
	for i := range r.members {
		run += reach[i]
		at = append(at, from.Add(to.Sub(from).Mul(run/total)))
	}
	at[len(at)-1] = to
	return at
}

// memberPlaces are the two ends of a sling of a restraint: On first.
func (a *laying) memberPlaces(s *plan.Sling) (on, holds r3.Vector, ok bool) {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		k := slices.IndexFunc(r.members, func(m member) bool { return m.sling == s })
		if k < 0 {
			continue
		}
		at := a.restraintPlaces(r)
		on, holds = at[k], at[k+1]
		if site, fast := a.g.endSite(s.On, s.ID); fast && site == r.far || fast && site == r.own && k > 0 {
			on, holds = holds, on
		} else if site, fast := a.g.endSite(s.Holds, s.ID); fast && site == r.own {
			on, holds = holds, on
		}
		return on, holds, true
	}
	return r3.Vector{}, r3.Vector{}, false
}

// jointPlace is where a shackle of a restraint lies.
func (a *laying) jointPlace(id plan.ID) (r3.Vector, bool) {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if !slices.Contains(r.joints, id) {
			continue
		}
		at := a.restraintPlaces(r)
		for k := range r.members[:len(r.members)-1] {
			for _, p := range r.members[k].ports() {
				if p.Thing == id {
					return at[k+1], true
				}
			}
		}
		if s, ok := a.g.site(plan.Port{Thing: id}); ok && s == r.own {
			return at[0], true
		}
		return at[len(at)-1], true
	}
	return r3.Vector{}, false
}

// restraintShackle is a shackle that a restraint runs through; false: it is none
// of them.
func (a *rating) restraintShackle(k *plan.Shackle, id string) bool {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if !slices.Contains(r.joints, k.ID) {
			continue
		}
		c := gear.Shackle(gear.ShackleIn{Shackle: a.conservative.shackle(k), Part: id}, a.derivationOf(id), a.found())
		a.sayHeld(id, r)
		a.add(&part.Part{ID: id, Kind: part.KindShackle, Thing: k.ID, Use: r.use}, r.load, c)
		return true
	}
	return false
}

// lengthOf is the distance of two places.
func lengthOf(a, b r3.Vector) quantity.Length { return quantity.Length(b.Sub(a).Norm()) }
