package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// heights finds the points of vehicles in the pull of which nobody entered how
// high, or how far off the middle line, they sit. Where lines bear such a point
// counts as on the ground, the conservative end; the rules that turn on how a line
// rises, and at which lever it pulls, have no such end and are not decided.
func (a *laying) heights() {
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		want := func(p plan.Port) {
			a.placeLacks(p, func(l part.Lack) {
				for _, rule := range a.heightRules(v) {
					part.NotDecided(a.found(), rule, v.ID, l)
				}
			})
		}
		if v.Winch != nil && a.winches(v.ID) {
			want(plan.Port{Thing: v.ID, Point: plan.PortWinch})
		}
		for k := range v.Recovery {
			port := plan.Port{Thing: v.ID, Point: v.Recovery[k].ID}
			if a.g.used(port) || a.restrainedAt(atPort(port)) {
				want(port)
			}
		}
	}
}

// heightLack is the height that a point or fairlead of a vehicle lacks; false:
// it has one, or is none of a vehicle.
func (a *resolving) heightLack(p plan.Port) (l part.Lack, lacks bool) {
	v := a.g.things.Vehicle(p.Thing)
	if v == nil {
		return l, false
	}
	if p.Point == plan.PortWinch {
		return part.Lack{Thing: v.ID, Member: "winch.height_m"}, v.Winch != nil && !(v.Winch.Height > 0)
	}
	if rp := v.RecoveryPoint(p.Point); rp == nil || rp.Height > 0 {
		return l, false
	}
	return part.Lack{Thing: v.ID, Member: "recovery_points." + string(p.Point) + ".height_m"}, true
}

// sideLack is how far left a point or fairlead of a vehicle sits where nobody
// entered it; false: it was, or it is none of a vehicle.
func (a *resolving) sideLack(p plan.Port) (l part.Lack, lacks bool) {
	v := a.g.things.Vehicle(p.Thing)
	if v == nil {
		return l, false
	}
	if p.Point == plan.PortWinch {
		return part.Lack{Thing: v.ID, Member: "winch.left_m"}, v.Winch != nil && !v.Winch.Left.Known()
	}
	if rp := v.RecoveryPoint(p.Point); rp == nil || rp.Left.Known() {
		return l, false
	}
	return part.Lack{Thing: v.ID, Member: "recovery_points." + string(p.Point) + ".left_m"}, true
}

// placeLacks tells what nobody entered of where a point or fairlead of a vehicle sits: how
// high, and how far left.
func (a *resolving) placeLacks(p plan.Port, tell func(part.Lack)) {
	if l, lacks := a.heightLack(p); lacks {
		tell(l)
	}
	if l, lacks := a.sideLack(p); lacks {
		tell(l)
	}
}

// heightRules are the rules that want the place of a point of v: whether the line
// draws out what an anchor is made of, whether a vehicle that must stand slides,
// whether the casualty tips, how wide a bridle opens, and which of its legs carry.
func (a *laying) heightRules(v *plan.Vehicle) []string {
	rules := []string{"vehicle-slides"}
	if v == a.g.casualty {
		rules[0] = "tips-sideways"
	}
	for i := range a.g.p.Site.Anchors {
		t := &a.g.p.Site.Anchors[i]
		if k := plan.AnchorKindOf(t.Kind); k != nil && k.Lifted != "" && a.g.touches(t.ID) {
			rules = append(rules, k.Lifted)
		}
	}
	for i := range a.g.r.Shackles {
		if k := &a.g.r.Shackles[i]; len(k.Joins) == 0 && a.g.inPath(k.ID) {
			return append(rules, "bridle-wide", "shackle-legs-wide", "leg-takes-up", "slack-sling")
		}
	}
	return rules
}
