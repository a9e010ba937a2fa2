package layout

import (
	"math"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

const (
	// followStepM is how far apart, in metres of way out, a way is looked at again.
	// (ours: a line swings by a few degrees meanwhile)
	followStepM = 1.0
	// followSteps bounds how often one way is looked at; a longer way out is taken
	// in longer steps. (ours)
	followSteps = 12
	// maxFollowed bounds the ways that are followed, best first: twice as many as
	// are listed, so that one that does not last makes room for one that does.
	maxFollowed = 2 * MaxWays
)

// wayOut is the length of the casualty's way out, 0 if it is not known.
func (q *pull) wayOut() quantity.Length {
	v := q.casualty
	if _, ok := v.WayOut(); !ok || !(v.Stuck.WayLength > 0) {
		return 0
	}
	return v.Stuck.WayLength
}

// follow looks at a way again at steps of the way out, and says how far it stays
// one: until something is against it, or the casualty runs into what stands on its
// way out. Its figures stay those as drawn.
func (q *pull) follow(w *Way, wayOut quantity.Length) {
	if !(wayOut > 0) {
		return
	}
	n := int(math.Min(followSteps, math.Ceil(float64(wayOut)/followStepM)))
	end, meets := (&solver.Moment{Assessment: w.Answer}).Meets()
	for i := 1; i <= n; i++ {
		s := wayOut * quantity.Length(i) / quantity.Length(n)
		if end <= float64(s) {
			w.Lasts, w.Then = quantity.Length(end), []Reason{{ID: ReasonMeets, Finding: meets}}
			return
		}
		p := plan.AdvancedOf(w.Plan, q.casualty.ID, s)
		r, ok := p.Rig(w.Rig)
		if !ok {
			return
		}
		m := solver.Moment{AtM: float64(s), Assessment: solver.Assess(p, w.Rig)}
		if why := against(plan.Draft{Plan: p, Laid: r}, m.Assessment); len(why) > 0 {
			w.Then = why
			return
		}
		if at, f := m.Meets(); at < end {
			end, meets = at, f
		}
		w.Lasts = s
	}
}
