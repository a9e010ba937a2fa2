package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// brush draws strokes and symbols: it knows the view and the look, but neither
// plan nor answer.
type brush struct {
	pen  pen.Pen
	view View
	look Look
	c    Colors
	u    float64 // pen units per logical pixel
	bold float64 // factor of strokes
	sym  float64 // factor of symbols
	text textSizes
	path pen.Path // what is being put together
}

// textSizes are the three sizes of text: what counts, names, and the rest, in
// pen units.
type textSizes struct{ big, mid, small float64 }

// Text at arm's length, and larger in the field, px. (ours)
var (
	deskText  = textSizes{13, 12, 11}
	fieldText = textSizes{20, 17, 15}
)

// Strokes and symbols in the field, times their desk size. (ours)
const (
	fieldStroke = 1.5
	fieldSymbol = 1.4
)

// px is n logical pixels in pen units.
func (d *brush) px(n float64) float64 { return n * d.u }

// lw is a stroke of n logical pixels.
func (d *brush) lw(n float64) float64 { return n * d.u * d.bold }

// sy is a symbol's size of n logical pixels.
func (d *brush) sy(n float64) float64 { return n * d.u * d.sym }

// m is a length of the plan in pen units.
func (d *brush) m(lengthM float64) float64 { return lengthM * d.view.PerM }

// atLeast is a true size, or the least symbol where that is larger.
func (d *brush) atLeast(lengthM, symbolPx float64) float64 {
	return math.Max(d.m(lengthM), d.sy(symbolPx))
}

func (d *brush) at(p plan.Point) r2.Point {
	x, y := d.view.ToPen(p)
	return r2.Point{X: x, Y: y}
}

func (d *brush) atVec(v r3.Vector) r2.Point { return d.at(plan.Point{X: v.X, Y: v.Y}) }

// inView reports whether a point is in the picture, or no more than the margin
// outside.
func (d *brush) inView(p r2.Point, margin float64) bool {
	v := &d.view
	return p.X >= v.X0-margin && p.X <= v.X0+v.W+margin && p.Y >= v.Y0-margin && p.Y <= v.Y0+v.H+margin
}

func (d *brush) fill(c color.NRGBA) { d.pen.Path(&d.path, &pen.Style{Fill: c}) }

func (d *brush) stroke(c color.NRGBA, widthPx float64, dashPx ...float64) {
	d.pen.Path(&d.path, d.strokeStyle(c, widthPx, dashPx...))
}

func (d *brush) strokeStyle(c color.NRGBA, widthPx float64, dashPx ...float64) *pen.Style {
	s := &pen.Style{Stroke: c, Width: d.lw(widthPx), Join: pen.RoundJoin}
	for _, x := range dashPx {
		s.Dash = append(s.Dash, d.lw(x))
	}
	return s
}

func (d *brush) fillStroke(f, c color.NRGBA, widthPx float64, dashPx ...float64) {
	s := d.strokeStyle(c, widthPx, dashPx...)
	s.Fill = f
	d.pen.Path(&d.path, s)
}

// write writes a line of text centred on y, with a halo of paper.
func (d *brush) write(x, y float64, text string, size float64, bold bool, c color.NRGBA, a pen.Anchor) {
	t := pen.TextStyle{Size: size, Bold: bold, Colour: c, Anchor: a, Halo: d.c.Paper, HaloWidth: d.px(2)}
	d.pen.Text(x, y+pen.CapHeight(&t)/2, text, &t)
}

// outline is an outline of the plan in the picture.
func (d *brush) outline(points []plan.Point) []r2.Point {
	out := make([]r2.Point, len(points))
	for i, p := range points {
		out[i] = d.at(p)
	}
	return out
}

// addArc adds an arc as a contour of its own.
func (d *brush) addArc(c r2.Point, r, startDeg, sweepDeg float64) {
	s, k := math.Sincos(startDeg * math.Pi / 180)
	d.path.MoveTo(c.X+r*k, c.Y-r*s)
	d.path.Arc(c.X, c.Y, r, startDeg, sweepDeg)
}

// dot adds a small round dot: at this size eight sides are a circle.
func (d *brush) dot(c r2.Point, r float64) {
	sin, cos := 0.3827*r, 0.9239*r // of 22.5°
	for i, q := range [...]r2.Point{{X: cos, Y: -sin}, {X: cos, Y: sin}, {X: sin, Y: cos}, {X: -sin, Y: cos}, {X: -cos, Y: sin}, {X: -cos, Y: -sin}, {X: -sin, Y: -cos}, {X: sin, Y: -cos}} {
		if i == 0 {
			d.path.MoveTo(c.X+q.X, c.Y+q.Y)
		} else {
			d.path.LineTo(c.X+q.X, c.Y+q.Y)
		}
	}
	d.path.Close()
}

// arrow draws a straight arrow with a filled head.
func (d *brush) arrow(a, b r2.Point, c color.NRGBA, widthPx, headPx float64) {
	dir := b.Sub(a).Normalize()
	if dir == (r2.Point{}) {
		return
	}
	head := math.Min(d.sy(headPx), a.Sub(b).Norm()*0.6)
	d.path.Reset()
	q := pen.Along(b, dir, -head*0.8)
	d.path.Line(a.X, a.Y, q.X, q.Y)
	d.stroke(c, widthPx)
	side := dir.Ortho().Mul(head * 0.38)
	base := pen.Along(b, dir, -head)
	d.path.Reset()
	d.path.Polygon(b, base.Add(side), base.Sub(side))
	d.fill(c)
}

// angleDeg is a direction, counter-clockwise as seen.
func angleDeg(d r2.Point) float64 { return math.Atan2(-d.Y, d.X) * 180 / math.Pi }

// frame maps a thing's own axes, ahead and left, to the picture.
func frame(at, ahead r2.Point) pen.Affine {
	left := r2.Point{X: ahead.Y, Y: -ahead.X}
	return pen.Affine{A: ahead.X, B: ahead.Y, C: left.X, D: left.Y, E: at.X, F: at.Y}
}

// view is the picture as a box.
func (v *View) box() r2.Rect { return pen.Box(v.X0, v.Y0, v.X0+v.W, v.Y0+v.H) }
