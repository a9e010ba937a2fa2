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

// hookedOn visits every force that the pull puts on a vehicle, and where.
func (a *assessor) hookedOn(r *solution, vehicle plan.ID, visit func(at, forceN part.Vec)) {
	if r.isNone() {
		return
	}
	for n := range r.Points {
		if p := &r.Points[n]; a.g.on[n].Thing == vehicle && p.ForceN != [3]float64{} {
			visit(part.Vec(p.Pos), part.Vec(p.ForceN).Scale(r.times))
		}
	}
}

// inVehicle is a vector in the axes of a vehicle on its ground: ahead, left,
// and up off the plane.
func (a *assessor) inVehicle(v *plan.Vehicle, u part.Vec) part.Vec {
	ahead, up := a.g.ground.Along(v.Bearing), a.g.ground.Normal()
	return part.Vec{u.Dot(ahead), u.Dot(up.Cross(ahead)), u.Dot(up)}
}

// allOn visits every force on a vehicle, what restrains another one included.
func (a *assessor) allOn(r *solution, vehicle plan.ID, visit func(at, forceN part.Vec)) {
	a.hookedOn(r, vehicle, visit)
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
func (a *assessor) vehicleParts() {
	for _, held := range []bool{false, true} {
		if held {
			a.checkRestraints()
		}
		for i := range a.g.p.Site.Vehicles {
			v := &a.g.p.Site.Vehicles[i]
			own := a.restrainedAt(func(p plan.Port) bool { return p.Thing == v.ID })
			if !a.g.touches(v.ID) && !own || a.heldAtAll(v.ID) != held {
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
}

// heldAtAll tells that a restraint is meant for a vehicle.
func (a *assessor) heldAtAll(id plan.ID) bool {
	for i := range a.g.restraints {
		if a.g.restraints[i].own.Thing == id {
			return true
		}
	}
	return false
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
		return part.Load{Known: true, Force: quantity.Force(a.winchTension(r))}
	}).by(a.timesOf(a.g.liesOn(ofThing(v.ID))))
	var c part.Capacity
	if !a.refused && a.solved.status == part.Within {
		ends, _ := a.perTension(v)
		ground := a.g.p.Site.Ground
		held := a.restrainedBy(v.ID, plan.UseTieBack)
		h := effort.PullerHold(effort.HoldIn{
			Vehicle: a.weak.vehicle(v), Ground: &ground, Ends: ends,
			FallAheadDeg: float64(a.g.ground.Fall(v.Bearing)), FallLeftDeg: -float64(a.g.ground.Lateral(v.Bearing)),
			TensionN: float64(b.move.Force), TensionKnown: b.move.Known, TiedBack: held.counts,
		}, a.sumOf(id), a.found())
		c = h.Capacity(false)
		if !winch {
			braked := v.Chocks != plan.ChocksNone || v.Brake != plan.BrakeUnknown && v.Brake != plan.BrakeNone || v.FootBrake
			c = hold.Vehicle(hold.VehicleIn{Vehicle: v.ID, Slides: h.Hold, Braked: braked, Surety: part.SuretyOurs, Lifting: a.lifting}, a.sumOf(id), a.found())
		}
		if held.counts {
			c = tiedCapacity(c, quantity.Force(held.forceN))
			a.sumOf(id).Add("tied-hold", part.Value{Name: "limit", Unit: part.UnitLimit, X: float64(c.Limit.Force)}, part.Operand{Value: part.Value{Name: "tie", Unit: part.UnitLimit, X: held.forceN}})
		}
	}
	a.add(part.Part{ID: id, Kind: part.KindSlide, Thing: v.ID}, b, c)
}

// tiedCapacity is what a vehicle may be asked for that is tied back: what its
// tie-back is good for, or its own hold if that is more. Strap and grip do not
// add.
func tiedCapacity(c part.Capacity, tie quantity.Force) part.Capacity {
	if c.Limit.Known && c.Limit.Force >= tie {
		return c
	}
	c.Limit.Known, c.Limit.Force, c.Limit.Basis, c.Limit.Factor = true, tie, "tie-back", 1
	c.Limit.Surety = part.SuretyOurs
	if !c.Ultimate.Known {
		c.Ultimate = part.Range{Known: true, Low: tie, Likely: tie, High: tie}
		return c
	}
	c.Ultimate.Low, c.Ultimate.Likely, c.Ultimate.High = max(c.Ultimate.Low, tie), max(c.Ultimate.Likely, tie), max(c.Ultimate.High, tie)
	return c
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
	res, side := weigh(a.solved.move.main(), a.sumOf(id), a.found())
	if !res.Known || !(res.Share > tipShown) || side == 0 {
		return
	}
	b := a.loads(func(r *solution) part.Load {
		_, s := weigh(r, nil, nil)
		return part.Load{Known: true, Force: quantity.Force(math.Abs(s))}
	})
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
	held := a.restrainedBy(v.ID, plan.UseHoldBack)
	free := a.comeFree(v, held, a.found())
	a.rolls = free.Known && free.Roll > 0
	if off.Known {
		effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: &ground, FallSideDeg: math.Abs(float64(a.g.ground.Lateral(out))),
			FallLongDeg: float64(a.g.ground.Fall(out)), SideN: float64(off.Side), UpN: math.Max(0, up)}, nil, a.found())
	}
	effort.Uprighting(effort.UprightingIn{Vehicle: v, SlowLine: held.counts}, a.found())
	a.jump(v)
	a.self(v)
}

// comeFree is what the ground does with the casualty once it is free, with
// what holds it back.
func (a *assessor) comeFree(v *plan.Vehicle, held restraintSum, found *[]part.Finding) effort.FreeResult {
	out, _ := v.WayOut()
	ground := a.g.p.Site.Ground
	return effort.Free(effort.FreeIn{Vehicle: v, Ground: &ground, FallAlongDeg: float64(a.g.ground.Fall(out)), FallSideDeg: float64(a.g.ground.Lateral(out)),
		HoldBackN: held.forceN, HoldBack: held.has, Holds: held.counts, Driver: a.driverIn(v.ID), Chocked: v.Chocks != plan.ChocksNone}, nil, found)
}

// offWay judges the pull on the casualty against its way out; up is what it
// lifts, newtons.
func (a *assessor) offWay(v *plan.Vehicle, found *[]part.Finding) (res effort.OffWayResult, up float64) {
	pull := a.pullOn(v)
	flat, way := a.g.ground.OnGround(pull), a.g.way
	return effort.OffWay(effort.OffWayIn{Casualty: v.ID, OffDeg: float64(flat.Angle(way)), PullN: flat.Len(), PullKnown: !a.solved.move.isNone()}, nil, found), pull[2]
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
