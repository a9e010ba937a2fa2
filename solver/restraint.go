package solver

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// restraint holds a vehicle beside the pull: a tie-back one that must stand, a
// hold-back the casualty. It runs from the vehicle's point to what holds it,
// and everything between carries it whole. It is no part of the balance: what
// it carries is computed from what it must hold.
type restraint struct {
	use     string
	first   plan.ID      // of the sling or line that is marked with its use
	members []member     // from the vehicle on
	joints  []plan.ID    // shackles between members, and at the far end
	own     plan.Port    // of the vehicle
	far     plan.Port    // of the site; zero: it ends on nothing
	winch   bool         // it is paid out or taken in under control
	bent    bool         // it branches or runs round a corner: what it carries is not computed
	over    []plan.ID    // things of the rig that such a one runs over or hangs on
	passed  []plan.Port  // of the site, that it may load
	ends    [2]r3.Vector // where it lies
	dir     r3.Vector    // from own to far, unit
	holds   r3.Vector    // what it must hold points there, unit; zero: nothing to hold
	off     quantity.Degrees
	counts  bool    // it holds: taut, straight, in the right direction
	needN   float64 // of a hold-back: what it must hold, along holds
	load    pulls   // as the force on what it is fast to
	checked bool    // each of its parts has a known limit and is within it
	good    part.Capacity
}

// member is one sling or line of a restraint.
type member struct {
	sling *plan.Sling
	line  *plan.Line
}

func (m member) id() plan.ID {
	if m.sling != nil {
		return m.sling.ID
	}
	return m.line.ID
}

// partID is the id of its part: a line's is that of its one stretch.
func (m member) partID() string {
	if m.line != nil {
		return stretchID(m.line.ID, 0)
	}
	return string(m.sling.ID)
}

// ports are its two ends; a zero one is free.
func (m member) ports() [2]plan.Port {
	if m.sling != nil {
		return [2]plan.Port{m.sling.On, m.sling.Holds}
	}
	if n := len(m.line.Path); n > 0 {
		return [2]plan.Port{m.line.Path[0], m.line.Path[n-1]}
	}
	return [2]plan.Port{}
}

// findRestraints follows every tie-back and hold-back of the rig from its
// vehicle to what holds it, before anything has a place.
func (g *rigging) findRestraints() {
	var marked []member
	mark := func(m member) {
		if marked == nil {
			g.restrains = make(map[plan.ID]bool)
		}
		marked = append(marked, m)
		g.restrains[m.id()] = true
	}
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; s.Use != plan.UsePull {
			mark(member{sling: s})
		}
	}
	for i := range g.r.Lines {
		if l := &g.r.Lines[i]; l.Use != plan.UsePull {
			mark(member{line: l})
		}
	}
	if marked == nil {
		return
	}
	taken := make(map[plan.ID]bool, len(marked))
	for _, whole := range []bool{true, false} { // first those that hang on a vehicle; what is left is loose
		for _, m := range marked {
			if taken[m.id()] {
				continue
			}
			r, ok := g.restraintFrom(m, taken)
			if whole && !ok {
				continue
			}
			taken[m.id()] = true
			for _, k := range r.members {
				taken[k.id()] = true
				g.restrains[k.id()] = true
			}
			for _, j := range r.joints {
				g.restrains[j] = true
			}
			if r.bent {
				g.passes(&r)
			}
			g.restraints = append(g.restraints, r)
		}
	}
}

func use(m member) string {
	if m.sling != nil {
		return m.sling.Use
	}
	return m.line.Use
}

// restraintFrom follows one from the vehicle that it holds. False: no end of it
// is fast to a vehicle that it may hold.
func (g *rigging) restraintFrom(m member, taken map[plan.ID]bool) (r restraint, ok bool) {
	r = restraint{use: use(m), first: m.id(), members: []member{m}}
	ends := m.ports()
	own := -1
	for e, p := range ends {
		s, fast := g.endSite(p, m.id())
		if v := g.things.Vehicle(s.Thing); !fast || v == nil || (v.Stuck != nil) != (r.use == plan.UseHoldBack) {
			continue
		}
		if own < 0 {
			own, r.own = e, s
		}
	}
	if own < 0 {
		return r, false
	}
	if m.line != nil && len(m.line.Path) > 2 {
		r.bent = true
	}
	r.joined(g, ends[own])
	r.follow(g, m, ends[1-own], taken)
	return r, true
}

// joined notes the shackles that an end hangs on.
func (r *restraint) joined(g *rigging, p plan.Port) {
	for range mostJoints {
		k := g.things.Shackle(p.Thing)
		if k == nil || slices.Contains(r.joints, k.ID) {
			return
		}
		r.joints = append(r.joints, k.ID)
		next := plan.Port{}
		for _, j := range k.Joins {
			if g.things.Shackle(j.Thing) != nil {
				next = j
			}
		}
		p = next
	}
}

// follow goes on from the far end of a member to what holds it.
func (r *restraint) follow(g *rigging, m member, end plan.Port, taken map[plan.ID]bool) {
	for range mostJoints {
		if end.IsZero() {
			end = plan.Port{Thing: g.shackleOf(m.id())}
		}
		r.joined(g, end)
		if s, ok := g.site(end); ok {
			if s.Thing != r.own.Thing {
				r.far = s
				r.winch = m.line != nil && s == end && g.winchOf(s) != nil
			}
			return
		}
		next, other := g.onward(end.Thing, r, taken)
		r.members = append(r.members, next...)
		if len(next) != 1 {
			r.bent = r.bent || len(next) > 1
			return
		}
		m, end = next[0], other
	}
}

// onward finds the members that hang on a joint besides those of a restraint,
// and the far end of the last. What a pulling line runs through holds nothing:
// it moves.
func (g *rigging) onward(joint plan.ID, r *restraint, taken map[plan.ID]bool) (next []member, far plan.Port) {
	if joint == "" || g.pullsThrough(joint) {
		return nil, plan.Port{}
	}
	try := func(m member) {
		if taken[m.id()] || slices.ContainsFunc(r.members, func(k member) bool { return k.id() == m.id() }) {
			return
		}
		ports := m.ports()
		for e, p := range ports {
			if p.Thing == joint || m.id() == joint || p.IsZero() && g.shackleOf(m.id()) == joint {
				next, far = append(next, m), ports[1-e]
				return
			}
		}
	}
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; s.Use == r.use || s.Use == plan.UsePull && !g.pullsThrough(s.Holds.Thing) && !g.pullsThrough(s.On.Thing) && !g.pullsThrough(s.ID) {
			try(member{sling: s})
		}
	}
	for i := range g.r.Lines {
		if l := &g.r.Lines[i]; l.Use == r.use && len(l.Path) == 2 {
			try(member{line: l})
		}
	}
	return next, far
}

// pullsThrough reports whether a pulling line runs through a thing of the rig, or
// ends on it.
func (g *rigging) pullsThrough(id plan.ID) bool {
	for i := range g.r.Lines {
		l := &g.r.Lines[i]
		if l.Use == plan.UsePull && slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == id && id != "" }) {
			return true
		}
	}
	return false
}

// shackleOf is the shackle that joins a sling or line to something; empty: none.
func (g *rigging) shackleOf(id plan.ID) plan.ID {
	for i := range g.r.Shackles {
		k := &g.r.Shackles[i]
		if slices.ContainsFunc(k.Joins, func(j plan.Port) bool { return j.Thing == id }) {
			return k.ID
		}
	}
	return ""
}

// endSite is the port of the site that an end of a sling or line is fast to.
func (g *rigging) endSite(p plan.Port, id plan.ID) (plan.Port, bool) {
	if p.IsZero() {
		p = plan.Port{Thing: g.shackleOf(id)}
	}
	return g.site(p)
}

// holdsBy reports whether a member ends round a trunk or boulder, and its radius.
func (g *rigging) holdsBy(m member) (radius quantity.Length, round bool) {
	if m.sling == nil {
		return 0, false
	}
	for _, p := range m.ports() {
		if a := g.things.Anchor(p.Thing); a != nil && a.Kind == plan.AnchorTree {
			return terrain.AtStrap(a) / 2, true
		}
		if o := g.things.Obstacle(p.Thing); o != nil {
			_, r := terrain.RoundOf(o.Outline)
			return r, true
		}
	}
	return 0, false
}

// hitchOf is how a sling of a restraint is rigged. One whose free end goes round
// a trunk is drawn from the vehicle on: it counts as choked there, the weaker
// of its hitches, unless the plan says basket.
func hitchOf(s *plan.Sling, round bool) string {
	switch {
	case !round:
		return Hitch(s, false)
	case s.Hitch == plan.HitchBasket:
		return plan.HitchBasket
	}
	return plan.HitchChoked
}

// reachOf is how far a member reaches from end to end; false: its length, or
// the trunk it goes round, is not known.
func (g *rigging) reachOf(m member) (reach quantity.Length, lacks part.Lack, known bool) {
	if m.line != nil {
		return m.line.Length, part.Lack{Thing: m.line.ID, Member: "length_m"}, m.line.Length > 0
	}
	s := m.sling
	radius, round := g.holdsBy(m)
	switch {
	case !(s.Length > 0):
		return 0, part.Lack{Thing: s.ID, Member: "length_m"}, false
	case !round:
		return s.Length, part.Lack{}, true
	case !(radius > 0):
		tree := m.ports()[0].Thing
		if g.things.Anchor(tree) == nil {
			tree = m.ports()[1].Thing
		}
		return s.Length, part.Lack{Thing: tree, Member: "trunk_m"}, false
	}
	return gear.SlingRound(radius, s.Length, hitchOf(s, true)).Reach, part.Lack{}, true
}

// tieSlackM, metres, is how far a restraint may seem too short: drawn places are
// rounded to centimetres, and knots and stretch take as much. (ours)
const tieSlackM = 0.05

// TautSlack is how far a vehicle may slide until a tie-back is taut: one with
// more slack than that holds nothing at the moment that counts. (ours)
const TautSlack quantity.Length = 0.5

// lay finds where the restraints lie and whether each is taut and straight.
func (a *laying) layRestraints() {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		switch ports := r.members[0].ports(); {
		case !r.far.IsZero() && !r.own.IsZero():
			r.ends = [2]r3.Vector{a.portAt(r.own), a.farEnd(r)}
		case len(r.members) == 1 && !ports[0].IsZero() && !ports[1].IsZero(): // it holds nothing, and lies there all the same
			r.ends = [2]r3.Vector{a.portAt(ports[0]), a.portAt(ports[1])}
		default:
			continue
		}
		r.dir = r.ends[1].Sub(r.ends[0]).Normalize()
	}
}

// farEnd is where a restraint ends: at its anchor, a strap round a trunk at its
// height.
func (a *laying) farEnd(r *restraint) r3.Vector {
	last := r.members[len(r.members)-1]
	if t := a.g.things.Anchor(r.far.Thing); t != nil && t.Kind == plan.AnchorTree && last.sling != nil {
		return a.g.ground.Lift(t.At, float64(t.Rise+StrapHeight(last.sling)))
	}
	return a.portAt(r.far)
}

// taut reports whether a restraint reaches, without slack to speak of.
func (a *laying) taut(r *restraint) bool {
	reach, known := quantity.Length(0), true
	rule := "tie-back-slack"
	if r.use == plan.UseHoldBack {
		rule = "hold-back-slack"
	}
	for _, m := range r.members {
		l, lacks, ok := a.g.reachOf(m)
		if !ok {
			part.NotDecided(a.found(), rule, m.id(), lacks)
			known = false
		}
		reach += l
	}
	far := quantity.Length(r.ends[1].Sub(r.ends[0]).Norm())
	if !known {
		return false
	}
	if r.members[len(r.members)-1].line != nil {
		far -= a.roundM(r.far.Thing, r.ends[1]) // laid round it
	}
	for _, end := range [...]plan.Port{r.own, r.far} {
		a.placeLacks(end, func(l part.Lack) { part.NotDecided(a.found(), "too-short", l.Thing, l) })
	}
	switch missing := far - reach; {
	case missing > tieSlackM:
		a.find(part.Finding{ID: "too-short", Level: part.Danger, Things: a.things(r.first), Values: a.given(part.Length("missing", missing))})
		return false
	case -missing > TautSlack && !r.winch:
		a.find(part.Finding{ID: rule, Level: part.Warning, Things: a.things(r.first, r.own.Thing), Values: a.given(
			part.Length("slack", -missing), part.Length("most", TautSlack))})
		return false
	}
	return true
}

// laidRound is how much shorter than its stretch a line of a restraint is that
// is laid round what it ends at: the stretch is drawn to its middle.
func (a *laying) laidRound(line plan.ID) quantity.Length {
	for i := range a.g.restraints {
		r := &a.g.restraints[i]
		if last := r.members[len(r.members)-1]; last.line != nil && last.line.ID == line {
			return a.roundM(r.far.Thing, r.ends[1])
		}
	}
	return 0
}

// roundM is the radius of what a line is laid round at its end; 0: a point.
func (a *laying) roundM(id plan.ID, at r3.Vector) quantity.Length {
	if x := a.g.things.Anchor(id); x != nil && x.Kind == plan.AnchorTree {
		return terrain.AtStrap(x) / 2
	}
	round := 0.0
	if o := a.g.things.Obstacle(id); o != nil {
		for _, c := range o.Outline {
			round = max(round, math.Hypot(c.X-at.X, c.Y-at.Y))
		}
	}
	return quantity.Length(round)
}
