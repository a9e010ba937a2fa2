package solver

import (
	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A chain is a winch line with all that it loads: blocks, slings, shackles,
// anchors, hook-on points. This file has the rules that look at a whole chain.

// chains finds by how much each line's chain is reckoned above its balance:
// with several winches each is checked for the whole pull, because nothing
// keeps them hauling alike.
func (a *assessor) chains() {
	if a.refused || a.solved.move.isNone() {
		return
	}
	whole, n := quantity.Force(0), 0
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil && a.g.moves(rl.line) {
			whole += quantity.Force(a.solved.move.Lines[rl.index].TensionN)
			n++
		}
	}
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 {
			continue
		}
		rl.times = 1
		if rl.winch != nil && n > 1 && a.g.moves(rl.line) {
			rl.times = gear.TwoWinches(rl.line.ID, quantity.Force(a.solved.move.Lines[rl.index].TensionN), whole, a.found())
		}
		a.lineRules(rl)
	}
}

// lineRules raises what concerns a line as a whole: stretch rope, joins and
// what cannot pass a sheave, contacts that wear it.
func (a *assessor) lineRules(rl *riggedLine) {
	l := rl.line
	tension := quantity.Force(a.solved.move.Lines[rl.index].TensionN)
	gear.Kinetic(gear.KineticIn{Thing: l.ID, Material: l.Material, Tension: tension, Length: a.lineOut(l.ID), Rating: l.Rating, OnWinch: rl.winch != nil}, a.found())
	gear.Joint(l, a.found())
	haul := quantity.Length(0)
	if v := a.g.casualty; v != nil && v.Stuck.WayLength > 0 && a.out.MotionRatio > 0 {
		haul = v.Stuck.WayLength * quantity.Length(a.out.MotionRatio)
	}
	for k := range l.Path {
		if k > 0 && k+1 < len(l.Path) && a.g.things.Block(l.Path[k].Thing) == nil {
			v := a.solved.unit.Lines[rl.index].Visits[k-1]
			gear.Contact(gear.ContactIn{Line: l.ID, Thing: l.Path[k].Thing, Wrap: quantity.Degrees(180 - v.IncludedDeg)}, a.found())
		}
	}
	if rl.winch != nil {
		a.passing(rl, haul)
	}
	if last := a.g.things.Sling(l.Path[len(l.Path)-1].Thing); last != nil && rl.winch != nil && a.g.things.Vehicle(last.On.Thing) != nil {
		gear.Extension(gear.ExtensionIn{Sling: last, Part: string(last.ID)}, a.found())
	}
}

// passing finds joins and dampers that would run into a block or the fairlead
// before the casualty is out. Without a haul (0) it is not decided of any.
func (a *assessor) passing(rl *riggedLine, haul quantity.Length) {
	places := []quantity.Length{0}
	names := []plan.ID{rl.winch.ID}
	starts := []quantity.Length{0}
	at := quantity.Length(0)
	for i := range a.out.Stretches {
		s := &a.out.Stretches[i]
		if s.Line != rl.line.ID {
			continue
		}
		at += s.Length
		starts = append(starts, at)
		if a.g.things.Block(s.PortB.Thing) != nil {
			places, names = append(places, at), append(names, s.PortB.Thing)
		}
	}
	check := func(what string, item quantity.Length) {
		// It runs toward the winch, and meets the nearest place before it.
		for k := len(places) - 1; k >= 0; k-- {
			if places[k] <= item {
				if v := a.g.casualty; !(haul > 0) {
					if v != nil && !(v.Stuck.WayLength > 0) {
						part.NotDecided(a.found(), "line-cannot-pass", v.ID, part.Lack{Thing: v.ID, Member: "casualty.way_length_m"})
					}
					return
				}
				gear.Passing(gear.PassIn{Line: rl.line.ID, What: what, Item: item, Block: places[k], Name: names[k], Haul: haul}, a.found())
				return
			}
		}
	}
	for i := range rl.line.Joins {
		if j := &rl.line.Joins[i]; j.At <= at {
			check("join", j.At)
		}
	}
	for i := range a.g.r.Dampers {
		d := &a.g.r.Dampers[i]
		if d.Line == rl.line.ID && d.Stretch >= 0 && d.Stretch+1 < len(starts) {
			check("damper", starts[d.Stretch]+quantity.Length(d.Share)*(starts[d.Stretch+1]-starts[d.Stretch]))
		}
	}
}

// timesOf is the factor on the load of a thing that hangs in one chain only;
// what several chains pull on carries them all already.
func (a *assessor) timesOf(things ...plan.ID) float64 {
	times, in := 1.0, 0
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil || !(rl.times > 1) {
			continue
		}
		for _, t := range things {
			if a.g.inChain(rl.line, t) {
				times = rl.times
				in++
				break
			}
		}
	}
	if in != 1 {
		return 1
	}
	return times
}

// moves tells that a winch line pulls on the casualty, itself or through what
// it loads.
func (g *rigging) moves(l *plan.Line) bool {
	return g.casualty != nil && g.inChain(l, g.casualty.ID)
}

// inChain tells that a line loads a thing: it runs through it or ends on it, or
// a sling or shackle that it loads hangs there.
func (g *rigging) inChain(l *plan.Line, id plan.ID) bool {
	if id == l.ID {
		return true
	}
	on := func(t plan.ID) bool {
		for _, p := range l.Path {
			if p.Thing == t {
				return true
			}
		}
		return false
	}
	if on(id) {
		return true
	}
	for i := range g.r.Slings {
		s := &g.r.Slings[i]
		loaded := on(s.ID) || !s.Holds.IsZero() && on(s.Holds.Thing)
		if loaded && (s.ID == id || s.On.Thing == id || s.Holds.Thing == id) {
			return true
		}
		if !loaded {
			continue
		}
		for k := range g.r.Shackles {
			if sh := &g.r.Shackles[k]; sh.ID == id {
				for _, j := range sh.Joins {
					if j.Thing == s.ID {
						return true
					}
				}
			}
		}
	}
	for i := range g.r.Blocks {
		if b := &g.r.Blocks[i]; on(b.ID) && b.Fixed.Thing == id {
			return true
		}
	}
	return false
}

// times is a load times a factor.
func times(l part.Load, f float64) part.Load {
	if f == 1 || !l.Known {
		return l
	}
	l.Force *= quantity.Force(f)
	l.Side *= quantity.Force(f)
	l.Vec = l.Vec.Scale(f)
	return l
}

// bridleTimes is how much more a leg of a fixed bridle is reckoned with than
// its share of the balance: lengths are never so exact that both legs carry.
// It is 1 for a sling that is no leg of a bridle.
func (a *assessor) bridleTimes(rs *riggedSling, found *[]part.Finding, sum *part.Sum) float64 {
	k := a.g.things.Shackle(rs.sling.Holds.Thing)
	if k == nil || len(k.Joins) > 0 || a.refused || a.solved.move.isNone() || rs.index < 0 {
		return 1
	}
	node := a.g.node(plan.Port{Thing: k.ID})
	r := a.solved.move
	legs := 0
	var total, mine part.Vec
	var between quantity.Degrees
	for i := range a.g.slings {
		o := &a.g.slings[i]
		if o.index < 0 || o.to != node {
			continue
		}
		legs++
		f := part.Vec(r.Slings[o.index].Dir).Scale(-r.Slings[o.index].TensionN)
		total = total.Add(f)
		if o == rs {
			mine = f
		}
	}
	if legs < 2 || !(mine.Len() > 0) {
		return 1
	}
	for i := range a.g.slings {
		if o := &a.g.slings[i]; o.index >= 0 && o.to == node && o != rs {
			between = max(between, mine.Angle(part.Vec(r.Slings[o.index].Dir).Scale(-r.Slings[o.index].TensionN)))
		}
	}
	leg, ok := gear.BridleLeg(gear.BridleIn{Thing: rs.sling.ID, Part: string(rs.sling.ID), Load: quantity.Force(total.Len()), Between: between}, sum, found)
	if !ok {
		return 1
	}
	return max(1, float64(leg)/mine.Len())
}

// running adds what a haul takes to a winch part: speed, time, current.
func (a *assessor) running(p *part.Part, rl *riggedLine, tension part.Load, layer int) {
	v := a.g.casualty
	if !tension.Known || v == nil || !(v.Stuck.WayLength > 0) || !(a.out.MotionRatio > 0) {
		return
	}
	run := gear.Running(gear.RunIn{Vehicle: rl.winch.ID, Winch: rl.winch.Winch, Line: rl.line, Layer: layer, Tension: tension.Force,
		Haul: v.Stuck.WayLength * quantity.Length(a.out.MotionRatio)}, nil, a.found())
	if !run.Known {
		return
	}
	p.Values = append(p.Values, part.Value{Name: "speed", Unit: part.UnitSpeed, X: float64(run.Speed)}, part.Value{Name: "time", Unit: part.UnitTime, X: float64(run.Time)})
	if run.Electric {
		p.Values = append(p.Values, part.Value{Name: "current", Unit: part.UnitCurrent, X: float64(run.Current)})
	}
}

// snatch refuses a stretch rope between two vehicles that no winch pulls: such
// a pull is not quasi-static.
func (a *assessor) snatch() {
	winch := false
	for i := range a.g.lines {
		winch = winch || a.g.lines[i].winch != nil
	}
	for i := range a.g.r.Lines {
		l := &a.g.r.Lines[i]
		if l.Use == plan.UsePull && effort.Kinetic(effort.KineticIn{Line: l.ID, Stretches: gear.Snatches(l.Material), HasWinch: winch}, a.found()) {
			a.refuse("kinetic-not-computed")
		}
	}
}
