package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// What a vehicle whose size is not known is drawn as, metres, dashed: a common
// small off-road car. (ours, for the picture only)
const (
	unknownLengthM = 4.6
	unknownWidthM  = 1.9
)

// leastVehicle is the least length of a vehicle, px: its nose still shows.
const leastVehicle = 18

// body is the outline of a vehicle in the picture.
type body struct {
	at     r2.Point
	ahead  r2.Point // unit vector toward the nose
	length float64
	width  float64
	k      float64 // pen units per metre it is drawn with
	known  bool
}

func (d *brush) bodyOf(v *plan.Vehicle) body {
	e, n := plan.Heading(v.Bearing)
	b := body{at: d.at(v.At), ahead: r2.Point{X: e, Y: -n}, known: v.Length > 0 && v.Width > 0}
	l, w := float64(v.Length), float64(v.Width)
	if !b.known {
		l, w = unknownLengthM, unknownWidthM
	}
	b.k = math.Max(d.view.PerM, d.sy(leastVehicle)/l)
	b.length, b.width = l*b.k, w*b.k
	return b
}

// corners are the corners of the body, front left first.
func (b *body) corners() []r2.Point {
	m := frame(b.at, b.ahead)
	l, w := b.length/2, b.width/2
	return []r2.Point{m.Apply(r2.Point{X: l, Y: w}), m.Apply(r2.Point{X: -l, Y: w}), m.Apply(r2.Point{X: -l, Y: -w}), m.Apply(r2.Point{X: l, Y: -w})}
}

func (d *drawing) vehicles(moving bool) {
	for i := range d.s.Plan.Site.Vehicles {
		v := &d.s.Plan.Site.Vehicles[i]
		if d.shown(&v.Head) && d.dragged(v.ID) == moving {
			d.disc(&v.Head, v.At)
			d.wayOut(v)
			d.vehicle(v)
		}
	}
}

func (d *drawing) vehicle(v *plan.Vehicle) {
	b := d.bodyOf(v)
	if !d.inView(b.at, b.length) {
		return
	}
	m := frame(b.at, b.ahead)
	var shape pen.Path
	put := func() {
		d.path.Reset()
		d.path.Append(&shape, m)
	}
	shape.RoundRect(-b.length/2, -b.width/2, b.length, b.width, b.width*0.16)
	put()
	weight := 1.8
	if d.emphasised(&v.Head) {
		weight = 3
	}
	if b.known {
		d.fillStroke(d.c.Body, d.c.Ink, weight)
	} else {
		d.fillStroke(d.c.Body, d.c.Ink, weight, 6, 4)
	}
	// The windscreen stands behind the bonnet and widens to the rear.
	shape.Reset()
	x, w := b.length*0.22, b.width
	shape.Polygon(r2.Point{X: x, Y: -w * 0.36}, r2.Point{X: x, Y: w * 0.36}, r2.Point{X: x - b.length*0.13, Y: w * 0.41}, r2.Point{X: x - b.length*0.13, Y: -w * 0.41})
	put()
	d.fillStroke(d.c.Glass, d.c.Ink, 1)
	if b.length > d.sy(40) {
		shape.Reset() // bonnet edges run from the windscreen to the nose
		shape.Line(x, -w*0.36, b.length*0.46, -w*0.30)
		shape.Line(x, w*0.36, b.length*0.46, w*0.30)
		put()
		d.stroke(d.c.Ink, 0.8)
	}
	d.wheels(v, &b, m)
	d.points(v, &b)
}

// Size of a wheel seen from above, metres: a common off-road tyre. (ours)
const (
	wheelLengthM = 0.75
	wheelWidthM  = 0.25
)

func (d *brush) wheels(v *plan.Vehicle, b *body, m pen.Affine) {
	front, rear, ok := v.Axles()
	if !ok {
		return
	}
	track := float64(v.Track)
	if !(track > 0) {
		track = float64(v.Width) - wheelWidthM
	}
	var shape pen.Path
	l, w := wheelLengthM*b.k, wheelWidthM*b.k
	for _, a := range [...]float64{float64(front), float64(rear)} {
		for _, side := range [...]float64{-1, 1} {
			shape.RoundRect(a*b.k-l/2, side*track/2*b.k-w/2, l, w, w*0.35)
		}
	}
	d.path.Reset()
	d.path.Append(&shape, m)
	d.fill(d.c.Ink)
}

// points draws the hook-on points of a vehicle and its fairlead.
func (d *brush) points(v *plan.Vehicle, b *body) {
	if b.length < d.sy(40) {
		return
	}
	d.path.Reset()
	for i := range v.Recovery {
		q := &v.Recovery[i]
		c := d.at(v.Place(q.Ahead, q.Left.Or(0)))
		d.path.Circle(c.X, c.Y, d.sy(3.4))
	}
	if !d.path.Empty() {
		d.fillStroke(d.c.Paper, d.c.Ink, 1.4)
	}
	if w := v.Winch; w != nil {
		d.fairlead(d.at(v.Place(w.Ahead, w.Left.Or(0))), b.ahead, d.sy(11))
	}
}

// fairlead is a rounded square with the mark of the drum: two rollers.
func (d *brush) fairlead(c, ahead r2.Point, size float64) {
	m := frame(c, ahead)
	var shape pen.Path
	shape.RoundRect(-size/2, -size/2, size, size, size*0.25)
	d.path.Reset()
	d.path.Append(&shape, m)
	d.fillStroke(d.c.Paper, d.c.Ink, 1.6)
	shape.Reset()
	shape.Line(-size*0.2, -size*0.28, -size*0.2, size*0.28)
	shape.Line(size*0.2, -size*0.28, size*0.2, size*0.28)
	d.path.Reset()
	d.path.Append(&shape, m)
	d.stroke(d.c.Ink, 1.4)
}

// wayOut draws the casualty's way out: an arrow as long as the way, beside the
// body, and the dashed outline at its end.
func (d *brush) wayOut(v *plan.Vehicle) {
	a, e, ok := d.wayArrow(v)
	if !ok {
		return
	}
	if way, bent := bentWay(v); bent {
		d.bentWay(v, way)
		return
	}
	if v.Stuck.WayLength > 0 {
		end := d.bodyOf(v)
		end.at = end.at.Add(e.Sub(a))
		d.endOfWay(end)
	}
	d.arrow(a, e, d.c.Ink, 1.6, 9)
}

// bentWay is the way out of v, if that has bends and a length.
func bentWay(v *plan.Vehicle) (*plan.WayLine, bool) {
	if v.Stuck == nil || len(v.Stuck.Bends) == 0 || !(v.Stuck.WayLength > 0) {
		return nil, false
	}
	return v.WayLine()
}

// wayLegs are the straight lines that the way out of a casualty is drawn along; none if
// it is not drawn.
func (d *brush) wayLegs(v *plan.Vehicle) []r2.Point {
	if way, bent := bentWay(v); bent {
		var at []r2.Point
		for _, p := range way.Corners(float64(v.Stuck.WayLength)) {
			at = append(at, d.at(p))
		}
		return at
	}
	if a, e, ok := d.wayArrow(v); ok {
		return []r2.Point{a, e}
	}
	return nil
}

// bentPieces are the straight pieces that a way with bends is drawn of, a metre.
const bentPieces = 4

// bentWay draws a way with bends, of what moves along it, and the dashed outline of
// the body where it ends.
func (d *brush) bentWay(v *plan.Vehicle, way *plan.WayLine) {
	long := float64(v.Stuck.WayLength)
	n := max(2, int(math.Ceil(long*bentPieces)))
	at := make([]r2.Point, n+1)
	for i := range at {
		at[i] = d.at(way.Track(long * float64(i) / float64(n)))
	}
	end := *v
	on := way.At(long)
	end.At, end.Bearing = on.At, on.Bearing
	d.endOfWay(d.bodyOf(&end))
	d.path.Reset()
	d.path.Polyline(at[:n]...)
	d.stroke(d.c.Ink, 1.6)
	d.arrow(at[n-1], at[n], d.c.Ink, 1.6, 9)
}

// endOfWay draws the dashed outline of a body.
func (d *brush) endOfWay(b body) {
	var shape pen.Path
	shape.RoundRect(-b.length/2, -b.width/2, b.length, b.width, b.width*0.16)
	d.path.Reset()
	d.path.Append(&shape, frame(b.at, b.ahead))
	d.stroke(d.c.Ink, 1.1, 5, 4)
}

// wayArrow is the arrow of a casualty's way out, drawn along the body's side
// so that the line does not hide it.
func (d *brush) wayArrow(v *plan.Vehicle) (from, to r2.Point, ok bool) {
	bearing, ok := v.WayOut()
	if !ok {
		return from, to, false
	}
	b := d.bodyOf(v)
	e, n := plan.Heading(bearing)
	way := r2.Point{X: e, Y: -n}
	side := way.Ortho()
	if side.Y < 0 {
		side = side.Mul(-1) // the arrow lies below
	}
	reach := math.Abs(b.ahead.Dot(way))*b.length/2 + math.Abs(b.ahead.Cross(way))*b.width/2
	off := math.Abs(b.ahead.Dot(side))*b.length/2 + math.Abs(b.ahead.Cross(side))*b.width/2 + d.sy(7)
	length := d.m(float64(v.Stuck.WayLength))
	if !(length > 0) {
		length = d.sy(40) // a direction without a length
	}
	from = b.at.Add(way.Mul(reach).Add(side.Mul(off)))
	return from, pen.Along(from, way, length), true
}
