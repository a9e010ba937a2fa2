package exercise

import (
	"errors"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// What callers branch on.
var (
	// ErrOption says that what is asked for is not there.
	ErrOption = errors.New("sheet: option")
	// ErrQuestion says that a question cannot be answered from its page.
	ErrQuestion = errors.New("sheet: question")
)

// mmPerM is a metre in the millimetres of paper.
const mmPerM = 1000.0

// Model is a rig, solved, that questions are asked about.
type Model struct {
	p     *plan.Plan
	rig   plan.ID
	r     *plan.Rig // never nil
	a     *solver.Assessment
	w     *words.Words
	names words.Names    // things and parts
	whole *travel.Answer // the whole pull; nil until it is asked for
}

// Of solves a rig.
func Of(p *plan.Plan, rig plan.ID, w *words.Words) *Model {
	m := &Model{p: p, rig: rig, r: &plan.Rig{}, a: solver.Assess(p, rig), w: w}
	if r, ok := p.Rig(rig); ok {
		m.r = r
	}
	m.names = w.Naming(m.a, w.Names(p, rig))
	return m
}

// label is a fixed text of the sheets.
func (m *Model) label(id string, values ...part.Value) string {
	return m.w.Label("sheet-"+id, values...)
}

// thing is the name of a thing or part.
func (m *Model) thing(id plan.ID) string {
	return m.w.Value(part.Value{Unit: part.UnitThing, Text: string(id)}, m.names)
}

// figure is a load without its unit.
func (m *Model) figure(f quantity.Force) string {
	return m.w.Written(quantity.FormatForce(f, m.w.System(), quantity.AsLoad)).Number
}

// limitFigure is a limit without its unit.
func (m *Model) limitFigure(l part.Limit) string {
	if !l.Known {
		return m.w.Label("no-rating")
	}
	return m.w.Written(quantity.FormatForce(l.Force, m.w.System(), quantity.AsLimit)).Number
}
