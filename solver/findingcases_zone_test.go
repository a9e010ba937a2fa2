package solver_test

import (
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What package zone finds.
var zoneCases = []findingCase{
	{id: "bystander-in-stand-off", raise: person(who(plan.RoleBystander, -20, -20)), clear: person(who(plan.RoleBystander, -60, -84))},
	{id: "bystander-in-stand-off-no-way", raise: do(person(who(plan.RoleBystander, -20, -20)), walled(-20, -20)), clear: walled(-20, -20)},
	{id: "cover-free-text", with: []string{"person-in-stand-off"}, raise: person(covered(strange, -20, -20)), left: []string{"person-in-stand-off"}, clear: person(who(plan.RoleSpotter, -20, -20))},
	{id: "cover-not-there", with: []string{"person-in-stand-off"}, raise: person(covered(plan.CoverGround, -20, -20)), left: []string{"stand-off-covered"}, clear: do(person(covered(plan.CoverGround, -20, -20)), banked(2))},
	{id: "damper-at-join", with: []string{"line-join"}, left: []string{"line-join"}, raise: joined(false), clear: joined(true)},
	{id: "damper-missing", raise: on(func(r *plan.Rig) { r.Dampers = r.Dampers[:1] })},
	{id: "driver-on-foot", raise: person(who(plan.RoleDriver, -60, -84)), left: []string{"person-in-vehicle"}, clear: person(driver(-60, -84))},
	{id: "nobody-at-winch", raise: func(p *plan.Plan) { p.Site.People = p.Site.People[1:] }},
	{id: "operator-bound-to-zone", with: []string{"person-in-stand-off-no-way"}, raise: do(operator(-20, -20), walled(-20, -20), cable(60)), left: []string{"person-in-stand-off"}, clear: do(operator(-20, -20), cable(60))},
	{id: "operator-bound-to-zone-no-place", with: []string{"person-in-stand-off-no-way"}, raise: do(operator(16, 15), cable(5)), left: []string{"person-in-stand-off"}, clear: do(operator(16, 15), cable(60))},
	{id: "operator-not-in-cab", raise: worked(plan.ControlCab), clear: worked(plan.ControlWireless)},
	{id: "operator-out-of-reach", raise: cable(60), clear: cable(130)}, // the operator stands √(80² + 95²) = 124.2 m from the winch
	{id: "operator-out-of-reach-no-place", raise: cable(5), left: []string{"operator-out-of-reach"}, clear: cable(60)},
	{id: "person-in-pocket", raise: do(person(who(plan.RoleSpotter, 12, -4)), pocket(true)), left: []string{"person-in-stand-off-no-way"}, clear: do(person(who(plan.RoleSpotter, 12, -4)), pocket(false))},
	{id: "person-in-stand-off", raise: person(who(plan.RoleSpotter, -20, -20)), left: []string{"stand-off-covered"}, clear: do(person(covered(plan.CoverGround, -20, -20)), banked(2))},
	{id: "person-in-stand-off-no-way", raise: do(person(who(plan.RoleSpotter, -20, -20)), walled(-20, -20)), clear: walled(-20, -20)},
	{id: "person-in-vehicle", raise: person(driver(0, 0)), clear: nil},
	{id: "person-in-zone", raise: person(who(plan.RoleSpotter, 10, -1)), clear: person(who(plan.RoleSpotter, -60, -84))},
	{id: "person-in-zone-no-way", raise: do(person(who(plan.RoleSpotter, 12, 8)), walled(12, 8)), clear: walled(12, 8)},
	// 79 J: T²·L/(2·AE), 32.5 m of 37.5 · 95 kN, and 2 m of strap, 7 % longer at
	// 40 kN, that holds both: (1 + 0.96)/√2·T at a right angle.
	{id: "recoil-energy", raise: winch(func(w *plan.Winch) { w.Limiter = 3200 }), clear: winch(func(w *plan.Winch) { w.Limiter = 3100 })},
	{id: "recoil-energy-at", with: []string{"mass-not-known", "not-decided", "resistance-not-computed"}, raise: do(byRules, laden(0)), clear: byRules},
	{id: "recoil-energy-only", with: []string{"bend-unknown", "not-decided", "winch-layer-unknown"}, raise: theLine(func(l *plan.Line) { l.Diameter = 0 })},
	{id: "recoil-not-computed", with: []string{"jump-not-computed"}, raise: theLine(func(l *plan.Line) { l.Rating, l.Stiffness = working(60000), 0 })},
	{id: "role-not-known", with: []string{"unknown-words"}, raise: person(who("", -60, -84)), clear: person(who(plan.RoleBystander, -60, -84))},
	{id: "sight-blocked", raise: walledOff(-61, -80), clear: walledOff(-61, -85)},
	{id: "stand-off-covered", raise: do(person(covered(plan.CoverGround, -20, -20)), banked(2)), left: []string{"cover-not-there", "person-in-stand-off"}, clear: do(person(covered(plan.CoverGround, -20, -20)), banked(1.9))},
	{id: "stand-off-not-lowered", raise: on(func(r *plan.Rig) { r.StandOff = 0.99 }), clear: on(func(r *plan.Rig) { r.StandOff = 1 })},
	{id: "tree-height-not-known", with: []string{"not-decided", "tree-may-fall"}, left: []string{"tree-may-fall"}, raise: measuredTree(0, 22000), clear: measuredTree(15, 22000)},
	{id: "tree-may-fall", raise: measuredTree(15, 22000), clear: measuredTree(15, 23000)}, // over a quarter of its hold at stall (ours)
	{id: "vehicle-not-there", raise: do(alsoStuck(nil), person(plan.Person{Head: plan.Head{ID: "P3"}, Role: plan.RoleSpotter, Vehicle: "V3", At: plan.Point{X: -60, Y: -84}}),
		func(p *plan.Plan) { p.Site.Vehicles[2].Length = 0 })},
}

func who(role string, x, y float64) plan.Person {
	return plan.Person{Head: plan.Head{ID: "P3"}, Role: role, At: plan.Point{X: x, Y: y}}
}

func covered(cover string, x, y float64) plan.Person {
	p := who(plan.RoleSpotter, x, y)
	p.Cover = cover
	return p
}

// banked raises a bank between -20;-20 and all of the rig.
func banked(height quantity.Length) change {
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: plan.ObstacleBank, SeeOver: true, Height: height,
			Outline: []plan.Point{{X: -18.6, Y: -20}, {X: -17.6, Y: -20}, {X: -17.6, Y: -17.5}, {X: -18.6, Y: -17.5}}})
	}
}

// operator moves the operator.
func operator(x, y float64) change {
	return func(p *plan.Plan) { p.Site.People[0].At = plan.Point{X: x, Y: y} }
}

func worked(how string) change { return winch(func(w *plan.Winch) { w.Control = how }) }

// cable works the winch by a cable.
func cable(m quantity.Length) change {
	return winch(func(w *plan.Winch) { w.Control, w.ControlCable = plan.ControlCable, m })
}

// pocket puts walls round a place south of the line, its north side closed by
// the recoil alone; its east side is left open if it is not whole.
func pocket(whole bool) change {
	wall := func(id plan.ID, x0, y0, x1, y1 float64) plan.Obstacle {
		return plan.Obstacle{Head: plan.Head{ID: id}, Kind: "wall", SeeOver: true, Height: 1, Outline: []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}}
	}
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, wall("O1", 10.5, -6, 10.7, -1.2), wall("O2", 10.5, -6, 13.5, -5.8))
		if whole {
			p.Site.Obstacles = append(p.Site.Obstacles, wall("O3", 13.3, -6, 13.5, -1.2))
		}
	}
}

// driver sits in the pickup.
func driver(x, y float64) plan.Person {
	p := who(plan.RoleDriver, x, y)
	p.Vehicle = "V1"
	return p
}

// walled puts four walls, each too high to step over, round a place.
func walled(x, y float64) change {
	wall := func(id plan.ID, x0, y0, x1, y1 float64) plan.Obstacle {
		return plan.Obstacle{Head: plan.Head{ID: id}, Kind: "wall", SeeOver: true, Outline: []plan.Point{{X: x + x0, Y: y + y0}, {X: x + x1, Y: y + y0}, {X: x + x1, Y: y + y1}, {X: x + x0, Y: y + y1}}}
	}
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, wall("O1", -1.2, -1.2, 1.2, -1), wall("O2", -1.2, 1, 1.2, 1.2), wall("O3", -1.2, -1.2, -1, 1.2), wall("O4", 1, -1.2, 1.2, 1.2))
	}
}

// walledOff puts a wall nobody sees over round a place.
func walledOff(x, y float64) change {
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: "wall",
			Outline: []plan.Point{{X: x - 0.2, Y: y - 1}, {X: x + 0.2, Y: y - 1}, {X: x + 0.2, Y: y + 1}, {X: x - 0.2, Y: y + 1}}})
	}
}

// measuredTree is the spruce with a measured low hold.
func measuredTree(height quantity.Length, low quantity.Force) change {
	return do(onTree, theAnchor(func(a *plan.Anchor) { a.Height, a.HoldLow = height, plan.Known(low) }))
}
