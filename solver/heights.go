package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// heights finds the points of vehicles in the pull of which nobody entered how
// high, or how far off the middle line, they sit.
// Where lines bear such a point counts as on the ground, the careful end; the
// rules that turn on how a line rises, and at which lever it pulls, have no such
// end and are not decided.
func (a *assessor) heights() {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		lack := func(member string) {
			part.NotDecided(a.found(), a.heightRule(v), v.ID, part.Lack{Thing: v.ID, Member: member})
		}
		if v.Winch != nil && a.winches(v.ID) {
			if !(v.Winch.Height > 0) {
				lack("winch.height_m")
			}
			if !v.Winch.Left.Known() {
				lack("winch.left_m")
			}
		}
		for k := range v.Recovery {
			rp := &v.Recovery[k]
			if port := (plan.Port{Thing: v.ID, Point: rp.ID}); !a.g.used(port) && !a.restrainedAt(atPort(port)) {
				continue
			}
			if !(rp.Height > 0) {
				lack("recovery_points." + string(rp.ID) + ".height_m")
			}
			if !rp.Left.Known() {
				lack("recovery_points." + string(rp.ID) + ".left_m")
			}
		}
	}
}

// heightRule is the rule that wants the height of a point of v: whether the line
// draws the pickets of an anchor out, else whether a vehicle that must stand
// slides, else whether the casualty tips.
func (a *assessor) heightRule(v *plan.Vehicle) string {
	for i := range a.g.p.Site.Anchors {
		if t := &a.g.p.Site.Anchors[i]; t.Kind == plan.AnchorPickets && a.g.touches(t.ID) {
			return "pickets-lifted"
		}
	}
	if v == a.g.casualty {
		return "tips-sideways"
	}
	return "vehicle-slides"
}
