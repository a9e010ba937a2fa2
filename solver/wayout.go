package solver

import (
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// inWay is something that the casualty may run into: what it covers for sure and
// what at most, as outlines from above, and what is missing where they differ.
type inWay struct {
	id          plan.ID
	least, most []plan.Point
	lacks       []part.Lack
	person      bool
}

// wayOut finds what the casualty's body meets when it is moved along its way out
// as far as the plan says. Its body is taken as drawn: it does not turn.
func (a *laying) wayOut() {
	v := a.g.casualty
	if v == nil || !a.g.touches(v.ID) {
		return
	}
	if _, known := v.WayOut(); !known {
		return
	}
	corners := v.Corners()
	body := inWay{least: corners[:], most: corners[:]}
	if !(v.Length > 0 && v.Width > 0) {
		body.least, body.most = terrain.Round(v.At, 0), terrain.Round(v.At, terrain.LargestVehicle())
		body.lacks = a.missingSize(v.ID)
	}
	_, long := plan.Range(&v.Head, "casualty.way_length_m", float64(v.Stuck.WayLength))
	long = v.StraightRun(long)
	farthest := long
	if !(long > 0) { // what overlaps is met whatever the length
		long, farthest = 0, math.Inf(1)
		body.lacks = append(body.lacks, part.Lack{Thing: v.ID, Member: "casualty.way_length_m"})
	}
	swath := terrain.NewSwath(a.g.way, farthest, body.least, body.most)
	for i := range a.bodies {
		if b := &a.bodies[i]; !b.Misses(&swath) {
			a.standsInWay(&body, long, farthest, b)
		}
	}
	for i := range a.g.p.Site.Anchors {
		if t := &a.g.p.Site.Anchors[i]; t.Kind != plan.AnchorTree && !swath.Misses(t.At, 0) {
			a.meet(&body, long, farthest, inWay{id: t.ID, least: terrain.Round(t.At, 0)})
		}
	}
	for i := range a.out.Nodes {
		n, size := &a.out.Nodes[i], 0.0
		if b := a.g.things.Block(n.Thing); b != nil {
			size = float64(b.Sheave) / 2
		}
		if at := flat(n.At); !swath.Misses(at, size) && a.standsStill(n.Thing) {
			a.meet(&body, long, farthest, inWay{id: n.Thing, least: terrain.Round(at, size)})
		}
	}
	for i := range a.g.p.Site.People {
		if p := &a.g.p.Site.People[i]; p.Vehicle == "" && !swath.Misses(p.At, zone.PersonReach(p)) {
			a.meet(&body, long, farthest, inWay{id: p.ID, least: terrain.Round(p.At, zone.PersonReach(p)), person: true})
		}
	}
}

// standsInWay is [loading.meet] for an obstacle, vehicle or tree.
func (a *laying) standsInWay(body *inWay, long, farthest float64, b *terrain.Body) {
	if b.ID == a.g.casualty.ID || b.HeightM > 0 && b.HeightM < terrain.LowObstacle() && a.byHeight(b.ID) {
		return
	}
	w := inWay{id: b.ID}
	if w.least, w.most = b.Covers(); !b.Known {
		w.lacks = a.missingSize(b.ID)
	}
	a.meet(body, long, farthest, w)
}

// byHeight tells an obstacle that is one by its height alone: a low one is driven
// over. Water, a ditch or an edge is not, however little it stands out.
func (a *laying) byHeight(id plan.ID) bool {
	o := a.g.things.Obstacle(id)
	return o != nil && slices.Contains(standUp, o.Kind)
}

// standUp are the kinds of obstacle that stand on the ground.
var standUp = []string{plan.ObstacleBank, plan.ObstacleBoulder, "wall", "building"}

// meet raises what the casualty meets, or that nobody can tell. long is the
// travel for sure, farthest at most, metres along the ground.
func (a *laying) meet(body *inWay, long, farthest float64, w inWay) {
	v := a.g.casualty
	if w.most == nil {
		w.most = w.least
	}
	if w.person { // somebody in the way is met, however far it leads
		long = farthest
	}
	travel, meets, within := terrain.Driven(body.least, w.least, a.g.way)
	if within && !meets {
		a.out.Leaves = append(a.out.Leaves, w.id)
	}
	if (meets || within && w.person) && travel <= long {
		a.find(part.Finding{ID: "casualty-meets", Level: part.Danger, Things: a.things(v.ID, w.id), Values: []part.Value{
			part.Length("after", travel)}})
		return
	}
	if len(body.lacks)+len(w.lacks) == 0 {
		return
	}
	if travel, meets, within = terrain.Driven(body.most, w.most, a.g.way); (meets || within && len(w.lacks) > 0) && travel <= farthest {
		part.NotDecided(a.found(), "casualty-meets", w.id, w.lacks...)
		part.NotDecided(a.found(), "casualty-meets", v.ID, body.lacks...)
	}
}

// standsStill reports whether a block or shackle of the pull does not move with the
// casualty: no chain of blocks, slings and shackles fastens it there.
func (a *laying) standsStill(id plan.ID) bool {
	return a.g.inPath(id) && !a.carried(id, mostLinks)
}

// carried reports whether a thing of the rig is fast to the casualty through what
// fixes, joins or slings it.
func (a *laying) carried(id plan.ID, links int) bool {
	if id == a.g.casualty.ID || links == 0 {
		return id == a.g.casualty.ID
	}
	on := func(p plan.Port) bool { return !p.IsZero() && p.Thing != id && a.carried(p.Thing, links-1) }
	if b := a.g.things.Block(id); b != nil && on(b.Fixed) {
		return true
	}
	if k := a.g.things.Shackle(id); k != nil {
		for _, j := range k.Joins {
			if on(j) {
				return true
			}
		}
	}
	for i := range a.g.r.Slings {
		switch s := &a.g.r.Slings[i]; {
		case s.Use != plan.UsePull:
		case s.ID == id && (on(s.On) || on(s.Holds)), s.Holds.Thing == id && on(s.On), s.On.Thing == id && on(s.Holds):
			return true
		}
	}
	return false
}
