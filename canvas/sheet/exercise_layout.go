package sheet

import (
	"kedge/canvas/exercise"
	"kedge/solver/plan"
)

// exerciseLayout is how an exercise lies on its pages.
type exerciseLayout struct {
	x      *exercise.Exercise
	h      float64 // of the drawing
	known  bool    // what is known stands under the drawing, else on the next page
	asking bool    // so do the questions
}

// exerciseOf works the exercise of the plan in use out, once for a scale.
func (m *maker) exerciseOf(n float64) (*exercise.Exercise, error) {
	if m.work != nil && m.work.N == n {
		return m.work, nil
	}
	x, err := exercise.Of(m.p, m.rig, m.w).Work(m.o.Questions, m.o.Blanks, n)
	if err == nil {
		m.work, m.b.Giveaways = x, x.Gives
	}
	return x, err
}

// alone is the plan without people: they are no part of an exercise, and the
// drawing is the larger.
func alone(p *plan.Plan) *plan.Plan {
	q := *p
	q.Site.People = nil
	return &q
}

// exerciseExtent is what is on the drawing of an exercise: the rig shown, and
// every rig that a question asks about.
func (m *maker) exerciseExtent() (extent, error) {
	p := m.p
	defer func() { m.p = p }()
	m.p = alone(p)
	return m.extent()
}

// layExercise finds the largest scale at which the drawing fits on a page: with
// what is known and the questions, or if that gives a larger one, without. The
// key has the same scale, so no band of a key is counted in.
func (m *maker) layExercise() (exerciseLayout, error) {
	e, err := m.exerciseExtent()
	if err != nil {
		return exerciseLayout{}, err
	}
	b := m.bodyOf(&Page{W: m.pageW(), H: m.pageH(), Variant: m.variant})
	free := b.h - headingRoom - nameRoom
	var last error
	for _, n := range scales {
		if m.o.Scale != 0 && n != m.o.Scale {
			continue
		}
		need := e.h()*mmPerM/n + 2*askRoomY
		if e.w()*mmPerM/n+2*askRoomX > b.w || need > free {
			continue
		}
		x, err := m.exerciseOf(n)
		if err != nil {
			last = err
			break // a smaller drawing is measured no better
		}
		known, asks := m.knownHeight(x, b.w), m.asksHeight(x)
		switch {
		case need+known+asks <= free:
			return exerciseLayout{x, min(free-known-asks, max(need, free*0.5)), true, true}, nil
		case need+known <= free:
			return exerciseLayout{x, free - known, true, false}, nil
		}
		return exerciseLayout{x, free, false, false}, nil
	}
	switch {
	case last != nil:
		return exerciseLayout{}, last
	case m.o.Scale != 0:
		return exerciseLayout{}, m.frameTooLarge(e, m.o.Scale)
	}
	return exerciseLayout{}, m.tooLarge(e)
}

func (m *maker) knownHeight(x *exercise.Exercise, w float64) float64 {
	h := headLead + 2.0
	for _, s := range x.Known {
		h += float64(len(wrap(s, letters(textEm, false), w))) * lead
	}
	return h + 2
}

func (m *maker) asksHeight(x *exercise.Exercise) float64 {
	n := 0
	for i := range x.Asked {
		if !x.Asked[i].Drawn {
			n++
		}
	}
	return float64(n) * askLead
}
