package solver

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
	"kedge/solver/terrain"
)

// rigging is a rig as the statics see it, with the way back from their indices
// to the things of the plan.
type rigging struct {
	p      *plan.Plan
	r      *plan.Rig
	things *plan.Index
	ground terrain.Ground

	casualty *plan.Vehicle // nil: none
	way      r3.Vector     // unit vector along its way out, on the ground

	rig       statics.Rig
	slick     []statics.Line    // the lines of rig with the low end of every friction; nil: no friction has two ends
	slickRoom []statics.Line    // for slick
	nodeOf    map[plan.Port]int // ports already given a point
	on        []plan.Port       // of each point of rig: the port of the site it is; zero: none
	origin    []origin          // of each point of rig: where its place comes from
	hooked    []plan.Port       // ports of the site that the pull is fast to
	touched   map[plan.ID]bool  // the things of the site that have them

	restraints []restraint
	restrains  map[plan.ID]bool // slings, lines and shackles of the restraints

	lines   []riggedLine // those that pull, in the order of the plan
	slings  []riggedSling
	blocks  []riggedBlock
	made    int  // points there are before anything is asked for that only lies about
	strange bool // something hangs on a thing this version does not know
	loose   []plan.ID
}

// riggedLine is a line that pulls.
type riggedLine struct {
	line  *plan.Line
	index int           // in rig.Lines; -1: not part of the equilibrium
	path  []int         // points
	winch *plan.Vehicle // nil: a secondary line
	times factors       // on its chain, for several winches; below 1 counts as 1
	reach []bool        // points that it loads; nil: not computed, or a secondary line
	room  []bool        // for reach
	parts []string      // ids of its stretches
}

// riggedSling is a sling as it lies.
type riggedSling struct {
	sling   *plan.Sling
	index   int // in rig.Slings; -1: not part of the equilibrium (tie-back, loose, too short)
	from    int // point of what it is on; -1: loose
	to      int
	onTrunk bool            // it goes round a trunk or boulder
	round   gear.Round      // its lie there; the zero value on a point
	radius  quantity.Length // of that; 0: not known, or on a point
	times   float64         // factor on a leg of a fixed bridle and what hangs behind it; 0: none
	takes   *takeUp         // it may carry all of what several legs hold; nil: what the balance gives
}

type riggedBlock struct {
	block *plan.Block
	node  int
	loose bool
}

// newRigging turns a rig into points, lines and slings.
func newRigging(p *plan.Plan, r *plan.Rig) *rigging {
	g := &rigging{p: p, r: r}
	g.ground, _ = terrain.NewGround(p.Site.Ground) // on error level ground: Validate refuses such a plan before
	n := len(p.Site.Vehicles) + len(p.Site.Anchors) + len(r.Lines) + len(r.Blocks) + len(r.Slings) + len(r.Shackles)
	g.things = plan.NewIndex(p, r)
	g.nodeOf = make(map[plan.Port]int, n)
	g.rig.Points = make([]statics.Point, 0, n)
	g.on, g.origin = make([]plan.Port, 0, n), make([]origin, 0, n)
	g.findRestraints()
	g.hook()
	g.findCasualty()
	g.resolveBlocks()
	g.resolveSlings()
	g.resolveLines()
	g.loosenSheaves()
	g.made = len(g.rig.Points)
	return g
}

// CasualtyOf is the vehicle that a rig moves, of several casualties the one that it
// is hooked on to; nil: the plan has none.
func CasualtyOf(p *plan.Plan, rig plan.ID) *plan.Vehicle {
	first := p.Casualty()
	r, ok := p.Rig(rig)
	if first == nil || !ok || !slices.ContainsFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil && v.ID != first.ID }) {
		return first
	}
	return newRigging(p, r).casualty
}

// findCasualty picks the vehicle to be moved: the first marked as casualty
// that a line or sling of the rig hooks on to, else the first marked one.
func (g *rigging) findCasualty() {
	for i := range g.p.Site.Vehicles {
		v := &g.p.Site.Vehicles[i]
		if v.Stuck != nil && (g.casualty == nil || g.touches(v.ID) && !g.touches(g.casualty.ID)) {
			g.casualty = v
		}
	}
	if g.casualty == nil {
		return
	}
	g.rig.Bodies = make([]statics.Body, 1)
	g.placeCasualty()
}

func (g *rigging) placeCasualty() {
	out, _ := g.casualty.WayOut()
	g.way = g.ground.Along(out)
	g.rig.Bodies[0] = statics.Body{RefM: g.ground.Lift(g.casualty.At, float64(g.casualty.Rise)), Motion: g.way}
}

// addPoint adds a point of the statics; on is the port of the site it is, zero
// for a free one.
func (g *rigging) addPoint(kind statics.PointKind, from origin, on plan.Port) int {
	g.rig.Points = append(g.rig.Points, statics.Point{Kind: kind, Pos: g.placed(from)})
	g.on, g.origin = append(g.on, on), append(g.origin, from)
	return len(g.rig.Points) - 1
}

// origin is what a point of the statics gets its place from: one of these.
type origin struct {
	port    plan.Port // of the site
	block   *plan.Block
	trunk   *plan.Sling   // the middle of the trunk it goes round
	end     *plan.Sling   // its loose end
	shackle *plan.Shackle // a meeting place
	point   int           // the same place as another point, counted from 1
}

// placed is where a point is drawn.
func (g *rigging) placed(from origin) r3.Vector {
	switch {
	case from.block != nil:
		return g.ground.Lift(from.block.At, 0)
	case from.trunk != nil:
		middle, _, _ := g.trunk(from.trunk)
		return middle
	case from.end != nil:
		return g.slingStart(from.end)
	case from.shackle != nil:
		return g.ground.Lift(from.shackle.At, 0)
	case from.point > 0:
		return g.rig.Points[from.point-1].Pos
	}
	spot, _ := g.things.PortPlace(from.port)
	return g.ground.Spot(spot)
}

// node is the point of the statics at a port; -1 if there is none, because the
// port names a thing that is not there or is not understood.
func (g *rigging) node(port plan.Port) int {
	if n, ok := g.nodeOf[port]; ok {
		return n
	}
	g.nodeOf[port] = -1 // a sling that holds itself must not ask without end
	n := -1
	if !port.IsZero() {
		n = g.newNode(port)
	}
	g.nodeOf[port] = n
	return n
}

func (g *rigging) newNode(port plan.Port) int {
	slot := g.things.Find(port.Thing)
	switch slot.Kind {
	case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle:
		if _, ok := g.things.PortPlace(port); !ok {
			return -1
		}
		if g.casualty != nil && port.Thing == g.casualty.ID {
			return g.addPoint(statics.OnBody, origin{port: port}, port)
		}
		return g.addPoint(statics.Fixed, origin{port: port}, port)
	case plan.ThingSling:
		s := &g.r.Slings[slot.Pos]
		if !s.Holds.IsZero() {
			return g.node(s.Holds)
		}
		return g.addPoint(statics.Free, origin{end: s}, plan.Port{})
	case plan.ThingShackle:
		k := &g.r.Shackles[slot.Pos]
		if s, ok := g.site(port); ok {
			return g.node(s)
		}
		for _, j := range k.Joins {
			if j.Thing != port.Thing && !g.hangsOn(j.Thing, k.ID) {
				if n := g.node(j); n >= 0 {
					return n
				}
			}
		}
		return g.addPoint(statics.Free, origin{shackle: k}, plan.Port{})
	case plan.ThingUnknown:
		g.strange = true
	}
	return -1
}

// resolveBlocks gives each block a point: fixed where it is shackled to one,
// free where slings hold it.
func (g *rigging) resolveBlocks() {
	g.blocks = make([]riggedBlock, 0, len(g.r.Blocks))
	for i := range g.r.Blocks {
		b := &g.r.Blocks[i]
		port := plan.Port{Thing: b.ID}
		node := -1
		if !b.Fixed.IsZero() {
			if base := g.node(b.Fixed); base >= 0 {
				// A point of its own, so that its load can be told from what
				// else hangs there; a free one shares the point instead.
				pt := g.rig.Points[base]
				if pt.Kind == statics.Free {
					node = base
				} else {
					node = g.addPoint(pt.Kind, origin{point: base + 1}, g.on[base])
				}
			}
		}
		held := node >= 0
		if node < 0 {
			node = g.addPoint(statics.Free, origin{block: b}, plan.Port{})
		}
		g.nodeOf[port] = node
		g.nodeOf[plan.Port{Thing: b.ID, Point: plan.PortBecket}] = node
		for j := range g.r.Slings {
			if s := &g.r.Slings[j]; s.Holds.Thing == b.ID || s.On.Thing == b.ID {
				held = true
			}
		}
		for j := range g.r.Lines {
			// A dead line holds what it ends on, as a sling does.
			if l := &g.r.Lines[j]; l.Use == plan.UsePull && len(l.Path) > 1 && g.winchOf(l.Path[0]) == nil &&
				(l.Path[0].Thing == b.ID || l.Path[len(l.Path)-1].Thing == b.ID) {
				held = true
			}
		}
		if !held && !g.inPath(b.ID) {
			g.rig.Points[node].Kind = statics.Fixed // it lies about, and has no place in the balance
		}
		g.blocks = append(g.blocks, riggedBlock{b, node, !held})
		if !held {
			g.loose = append(g.loose, b.ID)
		}
	}
}

// trunk reports whether a port is a thing a sling goes round: where its middle
// is at the sling's height, and its radius.
func (g *rigging) trunk(s *plan.Sling) (middle r3.Vector, radius quantity.Length, ok bool) {
	if a := g.things.Anchor(s.On.Thing); a != nil {
		if !a.HasTrunk() {
			return r3.Vector{}, 0, false
		}
		return g.ground.Lift(a.At, float64(a.Rise+StrapHeight(s))), terrain.AtStrap(a) / 2, true
	}
	if o := g.things.Obstacle(s.On.Thing); o != nil {
		at, r := terrain.RoundOf(o.Outline)
		return g.ground.Lift(at, float64(StrapHeight(s))), r, true
	}
	return r3.Vector{}, 0, false
}

// PresetStrapHeight is how high a strap lies on a trunk when nobody said: low,
// as far as roots and slope allow. (common practice)
const PresetStrapHeight quantity.Length = 0.5

// StrapHeight is the height of a sling on its trunk.
func StrapHeight(s *plan.Sling) quantity.Length {
	if s.Height > 0 {
		return s.Height
	}
	return PresetStrapHeight
}

// slingStart is a first guess of where a sling's free end lies.
func (g *rigging) slingStart(s *plan.Sling) r3.Vector {
	if middle, _, ok := g.trunk(s); ok {
		return middle
	}
	if !s.On.IsZero() {
		if n := g.node(s.On); n >= 0 {
			return g.rig.Points[n].Pos
		}
	}
	return r3.Vector{}
}

// resolveSlings turns slings into length elements: from the middle of a trunk
// to the apex, or along the sling from the point it is hooked to.
func (g *rigging) resolveSlings() {
	g.slings = make([]riggedSling, 0, len(g.r.Slings))
	g.rig.Slings = make([]statics.Sling, 0, len(g.r.Slings))
	for i := range g.r.Slings {
		s := &g.r.Slings[i]
		rs := riggedSling{sling: s, index: -1, from: -1, to: -1}
		if g.restrains[s.ID] {
			// A restraint is no part of the balance, and its loose end no point of it.
			g.measureRestraint(&rs)
			g.slings = append(g.slings, rs)
			continue
		}
		length := g.measureSling(&rs)
		switch {
		case s.On.IsZero():
			g.loose = append(g.loose, s.ID)
		case rs.onTrunk:
			rs.from = g.addPoint(statics.Fixed, origin{trunk: s}, s.On)
		default:
			rs.from = g.node(s.On)
		}
		if !s.On.IsZero() || !s.Holds.IsZero() || g.inPath(s.ID) { // one that lies about has no place in the balance
			rs.to = g.node(plan.Port{Thing: s.ID})
		}
		if rs.from >= 0 && rs.to >= 0 && g.movable(rs.from, rs.to) && length > 0 {
			rs.index = len(g.rig.Slings)
			g.rig.Slings = append(g.rig.Slings, statics.Sling{
				A: rs.from, B: rs.to, LengthM: float64(length), StiffnessNPerM: float64(s.Stiffness),
			})
			g.startFree(rs.to, rs.from, length)
		}
		g.slings = append(g.slings, rs)
	}
}

// measureRestraint measures how a sling of a restraint lies round what it is on.
func (g *rigging) measureRestraint(rs *riggedSling) {
	if rs.radius, rs.onTrunk = g.holdsBy(member{sling: rs.sling}); rs.onTrunk {
		rs.round = gear.SlingRound(rs.radius, rs.sling.Length, hitchOf(rs.sling, true))
	}
}

// measureSling measures how a sling lies round what it is on, and how far it
// reaches with the head of a block it holds; 0: not known.
func (g *rigging) measureSling(rs *riggedSling) quantity.Length {
	s := rs.sling
	length := s.Length
	if _, radius, round := g.trunk(s); round && !s.On.IsZero() {
		rs.onTrunk, rs.radius = true, radius
		rs.round = gear.SlingRound(radius, s.Length, Hitch(s, true))
		length = rs.round.Reach
		if !rs.round.Closes && rs.round.Short == 0 {
			length = s.Length / 2 // round a trunk nobody measured: as round a thin one
		}
	}
	if b := g.things.Block(s.Holds.Thing); b != nil && length > 0 {
		length += b.HeadLength
	}
	return length
}

// Hitch is how a sling is rigged; round tells that it goes round a trunk.
func Hitch(s *plan.Sling, round bool) string {
	if s.Hitch != plan.HitchDefault {
		return s.Hitch
	}
	if round {
		return plan.HitchBasket
	}
	return plan.HitchStraight
}

// movable reports whether the solver can move at least one of two points.
func (g *rigging) movable(a, b int) bool {
	return g.rig.Points[a].Kind == statics.Free || g.rig.Points[b].Kind == statics.Free
}

// startFree draws a free point near enough to what holds it: the solver starts
// from the drawn place, and a block drawn far off would start with its sling
// torn apart.
func (g *rigging) startFree(node, from int, length quantity.Length) {
	pt := &g.rig.Points[node]
	if pt.Kind != statics.Free {
		return
	}
	base := g.rig.Points[from].Pos
	d := pt.Pos.Sub(base)
	if l := d.Norm(); l > float64(length) {
		pt.Pos = base.Add(d.Mul(float64(length) / l))
	}
}

// winchOf is the vehicle whose fairlead a port is, or nil.
func (g *rigging) winchOf(p plan.Port) *plan.Vehicle {
	if p.Point != plan.PortWinch {
		return nil
	}
	if v := g.things.Vehicle(p.Thing); v != nil && v.Winch != nil {
		return v
	}
	return nil
}

// resolveLines turns lines into paths.
func (g *rigging) resolveLines() {
	g.lines = make([]riggedLine, 0, len(g.r.Lines))
	for i := range g.r.Lines {
		l := &g.r.Lines[i]
		rl := riggedLine{line: l, index: -1}
		if l.Use != plan.UsePull {
			g.lines = append(g.lines, rl)
			continue
		}
		rl.path, rl.parts = make([]int, 0, len(l.Path)), make([]string, 0, len(l.Path))
		for k := range l.Path[min(1, len(l.Path)):] {
			rl.parts = append(rl.parts, stretchID(l.ID, k))
		}
		whole := len(l.Path) >= 2
		for _, port := range l.Path {
			n := g.node(port)
			if n < 0 {
				whole = false
				break
			}
			rl.path = append(rl.path, n)
		}
		if len(l.Path) > 0 {
			rl.winch = g.winchOf(l.Path[0])
		}
		if whole {
			rl.index = len(g.rig.Lines)
			g.rig.Lines = append(g.rig.Lines, g.staticLine(l, rl, make([]statics.Sheave, 0, len(rl.path)-2)))
		} else {
			g.loose = append(g.loose, l.ID)
		}
		g.lines = append(g.lines, rl)
	}
}

// staticLine is the line's element: its drum tension stands for its share of
// the pull until the pull is known.
func (g *rigging) staticLine(l *plan.Line, rl riggedLine, sheaves []statics.Sheave) statics.Line {
	sl := statics.Line{Path: rl.path, Sheaves: sheaves}
	for k := 1; k+1 < len(l.Path); k++ {
		sl.Sheaves = append(sl.Sheaves, g.sheave(l.Path[k], l))
	}
	switch {
	case rl.winch == nil:
		sl.LengthM = float64(l.Length)
		if l.Elastic {
			if ae := gear.LineStiffness(l); ae > 0 {
				sl.ComplianceMPerN = float64(l.Length) / float64(ae)
			}
		}
	case l.Fixed > 0:
		_, most := plan.Range(&l.Head, "tension_n", float64(l.Fixed))
		sl.Drum, sl.Steady, sl.TensionN = true, true, most
	default:
		sl.Drum, sl.TensionN = true, g.shareOf(l, rl.winch)
	}
	return sl
}

// shareOf is the weight of a winch line among several, as a tension in
// newtons: by the rated line pull unless the plan states shares.
func (g *rigging) shareOf(l *plan.Line, v *plan.Vehicle) float64 {
	switch {
	case l.Share > 0:
		return l.Share * 1e4
	case v.Winch.LinePull > 0:
		return float64(v.Winch.LinePull)
	}
	return 1e4
}

// sheave is how a line passes an inner port of its path.
func (g *rigging) sheave(port plan.Port, l *plan.Line) statics.Sheave {
	b := g.things.Block(port.Thing)
	if b == nil {
		// Bare round a trunk, through a shackle or eye: it slides.
		return statics.Sheave{Model: statics.Ring, Mu: gear.BareFriction()}
	}
	if gear.CountsAsRing(b) {
		return statics.Sheave{Model: statics.Ring, Mu: gear.RingFriction(lossy(b), l)}
	}
	return statics.Sheave{Model: statics.ByWrap, Eta: gear.SheaveEfficiency(lossy(b))}
}

// loosenSheaves makes the lines with the low end of every friction. (see
// balances)
func (g *rigging) loosenSheaves() {
	room, twoEnds := g.slickRoom, false
	if room == nil {
		room = make([]statics.Line, len(g.rig.Lines))
	}
	for i := range g.lines {
		rl := &g.lines[i]
		if rl.index < 0 {
			continue
		}
		l := &g.rig.Lines[rl.index]
		sheaves := slices.Grow(room[rl.index].Sheaves[:0], len(l.Sheaves))
		for k, sh := range l.Sheaves {
			sheaves = append(sheaves, g.slickSheave(rl.line.Path[k+1], rl.line))
			twoEnds = twoEnds || sheaves[k] != sh
		}
		room[rl.index] = *l
		room[rl.index].Sheaves = sheaves
	}
	g.slick, g.slickRoom = nil, room
	if twoEnds {
		g.slick = room
	}
}

// slickSheave is [rigging.sheave] with the low end of its friction: of what may be a ring
// that is a block's.
func (g *rigging) slickSheave(port plan.Port, l *plan.Line) statics.Sheave {
	b := g.things.Block(port.Thing)
	switch {
	case b == nil:
		return statics.Sheave{Model: statics.Ring, Mu: gear.BareFrictionLow()}
	case b.Kind == plan.BlockRing:
		return statics.Sheave{Model: statics.Ring, Mu: gear.RingFrictionLow(smooth(b), l)}
	}
	return statics.Sheave{Model: statics.ByWrap, Eta: gear.SheaveEfficiencyHigh(smooth(b))}
}

// finite reports whether v has only finite members.
func finite(v r3.Vector) bool {
	return !math.IsNaN(v.X+v.Y+v.Z) && !math.IsInf(v.X+v.Y+v.Z, 0)
}
