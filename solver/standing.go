package solver

import (
	"math"
	"strings"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// hookedOn visits every force that lines, slings and blocks put on a vehicle,
// and where.
func (a *assessor) hookedOn(r *solution, vehicle plan.ID, visit func(at, forceN part.Vec)) {
	if r.isNone() {
		return
	}
	hook := visit
	visit = func(at, forceN part.Vec) { hook(at, forceN.Scale(r.times)) }
	on := func(p plan.Port) bool { return p.Thing == vehicle }
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if rs.index < 0 {
			continue
		}
		f := part.Vec(r.Slings[rs.index].Dir).Scale(r.Slings[rs.index].TensionN)
		if on(rs.sling.On) {
			visit(part.Vec(r.Points[rs.from].Pos), f)
		}
		if on(rs.sling.Holds) {
			visit(part.Vec(r.Points[rs.to].Pos), f.Scale(-1))
		}
	}
	for i := range a.g.blocks {
		if rb := &a.g.blocks[i]; on(rb.block.Fixed) {
			visit(part.Vec(r.Points[rb.node].Pos), part.Vec(r.Points[rb.node].ForceN))
		}
	}
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 {
			continue
		}
		sts := r.Lines[rl.index].Stretches
		for k, port := range rl.line.Path {
			if !on(port) {
				continue
			}
			at := part.Vec(r.Points[rl.path[k]].Pos)
			var f part.Vec
			if k > 0 {
				f = f.Sub(part.Vec(sts[k-1].Dir).Scale(sts[k-1].TensionN))
			}
			if k < len(sts) {
				f = f.Add(part.Vec(sts[k].Dir).Scale(sts[k].TensionN))
			}
			visit(at, f)
		}
	}
}

// inVehicle is a vector in the axes of a vehicle on its ground: ahead, left,
// and up off the plane.
func (a *assessor) inVehicle(v *plan.Vehicle, u part.Vec) part.Vec {
	ahead, up := a.g.ground.Along(v.Bearing), a.g.ground.Normal()
	return part.Vec{u.Dot(ahead), u.Dot(up.Cross(ahead)), u.Dot(up)}
}

// allOn visits every force on a vehicle, tie-backs of others included.
func (a *assessor) allOn(r *solution, vehicle plan.ID, visit func(at, forceN part.Vec)) {
	a.hookedOn(r, vehicle, visit)
	a.tiesOn(r, vehicle, visit)
}

// vehicleParts makes a part of what keeps each pulled vehicle where it stands.
func (a *assessor) vehicleParts() {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		if !a.g.touches(v.ID) && !a.tiedTo(v.ID) {
			continue
		}
		if v == a.g.casualty {
			a.casualtyFindings(v)
			continue
		}
		a.slidePart(v)
		a.tipPart(v, false)
	}
}

// perTension is every line end on a vehicle per newton of winch line tension,
// in the vehicle's axes.
func (a *assessor) perTension(v *plan.Vehicle) (ends []effort.LineEnd, tensionN float64) {
	r := a.solved.unit
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
			tensionN = r.tension(rl.index)
			break
		}
	}
	if !(tensionN > 0) {
		return nil, 0
	}
	foot := a.g.ground.Lift(v.At, float64(v.Rise))
	a.allOn(r, v.ID, func(at, f part.Vec) {
		d := a.inVehicle(v, at.Sub(foot))
		ends = append(ends, effort.LineEnd{
			PerTension: a.inVehicle(v, f).Scale(1 / tensionN),
			AheadM:     d[0], LeftM: d[1], HeightM: math.Max(0, d[2]+float64(v.Rise)),
		})
	})
	return ends, tensionN
}

// slidePart is a vehicle that must stand, against the line tension at which it
// moves. A puller's limit is the low hold itself: moving is what is asked. A
// vehicle without the winch is an anchor, and keeps the margin of one.
func (a *assessor) slidePart(v *plan.Vehicle) {
	id := string(v.ID) + "/slide"
	winch := a.winches(v.ID)
	b := a.loads(func(r *solution) part.Load {
		if r.isNone() {
			return part.Load{}
		}
		for i := range a.g.lines {
			if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
				t := r.tension(rl.index)
				return part.Load{Known: true, Force: quantity.Force(t)}
			}
		}
		return part.Load{}
	})
	b.move = times(b.move, a.timesOf(v.ID))
	var c part.Capacity
	if !a.refused && a.solved.status == part.Within {
		ends, _ := a.perTension(v)
		ground := a.g.p.Site.Ground
		h := effort.PullerHold(effort.HoldIn{
			Vehicle: a.weak.vehicle(v), Ground: &ground, Ends: ends,
			FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)), FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing)),
			TensionN: float64(b.move.Force), TensionKnown: b.move.Known, TiedBack: a.tiedBack(v.ID),
		}, a.sumOf(id), a.found())
		c = h.Capacity(false)
		if !winch {
			braked := v.Chocks != plan.ChocksNone || v.Brake != plan.BrakeUnknown && v.Brake != plan.BrakeNone || v.FootBrake
			c = hold.Vehicle(hold.VehicleIn{Vehicle: v.ID, Slides: h.Hold, Braked: braked, Surety: part.SuretyOurs, Lifting: a.lifting}, a.sumOf(id), a.found())
		}
		a.tieParts(v, b)
	}
	p := part.Part{ID: id, Kind: part.KindSlide, Thing: v.ID}
	if a.tiedBack(v.ID) {
		return // strap and grip do not add: the tie-back holds it, with parts of its own
	}
	a.add(p, b, c)
}

// winches tells that the line of a vehicle's own winch is in the pull.
func (a *assessor) winches(id plan.ID) bool {
	for i := range a.g.lines {
		if w := a.g.lines[i].winch; w != nil && w.ID == id {
			return true
		}
	}
	return false
}

// portAt is where a port of site or rig is.
func (a *assessor) portAt(p plan.Port) part.Vec {
	if n := a.g.node(p); n >= 0 {
		return a.at(n)
	}
	return part.Vec{}
}

// tipPart is a vehicle pulled across, against tipping over its lower wheels.
func (a *assessor) tipPart(v *plan.Vehicle, sunk bool) {
	id := string(v.ID) + "/tip"
	if a.refused || a.solved.status != part.Within {
		return
	}
	foot := a.g.ground.Lift(v.At, float64(v.Rise))
	weigh := func(r *solution, sum *part.Sum, found *[]part.Finding) (res effort.TipResult, side float64) {
		var moment, up float64
		a.hookedOn(r, v.ID, func(at, f part.Vec) {
			d := a.inVehicle(v, at.Sub(foot))
			fv := a.inVehicle(v, f)
			side += fv[1]
			up += fv[2]
			moment += fv[1] * math.Max(0, d[2])
		})
		fall := -float64(a.g.ground.Lateral(v.Bearing))
		if side == 0 && fall == 0 {
			return effort.TipResult{}, 0
		}
		height := 0.0
		if side != 0 {
			height = moment / side
		}
		if side < 0 {
			side, fall = -side, -fall
		}
		return effort.Tipping(effort.TipIn{Vehicle: a.weak.vehicle(v), SideN: side, HeightM: height, UpN: up, FallSideDeg: fall,
			FallLongDeg: float64(a.g.ground.Fall(v.Bearing)), Sunk: sunk}, sum, found), side
	}
	if a.solved.move.isNone() {
		return
	}
	res, side := weigh(a.solved.move, a.sumOf(id), a.found())
	if !res.Known || !(res.Share > tipShown) || side == 0 {
		return
	}
	b := both{move: part.Load{Known: true, Force: quantity.Force(side)}}
	if !a.solved.stall.isNone() {
		_, s := weigh(a.solved.stall, nil, nil)
		b.stall = part.Load{Known: true, Force: quantity.Force(s)}
	}
	a.add(part.Part{ID: id, Kind: part.KindTip, Thing: v.ID}, b, tipCapacity(side, res))
}

// tipCapacity turns shares of the righting moment into the side force that
// reaches half of it (the limit, ours) and all of it.
func tipCapacity(sideN float64, t effort.TipResult) part.Capacity {
	if !(t.Share > 0) || math.IsInf(t.Share, 1) {
		return part.Capacity{}
	}
	whole := quantity.Force(sideN / t.Share)
	return part.Capacity{
		Limit:    part.Limit{Known: true, Force: whole / 2, Basis: "vehicle tips", Factor: 0.5, Surety: part.SuretyOurs, Preset: t.Preset},
		Ultimate: part.Range{Known: true, Low: whole, Likely: whole, High: whole},
		Note:     "tips",
	}
}

// tipShown is the share of the righting moment from which tipping is a part of
// its own. (ours)
const tipShown = 0.1

// casualtyFindings judges what the pull does with the casualty: off its way
// out, on its side, and when it comes free.
func (a *assessor) casualtyFindings(v *plan.Vehicle) {
	if a.refused || a.solved.status != part.Within {
		return
	}
	off, up := a.offWay(v, nil)
	sunk := v.Stuck != nil && v.Stuck.Depth != plan.DepthNone && v.Stuck.Depth != plan.DepthUnknown
	a.tipPart(v, sunk)
	out, _ := v.WayOut()
	ground := a.g.p.Site.Ground
	holdBack, hasBack := a.holdBack(v.ID)
	free := effort.Free(effort.FreeIn{Vehicle: v, Ground: &ground, FallAlongDeg: float64(a.g.ground.Fall(out)), FallSideDeg: float64(a.g.ground.Lateral(out)),
		HoldBackN: holdBack, HoldBack: hasBack, Driver: a.driverIn(v.ID), Chocked: v.Chocks != plan.ChocksNone}, nil, a.found())
	a.rolls = free.Known && free.Roll > 0
	if off.Known {
		effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: &ground, FallSideDeg: math.Abs(float64(a.g.ground.Lateral(out))),
			FallLongDeg: float64(a.g.ground.Fall(out)), SideN: float64(off.Side), UpN: math.Max(0, up)}, nil, a.found())
	}
	effort.Uprighting(effort.UprightingIn{Vehicle: v, SlowLine: hasBack}, a.found())
	a.jump(v)
	a.self(v)
}

// offWay judges the pull on the casualty against its way out; up is what it
// lifts, newtons.
func (a *assessor) offWay(v *plan.Vehicle, found *[]part.Finding) (res effort.OffWayResult, up float64) {
	r := a.solved.unit
	if !a.solved.move.isNone() {
		r = a.solved.move
	}
	var pull part.Vec
	a.hookedOn(r, v.ID, func(_, f part.Vec) { pull = pull.Add(f) })
	flat, way := a.g.ground.OnGround(pull), a.g.way
	return effort.OffWay(effort.OffWayIn{Casualty: v.ID, OffDeg: float64(flat.Angle(way)), PullN: flat.Len(), PullKnown: !a.solved.move.isNone()}, nil, found), pull[2]
}

// holdBack is the limit of a hold-back line or strap on the casualty, 0 if it
// has none that is known.
func (a *assessor) holdBack(id plan.ID) (limitN float64, has bool) {
	for i := range a.g.r.Slings {
		s := &a.g.r.Slings[i]
		if s.Use == plan.UseHoldBack && (s.On.Thing == id || s.Holds.Thing == id) {
			st := gear.Sling(gear.SlingIn{Sling: a.weak.sling(s), Hitch: plan.HitchStraight, Lifting: a.lifting}, nil, nil)
			return float64(st.Limit.Force), true
		}
	}
	for i := range a.g.r.Lines {
		l := &a.g.r.Lines[i]
		if l.Use != plan.UseHoldBack {
			continue
		}
		for _, p := range l.Path {
			if p.Thing == id {
				return float64(gear.Stretch(gear.StretchIn{Line: a.weak.line(l), End: true, Lifting: a.lifting}, nil, nil).Limit.Force), true
			}
		}
	}
	return 0, false
}

func (a *assessor) driverIn(v plan.ID) bool {
	for i := range a.g.p.Site.People {
		if p := &a.g.p.Site.People[i]; p.Role == plan.RoleDriver && p.Vehicle == v {
			return true
		}
	}
	return false
}

// jump says how far the casualty may jump when it breaks loose.
func (a *assessor) jump(v *plan.Vehicle) {
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
func (a *assessor) self(v *plan.Vehicle) {
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
