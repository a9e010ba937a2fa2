package draw

import (
	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// reserve marks what labels keep off: furniture and notes wholly, people,
// lines and points as far as there is room, bodies by preference.
func (d *drawing) reserve() {
	g := d.labels.grid
	d.stretches = d.stretchesOf()
	if d.gridShown() {
		for _, l := range d.gridLabels() {
			g.Mark(d.boxOf(l, d.text.small), label.Label|label.Plate)
		}
	}
	for _, b := range d.furnitureBoxes() {
		g.Mark(b, label.Label|label.Plate)
	}
	for _, m := range d.o.Places {
		g.Mark(pen.Around(d.at(m.At), d.sy(2*placeRadius+4), d.sy(2*placeRadius+4)), label.Label|label.Plate)
	}
	for i := range d.marks {
		g.Mark(d.pinBox(&d.marks[i]), label.Label|label.Plate)
		g.Segment(d.at(d.marks[i].Tip), d.pinHead(&d.marks[i]), d.px(1), label.Line)
	}
	d.reserveSite()
	d.reserveRig()
}

// furnitureBoxes are the places of scale bar, north and slope.
func (d *drawing) furnitureBoxes() []r2.Rect {
	v := &d.view
	_, bar := d.scaleBar()
	n := d.northPlace()
	out := []r2.Rect{
		pen.Box(v.X0+d.px(6), v.Y0+v.H-d.px(24)-d.text.small-d.px(8), v.X0+d.px(18)+bar+d.px(36)*d.sym, v.Y0+v.H-d.px(6)),
		pen.Box(n.X-d.sy(16), n.Y-d.sy(28), n.X+d.sy(16), n.Y+d.sy(40)),
	}
	if d.s.Plan.Site.Ground.Slope.Or(0) > 0 {
		out = append(out, pen.Around(d.slopePlace(), d.sy(46), d.sy(46)), d.boxOf(d.slopeText(), d.text.small))
	}
	return out
}

func (d *drawing) reserveVehicles() {
	g, site := d.labels.grid, &d.s.Plan.Site
	for i := range site.Vehicles {
		v := &site.Vehicles[i]
		if !d.shown(&v.Head) {
			continue
		}
		b := d.bodyOf(v)
		c := b.corners()
		g.Polygon(c, label.Vehicle)
		for k := range c {
			g.Segment(c[k], c[(k+1)%len(c)], d.px(0.5), label.Vehicle)
		}
		for legs := d.wayLegs(v); len(legs) > 1; legs = legs[1:] {
			g.Segment(legs[0], legs[1], d.px(3), label.Line)
		}
	}
}

func (d *drawing) reserveSite() {
	d.reserveVehicles()
	g, site := d.labels.grid, &d.s.Plan.Site
	for i := range site.Obstacles {
		if o := &site.Obstacles[i]; d.shown(&o.Head) && len(o.Outline) > 2 {
			g.Polygon(d.outline(o.Outline), label.Body)
		}
	}
	for i := range site.Anchors {
		if a := &site.Anchors[i]; d.shown(&a.Head) {
			r := d.anchorRadius(a)
			g.Mark(pen.Around(d.at(a.At), 2*r, 2*r), label.Point)
		}
	}
	for i := range site.People {
		if p := &site.People[i]; d.shown(&p.Head) {
			c := d.personPlace(p)
			g.Mark(d.personBox(c), label.Person)
			if at := d.personAt(p.ID); at != nil && len(at.Inside) > 0 && at.OutKnown && p.Vehicle == "" {
				g.Segment(c, d.at(at.Out), d.px(3), label.Line)
			}
		}
	}
	for i := range site.Notes {
		if n := &site.Notes[i]; d.shown(&n.Head) && n.Text != "" {
			_, b := d.noteBox(n)
			g.Mark(b, label.Label|label.Plate)
		}
	}
	for i := range site.Measures {
		m := &site.Measures[i]
		if !d.shown(&m.Head) || len(m.Points) < 2 {
			continue
		}
		pts := d.outline(m.Points)
		for k := 1; k < len(pts); k++ {
			g.Segment(pts[k-1], pts[k], d.px(2), label.Line)
		}
		g.Mark(d.boxOf(d.measureText(m, pts), d.text.mid), label.Label|label.Plate)
	}
	for _, e := range d.surveyNames() {
		b := d.boxOf(e, d.text.small)
		b.X.Lo -= d.sy(8) // its cross
		b.Y.Hi += d.sy(5)
		g.Mark(b, label.Label|label.Plate)
	}
	for _, list := range [][]plan.UnknownThing{site.Unknown, d.rig.Unknown} {
		for i := range list {
			g.Mark(pen.Around(d.at(list[i].At), d.sy(22), d.sy(22)), label.Point)
		}
	}
}

func (d *drawing) reserveRig() {
	g := d.labels.grid
	for i := range d.stretches {
		s := &d.stretches[i]
		end, _, to, bears := s.reach()
		if bears {
			end = to
		}
		g.Segment(s.a, end, d.lw(lineWidth), label.Line)
		r := d.sy(14)
		g.Mark(pen.Around(s.a, r, r), label.Point)
		g.Mark(pen.Around(s.b, r, r), label.Point)
	}
	for i := range d.rig.Slings {
		s := &d.rig.Slings[i]
		if !d.shown(&s.Head) {
			continue
		}
		if sh := d.slingShape(s); sh != nil {
			g.Segment(d.atVec(sh.Centre), d.atVec(sh.Apex), d.lw(slingWidth), label.Line)
		}
	}
	for i := range d.rig.Blocks {
		b := &d.rig.Blocks[i]
		if !d.shown(&b.Head) {
			continue
		}
		at, _ := d.blockPlace(b)
		r := d.sheaveRadius(b) * 2.6
		g.Mark(pen.Around(at, r, r), label.Point)
	}
	for i := range d.rig.Shackles {
		k := &d.rig.Shackles[i]
		if c, _, ok := d.shacklePlace(k); ok && d.shown(&k.Head) {
			g.Mark(pen.Around(c, d.sy(14), d.sy(14)), label.Point)
		}
	}
}

// thingPlace is where a thing stands in the picture.
func (d *drawing) thingPlace(id plan.ID) (r2.Point, bool) {
	switch s := d.ix.Find(id); s.Kind {
	case plan.ThingVehicle:
		return d.at(d.ix.Vehicle(id).At), true
	case plan.ThingAnchor:
		return d.at(d.ix.Anchor(id).At), true
	case plan.ThingObstacle:
		return d.at(plan.Centroid(d.ix.Obstacle(id).Outline)), len(d.ix.Obstacle(id).Outline) > 0
	case plan.ThingPerson:
		return d.personPlace(d.ix.Person(id)), true
	case plan.ThingNote:
		return d.at(d.s.Plan.Site.Notes[s.Pos].At), true
	case plan.ThingUnknown:
		return d.at(d.ix.UnknownThing(id).At), true
	case plan.ThingPin:
		if s.Pos < len(d.marks) {
			return d.pinHead(&d.marks[s.Pos]), true
		}
	case plan.ThingBlock:
		at, _ := d.blockPlace(d.ix.Block(id))
		return at, true
	case plan.ThingShackle:
		at, _, ok := d.shacklePlace(d.ix.Shackle(id))
		return at, ok
	case plan.ThingSling:
		if sh := d.slingShape(d.ix.Sling(id)); sh != nil {
			return pen.Mix(d.atVec(sh.Centre), d.atVec(sh.Apex), 0.5), true
		}
	case plan.ThingLine:
		for i := range d.stretches {
			if s := &d.stretches[i]; s.line.ID == id {
				return pen.Mix(s.a, s.b, 0.5), true
			}
		}
	case plan.ThingDamper:
		dm := d.ix.Damper(id)
		for i := range d.stretches {
			if s := &d.stretches[i]; s.line.ID == dm.Line && s.index == dm.Stretch {
				return pen.Mix(s.a, s.b, dm.Share), true
			}
		}
	}
	return r2.Point{}, false
}

// isShown reports whether a thing is drawn, by its id.
func (d *drawing) isShown(id plan.ID) bool {
	site := &d.s.Plan.Site
	var h *plan.Head
	switch s := d.ix.Find(id); s.Kind {
	case plan.ThingVehicle:
		h = &site.Vehicles[s.Pos].Head
	case plan.ThingAnchor:
		h = &site.Anchors[s.Pos].Head
	case plan.ThingObstacle:
		h = &site.Obstacles[s.Pos].Head
	case plan.ThingPerson:
		h = &site.People[s.Pos].Head
	case plan.ThingNote:
		h = &site.Notes[s.Pos].Head
	case plan.ThingMeasure:
		h = &site.Measures[s.Pos].Head
	case plan.ThingLine:
		h = &d.rig.Lines[s.Pos].Head
	case plan.ThingBlock:
		h = &d.rig.Blocks[s.Pos].Head
	case plan.ThingSling:
		h = &d.rig.Slings[s.Pos].Head
	case plan.ThingShackle:
		h = &d.rig.Shackles[s.Pos].Head
	case plan.ThingDamper:
		h = &d.rig.Dampers[s.Pos].Head
	case plan.ThingUnknown:
		return true
	case plan.ThingPin:
		return s.Pos < len(d.marks)
	default:
		return false
	}
	return d.shown(h)
}
