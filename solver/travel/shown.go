package travel

import (
	"context"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Of is [Assess] of a pull that nobody gives up.
func Of(p *plan.Plan, rig plan.ID) *Answer {
	a, _ := Assess(context.Background(), p, rig, nil) // the one error there is, is the context's
	return a
}

// Whole is [Of] without its moments.
func Whole(p *plan.Plan, rig plan.ID) *solver.Assessment { return Of(p, rig).Assessment }

// Shown is the answer for the whole pull over the picture of one moment of it, s
// metres along: lines, blocks and slings lie as they do there. A place beyond what
// was followed shows the last that was.
func (a *Answer) Shown(p *plan.Plan, rig plan.ID, s float64) *solver.Assessment {
	s = a.within(s)
	if s == 0 {
		return a.Assessment
	}
	m := solver.Assess(At(p, rig, s), rig)
	out := *a.Assessment
	out.Stretches, out.Nodes, out.Slings = m.Stretches, m.Nodes, m.Slings
	return &out
}

// within is s within what was followed.
func (a *Answer) within(s float64) float64 { return min(max(s, 0), a.EndM) }

// Explain is [solver.Explain] of a part where an answer for the whole pull says it is
// worst, so that the sum ends in the figure shown.
func Explain(a *solver.Assessment, p *plan.Plan, rig plan.ID, id string) (*part.Sum, error) {
	s := 0.0
	if q, ok := a.Part(id); ok {
		s = q.AtM
	}
	return solver.Explain(At(p, rig, s), rig, id)
}
