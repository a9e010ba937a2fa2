package sheet

import (
	"errors"
	"math"
	"math/rand/v2"

	"kedge/canvas/exercise"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// maxTries bounds how often a variant is drawn anew, sameScale for how many of
// them its drawing has to be as large as that of the plan itself. (ours)
const (
	maxTries  = 60
	sameScale = 40
)

// exercises adds exercise, key and usual mistakes, of every variant.
func (m *maker) exercises(base *plan.Plan) error {
	var kinds []Kind
	for _, k := range m.o.Sheets {
		if k.ofExercise() {
			kinds = append(kinds, k)
		}
	}
	if len(kinds) == 0 {
		return nil
	}
	rig := m.o.Rig
	drawn := m.asDrawn() // what is measured on the drawing
	m.take(base, rig, drawn)
	if m.o.Variants <= 1 {
		if len(m.o.Class) > 0 {
			m.student = m.o.Class[0]
		}
		if err := m.exerciseKinds(kinds); err != nil {
			return err
		}
		m.answered()
		return nil
	}
	vary := m.o.Vary
	if vary.IsZero() {
		vary = exercise.UsualVary()
	}
	if err := vary.Check(); err != nil {
		return err
	}
	scale := math.Inf(1)
	if l, err := m.layExercise(); err == nil {
		scale = l.x.N
	}
	for i := 1; i <= m.o.Variants; i++ {
		m.variant, m.student = i, ""
		if i <= len(m.o.Class) {
			m.student = m.o.Class[i-1]
		}
		if err := m.drawVariant(base, rig, vary, i, scale); err != nil {
			return err
		}
		if err := m.exerciseKinds(kinds); err != nil {
			return err
		}
		m.answered()
		m.b.Variants = append(m.b.Variants, m.p)
	}
	m.take(base, rig, drawn)
	m.variant, m.student = 0, ""
	return nil
}

// answered notes the answers of the exercise in use.
func (m *maker) answered() {
	if m.work == nil {
		return
	}
	for i := range m.work.Asked {
		a := &m.work.Asked[i]
		plus := a.Tol
		if a.Unit == "" {
			plus = 0
		}
		m.b.Answers = append(m.b.Answers, Answer{Question: a.Question, Variant: m.variant, N: i + 1, Drawn: a.Drawn,
			Asks: a.Text, Right: a.Answer, Also: a.Also, X: a.X, Plus: plus})
	}
}

func (m *maker) exerciseKinds(kinds []Kind) error {
	for i, k := range kinds {
		var err error
		if k == Errors {
			err = m.mistakes()
		} else {
			err = m.exercisePages(k)
		}
		if last := k.forTeacher() && i == len(kinds)-1 || k == Exercise && !m.several(false, m.variant); err == nil && last {
			err = m.back(k)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// drawVariant takes a plan of the variant into use: the first drawn whose
// questions all have an answer, by preference at no smaller a scale than 1 :
// scale.
func (m *maker) drawVariant(base *plan.Plan, rig plan.ID, vary exercise.Vary, i int, scale float64) error {
	random := rand.New(rand.NewPCG(m.o.Seed, uint64(i)))
	var last error
	for try := range maxTries {
		if err := m.ctx.Err(); err != nil {
			return err
		}
		p := exercise.Varied(base, rig, vary, random)
		a := solver.Assess(p, rig)
		if a.Status != part.Within || !a.Moves {
			m.b.Redrawn++
			last = exercise.Problem(m.w, 1, m.label("why-not-computed"))
			continue
		}
		m.take(p, rig, a)
		l, err := m.layExercise()
		if err == nil {
			if l.x.N <= scale || try >= sameScale {
				return nil
			}
			m.b.Redrawn++
			continue
		}
		if !errors.Is(err, exercise.ErrQuestion) && !errors.Is(err, ErrTooLarge) {
			return err
		}
		m.b.Redrawn++
		last = err
	}
	var said interface{ Sentence() string }
	if !errors.As(last, &said) {
		return last
	}
	return &trouble{last, m.label("why-variant", part.Count("n", i), part.Count("tries", maxTries), part.Text("why", said.Sentence()))}
}
