package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// highlights draw what is selected, under the pointer or pointed at by a
// finding, beneath the things themselves where they are drawn later.
func (d *drawing) highlights() {
	for _, id := range d.o.Selected {
		d.highlight(id, 3.2, 1)
	}
	if d.o.Hover != "" {
		d.highlight(d.o.Hover, 2, 0.8)
	}
	if d.o.Flagged != "" && d.a != nil {
		for i := range d.a.Findings {
			if f := &d.a.Findings[i]; f.Key() == d.o.Flagged {
				for _, id := range f.Things {
					d.highlight(id, 3.2, 1)
				}
			}
		}
	}
}

// highlight draws an outline a little outside a thing.
func (d *drawing) highlight(id plan.ID, weight, alpha float64) {
	if !d.isShown(id) {
		return
	}
	c, gap := faded(d.c.Pick, alpha), d.sy(4)
	d.path.Reset()
	switch k := d.ix.Find(id); k.Kind {
	case plan.ThingVehicle:
		b := d.bodyOf(d.ix.Vehicle(id))
		var shape pen.Path
		shape.RoundRect(-b.length/2-gap, -b.width/2-gap, b.length+2*gap, b.width+2*gap, b.width*0.16+gap)
		d.path.Append(&shape, frame(b.at, b.ahead))
	case plan.ThingObstacle:
		d.path.Polygon(d.outline(d.ix.Obstacle(id).Outline)...)
		weight += 1.5
	case plan.ThingLine:
		for i := range d.stretches {
			if s := &d.stretches[i]; s.line.ID == id {
				d.path.Line(s.a.X, s.a.Y, s.b.X, s.b.Y)
			}
		}
		weight = lineWidth*2 + 2*weight
		c = faded(c, 0.45)
	case plan.ThingSling:
		sh := d.slingShape(d.ix.Sling(id))
		if sh == nil {
			return
		}
		a, b := d.atVec(sh.Centre), d.atVec(sh.Apex)
		d.path.Line(a.X, a.Y, b.X, b.Y)
		weight = slingWidth*2 + 2*weight
		c = faded(c, 0.45)
	case plan.ThingNote:
		_, b := d.noteBox(&d.s.Plan.Site.Notes[k.Pos])
		b = b.ExpandedByMargin(gap)
		d.path.Rect(b.X.Lo, b.Y.Lo, b.X.Hi-b.X.Lo, b.Y.Hi-b.Y.Lo)
	case plan.ThingPin:
		at, _ := d.thingPlace(id)
		d.path.Polygon(pinOutline(at, d.sy(PinHeadPx)+gap)...)
	case plan.ThingMeasure:
		d.path.Polyline(d.outline(d.s.Plan.Site.Measures[k.Pos].Points)...)
		weight += 4
		c = faded(c, 0.45)
	default:
		at, ok := d.thingPlace(id)
		if !ok {
			return
		}
		r := d.thingClear(id) + gap
		d.path.Circle(at.X, at.Y, r)
	}
	if !d.path.Empty() {
		d.stroke(c, weight)
	}
}

// overlay draws what is under construction; its texts are labels like all
// others, and placed first.
func (d *drawing) overlay() {
	for i, a := range d.o.Arcs {
		d.reachArc(i, a)
	}
	for i, g := range d.o.Guides {
		a, b := d.at(g.A), d.at(g.B)
		d.path.Reset()
		d.path.Line(a.X, a.Y, b.X, b.Y)
		d.stroke(d.c.Pick, 1, 7, 4)
		if g.Why != "" {
			d.live("guide "+figure(float64(i)), pen.Mix(a, b, 0.5), g.Why, d.c.Pick, false)
		}
	}
	if m := d.o.Moved; m != nil {
		a, b := d.at(m[0]), d.at(m[1])
		d.path.Reset()
		d.path.Circle(a.X, a.Y, d.sy(11))
		d.path.Line(a.X, a.Y, b.X, b.Y)
		d.stroke(d.c.Quiet, 1.6, 1.6, 3.4)
	}
	if d.o.Ghost != nil {
		d.ghost(d.o.Ghost)
	}
	for _, m := range d.o.Places {
		d.placeMark(m)
	}
	d.rubber()
	for i, t := range d.o.Texts {
		c := d.c.Ink
		if t.Grey {
			c = d.c.Quiet
		}
		d.live("live "+figure(float64(i)), d.at(t.At), t.Text, c, true)
	}
}

// placeRadius is that of the ring of a place, px. (ours)
const placeRadius = 15

// placeMark is a place for somebody: a ring with the letter of the role and a number.
func (d *drawing) placeMark(m PlaceMark) {
	c, r, w := d.at(m.At), d.sy(placeRadius), 2.0
	d.path.Reset()
	d.path.Circle(c.X, c.Y, r)
	if m.Hot {
		w = 3.5
	}
	d.fillStroke(d.c.Paper, d.c.Pick, w)
	t := pen.TextStyle{Size: r * 0.95, Bold: true, Colour: d.c.Ink, Anchor: pen.Middle}
	d.pen.Text(c.X, c.Y+pen.CapHeight(&t)/2, d.roleLetter(m.Role)+figure(float64(m.Number)), &t)
}

// live notes a text of the board at a place.
func (d *drawing) live(key string, at r2.Point, text string, c color.NRGBA, boxed bool) {
	f := bare
	if boxed {
		f = pickBox
	}
	d.labels.add(caption{Wish: label.Wish{Key: key, Rank: label.Live, At: at, Toward: r2.Point{X: 0.8, Y: -0.6}.Normalize(), Clear: d.sy(14), Must: true, Lead: true}, frame: f,
		lines: []textLine{{text, d.text.mid, boxed, c}}})
}

// rubber draws a line or outline under construction. What is refused of it is
// crossed out and says why.
func (d *drawing) rubber() {
	pts := d.outline(d.o.Rubber)
	if len(pts) < 2 {
		return
	}
	for _, q := range pts[:len(pts)-1] { // what is set already; the last one is the pointer
		d.path.Reset()
		d.path.Circle(q.X, q.Y, d.sy(4))
		d.fillStroke(d.c.Pick, d.c.Paper, 1.5)
	}
	from := len(pts)
	if d.o.RubberRefused != "" {
		from = max(0, min(d.o.RubberFrom, len(pts)-2))
	}
	d.path.Reset()
	for i := 1; i < len(pts) && i <= from; i++ {
		d.path.Line(pts[i-1].X, pts[i-1].Y, pts[i].X, pts[i].Y)
	}
	if !d.path.Empty() {
		d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(6), Cap: pen.RoundCap})
		d.stroke(d.c.Pick, 3)
	}
	for i := from + 1; i < len(pts); i++ {
		d.path.Reset()
		d.path.Line(pts[i-1].X, pts[i-1].Y, pts[i].X, pts[i].Y)
		d.stroke(d.c.Ink, 1.2, 3, 4)
		d.crosses(pts[i-1], pts[i], d.c.Ink)
	}
	if from < len(pts) {
		m := pen.Mix(pts[from], pts[from+1], 0.5)
		d.labels.add(caption{Wish: label.Wish{Key: "refused " + d.o.RubberRefused, Rank: label.Live, At: m, Toward: r2.Point{Y: -1}, Clear: d.sy(10), Must: true, Lead: true},
			frame: dashBox, lines: d.tagLines("× "+d.o.RubberRefused, "")})
	}
}

// reachArc shows where a block would lie with a sling of the kit.
func (d *drawing) reachArc(i int, a ReachArc) {
	c, r := d.at(a.Centre), d.m(a.RadiusM)
	d.path.Reset()
	d.path.Circle(c.X, c.Y, r)
	w, ink := 1.0, d.c.Quiet
	if a.Hot {
		w, ink = 2.2, d.c.Pick
	}
	d.stroke(ink, w, 4, 3)
	if a.Label != "" {
		at := r2.Point{X: c.X + r*0.7071, Y: c.Y - r*0.7071}
		d.labels.add(caption{Wish: label.Wish{Key: "arc " + figure(float64(i)), Rank: label.Flag, At: at, Toward: at.Sub(c).Normalize(), Clear: d.px(3)}, lines: []textLine{{a.Label, d.text.small, a.Hot, ink}}})
	}
}

// ghost draws the thing about to be placed, true to size and translucent.
func (d *drawing) ghost(g *Ghost) {
	on := d.pen
	d.pen = &fadePen{Pen: on, alpha: 0.55}
	var at r2.Point
	clear := d.sy(18)
	switch {
	case g.Vehicle != nil:
		d.wayOut(g.Vehicle)
		d.vehicle(g.Vehicle)
		at, clear = d.at(g.Vehicle.At), d.vehicleClear(g.Vehicle)
	case g.Anchor != nil:
		d.anchor(g.Anchor)
		at, clear = d.at(g.Anchor.At), d.anchorRadius(g.Anchor)+d.px(4)
	case g.Person != nil:
		d.pen = &fadePen{Pen: on, alpha: 0.8}
		d.person(d.at(g.Person.At), g.Person.Role, g.Inside, false)
		at, clear = d.at(g.Person.At), d.personRadius()*1.3
	case g.Pin != nil:
		d.pin(g.Pin)
		at, clear = d.pinHead(g.Pin), d.sy(PinHeadPx)
	case g.Block != nil:
		at, clear = d.at(g.Block.At), d.sheaveRadius(g.Block)*1.8
		d.block(g.Block, at, r2.Point{Y: -1}, true, 1.8)
	}
	d.pen = on
	if g.Label != "" {
		d.labels.add(caption{Wish: label.Wish{Key: "ghost", Rank: label.Live, At: at, Clear: clear, Must: true, Lead: true}, frame: pickBox, lines: []textLine{{g.Label, d.text.mid, true, d.c.Ink}}})
	}
}

// overlayTop draws what lies over the labels: hook-on points, handles, frame,
// crosshair.
func (d *drawing) overlayTop() {
	for i := range d.o.Ports {
		d.port(&d.o.Ports[i])
	}
	d.shapedWay(d.o.Way)
	for _, h := range d.o.Handles {
		d.handle(h)
	}
	if f := d.o.Frame; f != nil {
		a, b := d.at(f[0]), d.at(f[1])
		d.path.Reset()
		d.path.Rect(math.Min(a.X, b.X), math.Min(a.Y, b.Y), math.Abs(a.X-b.X), math.Abs(a.Y-b.Y))
		d.fillStroke(faded(d.c.Pick, 0.08), d.c.Pick, 1.2, 5, 3)
	}
	if d.o.Cross != nil {
		c := d.at(*d.o.Cross)
		d.path.Reset()
		for _, k := range [...]r2.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
			a, b := pen.Along(c, k, d.sy(5)), pen.Along(c, k, d.sy(22))
			d.path.Line(a.X, a.Y, b.X, b.Y)
		}
		d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(4.5)})
		d.stroke(d.c.Pick, 2)
	}
}

func (d *brush) handle(h Handle) {
	c, r := d.at(h.At), d.sy(5)
	if h.Hot {
		r = d.sy(7)
	}
	d.path.Reset()
	switch h.Kind {
	case "turn":
		d.addArc(c, r*1.4, -120, 300)
		d.stroke(d.c.Pick, 2)
		d.path.Reset()
		d.path.Circle(c.X, c.Y, r*0.8)
	case "end":
		d.path.Circle(c.X, c.Y, r)
	case "add":
		d.addHandle(c, r, h.Hot)
		return
	case "strap":
		d.strapHandle(c, r, h.Hot)
		return
	default:
		d.path.Rect(c.X-r, c.Y-r, 2*r, 2*r)
	}
	fill := d.c.Paper
	if h.Hot {
		fill = d.c.Pick
	}
	d.fillStroke(fill, d.c.Pick, 1.8)
}

// shapedWay draws the legs of an exit path that is shaped: straight through its bends,
// which lie rounded beside their corners.
func (d *brush) shapedWay(corners []plan.Point) {
	if len(corners) < 2 {
		return
	}
	d.path.Reset()
	at := make([]r2.Point, len(corners))
	for i := range corners {
		at[i] = d.at(corners[i])
	}
	d.path.Polyline(at...)
	d.stroke(d.c.Pick, 1.2, 3, 4)
}

// addHandle is the handle that puts something in where it lies: a small ring with a
// cross.
func (d *brush) addHandle(c r2.Point, r float64, hot bool) {
	fill, ink := d.c.Paper, d.c.Pick
	if hot {
		fill, ink = ink, fill
	}
	d.path.Circle(c.X, c.Y, r*0.9)
	d.fillStroke(fill, d.c.Pick, 1.2)
	d.path.Reset()
	d.path.Line(c.X-r*0.5, c.Y, c.X+r*0.5, c.Y)
	d.path.Line(c.X, c.Y-r*0.5, c.X, c.Y+r*0.5)
	d.stroke(ink, 1.2)
}

// strapHandle is the handle of a strap that slides up and down its trunk: an
// arrowhead each way, on a stem across a bar, the strap.
func (d *brush) strapHandle(c r2.Point, r float64, hot bool) {
	fill := d.c.Paper
	if hot {
		fill = d.c.Pick
	}
	tall, wide := r*2.1, r*1.1
	d.path.Reset()
	d.path.Line(c.X, c.Y-tall*0.6, c.X, c.Y+tall*0.6)
	d.path.Line(c.X-wide*0.75, c.Y, c.X+wide*0.75, c.Y)
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(5.5), Cap: pen.RoundCap})
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Pick, Width: d.lw(2.4)})
	for _, way := range [...]float64{-1, 1} {
		base := c.Y + way*tall*0.45
		d.path.Reset()
		d.path.Polygon(r2.Point{X: c.X, Y: c.Y + way*tall}, r2.Point{X: c.X + wide, Y: base}, r2.Point{X: c.X - wide, Y: base})
		d.fillStroke(fill, d.c.Pick, 1.8)
	}
}
