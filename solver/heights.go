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
		want := func(p plan.Port) {
			if l, lacks := a.heightLack(p); lacks {
				part.NotDecided(a.found(), a.heightRule(v), v.ID, l)
			}
		}
		if v.Winch != nil && a.winches(v.ID) {
			want(plan.Port{Thing: v.ID, Point: plan.PortWinch})
		}
		for k := range v.Recovery {
			if p := (plan.Port{Thing: v.ID, Point: v.Recovery[k].ID}); a.g.used(p) {
				want(p)
			}
		}
	}
}

// heightLack is the height that a point or fairlead of a vehicle lacks; false:
// it has one, or is none of a vehicle.
func (a *assessor) heightLack(p plan.Port) (l part.Lack, lacks bool) {
	v := a.g.things.Vehicle(p.Thing)
	if v == nil {
		return l, false
	}
	if p.Point == plan.PortWinch {
		return part.Lack{Thing: v.ID, Member: "winch.height_m"}, v.Winch != nil && !(v.Winch.Height > 0)
	}
	rp := v.RecoveryPoint(p.Point)
	return part.Lack{Thing: v.ID, Member: "recovery_points." + string(p.Point) + ".height_m"}, rp != nil && !(rp.Height > 0)
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
