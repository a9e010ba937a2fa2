package exercise

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// answer works a question out, or says why it cannot be asked.
func (m *Model) answer(q Question, x *Exercise) (a Asked, why string) {
	a.Question = q
	for _, k := range kinds {
		if k.name == q.Kind {
			why = k.answer(m, &a, x)
			return a, why
		}
	}
	return a, m.label("why-no-kind", part.Text("kind", string(q.Kind)))
}

func (m *Model) answerAngle(a *Asked, x *Exercise) (why string) {
	p, why := m.derivable(a.Part)
	if why != "" {
		return why
	}
	if p.Kind != part.KindBlock || !(p.Angle > 0) {
		return m.label("why-no-angle")
	}
	if why := m.measurable(p, x.N); why != "" {
		return why
	}
	a.Text, a.Unit = m.label("ask-angle", part.Text("part", m.w.PartName(p, m.names))), "°"
	a.X, a.Answer = float64(p.Angle), m.w.Angle(p.Angle)
	a.Tol = m.tolerance(func(s *solver.Assessment) (float64, bool) {
		q, ok := s.Part(p.ID)
		return anglePart(q, ok)
	}, x.N, "", true)
	a.Sums = []string{m.label("sum-angle", part.Text("answer", a.Answer))}
	a.Wrong = []string{m.label("wrong-supplement", part.Text("figure", m.w.Angle(180-p.Angle)))}
	return ""
}

func (m *Model) answerLoad(a *Asked, x *Exercise) (why string) {
	p, why := m.loadAsked(a, x.N, m.a.Resistance.Planned)
	if why != "" {
		return why
	}
	a.Text = m.askOf(p)
	a.Sums = m.method(p)
	a.Wrong = m.wrongLoads(p)
	x.Blank[p.ID] = true
	return ""
}

// answerWhatIf asks for a load in another rig, which is drawn too.
func (m *Model) answerWhatIf(a *Asked, x *Exercise) (why string) {
	i := m.p.RigIndex(a.Rig)
	if i < 0 || a.Rig == m.rig {
		return m.label("why-no-rig", part.Text("rig", string(a.Rig)))
	}
	other := Of(m.p, a.Rig, m.w)
	p, why := other.loadAsked(a, x.N, m.a.Resistance.Planned)
	if why != "" {
		return why
	}
	a.Text = m.label("ask-what-if", part.Text("rig", m.w.RigName(m.p, i)), part.Text("part", m.w.PartName(p, other.names)))
	if derivation, err := solver.Explain(m.p, a.Rig, p.ID); err == nil {
		a.Sums = m.w.Derivation(derivation, other.names)
	}
	if here, ok := m.a.Part(a.Part); ok && here.Move.Known && m.w.LoadOf(here.Move) != a.Answer {
		a.Wrong = append(a.Wrong, m.label("wrong-same-rig", part.Text("figure", m.w.LoadOf(here.Move))))
	}
	a.Wrong = append(a.Wrong, other.wrongLoads(p)...)
	if !slices.Contains(x.Other, a.Rig) {
		x.Other = append(x.Other, a.Rig)
	}
	return ""
}

// loadAsked is the part whose load is asked for, with that load and what it may
// be out by. Given is the load that is printed as known.
func (m *Model) loadAsked(a *Asked, n float64, given quantity.Force) (p *part.Part, why string) {
	p, why = m.derivable(a.Part)
	if why == "" {
		why = m.anglesOn(n)
	}
	if why != "" {
		return nil, why
	}
	a.Unit = m.w.System().Force().String()
	a.X, a.Answer = float64(p.Move.Force), m.w.Load(p.Move.Force)
	if a.Answer == m.w.Load(given) {
		return nil, m.label("why-given")
	}
	a.Tol = m.tolerance(loadOf(p.ID), n, turns(p), false)
	return p, ""
}

func anglePart(q *part.Part, ok bool) (float64, bool) {
	if !ok || !(q.Angle > 0) {
		return 0, false
	}
	return float64(q.Angle), true
}

func loadOf(id string) func(*solver.Assessment) (float64, bool) {
	return func(a *solver.Assessment) (float64, bool) {
		p, ok := a.Part(id)
		if !ok || !p.Move.Known {
			return 0, false
		}
		return float64(p.Move.Force), true
	}
}

// anglesOn reports whether every block of a rig is drawn large enough to be
// measured.
func (m *Model) anglesOn(n float64) (why string) {
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; p.Kind == part.KindBlock && p.Status != part.Slack {
			if why := m.measurable(p, n); why != "" {
				return m.w.PartName(p, m.names) + ": " + why
			}
		}
	}
	return ""
}

// closeShare is how near a part's share must be to the highest to count too: a
// reading of two degrees may turn the order round. (ours)
const closeShare = 0.95

func (m *Model) answerWeakest(a *Asked, x *Exercise) (why string) {
	parts := m.compared(false)
	if len(parts) < 2 {
		return m.label("why-not-computed")
	}
	for _, p := range parts {
		if !p.Known() {
			return m.label("why-no-limit", part.Text("part", m.w.PartName(p, m.names)))
		}
		if _, why := m.derivable(p.ID); why != "" {
			return why
		}
	}
	if why := m.anglesOn(x.N); why != "" {
		return why
	}
	slices.SortStableFunc(parts, func(p, q *part.Part) int { return cmp.Compare(q.Used, p.Used) })
	a.Text = m.label("ask-weakest")
	top := parts[0]
	a.Answer = m.label("answer-used", part.Text("part", m.w.PartName(top, m.names)), part.Text("used", m.w.Share(top.Used)))
	a.Part = top.ID
	a.X = top.Used
	var also []string
	for _, p := range parts[1:] {
		if p.Used >= closeShare*top.Used {
			also = append(also, m.label("answer-used", part.Text("part", m.w.PartName(p, m.names)), part.Text("used", m.w.Share(p.Used))))
		}
	}
	a.Also = strings.Join(also, "; ")
	for _, p := range parts[:min(3, len(parts))] {
		a.Sums = append(a.Sums, m.label("sum-used", part.Text("part", m.w.PartName(p, m.names)), part.Text("load", m.w.LoadOf(p.Move)), part.Text("limit", m.w.LimitOf(p.Limit)), part.Text("used", m.w.Share(p.Used))))
	}
	low := slices.MinFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Limit.Force, q.Limit.Force) })
	if low != top {
		a.Wrong = append(a.Wrong, m.label("wrong-lowest-limit", part.Text("figure", m.w.PartName(low, m.names))))
	}
	x.compares = true
	return ""
}

func (m *Model) answerFirst(a *Asked, x *Exercise) (why string) {
	if why := m.level(); why != "" {
		return why
	}
	var parts []*part.Part
	for _, p := range m.compared(true) {
		if p.Kind == part.KindWinch {
			continue // it stalls, it does not give
		}
		if _, ok := p.ToFailure(p.Move); !ok {
			return m.label("why-no-ultimate", part.Text("part", m.w.PartName(p, m.names)))
		}
		parts = append(parts, p)
	}
	if len(parts) < 2 || m.a.Status != part.Within || !m.a.Moves {
		return m.label("why-not-computed")
	}
	if why := m.anglesOn(x.N); why != "" {
		return why
	}
	share := func(p *part.Part) float64 { s, _ := p.ToFailure(p.Move); return s }
	slices.SortStableFunc(parts, func(p, q *part.Part) int { return cmp.Compare(share(q), share(p)) })
	a.Text = m.label("ask-first")
	a.Part = parts[0].ID
	a.Answer = m.w.PartName(parts[0], m.names)
	a.X = share(parts[0])
	var also []string
	for _, p := range parts[1:] {
		if share(p) >= closeShare*a.X {
			also = append(also, m.w.PartName(p, m.names))
		}
	}
	a.Also = strings.Join(also, "; ")
	weak := slices.MinFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Ultimate.Low, q.Ultimate.Low) })
	most := slices.MaxFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Move.Force, q.Move.Force) })
	for id, p := range map[string]*part.Part{"wrong-weakest-strength": weak, "wrong-most-loaded": most} {
		if share(p) < closeShare*a.X {
			a.Wrong = append(a.Wrong, m.label(id, part.Text("figure", m.w.PartName(p, m.names))))
		}
	}
	slices.Sort(a.Wrong)
	for _, p := range parts[:min(3, len(parts))] {
		a.Sums = append(a.Sums, m.label("sum-first", part.Text("part", m.w.PartName(p, m.names)), part.Text("load", m.w.LoadOf(p.Move)),
			part.Number("gives", part.UnitLimit, p.Ultimate.Low), part.Text("share", m.w.Share(share(p)))))
	}
	x.compares = true
	return ""
}

// wrongLoads are figures that come of usual mistakes.
func (m *Model) wrongLoads(p *part.Part) []string {
	right := m.w.LoadOf(p.Move)
	var all []string
	add := func(id string, f quantity.Force) {
		if s := m.w.Load(f); s != right {
			all = append(all, m.label(id, part.Text("figure", s)))
		}
	}
	r, t := m.a.Resistance.Planned, m.a.Move.Tension
	switch p.Kind {
	case part.KindTip:
		for _, e := range m.endings(p.Thing) {
			add("wrong-whole", e.load)
			if f := float64(e.load); f > float64(p.Move.Force) {
				add("wrong-cosine", quantity.Force(math.Sqrt(f*f-float64(p.Move.Force*p.Move.Force))))
			}
		}
	case part.KindFairlead:
		for _, e := range m.endings(p.Thing) {
			add("wrong-fairlead-pull", e.load)
			add("wrong-fairlead-whole", quantity.Force(2*float64(e.load)*math.Sin(p.Angle.Radians())))
		}
	case part.KindBlock, part.KindSling, part.KindShackle, part.KindAnchor:
		add("wrong-twice", 2*t)
		add("wrong-once", t)
		if p.Angle > 0 {
			half := p.Angle.Radians() / 2
			add("wrong-sine", quantity.Force(2*float64(t)*math.Sin(half)))
		}
	default:
		add("wrong-resistance", r)
		add("wrong-half", r/2)
	}
	return all
}
