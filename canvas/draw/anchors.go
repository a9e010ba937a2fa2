package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

func (d *drawing) anchors(moving bool) {
	for i := range d.s.Plan.Site.Anchors {
		a := &d.s.Plan.Site.Anchors[i]
		if d.shown(&a.Head) && d.dragged(a.ID) == moving {
			d.disc(&a.Head, a.At)
			d.anchor(a)
		}
	}
}

// Least radii of anchors, px.
const (
	leastTrunk   = 5
	leastBoulder = 8
	leastAnchor  = 8
)

// boulderRadius is the radius of a boulder of which only the mass is known, or
// not even that: a ball of common rock.
//
//	r = ∛( 3m / 4πρ ), ρ = 2650 kg/m³   (granite; for the picture only)
func boulderRadius(massKg float64) float64 {
	if !(massKg > 0) {
		return 0.5
	}
	return math.Cbrt(3 * massKg / (4 * math.Pi * 2650))
}

// anchorSymbol is how a kind of anchor is drawn: how far it reaches in the
// picture, and its mark.
type anchorSymbol struct {
	reach func(*brush, *plan.Anchor) float64
	draw  func(d *brush, a *plan.Anchor, c r2.Point, reach, weight float64)
}

var anchorSymbols = map[string]anchorSymbol{
	plan.AnchorTree:    {func(d *brush, a *plan.Anchor) float64 { return d.atLeast(float64(terrain.AtStrap(a))/2, leastTrunk) }, (*brush).tree},
	plan.AnchorBoulder: {func(d *brush, a *plan.Anchor) float64 { return d.atLeast(boulderRadius(float64(a.Mass)), leastBoulder) }, (*brush).boulder},
	plan.AnchorPickets: {anchorMark, (*brush).pickets},
	plan.AnchorDeadman: {func(d *brush, a *plan.Anchor) float64 {
		return math.Max(d.m(float64(a.LogLength))/2, d.sy(leastAnchor+3))
	}, (*brush).deadman},
	plan.AnchorScrew: {anchorMark, (*brush).screw},
	plan.AnchorRated: {anchorMark, (*brush).ratedPoint},
}

// anchorMark is the reach of a symbol that is not to scale.
func anchorMark(d *brush, _ *plan.Anchor) float64 { return d.sy(leastAnchor + 2) }

// symbolOf is how an anchor is drawn; one of a kind that this version does not
// know, as what is not known.
func symbolOf(a *plan.Anchor) anchorSymbol {
	if s, ok := anchorSymbols[a.Kind]; ok {
		return s
	}
	return anchorSymbol{anchorMark, func(d *brush, _ *plan.Anchor, c r2.Point, _, _ float64) { d.unknown(c) }}
}

// anchorRadius is how far an anchor reaches in the picture.
func (d *brush) anchorRadius(a *plan.Anchor) float64 { return symbolOf(a).reach(d, a) }

func (d *drawing) anchor(a *plan.Anchor) {
	c, r := d.at(a.At), d.anchorRadius(a)
	if !d.inView(c, r+d.m(float64(a.Crown))) {
		return
	}
	weight := 1.6
	if d.emphasised(&a.Head) {
		weight = 2.8
	}
	symbolOf(a).draw(&d.brush, a, c, r, weight)
}

// tree is a trunk sawn through, bark, rings and pith, under its crown. One of
// unknown size has a dashed bark.
func (d *brush) tree(a *plan.Anchor, c r2.Point, r, weight float64) {
	d.path.Reset()
	if a.Crown > 0 {
		d.crown(c, d.m(float64(a.Crown)))
		d.stroke(d.c.Quiet, 1)
	}
	var dash []float64
	if !(terrain.AtStrap(a) > 0) {
		dash = []float64{3, 2}
	}
	d.path.Reset()
	d.path.Circle(c.X, c.Y, r)
	d.fillStroke(d.c.Wood, d.c.Ink, weight*1.25, dash...)
	d.path.Reset()
	d.path.Circle(c.X, c.Y, r*0.55)
	if r > d.sy(12) {
		d.path.Circle(c.X, c.Y, r*0.78)
		d.path.Circle(c.X, c.Y, r*0.3)
	}
	d.stroke(d.c.Ink, 0.8)
	d.path.Reset()
	d.path.Circle(c.X, c.Y, math.Max(r*0.08, d.px(1)))
	d.fill(d.c.Ink)
}

// crown is a ring of arcs, as foresters draw it.
func (d *brush) crown(c r2.Point, r float64) {
	const lobes = 12
	for i := range lobes {
		t := float64(i) * 360 / lobes
		s, k := math.Sincos(t * math.Pi / 180)
		q := r2.Point{X: c.X + r*0.88*k, Y: c.Y - r*0.88*s}
		lobe := r * 0.27
		a := q.Sub(c)
		start := angleDeg(a) - 100
		sn, cs := math.Sincos(start * math.Pi / 180)
		d.path.MoveTo(q.X+lobe*cs, q.Y-lobe*sn)
		d.path.Arc(q.X, q.Y, lobe, start, 200)
	}
}

// boulder is one whose shape is not known.
func (d *brush) boulder(_ *plan.Anchor, c r2.Point, r, _ float64) {
	d.path.Reset()
	for i, k := range [...]float64{1, 0.88, 1.04, 0.92, 1, 0.86, 1.02} {
		s, co := math.Sincos(float64(i) * 2 * math.Pi / 7)
		if i == 0 {
			d.path.MoveTo(c.X+r*k*co, c.Y-r*k*s)
		} else {
			d.path.LineTo(c.X+r*k*co, c.Y-r*k*s)
		}
	}
	d.path.Close()
	d.pen.Path(&d.path, d.stone())
}

// stone is the style of rock: dots, and an outline of dots.
func (d *brush) stone() *pen.Style {
	s := d.strokeStyle(d.c.Ink, 1.6, 1.6, 2.4)
	s.Fill = d.c.Stone
	o := d.at(plan.Point{})
	s.Hatch = pen.Hatch{Colour: d.c.Quiet, Spacing: d.px(9), Width: d.px(1.5), Dots: true, OriginX: o.X, OriginY: o.Y}
	return s
}

// pickets draws the rows of a holdfast, front row first, behind one another
// away from the pull they were set for.
func (d *brush) pickets(a *plan.Anchor, c r2.Point, _, weight float64) {
	rows := layoutRows(a.Layout)
	e, n := plan.Heading(a.SetBearing)
	pull := r2.Point{X: e, Y: -n}
	side := pull.Ortho()
	gap := math.Max(d.m(0.9), d.sy(11)) // pickets of a row stand about a metre behind each other (from memory)
	var last r2.Point
	d.path.Reset()
	for i := range rows {
		q := pen.Along(c, pull, -gap*float64(i))
		if i > 0 {
			d.path.Line(last.X, last.Y, q.X, q.Y)
		}
		last = q
	}
	if !d.path.Empty() {
		d.stroke(d.c.Ink, 1.2)
	}
	d.path.Reset()
	for i, count := range rows {
		for k := range count {
			q := pen.Along(pen.Along(c, pull, -gap*float64(i)), side, (float64(k)-float64(count-1)/2)*d.sy(8))
			d.path.Circle(q.X, q.Y, d.sy(3.2))
		}
	}
	d.fillStroke(d.c.Paper, d.c.Ink, weight)
	if a.SetKnown {
		d.path.Reset()
		q := pen.Along(c, pull, d.sy(7))
		d.path.Polygon(pen.Along(q, pull, d.sy(6)), pen.Along(q, side, d.sy(4)), pen.Along(q, side, -d.sy(4)))
		d.fill(d.c.Ink)
	}
}

// layoutRows reads "3-2-1": pickets per row, front row first. What is not
// understood is one picket.
func layoutRows(layout string) []int {
	rows := []int{}
	for _, r := range layout {
		if r >= '1' && r <= '9' {
			rows = append(rows, int(r-'0'))
		} else if r != '-' {
			return []int{1}
		}
	}
	if len(rows) == 0 || len(rows) > 6 {
		return []int{1}
	}
	return rows
}

// deadman is a buried log across its pull, dashed as hidden edges are.
func (d *brush) deadman(a *plan.Anchor, c r2.Point, r, weight float64) {
	e, n := plan.Heading(a.SetBearing)
	pull := r2.Point{X: e, Y: -n}
	thick := math.Max(d.m(float64(a.LogDiameter)), d.sy(7))
	var shape pen.Path
	shape.RoundRect(-thick/2, -r, thick, 2*r, thick*0.3)
	d.path.Reset()
	d.path.Append(&shape, frame(c, pull))
	d.fillStroke(d.c.Wood, d.c.Ink, weight, 4, 3)
	d.path.Reset()
	q := pen.Along(c, pull, thick/2+d.sy(8))
	d.path.Line(c.X, c.Y, q.X, q.Y) // the slot its sling lies in
	d.stroke(d.c.Ink, 1.2, 2, 2)
}

// screw is the eye of a ground screw; behind it, away from the pull it was set for
// and dashed as hidden edges are, its shaft with the helix on it.
func (d *brush) screw(a *plan.Anchor, c r2.Point, r, weight float64) {
	e, n := plan.Heading(a.SetBearing)
	pull := r2.Point{X: e, Y: -n}
	plate := d.atLeast(float64(a.Helix)/2, 7)
	if a.SetKnown {
		side := pull.Ortho()
		long := d.sy(26)
		if rise := a.AxisRise.Radians(); a.Depth > 0 && rise > 0 && rise < math.Pi/2 {
			long = math.Max(long, d.m(float64(a.Depth)/math.Tan(rise)))
		}
		end := pen.Along(c, pull, -long)
		d.path.Reset()
		d.path.Line(c.X, c.Y, end.X, end.Y)
		d.stroke(d.c.Ink, weight, 4, 3)
		for _, back := range [...]float64{0.55, 0.9} { // a turn of the helix seen from its side
			q := pen.Along(c, pull, -long*back)
			p0, p1 := pen.Along(pen.Along(q, side, plate), pull, d.sy(2.5)), pen.Along(pen.Along(q, side, -plate), pull, -d.sy(2.5))
			d.path.Reset()
			d.path.Line(p0.X, p0.Y, p1.X, p1.Y)
			d.stroke(d.c.Ink, weight*1.25)
		}
	} else {
		d.path.Reset()
		d.path.Circle(c.X, c.Y, math.Max(plate, r))
		d.stroke(d.c.Ink, weight, 4, 3)
	}
	d.path.Reset()
	d.path.Circle(c.X, c.Y, d.sy(4.5))
	d.fillStroke(d.c.Paper, d.c.Ink, weight*1.25)
}

// ratedPoint is a ring with a cross.
func (d *brush) ratedPoint(_ *plan.Anchor, c r2.Point, _, weight float64) {
	r := d.sy(leastAnchor)
	d.path.Reset()
	d.path.Circle(c.X, c.Y, r)
	d.fillStroke(d.c.Paper, d.c.Ink, weight)
	d.path.Reset()
	d.path.Line(c.X-r*0.6, c.Y, c.X+r*0.6, c.Y)
	d.path.Line(c.X, c.Y-r*0.6, c.X, c.Y+r*0.6)
	d.stroke(d.c.Ink, weight)
}

// unknown is what this version cannot draw.
func (d *brush) unknown(c r2.Point) {
	r := d.sy(10)
	d.path.Reset()
	d.path.RoundRect(c.X-r, c.Y-r, 2*r, 2*r, d.px(3))
	d.fillStroke(d.c.Paper, d.c.Ink, 1.4, 4, 3)
	d.write(c.X, c.Y, "?", d.text.big, true, d.c.Ink, pen.Middle)
}

func (d *drawing) unknownThings() {
	for i := range d.s.Plan.Site.Unknown {
		d.unknown(d.at(d.s.Plan.Site.Unknown[i].At))
	}
	for i := range d.rig.Unknown {
		d.unknown(d.at(d.rig.Unknown[i].At))
	}
}
