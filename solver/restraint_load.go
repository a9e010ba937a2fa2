package solver

import (
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// restraints judges each tie-back and hold-back: where it lies, what it must
// hold, and whether it counts. What does not count is said, and silences
// nothing.
func (a *loading) judgeRestraints() {
	if a.solved.status != part.Within || a.refused {
		return
	}
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if r.use == plan.UseTieBack {
			a.judgeTieBack(r)
		} else {
			a.judgeHoldBack(r)
		}
	}
}

// judgeTieBack: it holds against the pull on its vehicle, within
// [effort.TieBackMost] of it in space.
func (a *loading) judgeTieBack(r *restraint) {
	if far := a.g.things.Vehicle(r.far.Thing); far != nil && far.Stuck == nil && !a.g.touches(r.own.Thing) && a.g.touches(far.ID) {
		r.turn()
	}
	if r.own.IsZero() || !a.g.touches(r.own.Thing) {
		a.find(part.Finding{ID: "tie-back-loose", Level: part.Warning, Things: a.things(r.first)})
		return
	}
	if !a.restraintEnds(r) {
		return
	}
	var pull r3.Vector
	a.hookedOn(a.solved.unit, r.own.Thing, func(_, f r3.Vector) { pull = pull.Add(f) })
	r.holds = pull.Mul(-1).Normalize()
	r.off = part.Angle(r.dir, r.holds)
	res := effort.TieBack(effort.TieBackIn{Vehicle: r.own.Thing, TieBack: r.first, OffDeg: float64(r.off), LimitN: 1}, nil, nil)
	taut, straight := a.taut(r), a.straight(r)
	r.counts = taut && straight && res.Known && res.Counts
	r.load = a.loads(func(s *solution) part.Load { return a.tieLoad(s, r) })
}

// turn makes the far end the own one.
func (r *restraint) turn() {
	r.own, r.far = r.far, r.own
	r.ends[0], r.ends[1] = r.ends[1], r.ends[0]
	r.dir = r.dir.Mul(-1)
	for i, j := 0, len(r.members)-1; i < j; i, j = i+1, j-1 {
		r.members[i], r.members[j] = r.members[j], r.members[i]
	}
}

// tieLoad is what a tie-back carries at a balance: all of the pull on its
// vehicle, as the force on what it is tied to, with the factor of the chain that
// it ends. Grip takes nothing off.
func (a *loading) tieLoad(s *solution, r *restraint) part.Load {
	if s.isNone() || r.dir == (r3.Vector{}) {
		return part.Load{}
	}
	var pull r3.Vector
	a.drawnOn(s, r.own.Thing, func(_, f r3.Vector) { pull = pull.Add(f) })
	times := a.timesOf(a.g.liesOn(ofThing(r.own.Thing)))
	f := times.planned
	if s == a.solved.stall[0] || s == a.solved.stall[1] {
		f = times.stall
	}
	pull = pull.Mul(f)
	res := effort.TieBack(effort.TieBackIn{Vehicle: r.own.Thing, TieBack: r.first, TensionN: f * a.winchTension(s, r.own.Thing), PullN: pull.Norm(), OffDeg: float64(r.off), LimitN: 1}, nil, nil)
	if !res.Counts {
		return load(r.dir.Mul(-pull.Norm())) // it holds nothing back, and may still be torn
	}
	return load(r.dir.Mul(-float64(res.Load)))
}

// winchTension is the tension of a vehicle's own winch line at a balance, of the
// first one if none of its winch is in the pull.
func (a *solving) winchTension(s *solution, vehicle plan.ID) float64 {
	if i := a.haulingLine(vehicle); i >= 0 {
		return s.tension(i)
	}
	return 0
}

// haulingLine is that line's place in the statics; -1: there is none.
func (a *solving) haulingLine(vehicle plan.ID) int {
	first := -1
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil {
			continue
		}
		if rl.winch.ID == vehicle {
			return rl.index
		}
		if first < 0 {
			first = rl.index
		}
	}
	return first
}

// judgeHoldBack: it counts over the whole travel only if it is paid out under
// control, and within [effort.HoldBackMost] of the direction it must hold.
func (a *loading) judgeHoldBack(r *restraint) {
	v := a.g.casualty
	if v == nil || r.own.Thing != v.ID {
		a.find(part.Finding{ID: "hold-back-loose", Level: part.Warning, Things: a.things(r.first)})
		return
	}
	if !a.restraintEnds(r) {
		return
	}
	need, holds, known := a.mustHold(v)
	r.holds = holds
	taut, straight := a.taut(r), a.straight(r)
	if !known {
		return
	}
	r.needN = need
	force := need
	if holds != (r3.Vector{}) {
		r.off = part.Angle(r.dir, holds)
		if r.off > effort.HoldBackMost {
			a.find(part.Finding{ID: "hold-back-askew", Level: part.Warning, Things: a.things(r.first, v.ID), Values: a.given(
				part.Number("off", part.UnitAngle, r.off), part.Number("limit", part.UnitAngle, effort.HoldBackMost))})
		} else {
			force = need / math.Cos(r.off.Radians())
		}
		if !a.controlled(r) {
			a.find(part.Finding{ID: "hold-back-fixed", Level: part.Warning, Things: a.things(r.first, v.ID)})
		}
	}
	r.counts = taut && straight && a.controlled(r) && r.off <= effort.HoldBackMost
	l := load(r.dir.Mul(-force))
	r.load = pulls{move: l, loosen: l, stall: l} // no winch of the pull loads it: it is the same at each
}

// controlled reports whether a hold-back is paid out or taken in as the casualty
// moves: by a winch, or over a friction device.
func (a *resolving) controlled(r *restraint) bool {
	if r.winch {
		return true
	}
	for _, m := range r.members {
		if m.line != nil && m.line.PaidOut == plan.PaidOutFriction {
			return true
		}
	}
	return false
}

// mustHold is what a hold-back of the casualty must be good for, newtons, and
// which way it must pull; zero: nothing. What rights a vehicle must be slowed
// past its balance by as much as rights it. (ours)
func (a *loading) mustHold(v *plan.Vehicle) (needN float64, toward r3.Vector, known bool) {
	if v.Stuck.Overturned {
		return float64(a.res.High), a.pullOn(v).Mul(-1).Normalize(), a.res.Known
	}
	free := a.comeFree(v, restraintSum{}, nil, nil)
	if !free.Known {
		return 0, r3.Vector{}, false
	}
	if !(free.HoldBack > 0) {
		return 0, r3.Vector{}, true
	}
	toward = a.g.way
	if free.Forward {
		toward = toward.Mul(-1)
	}
	return float64(free.HoldBack), toward, true
}

// pullOn is the sum of what the pull does to a vehicle.
func (a *solving) pullOn(v *plan.Vehicle) (pull r3.Vector) {
	a.pullsOn(v, func(_, f r3.Vector) { pull = pull.Add(f) })
	return pull
}

// pullsOn visits the forces of pullOn.
func (a *solving) pullsOn(v *plan.Vehicle, visit func(at, forceN r3.Vector)) {
	r := a.solved.unit
	if m := a.solved.move.main(); !m.isNone() {
		r = m
	}
	a.hookedOn(r, v.ID, visit)
}

// restraintEnds says of a restraint that ends on nothing, or whose loads are
// not computed. False: there is nothing further to judge.
func (a *loading) restraintEnds(r *restraint) bool {
	switch {
	case r.bent:
		a.find(part.Finding{ID: "restraint-not-computed", Level: part.Warning, Things: a.things(r.first, r.own.Thing)})
	case r.far.IsZero() || !a.carries(r.far) || r.far.Point == plan.PortWinch && !r.winch || r.own.Point == plan.PortWinch:
		a.find(part.Finding{ID: "ends-on-nothing", Level: part.Danger, Things: a.things(r.first)})
	default:
		return true
	}
	return false
}

// carries reports whether a port of the site can be a part: a fairlead is none, and
// a winch only of what it hauls.
func (a *resolving) carries(p plan.Port) bool {
	if v := a.g.things.Vehicle(p.Thing); v != nil {
		return p.Point == plan.PortWinch && v.Winch != nil || v.RecoveryPoint(p.Point) != nil
	}
	return a.g.things.Anchor(p.Thing) != nil || a.g.things.Obstacle(p.Thing) != nil
}

// straight reports whether nothing stands in the run of a restraint, and that it is
// known how it rises. One that bears on something holds nobody knows what, and
// one of which it is not decided is not counted either.
func (a *loading) straight(r *restraint) bool {
	by, decided := a.bearsOn(r.ends[0], r.ends[1], r.far.Thing, r.own.Thing)
	if by != "" {
		a.find(part.Finding{ID: "tie-back-bears", Level: part.Warning, Things: a.things(r.first, by)})
	}
	rule := "tie-back-askew"
	if r.use == plan.UseHoldBack {
		rule = "hold-back-askew"
	}
	for _, p := range [2]plan.Port{r.own, r.far} {
		if l, lacks := a.heightLack(p); lacks {
			part.NotDecided(a.found(), rule, p.Thing, l)
			decided = false
		}
	}
	return by == "" && decided
}

// pulls on a port by restraints, as vectors: the far end is drawn toward the
// vehicle, the vehicle toward the far end.
func (a *loading) restrained(s *solution, match func(plan.Port) bool) (sum r3.Vector, any bool) {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		for e, p := range [2]plan.Port{r.own, r.far} {
			if p.IsZero() || !match(p) {
				continue
			}
			l := r.load.move
			if r.use == plan.UseTieBack {
				l = a.tieLoad(s, r)
			}
			if !l.Known {
				continue
			}
			f := l.Vec
			if e == 0 {
				f = f.Mul(-1)
			}
			any, sum = true, sum.Add(f)
		}
	}
	return sum, any
}

// restrainedAt reports whether a restraint is fast to a port, or any of a thing's.
func (a *resolving) restrainedAt(match func(plan.Port) bool) bool {
	for i := range a.g.restraints {
		if r := &a.g.restraints[i]; !r.own.IsZero() && match(r.own) || !r.far.IsZero() && match(r.far) || slices.ContainsFunc(r.passed, match) {
			return true
		}
	}
	return false
}

// restraintSum is what the restraints of one vehicle hold together with: the
// best of them that counts. Strap and strap do not add.
type restraintSum struct {
	has    bool // there is one that counts
	counts bool // and every part of it is within a known limit
	forceN float64
}

// restrainedBy is what holds a vehicle besides its own wheels, after the parts of the
// restraints are judged.
func (a *loading) restrainedBy(v plan.ID, use string) (best restraintSum) {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if r.use != use || r.own.Thing != v {
			continue
		}
		if !r.counts {
			continue
		}
		best.has = true
		holds := float64(r.good.Limit.Force) * math.Cos(r.off.Radians())
		if r.checked && !best.counts || r.checked == best.counts && holds > best.forceN {
			best.counts, best.forceN = r.checked, holds
		}
	}
	return best
}

// checkRestraints looks at every part of each restraint: it is checked if all
// are computed, have a limit and keep within it.
func (a *rating) checkRestraints() {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if !r.load.move.Known {
			continue
		}
		r.checked = true
		r.good.Limit = part.Limit{Known: true, Force: quantity.Force(math.Inf(1))}
		n := 0
		for k := range a.out.Parts {
			p := &a.out.Parts[k]
			if p.Kind == part.KindFairlead || p.Kind == part.KindTip || !r.has(p) {
				continue
			}
			n++
			if p.Status != part.Within && p.Status != part.Near && p.Status != part.Slack || !p.Limit.Known {
				r.checked = false
			}
			if !p.Limit.Known {
				r.good.Limit.Known = false
			}
			r.good.Limit.Force = min(r.good.Limit.Force, p.Limit.Force)
		}
		if n == 0 || !r.good.Limit.Known {
			r.checked, r.good.Limit = false, part.Limit{}
		}
		a.sayRestraint(r)
	}
}

// has reports whether a part carries what the restraint carries.
func (r *restraint) has(p *part.Part) bool {
	if p.ID == r.own.String() || p.ID == r.far.String() || p.Kind == part.KindSlide && p.Thing == r.far.Thing {
		return true
	}
	for _, m := range r.members {
		if p.Thing == m.id() {
			return true
		}
	}
	for _, j := range r.joints {
		if p.Thing == j {
			return true
		}
	}
	return false
}

// heldAlone reports whether nothing but hold-backs loads a part: what it carries
// does not grow with the pull of the winch.
func (a *rating) heldAlone(p *part.Part) bool {
	held := false
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if !r.has(p) {
			continue
		}
		if r.use == plan.UseTieBack {
			return false
		}
		held = true
	}
	if p.Kind == part.KindPoint {
		_, point, _ := strings.Cut(p.ID, "/")
		return held && !a.g.used(plan.Port{Thing: p.Thing, Point: plan.ID(point)})
	}
	return held && !a.g.touches(p.Thing)
}

// sayRestraint raises what a tie-back is good for, once its parts are known.
func (a *rating) sayRestraint(r *restraint) {
	if r.use != plan.UseTieBack {
		return
	}
	pull := quantity.Force(float64(r.load.move.Force))
	if off := r.off; off <= effort.TieBackMost {
		pull = quantity.Force(float64(pull) * math.Cos(off.Radians()))
	}
	effort.TieBack(effort.TieBackIn{Vehicle: r.own.Thing, TieBack: r.first, PullN: float64(pull), OffDeg: float64(r.off), LimitN: float64(r.good.Limit.Force)}, nil, a.found())
}
