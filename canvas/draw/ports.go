package draw

import (
	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
)

// Sizes of hook-on points, px across: offered, and under the pointer.
// (ours)
const (
	portOffered = 10
	portUnder   = 14
)

// port draws a hook-on point as it is offered: its shape tells the kind, its
// size and fill the state.
func (d *brush) port(m *PortMark) {
	if m.State == PortHidden {
		return
	}
	c := d.at(m.At)
	if !d.inView(c, d.sy(portUnder)) {
		return
	}
	size, ink, fill := portOffered, d.c.Pick, d.c.Paper
	switch m.State {
	case PortUnder:
		size = portUnder
	case PortTaken:
		ink, fill = d.c.Ink, d.c.Ink
	case PortRefused:
		size, ink = portUnder, d.c.Ink
	}
	r := d.sy(float64(size)) / 2
	symbol := portSymbols[m.Kind]
	d.path.Reset()
	symbol.outline(&d.path, c, r)
	s := d.strokeStyle(ink, 1.8)
	s.Fill = fill
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(4.5), Join: pen.RoundJoin})
	d.pen.Path(&d.path, s)
	d.path.Reset()
	if symbol.mark != nil {
		symbol.mark(&d.path, c, r)
	}
	if m.State == PortTaken {
		d.stroke(d.c.Paper, 1.6)
	} else if !d.path.Empty() {
		d.stroke(ink, 1.6)
	}
	if m.State == PortRefused {
		d.path.Reset()
		d.path.Line(c.X-r*1.5, c.Y+r*1.5, c.X+r*1.5, c.Y-r*1.5)
		d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(5.5)})
		d.stroke(d.c.Ink, 2.8)
	}
}

// portSymbol is the shape of a kind of hook-on point: its outline, and what
// stands inside or beside it, put on a path.
type portSymbol struct {
	outline func(p *pen.Path, c r2.Point, r float64)
	mark    func(p *pen.Path, c r2.Point, r float64)
}

var portSymbols = [...]portSymbol{
	PortRecovery: {roundPort, func(p *pen.Path, c r2.Point, r float64) { p.Circle(c.X, c.Y, r*0.42) }},
	PortFairlead: {
		func(p *pen.Path, c r2.Point, r float64) { p.RoundRect(c.X-r, c.Y-r, 2*r, 2*r, r*0.5) },
		func(p *pen.Path, c r2.Point, r float64) {
			p.Line(c.X-r*0.35, c.Y-r*0.5, c.X-r*0.35, c.Y+r*0.5)
			p.Line(c.X+r*0.35, c.Y-r*0.5, c.X+r*0.35, c.Y+r*0.5)
		},
	},
	PortSheave: {roundPort, nil},
	PortEye: {
		func(p *pen.Path, c r2.Point, r float64) { p.Circle(c.X, c.Y-r*0.35, r*0.65) },
		func(p *pen.Path, c r2.Point, r float64) { p.Line(c.X, c.Y+r*0.3, c.X, c.Y+r*1.1) },
	},
	PortSling: {drop, nil},
	PortTrunk: {func(p *pen.Path, c r2.Point, r float64) { // a crescent: the arc round a trunk
		p.Arc(c.X, c.Y, r*1.15, 200, 320)
		p.Arc(c.X, c.Y, r*0.65, 160, -320)
		p.Close()
	}, nil},
	PortRated: {roundPort, func(p *pen.Path, c r2.Point, r float64) {
		p.Line(c.X-r*0.6, c.Y, c.X+r*0.6, c.Y)
		p.Line(c.X, c.Y-r*0.6, c.X, c.Y+r*0.6)
	}},
}

func roundPort(p *pen.Path, c r2.Point, r float64) { p.Circle(c.X, c.Y, r) }

// drop is a drop, its point up.
func drop(p *pen.Path, c r2.Point, r float64) {
	p.MoveTo(c.X, c.Y-r*1.15)
	p.CubeTo(c.X+r*0.35, c.Y-r*0.5, c.X+r, c.Y-r*0.1, c.X+r*0.9, c.Y+r*0.35)
	p.CubeTo(c.X+r*0.75, c.Y+r*1.15, c.X-r*0.75, c.Y+r*1.15, c.X-r*0.9, c.Y+r*0.35)
	p.CubeTo(c.X-r, c.Y-r*0.1, c.X-r*0.35, c.Y-r*0.5, c.X, c.Y-r*1.15)
	p.Close()
}

// portLabels note the name of the point under the pointer, or why it is
// refused.
func (d *drawing) portLabels() {
	for i := range d.o.Ports {
		m := &d.o.Ports[i]
		if m.Label == "" || m.State != PortUnder && m.State != PortRefused {
			continue
		}
		f := pickBox
		if m.State == PortRefused {
			f = dashBox
		}
		d.labels.add(caption{Wish: label.Wish{Key: "port " + m.Port.String(), Rank: label.Live, At: d.at(m.At), Clear: d.sy(portUnder), Must: true},
			frame: f, lines: []textLine{{m.Label, d.text.mid, true, d.c.Ink}}})
	}
}
