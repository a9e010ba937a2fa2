package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// inWater finds what stands in drawn water and is computed as if it stood on
// land: grip, holds and resistance in it are not computed. Somebody who stands
// in it can neither run nor be sure of a footing.
func (a *laying) inWater() {
	for i := range a.g.p.Site.Obstacles {
		o := &a.g.p.Site.Obstacles[i]
		if o.Kind != plan.ObstacleWater && o.Kind != "" {
			continue
		}
		a.bodiesIn(o)
		for k := range a.g.p.Site.Anchors {
			if t := &a.g.p.Site.Anchors[k]; t.Kind != plan.AnchorRated && !t.HoldTyped() && a.pulledOn(t.ID) && terrain.Overlap(o.Outline, terrain.Round(t.At, 0)) {
				a.standsIn("stands-in-water", o, t.ID)
			}
		}
		for k := range a.g.p.Site.People {
			if p := &a.g.p.Site.People[k]; p.Vehicle == "" && terrain.Overlap(o.Outline, terrain.Round(p.At, zone.PersonReach(p))) {
				a.standsIn("person-in-water", o, p.ID)
			}
		}
	}
}

// bodiesIn finds the vehicles of the pull that stand in a water. A casualty that
// is said to is computed so, and a measured resistance was measured there.
func (a *laying) bodiesIn(o *plan.Obstacle) {
	for i := range a.bodies {
		b := &a.bodies[i]
		v := a.g.things.Vehicle(b.ID)
		if b.Kind != plan.ThingVehicle || !a.pulledOn(b.ID) {
			continue
		}
		id := "stands-in-water"
		if v == a.g.casualty {
			if id = "casualty-in-water"; v.Stuck.InWater || v.Stuck.Measured > 0 {
				continue
			}
		}
		least, most := b.Covers()
		switch {
		case terrain.Overlap(o.Outline, least):
			a.standsIn(id, o, b.ID)
		case !b.Known && terrain.Overlap(o.Outline, most):
			part.NotDecided(a.found(), id, b.ID, a.missingSize(b.ID)...)
		}
	}
}

// pulledOn reports whether the pull or a restraint is fast to a thing of the site.
func (a *laying) pulledOn(id plan.ID) bool { return a.g.touches(id) || a.restrainedAt(ofThing(id)) }

// standsIn raises that a thing stands in a water, or that nobody said whether it
// is one.
func (a *laying) standsIn(id string, o *plan.Obstacle, thing plan.ID) {
	if o.Kind == "" {
		part.NotDecided(a.found(), id, o.ID, part.Lack{Thing: o.ID, Member: "kind"})
		return
	}
	a.find(part.Finding{ID: id, Level: part.Warning, Things: a.things(thing, o.ID)})
}
