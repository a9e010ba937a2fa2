package sheet

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
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
		return nil, m.problem(1, m.label("why-not-computed"))
	}
	for i, q := range questions {
		a, why := m.answer(q, x)
		if why != "" {
			return nil, m.problem(i+1, why)
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
			return nil, m.problem(len(x.asked)+1, why)
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
			gives := a.Kind == AskWhatIf && a.answer == m.w.Load(p.Move.Force)
			if a.Kind == AskLoad {
				q, ok := m.a.Part(a.Part)
				gives = ok && number(q) == number(p)
			}
			if gives {
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
