package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Steps of the rim of a disc, metres. (ours: a pace, a tape)
const (
	rimStepM     = 0.1
	rimFineStepM = 0.01
)

// discOf is the thing id with its place, if that may be in doubt and can be changed; nil
// else.
func discOf(sc *scene, id plan.ID) (h *plan.Head, at plan.Point) {
	x := sc.at()
	switch x.Kind(id) {
	case plan.ThingVehicle:
		v := x.Vehicle(id)
		h, at = &v.Head, v.At
	case plan.ThingAnchor:
		a := x.Anchor(id)
		h, at = &a.Head, a.At
	case plan.ThingObstacle:
		o := x.Obstacle(id)
		h, at = &o.Head, plan.Centroid(o.Outline)
	case plan.ThingPerson:
		if q := x.Person(id); q.Vehicle == "" { // else it sits where its vehicle stands
			h, at = &q.Head, q.At
		}
	}
	if h == nil || h.Locked {
		return nil, at
	}
	return h, at
}

// rimLeastPx is how far the rim's handle stands at least from the middle of its thing, in
// pixels: there the thing itself is taken. (ours)
const rimLeastPx = hitPx/2 + trunkPx

// rimHandle is where the rim of a thing's disc is taken: south-east of it, of a small disc
// so far outside of the rim.
func rimHandle(sc *scene, id plan.ID) (handle plan.Point, outsideM float64, ok bool) {
	h, at := discOf(sc, id)
	if h == nil {
		return at, 0, false
	}
	east, north := h.PlaceDoubt()
	dx, dy := float64(east)*math.Sqrt2/2, -float64(north)*math.Sqrt2/2
	off, least := math.Hypot(dx, dy), rimLeastPx/sc.view.PerM
	switch {
	case !(off > 0):
		return at, 0, false
	case off < least:
		return at.Plus(least*math.Sqrt2/2, -least*math.Sqrt2/2), least - off, true
	}
	return at.Plus(dx, dy), 0, true
}

// rimGesture drags the rim of a disc: the place is known to what the pointer is off it,
// less what the handle was outside of the rim.
func rimGesture(sc *scene, id plan.ID, from pointer) *gesture {
	_, at := discOf(sc, id)
	_, outsideM, _ := rimHandle(sc, id)
	return &gesture{from: from, dragged: []plan.ID{id}, tap: func(b *Board) { pick(b, id, from) }, outcome: func(p pointer) outcome {
		step := rimStepM
		if p.mods.Alt {
			step = rimFineStepM
		}
		return discTo(sc, id, quantity.Length(stepped(math.Max(0, p.at.Dist(at)-outsideM), step)))
	}}
}

// discTo is the edit that has the place of a thing known to ± r.
func discTo(sc *scene, id plan.ID, r quantity.Length) outcome {
	h, at := discOf(sc, id)
	o := outcome{name: sc.label("edit-place-doubt", part.Text("thing", sc.name(id))), preview: true,
		texts: []draw.FreeText{{At: at, Text: sc.label("place-doubt", part.Text("r", lengthText(sc, float64(r))))}}}
	if east, north := h.PlaceDoubt(); sameM(east, r) && sameM(north, r) {
		return o
	}
	d := sc.draft(false)
	headOf(d.Plan, d.Index(), id).Doubts = h.WithPlaceDoubt(at, r)
	o.plan = d.Plan
	return o
}

// sameM reports whether two lengths are one, but for what sums of places lose.
func sameM(a, b quantity.Length) bool { return math.Abs(float64(a-b)) < 1e-9 }

// pictureDoubt is by how much a place traced over the picture is not known: the ± of the
// length that it was scaled by, over that length, times how far the place is from where
// that was measured from. 0: nothing is said of it, or nothing is traced there.
// (closed form: an error of the scale grows in proportion with the distance) Of a picture
// that lies by measured points it is [plan.PictureFit.Doubt].
func pictureDoubt(sc *scene, at plan.Point) quantity.Length {
	u := sc.plan.Site.Underlay
	if u == nil {
		return 0
	}
	lies := lieOf(u)
	if _, _, ok := lies.pixel(at); !ok {
		return 0
	}
	switch {
	case lies.fit != nil:
		return upToStep(float64(lies.fit.Doubt(at)))
	case u.Scaled == nil || !(u.Scaled.Doubt > 0) || !(u.Scaled.Length > 0):
		return 0
	}
	return upToStep(float64(u.Scaled.Doubt/u.Scaled.Length) * at.Dist(u.Scaled.A))
}

// upToStep is r up to the next fine step of a rim.
func upToStep(r float64) quantity.Length {
	return quantity.Length(math.Ceil(r/rimFineStepM-1e-9) * rimFineStepM)
}

// tracedOutline gives an obstacle that is set down over a picture the ± of the picture where
// that is most.
func tracedOutline(sc *scene, o *plan.Obstacle) {
	r := quantity.Length(0)
	for _, c := range o.Outline {
		r = max(r, pictureDoubt(sc, c))
	}
	o.Doubts = o.WithPlaceDoubt(plan.Centroid(o.Outline), r)
}

// traced gives a thing that is set down over a picture the ± of the picture there.
func traced(sc *scene, h *plan.Head, at plan.Point) (said []draw.FreeText) {
	said = []draw.FreeText{{At: at, Text: placeText(sc, at)}}
	if r := pictureDoubt(sc, at); r > 0 {
		h.Doubts = h.WithPlaceDoubt(at, r)
		said[0].Text += "  " + sc.label("place-doubt", part.Text("r", lengthText(sc, float64(r))))
	}
	return said
}
