package panel

import (
	"image/color"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/part"
)

// Hit is a rectangle of a panel that can be pressed or pointed at.
type Hit struct {
	ID             string // stable between drawings
	X0, Y0, X1, Y1 float64
	Press          func() // nil: only pointed at
	Second         func() // the other button, or "?"; may be nil
	Over           func(in bool)
	Why            string // why it cannot be pressed, shown in the status line
	Idle           bool   // passed over by the keyboard
}

func (h *Hit) has(x, y float64) bool { return h.X0 <= x && x < h.X1 && h.Y0 <= y && y < h.Y1 }

// Drawing draws a panel: a pen, colours, text sizes, and the list of hits that
// grows with it. Lengths are logical pixels.
type Drawing struct {
	Pen          pen.Pen
	Shades       Shades
	Scale        float64 // scale of text and what goes with it
	W, H         float64 // of the panel; H 0: as high as it gets
	Y            float64 // below what has been drawn
	Hover, Focus string
	hits         []Hit
	Path         pen.Path
}

// Text sizes at desk, px: what counts, names, the rest. (ours)
const (
	bigPx   = 13
	midPx   = 12
	smallPx = 11
)

// Big is the type of what counts.
func (d *Drawing) Big() pen.TextStyle { return d.sized(bigPx, d.Shades.Ink) }

// Mid is the type of names and values.
func (d *Drawing) Mid() pen.TextStyle { return d.sized(midPx, d.Shades.Ink) }

// Small is the type of the rest.
func (d *Drawing) Small() pen.TextStyle { return d.sized(smallPx, d.Shades.Quiet) }

func (d *Drawing) sized(px float64, c color.NRGBA) pen.TextStyle {
	return pen.TextStyle{Size: d.Px(px), Colour: c}
}

// Bold is t in bold.
func Bold(t pen.TextStyle) pen.TextStyle { t.Bold = true; return t }

// Coloured is t in another colour.
func Coloured(t pen.TextStyle, c color.NRGBA) pen.TextStyle { t.Colour = c; return t }

// Px is n pixels of desk size.
func (d *Drawing) Px(n float64) float64 { return n * d.Scale }

// Width is how wide a text is.
func Width(s string, t pen.TextStyle) float64 {
	w, _, _ := pen.Measure(s, &t)
	return w
}

// LineHigh is the height of a line of text.
func LineHigh(t pen.TextStyle) float64 { return t.Size * 1.36 }

// Text writes s with the middle of its letters at y; it is cut with … to
// room, if that is positive.
func (d *Drawing) Text(x, y float64, s string, t pen.TextStyle, room float64) {
	if room > 0 {
		s = Cut(s, t, room)
	}
	d.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// Right writes s ending at x.
func (d *Drawing) Right(x, y float64, s string, t pen.TextStyle) {
	t.Anchor = pen.End
	d.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// Middle writes s about x.
func (d *Drawing) Middle(x, y float64, s string, t pen.TextStyle) {
	t.Anchor = pen.Middle
	d.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// Cut is s, or as much of it as fits into room with … behind.
func Cut(s string, t pen.TextStyle, room float64) string { return pen.Fitted(s, &t, room) }

// Wrap breaks s into lines that fit into room, between words.
func Wrap(s string, t pen.TextStyle, room float64) []string {
	var out []string
	for para := range strings.SplitSeq(s, "\n") {
		now := ""
		for _, word := range strings.FieldsFunc(para, breaks) {
			next := word
			if now != "" {
				next = now + " " + word
			}
			if now != "" && Width(next, t) > room {
				out = append(out, now)
				next = word
			}
			for r := []rune(next); Width(next, t) > room && len(r) > 1; r = []rune(next) {
				n := len(r) - 1
				for n > 1 && Width(string(r[:n]), t) > room {
					n--
				}
				out, next = append(out, string(r[:n])), string(r[n:])
			}
			now = next
		}
		out = append(out, now)
	}
	return out
}

// breaks tells where a line may be broken: not between a figure and its unit.
func breaks(r rune) bool { return r == ' ' || r == '\t' }

// Para writes s wrapped, from y down, and returns where it ends.
func (d *Drawing) Para(x, y, room float64, s string, t pen.TextStyle) float64 {
	for _, l := range Wrap(s, t, room) {
		d.Text(x, y+LineHigh(t)/2, l, t, 0)
		y += LineHigh(t)
	}
	return y
}

// Box is a filled rectangle with rounded corners and an edge; a colour of
// alpha 0 is none.
func (d *Drawing) Box(x, y, w, h, r float64, fill, edge color.NRGBA, edgePx float64) {
	d.Path.Reset()
	d.Path.RoundRect(x, y, w, h, r)
	d.Pen.Path(&d.Path, &pen.Style{Fill: fill, Stroke: edge, Width: edgePx})
}

// Fill is a filled rectangle.
func (d *Drawing) Fill(x, y, w, h float64, c color.NRGBA) {
	d.Path.Reset()
	d.Path.Rect(x, y, w, h)
	d.Pen.Path(&d.Path, &pen.Style{Fill: c})
}

// Stroke is a straight line.
func (d *Drawing) Stroke(x0, y0, x1, y1, widthPx float64, c color.NRGBA, dash ...float64) {
	d.Path.Reset()
	d.Path.Line(x0, y0, x1, y1)
	d.Pen.Path(&d.Path, &pen.Style{Stroke: c, Width: widthPx, Dash: dash})
}

// Triangle points up, its box's middle at x, y.
func (d *Drawing) Triangle(x, y, size float64, fill, edge color.NRGBA) {
	d.Path.Reset()
	d.Path.Polygon(r2.Point{X: x, Y: y - size*0.5}, r2.Point{X: x + size*0.55, Y: y + size*0.45}, r2.Point{X: x - size*0.55, Y: y + size*0.45})
	d.Pen.Path(&d.Path, &pen.Style{Fill: fill, Stroke: edge, Width: 1, Join: pen.RoundJoin})
}

// Badge is the signal word of a level on its colour, a triangle before it but
// for the lowest. It returns its width.
func (d *Drawing) Badge(x, y float64, l part.Level, word string, widthPx float64) float64 {
	fill, on := d.Shades.Level(l)
	t := Bold(Coloured(d.Small(), on))
	h := LineHigh(t) + d.Px(4)
	w := Width(word, t) + d.Px(30)
	if widthPx > w {
		w = widthPx
	}
	d.Box(x, y-h/2, w, h, 2, fill, color.NRGBA{}, 0)
	if l > part.Notice {
		d.Triangle(x+d.Px(12), y, d.Px(10), on, color.NRGBA{})
		d.Text(x+d.Px(22), y, word, t, 0)
	} else {
		d.Middle(x+w/2, y, word, t)
	}
	return w
}

// Hit adds a rectangle that can be pressed, and draws the ring of the focus
// round it.
func (d *Drawing) Hit(h Hit) {
	d.hits = append(d.hits, h)
	if h.ID != "" && h.ID == d.Focus {
		d.Box(h.X0+1, h.Y0+1, h.X1-h.X0-2, h.Y1-h.Y0-2, 3, color.NRGBA{}, d.Shades.Pick, 2)
	}
}

// Button is a box with a word in it. It returns its width. why: it cannot be
// pressed, and says so.
func (d *Drawing) Button(x, y float64, id, word string, on bool, press func(), why string) float64 {
	t := Bold(d.Small())
	h, w := d.ButtonHigh(), d.ButtonWide(word)
	fill, edge := d.Shades.Card, d.Shades.Edge
	t.Colour = d.Shades.Ink
	switch {
	case why != "":
		t.Colour = d.Shades.Quiet
		fill = d.Shades.Panel
	case on:
		fill, t.Colour, edge = d.Shades.Ink, d.Shades.Paper, d.Shades.Ink
	case d.Hover == id:
		fill = d.Shades.Hover
	}
	d.Box(x, y, w, h, 3, fill, edge, 1)
	d.Middle(x+w/2, y+h/2, word, t)
	d.Hit(Hit{ID: id, X0: x, Y0: y, X1: x + w, Y1: y + h, Press: press, Why: why})
	return w
}

// ButtonHigh is the height of a button.
func (d *Drawing) ButtonHigh() float64 { return LineHigh(d.Small()) + d.Px(8) }

// Title is the head of a panel with a remark at the right.
func (d *Drawing) Title(name, remark string) {
	t := Bold(d.Big())
	d.Text(d.Px(14), d.Y+d.Px(14), name, t, d.W-d.Px(28))
	if remark != "" {
		d.Right(d.W-d.Px(14), d.Y+d.Px(14), remark, d.Small())
	}
	d.Y += d.Px(30)
}

// leastSentencePx is the size below which a sentence is not made smaller. (ours)
const leastSentencePx = 9

// Sentence writes what must not be cut: smaller, then on as many lines as there
// is height for.
func (d *Drawing) Sentence(x, y, room float64, said string) {
	t := Bold(d.Big())
	for _, px := range [...]float64{bigPx, midPx, smallPx} {
		t.Size = d.Px(px)
		if Width(said, t) <= room {
			d.Text(x, y, said, t, 0)
			return
		}
	}
	for ; ; t.Size = max(t.Size-1, leastSentencePx) {
		lines, step := Wrap(said, t, room), t.Size*1.24
		most := max(2, int((d.H-d.Px(4))/step))
		if t.Size > leastSentencePx && len(lines) > most {
			continue
		}
		if len(lines) > most {
			lines = append(lines[:most-1:most-1], strings.Join(lines[most-1:], " "))
		}
		for i, l := range lines {
			d.Text(x, y+(float64(i)-float64(len(lines)-1)/2)*step, l, t, room)
		}
		return
	}
}

// Chip is a hatched mark ending at x. It returns its width.
func (d *Drawing) Chip(x, y float64, s string) float64 {
	t := Bold(Coloured(d.Small(), d.Shades.Ink))
	w, h := Width(s, t)+d.Px(22), LineHigh(t)+d.Px(6)
	d.Path.Reset()
	d.Path.RoundRect(x-w, y-h/2, w, h, 2)
	d.Pen.Path(&d.Path, &pen.Style{Fill: d.Shades.Card, Stroke: d.Shades.Ink, Width: 1,
		Hatch: pen.Hatch{Colour: d.Shades.Quiet, AngleDeg: 45, Spacing: 5, Width: 1}})
	d.Fill(x-w+d.Px(7), y-h/2+1.5, w-d.Px(14), h-3, d.Shades.Card)
	d.Middle(x-w/2, y, s, t)
	return w
}

// Tick is a box that is ticked or not.
func (d *Drawing) Tick(x, y float64, on bool) {
	r := d.Px(7)
	d.Box(x-r, y-r, 2*r, 2*r, 2, d.Shades.Card, d.Shades.Ink, 1.2)
	if on {
		d.Path.Reset()
		d.Path.Polyline(r2.Point{X: x - r*0.55, Y: y}, r2.Point{X: x - r*0.1, Y: y + r*0.5}, r2.Point{X: x + r*0.6, Y: y - r*0.55})
		d.Pen.Path(&d.Path, &pen.Style{Stroke: d.Shades.Ink, Width: 2.2})
	}
}

// Removable is a line of a list with a cross that takes it away.
func (d *Drawing) Removable(name, id string, remove func()) {
	h := d.Px(24)
	d.Text(d.Px(22), d.Y+h/2, name, d.Mid(), d.W-d.Px(60))
	x := d.W - d.Px(26)
	if d.Hover == id {
		d.Box(x-d.Px(10), d.Y+2, d.Px(20), h-4, 3, d.Shades.Hover, color.NRGBA{}, 0)
	}
	d.Middle(x, d.Y+h/2, "✕", d.Mid())
	d.Hit(Hit{ID: id, X0: x - d.Px(12), Y0: d.Y, X1: x + d.Px(12), Y1: d.Y + h, Press: remove})
	d.Y += h
}

// Choices draws buttons beside one another, on more lines where they do not fit.
func (d *Drawing) Choices(fill func(put func(id, word string, on bool, press func()))) {
	x := d.Px(14)
	fill(func(id, word string, on bool, press func()) {
		if wide := d.ButtonWide(word); x > d.Px(14) && x+wide > d.W-d.Px(14) {
			x, d.Y = d.Px(14), d.Y+d.ButtonHigh()+d.Px(5)
		}
		x += d.Button(x, d.Y, id, word, on, press, "") + d.Px(6)
	})
	d.Y += d.ButtonHigh() + d.Px(7)
}

// Mix is a with share t of b, of opaque colours.
func Mix(a, b color.NRGBA, t float64) color.NRGBA {
	m := func(x, y uint8) uint8 { return uint8(float64(x)*(1-t) + float64(y)*t + 0.5) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}

// Hex is the opaque colour 0xRRGGBB.
func Hex(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// Indent is how far a line of a sum is set in.
func (d *Drawing) Indent(l string) float64 {
	return float64(len(l)-len(strings.TrimLeft(l, " "))) * d.Px(4)
}

// Heading is a small head within a panel.
func (d *Drawing) Heading(name string) {
	d.Text(d.Px(14), d.Y+d.Px(10), name, Bold(d.Small()), d.W-d.Px(28))
	d.Y += d.Px(22)
}

// ButtonWide is the width of a button with a word in it.
func (d *Drawing) ButtonWide(word string) float64 { return Width(word, Bold(d.Small())) + d.Px(18) }

// Note is a paragraph across the panel, with what is left free below it.
func (d *Drawing) Note(said string, t pen.TextStyle, free float64) {
	d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), said, t) + d.Px(free)
}

// Row is a line of a list that can be pressed.
func (d *Drawing) Row(id, name string, press func()) {
	h := d.Px(26)
	if d.Hover == id {
		d.Fill(0, d.Y, d.W, h, d.Shades.Hover)
	}
	d.Text(d.Px(14), d.Y+h/2, name, d.Mid(), d.W-d.Px(28))
	d.Hit(Hit{ID: id, X0: d.Px(4), Y0: d.Y, X1: d.W - d.Px(4), Y1: d.Y + h, Press: press})
	d.Y += h
}
