package draw

import (
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Draw draws the whole scene.
func Draw(p pen.Pen, s *Scene) {
	DrawStatic(p, s)
	DrawMoving(p, s)
}

// DrawStatic draws what stays as it is while something is dragged: see the
// package comment.
func DrawStatic(p pen.Pen, s *Scene) {
	d := begin(p, s)
	if d == nil {
		return
	}
	v := &s.View
	d.path.Reset()
	d.path.Rect(v.X0, v.Y0, v.W, v.H)
	d.fill(d.c.Paper)
	if !v.valid() {
		return
	}
	pen.ClipRect(p, v.X0, v.Y0, v.W, v.H)
	defer p.PopClip()
	d.underlay()
	d.grid()
	d.obstacles(false)
	d.survey()
	d.anchors(false)
	d.vehicles(false)
	d.measures()
	d.notes()
	d.furniture()
}

// DrawMoving draws what changes while something is dragged, over the static
// layer.
func DrawMoving(p pen.Pen, s *Scene) {
	d := begin(p, s)
	if d == nil || !s.View.valid() {
		return
	}
	v := &s.View
	pen.ClipRect(p, v.X0, v.Y0, v.W, v.H)
	defer p.PopClip()
	d.lb = newCaptions(d)
	d.reserve()
	areas := d.zoneAreas()
	d.silently(func() { // what these draw, labels keep off; what they write are labels
		d.dampers()
		d.arrows()
		d.overlay()
	})
	d.collect()
	d.lb.lay()
	d.zones(areas)
	d.obstacles(true)
	d.anchors(true)
	d.vehicles(true)
	d.highlights()
	d.slings()
	d.lines()
	d.dampers()
	d.shackles()
	d.blocks()
	d.linePorts()
	d.strangers()
	d.people()
	d.arrows()
	d.overlay()
	d.lb.draw()
	d.overlayTop()
}

// silently does what is drawn twice for the first time, without drawing.
func (d *drawing) silently(f func()) {
	on := d.pen
	d.pen = mute{}
	f()
	d.pen = on
}

// drawing is one layer of one picture being drawn.
type drawing struct {
	pen   pen.Pen
	s     *Scene
	c     Colors
	u     float64 // pen units per logical pixel
	bold  float64 // factor of strokes
	sym   float64 // factor of symbols
	text  textSizes
	w     *words.Words
	names words.Names
	ix    *plan.Index
	rig   *plan.Rig // never nil; empty where no rig is shown
	a     *solver.Assessment
	o     *Overlay // never nil
	path  pen.Path
	lb    *captions

	stretches []drawnStretch
	tips      []forceArrow // resultants, whose tags stand at their tips
	zoneTexts []zoneWord
}

// textSizes are the three sizes of text: what counts, names, and the rest, in
// pen units.
type textSizes struct{ big, mid, small float64 }

// Text at arm's length, and larger in the field, px. (board.md)
var (
	deskText  = textSizes{13, 12, 11}
	fieldText = textSizes{20, 17, 15}
)

// Strokes and symbols in the field, times their desk size. (board.md; ours)
const (
	fieldStroke = 1.5
	fieldSymbol = 1.4
)

func (v *View) valid() bool {
	for _, x := range [...]float64{v.Middle.X, v.Middle.Y, v.PerM, v.W, v.H, v.X0, v.Y0, v.UnitsPerPx} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return v.PerM > 0 && v.W > 0 && v.H > 0
}

func begin(p pen.Pen, s *Scene) *drawing {
	if s == nil || p == nil {
		return nil
	}
	d := &drawing{pen: p, s: s, c: Palette(s.Look), u: s.View.UnitsPerPx, bold: 1, sym: 1, w: s.Words, o: s.Overlay, a: s.Answer}
	if !(d.u > 0) {
		d.u = 1
	}
	if d.w == nil {
		d.w = &words.Words{}
	}
	if d.o == nil {
		d.o = &Overlay{}
	}
	sizes, scale := deskText, s.Look.TextScale
	if !(scale > 0) {
		scale = 1
	}
	if s.Look.Field {
		sizes, d.bold, d.sym = fieldText, fieldStroke, fieldSymbol
	}
	k := scale * d.u
	d.text = textSizes{sizes.big * k, sizes.mid * k, sizes.small * k}
	if s.Plan == nil {
		s2 := *s
		s2.Plan = &plan.Plan{}
		d.s = &s2
	}
	d.rig = &plan.Rig{}
	if r, ok := d.s.Plan.Rig(s.Rig); ok {
		d.rig = r
	}
	d.ix = plan.NewIndex(d.s.Plan, d.rig)
	d.names = d.w.Names(d.s.Plan, s.Rig)
	return d
}

// px is n logical pixels in pen units.
func (d *drawing) px(n float64) float64 { return n * d.u }

// lw is a stroke of n logical pixels.
func (d *drawing) lw(n float64) float64 { return n * d.u * d.bold }

// sy is a symbol's size of n logical pixels.
func (d *drawing) sy(n float64) float64 { return n * d.u * d.sym }

// m is a length of the plan in pen units.
func (d *drawing) m(lengthM float64) float64 { return lengthM * d.s.View.PerM }

// atLeast is a true size, or the least symbol where that is larger.
func (d *drawing) atLeast(lengthM, symbolPx float64) float64 {
	return math.Max(d.m(lengthM), d.sy(symbolPx))
}

func (d *drawing) at(p plan.Point) r2.Point {
	x, y := d.s.View.ToPen(p)
	return r2.Point{X: x, Y: y}
}

func (d *drawing) atVec(v part.Vec) r2.Point { return d.at(plan.Point{X: v[0], Y: v[1]}) }

// inView tells that a point is in the picture, or no more than the margin
// outside.
func (d *drawing) inView(p r2.Point, margin float64) bool {
	v := &d.s.View
	return p.X >= v.X0-margin && p.X <= v.X0+v.W+margin && p.Y >= v.Y0-margin && p.Y <= v.Y0+v.H+margin
}

func (d *drawing) fill(c color.NRGBA) { d.pen.Path(&d.path, &pen.Style{Fill: c}) }

func (d *drawing) stroke(c color.NRGBA, widthPx float64, dashPx ...float64) {
	d.pen.Path(&d.path, d.strokeStyle(c, widthPx, dashPx...))
}

func (d *drawing) strokeStyle(c color.NRGBA, widthPx float64, dashPx ...float64) *pen.Style {
	s := &pen.Style{Stroke: c, Width: d.lw(widthPx), Join: pen.RoundJoin}
	for _, x := range dashPx {
		s.Dash = append(s.Dash, d.lw(x))
	}
	return s
}

func (d *drawing) fillStroke(f, c color.NRGBA, widthPx float64, dashPx ...float64) {
	s := d.strokeStyle(c, widthPx, dashPx...)
	s.Fill = f
	d.pen.Path(&d.path, s)
}

// write writes a line of text centred on y, with a halo of paper.
func (d *drawing) write(x, y float64, text string, size float64, bold bool, c color.NRGBA, a pen.Anchor) {
	t := pen.TextStyle{Size: size, Bold: bold, Colour: c, Anchor: a, Halo: d.c.Paper, HaloWidth: d.px(2)}
	d.pen.Text(x, y+pen.CapHeight(&t)/2, text, &t)
}

// dragged tells that a thing is on the moving layer.
func (d *drawing) dragged(id plan.ID) bool { return slices.Contains(d.o.Dragged, id) }

// shown tells that a thing is drawn: not hidden, and its step has come.
func (d *drawing) shown(h *plan.Head) bool {
	return !h.Hidden && (d.s.Show.UpToStep == 0 || h.Step <= d.s.Show.UpToStep)
}

// emphasised tells that a thing is of the step that is to be seen first.
func (d *drawing) emphasised(h *plan.Head) bool {
	return d.s.Show.Emphasis > 0 && h.Step == d.s.Show.Emphasis
}

func (d *drawing) name(id plan.ID) string {
	if d.names != nil {
		if n := d.names(id); n != "" {
			return n
		}
	}
	return string(id)
}

// part is the part id of the answer, nil if there is none.
func (d *drawing) part(id string) *part.Part {
	if d.a == nil {
		return nil
	}
	p, ok := d.a.Part(id)
	if !ok {
		return nil
	}
	return p
}
