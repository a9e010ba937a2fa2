package sheet

import (
	"bytes"
	"fmt"
	"math"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Excerpt is a piece of the board's drawing as a picture by itself, for a slide
// or a message: over it the verdict on the whole rig, under it what it was
// planned on, the basis and the caution. Whoever sees it alone sees these too.
type Excerpt struct {
	Plan   *plan.Plan
	Rig    plan.ID
	Answer *solver.Assessment // of that rig
	Words  *words.Words
	View   draw.View // what is to be seen, in logical pixels of 1/96 inch
	Look   draw.Look
	Show   draw.Show
	AtM    float64 // moment of the pull that Plan is drawn at, metres along the way out; 0: as it stands

	film *frame // nil: a picture by itself
}

// Round a piece: room for labels, the least size a sentence can be read in, and
// the largest that is still a picture of a board; logical pixels. (ours)
const (
	excerptRoomPx  = 56
	excerptLeastPx = 360
	excerptMostPx  = 4000
)

// ExcerptDPI is the resolution of an excerpt as PNG: two pixels for each of the
// screen, so that it stays sharp when it is enlarged. (ours)
const ExcerptDPI = 192

// pxInMM is a logical pixel: 96 to the inch.
const pxInMM = 25.4 / 96

// Excerpt texts, mm: as small as the board's own.
const (
	excerptEm   = 12 * pxInMM
	excerptLead = 16 * pxInMM
	excerptPad  = 8 * pxInMM
)

// Round is the excerpt's view moved and sized to what lies round some things of
// the plan, at the same scale; false if none of them is drawn. A piece larger
// than a picture can be is drawn smaller.
func (x Excerpt) Round(things []plan.ID) (Excerpt, bool) {
	box := draw.BoundsOf(x.Plan, x.Answer, things)
	if box.IsEmpty() {
		return x, false
	}
	v := &x.View
	v.Middle = plan.Point(box.Center())
	largest := math.Max(box.X.Length(), box.Y.Length()) * v.PerM
	if most := excerptMostPx - 2*excerptRoomPx; largest > float64(most) {
		v.PerM *= float64(most) / largest
	}
	v.W = math.Ceil(math.Max(box.X.Length()*v.PerM+2*excerptRoomPx, excerptLeastPx))
	v.H = math.Ceil(math.Max(box.Y.Length()*v.PerM+2*excerptRoomPx, excerptLeastPx/2))
	return x, true
}

// laid is an excerpt with the lines of its texts.
type laid struct {
	head, foot  []string
	w, h, topMM float64
	drawn       float64 // height of the drawing, mm
	under       float64 // height of what stands between drawing and foot, mm
}

func (x *Excerpt) lay() laid {
	l := laid{w: x.View.W * pxInMM, drawn: x.View.H * pxInMM}
	names := x.Words.Naming(x.Answer, x.Words.Names(x.Plan, x.Rig))
	room := l.w - 2*excerptPad
	l.head = wrap(x.Words.VerdictLine(x.Answer, names), letters(excerptEm, true), room)
	if x.AtM > 0 {
		l.head = append(l.head, wrap(x.Words.Label("excerpt-at", part.Length("at", x.AtM)), letters(excerptEm, true), room)...)
	}
	m := maker{w: x.Words, p: x.Plan, rig: x.Rig, a: x.Answer, r: &plan.Rig{}}
	if r, ok := x.Plan.Rig(x.Rig); ok {
		m.r = r
	}
	foot := m.planned() + " · " + m.basis() + " · " + m.cautions()
	if x.film != nil {
		m.whole = x.film.pull
		foot, l.under = m.covers(Pull)+" "+foot, filmUnder
	}
	l.foot = wrap(foot, letters(excerptEm, false), room)
	l.topMM = float64(len(l.head))*excerptLead + excerptPad
	l.h = l.topMM + l.drawn + l.under + float64(len(l.foot))*excerptLead + excerptPad
	return l
}

func (x *Excerpt) draw(p pen.Pen, l laid) {
	c := draw.Palette(x.Look)
	boxed(p, 0, 0, l.w, l.h, &pen.Style{Fill: c.Paper})
	pen.ClipRect(p, 0, l.topMM, l.w, l.drawn)
	s := draw.Scene{Plan: x.Plan, Rig: x.Rig, Answer: x.Answer, Words: x.Words, View: x.View, Look: x.Look, Show: x.Show}
	s.Look.Alone = true
	if x.film != nil {
		s.Plan, s.Answer, s.Labels = x.film.plan, x.film.answer, x.film.labels
	}
	draw.Draw(pen.At(p, pxInMM, 0, l.topMM), &s)
	p.PopClip()
	if x.film != nil {
		x.film.under(p, x, l, c)
	}
	texts := func(lines []string, y float64, bold bool) {
		t := letters(excerptEm, bold)
		t.Colour = c.Ink
		for i, s := range lines {
			write(p, excerptPad, y+(float64(i)+0.5)*excerptLead, s, t)
		}
	}
	texts(l.head, excerptPad/2, true)
	texts(l.foot, l.topMM+l.drawn+l.under+excerptPad/2, false)
	for _, y := range [...]float64{l.topMM, l.topMM + l.drawn} {
		var q pen.Path
		q.Line(0, y, l.w, y)
		p.Path(&q, &pen.Style{Stroke: c.Ink, Width: lineHair})
	}
}

// PNG is the excerpt as a picture of pixels.
func (x Excerpt) PNG() ([]byte, error) {
	img, err := x.pixels(ExcerptDPI)
	if err != nil {
		return nil, err
	}
	var file bytes.Buffer
	if err := pen.WritePNG(&file, img, ExcerptDPI); err != nil {
		return nil, fmt.Errorf("sheet: %w", err)
	}
	return file.Bytes(), nil
}

// SVG is the excerpt as a picture of lines; text stays text, or becomes
// outlines.
func (x Excerpt) SVG(outlines bool) ([]byte, error) {
	l := x.lay()
	s := pen.NewSVG(l.w, l.h)
	s.TextAsOutlines, s.Title = outlines, x.Plan.Title
	x.draw(s, l)
	var file bytes.Buffer
	if _, err := s.WriteTo(&file); err != nil {
		return nil, fmt.Errorf("sheet: picture: %w", err)
	}
	return file.Bytes(), nil
}
