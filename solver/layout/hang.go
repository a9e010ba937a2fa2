package layout

import (
	"slices"

	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// KitLengths are the sling lengths, in metres, shortest first, that a slung
// block is offered. (common practice: the lengths slings are sold in)
func KitLengths() []quantity.Length { return slices.Clone(kitLengths[:]) }

var kitLengths = [...]quantity.Length{1.5, 2, 3, 4, 5, 6}

// PresetSling is the length of a sling nobody chose. (common practice)
const PresetSling quantity.Length = 3

// opensMost, in degrees: a longer sling is taken before the legs open this far.
// (ours: at 60° a leg carries 58 % of the pull and the bark starts to slip)
const opensMost quantity.Degrees = 60

// SlingFor is the shortest kit sling of at least that length which closes round
// a trunk and opens under 60°; the longest there is if none does. Round a trunk
// whose thickness is not known it is the length itself, 3 m at least.
func SlingFor(radius, least quantity.Length) quantity.Length {
	if radius <= 0 {
		return max(least, PresetSling)
	}
	for _, l := range kitLengths {
		if l < least {
			continue
		}
		if r := gear.SlingRound(radius, l, plan.HitchBasket); r.Closes && r.Opens < opensMost {
			return l
		}
	}
	return kitLengths[len(kitLengths)-1]
}

// SlungReach is how far from the middle of the trunk, or from the point it is
// hooked to (radius 0), a sling holds what hangs on it.
func SlungReach(s *plan.Sling, radius quantity.Length) quantity.Length {
	if radius <= 0 {
		return s.Length
	}
	return gear.SlingRound(radius, s.Length, solver.Hitch(s, true)).Reach
}

// Trunk reports whether a sling goes round what a port names, and where and how thick
// that is: a tree, or a boulder, counted as round as its outline is long.
func Trunk(x *plan.Index, port plan.Port) (middle plan.Point, radius quantity.Length, ok bool) {
	if a := x.Anchor(port.Thing); a != nil && a.Kind == plan.AnchorTree {
		return a.At, terrain.AtStrap(a) / 2, true
	}
	if o := x.Obstacle(port.Thing); o != nil {
		middle, radius = terrain.RoundOf(o.Outline)
		return middle, radius, true
	}
	return plan.Point{}, 0, false
}

// Hung is what [Kit.Hang] added.
type Hung struct {
	Block plan.ID         // empty: nothing, the port is its own sheave
	Sling plan.ID         // empty: the block is fixed to a point
	Long  quantity.Length // of the sling
}

// Hang gives a line a block to run over at a port of the site: slung to a trunk
// by a basket, fixed to a point by a shackle. It returns the port of the sheave;
// a port of the rig is its own. The block is drawn toward a place; length is the
// sling's, 0: [SlingFor] from 3 m up.
func (k Kit) Hang(d plan.Draft, port plan.Port, to plan.Point, length quantity.Length) (plan.Port, Hung) {
	x := d.Index()
	switch x.Kind(port.Thing) {
	case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle:
	default:
		return port, Hung{}
	}
	b := k.Block()
	middle, radius, round := Trunk(x, port)
	if !round {
		at, _ := x.PortPlace(port)
		b.Fixed, b.At = port, at.At
		id := d.AddBlock(b)
		sh := k.Shackle()
		sh.Joins = []plan.Port{port, {Thing: id}}
		d.AddShackle(sh)
		return plan.Port{Thing: id}, Hung{Block: id}
	}
	if length == 0 {
		length = SlingFor(radius, PresetSling)
	}
	s := k.Sling(length)
	b.At = toward(middle, to, float64(SlungReach(&s, radius)+b.HeadLength))
	id := d.AddBlock(b)
	s.On, s.Holds, s.Hitch = port, plan.Port{Thing: id}, plan.HitchBasket
	sling := d.AddSling(s)
	sh := k.Shackle()
	sh.Joins = []plan.Port{{Thing: sling}, {Thing: id}}
	d.AddShackle(sh)
	return plan.Port{Thing: id}, Hung{Block: id, Sling: sling, Long: length}
}

// EndAt is where a line ends that was led to a port: at a trunk in a shackle
// that a sling round it holds, drawn toward where the line comes from; else at
// the point itself.
func (k Kit) EndAt(d plan.Draft, port plan.Port, from plan.Point) plan.Port {
	middle, radius, round := Trunk(d.Index(), port)
	if !round {
		return port
	}
	s := k.Sling(SlingFor(radius, PresetSling))
	sh := k.Shackle()
	sh.At = toward(middle, from, float64(SlungReach(&s, radius)))
	end := plan.Port{Thing: d.AddShackle(sh)}
	s.On, s.Holds, s.Hitch = port, end, plan.HitchBasket
	d.AddSling(s)
	return end
}

// Settle writes where the new blocks of the draft's rig settle as their drawn
// places: those that fresh says nobody chose the place of.
func Settle(d plan.Draft, fresh func(block plan.ID) bool) {
	if d.Laid == nil || !slices.ContainsFunc(d.Laid.Blocks, func(k plan.Block) bool { return fresh(k.ID) }) {
		return
	}
	settleBy(d, solver.Assess(d.Plan, d.Laid.ID), fresh)
}

// settleBy is Settle by the assessment of the draft.
func settleBy(d plan.Draft, a *solver.Assessment, fresh func(block plan.ID) bool) {
	if a.Why != "" && len(a.Nodes) == 0 {
		return
	}
	for i := range d.Laid.Blocks {
		k := &d.Laid.Blocks[i]
		if !fresh(k.ID) {
			continue
		}
		for j := range a.Nodes {
			if n := &a.Nodes[j]; n.Thing == k.ID && !n.Loose {
				if at := Rounded(part.Flat(n.At), FineM); finite(at) {
					k.At = at
				}
			}
		}
	}
}
