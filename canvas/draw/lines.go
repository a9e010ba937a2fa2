package draw

import (
	"math"
	"strconv"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// drawnStretch is a straight part of a line in the picture.
type drawnStretch struct {
	line    *plan.Line
	index   int
	partID  string
	a, b    r2.Point
	lengthM float64
	from    float64 // length of the line before it, metres
	state   *part.Part
	look    pattern
	contact []part.Contact
	beyond  bool // it comes after a contact on its line
}

// stretchesOf lays out the stretches of the rig. Those of one line between the
// same two places lie side by side.
func (d *drawing) stretchesOf() []drawnStretch {
	var out []drawnStretch
	if d.a != nil && len(d.a.Stretches) > 0 {
		for i := range d.a.Stretches {
			st := &d.a.Stretches[i]
			l := d.ix.Line(st.Line)
			if l == nil {
				continue
			}
			s := drawnStretch{line: l, index: st.Index, partID: st.Part, a: d.atVec(st.A), b: d.atVec(st.B), lengthM: float64(st.Length), contact: st.Contacts}
			s.state = d.part(st.Part)
			if st.Index == 0 {
				s.state = worse(s.state, d.winchPart(st.Line))
			}
			s.look = patternOf(s.state)
			if st.Refused && s.look != refusedPattern {
				s.look = refusedPattern
			}
			out = append(out, s)
		}
	} else {
		out = d.stretchesAsDrawn()
	}
	for i := range out {
		s := &out[i]
		if i > 0 && out[i-1].line == s.line {
			p := &out[i-1]
			s.from = p.from + p.lengthM
			s.beyond = p.beyond || len(p.contact) > 0
		}
		if d.s.Show.Blank[s.partID] {
			s.look = plainPattern
		}
	}
	d.apart(out)
	keep := out[:0]
	for i := range out {
		if d.shown(&out[i].line.Head) {
			keep = append(keep, out[i])
		}
	}
	return keep
}

// stretchesAsDrawn are the stretches where nothing was computed: as the ports
// lie in the plan.
func (d *drawing) stretchesAsDrawn() []drawnStretch {
	var out []drawnStretch
	for i := range d.rig.Lines {
		l := &d.rig.Lines[i]
		for k := 0; k+1 < len(l.Path); k++ {
			a, okA := d.portPlace(l.Path[k], 0)
			b, okB := d.portPlace(l.Path[k+1], 0)
			if okA && okB {
				out = append(out, drawnStretch{line: l, index: k, partID: string(l.ID) + "/" + strconv.Itoa(k+1),
					a: d.at(a), b: d.at(b), lengthM: math.Hypot(a.X-b.X, a.Y-b.Y)})
			}
		}
	}
	return out
}

// maxHang bounds how many things may hang on one another.
const maxHang = 50

// portPlace is where a hook-on point lies: settled if computed, else as drawn.
func (d *drawing) portPlace(p plan.Port, depth int) (plan.Point, bool) {
	if depth > maxHang {
		return plan.Point{}, false
	}
	if n := d.node(p.Thing); n != nil {
		return plan.Point{X: n.At.X, Y: n.At.Y}, true
	}
	if b := d.ix.Block(p.Thing); b != nil {
		if !b.Fixed.IsZero() {
			return d.portPlace(b.Fixed, depth+1)
		}
		return b.At, true
	}
	if k := d.ix.Shackle(p.Thing); k != nil {
		return k.At, true
	}
	if s := d.ix.Sling(p.Thing); s != nil {
		if !s.Holds.IsZero() {
			return d.portPlace(s.Holds, depth+1)
		}
		return d.portPlace(s.On, depth+1)
	}
	s, ok := d.ix.PortPlace(p)
	return s.At, ok
}

// node is where a thing of the rig settled, nil if that is not known.
func (d *drawing) node(id plan.ID) *part.Node {
	if d.a == nil {
		return nil
	}
	for i := range d.a.Nodes {
		if d.a.Nodes[i].Thing == id {
			return &d.a.Nodes[i]
		}
	}
	return nil
}

// winchPart is the winch that a line starts on, as a part.
func (d *drawing) winchPart(line plan.ID) *part.Part {
	for i := range d.a.Parts {
		if p := &d.a.Parts[i]; p.Kind == part.KindWinch && p.To == line {
			return p
		}
	}
	return nil
}

// apart moves stretches that would lie on one another side by side.
func (d *brush) apart(all []drawnStretch) {
	gap, same := d.lw(lineWidth+3.5), d.px(6)
	done := make([]bool, len(all))
	for i := range all {
		if done[i] {
			continue
		}
		group := []int{i}
		for k := i + 1; k < len(all); k++ {
			s, t := &all[i], &all[k]
			if s.a.Sub(t.a).Norm() < same && s.b.Sub(t.b).Norm() < same || s.a.Sub(t.b).Norm() < same && s.b.Sub(t.a).Norm() < same {
				group = append(group, k)
				done[k] = true
			}
		}
		if len(group) < 2 {
			continue
		}
		side := all[i].b.Sub(all[i].a).Normalize().Ortho()
		for n, k := range group {
			off := side.Mul(gap * (float64(n) - float64(len(group)-1)/2))
			all[k].a, all[k].b = all[k].a.Add(off), all[k].b.Add(off)
		}
	}
}

// reach is what of a refused stretch is drawn: to its first contact, and that
// contact. Without a contact it is drawn whole.
func (s *drawnStretch) reach() (end, from, to r2.Point, bears bool) {
	if len(s.contact) == 0 || !(s.lengthM > 0) {
		return s.b, s.b, s.b, false
	}
	c := s.contact[0]
	for _, x := range s.contact[1:] {
		if x.From < c.From {
			c = x
		}
	}
	share := func(l quantity.Length) float64 {
		return math.Max(0, math.Min(1, (float64(l)-s.from)/s.lengthM))
	}
	from, to = pen.Mix(s.a, s.b, share(c.From)), pen.Mix(s.a, s.b, share(c.To))
	return from, from, to, true
}

func (d *drawing) lines() {
	for i := range d.stretches {
		s := &d.stretches[i]
		width := lineWidth
		if d.emphasised(&s.line.Head) {
			width *= 1.35
		}
		if s.look != refusedPattern {
			d.cased(s.a, s.b, width, s.look)
			continue
		}
		if s.beyond {
			d.cased(s.a, s.b, width, plainPattern)
			continue
		}
		end, from, to, bears := s.reach()
		d.cased(s.a, end, width, refusedPattern)
		if bears {
			d.crosses(from, to, d.c.Ink)
		}
	}
}

// dampers are sacks laid over a line.
func (d *drawing) dampers() {
	for i := range d.rig.Dampers {
		dm := &d.rig.Dampers[i]
		if !d.shown(&dm.Head) {
			continue
		}
		for k := range d.stretches {
			s := &d.stretches[k]
			if s.line.ID != dm.Line || s.index != dm.Stretch {
				continue
			}
			c, dir := pen.Mix(s.a, s.b, math.Max(0, math.Min(1, dm.Share))), s.b.Sub(s.a).Normalize()
			l, w := d.atLeast(0.35, 11), d.atLeast(0.7, 24)
			m := frame(c, dir)
			var shape pen.Path
			shape.RoundRect(-l/2, -w/2, l, w, l*0.35)
			d.path.Reset()
			d.path.Append(&shape, m)
			d.fillStroke(d.c.Paper, d.c.Ink, 1.6)
			shape.Reset()
			shape.Line(-l/2, -w*0.2, l/2, -w*0.2)
			shape.Line(-l/2, w*0.2, l/2, w*0.2)
			d.path.Reset()
			d.path.Append(&shape, m)
			d.stroke(d.c.Ink, 1.4)
			d.labels.grid.Mark(pen.Around(c, w, w), label.Point)
		}
	}
}
