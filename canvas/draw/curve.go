package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/travel"
)

// Curve is a whole pull over its travel: the worst used share of its parts over the
// travel, the line at 100 %, what happens, the worst moment and the one shown.
type Curve struct {
	Pull   *travel.Answer
	Words  *words.Words
	Names  words.Names
	ShownM float64  // moment that the picture shows; negative: none is marked
	Parts  []string // ids of parts whose own curves are drawn besides
	Note   string   // at its head
	Text   float64  // size of its texts, pen units
	Ink    color.NRGBA
	Quiet  color.NRGBA
	Paper  color.NRGBA
}

// CurvePlot says where the travel lies in a curve that was drawn, and the flag of the
// worst moment over it.
type CurvePlot struct {
	X0, X1 float64 // pen units, of travel 0 and LongM
	Top    float64 // of the curve's own room
	LongM  float64
	WorstM float64
	Worst  r2.Rect // of the flag's text; empty: nothing is known
}

// X is the place of a travel along the curve.
func (s CurvePlot) X(m float64) float64 {
	if !(s.LongM > 0) {
		return s.X0
	}
	return s.X0 + m/s.LongM*(s.X1-s.X0)
}

// roomRight is what a curve leaves free on its right for the length of the pull, of the
// size of its texts; leastNote the room under which a note is left out. (ours)
const (
	roomRight = 4.4
	leastNote = 10
)

// mostShare is the highest share that a curve has room for: what is beyond leaves
// it at the top. (ours: nobody tells 300 from 400 % on a curve)
const mostShare = 2

// worstShare is the worst share of a moment of those up to most; 0: none is known.
func worstShare(parts []part.Part, most float64) (share float64) {
	for i := range parts {
		p := &parts[i]
		if u := p.Most(); p.Known() && p.Kind != part.KindFairlead && u <= most {
			share = max(share, u)
		}
	}
	return share
}

// DrawCurve draws a curve into a box and says where the travel lies in it.
func DrawCurve(to pen.Pen, box r2.Rect, s *Curve) CurvePlot {
	t := pen.TextStyle{Size: s.Text, Colour: s.Quiet}
	lineHigh := s.Text * 1.4
	plot := CurvePlot{X0: box.X.Lo + 4.2*s.Text, X1: box.X.Hi - roomRight*s.Text, Top: box.Y.Lo + lineHigh*1.25, LongM: s.Pull.LongM, Worst: r2.EmptyRect()}
	top, foot := plot.Top, box.Y.Hi-lineHigh*1.25
	high := 1.1
	for i := range s.Pull.Moments {
		high = max(high, worstShare(s.Pull.Moments[i].Parts, math.Inf(1))*1.05)
	}
	high = min(high, mostShare)
	y := func(share float64) float64 { return foot - min(share, high)/high*(foot-top) }
	var p pen.Path
	p.Line(plot.X0, foot, plot.X1, foot)
	to.Path(&p, &pen.Style{Stroke: s.Quiet, Width: s.Text * 0.08})
	p.Reset()
	p.Line(plot.X0, y(1), plot.X1, y(1))
	to.Path(&p, &pen.Style{Stroke: s.Ink, Width: s.Text * 0.1, Dash: []float64{s.Text * 0.6, s.Text * 0.4}})
	label := func(x, at float64, text string, style pen.TextStyle) { to.Text(x, at+0.36*style.Size, text, &style) }
	right := t
	right.Anchor = pen.End
	label(plot.X0-0.5*s.Text, y(1), s.Words.Share(1), right)
	length := func(m float64) string {
		return s.Words.Value(part.Value{Unit: part.UnitLength, X: m}, nil)
	}
	label(plot.X0-0.8*s.Text, foot, length(0), right)
	label(plot.X1+0.4*s.Text, foot, length(s.Pull.LongM), t)
	s.curves(to, plot, y)
	s.happenings(to, plot, top, foot)
	s.notFollowed(to, plot, top, foot)
	s.flag(to, &plot, y)
	s.note(to, &plot)
	s.handle(to, plot, foot)
	return plot
}

// curves are the curve of the worst share and those of single parts.
func (s *Curve) curves(to pen.Pen, plot CurvePlot, y func(float64) float64) {
	var p pen.Path
	draw := func(share func([]part.Part) (float64, bool), style pen.Style) {
		p.Reset()
		down := false
		for i := range s.Pull.Moments {
			m := &s.Pull.Moments[i]
			u, ok := share(m.Parts)
			switch {
			case !ok:
				down = false
				continue
			case down:
				p.LineTo(plot.X(m.AtM), y(u))
			default:
				p.MoveTo(plot.X(m.AtM), y(u))
			}
			down = true
		}
		to.Path(&p, &style)
	}
	for _, id := range s.Parts {
		draw(func(parts []part.Part) (float64, bool) {
			for i := range parts {
				if parts[i].ID == id && parts[i].Known() {
					return parts[i].Most(), true
				}
			}
			return 0, false
		}, pen.Style{Stroke: s.Ink, Width: s.Text * 0.1, Dash: []float64{s.Text * 0.25, s.Text * 0.25}, Join: pen.RoundJoin})
	}
	for _, most := range [...]float64{math.Inf(1), mostShare} { // what is beyond the top hides no other
		draw(func(parts []part.Part) (float64, bool) {
			u := worstShare(parts, most)
			return u, u > 0
		}, pen.Style{Stroke: s.Ink, Width: s.Text * 0.16, Join: pen.RoundJoin})
	}
}

// happenings are ticks with words, as far as these do not lie over one another.
func (s *Curve) happenings(to pen.Pen, plot CurvePlot, top, foot float64) {
	t := pen.TextStyle{Size: s.Text, Colour: s.Quiet}
	var p pen.Path
	free := math.Inf(-1)
	for i := range s.Pull.Events {
		e := &s.Pull.Events[i]
		if e.Start {
			continue
		}
		x := plot.X(e.AtM)
		p.Reset()
		p.Line(x, top, x, foot+0.35*s.Text)
		to.Path(&p, &pen.Style{Stroke: s.Quiet, Width: s.Text * 0.07})
		text := pen.Fitted(s.Words.Happening(e, s.Names), &t, plot.X1-plot.X0)
		w, _, _ := pen.Measure(text, &t)
		at := x
		if at+w > plot.X1 {
			at = plot.X1 - w
		}
		if at < free {
			continue
		}
		free = at + w + s.Text
		to.Text(at, foot+1.15*s.Text, text, &t)
	}
}

// notFollowed hatches the way that the pull was not followed over.
func (s *Curve) notFollowed(to pen.Pen, plot CurvePlot, top, foot float64) {
	from := plot.X(s.Pull.EndM)
	if s.Pull.EndM >= s.Pull.LongM || from >= plot.X1 {
		return
	}
	var p pen.Path
	pen.ClipRect(to, from, top, plot.X1-from, foot-top)
	for x := from - (foot - top); x < plot.X1; x += 0.9 * s.Text {
		p.Line(x, foot, x+foot-top, top)
	}
	to.Path(&p, &pen.Style{Stroke: s.Quiet, Width: s.Text * 0.06})
	to.PopClip()
	t := pen.TextStyle{Size: s.Text, Colour: s.Ink, Halo: s.Paper, HaloWidth: s.Text * 0.4}
	text := s.Words.Label("not-computed")
	w, _, _ := pen.Measure(text, &t)
	to.Text(max(plot.X0, min(from+0.4*s.Text, plot.X1+roomRight*s.Text-w)), (top+foot)/2, text, &t)
}

// flag marks the worst moment.
func (s *Curve) flag(to pen.Pen, plot *CurvePlot, y func(float64) float64) {
	most := 0.0
	for i := range s.Pull.Moments {
		if u := worstShare(s.Pull.Moments[i].Parts, math.Inf(1)); u > most {
			plot.WorstM, most = s.Pull.Moments[i].AtM, u
		}
	}
	if !(most > 0) {
		return
	}
	t := pen.TextStyle{Size: s.Text, Colour: s.Ink, Bold: true}
	x := plot.X(plot.WorstM)
	var p pen.Path
	p.Line(x, y(most), x, plot.Top-0.9*s.Text)
	to.Path(&p, &pen.Style{Stroke: s.Ink, Width: s.Text * 0.12})
	text := s.Words.Label("strip-worst", part.Length("at", plot.WorstM), part.Number("used", part.UnitShare, most))
	w, _, _ := pen.Measure(text, &t)
	left := max(plot.X0, min(x+0.3*s.Text, plot.X1-w))
	plot.Worst = r2.RectFromPoints(r2.Point{X: min(x, left), Y: plot.Top - 1.4*s.Text}, r2.Point{X: left + w, Y: plot.Top})
	to.Text(left, plot.Top-0.35*s.Text, text, &t)
}

// note writes the note at the head, on the side where the flag leaves it more room.
func (s *Curve) note(to pen.Pen, plot *CurvePlot) {
	t := pen.TextStyle{Size: s.Text, Colour: s.Quiet}
	x, room := plot.X0, plot.X1-plot.X0
	if f := plot.Worst; !f.IsEmpty() {
		room = f.X.Lo - s.Text - plot.X0
		if right := plot.X1 - f.X.Hi - s.Text; right > room {
			x, room, t.Anchor = plot.X1, right, pen.End
		}
	}
	if room >= leastNote*s.Text {
		to.Text(x, plot.Top-0.35*s.Text, pen.Fitted(s.Note, &t, room), &t)
	}
}

// handle marks the moment shown.
func (s *Curve) handle(to pen.Pen, plot CurvePlot, foot float64) {
	if s.ShownM < 0 {
		return
	}
	x := plot.X(s.ShownM)
	var p pen.Path
	p.Line(x, plot.Top-0.2*s.Text, x, foot)
	to.Path(&p, &pen.Style{Stroke: s.Ink, Width: s.Text * 0.14})
	p.Reset()
	p.Circle(x, foot, 0.55*s.Text)
	to.Path(&p, &pen.Style{Fill: s.Paper, Stroke: s.Ink, Width: s.Text * 0.16})
}
