package solver

import (
	"github.com/golang/geo/r3"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// parts makes the parts of the rig, in the order in which force runs: each
// winch with its line, then blocks, slings, shackles, hook-on points, anchors,
// and what keeps vehicles standing.
func (a *rating) parts() {
	g := a.g
	if a.out.Parts == nil {
		n := len(a.out.Stretches) + 2*len(g.lines) + len(g.blocks) + len(g.slings) + len(g.r.Shackles)
		for id := range g.touched {
			n++
			if g.things.Vehicle(id) != nil {
				n += 2 // a point, and what keeps it where it stands
			}
		}
		a.out.Parts = make([]part.Part, 0, n)
	}
	for i := range g.lines {
		a.lineParts(i)
	}
	for i := range g.blocks {
		a.blockPart(&g.blocks[i])
	}
	for i := range g.slings {
		a.slingPart(&g.slings[i])
	}
	for i := range g.r.Shackles {
		a.shacklePart(&g.r.Shackles[i])
	}
	a.restraintParts()
	a.pointParts()
	a.anchorParts()
	a.vehicleParts()
}

// pulls is one load at the three pulls.
type pulls struct{ move, loosen, stall part.Load }

// times is the loads times a factor.
func (b pulls) times(f float64) pulls {
	return pulls{times(b.move, f), times(b.loosen, f), times(b.stall, f)}
}

// by is the loads times the factors of their chain.
func (b pulls) by(f factors) pulls {
	return pulls{times(b.move, f.planned), times(b.loosen, f.planned), times(b.stall, f.stall)}
}

// loads asks for a load at the three pulls, each the worse of its balances.
// Refused rigs have none.
func (a *loading) loads(of func(r *solution) part.Load) pulls {
	if a.refused || a.solved.status != part.Within {
		return pulls{}
	}
	worse := func(b *balances) part.Load {
		if b.isNone() {
			return part.Load{}
		}
		l := of(b[0])
		if b[1] != nil {
			if m := of(b[1]); !m.Known || l.Known && m.Force > l.Force {
				l = m
			}
		}
		return l
	}
	s := &a.solved
	b := pulls{move: worse(&s.move), stall: worse(&s.stall)}
	if b.loosen = b.move; s.loosen != s.move {
		b.loosen = worse(&s.loosen)
	}
	return b
}

// add finishes a part: judges it, records its sum and takes it.
func (a *rating) add(p *part.Part, b pulls, c part.Capacity) {
	if (a.unknownBy(p) || a.tethered(p)) && !(b.move.Known && c.Limit.Known && b.move.Force > c.Limit.Force) { // over by what is known is over
		b = pulls{}
	}
	p.Move, p.Loosen, p.Stall = b.move, b.loosen, b.stall
	p.Limit, p.Ultimate, p.Note = c.Limit, c.Ultimate, c.Note
	if a.refused {
		// Its limit would be that of a rig nobody balanced: bends, layers and
		// angles are not those of the pull.
		p.Limit, p.Ultimate, p.Note = part.Limit{}, part.Range{}, ""
	}
	switch {
	case a.out.Status == part.NotUnderstood && !p.Move.Known:
		p.Status = part.NotUnderstood
	case a.refused:
		p.Status, p.Why = part.Refused, a.whyNot
	case p.Move.Known && float64(p.Move.Force) <= slackShare*float64(a.out.Move.Tension) && p.Kind != part.KindSlide && p.Kind != part.KindTip && p.Kind != part.KindFairlead:
		p.Status = part.Slack
	default:
		p.Judge()
	}
	a.record(p)
	a.out.Parts = append(a.out.Parts, *p)
}

// slackShare is the share of the winch line tension under which a part counts
// as slack: what the solver leaves as noise, and far less than any weight of
// gear that is not counted. (ours)
const slackShare = 1e-6

// record ends the sum of the part that is explained.
func (a *rating) record(p *part.Part) {
	derivation := a.derivationOf(p.ID)
	if !derivation.On() {
		return
	}
	limit := part.Operand{Value: part.Number("limit", part.UnitLimit, p.Limit.Force)}
	moved := part.Operand{Value: part.Force("load", p.Move.Force)}
	switch {
	case p.Status == part.Refused || p.Status == part.NotComputed || p.Status == part.NotUnderstood:
		derivation.Add("not-computed", part.Word("why", p.Why))
	case p.Known():
		derivation.Add("used", part.Number("used", part.UnitShare, p.Move.Force/p.Limit.Force), moved, limit)
		if p.Looser() {
			loosened := part.Operand{Value: part.Force("load", p.Loosen.Force)}
			derivation.Add("used-to-break-loose", part.Number("used", part.UnitShare, p.UsedToLoosen()), loosened, limit)
		}
	default:
		derivation.Add("no-limit", part.Force("load", p.Move.Force))
	}
}

// lineParts makes the winch, the fairlead and the stretches of a line.
func (a *rating) lineParts(i int) {
	rl := &a.g.lines[i]
	l := rl.line
	if l.Use != plan.UsePull {
		return
	}
	if rl.winch != nil && len(rl.path) > 1 {
		a.winchPart(rl)
	}
	n := len(rl.path) - 1
	for k := 0; k < n; k++ {
		id := rl.parts[k]
		b := a.loads(func(r *solution) part.Load { return a.stretchLoad(r, rl.index, k) })
		c := gear.Stretch(gear.StretchIn{
			Line: a.conservative.line(l), Part: id, Bends: [2]gear.Bend{a.bend(rl, k), a.bend(rl, k+1)},
			End: k == n-1, OnWinch: rl.winch != nil, Pulled: a.g.hasWinch(), Lifting: a.lifting,
		}, a.derivationOf(id), a.found())
		times := a.timesOfLine(rl)
		b = b.by(times)
		how := func() []came { return onStretch(rl.index, k, times.planned) }
		a.say(id, b, how)
		a.add(&part.Part{ID: id, Kind: part.KindStretch, Thing: l.ID, Index: k, From: l.Path[k].Thing, To: l.Path[k+1].Thing}, b, c)
		a.connectors(l, k, n, b, func(id string) { a.say(id, b, how) })
	}
}

// bend is what a line turns round at the k-th port of its path.
func (a *laying) bend(rl *riggedLine, k int) gear.Bend {
	if k <= 0 || k >= len(rl.path)-1 || a.solved.status != part.Within || rl.index < 0 {
		return gear.Bend{}
	}
	v := a.solved.unit.Lines[rl.index].Visits[k-1]
	bd := gear.Bend{Thing: rl.line.Path[k].Thing, Turn: quantity.Degrees(180 - v.IncludedDeg)}
	if blk := a.g.things.Block(bd.Thing); blk != nil {
		bd.Diameter, bd.Member = a.conservative.block(blk).Sheave, "sheave_diameter_m"
	} else if t := a.g.things.Anchor(bd.Thing); t != nil {
		bd.Diameter, bd.Member = terrain.AtStrapThin(a.conservative.anchor(t)), "trunk_m"
	} else if k := a.g.things.Shackle(bd.Thing); k != nil {
		bd.Diameter, bd.Member = a.conservative.shackle(k).Body, "body_m"
	}
	return bd
}

// winchPart is the pull of a winch on its layer, and the load across its
// fairlead where the line does not lead straight.
func (a *rating) winchPart(rl *riggedLine) {
	v, l := rl.winch, rl.line
	id := a.joined(v.ID, string(plan.PortWinch))
	b := a.loads(func(r *solution) part.Load { return a.stretchLoad(r, rl.index, 0) })
	times := a.timesOfLine(rl)
	b = b.by(times)
	first := a.at(rl.path[1]).Sub(a.at(rl.path[0]))
	spot, _ := v.PortPlace(plan.PortWinch)
	axis := a.g.ground.Along(spot.Axis)
	side := spot.Axis.Turn(terrain.VecBearing(first))
	lead := part.Angle(first, axis)
	w := gear.Winch(gear.WinchIn{Vehicle: v.ID, Part: id, Winch: a.conservative.vehicle(v).Winch, Line: a.conservative.line(l), Path: a.lineOut(l.ID), Side: side}, a.derivationOf(id), a.found())
	gear.TensionBeyond(v.ID, strongest(v), l, a.found())
	how := func() []came { return onStretch(rl.index, 0, times.planned) }
	a.say(id, b, how)
	p := part.Part{ID: id, Kind: part.KindWinch, Thing: v.ID, To: l.ID, Layer: w.Layer}
	a.running(&p, rl, b.move, w.Layer)
	a.add(&p, b, w.Capacity)
	a.out.Lines = append(a.out.Lines, LineUse{Line: l.ID, Out: a.lineOut(l.ID), Has: l.Length, Layer: w.Layer, Wraps: w.Wraps, Missing: w.Missing})
	fid := a.joined(v.ID, "fairlead")
	across := gear.Fairlead(gear.FairleadIn{Vehicle: v.ID, Part: fid, Winch: v.Winch, Tension: b.move.Force, Lead: lead, Side: side, Assumed: spot.AxisAssumed, Guide: a.out.Stretches[a.firstStretch(l.ID)].Length}, nil, a.found())
	if lead > fairleadShown && b.move.Known {
		fp := part.Part{ID: fid, Kind: part.KindFairlead, Thing: v.ID, Angle: lead}
		fb := pulls{move: part.Load{Known: true, Force: across}, loosen: turned(b.loosen, lead), stall: turned(b.stall, lead)}
		a.say(fid, fb, func() []came { return acrossLead(how(), lead) })
		a.add(&fp, fb, part.Capacity{})
	}
}

// turned is the load across a fairlead that turns a tension.
func turned(tension part.Load, lead quantity.Degrees) part.Load {
	if !tension.Known {
		return part.Load{}
	}
	return part.Load{Known: true, Force: gear.FairleadLoad(tension.Force, lead)}
}

// fairleadShown is the angle of the line off a straight lead over which the
// load across the fairlead is a part of its own: from there it is a finding
// too. (ours)
const fairleadShown quantity.Degrees = 15

func (a *laying) firstStretch(line plan.ID) int {
	for i := range a.out.Stretches {
		if a.out.Stretches[i].Line == line {
			return i
		}
	}
	return 0
}

// lineOut is the length of a line along its stretches.
func (a *laying) lineOut(line plan.ID) quantity.Length {
	sum := quantity.Length(0)
	for i := range a.out.Stretches {
		if a.out.Stretches[i].Line == line {
			sum += a.out.Stretches[i].Length
		}
	}
	return sum
}

// linesUsed adds the lines that no winch part told of.
func (a *laying) linesUsed() {
	for i := range a.g.lines {
		l := a.g.lines[i].line
		told := false
		for k := range a.out.Lines {
			told = told || a.out.Lines[k].Line == l.ID
		}
		if !told {
			a.out.Lines = append(a.out.Lines, LineUse{Line: l.ID, Out: a.lineOut(l.ID) - a.laidRound(l.ID), Has: l.Length})
		}
	}
}

// blockPart is a block under the vector sum of its lines.
func (a *rating) blockPart(rb *riggedBlock) {
	id := string(rb.block.ID)
	b := a.loads(func(r *solution) part.Load {
		if !a.g.lineAt(rb.node) {
			return a.meetingLoad(r, rb.node)
		}
		return a.linesOn(r, rb.node)
	}).by(a.timesOf(lies(rb.node)))
	in := gear.BlockIn{Block: a.conservative.block(rb.block), Load: b.move.Force, Lifting: a.lifting}
	angle := quantity.Degrees(0)
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		for k := 1; k+1 < len(rl.line.Path); k++ {
			if rl.line.Path[k].Thing != rb.block.ID {
				continue
			}
			in.Line = rl.line
			if !a.solved.move.isNone() && !a.refused && rl.index >= 0 {
				move := a.solved.move.main()
				sts := move.Lines[rl.index].Stretches
				in.Tension = max(in.Tension, quantity.Force(max(sts[k-1].TensionN, sts[k].TensionN)*move.times))
			}
			if a.solved.status == part.Within && rl.index >= 0 {
				angle = quantity.Degrees(a.solved.unit.Lines[rl.index].Visits[k-1].IncludedDeg)
			}
		}
	}
	in.Between = angle
	if in.Line == nil && !a.refused && !a.g.meeting(rb.node) {
		return // nothing comes to it: it carries nothing, and is no part of the pull
	}
	c := gear.Block(in, a.derivationOf(id), a.found())
	a.say(id, b, func() []came { return a.onBlock(rb.node, a.timesOf(lies(rb.node)).planned) })
	a.add(&part.Part{ID: id, Kind: part.KindBlock, Thing: rb.block.ID, Angle: angle}, b, c)
}

// slingPart is a sling with both of its checks.
func (a *rating) slingPart(rs *riggedSling) {
	if a.g.restrains[rs.sling.ID] || rs.from < 0 {
		return
	}
	id := string(rs.sling.ID)
	b := a.loads(func(r *solution) part.Load { return a.slingLoad(r, rs) })
	times := a.timesOf(lies(rs.to))
	b = b.by(times).times(max(1, rs.times))
	st := gear.Sling(gear.SlingIn{
		Sling: a.conservative.sling(rs.sling), Part: id, Hitch: Hitch(rs.sling, rs.onTrunk), OnTrunk: rs.onTrunk, Radius: rs.radius,
		Round: rs.round, Load: b.move.Force, OnWinch: true, Lifting: a.lifting,
	}, a.derivationOf(id), a.found())
	a.say(id, b, func() []came { return onSling(rs, times.planned, true) })
	p := part.Part{ID: id, Kind: part.KindSling, Thing: rs.sling.ID, Angle: rs.round.Opens, From: rs.sling.On.Thing, To: rs.sling.Holds.Thing}
	if st.Leg > 0 {
		p.Values = a.given(part.Force("leg", st.Leg))
	}
	a.add(&p, b, st.Capacity)
}

// shacklePart is a shackle under what it joins.
func (a *rating) shacklePart(k *plan.Shackle) {
	id := string(k.ID)
	if a.restraintShackle(k, id) {
		return
	}
	node := a.g.node(plan.Port{Thing: k.ID})
	if node < 0 {
		return
	}
	var between quantity.Degrees
	var line quantity.Length
	b := a.loads(func(r *solution) part.Load { return a.shackleLoad(r, k, node, &between) }).by(a.timesOf(lies(node)))
	for _, j := range k.Joins {
		if l := a.g.things.Line(j.Thing); l != nil {
			line = l.Diameter
		}
	}
	if len(k.Joins) == 0 && !b.move.Known && !a.refused && !a.solved.move.isNone() {
		return
	}
	c := gear.Shackle(gear.ShackleIn{Shackle: a.conservative.shackle(k), Part: id, Off: a.shackleOff(k, b), Between: between, Line: line}, a.derivationOf(id), a.found())
	c.Limit.AtMost = a.shackleDirection(k) || c.Limit.AtMost
	a.say(id, b, func() []came { return a.onShackle(k, node, a.timesOf(lies(node)).planned) })
	a.add(&part.Part{ID: id, Kind: part.KindShackle, Thing: k.ID, Angle: between}, b, c)
}

// shackleOff is the pull off a shackle's own line: one on a recovery point
// stands in the point's direction, any other turns into the pull.
func (a *rating) shackleOff(k *plan.Shackle, b pulls) quantity.Degrees {
	l := b.move
	if !l.Known {
		l = b.stall
	}
	for _, j := range k.Joins {
		v := a.g.things.Vehicle(j.Thing)
		if v == nil || !l.Known {
			continue
		}
		if spot, ok := v.PortPlace(j.Point); ok && spot.HasAxis {
			axis := a.g.ground.Along(spot.Axis)
			off := part.Angle(l.Vec, axis)
			if l.Vec.Dot(axis) < 0 { // a sling's load is told from the other end
				off = 180 - off
			}
			return off
		}
	}
	return 0
}

// shackleLoad is the force a shackle passes on: that of the sling it joins, or
// of the block or line; of a shackle that is a meeting place, what pulls on it
// from one side, with the widest angle between two legs.
func (a *rating) shackleLoad(r *solution, k *plan.Shackle, node int, between *quantity.Degrees) part.Load {
	if r.isNone() {
		return part.Load{}
	}
	for _, j := range k.Joins {
		for i := range a.g.slings {
			if rs := &a.g.slings[i]; rs.sling.ID == j.Thing {
				return times(a.slingLoad(r, rs), max(1, rs.times))
			}
		}
	}
	for _, j := range k.Joins {
		for i := range a.g.blocks {
			if a.g.blocks[i].block.ID == j.Thing {
				return a.linesOn(r, a.g.blocks[i].node)
			}
		}
	}
	for _, j := range k.Joins {
		for i := range a.g.lines {
			rl := &a.g.lines[i]
			if rl.line.ID == j.Thing && rl.index >= 0 {
				return a.stretchLoad(r, rl.index, len(rl.path)-2)
			}
		}
	}
	if len(k.Joins) > 0 {
		return part.Load{}
	}
	for _, legs := range a.legsAt(r, node) {
		for i := range legs {
			for j := range i {
				*between = max(*between, part.Angle(legs[i].pullAt(r, node), legs[j].pullAt(r, node)))
			}
		}
	}
	return a.meetingLoad(r, node)
}

// pointParts makes a part of each recovery point that something is fast to.
func (a *rating) pointParts() {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		for k := range v.Recovery {
			port := plan.Port{Thing: v.ID, Point: v.Recovery[k].ID}
			if a.g.used(port) || a.restrainedAt(atPort(port)) {
				a.pointPart(v, port)
			}
		}
	}
}

func (a *rating) pointPart(v *plan.Vehicle, port plan.Port) {
	id := a.joined(port.Thing, string(port.Point))
	spot, _ := v.PortPlace(port.Point)
	axis := a.g.ground.Along(spot.Axis)
	times := a.timesAt(atPort(port))
	b := a.loads(func(r *solution) part.Load {
		l := a.siteLoad(r, atPort(port))
		if !l.Known {
			return l
		}
		return loadAlong(l.Vec, axis)
	}).by(times)
	off := b.move.Off
	if !b.move.Known {
		off = b.stall.Off
	}
	if !b.move.Known && !b.stall.Known && a.solved.status == part.Within {
		off = part.Angle(a.siteLoad(a.solved.unit, atPort(port)).Vec, axis)
	}
	c := gear.RecoveryPoint(gear.PointIn{Vehicle: v.ID, Part: id, Point: a.conservative.point(v, port.Point), Off: off, Assumed: spot.AxisAssumed, Lifting: a.lifting}, a.derivationOf(id), a.found())
	a.say(id, b, func() []came { return a.onSite(atPort(port), times.planned) })
	if spot.AxisAssumed { // what nobody said is not shown either
		off = 0
		for _, l := range [...]*part.Load{&b.move, &b.loosen, &b.stall} {
			l.Axis, l.Off, l.Side = r3.Vector{}, 0, 0
		}
	}
	a.add(&part.Part{ID: id, Kind: part.KindPoint, Thing: v.ID, Angle: off}, b, c)
}
