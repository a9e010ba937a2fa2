package solver_test

import (
	"math"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What package solver itself finds.
var solverCases = []findingCase{
	{id: "bare-trunk", with: []string{"line-chafes", "tree-may-fall"},
		raise: do(onTree, on(func(r *plan.Rig) { // the line goes round the pine itself
			r.Blocks, r.Slings, r.Shackles = nil, nil, nil
			r.Lines[0].Path[1] = port("A1", "")
		}), theAnchor(func(a *plan.Anchor) { a.At = plan.Point{X: 20} }), winch(func(w *plan.Winch) { w.Limiter = 6000 })), clear: onTree},
	{id: "blocks-touch", with: []string{"shackle-missing"}, left: []string{"shackle-missing"}, raise: twoBlocks("A1"), clear: twoBlocks("A2")},
	{id: "casualty-in-water", raise: do(byRules, pond(-2.5)), clear: do(byRules, pond(-2.7))},
	{id: "casualty-meets", raise: stoneAhead(4.59), clear: stoneAhead(4.61)}, // its nose at 2.6 m goes on 2 m
	{id: "dead-line-length-unknown", with: []string{"damper-missing", "still-fastened"}, raise: deadLine(0), clear: nil},
	{id: "does-not-move", raise: winch(func(w *plan.Winch) { w.Limiter = 2050 }), clear: winch(func(w *plan.Winch) { w.Limiter = 2070 })},
	{id: "doubt-at-middle", raise: theSling(func(s *plan.Sling) { s.Doubts = []plan.Doubt{{Member: "length_m", Low: 1.9, High: 2.1}} }),
		clear: theSling(func(s *plan.Sling) { s.Doubts = []plan.Doubt{{Member: "rating.force_n", Low: 39000, High: 41000}} })},
	{id: "ends-on-nothing", with: []string{"zone-not-drawn"}, raise: do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].On = plan.Port{} })), clear: tiedBack(40000, 0)},
	{id: "hold-back-askew", with: []string{"downhill-pull", "still-fastened"}, raise: do(sloped(2, 90), heldAside(31)), clear: do(sloped(2, 90), heldAside(29))}, // over 30° (ours)
	{id: "hold-back-fixed", with: []string{"downhill-pull", "still-fastened"}, raise: do(sloped(2, 90), heldBackBy(func(l *plan.Line) { l.PaidOut = "" })), clear: do(sloped(2, 90), heldBack(30000))},
	{id: "hold-back-loose", raise: do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].Use = plan.UseHoldBack })), clear: do(sloped(2, 90), heldBack(30000))},
	{id: "hold-back-slack", with: []string{"downhill-pull", "still-fastened"}, raise: do(sloped(2, 90), heldBackBy(func(l *plan.Line) { l.Length = 3.91 })), clear: do(sloped(2, 90), heldBackBy(func(l *plan.Line) { l.Length = 3.89 }))}, // 3.4 m, and 0.5 m (ours)
	{id: "holds-nothing", raise: theAnchor(func(a *plan.Anchor) { a.HoldLow = plan.Known(quantity.Force(0)) }), clear: theAnchor(func(a *plan.Anchor) { a.HoldLow = plan.Known(quantity.Force(60000)) })},
	{id: "hooked-to-fairlead", raise: towedBy("winch"), clear: towedBy("front")},
	{id: "leg-takes-up", raise: second(2.049), left: []string{"slack-sling"}, clear: second(2.051)}, // 5 cm (ours)
	{id: "line-backwards", with: []string{"no-winch"},
		raise: theLine(func(l *plan.Line) { l.Path[0], l.Path[2] = l.Path[2], l.Path[0] })},
	{id: "line-bears", raise: boulderAt(-0.01), clear: boulderAt(0.55)},
	{id: "line-near", raise: boulderAt(0.49), clear: boulderAt(0.53)},       // keeps 0.5 m (ours)
	{id: "line-over", raise: slabUnder(0.11), clear: slabUnder(0.09)},       // the line at 0.6 m keeps 0.5 m (ours)
	{id: "line-over-low", raise: slabUnder(0.049), clear: slabUnder(0.051)}, // under 5 cm (ours)
	{id: "line-on-trunk", raise: treeBeside(0.19), clear: treeBeside(0.21)},
	{id: "line-through-vehicle", with: []string{"two-winches"}, left: []string{"two-winches", "winch-lead", "winch-piles-up"}, raise: towedFrom(-1.4), clear: towedFrom(1.9)},
	{id: "loose-end", raise: on(func(r *plan.Rig) { r.Slings = append(r.Slings, strap("S2", plan.Port{}, plan.Port{})) })},
	{id: "near-to-break-loose", // from 75 % (ours): 1.5 × 2000 N × √2 · 0.96^¼ … of the block's tag, told by the block's own load
		raise: breaks(1.5, 0.7505), clear: breaks(1.5, 0.7495)},
	{id: "near-limit", // from 75 % (ours)
		raise: winch(func(w *plan.Winch) { w.LinePull = 3300 }), clear: winch(func(w *plan.Winch) { w.LinePull = 3400 })},
	{id: "no-casualty", with: []string{"recoil-energy-at", "sheave-undetermined"}, raise: casualty(func(v *plan.Vehicle) { v.Stuck, v.Brake, v.Chocks = nil, plan.BrakeAll, plan.ChocksAll })},
	{id: "no-limit", with: []string{"no-rating"}, still: []string{"S1", "K1", "A1", "L1/1", "L1/2", "V1/front"},
		raise: theBlock(func(b *plan.Block) { b.Rating = plan.Rating{} })},
	{id: "no-pull-along-way-out", with: []string{"off-way-out-refused"},
		raise: stuck(func(s *plan.Stuck) { s.Way, s.WayBearing = plan.WayFree, plan.Known(quantity.Degrees(270)) }), clear: stuck(func(s *plan.Stuck) { s.Way, s.WayBearing = plan.WayFree, plan.Known(quantity.Degrees(80)) })},
	{id: "no-winch", raise: theLine(func(l *plan.Line) { l.Path[0] = port("V2", "front") })},
	{id: "not-hooked", with: []string{"recoil-energy-at", "sheave-undetermined"}, raise: do(func(p *plan.Plan) { p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 8, 0)) },
		theLine(func(l *plan.Line) { l.Path[2] = port("A2", "") }))},
	{id: "nothing-pulls", raise: on(func(r *plan.Rig) { r.Lines, r.Dampers = nil, nil })},
	{id: "over-to-break-loose", left: []string{"near-to-break-loose"}, raise: breaks(1.5, 1.001), clear: breaks(1.5, 0.999)},
	{id: "over-limit", left: []string{"near-limit"},
		raise: theBlock(func(b *plan.Block) { b.Rating = working(2860) }), clear: theBlock(func(b *plan.Block) { b.Rating = working(2880) })},
	{id: "person-in-water", raise: do(lowAt(plan.ObstacleWater, -80, -110, -70, -90), person(who(plan.RoleSpotter, -69.55, -100))), clear: do(lowAt(plan.ObstacleWater, -80, -110, -70, -90), person(who(plan.RoleSpotter, -69.45, -100)))}, // 0.5 m about them (ours)
	{id: "presets", raise: theBlock(func(b *plan.Block) { b.Presets = []string{"rating"} })},
	{id: part.NotDecidedID, raise: func(p *plan.Plan) { p.Site.Ground.Slope = plan.Maybe[quantity.Degrees]{} }},
	{id: "pulls-backwards", with: []string{"two-winches"}, raise: heldFrom(false)},
	{id: "resistance-not-computed", with: []string{"mass-not-known", "not-decided", "recoil-energy-at"}, raise: do(byRules, laden(0)), clear: byRules},
	{id: "reversed-sheave", with: []string{"pulls-backwards", "shackle-missing", "two-winches"}, left: []string{"pulls-backwards", "two-winches"}, raise: heldFrom(true), clear: heldFrom(false)},
	{id: "restraint-not-computed", with: []string{"zone-not-drawn"}, raise: do(tiedBack(40000, 0), alsoTied), clear: tiedBack(40000, 0)},
	{id: "several-casualties", raise: alsoStuck(&plan.Stuck{Way: plan.WayForward}), clear: alsoStuck(nil)},
	{id: "shackle-missing", raise: on(func(r *plan.Rig) { r.Shackles = nil })},
	{id: "shared-slings", raise: second(2)},
	{id: "sheave-either-way", with: []string{"off-way-out", "shackle-missing"}, left: []string{"off-way-out", "shackle-missing"}, raise: swungBlock(10), clear: swungBlock(9.5)},
	{id: "sheave-undetermined", with: []string{"no-casualty", "recoil-energy-at"}, raise: casualty(func(v *plan.Vehicle) { v.Stuck, v.Brake, v.Chocks = nil, plan.BrakeAll, plan.ChocksAll })},
	{id: "slack-line", with: []string{"damper-missing"}, raise: on(func(r *plan.Rig) {
		l := winchLine("L2", port("A1", ""), port("B1", "becket"))
		l.Length = 5
		r.Lines = append(r.Lines, l)
	})},
	{id: "slack-sling", raise: second(2.5)},
	{id: "strap-bears", raise: stoneUnderStrap(-0.6), clear: stoneUnderStrap(-0.85)},
	{id: "tie-back-bears", raise: do(tiedBack(40000, 0), stoneAt(20, 23)), clear: do(tiedBack(40000, 0), stoneAt(23, 23))},
	{id: "tie-back-loose", raise: do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].Holds = port("A1", "") })), clear: tiedBack(40000, 0)},
	{id: "tie-back-slack", raise: tiedLong(4.51), clear: tiedLong(4.49)}, // 4 m, and 0.5 m (ours)
	{id: "stands-in-water", raise: lowAt(plan.ObstacleWater, 16, 20.9, 24, 24), clear: lowAt(plan.ObstacleWater, 16, 21.1, 24, 24)},
	{id: "slope-against-heights", raise: levelled(5.1), clear: levelled(4.9)},  // over 5° (ours)
	{id: "slope-against-rise", raise: parkedHigh(5.1), clear: parkedHigh(4.9)}, // the same
	{id: "still-fastened", raise: strapped("rear", -12), clear: nil},
	{id: "tension-too-small", raise: theLine(func(l *plan.Line) { l.Fixed = 2050 }), clear: theLine(func(l *plan.Line) { l.Fixed = 2070 })}, // as does-not-move
	{id: "too-short", raise: between(2.25), clear: between(2.4)},
	{id: "travel-not-computed", raise: on(func(r *plan.Rig) { r.Travel = 2.4 })},
	{id: "unknown-members", raise: func(p *plan.Plan) { p.Site.Extra = []byte(`{"wind_m_per_s":4}`) }},
	{id: "unknown-thing", raise: func(p *plan.Plan) {
		p.Site.Unknown = []plan.UnknownThing{{ID: "X1", Kind: "capstan", At: plan.Point{X: -20}}}
	}},
	{id: "unknown-words", raise: theSling(func(s *plan.Sling) { s.Standard = "another" })},
	{id: "tree-in-vehicle", raise: treeInside(0.94), clear: treeInside(0.96)}, // half of 1.9 m
	{id: "vehicles-overlap", raise: parkedBy(3.34), clear: parkedBy(3.36)},    // 2.6 + 0.95 − 0.2 m (ours)
	{id: "winch-taken", raise: on(func(r *plan.Rig) {
		l := winchLine("L2", port("V1", "rear"), port("V2", "winch"))
		l.Use = plan.UseHoldBack
		r.Lines = append(r.Lines, l)
	})},
	{id: "winch-over", left: []string{"near-limit", "winch-duty"}, // layer 2 of 80 mm barrel and 10 mm line: 9/11 of the rated pull
		raise: winch(func(w *plan.Winch) { w.LinePull = 2500 }), clear: winch(func(w *plan.Winch) { w.LinePull = 2530 })},
}

// treeInside plants a tree that far beside the middle of a pickup of 1.9 m by 5.2 m,
// braked, far behind the casualty.
func treeInside(off float64) change {
	return func(p *plan.Plan) {
		parkedBy(40)(p)
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T9"}, Kind: plan.AnchorTree, Trunk: 0.4, Height: 20, Health: plan.HealthAlive, At: plan.Point{X: -40 + off}})
	}
}

// parkedBy parks a pickup of 1.9 m by 5.2 m, braked, that far behind the middle of
// the casualty, its side to it.
func parkedBy(off float64) change {
	return func(p *plan.Plan) {
		v := pickup()
		v.ID, v.Name, v.At, v.Bearing, v.Brake, v.Stuck = "V3", "Second pickup", plan.Point{X: -off}, 0, plan.BrakeAll, nil
		p.Site.Vehicles = append(p.Site.Vehicles, v)
	}
}

// swungBlock leads the line back from the pickup over a block that swings on a strap
// of 2.4 m to a point that far east, whose legs and strap close to a right angle.
func swungBlock(end float64) change {
	return func(p *plan.Plan) {
		w, r := &p.Site.Vehicles[1], &p.Rigs[0]
		turn := math.Atan2(-8, -16.5)
		w.At, w.Bearing = plan.Point{X: 16.5 - 3*math.Cos(turn), Y: 8 - 3*math.Sin(turn)}, (90 - quantity.FromRadians(turn)).Normal()
		p.Site.Anchors = []plan.Anchor{ratedPoint("A1", 17.5, 1.5), ratedPoint("A2", end, -16)}
		b := block("B2", 2.6, 0)
		b.Fixed = port("V1", "front")
		r.Blocks = append(r.Blocks, b)
		r.Blocks[0].At, r.Blocks[0].Efficiency, r.Blocks[1].Efficiency = plan.Point{X: 15, Y: 1.2}, 0.9, 0.9
		r.Slings[0].Length = 2.4
		l := &r.Lines[0]
		l.Length, l.Path = 80, []plan.Port{l.Path[0], port("B2", ""), port("B1", ""), port("A2", "")}
		r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L1", Stretch: 2, Share: 0.5, Mass: 3})
	}
}

// levelled has four heights measured on ground that falls north by that angle.
func levelled(fall quantity.Degrees) change {
	return func(p *plan.Plan) {
		p.Site.Survey = &plan.Survey{}
		for _, at := range []plan.Point{{}, {X: 10}, {X: 10, Y: 20}, {Y: 20}} {
			p.Site.Survey.Points = append(p.Site.Survey.Points, plan.SurveyPoint{X: at.X, Y: at.Y, Z: quantity.Length(200 - at.Y*math.Tan(fall.Radians()))})
		}
	}
}

// parkedHigh parks a pickup, braked, 40 m behind the casualty, and higher by that
// angle, far from the truck.
func parkedHigh(angle quantity.Degrees) change {
	return do(parkedBy(40), func(p *plan.Plan) { p.Site.Vehicles[2].Rise = quantity.Length(40 * math.Tan(angle.Radians())) })
}

// twoBlocks leads the line over two blocks shackled to points.
func twoBlocks(second plan.ID) change {
	return func(p *plan.Plan) {
		p.Site.Anchors[0].At = plan.Point{X: 20, Y: 0}
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 20, -3))
		r := &p.Rigs[0]
		r.Slings, r.Shackles, r.Dampers = nil, nil, append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L1", Stretch: 2, Share: 0.67, Mass: 3})
		r.Blocks = append(r.Blocks, block("B2", 20, -3))
		r.Blocks[0].Fixed, r.Blocks[1].Fixed = port("A1", ""), port(second, "")
		r.Lines[0].Path = []plan.Port{port("V2", "winch"), port("B1", ""), port("B2", ""), port("V1", "front")}
	}
}

// heldFrom adds a truck behind the pickup whose winch holds it back with 300 N,
// over a block or straight.
func heldFrom(overBlock bool) change {
	return func(p *plan.Plan) {
		v := truck()
		v.ID, v.Name, v.At, v.Bearing = "V3", "Second truck", plan.Point{X: -26, Y: 0}, 90
		p.Site.Vehicles = append(p.Site.Vehicles, v)
		l := winchLine("L2", port("V3", "winch"), port("V1", "rear"))
		l.Fixed = 300
		r := &p.Rigs[0]
		r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L2", Share: 0.5, Mass: 3})
		if overBlock {
			p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A3", -14, 0.5))
			b := block("B3", -14, 0.5)
			b.Fixed = port("A3", "")
			r.Blocks = append(r.Blocks, b)
			l.Path = []plan.Port{l.Path[0], port("B3", ""), l.Path[1]}
			r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D4"}, Line: "L2", Stretch: 1, Share: 0.5, Mass: 3})
		}
		r.Lines = append(r.Lines, l)
	}
}

// stoneAhead is a stone that far along the pickup's way out, beside its line.
func stoneAhead(x float64) change {
	return obstacleAt(0.5, plan.Point{X: x, Y: 0.6}, plan.Point{X: x + 1, Y: 0.6}, plan.Point{X: x + 1, Y: 0.9}, plan.Point{X: x, Y: 0.9})
}

// stoneUnderStrap is a stone on the way from the rated point to the block, its
// north edge there: the strap runs from (21.485, -1.485) to the block at (20, 0).
func stoneUnderStrap(north float64) change {
	return obstacleAt(0, plan.Point{X: 20.6, Y: north - 0.2}, plan.Point{X: 20.8, Y: north - 0.2}, plan.Point{X: 20.8, Y: north}, plan.Point{X: 20.6, Y: north})
}

// slabUnder is a slab of that height under the line to the pickup.
func slabUnder(height quantity.Length) change {
	return obstacleAt(height, plan.Point{X: 8, Y: -1}, plan.Point{X: 12, Y: -1}, plan.Point{X: 12, Y: 1}, plan.Point{X: 8, Y: 1})
}

// lowAt is what stands out 2 cm, from one corner to the other.
func lowAt(kind string, x0, y0, x1, y1 float64) change {
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: kind, Height: 0.02, SeeOver: true,
			Outline: []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}})
	}
}

// pond is a water west of x.
func pond(x float64) change { return lowAt(plan.ObstacleWater, x-20, -20, x, 20) }

// obstacleAt adds an obstacle of that height.
func obstacleAt(height quantity.Length, outline ...plan.Point) change {
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: "boulder", Outline: outline, Height: height})
	}
}

// treeBeside is a tree 0.4 m thick that far off the line to the pickup.
func treeBeside(off float64) change {
	return func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, At: plan.Point{X: 5, Y: off}, Trunk: 0.4, Height: 12})
	}
}

// alsoStuck adds a third vehicle.
func alsoStuck(s *plan.Stuck) change {
	return func(p *plan.Plan) {
		v := pickup()
		v.ID, v.Name, v.At, v.Stuck = "V3", "Second pickup", plan.Point{X: -30, Y: -30}, s
		p.Site.Vehicles = append(p.Site.Vehicles, v)
	}
}

// between holds the block by two straps of that length, 0.1 m of block added to
// each, from points 4.743 m apart.
func between(length quantity.Length) change {
	return func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 22.8, 1.4))
		p.Site.Anchors[0].At = plan.Point{X: 18.9, Y: -1.3}
		r := &p.Rigs[0]
		s := strap("S2", port("A2", ""), port("B1", ""))
		r.Slings[0].Length, s.Length = length, length
		r.Slings, r.Shackles = append(r.Slings, s), append(r.Shackles, shackled("S2"))
	}
}

// tiedLong ties the truck back by a strap of that length over 4 m.
func tiedLong(length quantity.Length) change {
	return do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].Length = length }))
}

// deadLine adds a line without a winch between the block's anchor and the
// pickup.
func deadLine(length quantity.Length) change {
	return on(func(r *plan.Rig) {
		l := winchLine("L2", port("A1", ""), port("V1", "front"))
		l.Length = length
		r.Lines = append(r.Lines, l)
	})
}

// heldAside slows the pickup from a point that far off the way it would roll,
// 3.4 m behind it.
func heldAside(off quantity.Degrees) change {
	return do(heldBackBy(func(l *plan.Line) { l.Rating = working(60000) }), func(p *plan.Plan) {
		p.Site.Vehicles[0].Recovery[1].MaxAngle = 80
		a := &p.Site.Anchors[len(p.Site.Anchors)-1]
		a.At = plan.Point{X: -2.6 - 3.4*math.Cos(off.Radians()), Y: 3.4 * math.Sin(off.Radians())}
	})
}

// towedBy hangs the block on a third truck instead of the rated point.
func towedBy(point plan.ID) change {
	return func(p *plan.Plan) {
		v := truck()
		v.ID, v.Name, v.At, v.Bearing = "V3", "Second truck", plan.Point{X: 23.61, Y: -3.61}, 315
		v.Recovery[0].Left = plan.Known[quantity.Length](0)
		p.Site.Vehicles = append(p.Site.Vehicles, v)
		p.Site.Anchors = nil
		p.Rigs[0].Slings[0].On = port("V3", point)
	}
}

// breaks has the pickup take that factor to break loose, and the block's tag
// carry that share of it.
func breaks(factor, share float64) change {
	return func(p *plan.Plan) {
		b, _ := solver.Assess(p, "R1").Part("B1")
		p.Site.Vehicles[0].Stuck.Breakaway = factor
		p.Rigs[0].Blocks[0].Rating = working(b.Move.Force * quantity.Force(factor/share))
	}
}

// alsoTied leads the tie-back on to two anchors.
func alsoTied(p *plan.Plan) {
	p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A3", 22, 25))
	r := &p.Rigs[0]
	r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K2"}, Kind: plan.ShackleBow, Rating: working(47000), Body: 0.019})
	s := strap("S3", port("A3", ""), port("K2", ""))
	s.Use = plan.UseTieBack
	t := strap("S4", port("A2", ""), port("K2", ""))
	t.Use = plan.UseTieBack
	r.Slings[1].On, r.Slings[1].Holds = port("V2", "rear"), port("K2", "")
	r.Slings = append(r.Slings, s, t)
}

// strapped makes the pickup fast to a post.
func strapped(point plan.ID, x float64) change {
	return func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A9", x, 0))
		s := strap("S9", port("A9", ""), port("V1", point))
		s.Length = 9.4
		p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
	}
}

// towedFrom adds a third truck beside the line to the pickup, its winch hooked
// on to it; the line passes that far off its side.
func towedFrom(off float64) change {
	return func(p *plan.Plan) {
		v := truck()
		v.ID, v.Name, v.At, v.Bearing = "V3", "Second truck", plan.Point{X: 12, Y: 1.1 + off}, 270
		v.Recovery = nil
		p.Site.Vehicles = append(p.Site.Vehicles, v)
		l := winchLine("L2", port("V3", "winch"), port("V1", "front"))
		r := &p.Rigs[0]
		r.Lines = append(r.Lines, l)
		r.Dampers = append(r.Dampers, plan.Damper{Head: plan.Head{ID: "D3"}, Line: "L2", Share: 0.5, Mass: 3})
	}
}
