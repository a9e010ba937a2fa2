package board

import (
	"math"
	"strconv"

	"kedge/canvas/draw"
	"kedge/canvas/form"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// A strap round a trunk slides up and down it: by its handle, with Alt and the
// wheel, with { and }.

// Where a strap may lie on its trunk, in metres above ground, and the step it
// slides by. (ours: under a tenth it lies on the roots, over three nobody
// reaches it from the ground)
const (
	leastStrapM = 0.1
	mostStrapM  = 3
	strapStepM  = 0.1
)

// strapPx is how far the pointer moves, in pixels, for one step of a strap. (ours)
const strapPx = 8

// strapOffPx is how far its handle stands from the bark, in pixels. (ours)
const strapOffPx = 18

// strapOf is a sling round a trunk that may be slid, with its tree; nil if
// there is none.
func strapOf(sc *scene, id plan.ID) (*plan.Sling, *plan.Anchor) {
	s := sc.at().Sling(id)
	if s == nil || s.Locked {
		return nil, nil
	}
	a := sc.at().Anchor(s.On.Thing)
	if a == nil || a.Kind != plan.AnchorTree {
		return nil, nil
	}
	return s, a
}

// strapHandle is where a strap is taken to slide it: behind its trunk, opposite
// of what it holds.
func strapHandle(sc *scene, id plan.ID) (plan.Point, bool) {
	_, tree := strapOf(sc, id)
	if tree == nil {
		return plan.Point{}, false
	}
	e, n := 1.0, 0.0
	if apex, ok := sc.settled(id); ok {
		if l := tree.At.Dist(apex); l > fineM {
			e, n = (tree.At.X-apex.X)/l, (tree.At.Y-apex.Y)/l
		}
	}
	off := float64(terrain.AtStrap(tree))/2 + strapOffPx/sc.view.PerM
	return tree.At.Plus(off*e, off*n), true
}

// strapGesture is the gesture on a strap's handle.
func strapGesture(sc *scene, id plan.ID, from pointer) *gesture {
	s, _ := strapOf(sc, id)
	start := float64(solver.StrapHeight(s))
	return &gesture{from: from, dragged: []plan.ID{id}, fix: fixable{kind: fixHeight}, tap: func(b *Board) { pick(b, id, from) },
		outcome: func(p pointer) outcome {
			if p.fix != nil && p.fix.hasLen {
				return strapAt(sc, id, p.fix.lengthM)
			}
			return slidTo(sc, id, start+stepped((from.y-p.y)/strapPx, 1)*strapStepM)
		}}
}

// slidTo is the edit that slides a strap to about a height, on the step and no
// further than it may.
func slidTo(sc *scene, id plan.ID, heightM float64) outcome {
	return strapAt(sc, id, math.Min(mostStrapM, math.Max(leastStrapM, stepped(heightM, strapStepM))))
}

// strapAt is the edit that lays a strap at a height of its trunk.
func strapAt(sc *scene, id plan.ID, heightM float64) outcome {
	s, tree := strapOf(sc, id)
	if s == nil {
		return outcome{}
	}
	if heightM < leastStrapM || heightM > mostStrapM {
		why := sc.label("strap-limits", part.Text("least", kitText(sc, leastStrapM)), part.Text("most", kitText(sc, mostStrapM)))
		return outcome{report: why, prompt: why}
	}
	o := outcome{name: sc.label("edit-strap", part.Text("thing", sc.name(id))), preview: true, selected: []plan.ID{id}}
	said := sc.label("strap-height", part.Text("height", kitText(sc, quantity.Length(heightM))))
	o.texts = []draw.FreeText{{At: tree.At, Text: said}}
	o.prompt = said
	if at, ok := strapHandle(sc, id); ok {
		o.handles = []draw.Handle{{At: at, Kind: "strap", Hot: true}}
	}
	if quantity.Length(heightM) == solver.StrapHeight(s) {
		return o
	}
	next, _, err := form.Set(sc.plan, sc.rig, id, "height_m", strconv.FormatFloat(heightM, 'f', -1, 64)+" m", sc.words)
	if err != nil {
		o.report = sc.words.Refusal(err)
		return o
	}
	o.plan = next
	return o
}

// canSlide reports whether the only thing selected is a strap or damper that may be
// slid.
func canSlide(sc *scene) bool {
	if len(sc.selection) != 1 {
		return false
	}
	if k := damperOf(sc, sc.selection[0]); k != nil {
		return !k.Locked
	}
	s, _ := strapOf(sc, sc.selection[0])
	return s != nil
}

// stepStrap slides the strap or damper that is selected by steps; false if none is. Steps
// in a row are one undo step.
func stepStrap(b *Board, steps float64) bool {
	if !canSlide(b.scene) || b.gesture != nil {
		return false
	}
	if damperOf(b.scene, b.selection[0]) != nil {
		stepDamper(b, b.selection[0], steps)
		return true
	}
	s, _ := strapOf(b.scene, b.selection[0])
	o := slidTo(b.scene, s.ID, float64(solver.StrapHeight(s))+steps*strapStepM)
	if o.report == "" {
		o.report = o.prompt
	}
	b.run(o)
	return true
}

// steps reports whether an event goes on with steps of the one before, so that both
// are one undo step.
func steps(ev Event) bool {
	switch e := ev.(type) {
	case PointerMove:
		return true
	case Rune:
		return e.R == '{' || e.R == '}'
	case Wheel:
		return e.Mods.Alt
	case Command:
		return e.ID == "strap-up" || e.ID == "strap-down"
	}
	return false
}
