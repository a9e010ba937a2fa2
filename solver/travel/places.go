package travel

import (
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// Places are up to three places each for an operator and a spotter: outside all zones of the
// whole pull, in sight of each other, of the winches and of the rig's casualty from where it
// is drawn to where the pull ends, by the way that it takes; none where a zone is missing.
func (a *Answer) Places(p *plan.Plan) zone.Places {
	if a.Assessment == nil {
		return zone.Places{}
	}
	at, ok := Trace(p, a.Rig)
	if !ok {
		return zone.Places{}
	}
	see := []plan.Point{at(0)}
	if a.EndM > 0 {
		see = append(see, at(a.EndM/2), at(a.EndM))
	}
	return a.Assessment.Places(see)
}
