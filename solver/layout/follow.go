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
// one. Its figures stay those as drawn.
func (q *pull) follow(w *Way, wayOut quantity.Length) {
	if !(wayOut > 0) {
		return
	}
	n := int(math.Min(followSteps, math.Ceil(float64(wayOut)/followStepM)))
	for i := 1; i <= n; i++ {
		s := wayOut * quantity.Length(i) / quantity.Length(n)
		p := plan.AdvancedOf(w.Plan, q.casualty.ID, s)
		r, ok := p.Rig(w.Rig)
		if !ok {
			return
		}
		if why := against(plan.Draft{Plan: p, Laid: r}, solver.Assess(p, w.Rig)); len(why) > 0 {
			w.Then = why
			return
		}
		w.Lasts = s
	}
}
