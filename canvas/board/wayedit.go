package board

import (
	"math"
	"reflect"
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

const (
	wayFineDeg  = 1.0 // a free way is dragged to whole degrees (ours)
	aheadSnapPx = 10  // a first bend so near to the line of the wheels lies on it (ours)
)

// wayGesture is the gesture on a handle of the path, or on a leg.
func wayGesture(sc *scene, h wayHandle, from pointer) *gesture {
	id := sc.selection[0]
	g := &gesture{from: from, dragged: []plan.ID{id}, fix: fixable{kind: fixAlong},
		outcome: func(p pointer) outcome { return wayMoved(sc, id, h, p) }}
	switch h.kind {
	case wayLeg:
		g.fix = fixable{fixLength, wayOf(sc, id).corners[h.n]}
		g.tap = func(b *Board) {
			b.commit(wayMoved(sc, id, h, pointer{at: onLeg(wayOf(sc, id), h.n, from.at), keys: true}))
		}
	case wayBend:
		g.fix = fixable{fixLength, wayOf(sc, id).corners[h.n-1]}
		fallthrough
	default:
		g.tap = func(b *Board) { b.takeWay(h) }
	}
	return g
}

// onLeg is the place of a leg nearest to at.
func onLeg(w *wayDrawn, n int, at plan.Point) plan.Point {
	q, _ := terrain.Nearest(at, w.corners[n], w.corners[n+1])
	return rounded(q, fineM/10)
}

// wayMoved is what letting go of a handle of a path at p does.
func wayMoved(sc *scene, id plan.ID, h wayHandle, p pointer) outcome {
	w := wayOf(sc, id)
	if w == nil || h.n >= len(w.corners) {
		return outcome{}
	}
	if h.kind == wayEnd {
		return wayEndAt(sc, w, p)
	}
	at, guides := snap(sc, p, []plan.ID{id}, trail{pts: w.corners[max(0, h.n-1):h.n]})
	pts := slices.Clone(w.corners)
	n := h.n
	if h.kind == wayLeg {
		n++
		pts = slices.Insert(pts, n, at)
	}
	if q, ok := w.straightAhead(sc, p, at); n == 1 && ok {
		at, guides = q, []draw.Guide{{A: pts[0], B: q, Why: sc.label("exit-ahead")}}
	}
	pts[n] = at
	o := wayDrawnAs(sc, w, pts)
	if o.report != "" { // refused
		return o
	}
	o.guides = guides
	o.texts = append(o.texts, draw.FreeText{At: at, Text: placeText(sc, at)})
	o.fixedText(p, pts[n-1], at)
	o.handles = append(o.handles, draw.Handle{At: at, Kind: wayBend.handleKind(), Hot: true})
	o.then = func(b *Board) {
		if o.plan != nil {
			b.takeWay(wayHandle{wayBend, n, at})
		}
	}
	return o
}

// straightAhead is the place on the line of the wheels that a first bend is meant to
// lie on; false if none is near.
func (w *wayDrawn) straightAhead(sc *scene, p pointer, at plan.Point) (plan.Point, bool) {
	if !w.steered || p.keys || p.fix != nil || p.mods.Alt {
		return at, false
	}
	to := w.v.Bearing
	if w.v.Stuck.Way == plan.WayReverse {
		to += 180
	}
	e, n := plan.Heading(to)
	dx, dy := at.X-w.corners[0].X, at.Y-w.corners[0].Y
	along := stepped(dx*e+dy*n, sc.snapM)
	if math.Abs(dx*n-dy*e)*sc.view.PerM > aheadSnapPx || !(along > 0) {
		return at, false
	}
	return rounded(w.corners[0].Plus(along*e, along*n), fineM/10), true
}

// wayEndAt is what letting go of the path's end at p does. Of a straight path along
// its wheels it is the length alone that changes; a number typed is the length of the
// whole path.
func wayEndAt(sc *scene, w *wayDrawn, p pointer) outcome {
	last := len(w.corners) - 1
	from := w.corners[last-1]
	if p.fix != nil && p.fix.hasLen {
		return wayLong(sc, w, p.fix.lengthM)
	}
	at := p.at
	if w.bent {
		at, _ = snap(sc, p, []plan.ID{w.v.ID}, trail{pts: w.corners[:last]})
	}
	dir, long := w.ahead, (at.X-from.X)*w.ahead.X+(at.Y-from.Y)*w.ahead.Y
	if w.bent || !w.steered {
		if long = from.Dist(at); long > 0 {
			dir = plan.Point{X: (at.X - from.X) / long, Y: (at.Y - from.Y) / long}
		}
	}
	long -= w.lead
	if !w.bent {
		long = steppedUnless(long, sc.snapM, p)
	}
	if !w.bent && !w.steered {
		to := bearing(plan.Point{}, dir)
		if !p.keys && !p.mods.Alt {
			to = quantity.Degrees(stepped(float64(to), wayFineDeg))
		}
		e, n := plan.Heading(roundedBearing(to))
		dir = plan.Point{X: e, Y: n}
	}
	if !(long >= leastLegM) {
		return wayRefused(sc, "exit-too-short")
	}
	pts := slices.Clone(w.corners)
	pts[last] = from.Plus(long*dir.X, long*dir.Y)
	known := *w
	known.known = true
	o := wayDrawnAs(sc, &known, pts)
	o.then = func(b *Board) { b.takeWay(wayHandle{kind: wayEnd, n: last}) }
	return o
}

// steppedUnless is a length on its step, unless the keys or Alt ask for what is given.
func steppedUnless(lengthM, stepM float64, p pointer) float64 {
	switch {
	case p.keys:
		return stepped(lengthM, fineM/10)
	case p.mods.Alt:
		return stepped(lengthM, fineM)
	}
	return stepped(lengthM, stepM)
}

// wayLong is the edit that makes the path so long, its bends as they are. It goes on
// past its last corner, and ends before it, but not before its last bend is driven.
func wayLong(sc *scene, w *wayDrawn, lengthM float64) outcome {
	if lengthM < leastLegM {
		return wayRefused(sc, "exit-too-short")
	}
	if line, ok := w.v.WayLine(); ok {
		if knots := line.Knots(); len(knots) > 0 && len(w.corners) > 2 && lengthM < knots[len(knots)-1] {
			return wayRefused(sc, "exit-too-short")
		}
	}
	o := wayEdit(sc, w)
	d := sc.draft(false)
	v := &d.Site.Vehicles[sc.at().Find(w.v.ID).Pos]
	v.Unshare()
	setWayLong(v, lengthM)
	o.plan = d.Plan
	wayTold(sc, &o, drawnWay(v))
	return o
}

// wayRefused is an outcome that changes nothing and says why.
func wayRefused(sc *scene, why string) outcome {
	return outcome{report: sc.label(why), prompt: sc.label(why)}
}

// wayEdit is an edit of a path that changes nothing yet.
func wayEdit(sc *scene, w *wayDrawn) outcome {
	return outcome{name: sc.label("edit-exit", part.Text("thing", sc.name(w.v.ID))), preview: true}
}

// setWayLong says how long the path of v is, to the millimetre: what was in doubt of
// that is not any more.
func setWayLong(v *plan.Vehicle, lengthM float64) {
	v.Stuck.WayLength = quantity.Length(stepped(lengthM, fineM/10))
	v.Doubts = slices.DeleteFunc(slices.Clone(v.Doubts), func(d plan.Doubt) bool { return d.Member == "casualty.way_length_m" })
}

// wayDrawnAs is the edit that has the path drawn by other corners, to the last of them.
func wayDrawnAs(sc *scene, w *wayDrawn, pts []plan.Point) outcome {
	for i := range len(pts) - 1 {
		if pts[i].Dist(pts[i+1]) < leastLegM {
			return wayRefused(sc, "exit-too-near")
		}
	}
	o := wayEdit(sc, w)
	d := sc.draft(false)
	v := &d.Site.Vehicles[sc.at().Find(w.v.ID).Pos]
	v.Unshare()
	last := len(pts) - 1
	if bent := last > 1 || w.bent && len(w.corners) == 2; bent {
		v.Stuck.Bends = each(pts[1:], func(q plan.Point) plan.Point { return rounded(q, fineM/10) })
		if line, ok := v.WayLine(); ok && w.known {
			setWayLong(v, line.LongM())
		}
	} else {
		v.Stuck.Bends = nil
		if v.Stuck.Way == plan.WayFree {
			v.Stuck.WayBearing = plan.Known(roundedBearing(bearing(pts[0], pts[last])))
		}
		if w.known {
			setWayLong(v, pts[0].Dist(pts[last]))
		}
	}
	wayTold(sc, &o, drawnWay(v))
	if !reflect.DeepEqual(v, w.v) {
		o.plan = d.Plan
	}
	return o
}

// wayTold adds to an edit the handles of the path and how long that is.
func wayTold(sc *scene, o *outcome, w *wayDrawn) {
	for _, h := range w.handles(sc) {
		if h.kind != wayLeg {
			o.handles = append(o.handles, draw.Handle{At: h.at, Kind: h.kind.handleKind()})
		}
	}
	o.way = wayLines(sc, w)
	if w.known {
		o.texts = append(o.texts, draw.FreeText{At: w.tip(sc), Text: lengthText(sc, float64(w.v.Stuck.WayLength))})
	}
}

// unbent is the edit that takes a bend out of the path; the last one leaves it
// straight.
func unbent(sc *scene, w *wayDrawn, n int) outcome {
	o := wayDrawnAs(sc, w, slices.Delete(slices.Clone(w.corners), n, n+1))
	o.name = sc.label("edit-exit-unbent", part.Text("thing", sc.name(w.v.ID)))
	return o
}
