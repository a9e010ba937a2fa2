package sheet

import (
	"strings"

	"kedge/canvas/pen"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// body is where a page's own matter goes, mm.
type body struct{ x, y, w, h float64 }

func (b body) bottom() float64 { return b.y + b.h }

// Measures of the frame's inside, mm.
const (
	inset      = 4.0 // from the frame to letters and drawings
	blockRow   = 6.6 // of the title block
	blockRows  = 4
	blockWidth = 180.0 // ISO 7200; narrower where the ruler lies beside it
	rulerStrip = 12.0
	rulerMM    = 100.0
	rulerRoom  = 117.0 // its length with its labels
	leastBlock = 140.0
	noteLead   = 4.2      // of the notes: 1.7 of their capitals; ISO 3098-1 asks for 1.5
	bandHeight = nameRoom // of the band that says KEY: as high as the line it stands for
)

// layout is where the fixed things of a page lie.
type layout struct {
	fx, fy, fw, fh float64 // frame
	bx, by, bw, bh float64 // title block
	ry             float64 // the ruler's line
	notes          []string
	bold           int     // how many of them are heavy, the first
	ny             float64 // middle of the first line of notes
}

func (m *maker) layoutOf(g *Page) layout {
	l := layout{fx: bindingMargin, fy: otherMargin, fw: g.W - bindingMargin - otherMargin, fh: g.H - 2*otherMargin}
	l.bh = blockRow * blockRows
	l.bw = min(blockWidth, l.fw-rulerRoom)
	beside := l.bw >= leastBlock
	if !beside {
		l.bw = min(blockWidth, l.fw)
	}
	l.bx, l.by = l.fx+l.fw-l.bw, l.fy+l.fh-l.bh
	top, rest := l.by, 0
	if beside { // the last notes stand over the ruler
		l.ry = l.by + l.bh - 5
		rest = int((l.bh - rulerStrip) / noteLead)
	} else {
		top -= rulerStrip
		l.ry = l.by - 3.5
	}
	t, wide, narrow := letters(textEm, false), l.fw-2*inset, l.fw-l.bw-2*inset
	l.notes = wrap(m.label("foot"), letters(textEm, true), wide)
	l.bold = len(l.notes)
	l.notes = append(l.notes, narrowed(m.notes(g), t, wide, narrow, rest)...)
	l.ny = top - float64(len(l.notes)-min(rest, len(l.notes)))*noteLead + noteLead/2 - 1.2
	return l
}

// narrowed breaks a text into lines of width w, of which the last, at most rest,
// are of the width narrow.
func narrowed(s string, t *pen.TextStyle, w, narrow float64, rest int) []string {
	wide := wrap(s, t, w)
	for k := range wide {
		if tail := wrap(strings.Join(wide[k:], " "), t, narrow); len(tail) <= rest {
			return append(append(wide[:k:k], tail...), make([]string, rest-len(tail))...)
		}
	}
	return append(wide, make([]string, rest)...)
}

// notes are what a page says below its matter of all its figures: what the marks at
// the limits mean, the figures used; the first page of a booklet the cautions that window and command line show and what
// was not looked at too, the others where these stand.
func (m *maker) notes(g *Page) string {
	var all []string
	switch {
	case g.full:
		all = append(all, m.cautions(), m.label("not-checked", part.Text("list", strings.Join(m.w.NotChecked(), "; "))))
	case m.several(g.Key, g.Variant):
		all = append(all, m.label("cautions-first"))
	default:
		all = append(all, m.label("cautions-last"))
	}
	if g.Variant == 0 {
		all = append(all, m.w.Label("marks")+" ·")
	}
	return strings.Join(all, " ") + " " + m.w.Label("handbook-revision", part.Text("revision", facts.Revision())) + "."
}

func (m *maker) cautions() string { return strings.Join(m.w.Cautions(), " ") }

// bodyOf is what the frame leaves for the page's own matter.
func (m *maker) bodyOf(g *Page) body {
	l := m.layoutOf(g)
	b := body{x: l.fx + inset, y: l.fy + inset, w: l.fw - 2*inset}
	if g.Key {
		b.y += bandHeight
	}
	b.h = l.ny - noteLead/2 - 1.5 - b.y
	return b
}

// number draws frame, notes, ruler and title block of page n of all.
func (m *maker) number(g *Page, n, all int) {
	p := &g.marks
	l := m.layoutOf(g)
	boxed(p, l.fx, l.fy, l.fw, l.fh, &pen.Style{Stroke: ink, Width: lineFrame})
	m.centring(g, l)
	if g.Key {
		boxed(p, l.fx, l.fy, l.fw, bandHeight, &pen.Style{Fill: ink})
		t := letters(headEm, true)
		t.Colour = paper
		t.Anchor = pen.Middle
		write(p, l.fx+l.fw/2, l.fy+bandHeight/2, m.label("key-band"), t)
	}
	rule(p, l.fx, l.ny-noteLead/2-1, l.fx+l.fw, l.ny-noteLead/2-1, lineHair)
	for i, s := range l.notes {
		if s != "" {
			write(p, l.fx+inset, l.ny+float64(i)*noteLead, s, letters(textEm, i < l.bold))
		}
	}
	m.ruler(g, l)
	m.titleBlock(g, l, n, all)
}

// centring draws the marks by which copies are centred. (ISO 5457)
func (m *maker) centring(g *Page, l layout) {
	p := &g.marks
	cx, cy := g.W/2, g.H/2
	const in = 5
	rule(p, cx, l.fy-otherMargin+in, cx, l.fy, lineFrame)
	rule(p, cx, l.fy+l.fh, cx, l.fy+l.fh+otherMargin-in, lineFrame)
	rule(p, l.fx-in, cy, l.fx, cy, lineFrame)
	rule(p, l.fx+l.fw, cy, l.fx+l.fw+otherMargin-in, cy, lineFrame)
}

// ruler draws a length that a ruler on the paper checks the print by.
func (m *maker) ruler(g *Page, l layout) {
	p := &g.marks
	x := l.fx + inset + 3
	rule(p, x, l.ry, x+rulerMM, l.ry, lineRule)
	for i := 0; i <= 10; i++ {
		h := 1.5
		if i%5 == 0 {
			h = 2.5
		}
		rule(p, x+float64(i)*10, l.ry, x+float64(i)*10, l.ry-h, lineRule)
	}
	t := letters(textEm, false)
	t.Anchor = pen.Middle
	y := l.ry - 2.5 - 2.4
	write(p, x, y, "0", t)
	write(p, x+rulerMM, y, "100"+" "+"mm", t)
	write(p, x+rulerMM/2, y, fitted(m.label("ruler"), t, rulerMM-24), t)
}

// cell is one field of the title block.
type cell struct {
	share float64 // of the block's width
	text  string
	bold  bool
	chip  bool
}

// blockText is what the title block says of the plan and rig the page shows.
type blockText struct {
	planned, basis, hash string
	chip                 bool
}

// nameShare is the share of the block's width for the name of the sheet.
const nameShare = 0.42

// titleBlock draws the fields of ISO 7200.
func (m *maker) titleBlock(g *Page, l layout, n, all int) {
	p := &g.marks
	boxed(p, l.bx, l.by, l.bw, l.bh, &pen.Style{Fill: paper, Stroke: ink, Width: lineFrame})
	info := &m.p.TitleInfo
	scale := m.label("no-scale")
	if g.Scale > 0 {
		scale = scaleText(g.Scale)
	}
	name := g.Name
	if g.Variant > 0 && m.o.Variants > 1 {
		tail := " · " + m.label("variant", part.Count("n", g.Variant), part.Count("of", m.o.Variants))
		t := letters(textEm, false)
		name = fitted(name, t, nameShare*l.bw-2*pad-width(tail, t)) + tail
	}
	serial := m.label("plan-hash", part.Text("hash", g.block.hash))
	if info.Number != "" {
		serial = m.label("number", part.Text("number", info.Number))
	}
	rows := [blockRows][]cell{
		{{0.3, info.School, false, false}, {0.5, m.b.Title, true, false}, {0.2, m.label("sheet-of", part.Count("n", n), part.Count("of", all)), false, false}},
		{{nameShare, name, false, false}, {0.22, m.signed("author", info.Author), false, false},
			{0.22, m.signed("approver", info.Approver), false, false}, {0.14, m.o.Date, false, false}},
		{{0.855, g.block.basis, false, false}, {0.145, serial, false, false}},
		{{0.6, g.block.planned, g.block.chip, g.block.chip}, {0.14, m.units(), false, false}, {0.26, scale, true, false}},
	}
	for i, row := range rows {
		x, y := l.bx, l.by+float64(i)*blockRow
		if i > 0 {
			rule(p, l.bx, y, l.bx+l.bw, y, lineHair)
		}
		for j, c := range row {
			w := c.share * l.bw
			if j > 0 {
				rule(p, x, y, x, y+blockRow, lineHair)
			}
			left := x
			if i == 0 && j == 0 && m.logo != nil {
				left += m.drawLogo(g, x, y)
			}
			m.cell(g, left, y, w-(left-x), c)
			x += w
		}
	}
}

// signed is a field with a name, or with room for one.
func (m *maker) signed(id, name string) string {
	if name == "" {
		return m.label(id + "-open")
	}
	return m.label(id, part.Text("name", name))
}

func (m *maker) cell(g *Page, x, y, w float64, c cell) {
	t := letters(textEm, c.bold)
	s := fitted(c.text, t, w-2*pad)
	if c.chip {
		var q pen.Path
		q.Rect(x+0.6, y+0.6, w-1.2, blockRow-1.2)
		g.marks.Path(&q, &pen.Style{Stroke: ink, Width: lineRule, Hatch: pen.Hatch{Colour: ink, AngleDeg: 45, Spacing: 1.6, Width: lineHair, OriginX: x, OriginY: y}})
		boxed(&g.marks, x+pad-0.6, y+1.2, width(s, t)+1.2, blockRow-2.4, &pen.Style{Fill: paper})
	}
	write(&g.marks, x+pad, y+blockRow/2, s, t)
}

func (m *maker) drawLogo(g *Page, x, y float64) float64 {
	b := m.logo.Bounds()
	const h = blockRow - 1.2
	w := min(h*float64(b.Dx())/float64(b.Dy()), 24)
	high := w * float64(b.Dy()) / float64(b.Dx())
	pen.ImageBox(&g.marks, m.logo, x+pad, y+(blockRow-high)/2, w, high, 0, 1)
	return w + pad
}

func (m *maker) units() string {
	s := m.w.System()
	return s.Force().String() + ", " + s.Length().String() + ", " + s.Mass().String()
}

// scaleText is 1 : n as ISO 5455 writes it.
func scaleText(n float64) string { return "1 : " + quantity.PlainSpaces(itoa(int(n))) }
