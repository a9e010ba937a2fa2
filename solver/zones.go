package solver

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/statics"
	"kedge/solver/zone"
)

// flat is a place seen from above.
func flat(v r3.Vector) plan.Point { return plan.Point{X: v.X, Y: v.Y} }

// zones asks where a parting line or a thrown part can reach, and who stands
// there. A rig whose loads are not computed has its zones all the same.
func (a *zoning) zones() {
	g := a.g
	in := zone.Input{StandOff: g.r.StandOff}
	people := zone.PeopleIn{People: g.p.Site.People, Obstacles: g.p.Site.Obstacles, Covers: a.covers(), Controls: a.controls()}
	people.Vehicles = make([]zone.Vehicle, 0, len(g.p.Site.Vehicles))
	for i := range g.p.Site.Vehicles {
		v := &g.p.Site.Vehicles[i]
		if v.Length > 0 && v.Width > 0 {
			c := v.Corners()
			people.Vehicles = append(people.Vehicles, zone.Vehicle{ID: v.ID, Footprint: c[:]})
		}
	}
	for _, v := range a.moving {
		in.Rolls = append(in.Rolls, a.rollOf(v))
	}
	if !a.empty {
		a.zoneLines(&in, &people)
		a.zoneReleases(&in)
		a.zoneTrees(&in)
		a.zoneVehicles(&in)
		a.zoneCasualty(&in)
	}
	if !a.empty || len(in.Rolls) > 0 {
		a.out.Zones = zone.Zones(in, a.found())
		a.undrawn()
	}
	people.Zones = a.out.Zones
	for _, s := range zone.People(people, a.found()) {
		a.out.People = append(a.out.People, a.out.personAt(s))
	}
	if !a.empty {
		zone.Worked(&people, a.found())
	}
	a.out.around = people
	a.casualtyReach(&in, &people)
	a.mayReach(&people)
}

// rollOf is a vehicle that leaves its place down the slope.
func (a *zoning) rollOf(v *plan.Vehicle) zone.Roll {
	c := v.Corners()
	return zone.Roll{Thing: v.ID, Footprint: c[:], Dir: a.g.ground.Downhill()}
}

// mayReach says that nobody knows who stands below a vehicle of which it is not
// decided whether it stays: of people whom it would reach.
func (a *zoning) mayReach(people *zone.PeopleIn) {
	for _, m := range a.mayMove {
		v := m.vehicle
		reached := *people
		reached.Zones = zone.Zones(zone.Input{Rolls: []zone.Roll{a.rollOf(v)}}, nil)
		for _, s := range zone.People(reached, nil) {
			if len(s.Inside) > 0 {
				part.NotDecided(a.found(), "person-in-zone", v.ID, m.lacks...)
				break
			}
		}
	}
}

// zoneLines gives every running line, and every strap that ties something
// back, its stretches, straps and ends; it raises missing dampers and the
// energy of a parting line.
func (a *zoning) zoneLines(in *zone.Input, people *zone.PeopleIn) {
	g := a.g
	for i := range g.lines {
		rl := &g.lines[i]
		if g.restrains[rl.line.ID] {
			continue
		}
		l := zone.Line{ID: rl.line.ID, Material: rl.line.Material, Stretches: make([]zone.Stretch, 0, len(rl.path)), Straps: make([]zone.Strap, 0, len(g.slings))}
		for k := range a.out.Stretches {
			s := &a.out.Stretches[k]
			if s.Line != rl.line.ID {
				continue
			}
			zs := zone.Stretch{Part: s.Part, A: flat(s.A), B: flat(s.B)}
			if s.Index < len(rl.path)-2 {
				zs.Block = s.PortB.Thing
			}
			l.Stretches = append(l.Stretches, zs)
		}
		if len(l.Stretches) == 0 {
			continue
		}
		a.straps(&l, rl)
		in.Lines = append(in.Lines, l)
		people.Stretches = append(slices.Grow(people.Stretches, len(l.Stretches)+len(g.slings)), l.Stretches...)
		first, last := l.Stretches[0], l.Stretches[len(l.Stretches)-1]
		people.Ends = append(people.Ends,
			zone.End{Thing: rl.line.Path[0].Thing, Word: endWord(rl.line.Path[0]), At: first.A, From: first.B},
			zone.End{Thing: rl.line.Path[len(rl.line.Path)-1].Thing, Word: "hook-on point", At: last.B, From: last.A})
		if rl.line.Use == plan.UsePull {
			zone.Dampers(zone.DampedLine{ID: rl.line.ID, Stretches: l.Stretches, FlyA: make([]bool, len(l.Stretches)), Joins: rl.line.Joins, Dampers: g.r.Dampers}, a.found())
			a.recoil(rl, l.Straps)
		}
	}
	a.zoneRestraints(in, people)
	a.zoneTethers(in, people)
	for i := range a.out.Slings {
		s := &a.out.Slings[i]
		people.Stretches = append(people.Stretches, zone.Stretch{Part: string(s.Sling), A: flat(s.Centre), B: flat(s.Apex)})
	}
}

// zoneRestraints gives each tie-back and hold-back the zones of a line that
// pulls: it parts as that does.
func (a *zoning) zoneRestraints(in *zone.Input, people *zone.PeopleIn) {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if r.dir == (r3.Vector{}) {
			continue
		}
		at := a.restraintPlaces(r)
		l := zone.Line{ID: r.first}
		for k, m := range r.members {
			material := ""
			if m.line != nil {
				material = m.line.Material
			} else {
				material = m.sling.Material
			}
			from, to := flat(at[k]), flat(at[k+1])
			if k == 0 {
				l.Material = material
			} else {
				l.Straps = append(l.Straps, zone.Strap{ID: m.id(), Material: material, A: from, B: to})
				people.Stretches = append(people.Stretches, zone.Stretch{Part: m.partID(), A: from, B: to})
				continue
			}
			l.Stretches = append(l.Stretches, zone.Stretch{Part: m.partID(), A: from, B: to})
		}
		people.Stretches = append(people.Stretches, l.Stretches...)
		a0, a1 := flat(r.ends[0]), flat(r.ends[1])
		l.Ends = []zone.End{{Thing: r.own.Thing, Word: "hook-on point", At: a0, From: a1}, {Thing: r.far.Thing, Word: endWord(r.far), At: a1, From: a0}}
		people.Ends = append(people.Ends, l.Ends...)
		in.Lines = append(in.Lines, l)
		for _, j := range r.joints {
			if p, ok := a.jointPlace(j); ok {
				in.Releases = append(in.Releases, zone.Release{Thing: j, At: flat(p), Force: r.load.move.Vec, Known: r.load.move.Known && r.load.move.Force > 0})
			}
		}
	}
}

// zoneTethers gives a line's zones to the straps between places that stand: the
// balance has no load for them, and the pull may.
func (a *zoning) zoneTethers(in *zone.Input, people *zone.PeopleIn) {
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		if a.g.restrains[rs.sling.ID] || rs.index >= 0 || rs.from < 0 || rs.to < 0 || a.g.movable(rs.from, rs.to) {
			continue
		}
		st := zone.Stretch{Part: string(rs.sling.ID), A: flat(a.at(rs.from)), B: flat(a.at(rs.to))}
		in.Lines = append(in.Lines, zone.Line{ID: rs.sling.ID, Material: rs.sling.Material, Stretches: []zone.Stretch{st}})
		people.Stretches = append(people.Stretches, st)
	}
}

// endWord names the place a line ends at.
func endWord(p plan.Port) string {
	if p.Point == plan.PortWinch {
		return "fairlead"
	}
	return "hook-on point"
}

// straps adds the slings that a line loads: those at its points, and those that
// hang on them in turn, up to what stands on the site.
func (a *zoning) straps(l *zone.Line, rl *riggedLine) {
	nodes := append(make([]int, 0, len(a.g.rig.Points)), rl.path...)
	taken := make([]bool, len(a.g.slings))
	for more := true; more; {
		more = false
		for i := range a.g.slings {
			rs := &a.g.slings[i]
			if taken[i] || rs.from < 0 || rs.to < 0 || a.g.restrains[rs.sling.ID] || !slices.Contains(nodes, rs.to) && !slices.Contains(nodes, rs.from) {
				continue
			}
			taken[i] = true
			l.Straps = append(l.Straps, zone.Strap{ID: rs.sling.ID, Material: rs.sling.Material, A: flat(a.at(rs.from)), B: flat(a.at(rs.to)), LengthM: float64(rs.sling.Length)})
			for _, n := range [2]int{rs.from, rs.to} {
				if a.g.rig.Points[n].Kind == statics.Free {
					nodes, more = append(nodes, n), true
				}
			}
		}
	}
}

// recoil says what a parting line lets go, at the pull that moves the casualty
// and at stall, with all its straps, each at the soft end of its stiffness.
func (a *zoning) recoil(rl *riggedLine, straps []zone.Strap) {
	if a.refused || rl.index < 0 {
		return
	}
	in := zone.RecoilIn{Line: rl.line.ID}
	pulled := func(b *balances, load func(*part.Part) part.Load) (p zone.Pulled) {
		if b.isNone() {
			return p
		}
		p.Springs, p.Straps = make([]zone.Spring, 0, len(rl.path)), make([]zone.Spring, 0, len(straps))
		for k, s := range b.main().Lines[rl.index].Stretches {
			tension := 0.0
			for _, r := range b {
				if !r.isNone() {
					tension = math.Max(tension, r.Lines[rl.index].Stretches[k].TensionN*r.times)
				}
			}
			p.Springs = append(p.Springs, zone.Spring{ForceN: tension, LengthM: s.LengthM,
				StiffnessN: float64(gear.SoftLine(rl.line)), MassKgPerM: float64(gear.LineMass(rl.line)),
				Exponent: gear.Stiffening(rl.line.Material), BreakN: float64(rl.line.Rating.Force)})
		}
		for i := range straps {
			if q := a.part(string(straps[i].ID)); q != nil {
				p.Straps = append(p.Straps, zone.Spring{ForceN: float64(load(q).Force), LengthM: straps[i].LengthM, StiffnessN: float64(gear.SoftSling(a.g.things.Sling(straps[i].ID)))})
			}
		}
		return p
	}
	in.Move = pulled(&a.solved.move, func(p *part.Part) part.Load { return p.Move })
	in.Stall = pulled(&a.solved.stall, func(p *part.Part) part.Load { return p.Stall })
	for _, p := range rl.line.Path {
		if b := a.g.things.Block(p.Thing); b != nil {
			in.HardwareKg = math.Max(in.HardwareKg, float64(b.Mass))
		}
	}
	zone.Recoil(in, nil, a.found())
}

// zoneReleases makes a release of each block and shackle that lines meet at.
func (a *zoning) zoneReleases(in *zone.Input) {
	r := a.solved.unit
	in.Releases = slices.Grow(in.Releases, len(a.g.blocks))
	for i := range a.g.blocks {
		rb := &a.g.blocks[i]
		if !a.g.inPath(rb.block.ID) {
			continue
		}
		rel := zone.Release{Thing: rb.block.ID, At: flat(a.at(rb.node))}
		if l := a.linesOn(r, rb.node); l.Known && l.Force > 0 {
			rel.Force, rel.Known = l.Vec, true
		}
		in.Releases = append(in.Releases, rel)
	}
	for i := range a.g.r.Shackles {
		k := &a.g.r.Shackles[i]
		if len(k.Joins) > 0 || !a.g.inPath(k.ID) {
			continue
		}
		node := a.g.node(plan.Port{Thing: k.ID})
		if node < 0 {
			continue
		}
		rel := zone.Release{Thing: k.ID, At: flat(a.at(node))}
		if l := a.linesOn(r, node); l.Known && l.Force > 0 {
			rel.Force, rel.Known = l.Vec, true
		}
		in.Releases = append(in.Releases, rel)
	}
}

// zoneTrees makes a tree of each tree the rig pulls on.
func (a *zoning) zoneTrees(in *zone.Input) {
	in.Trees = make([]zone.Tree, 0, len(a.g.p.Site.Anchors))
	for i := range a.g.p.Site.Anchors {
		t := &a.g.p.Site.Anchors[i]
		if t.Kind != plan.AnchorTree || !a.g.touches(t.ID) && !a.restrainedAt(ofThing(t.ID)) {
			continue
		}
		z := zone.Tree{Thing: t.ID, At: t.At, HeightM: float64(t.Height), CrownM: float64(t.Crown)}
		if a.solved.status == part.Within {
			z.Pull = a.siteLoad(a.solved.unit, ofThing(t.ID)).Vec
		}
		if p := a.part(string(t.ID)); p != nil {
			z.ToFailure, z.Known = mostToFailure(p)
		}
		in.Trees = append(in.Trees, z)
	}
}

// mostToFailure is the greatest share of what breaks a part, at any pull that is
// known.
func mostToFailure(p *part.Part) (share float64, known bool) {
	for _, l := range [3]part.Load{p.Move, p.Loosen, p.Stall} {
		if s, ok := p.ToFailure(l); ok {
			share, known = max(share, s), true
		}
	}
	return share, known
}

// zoneVehicles makes the paths of vehicles that slide or roll.
func (a *zoning) zoneVehicles(in *zone.Input) {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		c := v.Corners()
		if v == a.g.casualty {
			if a.rolls {
				in.Rolls = append(in.Rolls, a.rollOf(v))
			}
			if v.Stuck.Overturned {
				in.Uprights = append(in.Uprights, zone.Upright{Thing: v.ID, Footprint: c[:], Ahead: a.g.ground.Along(v.Bearing), HeightM: float64(v.Height)})
			}
			continue
		}
		p := a.part(string(v.ID) + "/slide")
		if p == nil {
			continue
		}
		_, known := p.ToFailure(p.Move)
		if share, _ := mostToFailure(p); (!known || share >= 1) && a.solved.status == part.Within {
			var pull r3.Vector
			a.hookedOn(a.solved.unit, v.ID, func(_, f r3.Vector) { pull = pull.Add(f) })
			in.Slides = append(in.Slides, zone.Slide{Thing: v.ID, Footprint: c[:], Dir: pull, RunM: a.slideRun(v.ID)})
		}
	}
}

// slideRun is how far a vehicle slides at most toward what it pulls on: the
// first stretch of its line. 0: not known, the rule's own run counts.
func (a *zoning) slideRun(v plan.ID) float64 {
	for i := range a.out.Stretches {
		s := &a.out.Stretches[i]
		if s.PortA.Thing == v || s.PortB.Thing == v {
			return float64(s.Length)
		}
	}
	return 0
}
