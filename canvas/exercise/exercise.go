package exercise

import (
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Exercise is the questions of one plan, worked out.
type Exercise struct {
	N      float64 // of the drawing's scale 1 : n
	Asked  []Asked
	Blank  map[string]bool // figures left blank
	Hidden map[string]bool // figures that would give a blank away, or are not given
	Gives  []Giveaway
	Known  []string  // what is printed as known
	Other  []plan.ID // other rigs that are asked about

	compares bool // a question compares all parts: no figure is given
}

// Giveaway is a figure that gives the answer of a question away. It is left off
// the exercise.
type Giveaway struct {
	Question int    // from 1; 0: a blank of the drawing
	Blank    string // the part asked about
	Part     string // the part whose figure gives it away
}

// Work works questions and blanks out for a drawing at 1 : n; with neither, the
// usual questions. The error is a [*QuestionProblem].
func (m *Model) Work(questions []Question, blanks []string, n float64) (*Exercise, error) {
	x := &Exercise{N: n, Blank: map[string]bool{}, Hidden: map[string]bool{}}
	bare := len(questions) == 0 && len(blanks) == 0
	if bare {
		questions = m.usualQuestions(n)
	}
	if len(questions) == 0 && len(blanks) == 0 {
		return nil, Problem(m.w, 1, m.label("why-not-computed"))
	}
	for i, q := range questions {
		a, why := m.answer(q, x)
		if why != "" {
			return nil, Problem(m.w, i+1, why)
		}
		x.Asked = append(x.Asked, a)
	}
	for _, id := range blanks {
		if slices.ContainsFunc(x.Asked, func(a Asked) bool { return a.Kind == AskLoad && a.Part == id }) {
			x.Blank[id] = true
			continue
		}
		a, why := m.answer(Question{Kind: AskLoad, Part: id}, x)
		if why != "" {
			return nil, Problem(m.w, len(x.Asked)+1, why)
		}
		a.Drawn = true
		x.Asked = append(x.Asked, a)
		x.Blank[id] = true
	}
	m.giveaways(x, bare)
	m.givens(x)
	return x, nil
}

// usualQuestions are asked if nobody says which: the angle at every block, the
// pull of the winch line, the load of every block, the part used most.
func (m *Model) usualQuestions(n float64) []Question {
	var all []Question
	try := func(q Question) {
		if len(all) < 8 {
			if _, why := m.answer(q, &Exercise{N: n, Blank: map[string]bool{}}); why == "" {
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
func (m *Model) giveaways(x *Exercise, bare bool) {
	number := func(p *part.Part) string { return m.figure(p.Move.Force) }
	for i := range m.a.Parts {
		p := &m.a.Parts[i]
		if x.Blank[p.ID] {
			continue
		}
		if bare || x.compares {
			x.Hidden[p.ID] = true
		}
		if !p.Move.Known {
			continue
		}
		for k := range x.Asked {
			a := &x.Asked[k]
			gives := a.Kind == AskWhatIf && a.Answer == m.w.Load(p.Move.Force)
			if a.Kind == AskLoad {
				q, ok := m.a.Part(a.Part)
				gives = ok && number(q) == number(p)
			}
			if gives {
				x.Hidden[p.ID] = true
				if bare {
					continue // nothing is given: nothing is given away
				}
				n := k + 1
				if a.Drawn {
					n = 0
				}
				x.Gives = append(x.Gives, Giveaway{n, a.Part, p.ID})
			}
		}
	}
}

// Studied is the answer as an exercise shows it: no findings, no zones, no
// limits or states, and no figures but those that are given or asked for. A
// winch's figure stands at its line's first stretch, if it is asked for.
func (x *Exercise) Studied(a *solver.Assessment) *solver.Assessment {
	c := *a
	c.Findings, c.Zones, c.People = nil, nil, nil
	c.Parts = nil
	winch := false
	for i := range a.Parts {
		winch = winch || a.Parts[i].Kind == part.KindWinch && x.Blank[a.Parts[i].ID]
	}
	for i := range a.Parts {
		p := a.Parts[i]
		switch {
		case x.Hidden[p.ID], !slices.Contains(onDrawing, p.Kind) && !x.Blank[p.ID],
			p.Kind == part.KindWinch && !x.Blank[p.ID],
			p.Kind == part.KindStretch && p.Index == 0 && winch:
			continue
		}
		switch p.Status {
		case part.Near, part.Over, part.NoLimit, part.Undecided: // the state is an answer too
			p.Status = part.Within
		}
		p.Limit, p.Ultimate = part.Limit{}, part.Range{}
		p.Move.Side = 0
		p.Loosen = p.Move // what is asked is the pull to move
		c.Parts = append(c.Parts, p)
	}
	c.Worst, c.First, c.Order = -1, -1, nil // they point into the parts
	return &c
}
