package sheet

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
func (m *maker) answer(q Question, x *exercise) (a asked, why string) {
	a = asked{Question: q}
	unit := m.w.System().Force().String()
	switch q.Kind {
	case AskAngle:
		p, why := m.derivable(m.a, q.Part)
		if why != "" {
			return a, why
		}
		if p.Kind != part.KindBlock || !(p.Angle > 0) {
			return a, m.label("why-no-angle")
		}
		if why := m.measurable(m.a, p, x.n); why != "" {
			return a, why
		}
		a.text, a.unit = m.label("ask-angle", text("part", m.w.PartName(p, m.names))), "°"
		a.x, a.answer = float64(p.Angle), m.w.Angle(p.Angle)
		a.tol = m.tolerance(m.p, m.rig, func(s *solver.Assessment) (float64, bool) {
			q, ok := s.Part(p.ID)
			return anglePart(q, ok)
		}, x.n, "", true)
		a.sums = []string{m.label("sum-angle", text("answer", a.answer))}
		a.wrong = []string{m.label("wrong-supplement", text("figure", m.w.Angle(180-p.Angle)))}
	case AskLoad:
		p, why := m.derivable(m.a, q.Part)
		if why != "" {
			return a, why
		}
		if why := m.anglesOn(m.a, x.n); why != "" {
			return a, why
		}
		a.text, a.unit = m.askOf(p), unit
		a.x, a.answer = float64(p.Move.Force), m.w.Load(p.Move.Force)
		if a.answer == m.w.Load(m.a.Resistance.Planned) {
			return a, m.label("why-given")
		}
		a.tol = m.tolerance(m.p, m.rig, loadOf(p.ID), x.n, turns(p), false)
		a.sums = m.method(p)
		a.wrong = m.wrongLoads(m.a, p)
		x.blank[p.ID] = true
	case AskWhatIf:
		i := m.p.RigIndex(q.Rig)
		if i < 0 || q.Rig == m.rig {
			return a, m.label("why-no-rig", text("rig", string(q.Rig)))
		}
		other := solver.Assess(m.p, q.Rig)
		p, why := m.derivable(other, q.Part)
		if why != "" {
			return a, why
		}
		if why := m.anglesOn(other, x.n); why != "" {
			return a, why
		}
		names := m.w.Naming(other, m.w.Names(m.p, q.Rig))
		a.text, a.unit = m.label("ask-what-if", text("rig", m.w.RigName(m.p, i)), text("part", m.w.PartName(p, names))), unit
		a.x, a.answer = float64(p.Move.Force), m.w.Load(p.Move.Force)
		if a.answer == m.w.Load(m.a.Resistance.Planned) {
			return a, m.label("why-given")
		}
		a.tol = m.tolerance(m.p, q.Rig, loadOf(p.ID), x.n, turns(p), false)
		if sum, err := solver.Explain(m.p, q.Rig, p.ID); err == nil {
			a.sums = m.w.Sum(sum, names)
		}
		if here, ok := m.a.Part(q.Part); ok && here.Move.Known && m.w.LoadOf(here.Move) != a.answer {
			a.wrong = append(a.wrong, m.label("wrong-same-rig", text("figure", m.w.LoadOf(here.Move))))
		}
		a.wrong = append(a.wrong, m.wrongLoads(other, p)...)
		if !slices.Contains(x.other, q.Rig) {
			x.other = append(x.other, q.Rig)
		}
	case AskWeakest:
		return m.answerWeakest(a, x)
	case AskFirst:
		return m.answerFirst(a, x)
	default:
		return a, m.label("why-no-kind", text("kind", string(q.Kind)))
	}
	return a, ""
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
func (m *maker) anglesOn(a *solver.Assessment, n float64) (why string) {
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Kind == part.KindBlock && p.Status != part.Slack {
			if why := m.measurable(a, p, n); why != "" {
				return m.w.PartName(p, m.names) + ": " + why
			}
		}
	}
	return ""
}

// closeShare is how near a part's share must be to the highest to count too: a
// reading of two degrees may turn the order round. (ours)
const closeShare = 0.95

func (m *maker) answerWeakest(a asked, x *exercise) (asked, string) {
	parts := m.compared(false)
	if len(parts) < 2 {
		return a, m.label("why-not-computed")
	}
	for _, p := range parts {
		if !p.Known() {
			return a, m.label("why-no-limit", text("part", m.w.PartName(p, m.names)))
		}
		if _, why := m.derivable(m.a, p.ID); why != "" {
			return a, why
		}
	}
	if why := m.anglesOn(m.a, x.n); why != "" {
		return a, why
	}
	slices.SortStableFunc(parts, func(p, q *part.Part) int { return cmp.Compare(q.Used, p.Used) })
	a.text = m.label("ask-weakest")
	top := parts[0]
	a.answer = m.label("answer-used", text("part", m.w.PartName(top, m.names)), text("used", m.w.Share(top.Used)))
	a.Part = top.ID
	a.x = top.Used
	var also []string
	for _, p := range parts[1:] {
		if p.Used >= closeShare*top.Used {
			also = append(also, m.label("answer-used", text("part", m.w.PartName(p, m.names)), text("used", m.w.Share(p.Used))))
		}
	}
	a.accept = strings.Join(also, "; ")
	for _, p := range parts[:min(3, len(parts))] {
		a.sums = append(a.sums, m.label("sum-used", text("part", m.w.PartName(p, m.names)), text("load", m.w.LoadOf(p.Move)), text("limit", m.w.LimitOf(p.Limit)), text("used", m.w.Share(p.Used))))
	}
	low := slices.MinFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Limit.Force, q.Limit.Force) })
	if low != top {
		a.wrong = append(a.wrong, m.label("wrong-lowest-limit", text("figure", m.w.PartName(low, m.names))))
	}
	x.compares = true
	return a, ""
}

func (m *maker) answerFirst(a asked, x *exercise) (asked, string) {
	if why := m.level(m.a); why != "" {
		return a, why
	}
	var parts []*part.Part
	for _, p := range m.compared(true) {
		if p.Kind == part.KindWinch {
			continue // it stalls, it does not give
		}
		if _, ok := p.ToFailure(p.Move); !ok {
			return a, m.label("why-no-ultimate", text("part", m.w.PartName(p, m.names)))
		}
		parts = append(parts, p)
	}
	if len(parts) < 2 || m.a.Status != part.Within || !m.a.Moves {
		return a, m.label("why-not-computed")
	}
	if why := m.anglesOn(m.a, x.n); why != "" {
		return a, why
	}
	share := func(p *part.Part) float64 { s, _ := p.ToFailure(p.Move); return s }
	slices.SortStableFunc(parts, func(p, q *part.Part) int { return cmp.Compare(share(q), share(p)) })
	a.text = m.label("ask-first")
	a.Part = parts[0].ID
	a.answer = m.w.PartName(parts[0], m.names)
	a.x = share(parts[0])
	var also []string
	for _, p := range parts[1:] {
		if share(p) >= closeShare*a.x {
			also = append(also, m.w.PartName(p, m.names))
		}
	}
	a.accept = strings.Join(also, "; ")
	weak := slices.MinFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Ultimate.Low, q.Ultimate.Low) })
	most := slices.MaxFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Move.Force, q.Move.Force) })
	for id, p := range map[string]*part.Part{"wrong-weakest-strength": weak, "wrong-most-loaded": most} {
		if share(p) < closeShare*a.x {
			a.wrong = append(a.wrong, m.label(id, text("figure", m.w.PartName(p, m.names))))
		}
	}
	slices.Sort(a.wrong)
	for _, p := range parts[:min(3, len(parts))] {
		a.sums = append(a.sums, m.label("sum-first", text("part", m.w.PartName(p, m.names)), text("load", m.w.LoadOf(p.Move)),
			number("gives", part.UnitLimit, float64(p.Ultimate.Low)), text("share", m.w.Share(share(p)))))
	}
	x.compares = true
	return a, ""
}

// wrongLoads are figures that come of usual mistakes.
func (m *maker) wrongLoads(a *solver.Assessment, p *part.Part) []string {
	right := m.w.LoadOf(p.Move)
	var all []string
	add := func(id string, f quantity.Force) {
		if s := m.w.Load(f); s != right {
			all = append(all, m.label(id, text("figure", s)))
		}
	}
	r, t := a.Resistance.Planned, a.Move.Tension
	switch p.Kind {
	case part.KindTip:
		for _, e := range m.endings(a, p.Thing) {
			add("wrong-whole", e.load)
			if f := float64(e.load); f > float64(p.Move.Force) {
				add("wrong-cosine", quantity.Force(math.Sqrt(f*f-float64(p.Move.Force*p.Move.Force))))
			}
		}
	case part.KindFairlead:
		for _, e := range m.endings(a, p.Thing) {
			add("wrong-fairlead-pull", e.load)
			add("wrong-fairlead-whole", quantity.Force(2*float64(e.load)*math.Sin(float64(p.Angle)*math.Pi/180)))
		}
	case part.KindBlock, part.KindSling, part.KindShackle, part.KindAnchor:
		add("wrong-twice", 2*t)
		add("wrong-once", t)
		if p.Angle > 0 {
			half := float64(p.Angle) / 2 * math.Pi / 180
			add("wrong-sine", quantity.Force(2*float64(t)*math.Sin(half)))
		}
	default:
		add("wrong-resistance", r)
		add("wrong-half", r/2)
	}
	return all
}
