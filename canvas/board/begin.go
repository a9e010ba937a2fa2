package board

import (
	"kedge/canvas/form"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Begins lists the ways to begin on a bare sheet.
func Begins() []string { return []string{StartStraight, StartRedirect, StartDoubled} }

// Bare reports whether nothing is on the sheet: no thing, no picture, no survey.
func (b *Board) Bare() bool {
	return b.shown == nil && nothingStands(b.scene) && b.plan.Site.Underlay == nil && b.plan.Site.Survey == nil
}

// Places of what a beginning has, metres; the casualty leaves eastwards. (ours: a pull
// of some twenty metres, as in the examples)
var (
	beginCasualty = plan.Point{X: 6, Y: 8}
	beginAhead    = plan.Point{X: 30, Y: 8}  // of a straight pull
	beginAside    = plan.Point{X: 33, Y: 6}  // beside what a redirect goes round
	beginTree     = plan.Point{X: 24, Y: 20} // that it goes over
	beginBoulder  = []plan.Point{{X: 16, Y: 6}, {X: 19, Y: 5}, {X: 21, Y: 7}, {X: 20, Y: 10}, {X: 17, Y: 10}}
)

// beginning is the edit that puts what a pull needs on a bare sheet and rigs it. What its things
// are is asked afterwards, one figure after another.
func beginning(sc *scene, kind string) outcome {
	d := sc.draft(false)
	var asks []plan.ID
	vehicle := func(kind string, at plan.Point, bearing quantity.Degrees) {
		v := newVehicle(sc, kind)
		v.ID, v.At, v.Bearing = plan.NewID(d.Plan, plan.PrefixVehicle), at, bearing
		d.Site.Vehicles = append(d.Site.Vehicles, v)
		asks = append(asks, v.ID)
	}
	vehicle(vehicleStuck, beginCasualty, 90)
	asks = append(asks, form.ThingGround)
	if kind == StartRedirect {
		vehicle(vehicleWinch, beginAside, roundedBearing(bearing(beginAside, beginTree)))
		a := newAnchor(plan.AnchorTree)
		a.ID, a.At = plan.NewID(d.Plan, plan.PrefixTree), beginTree
		d.Site.Anchors = append(d.Site.Anchors, a)
		ob := plan.Obstacle{Kind: "boulder", Outline: beginBoulder}
		ob.ID, ob.Presets = plan.NewID(d.Plan, plan.PrefixObstacle), []string{"height_m"}
		d.Site.Obstacles = append(d.Site.Obstacles, ob)
		asks = append(asks, a.ID)
	} else {
		vehicle(vehicleWinch, beginAhead, 270)
	}
	o := startRig(sc.with(d.Plan), kind)
	then := o.then
	o.then = func(b *Board) {
		then(b)
		b.fitAll()
		b.guide(asks)
	}
	return o
}

// guide asks for the figures of things one after another.
func (b *Board) guide(things []plan.ID) {
	b.guided, b.question = nil, nil
	for i, id := range things {
		if list := questionsOf(b.scene, id); len(list) > 0 {
			list[0].In = true
			b.question, b.guided = &list[0], things[i+1:]
			if id != form.ThingGround {
				b.Select(id)
			}
			break
		}
	}
	b.guides = b.question != nil
	b.changed()
}
