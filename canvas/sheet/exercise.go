package sheet

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// exercise is the questions of one variant, worked out.
type exercise struct {
	n        float64 // of the drawing's scale 1 : n
	asked    []asked
	blank    map[string]bool // figures left blank
	hidden   map[string]bool // figures that would give a blank away, or are not given
	gives    []Giveaway
	known    []string // what is printed as known
	compares bool     // a question compares all parts: no figure is given
	other    []plan.ID
}

// Giveaway is a figure that gives the answer of a question away. It is left off
// the exercise.
type Giveaway struct {
	Question int    // from 1; 0: a blank of the drawing
	Blank    string // the part asked about
	Part     string // the part whose figure gives it away
}

// exerciseOf works the exercise of the plan in use out, once.
func (m *maker) exerciseOf(n float64) (*exercise, error) {
	if m.work != nil && m.work.n == n {
		return m.work, nil
	}
	x := &exercise{n: n, blank: map[string]bool{}, hidden: map[string]bool{}}
	questions := m.o.Questions
	bare := len(questions) == 0 && len(m.o.Blanks) == 0
	if bare {
		questions = m.usualQuestions(n)
	}
	if len(questions) == 0 && len(m.o.Blanks) == 0 {
		return nil, &QuestionProblem{1, m.label("why-not-computed")}
	}
	for i, q := range questions {
		a, why := m.answer(q, x)
		if why != "" {
			return nil, &QuestionProblem{i + 1, why}
		}
		x.asked = append(x.asked, a)
	}
	for _, id := range m.o.Blanks {
		if slices.ContainsFunc(x.asked, func(a asked) bool { return a.Kind == AskLoad && a.Part == id }) {
			x.blank[id] = true
			continue
		}
		a, why := m.answer(Question{Kind: AskLoad, Part: id}, x)
		if why != "" {
			return nil, &QuestionProblem{len(x.asked) + 1, why}
		}
		a.drawn = true
		x.asked = append(x.asked, a)
		x.blank[id] = true
	}
	m.giveaways(x, bare)
	m.givens(x)
	m.work = x
	m.b.Giveaways = x.gives
	return x, nil
}

// usualQuestions are asked if nobody says which: the angle at every block, the
// pull of the winch line, the load of every block, the part used most.
func (m *maker) usualQuestions(n float64) []Question {
	var all []Question
	try := func(q Question) {
		if len(all) < 8 {
			if _, why := m.answer(q, &exercise{n: n, blank: map[string]bool{}}); why == "" {
				all = append(all, q)
			}
		}
	}
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; p.Kind == part.KindBlock {
			try(Question{Kind: AskAngle, Part: p.ID})
		}
	}
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; p.Kind == part.KindStretch && p.Index == 0 {
			try(Question{Kind: AskLoad, Part: p.ID})
		}
	}
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; p.Kind == part.KindBlock {
			try(Question{Kind: AskLoad, Part: p.ID})
		}
	}
	try(Question{Kind: AskWeakest})
	return all
}

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
		}, x.n, true)
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
		a.text, a.unit = m.label("ask-load", text("part", m.w.PartName(p, m.names))), unit
		a.x, a.answer = float64(p.Move.Force), m.w.Load(p.Move.Force)
		if a.answer == m.w.Load(m.a.Resistance.Planned) {
			return a, m.label("why-given")
		}
		a.tol = m.tolerance(m.p, m.rig, loadOf(p.ID), x.n, false)
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
		a.text, a.unit = m.label("ask-what-if", text("rig", plan.RigName(m.p, i)), text("part", m.w.PartName(p, names))), unit
		a.x, a.answer = float64(p.Move.Force), m.w.Load(p.Move.Force)
		a.tol = m.tolerance(m.p, q.Rig, loadOf(p.ID), x.n, false)
		if sum, err := solver.Explain(m.p, q.Rig, p.ID); err == nil {
			a.sums = m.w.Sum(sum, names)
		}
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

// anglesOn tells whether every block of a rig is drawn large enough to be
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
	a.answer = m.label("answer-used", text("part", m.w.PartName(top, m.names)), text("used", m.w.UsedOf(top)))
	a.Part = top.ID
	a.x = top.Used
	var also []string
	for _, p := range parts[1:] {
		if p.Used >= closeShare*top.Used {
			also = append(also, m.label("answer-used", text("part", m.w.PartName(p, m.names)), text("used", m.w.UsedOf(p))))
		}
	}
	a.accept = strings.Join(also, "; ")
	for _, p := range parts[:min(3, len(parts))] {
		a.sums = append(a.sums, m.label("sum-used", text("part", m.w.PartName(p, m.names)), text("load", m.w.LoadOf(p.Move)), text("limit", m.w.LimitOf(p.Limit)), text("used", m.w.UsedOf(p))))
	}
	low := slices.MinFunc(parts, func(p, q *part.Part) int { return cmp.Compare(p.Limit.Force, q.Limit.Force) })
	if low != top {
		a.wrong = append(a.wrong, m.label("wrong-lowest-limit", text("figure", m.w.PartName(low, m.names))))
	}
	x.compares = true
	return a, ""
}

func (m *maker) answerFirst(a asked, x *exercise) (asked, string) {
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

// giveaways finds the printed figures that give an answer away, and takes them
// off the exercise. With bare, no figure is given at all.
func (m *maker) giveaways(x *exercise, bare bool) {
	number := func(p *part.Part) string { return m.loadFigure(p.Move) }
	for i := range m.a.Parts {
		p := &m.a.Parts[i]
		if x.blank[p.ID] {
			continue
		}
		if bare || x.compares {
			x.hidden[p.ID] = true
		}
		if !p.Move.Known {
			continue
		}
		for k := range x.asked {
			a := &x.asked[k]
			if a.Kind != AskLoad {
				continue
			}
			if q, ok := m.a.Part(a.Part); ok && number(q) == number(p) {
				x.hidden[p.ID] = true
				if bare {
					continue // nothing is given: nothing is given away
				}
				n := k + 1
				if a.drawn {
					n = 0
				}
				x.gives = append(x.gives, Giveaway{n, a.Part, p.ID})
			}
		}
	}
}

// keepAngles are the angles between the stretches for which it is printed what
// a block keeps, degrees.
var keepAngles = []float64{30, 60, 90, 120, 150}

// keeps is what a block keeps of the pull at an angle between its stretches, of
// what it keeps at a half turn:
//
//	κ = (1 − k)/(1 + k),  a = 1 + κ² cos θ,  b = 1 − κ²,  keeps = (a − √(a² − b²))/b
//
// Source: friction at the pin by the load on it, as package statics has it.
func keeps(k, angleDeg float64) float64 {
	kappa := (1 - k) / (1 + k)
	a, b := 1+kappa*kappa*math.Cos(angleDeg*math.Pi/180), 1-kappa*kappa
	return (a - math.Sqrt(max(a*a-b*b, 0))) / b
}

// givens are the lines of what is known.
func (m *maker) givens(x *exercise) {
	w := m.w
	add := func(s string) { x.known = append(x.known, s) }
	add(m.label("known-resistance", number("load", part.UnitForce, float64(m.a.Resistance.Planned))))
	if v := m.p.Casualty(); v != nil && v.Mass > 0 {
		add(m.label("known-mass", text("thing", m.thing(v.ID)), text("mass", w.Mass(v.Mass+v.Load))))
	}
	for _, rig := range append([]plan.ID{m.rig}, x.other...) {
		r, ok := m.p.Rig(rig)
		if !ok {
			continue
		}
		names := w.Names(m.p, rig)
		m.knownBlocks(r, names, add)
		for i := range r.Slings {
			s := &r.Slings[i]
			add(m.label("known-sling", text("thing", names(s.ID)), text("length", w.Dimension(s.Length))))
		}
	}
	unit := text("unit", w.System().Force().String())
	if slices.ContainsFunc(x.asked, func(a asked) bool { return a.Kind == AskWeakest }) {
		var all []string
		for _, p := range m.compared(false) {
			all = append(all, w.PartName(p, m.names)+": "+m.limitFigure(p.Limit))
		}
		add(m.label("known-limits", unit, text("list", strings.Join(all, "; "))))
	}
	if slices.ContainsFunc(x.asked, func(a asked) bool { return a.Kind == AskFirst }) {
		var all []string
		for _, p := range m.compared(true) {
			if p.Ultimate.Known {
				all = append(all, w.PartName(p, m.names)+": "+quantity.FormatForce(p.Ultimate.Low, w.System(), quantity.AsLimit).Number)
			}
		}
		add(m.label("known-ultimates", unit, text("list", strings.Join(all, "; "))))
	}
	add(m.label("known-how"))
}

func (m *maker) knownBlocks(r *plan.Rig, names func(plan.ID) string, add func(string)) {
	for i := range r.Blocks {
		b := &r.Blocks[i]
		if b.Kind == plan.BlockRing {
			for k := range r.Lines {
				l := &r.Lines[k]
				if slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == b.ID }) {
					add(m.label("known-ring", text("thing", names(b.ID)), number("mu", part.UnitNone, gear.RingFriction(b, l))))
					break
				}
			}
			continue
		}
		k := gear.SheaveEfficiency(b)
		var all []string
		for _, d := range keepAngles {
			all = append(all, itoa(int(d))+"° "+m.w.Value(part.Value{X: keeps(k, d)}, nil))
		}
		add(m.label("known-block", text("thing", names(b.ID)), number("k", part.UnitNone, k), text("list", strings.Join(all, ", "))))
	}
}
