package exercise

import (
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r3"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// methodSlack is how far the way on paper may be from the solver's figure
// before it is not printed: lines that do not lie level, more than one line.
const methodSlack = 0.02

// method is how a load is worked out on paper, a line a step: what every block
// keeps, the pull that the resistance takes, the part. Where that is not the
// way, the solver's own sum.
func (m *Model) method(p *part.Part) []string {
	if slices.Contains(byDirection, p.Kind) {
		return m.directionWay(p)
	}
	if lines := m.paperWay(p); lines != nil {
		return lines
	}
	derivation, err := solver.Explain(m.p, m.rig, p.ID)
	if err != nil {
		return nil
	}
	from := slices.IndexFunc(derivation.Steps, func(s part.Step) bool { return s.Formula == "to-move" })
	if from < 0 {
		return m.w.Derivation(derivation, m.names)
	}
	own := part.Derivation{Steps: derivation.Steps[from:min(from+2, len(derivation.Steps))]}
	return m.w.Derivation(&own, m.names)
}

// hauled is the line of a rig in which one alone pulls, nil of any other.
func (m *Model) hauled() *plan.Line {
	var l *plan.Line
	for i := range m.r.Lines {
		switch {
		case m.r.Lines[i].Use != plan.UsePull:
		case l != nil:
			return nil
		default:
			l = &m.r.Lines[i]
		}
	}
	return l
}

// stretchesOf are the stretches of the line that pulls, from the winch; none if
// another pulls too, or one is not computed.
func (m *Model) stretchesOf(line plan.ID) (run []*part.Part) {
	for i := range m.a.Parts {
		if q := &m.a.Parts[i]; q.Kind == part.KindStretch && q.Use == "" {
			if q.Thing != line || q.Index != len(run) || !q.Move.Known {
				return nil
			}
			run = append(run, q)
		}
	}
	return run
}

// paperWay is the way on paper of a rig in which one line pulls, nil if it does
// not give the solver's figures.
func (m *Model) paperWay(p *part.Part) []string {
	line := m.hauled()
	if line == nil || p.Use != "" {
		return nil
	}
	run := m.stretchesOf(line.ID)
	v := solver.CasualtyOf(m.p, m.rig)
	if len(run) == 0 || v == nil {
		return nil
	}
	way, ok := v.WayOut()
	if !ok {
		return nil
	}
	w := m.w
	num := func(x float64) string { return w.Value(part.Value{X: math.Round(x*1e3) / 1e3}, nil) }
	var out []string
	keep := make([]float64, len(run)) // of the winch's pull in each stretch
	pull := run[0].Move.Force
	for i, q := range run {
		keep[i] = float64(q.Move.Force / pull)
		if i == 0 {
			continue
		}
		if b, ok := m.a.Part(string(q.From)); ok && b.Kind == part.KindBlock {
			out = append(out, m.label("way-block", part.Text("part", m.w.PartName(b, m.names)), part.Text("angle", w.Angle(b.Angle)), part.Text("keeps", num(keep[i]/keep[i-1]))))
		}
	}
	along, terms := m.alongTerms(line.ID, keep, way, num)
	r := float64(m.a.Resistance.Planned)
	if !(along > 0) || math.Abs(r/along/float64(pull)-1) > methodSlack {
		return nil
	}
	out = append(out, m.label("way-pull", part.Text("load", w.Load(m.a.Resistance.Planned)), part.Text("terms", terms), part.Text("pull", w.Load(pull))))
	switch p.Kind {
	case part.KindStretch:
		if p.Index > 0 {
			out = append(out, m.label("way-stretch", part.Text("pull", w.Load(pull)), part.Text("keeps", num(keep[p.Index])), part.Text("load", w.Load(p.Move.Force))))
		}
		return out
	case part.KindWinch:
		return out
	case part.KindPoint, part.KindEnd:
		if last := run[len(run)-1]; m.figure(last.Move.Force) == m.figure(p.Move.Force) {
			return append(out, m.label("way-stretch", part.Text("pull", w.Load(pull)), part.Text("keeps", num(keep[len(keep)-1])), part.Text("load", w.Load(p.Move.Force))))
		}
		return nil
	}
	if s := m.blockSum(p, run); s != "" {
		return append(out, s)
	}
	return nil
}

// alongTerms is the share of the winch's pull that acts along the way out, over
// all stretches that end on the casualty, and how it is written.
func (m *Model) alongTerms(line plan.ID, keep []float64, way quantity.Degrees, num func(float64) string) (sum float64, terms string) {
	e, n := plan.Heading(way)
	var all []string
	for i := range m.a.Stretches {
		s := &m.a.Stretches[i]
		if s.Line != line || s.Index >= len(keep) {
			continue
		}
		take := func(from, to r3.Vector) {
			d := to.Sub(from)
			d.Z = 0
			off := float64(part.Angle(d, r3.Vector{X: e, Y: n}))
			sum += keep[s.Index] * math.Cos(off*math.Pi/180)
			all = append(all, num(keep[s.Index])+" × cos "+m.w.Angle(quantity.Degrees(off)))
		}
		if endsOn(m.r, s.PortA, m.a.Casualty) {
			take(s.A, s.B)
		}
		if endsOn(m.r, s.PortB, m.a.Casualty) {
			take(s.B, s.A)
		}
	}
	return sum, strings.Join(all, " + ")
}

// blockSum is the load of a block, or of what hangs on to it with the same
// load, by the law of cosines.
func (m *Model) blockSum(p *part.Part, run []*part.Part) string {
	for i := 1; i < len(run); i++ {
		b, ok := m.a.Part(string(run[i].From))
		if !ok || b.Kind != part.KindBlock || m.figure(b.Move.Force) != m.figure(p.Move.Force) {
			continue
		}
		x, y := float64(run[i-1].Move.Force), float64(run[i].Move.Force)
		f := math.Sqrt(x*x + y*y + 2*x*y*math.Cos(b.Angle.Radians()))
		if math.Abs(f/float64(p.Move.Force)-1) > methodSlack {
			continue
		}
		one, two := m.figure(run[i-1].Move.Force), m.figure(run[i].Move.Force)
		return m.label("way-cosines", part.Text("one", one), part.Text("two", two), part.Text("angle", m.w.Angle(b.Angle)), part.Text("load", m.w.Load(p.Move.Force)))
	}
	return ""
}
