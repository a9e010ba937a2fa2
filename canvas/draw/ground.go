package draw

import (
	"image/color"
	"math"
	"strconv"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// gridSteps are the spacings of the grid in shown units of length; a zoom uses
// the first that is wide enough and draws the next one bold.
var gridSteps = [...]float64{1, 5, 10, 50, 100, 500, 1000, 5000, 10000, 50000, 100000}

// leastGrid is the least distance of grid lines, px: closer ones turn into a
// tone. (ours)
const leastGrid = 9

// lengthUnit is the metres of one shown unit of length, and its symbol.
func (d *drawing) lengthUnit() (metres float64, symbol string) {
	u := d.w.System().Length()
	if u == quantity.InFeet {
		return float64(quantity.Foot), u.String()
	}
	return 1, u.String()
}

// gridStep is the spacing of fine and of bold lines in shown units.
func (d *drawing) gridStep() (fine, bold float64) {
	unit, _ := d.lengthUnit()
	for i, s := range gridSteps[:len(gridSteps)-1] {
		if d.m(s*unit) >= d.px(leastGrid) {
			return s, gridSteps[i+1]
		}
	}
	n := len(gridSteps)
	return gridSteps[n-2], gridSteps[n-1]
}

func (d *drawing) gridShown() bool { return !d.s.Show.HideGrid && !d.look.Field }

func (d *drawing) grid() {
	if !d.gridShown() {
		return
	}
	unit, _ := d.lengthUnit()
	fine, bold := d.gridStep()
	d.gridLines(fine*unit, bold/fine, d.c.GridFine, 1)
	d.gridLines(bold*unit, 0, d.c.GridBold, 1)
	if d.photo != nil { // a picture has any colour: a line and its edge, one of which is seen
		d.pen.PushClip(d.photo)
		d.gridLines(fine*unit, bold/fine, faded(d.c.Paper, edgeShare*overPicture/2), 3)
		d.gridLines(fine*unit, bold/fine, faded(d.c.Ink, overPicture/2), 1)
		d.gridLines(bold*unit, 0, faded(d.c.Paper, edgeShare*overPicture), 3)
		d.gridLines(bold*unit, 0, faded(d.c.Ink, overPicture), 1)
		d.pen.PopClip()
	}
	for _, l := range d.gridLabels() {
		d.write(l.at.X, l.at.Y, l.text, d.text.small, false, d.c.Quiet, l.anchor)
	}
}

// overPicture is how much of a bold line is seen over a picture to trace, 0 to 1: the picture
// is what is read, a fine line has half of it, an edge its share. (ours, by looking)
const (
	overPicture = 0.8
	edgeShare   = 0.6
)

// gridLines draws the lines at multiples of a spacing, px wide, passing over those that
// a bolder grid draws too.
func (d *brush) gridLines(stepM, skip float64, c color.NRGBA, px float64) {
	v := &d.view
	lo, hi := v.ToPlan(v.X0, v.Y0+v.H), v.ToPlan(v.X0+v.W, v.Y0)
	d.path.Reset()
	for i := math.Ceil(lo.X / stepM); i*stepM <= hi.X; i++ {
		if skip == 0 || math.Mod(i, skip) != 0 {
			x := v.X0 + v.W/2 + (i*stepM-v.Middle.X)*v.PerM
			d.path.Line(x, v.Y0, x, v.Y0+v.H)
		}
	}
	for i := math.Ceil(lo.Y / stepM); i*stepM <= hi.Y; i++ {
		if skip == 0 || math.Mod(i, skip) != 0 {
			y := v.Y0 + v.H/2 - (i*stepM-v.Middle.Y)*v.PerM
			d.path.Line(v.X0, y, v.X0+v.W, y)
		}
	}
	d.pen.Path(&d.path, &pen.Style{Stroke: c, Width: d.px(px)})
}

// edgeText is a text at a fixed place.
type edgeText struct {
	at     r2.Point
	text   string
	anchor pen.Anchor
}

func (d *brush) boxOf(e edgeText, size float64) r2.Rect {
	w, _, _ := pen.Measure(e.text, &pen.TextStyle{Size: size})
	x := e.at.X - map[pen.Anchor]float64{pen.Start: 0, pen.Middle: w / 2, pen.End: w}[e.anchor]
	return pen.Box(x, e.at.Y-size*0.6, x+w, e.at.Y+size*0.6)
}

// gridLabels are the figures of the bold lines along the top and the left.
func (d *drawing) gridLabels() []edgeText {
	v := &d.view
	unit, _ := d.lengthUnit()
	_, step := d.gridStep()
	for d.m(step*unit) < d.px(60) {
		step *= 2
	}
	lo, hi := v.ToPlan(v.X0, v.Y0+v.H), v.ToPlan(v.X0+v.W, v.Y0)
	stepM, inset, small := step*unit, d.px(4), d.text.small
	var out []edgeText
	for i := math.Ceil(lo.X / stepM); i*stepM <= hi.X; i++ {
		x := v.X0 + v.W/2 + (i*stepM-v.Middle.X)*v.PerM
		e := edgeText{r2.Point{X: x, Y: v.Y0 + inset + small/2}, gridFigure(i * step), pen.Middle}
		if b := d.boxOf(e, small); b.X.Lo > v.X0+d.px(30) && b.X.Hi < v.X0+v.W-d.px(70) {
			out = append(out, e)
		}
	}
	for i := math.Ceil(lo.Y / stepM); i*stepM <= hi.Y; i++ {
		y := v.Y0 + v.H/2 - (i*stepM-v.Middle.Y)*v.PerM
		if y > v.Y0+2*small+2*inset && y < v.Y0+v.H-d.px(70)*d.sym {
			out = append(out, edgeText{r2.Point{X: v.X0 + inset, Y: y}, gridFigure(i * step), pen.Start})
		}
	}
	return out
}

func gridFigure(x float64) string {
	if x == 0 {
		x = 0 // no negative zero
	}
	return strconv.FormatFloat(x, 'f', 0, 64)
}

// scaleBar is the longest length of 1, 2 or 5 times a power of ten shown units
// that fits into its place.
func (d *drawing) scaleBar() (shown, pens float64) {
	unit, _ := d.lengthUnit()
	room := math.Min(d.px(260), d.view.W*0.3)
	best := math.Pow(10, math.Floor(math.Log10(room/d.m(unit))))
	for _, k := range [...]float64{5, 2, 1} {
		if d.m(best*k*unit) <= room {
			return best * k, d.m(best * k * unit)
		}
	}
	return best, d.m(best * unit)
}

// furniture draws the scale bar, the north arrow and the slope.
func (d *drawing) furniture() {
	v := &d.view
	_, symbol := d.lengthUnit()
	shown, length := d.scaleBar()
	x, y, h := v.X0+d.px(18), v.Y0+v.H-d.px(20), d.sy(6)
	for i := range 4 {
		d.path.Reset()
		d.path.Rect(x+float64(i)*length/4, y, length/4, h)
		c := d.c.Ink
		if i%2 == 1 {
			c = d.c.Paper
		}
		d.fillStroke(c, d.c.Ink, 1)
	}
	for i, t := range [...]string{"0", d.w.Decimal(shown/2, -1), d.w.Decimal(shown, -1) + " " + symbol} {
		d.write(x+float64(i)*length/2, y-d.px(4)-d.text.small/2, t, d.text.small, false, d.c.Ink, pen.Middle)
	}
	d.north()
	d.slope()
}

func figure(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

func (d *brush) northPlace() r2.Point {
	v := &d.view
	return r2.Point{X: v.X0 + v.W - d.px(32)*d.sym, Y: v.Y0 + d.px(38)*d.sym}
}

// north draws the north arrow. NorthTurn is the bearing of the sheet's up
// direction: north lies that much counter-clockwise of up.
func (d *drawing) north() {
	c := d.northPlace()
	t := d.s.Plan.Site.Ground.NorthTurn.Radians()
	up := r2.Point{X: -math.Sin(t), Y: -math.Cos(t)}
	side := up.Ortho()
	l, w := d.sy(20), d.sy(8)
	d.path.Reset()
	d.path.Polygon(pen.Along(c, up, l), pen.Along(pen.Along(c, up, -l*0.8), side, w), pen.Along(c, up, -l*0.4), pen.Along(pen.Along(c, up, -l*0.8), side, -w))
	d.fillStroke(d.c.Ink, d.c.Ink, 1)
	p := pen.Along(c, up, -l*1.45)
	d.write(p.X, p.Y, d.w.Label("draw-north"), d.text.big, true, d.c.Ink, pen.Middle)
}

func (d *brush) slopePlace() r2.Point {
	n := d.northPlace()
	return r2.Point{X: n.X, Y: n.Y + d.px(76)*d.sym}
}

// slope draws an arrow that points downhill, with the angle; the angle alone if
// nobody said where downhill is.
func (d *drawing) slope() {
	g := &d.s.Plan.Site.Ground
	if !(g.Slope.Or(0) > 0) {
		return
	}
	tx := d.slopeText()
	d.write(tx.at.X, tx.at.Y, tx.text, d.text.small, false, d.c.Ink, pen.End)
	downhill, known := g.Downhill.Get()
	if !known {
		return
	}
	c := d.slopePlace()
	e, n := plan.Heading(downhill) // as the solver reads it: on the plan's own axes
	down := r2.Point{X: e, Y: -n}
	side := down.Ortho()
	l := d.sy(19)
	d.path.Reset()
	d.path.Polyline(pen.Along(c, down, -l), pen.Along(c, down, l))
	d.path.Polyline(pen.Along(pen.Along(c, down, l*0.5), side, l*0.35), pen.Along(c, down, l), pen.Along(pen.Along(c, down, l*0.5), side, -l*0.35))
	for _, k := range [...]float64{-0.9, -0.55, -0.2} {
		q := pen.Along(c, down, l*k)
		d.path.Line(q.X-side.X*l*0.3, q.Y-side.Y*l*0.3, q.X+side.X*l*0.3, q.Y+side.Y*l*0.3)
	}
	d.stroke(d.c.Ink, 2)
}

func (d *drawing) slopeText() edgeText {
	c := d.slopePlace()
	text := d.w.Label("draw-downhill", part.Number("slope", part.UnitAngle, d.s.Plan.Site.Ground.Slope.Or(0)))
	return edgeText{r2.Point{X: d.view.X0 + d.view.W - d.px(8), Y: c.Y + d.sy(24) + d.text.small*0.7}, text, pen.End}
}
