package sheet

import (
	"image/color"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sample draws one mark of the legend in a box.
type sample struct {
	word string
	draw func(p pen.Pen, x, y, w, h float64)
}

const (
	sampleW = 34.0
	sampleH = 6.8

	tightSample = 5.8 // where that spares a page
)

// legend says what the marks of the drawing mean.
func (m *maker) legend() error {
	c := draw.Palette(m.look())
	f, err := m.columns(Legend, m.kindName(Legend))
	if err != nil {
		return err
	}
	high := sampleH
	if m.tight {
		high = tightSample
	}
	for _, group := range []struct {
		title   string
		samples []sample
		notes   []string
	}{
		{"legend-lines", lineSamples(c), nil}, {"legend-zones", zoneSamples(c), words.ZoneNotes(m.w)}, {"legend-kinds", kindSamples(c), []string{m.label("legend-hatch")}}, {"legend-marks", markSamples(c, m.o.Colour, m.w.Load(41800), m.label("legend-blank", part.Text("unit", m.w.System().Force().String())), m.w.Label("role-letter-"+plan.RoleSpotter)), nil},
	} {
		if err := f.title(m.label(group.title)); err != nil {
			return err
		}
		for _, s := range group.samples {
			lines := wrap(m.label("legend-"+s.word), letters(textEm, false), f.w()-sampleW-5)
			lead := f.lead()
			h := max(high+lead-noteLead, float64(len(lines))*lead+1)
			if err := f.room(h); err != nil {
				return err
			}
			s.draw(&f.g.marks, f.x(), f.y, sampleW, high)
			y := f.y + max(0, (high-float64(len(lines))*lead)/2)
			for i, line := range lines {
				write(&f.g.marks, f.x()+sampleW+5, y+(float64(i)+0.5)*lead, line, letters(textEm, false))
			}
			f.y += h
		}
		for _, note := range group.notes {
			if err := f.para(note, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// cased draws a line with a core between ink edges.
func cased(p pen.Pen, x0, x1, y, w float64, core pen.Style) {
	rule(p, x0, y, x1, y, w)
	core.Width = w - 0.5
	var q pen.Path
	q.Line(x0, y, x1, y)
	p.Path(&q, &core)
}

func lineSamples(c draw.Colors) []sample {
	light := rgb(0xC8, 0xC8, 0xC8)
	return []sample{
		{"within", func(p pen.Pen, x, y, w, h float64) {
			cased(p, x, x+w, y+h/2, 1.6, pen.Style{Stroke: light})
		}},
		{"near", func(p pen.Pen, x, y, w, h float64) {
			cased(p, x, x+w, y+h/2, 1.6, pen.Style{Stroke: c.NearCore})
			for k := x + 2; k < x+w; k += 3 {
				rule(p, k, y+h/2-1.6, k, y+h/2+1.6, lineRule)
			}
		}},
		{"over", func(p pen.Pen, x, y, w, h float64) {
			ruled(p, x, y+h/2, x+w, y+h/2, 3.2, c.OverCore)
			for k := x + 2; k < x+w-2; k += 4 {
				var q pen.Path
				q.Polyline(r2.Point{X: k, Y: y + h/2 - 1}, r2.Point{X: k + 1.2, Y: y + h/2}, r2.Point{X: k, Y: y + h/2 + 1})
				p.Path(&q, &pen.Style{Stroke: c.OverMark, Width: 0.5})
			}
		}},
		{"no-rating", func(p pen.Pen, x, y, w, h float64) {
			rule(p, x, y+h/2-0.8, x+w, y+h/2-0.8, lineRule)
			rule(p, x, y+h/2+0.8, x+w, y+h/2+0.8, lineRule)
		}},
		{"refused", func(p pen.Pen, x, y, w, h float64) {
			rule(p, x, y+h/2, x+w*0.55, y+h/2, lineThick)
			for k := x + w*0.55; k < x+w; k += 4 {
				rule(p, k, y+h/2-1.3, k+2.6, y+h/2+1.3, lineRule)
				rule(p, k, y+h/2+1.3, k+2.6, y+h/2-1.3, lineRule)
			}
		}},
		{"slack", func(p pen.Pen, x, y, w, h float64) {
			var q pen.Path
			q.MoveTo(x, y+h/2)
			for k := 0.0; k < w-4; k += 4 {
				q.QuadTo(x+k+1, y+h/2-1.5, x+k+2, y+h/2)
				q.QuadTo(x+k+3, y+h/2+1.5, x+k+4, y+h/2)
			}
			p.Path(&q, &pen.Style{Stroke: grey, Width: 0.3, Dash: []float64{0.4, 0.8}})
		}},
	}
}

// zoneSamples are the two areas: the keep-out with ticks on its inner side, the
// stand-off with its dots.
func zoneSamples(c draw.Colors) []sample {
	return []sample{
		{"keep-out", func(p pen.Pen, x, y, w, h float64) {
			ruled(p, x, y+1.5, x+w, y+1.5, lineRule, c.ZoneRed)
			for k := x + 1.2; k < x+w; k += 2.4 {
				ruled(p, k, y+1.5, k, y+3.4, lineHair, c.ZoneRed)
			}
		}},
		{"stand-off", func(p pen.Pen, x, y, w, h float64) {
			var q pen.Path
			q.Line(x, y+1.5, x+w, y+1.5)
			p.Path(&q, &pen.Style{Stroke: c.ZoneOrange, Width: lineRule, Dash: []float64{3, 1, 0.5, 1}})
			dots := pen.Hatch{Colour: c.ZoneOrange, Spacing: 6, Width: 0.5, Dots: true, OriginX: x + 3, OriginY: y + 4}
			boxed(p, x, y+2, w, h-2, &pen.Style{Hatch: dots})
		}},
	}
}

// kindSamples are the kinds that make the keep-out, as they are drawn apart.
func kindSamples(c draw.Colors) []sample {
	zone := func(hatch pen.Hatch, dash []float64, width float64) func(pen.Pen, float64, float64, float64, float64) {
		return func(p pen.Pen, x, y, w, h float64) {
			hatch.OriginX, hatch.OriginY = x, y
			boxed(p, x, y+0.5, w, h-1, &pen.Style{Hatch: hatch, Stroke: c.ZoneRed, Width: width, Dash: dash})
		}
	}
	lines := func(angle, spacing float64) pen.Hatch {
		return pen.Hatch{Colour: c.ZoneRed, AngleDeg: angle, Spacing: spacing, Width: lineHair}
	}
	dots := pen.Hatch{Colour: c.ZoneRed, Spacing: 2.2, Width: 0.5, Dots: true}
	return []sample{
		{"bight", zone(lines(45, 2), nil, lineRule)},
		{"recoil", zone(lines(135, 4), []float64{4, 1.5}, lineRule)},
		{"release", func(p pen.Pen, x, y, w, h float64) {
			boxed(p, x, y+0.5, w, h-1, &pen.Style{Stroke: c.ZoneRed, Width: lineRule, Dash: []float64{0.5, 1}})
			for k := x + 4; k < x+w-2; k += 8 {
				ruled(p, k, y+h/2, k+4, y+h/2, lineRule, c.ZoneRed)
				ruled(p, k+2.8, y+h/2-0.9, k+4, y+h/2, lineRule, c.ZoneRed)
				ruled(p, k+2.8, y+h/2+0.9, k+4, y+h/2, lineRule, c.ZoneRed)
			}
		}},
		{"casualty", zone(lines(0, 2.4), []float64{4, 0.8, 1.5, 0.8}, lineRule)},
		{"tree", zone(dots, []float64{3, 1, 0.5, 1, 0.5, 1}, lineRule)},
	}
}

// personSample is a person, inside the zones or not, with the letter of the role.
func personSample(letter string, inside bool) func(pen.Pen, float64, float64, float64, float64) {
	return func(p pen.Pen, x, y, w, h float64) {
		cx := x + w*0.3
		if inside {
			cx = x + w*0.7
		}
		s := pen.Style{Stroke: ink, Width: lineRule, Fill: paper}
		t := letters(textEm, true)
		t.Anchor = pen.Middle
		if inside {
			s.Fill, t.Colour = ink, paper
		}
		var q pen.Path
		q.RoundRect(cx-4, y+h*0.42, 8, h*0.56, 2.4)
		p.Path(&q, &s)
		q.Reset()
		q.Circle(cx, y+h*0.26, 1.9)
		p.Path(&q, &s)
		write(p, cx, y+h*0.7, letter, t)
	}
}

// ruled is a rule in a colour.
func ruled(p pen.Pen, x0, y0, x1, y1, w float64, c color.NRGBA) {
	var q pen.Path
	q.Line(x0, y0, x1, y1)
	p.Path(&q, &pen.Style{Stroke: c, Width: w})
}

// markSamples take a figure, a blank and a person's letter as the drawing writes
// them.
func markSamples(c draw.Colors, coloured bool, figure, blank, letter string) []sample {
	triangle := func(fill bool) func(pen.Pen, float64, float64, float64, float64) {
		return func(p pen.Pen, x, y, w, h float64) {
			cx := x + w/2
			var q pen.Path
			q.Polygon(r2.Point{X: cx, Y: y + 0.5}, r2.Point{X: cx + 4.6, Y: y + h - 0.5}, r2.Point{X: cx - 4.6, Y: y + h - 0.5})
			s := pen.Style{Stroke: ink, Width: lineRule, Fill: c.Warning}
			t := letters(textEm, true)
			t.Anchor, t.Colour = pen.Middle, c.OnWarning
			if fill {
				s.Fill, t.Colour = c.Danger, c.OnDanger
			}
			p.Path(&q, &s)
			write(p, cx, y+h*0.66, "1", t)
		}
	}
	tag := func(kind string) func(pen.Pen, float64, float64, float64, float64) {
		return func(p pen.Pen, x, y, w, h float64) {
			s := pen.Style{Stroke: ink, Width: lineRule, Fill: paper}
			t := letters(textEm, true)
			t.Anchor = pen.Middle
			word := figure
			switch kind {
			case "over":
				s.Fill, t.Colour, word = ink, paper, "▲ "+word
			case "warned":
				s.Stroke, s.Width, word = c.ZoneOrange, lineFrame, "▲ "+word
			case "blank":
				word = blank
			}
			boxed(p, x+3, y+1, w-6, h-2, &s)
			if kind == "near" {
				boxed(p, x+3, y+1, 2, h-2, &pen.Style{Fill: ink})
			}
			write(p, x+w/2, y+h/2, word, t)
		}
	}
	suffix := ""
	if coloured {
		suffix = "-colour"
	}
	return []sample{
		{"danger" + suffix, triangle(true)}, {"warning" + suffix, triangle(false)},
		{"tag", tag("")}, {"tag-near", tag("near")}, {"tag-over", tag("over")}, {"tag-warned", tag("warned")}, {"tag-blank", tag("blank")},
		{"arrow", func(p pen.Pen, x, y, w, h float64) {
			rule(p, x+4, y+h/2, x+w-7, y+h/2, lineThick)
			var q pen.Path
			q.Polygon(r2.Point{X: x + w - 4, Y: y + h/2}, r2.Point{X: x + w - 8, Y: y + h/2 - 1.2}, r2.Point{X: x + w - 8, Y: y + h/2 + 1.2})
			p.Path(&q, &pen.Style{Fill: ink})
		}},
		{"person", func(p pen.Pen, x, y, w, h float64) {
			personSample(letter, false)(p, x, y, w, h)
			personSample(letter, true)(p, x, y, w, h)
		}},
	}
}
