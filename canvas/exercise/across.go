package exercise

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// byDirection are the kinds of part whose load follows from a stretch and from
// how the vehicle it ends on stands: what slides it, what tips it, what its
// fairlead takes. Their questions are asked for the load, not for a limit.
var byDirection = []part.Kind{part.KindSlide, part.KindTip, part.KindFairlead}

// mostSteepDeg is how steep ground and lines may lie for a drawing seen from
// above to give the answer: its cosine is 0.996, within [leastTolerance]. (ours)
const mostSteepDeg = 5.0

// level reports whether what is measured on the drawing is what there is: else why
// not.
func (m *Model) level() (why string) {
	slope, known := m.p.Site.Ground.Slope.Get()
	if !known {
		return m.label("why-slope-unknown")
	}
	if slope > mostSteepDeg {
		return m.label("why-slope", part.Text("slope", m.w.Angle(slope)))
	}
	for i := range m.a.Stretches {
		s := &m.a.Stretches[i]
		d := s.B.Sub(s.A)
		if steep := math.Atan2(math.Abs(d.Z), math.Hypot(d.X, d.Y)) * 180 / math.Pi; !(steep <= mostSteepDeg) {
			return m.label("why-steep", part.Text("part", m.partNamed(s.Part)), part.Text("angle", m.w.Angle(quantity.Degrees(steep))))
		}
	}
	return ""
}

func (m *Model) partNamed(id string) string {
	if p, ok := m.a.Part(id); ok {
		return m.w.PartName(p, m.names)
	}
	return id
}

// ending is a stretch that ends on a vehicle: its load, and where it pulls.
type ending struct {
	load quantity.Force
	away r3.Vector // level, from the vehicle along the stretch
}

// endings are the ends of stretches at a vehicle, and at blocks that are hooked
// on to it.
func (m *Model) endings(thing plan.ID) []ending {
	var all []ending
	for i := range m.a.Stretches {
		s := &m.a.Stretches[i]
		p, ok := m.a.Part(s.Part)
		if !ok || !p.Move.Known {
			continue
		}
		d := s.B.Sub(s.A)
		d.Z = 0
		if endsOn(m.r, s.PortA, thing) {
			all = append(all, ending{p.Move.Force, d})
		}
		if endsOn(m.r, s.PortB, thing) {
			all = append(all, ending{p.Move.Force, r3.Vector{X: -d.X, Y: -d.Y}})
		}
	}
	return all
}

// endsOn reports whether a line's port is on a thing, or on a block hooked on to it.
func endsOn(r *plan.Rig, port plan.Port, thing plan.ID) bool {
	if port.Thing == thing {
		return true
	}
	for i := range r.Blocks {
		if b := &r.Blocks[i]; b.ID == port.Thing && b.Fixed.Thing == thing {
			return true
		}
	}
	for i := range r.Slings {
		if s := &r.Slings[i]; s.Holds.Thing == port.Thing && s.On.Thing == thing {
			return true
		}
	}
	return false
}

// onPaper is the load of a part of [byDirection] worked out on paper, with its
// line; not ok if that is not the solver's figure.
func (m *Model) onPaper(p *part.Part) (line string, ok bool) {
	v, found := m.p.Vehicle(p.Thing)
	ends := m.endings(p.Thing)
	if !found || len(ends) == 0 {
		return "", false
	}
	var got, first float64
	figure := func(x ending) string { return m.figure(x.load) }
	answer := part.Text("answer", m.w.Load(p.Move.Force))
	switch p.Kind {
	case part.KindTip:
		e, n := plan.Heading(v.Bearing)
		terms := ""
		for i, x := range ends {
			across := e*x.away.Y - n*x.away.X
			off := math.Atan2(math.Abs(across), math.Abs(e*x.away.X+n*x.away.Y)) * 180 / math.Pi
			sign := 1.0
			if across < 0 {
				sign = -1
			}
			share := sign * float64(x.load) * math.Sin(off*math.Pi/180)
			if i > 0 {
				terms += map[bool]string{true: " + ", false: " − "}[share*first >= 0]
			} else {
				first = share
			}
			got += share
			terms += figure(x) + " × sin " + m.w.Angle(quantity.Degrees(off))
		}
		got = math.Abs(got)
		line = m.label("way-across", part.Text("terms", terms), answer)
	case part.KindFairlead:
		spot, has := v.PortPlace(plan.PortWinch)
		if !has || spot.AxisAssumed || len(ends) != 1 {
			return "", false
		}
		e, n := plan.Heading(spot.Axis)
		off := part.Angle(ends[0].away, r3.Vector{X: e, Y: n})
		got = 2 * float64(ends[0].load) * math.Sin(off.Radians()/2)
		line = m.label("way-fairlead", part.Text("load", figure(ends[0])), part.Text("angle", m.w.Angle(off)), answer)
	default:
		if len(ends) != 1 {
			return "", false
		}
		got, line = float64(ends[0].load), m.label("way-pull-of", answer)
	}
	return line, math.Abs(got/float64(p.Move.Force)-1) <= methodSlack
}

// askOf is how a part's load is asked for.
func (m *Model) askOf(p *part.Part) string {
	id := "ask-load"
	switch p.Kind {
	case part.KindTip:
		id = "ask-tip"
	case part.KindSlide:
		id = "ask-slide"
	case part.KindFairlead:
		id = "ask-fairlead"
	}
	return m.label(id, part.Text("part", m.w.PartName(p, m.names)), part.Text("thing", m.thing(p.Thing)))
}

// directionWay is the way on paper to the load of a part of [byDirection]: how
// the stretch comes about, then the part.
func (m *Model) directionWay(p *part.Part) []string {
	line, ok := m.onPaper(p)
	if !ok {
		return nil
	}
	for i := range m.a.Stretches {
		s := &m.a.Stretches[i]
		if q, ok := m.a.Part(s.Part); ok && (endsOn(m.r, s.PortA, p.Thing) || endsOn(m.r, s.PortB, p.Thing)) {
			return append(m.paperWay(q), line)
		}
	}
	return []string{line}
}
