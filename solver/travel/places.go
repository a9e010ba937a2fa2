package travel

import (
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// Places are up to three places each for an operator and a spotter: outside all zones of the
// whole pull, in sight of each other, of the winches and of the casualty from where it is
// drawn to where the pull ends; none where a zone is missing.
func (a *Answer) Places(p *plan.Plan) zone.Places {
	v := p.Casualty()
	if v == nil || a.Assessment == nil {
		return zone.Places{}
	}
	see := []plan.Point{v.At}
	if w, known := v.WayLine(); known && a.EndM > 0 {
		see = append(see, w.At(a.EndM/2).At, w.At(a.EndM).At)
	}
	return a.Assessment.Places(see)
}
