package draw

import (
	"math"
	"strings"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func (d *drawing) obstacles(moving bool) {
	for i := range d.s.Plan.Site.Obstacles {
		o := &d.s.Plan.Site.Obstacles[i]
		if !d.shown(&o.Head) || d.dragged(o.ID) != moving || len(o.Outline) == 0 {
			continue
		}
		d.mayReach(o)
		d.path.Reset()
		d.path.Polygon(d.outline(o.Outline)...)
		if o.Kind == "boulder" {
			d.pen.Path(&d.path, d.stone())
			d.disc(&o.Head, plan.Centroid(o.Outline))
			continue
		}
		s := d.strokeStyle(d.c.Ink, 1.6)
		s.Fill = d.c.Water
		if o.Kind != plan.ObstacleWater {
			c := d.at(plan.Point{})
			s.Hatch = pen.Hatch{Colour: d.c.Quiet, AngleDeg: 60, Spacing: d.px(12), Width: d.px(0.7), OriginX: c.X, OriginY: c.Y}
		}
		d.pen.Path(&d.path, s)
		d.disc(&o.Head, plan.Centroid(o.Outline))
	}
}

func (d *drawing) measures() {
	for i := range d.s.Plan.Site.Measures {
		m := &d.s.Plan.Site.Measures[i]
		if !d.shown(&m.Head) || len(m.Points) < 2 {
			continue
		}
		pts := d.outline(m.Points)
		d.path.Reset()
		if len(pts) == 2 {
			side := pts[1].Sub(pts[0]).Normalize().Ortho().Mul(d.sy(5))
			d.path.Polyline(pts...)
			for _, q := range pts {
				d.path.Line(q.X-side.X, q.Y-side.Y, q.X+side.X, q.Y+side.Y)
			}
			d.stroke(d.c.Ink, 1.1)
		} else {
			d.path.Polyline(pts[:3]...)
			a, b := pts[0].Sub(pts[1]), pts[2].Sub(pts[1])
			start, sweep := sweepBetween(a, b)
			d.addArc(pts[1], math.Min(d.sy(26), math.Min(pts[0].Sub(pts[1]).Norm(), pts[1].Sub(pts[2]).Norm())*0.8), start, sweep)
			d.stroke(d.c.Ink, 1.1)
		}
		e := d.measureText(m, pts)
		d.write(e.at.X, e.at.Y, e.text, d.text.mid, false, d.c.Ink, pen.Middle)
	}
}

// sweepBetween is where an arc from a to b over the smaller angle starts and
// how far it goes.
func sweepBetween(a, b r2.Point) (startDeg, sweepDeg float64) {
	startDeg = angleDeg(a)
	sweepDeg = math.Mod(angleDeg(b)-startDeg+540, 360) - 180
	return startDeg, sweepDeg
}

// measureText is what a measure says: its length, or its angle.
func (d *drawing) measureText(m *plan.Measure, pts []r2.Point) edgeText {
	if len(pts) == 2 {
		l := math.Hypot(m.Points[1].X-m.Points[0].X, m.Points[1].Y-m.Points[0].Y)
		n := pts[1].Sub(pts[0]).Normalize().Ortho()
		if n.Y > 0 {
			n = n.Mul(-1)
		}
		text := d.w.Length(quantity.Length(l))
		w, _, _ := pen.Measure(text, &pen.TextStyle{Size: d.text.mid})
		off := math.Abs(n.X)*w/2 + math.Abs(n.Y)*d.text.mid*0.6 + d.px(5)
		return edgeText{pen.Along(pen.Mix(pts[0], pts[1], 0.5), n, off), text, pen.Middle}
	}
	p := m.Points
	a := r3.Vector{X: p[0].X - p[1].X, Y: p[0].Y - p[1].Y}
	b := r3.Vector{X: p[2].X - p[1].X, Y: p[2].Y - p[1].Y}
	dir := pts[0].Sub(pts[1]).Normalize().Add(pts[2].Sub(pts[1]).Normalize()).Normalize()
	if dir == (r2.Point{}) {
		dir = pts[0].Sub(pts[1]).Normalize().Ortho()
	}
	return edgeText{pen.Along(pts[1], dir, d.sy(48)), d.w.Angle(part.Angle(a, b)), pen.Middle}
}

// notes draws texts on the sheet, each on a slip with a folded corner.
func (d *drawing) notes() {
	for i := range d.s.Plan.Site.Notes {
		n := &d.s.Plan.Site.Notes[i]
		if !d.shown(&n.Head) || n.Text == "" {
			continue
		}
		lines, b := d.noteBox(n)
		fold := d.px(7)
		d.path.Reset()
		d.path.Polygon(r2.Point{X: b.X.Lo, Y: b.Y.Lo}, r2.Point{X: b.X.Hi - fold, Y: b.Y.Lo}, r2.Point{X: b.X.Hi, Y: b.Y.Lo + fold}, r2.Point{X: b.X.Hi, Y: b.Y.Hi}, r2.Point{X: b.X.Lo, Y: b.Y.Hi})
		d.fillStroke(faded(d.c.Paper, 0.92), d.c.Quiet, 1)
		for k, text := range lines {
			d.write(b.X.Lo+d.px(6), b.Y.Lo+d.px(5)+d.text.mid*(0.65+1.3*float64(k)), text, d.text.mid, false, d.c.Ink, pen.Start)
		}
	}
}

// noteBox is a note's lines and its slip, whose top left corner is its place.
func (d *brush) noteBox(n *plan.Note) ([]string, r2.Rect) {
	lines := strings.Split(n.Text, "\n")
	w := 0.0
	for _, l := range lines {
		x, _, _ := pen.Measure(l, &pen.TextStyle{Size: d.text.mid})
		w = math.Max(w, x)
	}
	at := d.at(n.At)
	return lines, pen.Box(at.X, at.Y, at.X+w+d.px(14), at.Y+d.text.mid*1.3*float64(len(lines))+d.px(10))
}
