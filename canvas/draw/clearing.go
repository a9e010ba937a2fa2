package draw

import (
	"image"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/terrain"
)

// clearMM is how far hatches stop off lines and labels, millimetres of a screen
// of 96 pixels an inch: a protractor can be laid and a number read. On a sheet,
// whose pixel is larger, it is a little more. (ours)
const clearMM = 2

// clearing is a convex place that hatches leave out.
type clearing struct {
	poly []r2.Point // counter-clockwise as seen
	box  r2.Rect
}

// clearings are the places without hatch: vehicles, obstacles, trunks, blocks,
// people, furniture and notes, what is drawn of lines, slings and forces, and
// every label, each with a margin round it.
type clearings struct {
	all []clearing
	d   *drawing
	gap float64 // margin, with what a hatch's own mark reaches from its middle
}

func (d *drawing) clearings() *clearings {
	c := &clearings{d: d, gap: d.px(clearMM*mmPx) + math.Max(d.px(hatchWidth*d.bold)/2, d.sy(dotSide)/math.Sqrt2)}
	c.site()
	c.rig()
	for i := range d.labels.all {
		p := &d.labels.all[i].place
		c.rect(p.Box)
		if p.Leads {
			c.line(p.Leader[0], p.Leader[1], d.px(1))
		}
	}
	return c
}

func (c *clearings) site() {
	d, site := c.d, &c.d.s.Plan.Site
	for i := range site.Vehicles {
		if v := &site.Vehicles[i]; d.shown(&v.Head) {
			b := d.bodyOf(v)
			b.length += 2 * c.gap
			b.width += 2 * c.gap
			c.take(b.corners())
		}
	}
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		if !d.shown(&o.Head) || len(o.Outline) < 3 {
			continue
		}
		// It may be hollow: its area as it is, and a strip along its edge.
		poly := d.outline(o.Outline)
		for k, p := range poly {
			c.line(p, poly[(k+1)%len(poly)], 0)
		}
		c.take(poly)
	}
	for i := range site.Anchors {
		if a := &site.Anchors[i]; d.shown(&a.Head) {
			c.disc(d.at(a.At), d.anchorRadius(a))
		}
	}
	for i := range site.People {
		if p := &site.People[i]; d.shown(&p.Head) {
			c.rect(d.personBox(d.personPlace(p)))
		}
	}
	for _, b := range d.furnitureBoxes() {
		c.rect(b)
	}
	for i := range site.Notes {
		if n := &site.Notes[i]; d.shown(&n.Head) && n.Text != "" {
			_, b := d.noteBox(n)
			c.rect(b)
		}
	}
	if d.gridShown() {
		for _, l := range d.gridLabels() {
			c.take(corners(d.boxOf(l, d.text.small)))
		}
	}
}

func (c *clearings) rig() {
	d := c.d
	for i := range d.stretches {
		s := &d.stretches[i]
		half := lineWidth / 2
		if s.look == overPattern {
			half = lineWidth
		}
		c.line(s.a, s.b, d.lw(half))
	}
	for i := range d.rig.Slings {
		s := &d.rig.Slings[i]
		if !d.shown(&s.Head) {
			continue
		}
		sh := d.slingShape(s)
		if sh == nil {
			continue
		}
		centre, apex := d.atVec(sh.Centre), d.atVec(sh.Apex)
		half := d.lw(slingWidth)
		r := 0.0
		if sh.Radius > 0 {
			r = d.slingRadius(sh)
		}
		c.disc(centre, r+half)
		if r > 0 && centre.Sub(apex).Norm() > r {
			a, b := slingTangents(centre, apex, r)
			c.line(apex, a, half)
			c.line(apex, b, half)
			c.take([]r2.Point{apex, a, b})
		} else {
			c.line(centre, apex, half)
		}
	}
	for i := range d.rig.Blocks {
		if b := &d.rig.Blocks[i]; d.shown(&b.Head) {
			at, _ := d.blockPlace(b)
			c.disc(at, d.sheaveRadius(b))
		}
	}
	for _, a := range d.resultants() {
		c.line(a.from, a.to, d.lw(1.5))
	}
}

// take adds a convex outline as it is, or any outline that does not cross
// itself.
func (c *clearings) take(poly []r2.Point) {
	b := r2.RectFromPoints(poly...)
	if b.InteriorIntersects(c.d.view.box()) {
		c.all = append(c.all, clearing{counterClockwise(poly), b})
	}
}

func (c *clearings) rect(b r2.Rect) { c.take(corners(b.ExpandedByMargin(c.gap))) }

// capSides is how many sides the half circle at the end of a strip has; it lies
// outside the circle.
const capSides = 4

// line adds what is within half a width and the margin of a straight line.
func (c *clearings) line(a, b r2.Point, half float64) {
	// What is far outside the picture makes no numbers that lose their digits.
	t0, t1, ok := pen.Cut(c.d.view.box().ExpandedByMargin(c.d.px(100)), a, b)
	if !ok {
		return
	}
	a, b = pen.Mix(a, b, t0), pen.Mix(a, b, t1)
	u := b.Sub(a).Normalize()
	r := (half + c.gap) / math.Cos(math.Pi/(2*capSides))
	poly := make([]r2.Point, 0, 2*(capSides+1))
	for _, end := range [...]struct{ at, dir r2.Point }{{b, u}, {a, u.Mul(-1)}} {
		side := end.dir.Ortho()
		for i := range capSides {
			sn, cs := math.Sincos((float64(i)+0.5)*math.Pi/capSides - math.Pi/2)
			poly = append(poly, pen.Along(pen.Along(end.at, end.dir, r*cs), side, r*sn))
		}
	}
	c.take(poly)
}

// disc adds a circle and the margin round it.
func (c *clearings) disc(at r2.Point, radius float64) {
	const sides = 12
	c.take(ring(at, (radius+c.gap)/math.Cos(math.Pi/sides)))
}

// meets reports whether a straight piece touches a clearing.
func (c *clearings) meets(a, b r2.Point) bool {
	lo := r2.RectFromPoints(a, b)
	for i := range c.all {
		m := &c.all[i]
		if !m.box.ExpandedByMargin(1e-9).InteriorIntersects(lo.ExpandedByMargin(1e-9)) {
			continue
		}
		if terrain.Meets(m.poly, a, b) {
			return true
		}
	}
	return false
}

func corners(b r2.Rect) []r2.Point {
	v := b.Vertices()
	return v[:]
}

// mute is a pen that draws nothing: what a label keeps off has to be known
// before anything is drawn.
type mute struct{}

func (mute) Path(*pen.Path, *pen.Style)                    {}
func (mute) Text(float64, float64, string, *pen.TextStyle) {}
func (mute) Image(image.Image, pen.Affine, float64)        {}
func (mute) PushClip(*pen.Path)                            {}
func (mute) PopClip()                                      {}
func (mute) Err() error                                    { return nil }
