package solver_test

import (
	"math"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What package hold finds.
var holdCases = []findingCase{
	{id: "anchor-aside", raise: setFor(315 + 17), clear: setFor(315 + 13)}, // over 15° (ours); friction turns the pull by 1°
	{id: "anchor-direction-unknown", raise: do(onPickets, theAnchor(func(a *plan.Anchor) { a.SetKnown = false })), clear: onPickets},
	{id: "anchor-kind-unknown", with: []string{"no-limit", "not-decided", "unknown-words"}, raise: theAnchor(func(a *plan.Anchor) { a.Kind = "stump" })},
	{id: "boulder-slides", with: []string{"no-limit", "rolls-by-itself"}, left: []string{"over-limit", "rolls-by-itself", "stall-breaks"}, raise: do(onBoulder, measured(3300), hillside(11.7)), clear: do(onBoulder, measured(3300), hillside(10.9))}, // toward the pull: arctan 0.2, 11.3°
	{id: "boulder-lifted", raise: do(onBoulder, high(2.15)), clear: do(onBoulder, high(2))},                                                                                                                                                            // over 15° (ours)
	{id: "boulder-mass-odd", with: []string{"no-limit"}, raise: do(onObstacle(true), rockOf(32_500)), clear: do(onObstacle(true), rockOf(32_300))},                                                                                                     // 2 · 6 m³ at 2.7 t (ours)
	{id: "boulder-mass-unknown", with: []string{"no-limit"}, raise: do(onBoulder, theAnchor(func(a *plan.Anchor) { a.Mass = 0 })), clear: onBoulder},
	{id: "deadman-line-flat", with: []string{"deadman-set-back"}, left: []string{"deadman-set-back", "deadman-slope-unknown", "not-decided"}, raise: inGround, clear: do(inGround, trench(0))},
	{id: "deadman-line-steep", with: []string{"deadman-set-back"}, left: []string{"deadman-set-back"}, raise: do(inGround, trench(4), high(2.15)), clear: do(inGround, trench(4), high(2))}, // 1 in 4 is 14.0°, a degree is let pass (ours)
	{id: "deadman-outside-table", with: []string{"deadman-line-flat", "no-limit"}, left: []string{"deadman-line-flat", "deadman-set-back"}, raise: buried(0.91), clear: buried(0.92)},       // 3 ft: 0.9144 m
	{id: "deadman-set-back", with: []string{"deadman-line-flat"}, raise: inGround},
	{id: "deadman-size-unknown", with: []string{"no-limit"}, raise: do(inGround, theAnchor(func(a *plan.Anchor) { a.Depth = 0 })), left: []string{"deadman-line-flat", "deadman-set-back"}, clear: inGround},
	{id: "deadman-slender", with: []string{"deadman-line-flat", "deadman-set-back"}, left: []string{"deadman-line-flat", "deadman-set-back"}, raise: log(2.01), clear: log(2)}, // 5 diameters
	{id: "deadman-slope-unknown", with: []string{"deadman-set-back", "not-decided"}, left: []string{"deadman-line-flat", "deadman-set-back"}, raise: do(inGround, trench(0)), clear: inGround},
	{id: "deadman-too-short", with: []string{"deadman-line-flat", "deadman-set-back", "no-limit"}, left: []string{"deadman-line-flat", "deadman-set-back", "over-limit", "stall-breaks"}, raise: log(0.6), clear: log(0.62)}, // 2 ft: 0.6096 m
	// The spruce of 30 cm, 15 m: V = 6.8e-5 · 30^1.827421 · 15^0.981362 = 0.4854 m³,
	// times 850 and 111.7 is 46.09 kN·m; 1.5 times that at 1 m is 69.1 kN.
	{id: "hold-beyond-table", raise: typedHold(69300), clear: typedHold(69000)},
	{id: "hold-in-water", raise: do(typedHold(60000), pondAt(21.5)), clear: do(typedHold(60000), pondAt(22.5))},
	{id: "hold-low-unknown", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.HoldHigh = 60000 })), clear: do(onTree, theAnchor(func(a *plan.Anchor) { a.HoldLow, a.HoldHigh = plan.Known(quantity.Force(50000)), 60000 }))},
	{id: "hold-thin-stem", with: []string{"hold-beyond-table"}, left: []string{"hold-beyond-table"}, raise: do(typedHold(60000), thick(0.099)), clear: do(typedHold(60000), thick(0.101))},
	{id: "obstacle-no-anchor", with: []string{"no-limit"}, raise: onObstacle(false), clear: onObstacle(true)},
	{id: "pickets-in-sand", with: []string{"no-limit"}, raise: do(onPickets, theAnchor(func(a *plan.Anchor) { a.Soil = "dry-sand" })), clear: do(onPickets, theAnchor(func(a *plan.Anchor) { a.Soil = "wet-clay-gravel" }))},
	{id: "pickets-layout-unknown", with: []string{"no-limit"}, raise: do(onPickets, theAnchor(func(a *plan.Anchor) { a.Layout = "4-4" })), clear: onPickets},
	{id: "pickets-lifted", with: []string{"no-limit"}, raise: do(onPickets, high(2.15)), clear: do(onPickets, high(2))}, // leaned 15° (FM 5-125)
	{id: "soil-unknown", with: []string{"deadman-line-flat", "deadman-set-back"}, left: []string{"deadman-line-flat", "deadman-set-back"}, raise: do(inGround, theAnchor(func(a *plan.Anchor) { a.Soil = "peaty" })), clear: inGround},
	{id: "tree-dead", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Health = plan.HealthDead })), clear: onTree},
	{id: "tree-doubtful", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Health = plan.HealthDoubtful })), clear: onTree},
	{id: "tree-extrapolated", raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Height = 26 })), clear: onTree}, // heaviest pulled: 673 kg of stem
	{id: "tree-girth-assumed", with: []string{"tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth = 0 })), clear: onTree},
	{id: "tree-girth-doubtful", raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth *= 1.03 })), clear: do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth *= 1.01 }))}, // 2 % is let pass (ours)
	{id: "tree-health-unknown", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Health = plan.HealthUnknown })), clear: onTree},
	{id: "tree-moved", with: []string{"tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.PulledBefore = true })), clear: onTree},
	{id: "tree-roots-unknown", raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Rooting = "" })), clear: onTree},
	{id: "tree-size-unknown", with: []string{"no-limit", "tree-height-not-known", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Height = 0 })), clear: onTree},
	{id: "tree-soil-not-in-table", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Species, a.Soil = "radiata-pine", "deep-peat" })), clear: onTree},
	{id: "tree-species-unknown", with: []string{"not-decided", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Species = "" })), clear: onTree},
	{id: "tree-stop", with: []string{"no-limit", "tree-may-fall"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.BaseMoved = true })), clear: onTree},
	{id: "tree-strap-high", raise: strapAt(1.01), clear: strapAt(1)},
	{id: "tree-trunk-assumed", raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Trunk = 0 })), clear: onTree},
	{id: "tree-untested", raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Species = "oak" })), clear: onTree},
	{id: "vehicle-hold-unknown", with: []string{"mass-not-known", "not-decided"}, raise: do(onVehicle, func(p *plan.Plan) { p.Site.Vehicles[2].Mass = 0 }), clear: onVehicle},
	{id: "vehicle-holds-nothing", with: []string{"rolls-by-itself", "vehicle-moves-by-itself", "vehicle-slides"}, left: []string{"rolls-by-itself"}, raise: do(onVehicle, func(p *plan.Plan) {
		p.Site.Vehicles[2].Grip = "grip.ice"
	}, sloped(4.5, 315)), clear: do(onVehicle, sloped(4.5, 315))},
	{id: "vehicle-not-braked", with: []string{"no-brake", "vehicle-slides"}, raise: do(onVehicle, func(p *plan.Plan) {
		p.Site.Vehicles[2].Brake, p.Site.Vehicles[2].Chocks = plan.BrakeNone, plan.ChocksNone
	}), clear: onVehicle},
}

// hillside tilts the site that much toward where the pull on the anchor goes.
func hillside(slope quantity.Degrees) change {
	return do(sloped(slope, 315), func(p *plan.Plan) {
		p.Site.Ground.Grip = "grip.concrete-dry"
	})
}

// setFor gives the rated point the direction it was set for.
func setFor(bearing float64) change {
	return theAnchor(func(a *plan.Anchor) { a.SetKnown, a.SetBearing = true, quantity.Degrees(bearing) })
}

// high brings pickup and truck within 8 m of the block, which hangs near the
// ground, and their lines to that height. The pull rises by r where the block
// hangs at 2.1 m · sin r and height − 2.1 m · sin r = 8 m · tan r · √2 / 2: 15° at
// 2.06 m.
func high(height quantity.Length) change {
	return func(p *plan.Plan) {
		p.Site.Anchors[0].Rise = 0
		v, w := &p.Site.Vehicles[0], &p.Site.Vehicles[1]
		v.At.X, w.At.Y = 9.4, 11
		v.Recovery[0].Height, w.Winch.Height = height, height
	}
}

// buried is the log at that mean depth.
func buried(depth quantity.Length) change {
	return do(inGround, theAnchor(func(a *plan.Anchor) { a.Depth = depth }))
}

// log is the log of that length.
func log(length quantity.Length) change {
	return do(inGround, theAnchor(func(a *plan.Anchor) { a.LogLength = length }))
}

// onObstacle puts a strap round a boulder that may or may not serve as anchor.
func onObstacle(may bool) change {
	return func(p *plan.Plan) {
		at := func(x, y float64) plan.Point { return plan.Point{X: 22.5 + x, Y: -2.5 + y} }
		p.Site.Anchors = nil
		p.Site.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "O1"}, Kind: "boulder", Anchor: may, Mass: 20000, Height: 1.5,
			Outline: []plan.Point{at(-1, -1), at(1, -1), at(1, 1), at(-1, 1)}}}
		s := &p.Rigs[0].Slings[0]
		s.On, s.Hitch, s.Length = port("O1", ""), plan.HitchBasket, 9
		p.Rigs[0].Blocks[0].At = plan.Point{X: 20, Y: 0}
	}
}

// rockOf gives that boulder its mass.
func rockOf(kg quantity.Mass) change {
	return func(p *plan.Plan) { p.Site.Obstacles[0].Mass = kg }
}

// strapAt puts the sling that high on the tree.
func strapAt(height quantity.Length) change {
	return do(onTree, theSling(func(s *plan.Sling) { s.Height = height }))
}

// trench gives the log's trench a slope.
func trench(run float64) change {
	return theAnchor(func(a *plan.Anchor) { a.LineRun = run })
}

// typedHold is the spruce with a hold that nobody vouches for.
func typedHold(low quantity.Force) change {
	return do(onTree, theAnchor(func(a *plan.Anchor) { a.HoldLow = plan.Known(low) }))
}

// thick gives the tree another thickness.
func thick(d quantity.Length) change {
	return theAnchor(func(a *plan.Anchor) { a.Girth, a.Trunk = d*math.Pi, d })
}

// pondAt is a pond 1.2 m across, its middle that far east beside the tree, whose
// stem stands at 21.485 m.
func pondAt(x float64) change {
	return func(p *plan.Plan) {
		at := func(x, y float64) plan.Point { return plan.Point{X: x, Y: y} }
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: plan.ObstacleWater, Height: 0.1,
			Outline: []plan.Point{at(x-0.6, -2.1), at(x+0.6, -2.1), at(x+0.6, -0.9), at(x-0.6, -0.9)}})
	}
}
