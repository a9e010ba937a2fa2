package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Length of a force's arrow: px for each kilonewton, and its bounds. Fixed, so
// that an arrow grows only if its force does. (ours)
const (
	arrowPxPerKN = 1.7
	leastArrow   = 34
	mostArrow    = 100
	// sideShown is the share of a load across its part's direction from which
	// its arrow is drawn. (ours)
	sideShown = 0.05
)

// forceArrow is the arrow of a force on a part.
type forceArrow struct {
	part     *part.Part
	from, to r2.Point
	side     bool     // of the share across
	axis     r2.Point // direction it is measured from
}

func (d *brush) arrowLength(f quantity.Force) float64 {
	return d.sy(math.Max(leastArrow, math.Min(mostArrow, float64(f)/1000*arrowPxPerKN)))
}

// resultants are the arrows of the picture: the force of the lines on each
// block, on anchors that hold no block of the rig, and what goes across a part.
func (d *drawing) resultants() []forceArrow {
	if d.a == nil || d.s.Show.HideTags {
		return nil
	}
	var out []forceArrow
	for i := range d.a.Parts {
		p := &d.a.Parts[i]
		if !p.Move.Known || !d.isShown(p.Thing) || d.s.Show.Blank[p.ID] || p.Status == part.Slack {
			continue
		}
		at, ok := d.partPlace(p)
		if !ok {
			continue
		}
		dir := r2.Point{X: p.Move.Vec.X, Y: -p.Move.Vec.Y}.Normalize()
		if dir != (r2.Point{}) && (p.Kind == part.KindBlock || p.Kind == part.KindAnchor && !d.holdsBlock(p.Thing)) {
			out = append(out, forceArrow{part: p, from: at, to: pen.Along(at, dir, d.arrowLength(p.Move.Force))})
		}
		if a, ok := d.sideArrow(p, at); ok {
			out = append(out, a)
		}
	}
	return out
}

// sideArrow is the share of a load across the direction its part is meant to
// take.
func (d *brush) sideArrow(p *part.Part, at r2.Point) (forceArrow, bool) {
	axis := r2.Point{X: p.Move.Axis.X, Y: -p.Move.Axis.Y}.Normalize()
	if !(float64(p.Move.Side) > sideShown*float64(p.Move.Force)) || axis == (r2.Point{}) {
		return forceArrow{}, false
	}
	v := p.Move.Vec.Sub(p.Move.Axis.Mul(p.Move.Vec.Dot(p.Move.Axis)))
	across := r2.Point{X: v.X, Y: -v.Y}.Normalize()
	if across == (r2.Point{}) {
		return forceArrow{}, false
	}
	return forceArrow{part: p, from: at, to: pen.Along(at, across, d.arrowLength(p.Move.Side)*0.8), side: true, axis: axis}, true
}

// partPlace is where a part's force acts.
func (d *drawing) partPlace(p *part.Part) (r2.Point, bool) {
	if v := d.ix.Vehicle(p.Thing); v != nil {
		switch p.Kind {
		case part.KindPoint:
			if len(p.ID) > len(p.Thing)+1 {
				if s, ok := v.PortPlace(plan.ID(p.ID[len(p.Thing)+1:])); ok {
					return d.at(s.At), true
				}
			}
		case part.KindWinch, part.KindFairlead:
			if s, ok := v.PortPlace(plan.PortWinch); ok {
				return d.at(s.At), true
			}
		}
		return d.at(v.At), true
	}
	if p.Kind == part.KindEnd {
		return d.lineEnd(p.Thing, p.Index > 0)
	}
	return d.thingPlace(p.Thing)
}

// holdsBlock reports whether a sling on an anchor holds a block, whose own arrow
// says the same.
func (d *drawing) holdsBlock(anchor plan.ID) bool {
	for i := range d.rig.Slings {
		if s := &d.rig.Slings[i]; s.On.Thing == anchor && d.ix.Block(s.Holds.Thing) != nil && d.isShown(s.Holds.Thing) {
			return true
		}
	}
	return false
}

func (d *drawing) arrows() {
	arrows := d.resultants()
	for i := range arrows {
		a := &arrows[i]
		if a.side {
			d.path.Reset()
			n := pen.Along(a.from, a.axis, d.sy(54))
			b := pen.Along(a.from, a.axis, -d.sy(14))
			d.path.Line(b.X, b.Y, n.X, n.Y)
			d.stroke(d.c.Ink, 1, 8, 3, 1.5, 3) // a centre line: the axis
			d.arrow(a.from, a.to, d.c.Ink, 1.4, 8)
		} else {
			d.path.Reset()
			d.path.Line(a.from.X, a.from.Y, a.to.X, a.to.Y)
			d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(5.5)})
			d.arrow(a.from, a.to, d.c.Ink, 2.6, 14)
		}
		d.labels.grid.Segment(a.from, a.to, d.px(3), label.Line)
	}
	d.angles()
	d.tipLabels(arrows)
}

// tipLabels notes the labels at the tips of side arrows; the tip of a resultant is
// where the tag of its part goes.
func (d *drawing) tipLabels(arrows []forceArrow) {
	for i := range arrows {
		a := &arrows[i]
		if !d.inView(a.to, 0) {
			continue
		}
		if !a.side {
			d.tips = append(d.tips, *a)
			continue
		}
		text := d.w.Label("across", part.Force("load", a.part.Move.Side))
		d.labels.add(caption{Wish: label.Wish{Key: "across " + a.part.ID, Rank: label.Flag, Lead: true, At: a.to, Toward: a.to.Sub(a.from).Normalize(), Clear: d.px(5), Must: true},
			part: a.part.ID, lines: []textLine{{text, d.text.mid, true, d.c.Ink}}})
	}
}

// angles draws the arc between the two parts of a line at each block.
func (d *drawing) angles() {
	s := d.stretches
	for i := 1; i < len(s); i++ {
		if s[i].line != s[i-1].line || s[i].index != s[i-1].index+1 {
			continue
		}
		p := d.blockPart(s[i].line.Path, s[i].index)
		if p == nil || !(p.Angle > 0) || p.Angle > 175 || d.s.Show.Blank[p.ID] || d.s.Show.Blank[p.ID+"/angle"] {
			continue
		}
		c := s[i].a
		a, b := s[i-1].a.Sub(c), s[i].b.Sub(c)
		r := math.Min(d.sy(34), 0.45*math.Min(math.Hypot(a.X, a.Y), math.Hypot(b.X, b.Y)))
		if !d.inView(c, 0) || r < d.sy(20) {
			continue
		}
		start, sweep := sweepBetween(a, b)
		d.path.Reset()
		d.addArc(c, r, start, sweep)
		d.stroke(d.c.Ink, 1.2)
		for t := 0.0; t < 1; t += 0.2 {
			p, q := polar(c, r, start+sweep*t), polar(c, r, start+sweep*(t+0.2))
			d.labels.grid.Segment(p, q, d.px(1), label.Line)
		}
		q := polar(c, r, start+sweep*0.27)
		d.labels.add(caption{Wish: label.Wish{Key: "angle " + p.ID + " " + s[i].partID, Rank: label.Length, At: q, Toward: q.Sub(c).Normalize(), Clear: d.px(3)},
			part: p.ID, lines: []textLine{{d.w.Angle(p.Angle), d.text.small, false, d.c.Ink}}})
	}
}

// polar is the point at a distance and angle, counter-clockwise as seen.
func polar(c r2.Point, r, deg float64) r2.Point {
	sn, cs := math.Sincos(deg * math.Pi / 180)
	return r2.Point{X: c.X + r*cs, Y: c.Y - r*sn}
}

// blockPart is the part of the block at the index-th port of a path.
func (d *drawing) blockPart(path []plan.Port, index int) *part.Part {
	if index >= len(path) || d.ix.Block(path[index].Thing) == nil {
		return nil
	}
	return d.part(string(path[index].Thing))
}
