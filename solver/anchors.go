package solver

import (
	"github.com/golang/geo/r3"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// anchorParts makes a part of each anchor that the rig pulls on.
func (a *rating) anchorParts() {
	site := &a.g.p.Site
	for i := range site.Anchors {
		an := &site.Anchors[i]
		if a.g.touches(an.ID) || a.restrainedAt(ofThing(an.ID)) {
			a.anchorPart(an.ID, hold.In{Anchor: a.conservative.anchor(an), Run: an.LineRun, Water: a.waterAt(an.At)})
		}
	}
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		if a.g.touches(o.ID) || a.restrainedAt(ofThing(o.ID)) {
			a.anchorPart(o.ID, hold.In{Obstacle: a.conservative.obstacle(o)})
		}
	}
}

// anchorPart is one anchor under the vector sum of what is made fast to it.
func (a *rating) anchorPart(thing plan.ID, in hold.In) {
	id := string(thing)
	times := a.timesAt(ofThing(thing))
	b := a.loads(func(r *solution) part.Load { return a.siteLoad(r, ofThing(thing)) }).by(times)
	in.Soil = a.g.p.Site.Ground.Soil
	in.Normal, in.Lacks = a.g.ground.Normal(), a.g.ground.Lacks()
	in.Lifting = a.lifting
	in.Height, in.Strap = a.strapHeight(thing)
	if a.solved.status == part.Within && !a.refused {
		in.Load = a.siteLoad(a.solved.unit, ofThing(thing)).Vec
		if b.move.Known {
			in.Load = b.move.Vec
		} else if b.stall.Known { // of the unit pull the direction alone means something
			in.Load = b.stall.Vec
		}
	}
	st := hold.Anchor(in, a.derivationOf(id), a.found())
	if st.Axis != (r3.Vector{}) {
		if b.move.Known {
			b.move = sidewise(b.move.Vec, &st)
		}
		if b.loosen.Known {
			b.loosen = sidewise(b.loosen.Vec, &st)
		}
		if b.stall.Known {
			b.stall = sidewise(b.stall.Vec, &st)
		}
	}
	a.say(id, b, func() []came { return a.onSite(ofThing(thing), times.planned) })
	a.add(&part.Part{ID: id, Kind: part.KindAnchor, Thing: thing}, b, st.Capacity)
}

// sidewise is a known load on an anchor that was set for a direction.
func sidewise(v r3.Vector, st *hold.State) part.Load {
	l, lies := load(v), loadAlong(st.Lies(v), st.Axis)
	l.Axis, l.Off, l.Side = lies.Axis, lies.Off, lies.Side
	return l
}

// waterAt is the water that a place lies in; empty: none.
func (a *resolving) waterAt(at plan.Point) plan.ID {
	for i := range a.g.p.Site.Obstacles {
		o := &a.g.p.Site.Obstacles[i]
		if o.Kind != plan.ObstacleWater && o.Kind != "" {
			continue
		}
		switch s := terrain.Outline(o.Outline); {
		case !s.Inside(at):
		case o.Kind == "":
			part.NotDecided(a.found(), "hold-in-water", o.ID, part.Lack{Thing: o.ID, Member: "kind"})
		default:
			return o.ID
		}
	}
	return ""
}

// strapHeight is the height of the highest sling on an anchor, the longest lever
// on a tree, and a sling of which nobody entered how high it lies.
func (a *resolving) strapHeight(thing plan.ID) (h quantity.Length, unmeasured plan.ID) {
	for i := range a.g.r.Slings {
		if s := &a.g.r.Slings[i]; s.On.Thing == thing || s.Holds.Thing == thing {
			_, up := plan.Range(&s.Head, "height_m", float64(StrapHeight(s)))
			h = max(h, quantity.Length(up))
			if s.Height == 0 {
				unmeasured = s.ID
			}
		}
	}
	if h == 0 {
		h = PresetStrapHeight // a line laid bare round it
	}
	return h, unmeasured
}
