package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
)

// A chain is a winch line with all that it loads: blocks, slings, shackles,
// anchors, hook-on points. This file has the rules that look at a whole chain.

// chains finds by how much each line's chain is computed above its balance:
// with several winches each is checked for the whole pull, because nothing
// keeps them hauling alike, and at stall for the strongest: one that stops
// earlier holds by its brake what another draws on its line. (ours)
func (a *loading) chains() {
	if a.refused || a.solved.status != part.Within {
		return
	}
	if a.solved.move.isNone() { // what a line is made of and runs through is known all the same
		for i := range a.g.lines {
			if rl := &a.g.lines[i]; rl.index >= 0 {
				a.lineRules(rl)
			}
		}
		return
	}
	move := a.solved.move.main()
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil {
			rl.reach = a.g.reach(rl)
		}
	}
	whole, most, n := quantity.Force(0), 0.0, 0
	for i := range a.g.lines {
		if rl := &a.g.lines[i]; rl.index >= 0 && rl.winch != nil && a.g.moves(rl) {
			whole += quantity.Force(move.Lines[rl.index].TensionN)
			most = max(most, a.stallN[i])
			n++
		}
	}
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 {
			continue
		}
		if rl.winch != nil && n > 1 && a.g.moves(rl) {
			rl.times.planned = gear.TwoWinches(rl.line.ID, quantity.Force(move.Lines[rl.index].TensionN), whole, a.found())
			if own := a.stallN[i]; own > 0 {
				rl.times.stall = most / own
			}
		}
		a.lineRules(rl)
	}
}

// lineRules raises what concerns a line as a whole: kinetic rope, joins and
// what cannot pass a sheave, contacts that wear it.
func (a *loading) lineRules(rl *riggedLine) {
	if a.quiet {
		return
	}
	l := rl.line
	tension := quantity.Force(0)
	if !a.solved.move.isNone() {
		tension = quantity.Force(a.solved.move.main().tension(rl.index))
	}
	gear.Kinetic(gear.KineticIn{Thing: l.ID, Material: l.Material, Tension: tension, Length: a.lineOut(l.ID), Rating: l.Rating, OnWinch: true}, a.found())
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
func (a *loading) passing(rl *riggedLine, haul quantity.Length) {
	if len(rl.line.Joins)+len(a.g.r.Dampers) == 0 {
		return
	}
	n := len(rl.path)
	places := make([]quantity.Length, 1, n) // of what the line runs over, along it from the winch
	names := append(make([]plan.ID, 0, n), rl.winch.ID)
	starts := make([]quantity.Length, 1, n)
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

// factors are laid on the loads of a chain beside its balance: on the pulls
// that are planned, and at stall.
type factors struct{ planned, stall float64 }

// own is the factor that a winch line begins a chain with.
func (rl *riggedLine) own() factors {
	return factors{max(1, rl.times.planned), max(1, rl.times.stall)}
}

// timesOfLine is the factor on a line: a winch's own, whatever else pulls where it
// ends, a secondary one's that of the chain it is in.
func (a *loading) timesOfLine(rl *riggedLine) factors {
	if rl.winch != nil {
		return rl.own()
	}
	return a.timesOf(lies(rl.path...))
}

// timesOf is the factors on the load of what hangs in one chain only, found by
// the points it lies on; what several chains pull on carries them all already.
func (a *loading) timesOf(lies func(n int) bool) factors {
	times, in := factors{1, 1}, 0
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.reach == nil {
			continue
		}
		for n, there := range rl.reach {
			if there && lies(n) {
				times = rl.own()
				in++
				break
			}
		}
	}
	if in != 1 {
		return factors{1, 1}
	}
	return times
}

// timesAt is the factors on what the ports of the site that match carry. Of one
// chain it is that of [loading.timesOf]. Of several it makes up what is missing to
// the worst of them hauling alone: an anchor that two winches lead to has a share
// of each while both haul, and either may stop.
func (a *loading) timesAt(match func(plan.Port) bool) factors {
	times := a.timesOf(a.g.liesOn(match))
	n := 0
	for i := range a.g.lines {
		if a.g.lines[i].reach != nil {
			n++
		}
	}
	if n < 2 || times != (factors{1, 1}) || a.refused || a.solved.move.isNone() {
		return times
	}
	const noise = 1e-9 // one chain alone is all there is but for rounding
	more := func(r *solution, of func(factors) float64) float64 {
		f := 1.0
		if all := a.pullAt(r, match).Norm(); !r.isNone() && all > 0 {
			for i := range a.g.lines {
				if rl := &a.g.lines[i]; rl.reach != nil {
					if alone := a.pullOfChain(r, rl, of(rl.own()), match) / all; alone > 1+noise {
						f = max(f, alone)
					}
				}
			}
		}
		return f
	}
	times.planned = more(a.solved.move.main(), func(f factors) float64 { return f.planned })
	if !a.solved.stall.isNone() {
		times.stall = more(a.solved.stall.main(), func(f factors) float64 { return f.stall })
	}
	return times
}

// pullOfChain is what the ports of the site that match carry of one winch line's
// chain, newtons, that times its balance. A sling that another chain loads too
// has all of it already.
func (a *loading) pullOfChain(r *solution, rl *riggedLine, times float64, match func(plan.Port) bool) float64 {
	var sum r3.Vector
	at := func(n int) bool { return rl.reach[n] && !a.g.on[n].IsZero() && match(a.g.on[n]) }
	for i := range a.g.lines {
		o := &a.g.lines[i]
		if o.index < 0 || o != rl && (o.winch != nil || !slices.ContainsFunc(o.path, func(n int) bool { return rl.reach[n] })) {
			continue
		}
		for _, st := range r.Lines[o.index].Stretches {
			f := st.Dir.Mul(st.TensionN * r.times * times)
			if at(st.A) {
				sum = sum.Add(f)
			}
			if at(st.B) {
				sum = sum.Sub(f)
			}
		}
	}
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		for _, n := range [2]int{rs.from, rs.to} {
			if rs.index < 0 || !at(n) || !rl.reach[rs.from] || !rl.reach[rs.to] {
				continue
			}
			f := times
			if a.timesOf(lies(rs.from+rs.to-n)) == (factors{1, 1}) {
				f = 1
			}
			sum = sum.Add(rs.pullAt(r, n).Mul(f * max(1, rs.times)))
		}
	}
	return sum.Norm()
}

// lies tells of each point whether it is one of those, for [loading.timesOf].
func lies(at ...int) func(n int) bool { return func(n int) bool { return slices.Contains(at, n) } }

// liesOn tells of each point whether it is a port of the site that matches.
func (g *rigging) liesOn(match func(plan.Port) bool) func(n int) bool {
	return func(n int) bool { return n < len(g.on) && !g.on[n].IsZero() && match(g.on[n]) }
}

// moves reports whether a winch line pulls on the casualty, itself or through what
// it loads.
func (g *rigging) moves(rl *riggedLine) bool {
	if g.casualty == nil {
		return false
	}
	for n, there := range rl.reach {
		if there && g.on[n].Thing == g.casualty.ID {
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
	l.Vec = l.Vec.Mul(f)
	return l
}

// bridles finds by how much each leg of a fixed bridle is computed above its
// share of the balance: lengths are never so exact that both legs carry. The
// factor goes on with the leg, to the end of its chain.
func (a *loading) bridles() {
	if a.refused || a.solved.move.isNone() {
		return
	}
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if rs.index < 0 || rs.times != 0 {
			continue
		}
		for e, n := range [2]int{rs.from, rs.to} {
			if f := a.bridleTimes(rs, n); f > 1 && rs.takes == nil {
				a.follow(rs, [2]int{rs.to, rs.from}[e], f)
			}
		}
	}
}

// follow gives a leg's factor to the slings behind it, one after another, from
// its far end on.
func (a *loading) follow(rs *riggedSling, far int, times float64) {
	for range mostJoints {
		rs.times = times
		if a.g.rig.Points[far].Kind != statics.Free {
			return
		}
		var next *riggedSling
		for i := range a.g.slings {
			if o := &a.g.slings[i]; o != rs && o.meets(far) {
				if next != nil {
					return
				}
				next = o
			}
		}
		if next == nil || next.times > 0 {
			return
		}
		if rs = next; rs.from == far {
			far = rs.to
		} else {
			far = rs.from
		}
	}
}

// bridleAt reports whether a point is a shackle at which a bridle may meet.
func (a *loading) bridleAt(node int) bool {
	return a.g.rig.Points[node].Kind == statics.Free && some(a.g.r.Shackles, func(k *plan.Shackle) bool {
		return len(k.Joins) == 0 && a.g.node(plan.Port{Thing: k.ID}) == node
	})
}

// bridleTimes is the factor on one sling by what meets at one of its ends; 1: it
// is no leg of a bridle there. A bridle is two slings or more that meet at a
// shackle and pull from one side.
func (a *loading) bridleTimes(rs *riggedSling, node int) float64 {
	if !a.bridleAt(node) {
		return 1
	}
	r := a.solved.move.main()
	for _, legs := range a.legsAt(r, node) {
		mine := rs.pullAt(r, node)
		if len(legs) < 2 || !slices.Contains(legs, rs) || !(mine.Norm() > 0) {
			continue
		}
		var total r3.Vector
		var between quantity.Degrees
		for _, o := range legs {
			f := o.pullAt(r, node)
			total = total.Add(f)
			between = max(between, part.Angle(mine, f))
		}
		id := string(rs.sling.ID)
		leg, ok := gear.BridleLeg(gear.BridleIn{Thing: rs.sling.ID, Part: id, Load: quantity.Force(total.Norm()), Between: between}, a.found())
		if ok {
			return max(1, float64(leg)/mine.Norm())
		}
	}
	return 1
}

// running adds what a haul takes to a winch part: speed, time, current.
func (a *rating) running(p *part.Part, rl *riggedLine, tension part.Load, layer int) {
	v := a.g.casualty
	if tension.Known && v != nil && !(v.Stuck.WayLength > 0) && gear.HasMotor(rl.winch.Winch) {
		part.NotDecided(a.found(), "winch-duty", v.ID, part.Lack{Thing: v.ID, Member: "casualty.way_length_m"})
	}
	if !tension.Known || v == nil || !(v.Stuck.WayLength > 0) || !(a.out.MotionRatio > 0) {
		return
	}
	run := gear.Running(gear.RunIn{Vehicle: rl.winch.ID, Winch: rl.winch.Winch, Line: rl.line, Layer: layer, Tension: tension.Force,
		Haul: v.Stuck.WayLength * quantity.Length(a.out.MotionRatio)}, nil, a.found())
	if !run.Known {
		return
	}
	speed := part.Number("speed", part.UnitSpeed, run.Speed)
	time := part.Number("time", part.UnitTime, run.Time)
	if run.Electric {
		p.Values = a.given(speed, time, part.Number("current", part.UnitCurrent, run.Current))
		return
	}
	p.Values = a.given(speed, time)
}

// hasWinch reports whether a winch pulls.
func (g *rigging) hasWinch() bool {
	return some(g.lines, func(rl *riggedLine) bool { return rl.winch != nil })
}

// snatch refuses a kinetic rope between two vehicles that no winch pulls: such
// a pull is not quasi-static.
func (a *resolving) snatch() {
	winch := a.g.hasWinch()
	for i := range a.g.r.Lines {
		l := &a.g.r.Lines[i]
		if l.Use == plan.UsePull && effort.Kinetic(effort.KineticIn{Line: l.ID, Stretches: gear.Snatches(l.Material), HasWinch: winch}, a.found()) {
			a.refuse("kinetic-not-computed")
		}
	}
}
