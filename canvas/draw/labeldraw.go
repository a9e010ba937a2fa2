package draw

import (
	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
)

// draw draws the leaders, then the labels over them.
func (l *captions) draw() {
	d := l.d
	d.path.Reset()
	for i := range l.all {
		if p := &l.all[i].place; p.Leads {
			d.path.Line(p.Leader[0].X, p.Leader[0].Y, p.Leader[1].X, p.Leader[1].Y)
		}
	}
	if !d.path.Empty() {
		d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(3)})
		d.stroke(d.c.Ink, 1)
	}
	for i := range l.all {
		if x := &l.all[i]; x.frame == flagBox {
			d.flag(x)
		} else {
			d.caption(x)
		}
	}
}

func (d *brush) caption(x *caption) {
	b := x.place.Box
	left, framed := b.X.Lo+d.sy(7), true
	d.path.Reset()
	if x.frame != bare {
		d.path.RoundRect(b.X.Lo, b.Y.Lo, b.X.Hi-b.X.Lo, b.Y.Hi-b.Y.Lo, d.px(3.5))
	}
	weight := 1.2
	if x.hot {
		weight = 2.4
	}
	switch x.frame {
	case bare:
		framed, left = false, b.X.Lo+d.px(1.5)
	case thinBox:
		d.fillStroke(d.c.Paper, d.c.Ink, weight)
	case barBox:
		d.fillStroke(d.c.Paper, d.c.Ink, weight)
		d.path.Reset()
		d.path.Rect(b.X.Lo+d.px(0.6), b.Y.Lo+d.px(0.6), d.sy(7), b.Y.Hi-b.Y.Lo-d.px(1.2))
		d.fillStroke(d.c.NearCore, d.c.Ink, 1.2)
		left += d.sy(9)
	case inkBox:
		d.fillStroke(d.c.Ink, d.c.Ink, weight)
	case overBox:
		d.fillStroke(d.c.Paper, d.c.ZoneOrange, weight+1.8)
	case dashBox:
		d.fillStroke(d.c.Paper, d.c.Ink, weight+0.3, 5, 3)
	case markBox:
		d.fillStroke(d.c.Paper, d.c.Ink, weight)
		d.write(b.X.Lo+d.sy(9), (b.Y.Lo+b.Y.Hi)/2, "?", d.text.big*1.15, true, d.c.Ink, pen.Middle)
		left += d.sy(9)
	case greyBox:
		d.fillStroke(d.c.Paper, d.c.Quiet, weight)
	case pickBox:
		d.fillStroke(d.c.Paper, d.c.Pick, weight)
	}
	d.writeLines(x, left, framed)
}

// writeLines writes what a label says in its frame.
func (d *brush) writeLines(x *caption, left float64, framed bool) {
	y := x.place.Box.Y.Lo
	if x.frame != bare {
		y += d.sy(3.5)
	}
	for i, t := range x.lines {
		c := t.colour
		if x.frame == inkBox {
			c = d.c.Paper
		}
		ts := pen.TextStyle{Size: t.size, Bold: t.bold, Colour: c}
		if !framed {
			ts.Halo, ts.HaloWidth = d.c.Paper, d.px(2.2)
		}
		y += t.size * lineHeight
		base := y - t.size*lineHeight/2 + pen.CapHeight(&ts)/2
		d.pen.Text(left, base, t.text, &ts)
		if i == 0 && x.tail != "" {
			wide, _, _ := pen.Measure(t.text, &ts)
			s := d.tailStyle()
			if x.frame == inkBox {
				s.Colour = d.c.Paper
			}
			d.pen.Text(left+wide+d.sy(tailGap), base, x.tail, &s)
		}
	}
}

// flag draws a numbered triangle.
func (d *brush) flag(x *caption) {
	b := x.place.Box
	m := b.Center()
	d.path.Reset()
	d.path.Polygon(r2.Point{X: m.X, Y: b.Y.Lo + d.px(1)}, r2.Point{X: b.X.Hi - d.px(0.5), Y: b.Y.Hi - d.px(1)}, r2.Point{X: b.X.Lo + d.px(0.5), Y: b.Y.Hi - d.px(1)})
	weight := 1.4
	if x.hot {
		weight = 3
	}
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(weight + 2.5), Join: pen.RoundJoin})
	d.fillStroke(x.level, d.c.Ink, weight)
	for _, t := range x.lines {
		ts := pen.TextStyle{Size: t.size, Bold: true, Colour: x.on, Anchor: pen.Middle}
		d.pen.Text(m.X, b.Y.Hi-d.sy(3.5), t.text, &ts)
	}
}
