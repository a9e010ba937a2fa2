package solver_test

import (
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What package effort finds of the casualty.
var casualtyCases = []findingCase{
	{id: "breakaway-odd", raise: loosened(0.99), with: []string{"does-not-break-loose"}, clear: loosened(1)},
	{id: "casualty-braked", raise: do(byRules, onIce, casualty(func(v *plan.Vehicle) { v.Brake = plan.BrakeRear })), clear: do(byRules, onIce)},
	{id: "casualty-braked-unknown", with: []string{"mass-against-size", "sinkage-beyond-rule"}, left: []string{"mass-against-size", "sinkage-beyond-rule"}, raise: do(hubDeep, casualty(func(v *plan.Vehicle) { v.Chocks = plan.ChocksFront })), clear: hubDeep},
	{id: "current-not-computed", with: []string{"recoil-energy-at", "resistance-not-computed"}, raise: do(inWater(0.5, 0.3), casualty(func(v *plan.Vehicle) { v.Length = 0 })),
		left: []string{"current-pushes"}, clear: inWater(0.5, 0.3)},
	{id: "current-not-known", raise: inWater(0, 0), left: []string{"current-pushes"}, clear: inWater(0.1, 0.3)},
	{id: "current-pushes", raise: inWater(0.1, 0.3), clear: byRules},
	{id: "dead-end-not-known", with: []string{"no-limit", "point-kind-unknown"}, raise: selfRecovery("front", plan.PointUnknown), clear: selfRecovery("front", plan.PointRated)},
	{id: "dead-end-not-rated", raise: selfRecovery("front", plan.PointHook), clear: selfRecovery("front", plan.PointRated)},
	{id: "dead-end-refused", with: []string{"no-limit", "not-a-pulling-point"}, raise: selfRecovery("front", plan.PointBar), clear: selfRecovery("front", plan.PointRated)},
	{id: "depth-not-known", with: []string{"mass-against-size"}, left: []string{"mass-against-size"}, raise: do(byRules, laden(100), stuck(func(s *plan.Stuck) { s.Depth = plan.DepthUnknown })), clear: do(byRules, laden(100))},
	{id: "does-not-break-loose", raise: loosened(1.96), clear: loosened(1.92)}, // the winch gives 4 kN, 3.886 along the way out: 1.943 of 2 kN
	{id: "downhill-pull", raise: sloped(0.8, 90), clear: sloped(0.6, 90)},      // firm gravel rolls from 0.012: 0.69°
	{id: "downhill-pull-unknown", with: []string{"jump-not-computed", "not-decided"}, left: []string{"jump-not-computed", "not-decided"}, raise: do(laden(0), sloped(0.8, 90)), clear: do(laden(0), sloped(0.6, 90))},
	{id: "dragged-aside", with: []string{"off-way-out"}, left: []string{"off-way-out"}, raise: do(byRules, laden(400), aside(31)), clear: do(byRules, laden(400), aside(29))}, // over 30° (ours)
	{id: "height-not-known", with: []string{"measured-below-rules"}, left: []string{"measured-below-rules"}, raise: do(onItsSide, casualty(func(v *plan.Vehicle) { v.Height = 0 })), clear: onItsSide},
	{id: "hold-back-no-limit", with: []string{"no-limit", "no-rating"}, raise: do(sloped(2, 90), heldBack(0)), clear: do(sloped(2, 90), heldBack(40000))},
	{id: "hold-back-weak", with: []string{"over-limit"}, left: []string{"near-limit"}, raise: do(sloped(2, 90), heldBack(695)), clear: do(sloped(2, 90), heldBack(715))}, // 1.5·1600·g·(sin 2° − 0.012) = 539 N of 0.85·0.9·tag
	{id: "jump", with: []string{"does-not-break-loose"}, left: []string{"does-not-break-loose"}, raise: jumpy(3400), clear: jumpy(3000)},
	{id: "jump-not-computed", with: []string{"recoil-not-computed"}, raise: theLine(func(l *plan.Line) { l.Rating = working(60000) })},
	{id: "kinetic-not-computed", with: []string{"no-winch", "still-fastened"}, raise: theLine(func(l *plan.Line) {
		l.Path, l.Material, l.Rating.Force = []plan.Port{port("V2", "front"), port("V1", "front")}, plan.MaterialKinetic, 30000
	})},
	{id: "mass-not-known", with: []string{"not-decided", "recoil-energy-at", "resistance-not-computed"}, raise: do(byRules, laden(0)), clear: byRules},
	{id: "load-heavy", raise: puller(func(v *plan.Vehicle) { v.Load = 18_000 }), clear: puller(func(v *plan.Vehicle) { v.Load = 14_900 })}, // twice 7 500 kg (ours)
	{id: "load-odd", raise: puller(func(v *plan.Vehicle) { v.Load = 2.1 }), clear: puller(func(v *plan.Vehicle) { v.Load = 2100 })},
	{id: "locked-not-computed", with: []string{"mass-against-size", "sinkage-beyond-rule"}, left: []string{"mass-against-size", "sinkage-beyond-rule"}, raise: do(hubDeep, stuck(func(s *plan.Stuck) { s.LockedWheels = 4 })), clear: hubDeep},
	{id: "mass-against-size", raise: puller(func(v *plan.Vehicle) { v.Mass = 39_700 }), clear: puller(func(v *plan.Vehicle) { v.Mass = 39_500 }), still: []string{"A1", "V2/winch"}},                                                                  // 6 m by 2.2 m at 3 t/m² (ours)
	{id: "mass-odd", left: []string{"mass-against-size"}, raise: laden(99), clear: laden(101)},                                                                                                                                                        // under 100 kg (ours)
	{id: "measured-below-locked", with: []string{"casualty-braked", "does-not-move"}, left: []string{"casualty-braked", "does-not-move"}, raise: do(measured(5480), casualty(chockedOnGravel)), clear: do(measured(5500), casualty(chockedOnGravel))}, // 0.35 · 1 600 kg: 5 492 N
	{id: "measured-below-rules", raise: measured(94), clear: measured(95)},                                                                                                                                                                            // half of 0.012·W on firm gravel: 94.1 N
	{id: "measured-below-slope", with: []string{"does-not-move", "rolls-by-itself"}, left: []string{"rolls-by-itself"}, raise: sloped(7.4, 270), clear: sloped(7.2, 270)},                                                                             // 2 kN of W: arcsin 0.1275, 7.3°
	{id: "not-counted", raise: do(byRules, stuck(func(s *plan.Stuck) { s.BackTheWay = true })), clear: byRules},
	{id: "off-way-out", raise: aside(16), clear: aside(14)},                                        // over 15° (ours)
	{id: "off-way-out-refused", left: []string{"off-way-out"}, raise: aside(61), clear: aside(59)}, // over 60° (ours)
	{id: "off-way-out-unknown", with: []string{"mass-not-known", "not-decided", "recoil-energy-at", "resistance-not-computed"}, raise: do(byRules, laden(0), aside(16)), left: []string{"off-way-out"}, clear: aside(16)},
	{id: "own-drive-not-counted", raise: do(byRules, stuck(func(s *plan.Stuck) { s.OwnDrive = true })), clear: byRules},
	{id: "plan-rule-not-computed", raise: do(byRules, stuck(func(s *plan.Stuck) { s.Rule = "handbook" })), clear: do(byRules, stuck(func(s *plan.Stuck) { s.Rule = "common practice" }))},
	{id: "planned-below-high", raise: do(byRules, stuck(func(s *plan.Stuck) { s.PlanOn = plan.PlanLikely })), clear: do(byRules, stuck(func(s *plan.Stuck) { s.PlanOn = plan.PlanHigh }))},
	{id: "resistance-measured", clear: byRules},
	{id: "rolls-by-itself", raise: sloped(0.8, 270), clear: sloped(0.6, 270)},
	{id: "rolls-by-itself-unknown", with: []string{"jump-not-computed", "not-decided"}, left: []string{"jump-not-computed", "not-decided"}, raise: do(laden(0), sloped(0.8, 270)), clear: do(laden(0), sloped(0.6, 270))},
	{id: "side-slip", raise: icy(4.2), clear: icy(3.8)}, // arctan 0.07 = 4.0°
	{id: "side-slip-unknown", with: []string{"jump-not-computed", "not-decided"}, left: []string{"jump-not-computed", "not-decided"}, raise: do(laden(0), icy(4.2)), clear: do(laden(0), icy(3.8))},
	{id: "sinkage-beyond-rule", with: []string{"mass-against-size"}, left: []string{"mass-against-size"}, raise: do(byRules, laden(100), stuck(func(s *plan.Stuck) { s.Depth = plan.DepthHub })), clear: do(byRules, laden(100), stuck(func(s *plan.Stuck) { s.Sinkage = 0.14 }))},
	{id: "surface-not-known", raise: do(byRules, laden(400), func(p *plan.Plan) { p.Site.Ground.Surface = "" }), clear: do(byRules, laden(400))},
	{id: "tips-at-stall", raise: turned(0.2205), clear: turned(0.2225)},                                                                 // 2 169 N at 0.6 m: 0.75 of W·t/2 for 0.221 m
	{id: "tips-by-itself", raise: narrow(0.15), clear: narrow(0.16)},                                                                    // sin 3°·0.75 m over half of t/2: 0.157 m
	{id: "tips-sideways", with: []string{"tips-at-stall"}, left: []string{"tips-at-stall"}, raise: turned(0.170), clear: turned(0.173)}, // 1 120 N: 0.5 for 0.171 m
	{id: "trapped-water-assumed", with: []string{"current-not-known", "mass-against-size"}, raise: do(inWater(0, 0), laden(100), stuck(func(s *plan.Stuck) { s.TrappedWater = 0 })), left: []string{"current-not-known", "mass-against-size"}, clear: do(inWater(0, 0), laden(100))},
	{id: "uprighting-needs-slow-line", with: []string{"measured-below-rules"}, left: []string{"measured-below-rules"}, raise: stuck(func(s *plan.Stuck) { s.Overturned = true }), clear: onItsSide},
	{id: "water-depth-not-known", with: []string{"current-pushes"}, left: []string{"current-pushes"}, raise: inWater(0.1, 0), clear: inWater(0.1, 0.3)},
}

// What package effort finds of the puller.
var pullerCases = []findingCase{
	{id: "axle-lifts", with: []string{"vehicle-slides"}, raise: puller(func(v *plan.Vehicle) { v.Mass, v.Width, v.Height, v.Winch.Height = 500, 2, 4.5, 4.5 })},
	{id: "casualty-must-hold", with: []string{"several-casualties", "vehicle-hold-unknown"}, raise: do(onVehicle, func(p *plan.Plan) { p.Site.Vehicles[2].Stuck = &plan.Stuck{Depth: plan.DepthNone} }), clear: onVehicle},
	{id: "centre-of-gravity-assumed", raise: puller(func(v *plan.Vehicle) { v.CGBehindFront = 0 })},
	{id: "figures-odd", raise: puller(func(v *plan.Vehicle) { v.CGHeight = 2.61 }), clear: puller(func(v *plan.Vehicle) { v.CGHeight = 2.59 }), still: []string{"A1", "V2/winch"}},
	{id: "foot-brake-nobody", with: []string{"no-brake", "vehicle-slides"}, left: []string{"person-in-vehicle"}, raise: onFoot(""), clear: onFoot("V2")},
	{id: "grip-not-known", raise: func(p *plan.Plan) { p.Site.Ground.Grip = "" }},
	{id: "in-gear-not-counted", raise: puller(func(v *plan.Vehicle) { v.InGear, v.Chocks = true, plan.ChocksFront })},
	{id: "no-brake", with: []string{"vehicle-slides"}, raise: puller(func(v *plan.Vehicle) { v.Brake, v.Chocks = plan.BrakeNone, plan.ChocksNone })},
	{id: "tie-back-askew", raise: tiedBack(40000, 2.4), clear: tiedBack(40000, 2.2)}, // over 30° (ours): 4 m · tan 30° = 2.31 m
	{id: "tie-back-no-limit", with: []string{"no-limit", "no-rating"}, raise: tiedBack(0, 0), clear: tiedBack(40000, 0)},
	{id: "tie-back-weak", with: []string{"over-limit"}, left: []string{"near-limit"}, raise: tiedBack(2400, 0), clear: tiedBack(2440, 0)},
	{id: "vehicle-moves-by-itself", with: []string{"vehicle-slides"}, left: []string{"vehicle-slides-at-stall"}, raise: parkedOnIce(4.3), clear: parkedOnIce(1)},
	{id: "vehicle-near-sliding", with: []string{"vehicle-slides-at-stall"}, left: []string{"vehicle-slides-at-stall"}, raise: lightTruck(550), clear: lightTruck(570)},
	{id: "vehicle-slides", with: []string{"mass-against-size"}, left: []string{"mass-against-size", "vehicle-near-sliding", "vehicle-slides-at-stall"}, raise: lightTruck(410), clear: lightTruck(430)},
	{id: "vehicle-slides-at-stall", raise: lightTruck(810), clear: lightTruck(825)}, // 0.5·W of 4 kN: 816 kg
	{id: "vehicle-turns", raise: puller(func(v *plan.Vehicle) { // its nose pulled aside
		v.Mass, v.At, v.Bearing, v.Winch.Axis = 600, plan.Point{X: 17, Y: 15}, 90, plan.Known(quantity.Degrees(90))
	})},
}

// inWater puts the pickup, on firm gravel, in water that runs at that speed (0:
// nobody measured it) and stands that deep on its body; what is trapped in it was weighed.
func inWater(speed quantity.Speed, depth quantity.Length) change {
	return do(byRules, stuck(func(s *plan.Stuck) {
		s.InWater, s.WaterDepth, s.TrappedWater = true, depth, 50
		if speed > 0 {
			s.WaterSpeed = plan.Known(speed)
		}
	}))
}

// onItsSide is the pickup overturned, with a slowing line behind it.
func onItsSide(p *plan.Plan) {
	p.Site.Vehicles[0].Stuck.Overturned = true
	heldBack(40000)(p)
}

// jumpy is a pickup stuck in mud that holds it by suction.
func jumpy(suction quantity.Force) change {
	return stuck(func(s *plan.Stuck) { s.Suction, s.Breakaway = suction, 0 })
}

// aside turns the way out by that angle off the line.
func aside(off quantity.Degrees) change {
	return do(stuck(func(s *plan.Stuck) { s.Way, s.WayBearing = plan.WayFree, plan.Known(90+off) }), winch(func(w *plan.Winch) { w.Limiter = 6000 }))
}

// icy stands the pickup on ice across a slope, the truck on dry concrete.
func icy(slope quantity.Degrees) change {
	return do(sloped(slope, 180), casualty(func(v *plan.Vehicle) { v.Grip = "grip.ice" }), puller(func(v *plan.Vehicle) { v.Grip = "grip.concrete-dry" }))
}

// narrow is a pickup of that track on a slope of 3° across it.
func narrow(track quantity.Length) change {
	return do(sloped(3, 180), casualty(func(v *plan.Vehicle) { v.Track = track }))
}

// onFoot has the truck held by a foot alone, with a driver in that vehicle.
func onFoot(in plan.ID) change {
	return do(puller(func(v *plan.Vehicle) { v.Brake, v.Chocks, v.FootBrake = plan.BrakeNone, plan.ChocksNone, true }), func(p *plan.Plan) {
		if in != "" {
			p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: "P3"}, Role: plan.RoleDriver, Vehicle: in})
		}
	})
}

// parkedOnIce has the truck on ice that slopes toward its nose.
func parkedOnIce(slope quantity.Degrees) change {
	return do(sloped(slope, 180), puller(func(v *plan.Vehicle) { v.Grip = "grip.ice" }))
}

// lightTruck is a truck of that mass.
func lightTruck(mass quantity.Mass) change {
	return puller(func(v *plan.Vehicle) { v.Mass = mass })
}

// loosened is a pickup that takes that many times as much to break loose.
func loosened(k float64) change { return stuck(func(s *plan.Stuck) { s.Breakaway = k }) }

// chockedOnGravel chocks all wheels of a vehicle on gravel.
func chockedOnGravel(v *plan.Vehicle) { v.Grip, v.Chocks = "grip.gravel", plan.ChocksAll }

// measured is a pickup whose resistance somebody measured.
func measured(n quantity.Force) change { return stuck(func(s *plan.Stuck) { s.Measured = n }) }

// hubDeep is a pickup light enough to be pulled out that is sunk to its hubs.
func hubDeep(p *plan.Plan) {
	do(byRules, laden(100), stuck(func(s *plan.Stuck) { s.Depth = plan.DepthHub }))(p)
}

// onIce lets the pickup stand on ice.
func onIce(p *plan.Plan) { casualty(func(v *plan.Vehicle) { v.Grip = "grip.ice" })(p) }

// turned is a pickup of that track that the line pulls 30° off its nose, the way
// it is going.
func turned(track quantity.Length) change {
	return do(casualty(func(v *plan.Vehicle) { v.Track, v.Bearing = track, 60 }),
		stuck(func(s *plan.Stuck) { s.Way, s.WayBearing = plan.WayFree, plan.Known(quantity.Degrees(90)) }))
}
