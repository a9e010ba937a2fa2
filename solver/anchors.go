package solver

import (
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// anchorParts makes a part of each anchor that the rig pulls on.
func (a *assessor) anchorParts() {
	site := &a.g.p.Site
	for i := range site.Anchors {
		an := &site.Anchors[i]
		if a.g.touches(an.ID) || a.restrainedAt(ofThing(an.ID)) {
			a.anchorPart(an.ID, hold.In{Anchor: a.weak.anchor(an), Run: an.LineRun})
		}
	}
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		if a.g.touches(o.ID) || a.restrainedAt(ofThing(o.ID)) {
			a.anchorPart(o.ID, hold.In{Obstacle: a.weak.obstacle(o)})
		}
	}
}

// anchorPart is one anchor under the vector sum of what is made fast to it.
func (a *assessor) anchorPart(thing plan.ID, in hold.In) {
	id := string(thing)
	b := a.loads(func(r *solution) part.Load { return a.siteLoad(r, ofThing(thing)) }).by(a.timesOf(a.g.liesOn(ofThing(thing))))
	in.Soil = a.g.p.Site.Ground.Soil
	in.Normal = a.g.ground.Normal()
	in.Lifting = a.lifting
	in.Height = a.strapHeight(thing)
	if a.solved.status == part.Within && !a.refused {
		in.Load = a.siteLoad(a.solved.unit, ofThing(thing)).Vec
		if b.move.Known {
			in.Load = b.move.Vec
		}
	}
	st := hold.Anchor(in, a.sumOf(id), a.found())
	if st.Axis != (part.Vec{}) {
		if b.move.Known {
			b.move = loadAlong(b.move.Vec, st.Axis)
		}
		if b.loosen.Known {
			b.loosen = loadAlong(b.loosen.Vec, st.Axis)
		}
		if b.stall.Known {
			b.stall = loadAlong(b.stall.Vec, st.Axis)
		}
	}
	a.say(id, "anchor-load", b)
	a.add(part.Part{ID: id, Kind: part.KindAnchor, Thing: thing}, b, st.Capacity)
}

// strapHeight is the height of the highest sling on an anchor: the longest
// lever on a tree.
func (a *assessor) strapHeight(thing plan.ID) quantity.Length {
	h := quantity.Length(0)
	for i := range a.g.r.Slings {
		if s := &a.g.r.Slings[i]; s.On.Thing == thing || s.Holds.Thing == thing {
			_, up := plan.Range(&s.Head, "height_m", float64(StrapHeight(s)))
			h = max(h, quantity.Length(up))
		}
	}
	if h == 0 {
		h = PresetStrapHeight // a line laid bare round it
	}
	return h
}
