package solver

import (
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// hookedOn visits every force that the pull puts on a vehicle, and where.
func (a *solving) hookedOn(r *solution, vehicle plan.ID, visit func(at, forceN r3.Vector)) {
	if r.isNone() {
		return
	}
	for n := range r.Points {
		if p := &r.Points[n]; a.g.on[n].Thing == vehicle && p.ForceN != (r3.Vector{}) {
			visit(p.Pos, p.ForceN.Mul(r.times))
		}
	}
}

// drawnOn visits every force that the pull is computed to put on a vehicle that
// must stand: one leg of a fixed bridle on it counts with its factor, of several
// the balance is all there is.
func (a *loading) drawnOn(r *solution, vehicle plan.ID, visit func(at, forceN r3.Vector)) {
	a.hookedOn(r, vehicle, visit)
	if r.isNone() {
		return
	}
	var one *riggedSling
	node := -1
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if rs.index < 0 || !(rs.times > 1) {
			continue
		}
		for _, n := range [2]int{rs.from, rs.to} {
			if a.g.on[n].Thing != vehicle {
				continue
			}
			if one != nil {
				return
			}
			one, node = rs, n
		}
	}
	if one != nil {
		visit(r.Points[node].Pos, one.pullAt(r, node).Mul(one.times-1))
		return
	}
	for i := range a.g.slings { // a leg that takes up, of which no other one is on it
		t := a.g.slings[i].takes
		if t == nil || t.chain[0] != i || a.g.on[t.end].Thing != vehicle || slices.ContainsFunc(t.group, func(l leg) bool { return l.end != t.end && a.g.on[l.end].Thing == vehicle }) {
			continue
		}
		own := a.g.slings[t.chain[len(t.chain)-1]].pullAt(r, t.end)
		visit(r.Points[t.end].Pos, a.whole(r, t).Sub(own))
	}
}

// allOn visits every force on a vehicle, what restrains another one included.
func (a *loading) allOn(r *solution, vehicle plan.ID, visit func(at, forceN r3.Vector)) {
	a.drawnOn(r, vehicle, visit)
	for i := range a.g.restraints {
		k := &a.g.restraints[i]
		if k.far.Thing != vehicle {
			continue
		}
		l := k.load.move
		if k.use == plan.UseTieBack {
			l = a.tieLoad(r, k)
		}
		if l.Known {
			visit(k.ends[1], l.Vec)
		}
	}
}

// vehicleParts makes a part of what keeps each pulled vehicle where it stands:
// first of those that hold others, then of those that are held.
func (a *rating) vehicleParts() {
	for _, held := range []bool{false, true} {
		if held {
			a.checkRestraints()
		}
		for i := range a.g.p.Site.Vehicles {
			v := &a.g.p.Site.Vehicles[i]
			if !a.inRig(v) || a.heldAtAll(v.ID) != held {
				continue
			}
			if v == a.g.casualty {
				a.casualtyFindings(v)
				continue
			}
			a.stands(v, false)
			var tips effort.TipResult
			if v.Stuck == nil || !v.Stuck.Overturned {
				tips = a.tips(v, false)
			}
			a.slidePart(v, tips)
			a.tipPart(v, tips)
		}
	}
}

// inRig reports whether the pull or a restraint is fast to a vehicle.
func (a *rating) inRig(v *plan.Vehicle) bool {
	return a.g.touches(v.ID) || a.restrainedAt(ofThing(v.ID))
}

// idle judges the vehicles that nothing of the rig is fast to: what leaves its
// place by itself comes down on people all the same.
func (a *rating) idle() {
	for i := range a.g.p.Site.Vehicles {
		if v := &a.g.p.Site.Vehicles[i]; a.empty || !a.inRig(v) {
			a.stands(v, true)
		}
	}
}

// heldAtAll reports whether a restraint is meant for a vehicle.
func (a *resolving) heldAtAll(id plan.ID) bool {
	for i := range a.g.restraints {
		if a.g.restraints[i].own.Thing == id {
			return true
		}
	}
	return false
}

// stands judges a vehicle that must stand by what needs no balance: it speaks of
// a rig that is refused, too.
func (a *rating) stands(v *plan.Vehicle, idle bool) {
	if a.quiet {
		return
	}
	ground := &a.g.p.Site.Ground
	res := effort.Stands(effort.StandIn{Vehicle: a.conservative.vehicle(v), Ground: ground, Lacks: a.slopeLacks(), Idle: idle,
		FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)), FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing))}, a.found())
	if res.Moves {
		a.moving = append(a.moving, v)
	} else if len(res.Open) > 0 {
		a.mayMove = append(a.mayMove, mayMove{v, res.Open})
	}
}

// slopeLacks is what the plan lacks to tell how the ground falls.
func (a *resolving) slopeLacks() []part.Lack {
	if l := a.g.ground.Lacks(); l != "" {
		return []part.Lack{{Member: l}}
	}
	return nil
}

// heightLacks are the heights of a vehicle's hook-on points in use that nobody
// measured: a line on the ground is none.
func (a *resolving) heightLacks(v *plan.Vehicle) (lacks []part.Lack) {
	for _, on := range a.g.on {
		if on.Thing != v.ID {
			continue
		}
		if l, lacking := a.heightLack(on); lacking && !slices.Contains(lacks, l) {
			lacks = append(lacks, l)
		}
	}
	return lacks
}

// perTension is every line end on a vehicle per newton of winch line tension at
// a balance, in the vehicle's axes.
func (a *loading) perTension(r *solution, v *plan.Vehicle) (ends []effort.LineEnd) {
	tensionN := a.winchTension(r, v.ID)
	if !(tensionN > 0) {
		return nil
	}
	w := a.work
	from := len(w.ends)
	a.pullsAt(r, v, func(at, force r3.Vector) {
		w.ends = append(w.ends, effort.LineEnd{PerTension: force.Mul(1 / tensionN), AheadM: at.X, LeftM: at.Y, HeightM: max(0, at.Z)})
	})
	ends = w.ends[from:len(w.ends):len(w.ends)]
	most := 0.0
	for i := range ends {
		most = max(most, ends[i].PerTension.Norm())
	}
	for i := range ends {
		f := &ends[i].PerTension
		for _, x := range [3]*float64{&f.X, &f.Y, &f.Z} {
			if math.Abs(*x) <= noneShare*most {
				*x = 0
			}
		}
	}
	return ends
}

// noneShare, of the largest force on a vehicle: a share under it is none, but
// what the statics leaves unbalanced. (ours)
const noneShare = 1e-6

// pullsAt visits every force on a vehicle at a balance in the vehicle's axes,
// its place from the middle of the footprint on its own ground.
func (a *loading) pullsAt(r *solution, v *plan.Vehicle, visit func(at, force r3.Vector)) {
	foot := a.g.ground.Lift(v.At, float64(v.Rise))
	ahead, up := a.g.ground.Along(v.Bearing), a.g.ground.Normal()
	left := up.Cross(ahead)
	in := func(u r3.Vector) r3.Vector { return r3.Vector{X: u.Dot(ahead), Y: u.Dot(left), Z: u.Dot(up)} }
	a.allOn(r, v.ID, func(at, f r3.Vector) { visit(in(at.Sub(foot)), in(f)) })
}

// slidePart is a vehicle that must stand, against the line tension at which it
// moves. A puller's limit is the low hold itself: moving is what is asked. A
// vehicle without the winch is an anchor, and keeps the margin of one.
func (a *rating) slidePart(v *plan.Vehicle, tips effort.TipResult) {
	if !a.pulled(v) {
		return
	}
	id := a.joined(v.ID, "slide")
	winch := a.winches(v.ID)
	times := a.timesOf(a.g.liesOn(ofThing(v.ID)))
	b := a.loads(func(r *solution) part.Load {
		if r.isNone() {
			return part.Load{}
		}
		return part.Load{Known: true, Force: quantity.Force(a.winchTension(r, v.ID))}
	}).by(times)
	var c part.Capacity
	if !a.refused && a.solved.status == part.Within {
		held := a.restrainedBy(v.ID, plan.UseTieBack)
		h := a.holdOf(v, b, winch, held.counts, a.derivationOf(id))
		tip := a.tipsAt(tips)
		if effort.Unbounded(h.Hold.Low) && !(tip.Known && !winch) {
			if !h.AtMost {
				a.unmoved = append(a.unmoved, v.ID)
				return // no pull of this rig moves it: there is nothing to be within
			}
			h.Hold = part.Range{}
		}
		c = h.Capacity(false)
		if !winch {
			braked := v.Chocked() || v.BrakeKnown() && v.Brake != plan.BrakeNone || a.conservative.vehicle(v).FootBrake
			c = hold.Vehicle(hold.VehicleIn{Vehicle: v.ID, Slides: h.Hold, Tips: tip, Braked: braked, Confidence: part.ConfidenceOurs, Lifting: a.lifting}, a.derivationOf(id), a.found())
			c.Limit.AtMost = h.AtMost
		}
		if held.counts {
			tie := held.forceN / a.pullOfTension(v)
			own := c
			c = tiedCapacity(c, quantity.Force(tie))
			a.sayTied(a.derivationOf(id), v, own, c, tie)
		}
	}
	a.say(id, b, func() []came { return onHauling(v.ID, times.planned) })
	a.add(&part.Part{ID: id, Kind: part.KindSlide, Thing: v.ID}, b, c)
}

// pulled reports whether the pull or a restraint of another thing draws on a vehicle,
// or that nobody knows.
func (a *rating) pulled(v *plan.Vehicle) bool {
	if a.refused || a.solved.status != part.Within {
		return true
	}
	any := false
	for _, r := range [...]*solution{a.solved.unit, a.solved.move[1], a.solved.stall[0], a.solved.stall[1]} {
		if a.allOn(r, v.ID, func(_, f r3.Vector) { any = any || f != r3.Vector{} }); any {
			break
		}
	}
	return any
}

// pullOfTension is what draws on a vehicle for each newton of its winch line: 2
// where the line comes back to it. A tie-back is computed for no less than 1.
func (a *rating) pullOfTension(v *plan.Vehicle) float64 {
	var pull r3.Vector
	a.drawnOn(a.solved.unit, v.ID, func(_, f r3.Vector) { pull = pull.Add(f) })
	if t := a.winchTension(a.solved.unit, v.ID); t > 0 {
		return max(1, pull.Norm()/t)
	}
	return 1
}

// holdOf is what a vehicle holds at the three pulls, by whichever end of
// friction leaves it less.
func (a *rating) holdOf(v *plan.Vehicle, b pulls, winch, tied bool, derivation *part.Derivation) (res effort.HoldResult) {
	ground := &a.g.p.Site.Ground
	in := effort.HoldIn{
		Vehicle: a.conservative.vehicle(v), Ground: ground, Lacks: a.slopeLacks(), HeightLacks: a.heightLacks(v),
		FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)), FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing)),
		TensionN: float64(b.move.Force), TensionKnown: b.move.Known, LoosenN: float64(b.loosen.Force), StallN: float64(b.stall.Force),
		Anchor: !winch, TiedBack: tied,
	}
	in.Ends = a.perTension(a.solved.unit, v)
	for i, at := range [...]*balances{&a.solved.move, &a.solved.stall} {
		if !at[1].isNone() && (i == 0 || a.solved.move[1].isNone() || at[1].Result != a.solved.move[1].Result) { // else it is that one, scaled
			in.Others[i] = a.perTension(at[1], v)
		}
	}
	return effort.PullerHold(in, derivation, a.found())
}

// tiedCapacity is what a vehicle may be asked for that is tied back: what its
// tie-back is good for, or its own hold if that is more. Strap and grip do not
// add.
func tiedCapacity(c part.Capacity, tie quantity.Force) part.Capacity {
	if c.Limit.AtMost {
		c = part.Capacity{}
	}
	if c.Limit.Known && c.Limit.Force >= tie {
		return c
	}
	c.Limit.Known, c.Limit.Force, c.Limit.Basis = true, tie, "tie-back"
	c.Limit.Confidence = part.ConfidenceOurs
	if !c.Ultimate.Known {
		c.Ultimate = part.Range{Known: true, Low: tie, Likely: tie, High: tie}
		return c
	}
	c.Ultimate.Low, c.Ultimate.Likely, c.Ultimate.High = max(c.Ultimate.Low, tie), max(c.Ultimate.Likely, tie), max(c.Ultimate.High, tie)
	return c
}

// winches reports whether the line of a vehicle's own winch is in the pull.
func (a *resolving) winches(id plan.ID) bool {
	for i := range a.g.lines {
		if w := a.g.lines[i].winch; w != nil && w.ID == id {
			return true
		}
	}
	return false
}

// portAt is where a port of site or rig is.
func (a *laying) portAt(p plan.Port) r3.Vector {
	if n := a.g.node(p); n >= 0 {
		return a.at(n)
	}
	return r3.Vector{}
}

// casualtyFindings judges what the pull does with the casualty: off its way
// out, on its side, and when it comes free. What it does by itself needs no
// balance.
func (a *rating) casualtyFindings(v *plan.Vehicle) {
	if !a.quiet {
		held := a.restrainedBy(v.ID, plan.UseHoldBack)
		a.rolls = a.comeFree(v, held, nil, a.found()).Rolls
		effort.Uprighting(effort.UprightingIn{Vehicle: v, SlowLine: held.counts}, a.found())
	}
	solved := !a.refused && a.solved.status == part.Within
	if solved {
		sunk := v.Stuck != nil && v.Stuck.Depth != plan.DepthNone && v.Stuck.Depth != plan.DepthUnknown
		a.casualtyTips = a.tips(v, sunk)
		a.tipPart(v, a.casualtyTips)
	}
	if a.quiet {
		return
	}
	var off effort.OffWayResult
	up := 0.0
	if solved {
		off, up = a.offWay(v, nil)
		effort.Pitches(effort.HoldIn{Vehicle: v, Ends: a.perTension(a.solved.unit, v), FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)), FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing)),
			TensionN: float64(a.out.Move.Tension), TensionKnown: a.out.Move.Known, LoosenN: float64(a.out.Loosen.Tension)}, a.found())
	}
	out, lacks := a.wayFall(v)
	ground := &a.g.p.Site.Ground
	effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: ground, FallSideDeg: math.Abs(float64(a.g.ground.Lateral(out))),
		FallLongDeg: float64(a.g.ground.Fall(out)), Lacks: lacks, SideN: float64(off.Side), UpN: math.Max(0, up)}, nil, a.found())
	if solved {
		a.jump(v)
		a.self(v)
	}
}

// wayFall is the casualty's way out, and what the plan lacks to tell how the
// ground falls along it.
func (a *resolving) wayFall(v *plan.Vehicle) (out quantity.Degrees, lacks []part.Lack) {
	out, known := v.WayOut()
	lacks = a.slopeLacks()
	switch {
	case known || v.Stuck == nil:
	case v.Stuck.Way == plan.WayFree:
		lacks = append(lacks, part.Lack{Thing: v.ID, Member: "casualty.way_bearing_deg"})
	default: // a word nobody knows
		lacks = append(lacks, part.Lack{Thing: v.ID, Member: "casualty.way"})
	}
	return out, lacks
}

// comeFree is what the ground does with the casualty once it is free, with
// what holds it back.
func (a *loading) comeFree(v *plan.Vehicle, held restraintSum, derivation *part.Derivation, found *[]part.Finding) effort.FreeResult {
	out, lacks := a.wayFall(v)
	ground := &a.g.p.Site.Ground
	return effort.Free(effort.FreeIn{Vehicle: v, Ground: ground, FallAlongDeg: float64(a.g.ground.Fall(out)), FallSideDeg: float64(a.g.ground.Lateral(out)), Lacks: lacks,
		HoldBackN: held.forceN, HoldBack: held.has, Holds: held.counts, Driver: a.driverIn(v.ID), Chocked: v.Chocked()}, derivation, found)
}

// offWay judges the pull on the casualty against its way out; up is what it
// lifts, newtons.
func (a *solving) offWay(v *plan.Vehicle, found *[]part.Finding) (res effort.OffWayResult, up float64) {
	pull := a.pullOn(v)
	flat, way := a.g.ground.OnGround(pull), a.g.way
	return effort.OffWay(effort.OffWayIn{Casualty: v.ID, OffDeg: float64(part.Angle(flat, way)), PullN: flat.Norm(), PullKnown: !a.solved.move.isNone()}, nil, found), pull.Z
}

// feet takes a foot off the brake where nobody is marked in the vehicle who could
// hold it there. The casualty's own brake makes its wheels drag: that counts.
func (a *resolving) feet() {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		if !v.FootBrake || v == a.g.casualty || a.driverIn(v.ID) {
			continue
		}
		w := copied(a.conservative.vehicle(v))
		w.FootBrake = false
		put(&a.conservative.vehicles, v.ID, w)
		effort.NoFoot(v, a.found())
	}
}

func (a *resolving) driverIn(v plan.ID) bool {
	for i := range a.g.p.Site.People {
		if p := &a.g.p.Site.People[i]; p.Role == plan.RoleDriver && p.Vehicle == v {
			return true
		}
	}
	return false
}

// jump says how far the casualty may jump when it breaks loose.
func (a *rating) jump(v *plan.Vehicle) {
	if a.solved.move.isNone() || !a.res.Breakaway.Known || !a.res.PlannedKnown {
		return
	}
	var pieces []effort.Piece
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil {
			continue
		}
		pieces = append(pieces, effort.Piece{LengthM: float64(a.lineOut(rl.line.ID)), StiffnessN: float64(gear.LineStiffness(rl.line))})
	}
	if len(pieces) == 0 {
		return
	}
	k, _ := effort.LineStiffness(pieces...) // 0: not known, and said so
	// The line is stretched by its own tension; seen from the casualty it is
	// stiffer by the square of the advantage.
	if adv := a.out.Advantage; adv > 0 {
		k *= adv * adv
	}
	effort.Jump(effort.JumpIn{Casualty: v.ID, BreakawayN: float64(a.res.Breakaway.High), RunN: float64(a.res.Planned),
		MassKg: float64(v.Mass + v.Load), LineNPerM: k}, nil, a.found())
}

// self judges the dead end of a casualty that winches itself.
func (a *rating) self(v *plan.Vehicle) {
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch != v || len(rl.line.Path) < 3 {
			continue
		}
		dead := rl.line.Path[len(rl.line.Path)-1]
		kind := ""
		if rp := v.RecoveryPoint(dead.Point); rp != nil && dead.Thing == v.ID {
			kind = rp.Kind
		}
		visit := a.solved.unit.Lines[rl.index].Visits[0]
		effort.SelfRecovery(effort.SelfIn{Vehicle: v, Dead: dead, DeadKind: kind, TensionN: float64(a.out.Move.Tension), Ratio: visit.Ratio, OpensDeg: visit.IncludedDeg}, nil, a.found())
	}
}

// partThing is the thing of a part id: what stands before its slash.
func partThing(id string) plan.ID {
	head, _, _ := strings.Cut(id, "/")
	return plan.ID(head)
}
