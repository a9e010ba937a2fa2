package solver_test

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What package solver itself finds.
var solverCases = []findingCase{
	{id: "bare-trunk", with: []string{"jump", "line-chafes"},
		raise: do(onTree, on(func(r *plan.Rig) { // the line goes round the pine itself
			r.Blocks, r.Slings, r.Shackles = nil, nil, nil
			r.Lines[0].Path[1] = port("A1", "")
		}), theAnchor(func(a *plan.Anchor) { a.At = plan.Point{X: 20} }), winch(func(w *plan.Winch) { w.Limiter = 6000 })), clear: onTree},
	{id: "blocks-touch", raise: twoBlocks("A1"), clear: twoBlocks("A2")},
	{id: "casualty-meets", raise: stoneAhead(4.59), clear: stoneAhead(4.61)}, // its nose at 2.6 m goes on 2 m
	{id: "does-not-move", raise: winch(func(w *plan.Winch) { w.Limiter = 2050 }), clear: winch(func(w *plan.Winch) { w.Limiter = 2070 })},
	{id: "doubt-at-middle", raise: theSling(func(s *plan.Sling) { s.Doubts = []plan.Doubt{{Member: "length_m", Low: 1.9, High: 2.1}} }),
		clear: theSling(func(s *plan.Sling) { s.Doubts = []plan.Doubt{{Member: "rating.force_n", Low: 39000, High: 41000}} })},
	{id: "line-backwards", with: []string{"no-winch"},
		raise: theLine(func(l *plan.Line) { l.Path[0], l.Path[2] = l.Path[2], l.Path[0] })},
	{id: "line-bears", raise: boulderAt(-0.01), clear: boulderAt(0.55)},
	{id: "line-near", raise: boulderAt(0.49), clear: boulderAt(0.53)},       // keeps 0.5 m (ours)
	{id: "line-over", raise: slabUnder(0.11), clear: slabUnder(0.09)},       // the line at 0.6 m keeps 0.5 m (ours)
	{id: "line-over-low", raise: slabUnder(0.049), clear: slabUnder(0.051)}, // under 5 cm (ours)
	{id: "line-on-trunk", raise: treeBeside(0.19), clear: treeBeside(0.21)},
	{id: "loose-end", raise: on(func(r *plan.Rig) { r.Slings = append(r.Slings, strap("S2", plan.Port{}, plan.Port{})) })},
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
	{id: "over-limit", left: []string{"near-limit"},
		raise: theBlock(func(b *plan.Block) { b.Rating = working(2860) }), clear: theBlock(func(b *plan.Block) { b.Rating = working(2880) })},
	{id: "presets", raise: theBlock(func(b *plan.Block) { b.Presets = []string{"rating"} })},
	{id: part.NotDecidedID, raise: func(p *plan.Plan) { p.Site.Ground.Slope = plan.Maybe[quantity.Degrees]{} }},
	{id: "pulls-backwards", with: []string{"jump", "two-winches"}, raise: heldFrom(false)},
	{id: "resistance-not-computed", with: []string{"mass-not-known", "recoil-energy-at"}, raise: do(byRules, laden(0)), clear: byRules},
	{id: "reversed-sheave", with: []string{"jump", "pulls-backwards", "two-winches"}, left: []string{"jump", "pulls-backwards", "two-winches"}, raise: heldFrom(true), clear: heldFrom(false)},
	{id: "several-casualties", raise: alsoStuck(&plan.Stuck{Way: plan.WayForward}), clear: alsoStuck(nil)},
	{id: "shared-slings", raise: second(2)},
	{id: "sheave-undetermined", with: []string{"no-casualty", "recoil-energy-at"}, raise: casualty(func(v *plan.Vehicle) { v.Stuck, v.Brake, v.Chocks = nil, plan.BrakeAll, plan.ChocksAll })},
	{id: "slack-line", with: []string{"damper-missing"}, raise: on(func(r *plan.Rig) {
		l := winchLine("L2", port("A1", ""), port("B1", "becket"))
		l.Length = 5
		r.Lines = append(r.Lines, l)
	})},
	{id: "slack-sling", raise: second(2.5)},
	{id: "tie-back-bears", raise: do(tiedBack(40000, 0), stoneAt(20, 23)), clear: do(tiedBack(40000, 0), stoneAt(23, 23))},
	{id: "tie-back-loose", raise: do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].On = plan.Port{} })), clear: tiedBack(40000, 0)},
	{id: "too-short", raise: between(2.25), clear: between(2.4)},
	{id: "unknown-members", raise: func(p *plan.Plan) { p.Site.Extra = []byte(`{"wind_m_per_s":4}`) }},
	{id: "unknown-thing", raise: func(p *plan.Plan) {
		p.Site.Unknown = []plan.Stranger{{ID: "X1", Kind: "capstan", At: plan.Point{X: -20}}}
	}},
	{id: "unknown-words", raise: theSling(func(s *plan.Sling) { s.Standard = "another" })},
	{id: "winch-over", left: []string{"near-limit", "winch-duty"}, // layer 2 of 80 mm barrel and 10 mm line: 9/11 of the rated pull
		raise: winch(func(w *plan.Winch) { w.LinePull = 2500 }), clear: winch(func(w *plan.Winch) { w.LinePull = 2530 })},
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

// slabUnder is a slab of that height under the line to the pickup.
func slabUnder(height quantity.Length) change {
	return obstacleAt(height, plan.Point{X: 8, Y: -1}, plan.Point{X: 12, Y: -1}, plan.Point{X: 12, Y: 1}, plan.Point{X: 8, Y: 1})
}

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
		r.Slings = append(r.Slings, s)
	}
}
