package solver_test

import (
	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// rest are the parts that a fault of the block leaves as they are.
var rest = []string{"V2/winch", "S1", "K1", "A1", "V1/front", "V2/slide"}

// What package gear finds of lines, blocks and winches.
var lineCases = []findingCase{
	{id: "bend-too-sharp", with: []string{"jump-not-computed", "no-limit", "recoil-not-computed"}, still: rest, // no table bends a chain
		raise: theLine(func(l *plan.Line) { l.Material = plan.MaterialChain })},
	{id: "bend-unknown", with: []string{"not-decided"}, raise: theBlock(func(b *plan.Block) { b.Sheave = 0 })},
	{id: "block-kind-unknown", with: []string{"not-decided"}, raise: theBlock(func(b *plan.Block) { b.Kind = plan.BlockUnknown })},
	{id: "block-rating-place", raise: theBlock(func(b *plan.Block) { b.RatingOn = plan.RatedUnsaid })},
	{id: "drum-impossible", still: rest[1:],
		raise: winch(func(w *plan.Winch) { w.FlangeDiameter = 0.08 }), clear: winch(func(w *plan.Winch) { w.FlangeDiameter = 0.2 })},
	{id: "drum-overfull", raise: lineBeyond(fullDrum() + 0.5), clear: lineBeyond(fullDrum() - 0.5)},
	{id: "connector-assumed", raise: theConnector(plan.ConnectorHook, plan.Rating{})},
	{id: "connector-beyond-line", raise: theConnector(plan.ConnectorHook, working(136000)), clear: theConnector(plan.ConnectorHook, working(134000))}, // 1.5 · 0.9 d² kN
	{id: "drum-unknown", with: []string{"not-decided", "winch-layer-unknown"}, still: rest[1:],
		raise: noDrum},
	{id: "end-unknown", raise: theLine(func(l *plan.Line) { l.End = "" })},
	{id: "engine-off", raise: winch(func(w *plan.Winch) { w.EngineOff = true })},
	{id: "fleet-angle", raise: guided(4.2), clear: guided(6)}, // 1.5°: 0.115 m / tan 1.5° = 4.39 m; the block settles a hand off the straight lead
	{id: "friction-odd", raise: theBlock(func(b *plan.Block) { b.Efficiency = 0.981 }), clear: theBlock(func(b *plan.Block) { b.Efficiency = 0.979 })},
	{id: "kinetic-energy", with: []string{"kinetic-on-winch"},
		raise: theLine(func(l *plan.Line) { l.Material, l.End, l.Rating.Force = plan.MaterialKinetic, "knot.eye-splice", 30000 })},
	{id: "kinetic-on-winch", raise: theSling(func(s *plan.Sling) { s.Material = plan.MaterialKinetic })},
	{id: "line-cannot-pass", raise: damperPast(0.11), clear: damperPast(0.12)}, // 2 m of haul on a stretch of 17.4 m
	{id: "line-chafes", raise: onRing(true), clear: onRing(false)},
	{id: "line-condition-unknown", with: []string{"no-limit"}, raise: theLine(func(l *plan.Line) { l.Condition = plan.ConditionUnknown })},
	{id: "line-doubtful", with: []string{"no-limit"}, raise: theLine(func(l *plan.Line) { l.Condition = plan.ConditionDoubtful })},
	{id: "line-join", raise: joined(true)},
	{id: "line-kinked", with: []string{"no-limit"}, raise: theLine(func(l *plan.Line) { l.Condition = plan.ConditionKinked })},
	{id: "line-knot", raise: theLine(func(l *plan.Line) { l.Knots = []string{"knot.unknown"} })},
	{id: "line-length-unknown", raise: theLine(func(l *plan.Line) { l.Length = 0 })},
	{id: "line-material-unknown", with: []string{"jump-not-computed", "no-limit", "recoil-not-computed", "unknown-words"},
		raise: theLine(func(l *plan.Line) { l.Material = "spider silk" })},
	// On the largest drum ten wraps take 8·π·0.21 and 2·π·0.23 m: 6.723 m.
	{id: "line-may-be-short", with: []string{"drum-unknown", "not-decided", "winch-layer-unknown"}, left: []string{"drum-unknown", "not-decided", "winch-layer-unknown"},
		raise: do(noDrum, lineBeyond(6.7)), clear: do(noDrum, lineBeyond(6.75))},
	{id: "line-short", raise: lineBeyond(2.82), clear: lineBeyond(2.84)}, // 10 wraps of 90 mm: 2.827 m
	{id: "line-too-thick", with: []string{"no-limit"}, still: rest,
		raise: theBlock(func(b *plan.Block) { b.LineMax, b.Rating = 0.0099, working(50000) }), clear: theBlock(func(b *plan.Block) { b.LineMax, b.Rating = 0.01, working(50000) })},
	{id: "line-too-thin", raise: theBlock(func(b *plan.Block) { b.LineMin = 0.0101 }), clear: theBlock(func(b *plan.Block) { b.LineMin = 0.01 })},
	{id: "no-rating", with: []string{"no-limit", "recoil-not-computed"}, still: []string{"B1", "K1", "A1", "L1/1", "L1/2", "V1/front"},
		raise: theSling(func(s *plan.Sling) { s.Rating = plan.Rating{} })},
	// 10 mm HMPE: 1.5 · 0.9 d² kN.
	{id: "block-rating-beyond", raise: theBlock(func(b *plan.Block) { b.Rating = working(97500) }), clear: theBlock(func(b *plan.Block) { b.Rating = working(97000) })}, // 1.5 · 2 · 0.9 · 12² / 4 kN
	{id: "rating-odd", raise: front(func(q *plan.RecoveryPoint) { q.Rating = working(1001000) }), clear: front(func(q *plan.RecoveryPoint) { q.Rating = working(999000) })},
	{id: "rating-beyond-size", raise: theLine(func(l *plan.Line) { l.Rating.Force = 135500 }), clear: theLine(func(l *plan.Line) { l.Rating.Force = 134500 })},
	{id: "rating-unsaid", raise: theBlock(func(b *plan.Block) { b.Rating.Basis = plan.BasisUnsaid })},
	{id: "ring-rubs", raise: theBlock(func(b *plan.Block) { b.Kind, b.Efficiency, b.Sheave = plan.BlockRing, 0, 0.12 })},
	{id: "sheave-beyond-head", raise: theBlock(func(b *plan.Block) { b.Sheave, b.HeadLength = 0.201, 0.1 }), clear: theBlock(func(b *plan.Block) { b.Sheave, b.HeadLength = 0.199, 0.1 })}, // half of it from eye to sheave
	{id: "sheave-small", raise: theBlock(func(b *plan.Block) { b.Sheave = 0.079 }), clear: theBlock(func(b *plan.Block) { b.Sheave = 0.08 })},                                              // 8 d
	{id: "sheave-smaller-than-line", with: []string{"bend-too-sharp", "no-limit"}, still: rest, left: []string{"sheave-small"},
		raise: theBlock(func(b *plan.Block) { b.Sheave = 0.009 }), clear: theBlock(func(b *plan.Block) { b.Sheave = 0.01 })},
	{id: "stall-breaks", left: []string{"stall-near"}, // shackle of 5 kN working: 25 kN by its standard's factor of 5
		raise: stalledAt(18200), clear: stalledAt(17700)},
	{id: "stall-factor-odd", raise: winch(func(w *plan.Winch) { w.StallFactor = 0.05 }), clear: winch(func(w *plan.Winch) { w.StallFactor = 0.95 })},
	{id: "stall-near", raise: stalledAt(9100), clear: stalledAt(8800)},
	{id: "tension-beyond-winch", raise: theLine(func(l *plan.Line) { l.Fixed = 4010 }), clear: theLine(func(l *plan.Line) { l.Fixed = 3990 })}, // its limiter stops it at 4 kN
	{id: "two-winches", raise: twoWinches},
	{id: "winch-duty", raise: slowWinch(0.02), clear: slowWinch(0.2)},
	{id: "winch-layer-unknown", with: []string{"bend-unknown", "not-decided", "recoil-energy-only"}, raise: theLine(func(l *plan.Line) { l.Diameter = 0 })},
	{id: "winch-lead", with: []string{"winch-piles-up"}, left: []string{"winch-piles-up"}, // over 15° (ours)
		raise: winch(func(w *plan.Winch) { w.Axis = plan.Known(quantity.Degrees(15.5)) }), clear: winch(func(w *plan.Winch) { w.Axis = plan.Known(quantity.Degrees(14.5)) })},
	{id: "winch-no-rating", with: []string{"no-limit"}, still: rest[1:], raise: winch(func(w *plan.Winch) { w.LinePull = 0 })},
	{id: "winch-speed-odd", raise: winch(func(w *plan.Winch) { w.LoadSpeed, w.NoLoadSpeed = 0.16, 0.15 }), clear: winch(func(w *plan.Winch) { w.LoadSpeed, w.NoLoadSpeed = 0.14, 0.15 })},
	{id: "wraps-few", raise: winch(func(w *plan.Winch) { w.MinWraps = 2 }), clear: winch(func(w *plan.Winch) { w.MinWraps = 3 })},                                                              // the fewest of any rule (WAC 296-870-70085)
	{id: "winch-piles-up", raise: winch(func(w *plan.Winch) { w.Axis = plan.Known(quantity.Degrees(5.5)) }), clear: winch(func(w *plan.Winch) { w.Axis = plan.Known(quantity.Degrees(4.5)) })}, // over 5° (ours)
}

// What package gear finds of slings, shackles and points.
var slingCases = []findingCase{
	{id: "bridle-fixed", raise: bridled(2)},
	{id: "bridle-wide", with: []string{"no-limit", "shackle-legs-wide"}, left: []string{"bridle-fixed"}, // arcsin(0.5/0.57) = 61.3°, of 0.585 58.7°
		raise: bridled(0.57), clear: bridled(0.585)},
	{id: "extension-hitch", with: []string{"no-limit", "sling-trunk-unknown"}, raise: extended(plan.HitchBasket, plan.MaterialWeb), clear: extended(plan.HitchStraight, plan.MaterialWeb)},
	{id: "extension-stretches", with: []string{"kinetic-on-winch"}, raise: extended(plan.HitchStraight, plan.MaterialNylon), clear: extended(plan.HitchStraight, plan.MaterialWeb)},
	{id: "not-a-pulling-point", with: []string{"no-limit"}, still: []string{"B1", "S1", "K1", "A1", "L1/1", "L1/2"},
		raise: front(func(q *plan.RecoveryPoint) { q.Kind = plan.PointTowBall }), clear: front(func(q *plan.RecoveryPoint) { q.Kind = plan.PointHook })},
	{id: "point-angle-odd", raise: front(func(q *plan.RecoveryPoint) { q.MaxAngle = 91 }), clear: front(func(q *plan.RecoveryPoint) { q.MaxAngle = 90 })}, // over 90° (ours)
	{id: "point-kind-unknown", with: []string{"no-limit"}, raise: front(func(q *plan.RecoveryPoint) { q.Kind = plan.PointUnknown })},
	{id: "point-side-pull", raise: front(func(q *plan.RecoveryPoint) { q.MaxAngle, q.Axis = 0, plan.Known(quantity.Degrees(15.5)) }), clear: front(func(q *plan.RecoveryPoint) { q.MaxAngle, q.Axis = 0, plan.Known(quantity.Degrees(14.5)) })},
	{id: "screw-eye-steady", raise: front(func(q *plan.RecoveryPoint) { q.Kind = plan.PointScrewEye })},
	{id: "shackle-dee-legs", with: []string{"bridle-fixed", "no-limit"}, left: []string{"bridle-fixed"},
		raise: do(bridled(2), on(func(r *plan.Rig) { r.Shackles[1].Kind = plan.ShackleDee })), clear: bridled(2)},
	{id: "shackle-kind-unknown", with: []string{"no-limit"}, raise: theShackle(func(k *plan.Shackle) { k.Kind = "" })},
	{id: "shackle-legs-wide", with: []string{"bridle-wide", "no-limit"}, left: []string{"bridle-fixed"}, raise: bridled(0.57), clear: bridled(0.585)},
	{id: "shackle-pin-running", with: []string{"no-limit"}, raise: theShackle(func(k *plan.Shackle) { k.PinIsRunning = true })},
	{id: "shackle-round-pin", with: []string{"no-limit"}, raise: sideShackle(5.5, true), clear: sideShackle(4.5, true)},
	{id: "shackle-side-pull", raise: sideShackle(5.5, false), clear: sideShackle(4.5, false)}, // over 5°, ASME B30.26
	{id: "shackle-unmarked", with: []string{"no-limit", "no-rating"}, raise: theShackle(func(k *plan.Shackle) { k.Rating = plan.Rating{} })},
	{id: "sling-choke-tight", raise: choked(-0.01), clear: choked(0.01)},
	{id: "sling-condition-unknown", with: []string{"no-limit"}, raise: theSling(func(s *plan.Sling) { s.Condition = plan.ConditionUnknown })},
	{id: "sling-doubtful", with: []string{"no-limit"}, raise: theSling(func(s *plan.Sling) { s.Condition = plan.ConditionDoubtful })},
	{id: "sling-kinked", with: []string{"no-limit"}, raise: theSling(func(s *plan.Sling) { s.Condition = plan.ConditionKinked })},
	{id: "sling-length-unknown", raise: theSling(func(s *plan.Sling) { s.Length = 0 })},
	{id: "sling-material-unknown", with: []string{"no-limit", "recoil-not-computed"}, raise: theSling(func(s *plan.Sling) { s.Material = "" })},
	{id: "sling-opens", raise: basket(90.5), clear: basket(89.5)},                                                                   // EN 1492: the last band begins at 45° off the pull
	{id: "sling-opens-wide", with: []string{"no-limit"}, left: []string{"sling-opens"}, raise: basket(120.5), clear: basket(119.5)}, // EN 1492: nothing over 60°
	{id: "sling-straight-on-trunk", with: []string{"no-limit"}, raise: do(onTree, theSling(func(s *plan.Sling) { s.Hitch = plan.HitchStraight })), clear: onTree},
	{id: "sling-too-short", with: []string{"tree-may-fall"}, raise: do(onTree, theSling(func(s *plan.Sling) { s.Length = 0.94 })), clear: do(onTree, theSling(func(s *plan.Sling) { s.Length = 1.1 }))},
	{id: "sling-trunk-unknown", with: []string{"no-limit", "not-decided", "tree-may-fall", "tree-size-unknown"}, raise: do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth, a.Trunk = 0, 0 })), clear: onTree},
	{id: "sling-wire-bent", raise: wireRound(0.0121), clear: wireRound(0.012)}, // 25 diameters of 12 mm are 0.3 m
	{id: "soft-shackle-edge-unknown", raise: theShackle(func(k *plan.Shackle) { k.Kind = plan.ShackleSoft })},
}

// fullDrum is what the drum of the base plan holds.
func fullDrum() quantity.Length {
	p := basePlan()
	return gear.DrumOf(p.Site.Vehicles[1].Winch, &p.Rigs[0].Lines[0]).Holds()
}

// noDrum leaves the drum's measures out.
var noDrum = winch(func(w *plan.Winch) { w.DrumDiameter, w.DrumWidth, w.FlangeDiameter = 0, 0, 0 })

// lineBeyond gives the line that much beyond what the base plan's path takes.
func lineBeyond(left quantity.Length) change {
	return theLine(func(l *plan.Line) { l.Length = outOfBase() + left })
}

// guided takes the fairlead away and sets the truck so that its first block is
// that far off.
func guided(distance float64) change {
	return do(puller(func(v *plan.Vehicle) {
		v.Winch.NoFairlead = true
		v.At.Y = distance + 3
	}), on(func(r *plan.Rig) { r.Dampers[0].Share = 0.7 }))
}

// damperPast lays the second damper that share of its stretch past the block.
func damperPast(share float64) change {
	return on(func(r *plan.Rig) { r.Dampers[1].Share = share })
}

// onRing leads the line through a shackle that the sling holds, or through a
// block there.
func onRing(bare bool) change {
	return func(p *plan.Plan) {
		r := &p.Rigs[0]
		if !bare {
			return
		}
		r.Blocks = nil
		r.Shackles = []plan.Shackle{{Head: plan.Head{ID: "K1"}, Kind: plan.ShackleBow, At: plan.Point{X: 20}, Rating: working(47000), Body: 0.019}}
		r.Slings[0].Holds = port("K1", "")
		r.Lines[0].Path[1] = port("K1", "")
		p.Site.Vehicles[1].Winch.Limiter = 6000
	}
}

// joined has a join 8 m from the winch, with a damper on each side or none.
func joined(damped bool) change {
	return on(func(r *plan.Rig) {
		r.Lines[0].Joins = []plan.Join{{At: 8, Kind: "soft shackle", Mass: 0.3}}
		if damped {
			r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L1", Share: 0.5, Mass: 3}, plan.Damper{Head: plan.Head{ID: "D4"}, Line: "L1", Share: 0.56, Mass: 3})
		}
	})
}

// stalledAt raises the limiter over a small shackle of 5 kN.
func stalledAt(limiter quantity.Force) change {
	return do(theShackle(func(k *plan.Shackle) { k.Rating = working(5000) }), winch(func(w *plan.Winch) { w.Limiter = limiter }))
}

// slowWinch is a winch at two thirds of its pull, at that speed without load.
func slowWinch(idle quantity.Speed) change {
	return winch(func(w *plan.Winch) { w.LinePull, w.NoLoadSpeed, w.LoadSpeed = 4000, idle, idle/5 })
}

// twoWinches adds a second truck that pulls straight ahead of the pickup.
func twoWinches(p *plan.Plan) {
	v := truck()
	v.ID, v.Name, v.At, v.Bearing = "V3", "Second truck", plan.Point{X: 30, Y: 0.5}, 270
	p.Site.Vehicles = append(p.Site.Vehicles, v)
	c := &p.Site.Vehicles[0]
	c.Recovery = append(c.Recovery, vehiclePoint("left", 2.6, 0.5, 0))
	r := &p.Rigs[0]
	r.Lines = append(r.Lines, winchLine("L2", port("V3", "winch"), port("V1", "left")))
	r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L2", Share: 0.67, Mass: 3})
}

// extended ends the line in a strap on the pickup's front.
func extended(hitch, material string) change {
	return on(func(r *plan.Rig) {
		s := strap("S9", port("V1", "front"), plan.Port{})
		s.Hitch, s.Material, s.Length = hitch, material, 3
		r.Slings = append(r.Slings, s)
		r.Lines[0].Path[2] = port("S9", "")
	})
}

// sideShackle ends the line in a strap that a shackle holds to the pickup's
// front point, which is turned by that angle out of the pull.
func sideShackle(off quantity.Degrees, roundPin bool) change {
	return do(extended(plan.HitchStraight, plan.MaterialWeb), func(p *plan.Plan) {
		p.Site.Vehicles[0].Recovery[0].Axis = plan.Known(off)
		p.Rigs[0].Shackles = append(p.Rigs[0].Shackles, plan.Shackle{
			Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow, Joins: []plan.Port{port("V1", "front"), port("S9", "")},
			Rating: working(47000), Body: 0.019, RoundPin: roundPin,
		})
	})
}

// choked chokes the sling round the spruce, by that much longer than a loop
// that chokes at 120° (ASME B30.9: narrower takes a step).
func choked(longer quantity.Length) change {
	return do(onTree, theSling(func(s *plan.Sling) {
		s.Hitch = plan.HitchChoked
		s.Length = spruceRadius*chokeAt120 + longer
	}))
}

// chokeAt120 is the length of such a loop over the trunk's radius,
// 2·(cot h + π/2 + h) with h 60°. Closed form.
const chokeAt120 = 2 * (0.5773502691896258 + 1.5707963267948966 + 1.0471975511965976)

// basket is a basket round the spruce whose legs open by that angle.
func basket(opens quantity.Degrees) change {
	return do(onTree, theSling(func(s *plan.Sling) { s.Length = gear.SlingLength(spruceRadius, opens) }))
}

// wireRound is a wire sling of that diameter round the spruce.
func wireRound(diameter quantity.Length) change {
	return do(onTree, theSling(func(s *plan.Sling) { s.Material, s.Width, s.Rating = plan.MaterialWire, diameter, working(15000) }))
}
