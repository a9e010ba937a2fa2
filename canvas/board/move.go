package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// movable are the things of a list that the pointer moves: what stands on the
// site and is not locked, and blocks that hang from nothing. The parts of a rig
// lie where the forces put them.
func movable(sc *scene, ids []plan.ID) []plan.ID {
	x := sc.at()
	var list []plan.ID
	for _, id := range ids {
		if q := x.Pin(id); q != nil && q.At != nil { // one at its thing goes with it
			list = append(list, id)
		}
		h := headOf(sc.plan, x, id)
		if h == nil || h.Locked {
			continue
		}
		switch x.Kind(id) {
		case plan.ThingVehicle, plan.ThingAnchor, plan.ThingObstacle, plan.ThingPerson, plan.ThingNote, plan.ThingMeasure:
			list = append(list, id)
		case plan.ThingBlock:
			if k := x.Block(id); k.Fixed.IsZero() && !slices.ContainsFunc(x.Rig.Slings, func(s plan.Sling) bool { return s.Holds.Thing == id }) {
				list = append(list, id)
			}
		}
	}
	return list
}

// placeOf is where a thing stands: the place that moves with it.
func placeOf(x *plan.Index, id plan.ID) (plan.Point, bool) {
	s := x.Find(id)
	p := x.Plan
	switch s.Kind {
	case plan.ThingVehicle:
		return p.Site.Vehicles[s.Pos].At, true
	case plan.ThingAnchor:
		return p.Site.Anchors[s.Pos].At, true
	case plan.ThingObstacle:
		return p.Site.Obstacles[s.Pos].Outline[0], true
	case plan.ThingPerson:
		return p.Site.People[s.Pos].At, true
	case plan.ThingNote:
		return p.Site.Notes[s.Pos].At, true
	case plan.ThingMeasure:
		return p.Site.Measures[s.Pos].Points[0], true
	case plan.ThingBlock:
		return x.Rig.Blocks[s.Pos].At, true
	case plan.ThingPin:
		if q := x.Pin(id); q.At != nil {
			return *q.At, true
		}
	}
	return plan.Point{}, false
}

// shift moves the things of a draft.
func shift(d plan.Draft, ids []plan.ID, dx, dy float64) {
	carry(d, ids, func(p plan.Point) plan.Point { return rounded(p.Plus(dx, dy), fineM/10) }, 0)
}

// carry takes the things of a draft to other places, and turns clockwise those
// that have a direction.
func carry(d plan.Draft, ids []plan.ID, move func(plan.Point) plan.Point, by quantity.Degrees) {
	x := d.Index()
	all := func(pts []plan.Point) []plan.Point { return each(pts, move) }
	for _, id := range ids {
		s := x.Find(id)
		switch s.Kind {
		case plan.ThingVehicle:
			v := &d.Site.Vehicles[s.Pos]
			at := move(v.At)
			v.MovePlaceDoubt(at.X-v.At.X, at.Y-v.At.Y)
			v.At = at
			turnVehicle(v, by)
			carryBends(v, move)            // its way out goes with it
			for i := range d.Site.People { // its driver's place is drawn with it
				if q := &d.Site.People[i]; q.Vehicle == id {
					q.At = v.At
				}
			}
		case plan.ThingAnchor:
			a := &d.Site.Anchors[s.Pos]
			at := move(a.At)
			a.MovePlaceDoubt(at.X-a.At.X, at.Y-a.At.Y)
			a.At = at
			if a.SetKnown && by != 0 {
				a.SetBearing = roundedBearing(a.SetBearing + by)
			}
		case plan.ThingObstacle:
			o := &d.Site.Obstacles[s.Pos]
			was := plan.Centroid(o.Outline)
			o.Outline = all(o.Outline)
			at := plan.Centroid(o.Outline)
			o.MovePlaceDoubt(at.X-was.X, at.Y-was.Y)
		case plan.ThingPerson:
			if q := &d.Site.People[s.Pos]; !slices.Contains(ids, q.Vehicle) { // else carried with it
				at := move(q.At)
				q.MovePlaceDoubt(at.X-q.At.X, at.Y-q.At.Y)
				q.At, q.Vehicle = at, ""
			}
		case plan.ThingNote:
			d.Site.Notes[s.Pos].At = move(d.Site.Notes[s.Pos].At)
		case plan.ThingMeasure:
			d.Site.Measures[s.Pos].Points = all(d.Site.Measures[s.Pos].Points)
		case plan.ThingBlock:
			d.Laid.Blocks[s.Pos].At = move(d.Laid.Blocks[s.Pos].At)
		case plan.ThingPin:
			shiftPins(d, s.Pos, move)
		}
	}
}

// each is a list of places, each taken to another.
func each(pts []plan.Point, move func(plan.Point) plan.Point) []plan.Point {
	out := slices.Clone(pts)
	for i := range out {
		out[i] = move(out[i])
	}
	return out
}

// carryBends takes the bends of a vehicle's way out to other places.
func carryBends(v *plan.Vehicle, move func(plan.Point) plan.Point) {
	if v.Stuck != nil && len(v.Stuck.Bends) > 0 {
		k := *v.Stuck
		k.Bends = each(k.Bends, move)
		v.Stuck = &k
	}
}

// turnVehicle turns a vehicle clockwise about its middle, and the way out that was
// found for it.
func turnVehicle(v *plan.Vehicle, by quantity.Degrees) {
	if by == 0 {
		return
	}
	v.Bearing = roundedBearing(v.Bearing + by)
	if k := v.Stuck; k != nil && k.Way == plan.WayFree {
		if way, known := k.WayBearing.Get(); known {
			out := *k
			out.WayBearing = plan.Known(roundedBearing(way + by))
			v.Stuck = &out
		}
	}
}

// moveGesture is the gesture that drags things; grabbed is the one under the
// pointer, whose place snaps.
func moveGesture(sc *scene, ids []plan.ID, grabbed plan.ID, from pointer) *gesture {
	ids = movable(sc, ids)
	if len(ids) == 0 {
		return nil
	}
	if !slices.Contains(ids, grabbed) {
		grabbed = ids[0]
	}
	return &gesture{from: from, dragged: ids, tap: func(b *Board) { pick(b, grabbed, from) }, fix: fixable{fixLength, from.at},
		outcome: func(p pointer) outcome { return movedTo(sc, ids, grabbed, from, p) }}
}

// movedTo is what letting go at p does of things grabbed at from.
func movedTo(sc *scene, ids []plan.ID, grabbed plan.ID, from, p pointer) outcome {
	start, ok := placeOf(sc.at(), grabbed)
	if !ok {
		return outcome{}
	}
	want := p
	want.at = start.Plus(p.at.X-from.at.X, p.at.Y-from.at.Y)
	at, guides := snap(sc, want, ids, trail{})
	o := shiftedBy(sc, ids, grabbed, at.X-start.X, at.Y-start.Y)
	o.guides = guides
	o.texts = append(o.texts, draw.FreeText{At: at, Text: placeText(sc, at)})
	x := sc.at()
	if q := x.Person(grabbed); q != nil {
		next := sc.plan
		if o.plan != nil {
			next = o.plan
		}
		o.texts = []draw.FreeText{{At: at, Text: sc.label("person-at", part.Text("thing", sc.name(grabbed)), part.Text("where", standsText(sc, next, grabbed)))}}
	}
	o.fixedText(p, start, at)
	if v := x.Vehicle(grabbed); v != nil && v.Stuck == nil {
		if c := sc.plan.Casualty(); c != nil && !slices.Contains(ids, c.ID) {
			to := nearestPoint(c, at)
			o.guides = append(o.guides, draw.Guide{A: at, B: to, Why: lengthText(sc, at.Dist(to))})
		}
	}
	return o
}

// shiftedBy is the edit that moves things by so much.
func shiftedBy(sc *scene, ids []plan.ID, named plan.ID, dx, dy float64) outcome {
	name := sc.label("edit-move", part.Text("thing", sc.name(named)))
	if len(ids) > 1 {
		name = sc.label("edit-move-many", part.Count("count", len(ids)))
	}
	o := outcome{name: name, preview: true}
	if !slices.Contains(sc.selection, named) {
		o.selected = []plan.ID{named}
	}
	if dx == 0 && dy == 0 {
		return o
	}
	d := sc.draft(false)
	shift(d, ids, dx, dy)
	o.plan = d.Plan
	return o
}

// Steps of the arrow keys in metres; plain is the grid's.
const (
	nudgeFineM   = 0.1
	nudgeCoarseM = 5
)

// arrowWay is the way of an arrow key with its step, in metres.
func arrowWay(sc *scene, name string, m Mods) (dx, dy float64, ok bool) {
	step := sc.snapM
	switch {
	case m.Shift:
		step = nudgeFineM
	case m.Ctrl:
		step = nudgeCoarseM
	}
	switch name {
	case "ArrowLeft":
		return -step, 0, true
	case "ArrowRight":
		return step, 0, true
	case "ArrowUp":
		return 0, step, true
	case "ArrowDown":
		return 0, -step, true
	}
	return 0, 0, false
}

// nudges reports whether an arrow key moves the selection.
func (b *Board) nudges() bool {
	return pinAtThing(b.scene) != nil || len(movable(b.scene, b.selection)) > 0
}

// nudge moves the selection by an arrow key. Presses in a row are one undo
// step.
func (b *Board) nudge(dx, dy float64) {
	if q := pinAtThing(b.scene); q != nil {
		b.run(nudgedPin(b.scene, q, dx, dy))
		return
	}
	ids := movable(b.scene, b.selection)
	if len(ids) == 0 {
		b.say(b.label("nothing-to-move"))
		return
	}
	b.run(shiftedBy(b.scene, ids, ids[0], dx, dy))
}

// run commits an outcome that goes on from the same one just before, as another
// press of an arrow key does: one undo step for both.
func (b *Board) run(o outcome) {
	n := len(b.undo)
	going := b.running == o.name && n > 0 && b.undo[n-1].name == o.name
	b.commit(o)
	if going && len(b.undo) == n+1 {
		b.undo = b.undo[:n]
	}
	b.running = o.name
}

// turnStep, in degrees: what a dragged handle snaps to.
const turnStep = 15

// Steps of the arrow keys while R turns, in degrees.
const (
	turnArrow  = 5
	turnFine   = 1
	turnCoarse = 15
)

// turnableVehicle is the only thing selected, if it can be turned.
func turnableVehicle(sc *scene) (*plan.Vehicle, bool) {
	if len(sc.selection) != 1 {
		return nil, false
	}
	v := sc.at().Vehicle(sc.selection[0])
	return v, v != nil && !v.Locked
}

// turnHandle is where a vehicle is taken to turn it: ahead of its nose.
func turnHandle(sc *scene, v *plan.Vehicle) plan.Point {
	return v.Place(v.Length/2+quantity.Length(28/sc.view.PerM), 0)
}

// turnGesture is the gesture on the turn handle.
func turnGesture(sc *scene, v *plan.Vehicle, from pointer) *gesture {
	id := v.ID
	return &gesture{from: from, dragged: []plan.ID{id}, fix: fixable{kind: fixAngle}, outcome: func(p pointer) outcome {
		at := sc.at().Vehicle(id).At
		if p.fix != nil && p.fix.hasAngle {
			o := turnedTo(sc, id, p.fix.bearing)
			o.fixedText(p, at, at)
			return o
		}
		d := bearing(at, p.at)
		if !p.mods.Alt {
			d = quantity.Degrees(stepped(float64(d), turnStep))
		}
		return turnedTo(sc, id, d)
	}}
}

// turnedTo is the edit that turns a vehicle about its middle.
func turnedTo(sc *scene, id plan.ID, to quantity.Degrees) outcome {
	v := sc.at().Vehicle(id)
	to = roundedBearing(to)
	o := outcome{name: sc.label("edit-turn", part.Text("thing", sc.name(id))), preview: true,
		texts: []draw.FreeText{{At: v.At, Text: sc.words.Value(degrees("", to), nil)}}}
	if to == v.Bearing {
		return o
	}
	d := sc.draft(false)
	turned := &d.Site.Vehicles[sc.at().Find(id).Pos]
	turned.Bearing = to
	if k := v.Stuck; k != nil && k.Way != plan.WayFree { // it leads where the wheels stand
		carryBends(turned, func(q plan.Point) plan.Point { return rounded(turnedAbout(q, v.At, to-v.Bearing), fineM/10) })
	}
	o.plan = d.Plan
	return o
}

// turnBy turns the selected vehicle by an arrow key: right is clockwise.
func (b *Board) turnBy(name string, m Mods) bool {
	v, ok := turnableVehicle(b.scene)
	if !ok {
		return false
	}
	step := quantity.Degrees(turnArrow)
	switch {
	case m.Shift:
		step = turnFine
	case m.Ctrl:
		step = turnCoarse
	}
	switch name {
	case "ArrowRight", "ArrowUp":
	case "ArrowLeft", "ArrowDown":
		step = -step
	default:
		return false
	}
	b.run(turnedTo(b.scene, v.ID, v.Bearing+step))
	return true
}
