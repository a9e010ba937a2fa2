package window

import (
	"image/color"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/part"
)

// hit is a rectangle of a panel that can be pressed or pointed at.
type hit struct {
	id             string // stable between drawings
	x0, y0, x1, y1 float64
	press          func() // nil: only pointed at
	second         func() // the other button, or "?"; may be nil
	over           func(in bool)
	why            string // why it cannot be pressed, shown in the status line
	idle           bool   // passed over by the keyboard
}

func (h *hit) has(x, y float64) bool { return h.x0 <= x && x < h.x1 && h.y0 <= y && y < h.y1 }

// ink draws a panel: a pen, colours, text sizes, and the list of hits that
// grows with it. Lengths are logical pixels.
type ink struct {
	Pen          pen.Pen
	c            shades
	k            float64 // scale of text and what goes with it
	w, h         float64 // of the panel; h 0: as high as it gets
	y            float64 // below what has been drawn
	hover, focus string
	hits         []hit
	path         pen.Path
}

// Text sizes at desk, px: what counts, names, the rest. (board.md)
const (
	bigPx   = 13
	midPx   = 12
	smallPx = 11
)

func (k *ink) big() pen.TextStyle   { return pen.TextStyle{Size: bigPx * k.k, Colour: k.c.Ink} }
func (k *ink) mid() pen.TextStyle   { return pen.TextStyle{Size: midPx * k.k, Colour: k.c.Ink} }
func (k *ink) small() pen.TextStyle { return pen.TextStyle{Size: smallPx * k.k, Colour: k.c.Quiet} }

func bold(t pen.TextStyle) pen.TextStyle { t.Bold = true; return t }
func in(t pen.TextStyle, c color.NRGBA) pen.TextStyle {
	t.Colour = c
	return t
}

// px is n pixels of desk size.
func (k *ink) px(n float64) float64 { return n * k.k }

func width(s string, t pen.TextStyle) float64 {
	w, _, _ := pen.Measure(s, &t)
	return w
}

// line is the height of a line of text.
func line(t pen.TextStyle) float64 { return t.Size * 1.36 }

// text writes s with the middle of its letters at y; it is cut with … to
// room, if that is positive.
func (k *ink) text(x, y float64, s string, t pen.TextStyle, room float64) {
	if room > 0 {
		s = cut(s, t, room)
	}
	k.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// right writes s ending at x.
func (k *ink) right(x, y float64, s string, t pen.TextStyle) {
	t.Anchor = pen.End
	k.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// middle writes s about x.
func (k *ink) middle(x, y float64, s string, t pen.TextStyle) {
	t.Anchor = pen.Middle
	k.Pen.Text(x, y+0.36*t.Size, s, &t)
}

// cut is s, or as much of it as fits into room with … behind.
func cut(s string, t pen.TextStyle, room float64) string {
	if width(s, t) <= room {
		return s
	}
	r := []rune(s)
	lo, hi := 0, len(r)
	for lo < hi {
		m := (lo + hi + 1) / 2
		if width(strings.TrimRight(string(r[:m]), " ,·")+"…", t) <= room {
			lo = m
		} else {
			hi = m - 1
		}
	}
	return strings.TrimRight(string(r[:lo]), " ,·") + "…"
}

// wrap breaks s into lines that fit into room, between words.
func wrap(s string, t pen.TextStyle, room float64) []string {
	var out []string
	for para := range strings.SplitSeq(s, "\n") {
		now := ""
		for _, word := range strings.FieldsFunc(para, breaks) {
			next := word
			if now != "" {
				next = now + " " + word
			}
			if now != "" && width(next, t) > room {
				out = append(out, now)
				next = word
			}
			for r := []rune(next); width(next, t) > room && len(r) > 1; r = []rune(next) {
				n := len(r) - 1
				for n > 1 && width(string(r[:n]), t) > room {
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

// para writes s wrapped, from y down, and returns where it ends.
func (k *ink) para(x, y, room float64, s string, t pen.TextStyle) float64 {
	for _, l := range wrap(s, t, room) {
		k.text(x, y+line(t)/2, l, t, 0)
		y += line(t)
	}
	return y
}

// box is a filled rectangle with rounded corners and an edge; a colour of
// alpha 0 is none.
func (k *ink) box(x, y, w, h, r float64, fill, edge color.NRGBA, edgePx float64) {
	k.path.Reset()
	k.path.RoundRect(x, y, w, h, r)
	k.Pen.Path(&k.path, &pen.Style{Fill: fill, Stroke: edge, Width: edgePx})
}

func (k *ink) fill(x, y, w, h float64, c color.NRGBA) {
	k.path.Reset()
	k.path.Rect(x, y, w, h)
	k.Pen.Path(&k.path, &pen.Style{Fill: c})
}

func (k *ink) stroke(x0, y0, x1, y1, widthPx float64, c color.NRGBA, dash ...float64) {
	k.path.Reset()
	k.path.Line(x0, y0, x1, y1)
	k.Pen.Path(&k.path, &pen.Style{Stroke: c, Width: widthPx, Dash: dash})
}

// triangle points up, its box's middle at x, y.
func (k *ink) triangle(x, y, size float64, fill, edge color.NRGBA) {
	k.path.Reset()
	k.path.Polygon(r2.Point{X: x, Y: y - size*0.5}, r2.Point{X: x + size*0.55, Y: y + size*0.45}, r2.Point{X: x - size*0.55, Y: y + size*0.45})
	k.Pen.Path(&k.path, &pen.Style{Fill: fill, Stroke: edge, Width: 1, Join: pen.RoundJoin})
}

// badge is the signal word of a level on its colour, a triangle before it but
// for the lowest. It returns its width.
func (k *ink) badge(x, y float64, l part.Level, word string, widthPx float64) float64 {
	fill, on := k.c.Level(l)
	t := bold(in(k.small(), on))
	h := line(t) + k.px(4)
	w := width(word, t) + k.px(30)
	if widthPx > w {
		w = widthPx
	}
	k.box(x, y-h/2, w, h, 2, fill, color.NRGBA{}, 0)
	if l > part.Notice {
		k.triangle(x+k.px(12), y, k.px(10), on, color.NRGBA{})
		k.text(x+k.px(22), y, word, t, 0)
	} else {
		k.middle(x+w/2, y, word, t)
	}
	return w
}

// hit adds a rectangle that can be pressed, and draws the ring of the focus
// round it.
func (k *ink) hit(h hit) {
	k.hits = append(k.hits, h)
	if h.id != "" && h.id == k.focus {
		k.box(h.x0+1, h.y0+1, h.x1-h.x0-2, h.y1-h.y0-2, 3, color.NRGBA{}, k.c.Pick, 2)
	}
}

// button is a box with a word in it. It returns its width. why: it cannot be
// pressed, and says so.
func (k *ink) button(x, y float64, id, word string, on bool, press func(), why string) float64 {
	t := bold(k.small())
	h, w := line(t)+k.px(8), width(word, t)+k.px(18)
	fill, edge := k.c.Card, k.c.Edge
	t.Colour = k.c.Ink
	switch {
	case why != "":
		t.Colour = k.c.Quiet
		fill = k.c.Panel
	case on:
		fill, t.Colour, edge = k.c.Ink, k.c.Paper, k.c.Ink
	case k.hover == id:
		fill = k.c.Hover
	}
	k.box(x, y, w, h, 3, fill, edge, 1)
	k.middle(x+w/2, y+h/2, word, t)
	k.hit(hit{id: id, x0: x, y0: y, x1: x + w, y1: y + h, press: press, why: why})
	return w
}

func (k *ink) buttonHigh() float64 { return line(k.small()) + k.px(8) }

// title is the head of a panel with a remark at the right.
func (k *ink) title(name, remark string) {
	t := bold(k.big())
	k.text(k.px(14), k.y+k.px(14), name, t, k.w-k.px(28))
	if remark != "" {
		k.right(k.w-k.px(14), k.y+k.px(14), remark, k.small())
	}
	k.y += k.px(30)
}

// leastSentencePx is the size below which a sentence is not made smaller. (ours)
const leastSentencePx = 9

// sentence writes what must not be cut: smaller, then on as many lines as there
// is height for.
func (k *ink) sentence(x, y, room float64, said string) {
	t := bold(k.big())
	for _, px := range [...]float64{bigPx, midPx, smallPx} {
		t.Size = k.px(px)
		if width(said, t) <= room {
			k.text(x, y, said, t, 0)
			return
		}
	}
	for ; ; t.Size = max(t.Size-1, leastSentencePx) {
		lines, step := wrap(said, t, room), t.Size*1.24
		most := max(2, int((k.h-k.px(4))/step))
		if t.Size > leastSentencePx && len(lines) > most {
			continue
		}
		if len(lines) > most {
			lines = append(lines[:most-1:most-1], strings.Join(lines[most-1:], " "))
		}
		for i, l := range lines {
			k.text(x, y+(float64(i)-float64(len(lines)-1)/2)*step, l, t, room)
		}
		return
	}
}

// chip is a hatched mark ending at x. It returns its width.
func (k *ink) chip(x, y float64, s string) float64 {
	t := bold(in(k.small(), k.c.Ink))
	w, h := width(s, t)+k.px(22), line(t)+k.px(6)
	k.path.Reset()
	k.path.RoundRect(x-w, y-h/2, w, h, 2)
	k.Pen.Path(&k.path, &pen.Style{Fill: k.c.Card, Stroke: k.c.Ink, Width: 1,
		Hatch: pen.Hatch{Colour: k.c.Quiet, AngleDeg: 45, Spacing: 5, Width: 1}})
	k.fill(x-w+k.px(7), y-h/2+1.5, w-k.px(14), h-3, k.c.Card)
	k.middle(x-w/2, y, s, t)
	return w
}

// tick is a box that is ticked or not.
func (k *ink) tick(x, y float64, on bool) {
	r := k.px(7)
	k.box(x-r, y-r, 2*r, 2*r, 2, k.c.Card, k.c.Ink, 1.2)
	if on {
		k.path.Reset()
		k.path.Polyline(r2.Point{X: x - r*0.55, Y: y}, r2.Point{X: x - r*0.1, Y: y + r*0.5}, r2.Point{X: x + r*0.6, Y: y - r*0.55})
		k.Pen.Path(&k.path, &pen.Style{Stroke: k.c.Ink, Width: 2.2})
	}
}

// removable is a line of a list with a cross that takes it away.
func (k *ink) removable(name, id string, remove func()) {
	h := k.px(24)
	k.text(k.px(22), k.y+h/2, name, k.mid(), k.w-k.px(60))
	x := k.w - k.px(26)
	if k.hover == id {
		k.box(x-k.px(10), k.y+2, k.px(20), h-4, 3, k.c.Hover, color.NRGBA{}, 0)
	}
	k.middle(x, k.y+h/2, "✕", k.mid())
	k.hit(hit{id: id, x0: x - k.px(12), y0: k.y, x1: x + k.px(12), y1: k.y + h, press: remove})
	k.y += h
}

// choices draws buttons beside one another, on more lines where they do not fit.
func (k *ink) choices(fill func(put func(id, word string, on bool, press func()))) {
	x := k.px(14)
	fill(func(id, word string, on bool, press func()) {
		if wide := width(word, bold(k.small())) + k.px(18); x > k.px(14) && x+wide > k.w-k.px(14) {
			x, k.y = k.px(14), k.y+k.buttonHigh()+k.px(5)
		}
		x += k.button(x, k.y, id, word, on, press, "") + k.px(6)
	})
	k.y += k.buttonHigh() + k.px(7)
}

// mix is a with share t of b, of opaque colours.
func mix(a, b color.NRGBA, t float64) color.NRGBA {
	m := func(x, y uint8) uint8 { return uint8(float64(x)*(1-t) + float64(y)*t + 0.5) }
	return color.NRGBA{R: m(a.R, b.R), G: m(a.G, b.G), B: m(a.B, b.B), A: 255}
}

func hex(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// indent is how far a line of a sum is set in.
func (k *ink) indent(l string) float64 {
	return float64(len(l)-len(strings.TrimLeft(l, " "))) * k.px(4)
}

// row is a line of a list that can be pressed.
func (k *ink) row(id, name string, press func()) {
	h := k.px(26)
	if k.hover == id {
		k.fill(0, k.y, k.w, h, k.c.Hover)
	}
	k.text(k.px(14), k.y+h/2, name, k.mid(), k.w-k.px(28))
	k.hit(hit{id: id, x0: k.px(4), y0: k.y, x1: k.w - k.px(4), y1: k.y + h, press: press})
	k.y += h
}
