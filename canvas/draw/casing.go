package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/part"
)

// pattern is how a state looks on a line: told apart without colour.
type pattern int

const (
	plainPattern   pattern = iota // one thin line: not computed
	withinPattern                 // neutral core between ink edges
	nearPattern                   // yellow core, cross-ticks
	overPattern                   // twice as wide, red, white chevrons
	hollowPattern                 // two thin lines: no rating, or not decided whether it is within it
	refusedPattern                // solid to the contact, × × × over it
	slackPattern                  // thin wavy dots
	greyPattern                   // loose: grey, one line
)

// states are how each state of a part looks on a line, and how grave it is: what
// has to be seen first is the gravest.
var states = [...]struct {
	look  pattern
	grave int
}{
	part.Over:          {overPattern, 7},
	part.Refused:       {refusedPattern, 6},
	part.NoLimit:       {hollowPattern, 5},
	part.Undecided:     {hollowPattern, 5},
	part.NotUnderstood: {plainPattern, 4},
	part.NotComputed:   {plainPattern, 3},
	part.Near:          {nearPattern, 2},
	part.Within:        {withinPattern, 1},
	part.Slack:         {slackPattern, 0},
}

// patternOf is the pattern of a part's state.
func patternOf(p *part.Part) pattern {
	if p == nil {
		return plainPattern
	}
	return states[p.Status].look
}

func grave(p *part.Part) int { return states[p.Status].grave }

// worse is the part that has to be seen first; either may be nil.
func worse(p, q *part.Part) *part.Part {
	switch {
	case p == nil:
		return q
	case q == nil:
		return p
	case grave(q) > grave(p), grave(q) == grave(p) && q.Known() && q.Most() > p.Most():
		return q
	}
	return p
}

// Widths of a cased line, px, and the edge on either side of its core. No rope
// is drawn to scale: 12 mm would be a hair.
const (
	lineWidth  = 6.5
	slingWidth = 5.5
	lineEdge   = 1.5
)

// casing draws a line of the given width along the contour in d.path, which is
// straight (a to b) unless ticks are to be left out.
func (d *brush) casing(p *pen.Path, width float64, look pattern) {
	stroke := func(c color.NRGBA, w float64) {
		d.pen.Path(p, &pen.Style{Stroke: c, Width: d.lw(w), Join: pen.RoundJoin})
	}
	switch look {
	case withinPattern:
		stroke(d.c.Ink, width)
		stroke(d.c.Core, width-2*lineEdge)
	case nearPattern:
		stroke(d.c.Ink, width)
		stroke(d.c.NearCore, width-2*lineEdge)
	case overPattern:
		stroke(d.c.Ink, 2*width)
		stroke(d.c.OverCore, 2*width-2*lineEdge)
	case hollowPattern:
		stroke(d.c.Ink, width+1)
		stroke(d.c.Paper, width+1-2.6)
	case refusedPattern:
		stroke(d.c.Ink, width*0.6)
	case greyPattern:
		stroke(d.c.Quiet, 2.2)
	case plainPattern:
		stroke(d.c.Ink, 1.8)
	}
}

// cased draws a straight line with the pattern of its state.
func (d *brush) cased(a, b r2.Point, width float64, look pattern) {
	t0, t1, ok := pen.Cut(d.view.box().ExpandedByMargin(d.px(60)), a, b)
	if !ok {
		return
	}
	full := a.Sub(b).Norm()
	var p pen.Path
	if look == slackPattern {
		d.wavy(a, b, t0*full, t1*full)
		return
	}
	p0, p1 := pen.Mix(a, b, t0), pen.Mix(a, b, t1)
	p.Line(p0.X, p0.Y, p1.X, p1.Y)
	d.casing(&p, width, look)
	dir := b.Sub(a).Normalize()
	side := dir.Ortho()
	d.path.Reset()
	switch look {
	case nearPattern:
		step, h := d.lw(15), d.lw(width/2+2.4)
		for s := math.Max(step/2, step*math.Floor(t0*full/step)+step/2); s < t1*full; s += step {
			q := pen.Along(a, dir, s)
			d.path.Line(q.X-side.X*h, q.Y-side.Y*h, q.X+side.X*h, q.Y+side.Y*h)
		}
		d.stroke(d.c.Ink, 2)
		if mark := d.c.inkOn(d.c.NearCore); mark != d.c.Ink {
			d.path.Reset() // light ticks would not be seen on the bright core
			h = d.lw(width/2 - lineEdge)
			for s := math.Max(step/2, step*math.Floor(t0*full/step)+step/2); s < t1*full; s += step {
				q := pen.Along(a, dir, s)
				d.path.Line(q.X-side.X*h, q.Y-side.Y*h, q.X+side.X*h, q.Y+side.Y*h)
			}
			d.stroke(mark, 2.6)
		}
	case overPattern:
		step, h := d.lw(20), d.lw(width-lineEdge-0.6)
		for s := math.Max(step/2, step*math.Floor(t0*full/step)+step/2); s < t1*full; s += step {
			q := pen.Along(a, dir, s)
			tail := pen.Along(q, dir, -h*0.9)
			d.path.Polyline(pen.Along(tail, side, h), q, pen.Along(tail, side, -h))
		}
		d.pen.Path(&d.path, &pen.Style{Stroke: d.c.OverMark, Width: d.lw(2.6), Join: pen.MiterJoin})
	}
}

// wavy draws thin dots along a wave.
func (d *brush) wavy(a, b r2.Point, from, to float64) {
	dir := b.Sub(a).Normalize()
	side := dir.Ortho()
	d.path.Reset()
	wave, high, r := d.lw(36), d.lw(3), d.lw(1.3)
	for s := math.Floor(from/d.lw(6)) * d.lw(6); s < to; s += d.lw(6) {
		q := pen.Along(pen.Along(a, dir, s), side, high*math.Sin(2*math.Pi*s/wave))
		d.dot(q, r)
	}
	d.fill(d.c.Quiet)
}

// crosses draws × × × along a line.
func (d *brush) crosses(a, b r2.Point, c color.NRGBA) {
	t0, t1, ok := pen.Cut(d.view.box().ExpandedByMargin(d.px(30)), a, b)
	if !ok {
		return
	}
	full, dir := a.Sub(b).Norm(), b.Sub(a).Normalize()
	step, h := d.sy(17), d.sy(5)
	n := math.Max(1, math.Round(full/step))
	d.path.Reset()
	for i := 0.5; i < n; i++ {
		if s := i / n; s >= t0 && s <= t1 {
			q := pen.Along(a, dir, s*full)
			d.path.Line(q.X-h, q.Y-h, q.X+h, q.Y+h)
			d.path.Line(q.X-h, q.Y+h, q.X+h, q.Y-h)
		}
	}
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(5.5), Cap: pen.RoundCap})
	d.pen.Path(&d.path, &pen.Style{Stroke: c, Width: d.lw(2.4), Cap: pen.RoundCap})
}
