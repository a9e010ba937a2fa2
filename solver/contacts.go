package solver

import (
	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// contacts finds where stretches bear on obstacles, vehicles and trunks. A line
// that bears on something is refused: its tension past the contact is not that
// of the drawing, and the line is being cut.
func (a *laying) contacts() {
	if a.quiet && a.untouched() {
		return
	}
	a.bodies = terrain.BodiesIn(a.bodies, &a.g.p.Site)
	a.unclosed = some(a.g.slings, func(s *riggedSling) bool { return s.round.Short > 0 })
	from := quantity.Length(0) // along its line
	for i := range a.out.Stretches {
		s := &a.out.Stretches[i]
		if a.g.restrains[s.Line] {
			continue // it is judged with what it holds
		}
		if s.Index == 0 {
			from = 0
		}
		run := terrain.Line{A: s.A, B: s.B, Ends: [2]plan.ID{FastTo(a.g.things, s.PortA), FastTo(a.g.things, s.PortB)}}
		for k := range a.bodies {
			a.contact(s, from, &run, &a.bodies[k])
		}
		from += s.Length
	}
	a.strapContacts()
	if a.quiet {
		a.stayUntouched()
	}
	if a.refused {
		for i := range a.out.Stretches {
			a.out.Stretches[i].Refused = true
		}
	}
}

// contact is what a stretch, which begins so far along its line, has to do with
// one thing of the site.
func (a *laying) contact(s *part.Stretch, from quantity.Length, run *terrain.Line, b *terrain.Body) {
	id, tree := "line-bears", b.Kind == plan.ThingAnchor
	if b.Apart(run) && s.PortB.Thing != b.ID {
		return
	}
	if tree {
		id = "line-on-trunk"
		if s.PortB.Thing == b.ID && a.g.things.Anchor(b.ID).HasTrunk() {
			a.find(part.Finding{ID: "bare-trunk", Level: part.Warning, Things: a.things(s.Line, b.ID), Parts: a.named(s.Part)})
		}
		if s.PortA.Thing == b.ID || s.PortB.Thing == b.ID || a.unlaid(s, b.ID) {
			return // said already: it is laid bare round the trunk, or its sling does not close
		}
	}
	c := b.Bears(&a.g.ground, run)
	switch {
	case c.Touches:
		a.bears(s, id, b.ID, from, c)
	case c.Over:
		a.over(s, b, c.OverM)
	case b.Unmeasured(run):
		a.unmeasured(id, b)
	case !tree && b.Known && !run.Fast(b.ID):
		want, most := terrain.KeepOff(), terrain.KeepOff()*8
		if s.ClearOf != "" { // farther than the nearest so far it is told of no more
			most = max(want, min(most, float64(s.Clear)))
		}
		a.near(s, b.ID, b.Clear(run, most))
	}
}

// strapContacts finds the slings of the pull that bear on something between what
// they are on and what they hold: such a one does not pull straight.
func (a *laying) strapContacts() {
	for i := range a.g.slings {
		rs, lie := &a.g.slings[i], &a.out.Slings[i]
		if rs.sling.Use != plan.UsePull || rs.index < 0 || rs.round.Short > 0 {
			continue
		}
		if by, _ := a.bearsOn(lie.Centre, lie.Apex, FastTo(a.g.things, rs.sling.On), FastTo(a.g.things, rs.sling.Holds)); by != "" {
			if !a.standsAside(by) {
				a.refuse("strap-bears")
			}
			a.find(part.Finding{ID: "strap-bears", Level: part.Danger, Things: a.things(rs.sling.ID, by), Parts: a.named(string(rs.sling.ID))})
		}
	}
}

// bearsOn is the first thing of the site that a straight run of line or strap
// bears on; empty: nothing. ends are the things, two at most, that its ends are
// fast to: at their edges it may begin and end, not run through them. It is not
// decided where nobody said how far something reaches that it may bear on.
func (a *laying) bearsOn(from, to r3.Vector, ends ...plan.ID) (by plan.ID, decided bool) {
	run := terrain.Line{A: from, B: to}
	copy(run.Ends[:], ends)
	if at, _ := terrain.First(a.bodies, &a.g.ground, &run); at >= 0 {
		return a.bodies[at].ID, true
	}
	decided = true
	for k := range a.bodies {
		if b := &a.bodies[k]; b.Unmeasured(&run) {
			a.unmeasured("line-bears", b)
			decided = false
		}
	}
	return "", decided
}

// FastTo is the thing of the site that a port is fast to, by itself or through
// blocks, shackles and the first sling that holds it; empty: none.
func FastTo(x *plan.Index, p plan.Port) plan.ID {
	for range mostLinks {
		next := plan.Port{}
		switch x.Kind(p.Thing) {
		case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle:
			return p.Thing
		case plan.ThingSling:
			next = x.Sling(p.Thing).On
		case plan.ThingBlock:
			if next = x.Block(p.Thing).Fixed; next.IsZero() {
				next = heldBy(x, p.Thing)
			}
		case plan.ThingShackle:
			if next = heldBy(x, p.Thing); !next.IsZero() {
				break
			}
			for _, j := range x.Shackle(p.Thing).Joins {
				if k := x.Kind(j.Thing); k == plan.ThingVehicle || k == plan.ThingAnchor || k == plan.ThingObstacle || k == plan.ThingSling {
					next = j
				}
			}
		}
		if next.IsZero() {
			return ""
		}
		p = next
	}
	return ""
}

// mostLinks is how many slings, shackles and blocks may hang one on another
// before a port counts as fast to nothing: a plan can join them in a ring.
const mostLinks = 8

// heldBy is the port that the first sling which holds a thing is on.
func heldBy(x *plan.Index, id plan.ID) plan.Port {
	for i := range x.Rig.Slings {
		if s := &x.Rig.Slings[i]; s.Holds.Thing == id && s.On.Thing != id {
			return s.On
		}
	}
	return plan.Port{}
}

// unlaid reports whether a stretch ends at what hangs in a sling that does not close
// round a tree: where that lies is not known, and drawn in the middle of it.
func (a *laying) unlaid(s *part.Stretch, tree plan.ID) bool {
	if !a.unclosed {
		return false
	}
	for i := range a.g.slings {
		sl := a.g.slings[i].sling
		if sl.On.Thing == tree && a.g.slings[i].round.Short > 0 &&
			(sl.Holds.Thing == s.PortA.Thing || sl.Holds.Thing == s.PortB.Thing || sl.ID == s.PortB.Thing) {
			return true
		}
	}
	return false
}

func (a *laying) bears(s *part.Stretch, id string, on plan.ID, from quantity.Length, c terrain.Contact) {
	s.Contacts = append(s.Contacts, part.Contact{Obstacle: on, From: from + c.From, To: from + c.To, Length: c.Length})
	if a.standsAside(on) && FastTo(a.g.things, s.PortA) != on && FastTo(a.g.things, s.PortB) != on {
		id = "line-through-vehicle"
	} else {
		s.Refused = true
		a.refuse(id)
	}
	a.find(part.Finding{ID: id, Level: part.Danger, Things: a.things(s.Line, on), Parts: a.named(s.Part), Values: []part.Value{
		part.Length("from", from+c.From),
		part.Length("to", from+c.To),
		part.Length("length", c.Length),
	}, Remedies: waysRound(s.Line)})
}

// standsAside reports whether a thing is a vehicle of the pull: where it stands in the
// way of its own pull the DANGER says so, and what the others carry is worth
// knowing all the same.
func (a *laying) standsAside(id plan.ID) bool {
	return a.g.things.Vehicle(id) != nil && a.g.touches(id)
}

// waysRound offers the rigs that lead a line round what it bears on. (package
// layout proposes them)
func waysRound(line plan.ID) []part.Remedy {
	return []part.Remedy{{Do: "ways-round", Thing: line}}
}

// near tells of a stretch that passes beside something at that distance.
func (a *laying) near(s *part.Stretch, id plan.ID, clearM float64) {
	if s.ClearOf == "" || quantity.Length(clearM) < s.Clear {
		s.Clear, s.ClearOf = quantity.Length(clearM), id
	}
	if want := terrain.KeepOff(); clearM < want {
		a.passes("line-near", s, id, part.Length("clear", clearM), part.Length("want", want))
	}
}

// over tells of a stretch that passes that far above something, or above what is
// said to be too low to be drawn as an obstacle.
func (a *laying) over(s *part.Stretch, b *terrain.Body, overM float64) {
	clear := part.Length("clear", overM)
	switch want := terrain.KeepOff(); {
	case overM < want:
		a.passes("line-over", s, b.ID, clear, part.Length("want", want))
	case b.HeightM < terrain.LowObstacle():
		a.passes("line-over-low", s, b.ID, clear, part.Length("height", b.HeightM))
	}
}

func (a *laying) passes(id string, s *part.Stretch, thing plan.ID, values ...part.Value) {
	a.find(part.Finding{ID: id, Level: part.Caution, Things: a.things(s.Line, thing), Parts: a.named(s.Part), Values: values})
}

// unmeasured says that a rule cannot decide whether something is met, because
// nobody said how far it reaches.
func (a *laying) unmeasured(rule string, b *terrain.Body) {
	a.undecided = true
	part.NotDecided(a.found(), rule, b.ID, a.missingSize(b.ID)...)
}

// missingSize are the members that say how far a vehicle or tree reaches and are
// missing.
func (a *resolving) missingSize(id plan.ID) (lacks []part.Lack) {
	if v := a.g.things.Vehicle(id); v != nil {
		if !(v.Length > 0) {
			lacks = append(lacks, part.Lack{Thing: id, Member: "length_m"})
		}
		if !(v.Width > 0) {
			lacks = append(lacks, part.Lack{Thing: id, Member: "width_m"})
		}
		return lacks
	}
	if t := a.g.things.Anchor(id); t != nil && plan.AnchorKindOf(t.Kind) == nil {
		return append(lacks, part.Lack{Thing: id, Member: "kind"})
	}
	return append(lacks, part.Lack{Thing: id, Member: "trunk_m"})
}
