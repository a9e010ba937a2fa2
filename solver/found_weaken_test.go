package solver_test

import (
	"fmt"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// weakening makes something hold less than the plan says, or takes it away.
type weakening struct {
	name  string
	apply change
	// of is the thing whose figure is forgotten, with the restraint it is of; nil:
	// it is known, and worse. What was proved of them by that figure is not known
	// any more, so a DANGER about them may become "not known", which never settles
	// an answer.
	of []string
	// moves tells that what is held shifts, and with it how the lines run, what
	// each part carries and where its zones lie: one that was over a limit may come
	// to carry less than that limit, and who was in a zone may be beside it.
	moves bool
	// gone are things and parts that carry nothing any more, or lie otherwise: what
	// was said of them is not said again.
	gone []string
	// but is the exemption whose rules are rightly cleared of own: the thing, what is
	// round it and the restraint it is of.
	but string
	own []string
	// not is an exemption that does not count, for the rule notOf.
	not, notOf string
}

// partThing is the thing of a part or port.
func partThing(id plan.ID) plan.ID {
	thing, _, _ := strings.Cut(string(id), "/")
	return plan.ID(thing)
}

// copied is a plan whose things may be changed.
func copied(p *plan.Plan) *plan.Plan {
	d := plan.Edit(p, p.Rigs[0].ID)
	for i := range d.Site.Vehicles {
		d.Site.Vehicles[i].Unshare()
	}
	for i := range d.Laid.Lines {
		d.Laid.Lines[i].Path = slices.Clone(d.Laid.Lines[i].Path)
	}
	for i := range d.Laid.Shackles {
		d.Laid.Shackles[i].Joins = slices.Clone(d.Laid.Shackles[i].Joins)
	}
	return d.Plan
}

// weakener collects the ways of weakening a found plan.
type weakener struct {
	*found
	answer *solver.Assessment
	all    []weakening
}

// weakenings are all there are of a found plan.
func (f *found) weakenings() []weakening {
	w := &weakener{found: f, answer: solver.Assess(f.p, "R1")}
	w.lines()
	w.blocks()
	w.slings()
	w.shackles()
	w.anchors()
	w.obstacles()
	w.vehicles()
	w.forget("", "grip", func(p *plan.Plan) { p.Site.Ground.Grip = "" })
	for i := range f.p.Site.Vehicles { // what stands on it
		w.last().of = append(w.last().of, string(f.p.Site.Vehicles[i].ID))
	}
	return append(w.all, f.removals()...)
}

// last is the weakening added last.
func (w *weakener) last() *weakening { return &w.all[len(w.all)-1] }

func (w *weakener) add(id plan.ID, what string, apply change) {
	w.all = append(w.all, weakening{name: fmt.Sprintf("%s: %s", id, what), apply: apply, own: slices.Concat([]string{string(id)}, w.slingsOn(id), w.restraintOf(string(id)))})
}

// forget adds that a figure of a thing is not known.
func (w *weakener) forget(id plan.ID, what string, apply change) {
	w.add(id, what+" not known", apply)
	l := w.last()
	l.of = append(w.restraintOf(string(id)), string(partThing(id)))
	l.of = append(l.of, w.slingsOn(id)...) // what goes round it lies as nobody knows either
}

// rated adds what may be wrong with a rating.
func (w *weakener) rated(id plan.ID, of func(p *plan.Plan) *plan.Rating) {
	if !of(w.p).Known() {
		return
	}
	w.add(id, "rating lower", func(p *plan.Plan) { of(p).Force *= 0.3 })
	w.last().but = "smaller tag"
	w.forget(id, "rating", func(p *plan.Plan) { *of(p) = plan.Rating{} })
	w.add(id, "basis of rating not said", func(p *plan.Plan) { of(p).Basis = plan.BasisUnsaid })
}

func (w *weakener) lines() {
	for i := range w.r.Lines {
		line := func(p *plan.Plan) *plan.Line { return &p.Rigs[0].Lines[i] }
		l := line(w.p)
		w.rated(l.ID, func(p *plan.Plan) *plan.Rating { return &line(p).Rating })
		w.forget(l.ID, "condition", func(p *plan.Plan) { line(p).Condition = plan.ConditionUnknown })
		w.add(l.ID, "doubtful", func(p *plan.Plan) { line(p).Condition = plan.ConditionDoubtful })
		w.add(l.ID, "kinked", func(p *plan.Plan) { line(p).Condition = plan.ConditionKinked })
		w.add(l.ID, "knotted", func(p *plan.Plan) { line(p).Knots = append(slices.Clone(line(p).Knots), "knot.overhand") })
		w.forget(l.ID, "end", func(p *plan.Plan) { line(p).End = "" })
		if l.Use == plan.UseHoldBack && l.PaidOut != "" {
			w.add(l.ID, "not paid out", func(p *plan.Plan) { line(p).PaidOut = "" })
		}
		if l.Use != plan.UsePull && l.Length > 0 {
			w.add(l.ID, "2 m longer", func(p *plan.Plan) { line(p).Length += 2 })
			w.last().but = "longer"
			w.forget(l.ID, "length", func(p *plan.Plan) { line(p).Length = 0 })
		}
	}
}

func (w *weakener) blocks() {
	for i := range w.r.Blocks {
		of := func(p *plan.Plan) *plan.Block { return &p.Rigs[0].Blocks[i] }
		id := of(w.p).ID
		w.rated(id, func(p *plan.Plan) *plan.Rating { return &of(p).Rating })
		w.forget(id, "place of its rating", func(p *plan.Plan) { of(p).RatingOn = "" })
		w.forget(id, "sheave", func(p *plan.Plan) { of(p).Sheave = 0 })
		w.add(id, "sheave small", func(p *plan.Plan) { of(p).Sheave *= 0.4 })
	}
}

func (w *weakener) slings() {
	for i := range w.r.Slings {
		of := func(p *plan.Plan) *plan.Sling { return &p.Rigs[0].Slings[i] }
		s := of(w.p)
		w.rated(s.ID, func(p *plan.Plan) *plan.Rating { return &of(p).Rating })
		w.forget(s.ID, "condition", func(p *plan.Plan) { of(p).Condition = plan.ConditionUnknown })
		w.add(s.ID, "doubtful", func(p *plan.Plan) { of(p).Condition = plan.ConditionDoubtful })
		w.add(s.ID, "kinked", func(p *plan.Plan) { of(p).Condition = plan.ConditionKinked })
		w.forget(s.ID, "material", func(p *plan.Plan) { of(p).Material = "" })
		w.forget(s.ID, "length", func(p *plan.Plan) { of(p).Length = 0 })
		w.last().moves = true
		if s.Hitch == plan.HitchBasket && !w.leg(s.ID) {
			w.add(s.ID, "straight, not round", func(p *plan.Plan) { of(p).Hitch = plan.HitchStraight })
			w.last().moves = true
		}
		if s.Use != plan.UsePull && s.Length > 0 {
			w.add(s.ID, "2 m longer", func(p *plan.Plan) { of(p).Length += 2 })
			w.last().but = "longer"
		}
	}
}

func (w *weakener) shackles() {
	for i := range w.r.Shackles {
		of := func(p *plan.Plan) *plan.Shackle { return &p.Rigs[0].Shackles[i] }
		id := of(w.p).ID
		w.rated(id, func(p *plan.Plan) *plan.Rating { return &of(p).Rating })
		w.forget(id, "kind", func(p *plan.Plan) { of(p).Kind = "" })
		w.add(id, "pin on the running line", func(p *plan.Plan) { of(p).PinIsRunning = true })
	}
}

func (w *weakener) anchors() {
	for i := range w.p.Site.Anchors {
		of := func(p *plan.Plan) *plan.Anchor { return &p.Site.Anchors[i] }
		a := of(w.p)
		w.rated(a.ID, func(p *plan.Plan) *plan.Rating { return &of(p).Rating })
		w.anchorOf(a, of)
		w.forget(a.ID, "kind", func(p *plan.Plan) { of(p).Kind = "" })
		w.last().moves = true
		if h, _ := w.answer.Part(string(a.ID)); h != nil && h.Limit.Known { // else it would be known then
			w.add(a.ID, "measured, and holds little", func(p *plan.Plan) {
				of(p).HoldLow, of(p).HoldLikely, of(p).HoldHigh = plan.Known(quantity.Force(500)), 500, 500
			})
			w.last().but = "measured"
		}
	}
}

// anchorOf adds what may be wrong with an anchor of its kind.
func (w *weakener) anchorOf(a *plan.Anchor, of func(p *plan.Plan) *plan.Anchor) {
	switch a.Kind {
	case plan.AnchorTree:
		w.forget(a.ID, "health", func(p *plan.Plan) { of(p).Health = plan.HealthUnknown })
		for _, h := range []string{plan.HealthDoubtful, plan.HealthDead, plan.HealthRotten} {
			w.add(a.ID, "health "+h, func(p *plan.Plan) { of(p).Health = h })
		}
		if !w.leg(a.ID) {
			w.add(a.ID, "thinner", func(p *plan.Plan) { of(p).Trunk *= 0.6 })
			w.last().moves = true
			w.last().but = "thinner stem"
			w.last().gone = w.slingsOn(a.ID)
		}
		w.forget(a.ID, "trunk", func(p *plan.Plan) { of(p).Trunk = 0 })
		w.last().moves = true
		w.forget(a.ID, "height", func(p *plan.Plan) { of(p).Height = 0 })
		w.forget(a.ID, "roots", func(p *plan.Plan) { of(p).Rooting = "" })
		w.forget(a.ID, "species", func(p *plan.Plan) { of(p).Species = "" })
		w.forget(a.ID, "soil", func(p *plan.Plan) { of(p).Soil = "no known soil" })
		w.add(a.ID, "pulled before", func(p *plan.Plan) { of(p).PulledBefore = true })
		w.add(a.ID, "base moved", func(p *plan.Plan) { of(p).BaseMoved = true })
	case plan.AnchorBoulder:
		w.add(a.ID, "lighter", func(p *plan.Plan) { of(p).Mass *= 0.3 })
		w.forget(a.ID, "mass", func(p *plan.Plan) { of(p).Mass = 0 })
	case plan.AnchorPickets:
		w.forget(a.ID, "layout", func(p *plan.Plan) { of(p).Layout = "" })
		if a.Layout != "" { // else it would be known then
			w.add(a.ID, "one picket", func(p *plan.Plan) { of(p).Layout = "1" })
		}
		w.forget(a.ID, "direction", func(p *plan.Plan) { of(p).SetKnown = false })
	case plan.AnchorDeadman:
		w.add(a.ID, "thinner log", func(p *plan.Plan) { of(p).LogDiameter *= 0.8 })
		w.forget(a.ID, "depth", func(p *plan.Plan) { of(p).Depth = 0 })
		w.forget(a.ID, "direction", func(p *plan.Plan) { of(p).SetKnown = false })
	}
}

func (w *weakener) obstacles() {
	for i := range w.p.Site.Obstacles {
		of := func(p *plan.Plan) *plan.Obstacle { return &p.Site.Obstacles[i] }
		if o := of(w.p); o.Anchor {
			w.add(o.ID, "no anchor", func(p *plan.Plan) { of(p).Anchor = false })
			w.add(o.ID, "lighter", func(p *plan.Plan) { of(p).Mass *= 0.3 })
			w.forget(o.ID, "mass", func(p *plan.Plan) { of(p).Mass = 0 })
		}
	}
}

func (w *weakener) vehicles() {
	for i := range w.p.Site.Vehicles {
		of := func(p *plan.Plan) *plan.Vehicle { return &p.Site.Vehicles[i] }
		v := of(w.p)
		for k := range v.Recovery {
			q := func(p *plan.Plan) *plan.RecoveryPoint { return &of(p).Recovery[k] }
			id := plan.ID(port(v.ID, q(w.p).ID).String())
			w.rated(id, func(p *plan.Plan) *plan.Rating { return &q(p).Rating })
			w.add(id, "a tow ball", func(p *plan.Plan) { q(p).Kind = plan.PointTowBall })
			w.forget(id, "kind", func(p *plan.Plan) { q(p).Kind = plan.PointUnknown })
			w.forget(id, "direction", func(p *plan.Plan) { q(p).Axis = plan.Maybe[quantity.Degrees]{} })
		}
		if v.Stuck != nil {
			continue
		}
		if !(v.BrakeForce > 0) { // of a heavier one on a slope a brake of so many newtons holds less
			w.add(v.ID, "lighter", func(p *plan.Plan) { of(p).Mass *= 0.4 })
		}
		w.forget(v.ID, "mass", func(p *plan.Plan) { of(p).Mass = 0 })
		if v.Brake != plan.BrakeUnknown { // else it would be known then
			w.add(v.ID, "no brake", func(p *plan.Plan) { of(p).Brake = plan.BrakeNone })
			w.add(v.ID, "nothing that holds", func(p *plan.Plan) {
				of(p).Brake, of(p).Chocks, of(p).FootBrake, of(p).InGear = plan.BrakeNone, plan.ChocksNone, false, false
			})
			w.last().but = "no foot"
		}
		w.add(v.ID, "no chocks", func(p *plan.Plan) { of(p).Chocks = plan.ChocksNone })
		w.add(v.ID, "no foot on the brake", func(p *plan.Plan) { of(p).FootBrake = false })
		w.last().but = "no foot"
	}
}

// removals take each sling, shackle, restraining line and anchor away, but what a
// pulling line itself runs through or ends on, and the legs of bridles: what is
// left then is another pull, with directions of its own.
func (f *found) removals() (all []weakening) {
	take := func(id plan.ID) {
		if f.leg(id) || slices.ContainsFunc(f.r.Lines, func(l plan.Line) bool {
			return l.Use == plan.UsePull && slices.ContainsFunc(l.Path, func(q plan.Port) bool { return q.Thing == id })
		}) {
			return
		}
		all = append(all, weakening{name: string(id) + " taken away", apply: func(p *plan.Plan) { takenAway(p, id) }, gone: f.goneWith(id)})
	}
	for i := range f.r.Slings {
		take(f.r.Slings[i].ID)
	}
	for i := range f.r.Shackles {
		take(f.r.Shackles[i].ID)
	}
	for i := range f.r.Lines {
		if f.r.Lines[i].Use != plan.UsePull {
			take(f.r.Lines[i].ID)
		}
	}
	for i := range f.p.Site.Anchors {
		take(f.p.Site.Anchors[i].ID)
	}
	for i := range f.p.Site.Obstacles {
		if f.p.Site.Obstacles[i].Anchor {
			take(f.p.Site.Obstacles[i].ID)
		}
	}
	return all
}

// goneWith is a thing, what nothing of the rig hangs on without it, and if it is
// of a restraint all that restraint is of.
func (f *found) goneWith(id plan.ID) []string {
	gone := append(f.restraintOf(string(id)), string(id))
	q := copied(f.p)
	takenAway(q, id)
	left := hookedPorts(&q.Rigs[0])
	for _, p := range hookedPorts(f.r) {
		if !slices.Contains(left, p) {
			gone = append(gone, p.String())
		}
	}
	return gone
}

// leg reports whether a sling is one of several that hold one thing, or that one of
// those is on a thing.
func (f *found) leg(id plan.ID) bool {
	for i := range f.r.Slings {
		s := &f.r.Slings[i]
		for k := range f.r.Slings {
			if o := &f.r.Slings[k]; (s.ID == id || s.On.Thing == id) && o.ID != s.ID && o.Holds == s.Holds && s.Holds.Thing != "" {
				return true
			}
		}
	}
	return false
}

// slingsOn are the slings on or round a thing.
func (f *found) slingsOn(id plan.ID) (all []string) {
	for i := range f.r.Slings {
		if s := &f.r.Slings[i]; s.On.Thing == id {
			all = append(all, string(s.ID))
		}
	}
	return all
}

// restraintOf is all that a tie-back or hold-back is of which has a thing or port.
func (f *found) restraintOf(id string) (all []string) {
	for _, group := range f.aside {
		if slices.Contains(group, id) {
			all = append(all, group...)
		}
	}
	return all
}

// hookedPorts are all ports that the things of a rig are fast to.
func hookedPorts(r *plan.Rig) (all []plan.Port) {
	for i := range r.Lines {
		all = append(all, r.Lines[i].Path...)
	}
	for i := range r.Blocks {
		all = append(all, r.Blocks[i].Fixed)
	}
	for i := range r.Slings {
		all = append(all, r.Slings[i].On, r.Slings[i].Holds)
	}
	for i := range r.Shackles {
		all = append(all, r.Shackles[i].Joins...)
	}
	return all
}

// takenAway takes a thing out as somebody would on site: what hung on it hangs
// loose.
func takenAway(p *plan.Plan, id plan.ID) {
	r := &p.Rigs[0]
	p.Site.Anchors = slices.DeleteFunc(p.Site.Anchors, func(a plan.Anchor) bool { return a.ID == id })
	p.Site.Obstacles = slices.DeleteFunc(p.Site.Obstacles, func(o plan.Obstacle) bool { return o.ID == id })
	r.Slings = slices.DeleteFunc(r.Slings, func(s plan.Sling) bool { return s.ID == id })
	joined := func(q plan.Port) bool { return q.Thing == id }
	var loose []plan.ID // shackles that joined it: they go with it
	for i := range r.Shackles {
		if k := &r.Shackles[i]; k.ID != id && slices.ContainsFunc(k.Joins, joined) {
			loose = append(loose, k.ID)
		}
	}
	r.Shackles = slices.DeleteFunc(r.Shackles, func(k plan.Shackle) bool { return k.ID == id || slices.Contains(loose, k.ID) })
	unhook := func(q *plan.Port) {
		if q.Thing == id || slices.Contains(loose, q.Thing) {
			*q = plan.Port{}
		}
	}
	for i := range r.Slings {
		unhook(&r.Slings[i].On)
		unhook(&r.Slings[i].Holds)
	}
	for i := range r.Blocks {
		unhook(&r.Blocks[i].Fixed)
	}
	for i := range r.Lines {
		l := &r.Lines[i]
		l.Path = slices.DeleteFunc(l.Path, func(q plan.Port) bool { return q.Thing == id || slices.Contains(loose, q.Thing) })
	}
	r.Lines = slices.DeleteFunc(r.Lines, func(l plan.Line) bool { return l.ID == id || len(l.Path) < 1 })
	r.Dampers = slices.DeleteFunc(r.Dampers, func(d plan.Damper) bool {
		_, there := r.Line(d.Line)
		return !there
	})
}
