package draw

import (
	"math"
	"slices"

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
	d.labels = newCaptions(d)
	d.marks = d.pinMarks()
	d.reserve()
	areas := d.zoneAreas()
	d.silently(func() { // what these draw, labels keep off; what they write are labels
		d.dampers()
		d.arrows()
		d.overlay()
	})
	d.collect()
	d.labels.lay()
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
	d.unknownThings()
	d.people()
	d.arrows()
	d.pins()
	d.overlay()
	d.labels.draw()
	d.overlayTop()
}

// silently does what is drawn twice for the first time, without drawing.
func (d *brush) silently(f func()) {
	on := d.pen
	d.pen = mute{}
	f()
	d.pen = on
}

// drawing is one layer of one picture being drawn.
type drawing struct {
	brush
	s      *Scene
	w      *words.Words
	names  words.Names
	ix     *plan.Index
	rig    *plan.Rig // never nil; empty where no rig is shown
	a      *solver.Assessment
	o      *Overlay // never nil
	labels *captions
	photo  *pen.Path // outline of the picture to trace; nil: none is drawn

	stretches []drawnStretch
	tips      []forceArrow // resultants, whose tags stand at their tips
	zoneTexts []zoneWord
	marks     []PinMark
}

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
	d := &drawing{brush: brush{pen: p, view: s.View, look: s.Look, c: Palette(s.Look), u: s.View.UnitsPerPx, bold: 1, sym: 1}, s: s, w: s.Words, o: s.Overlay, a: s.Answer}
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

// dragged reports whether a thing is on the moving layer.
func (d *drawing) dragged(id plan.ID) bool { return slices.Contains(d.o.Dragged, id) }

// shown reports whether a thing is drawn: not hidden, and its step has come.
func (d *drawing) shown(h *plan.Head) bool {
	return !h.Hidden && (d.s.Show.UpToStep == 0 || h.Step <= d.s.Show.UpToStep)
}

// emphasised reports whether a thing is of the step that is to be seen first.
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
