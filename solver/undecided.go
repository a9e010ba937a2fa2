package solver

import "kedge/solver/part"

// groundKnown says that what a slope decides is not decided where the slope, or
// where it falls to, is not known: which way each vehicle rolls, slides or
// tips, and what the slope adds to the resistance.
func (a *assessor) groundKnown() {
	if l := a.g.ground.Lacks(); l != "" && len(a.g.p.Site.Vehicles) > 0 {
		part.NotDecided(a.found(), "rolls-by-itself", "", part.Lack{Member: l})
	}
}
