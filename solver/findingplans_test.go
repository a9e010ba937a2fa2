package solver_test

import (
	"math"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// The plans that findings are tried on: one base plan that says nothing above
// NOTICE, and for each finding two small changes of it, one that raises it and
// one, at hand beside it, that does not. Each is judged as its file would be:
// written and read again. Curlew Moss and all on it are made up.

// basePlan is a light survey pickup on the level track at Curlew Moss, pulled
// by the wardens' truck round a block on a rated point: each part rated, its
// state known, nobody near, and a limiter that stops the winch before anything
// gives.
func basePlan() *plan.Plan {
	p := plan.New()
	p.Title = "Curlew Moss, level track: nothing to say"
	p.Site.Ground = plan.Ground{Slope: plan.Known(quantity.Degrees(0)), Surface: "roll.gravel-firm", Grip: "grip.earth-firm", Soil: "loam"}
	p.Site.Vehicles = []plan.Vehicle{pickup(), truck()}
	p.Site.Anchors = []plan.Anchor{ratedPoint("A1", 21.485, -1.485)}
	p.Site.People = []plan.Person{
		{Head: plan.Head{ID: "P1"}, Role: plan.RoleOperator, At: plan.Point{X: -60, Y: -80}},
		{Head: plan.Head{ID: "P2"}, Role: plan.RoleSpotter, At: plan.Point{X: -62, Y: -80}},
	}
	p.Rigs = []plan.Rig{{
		Head:   plan.Head{ID: "R1", Name: "Round the block"},
		Lines:  []plan.Line{winchLine("L1", port("V2", "winch"), port("B1", ""), port("V1", "front"))},
		Blocks: []plan.Block{block("B1", 20, 0)},
		Slings: []plan.Sling{strap("S1", port("A1", ""), port("B1", ""))},
		Shackles: []plan.Shackle{{
			Head: plan.Head{ID: "K1"}, Kind: plan.ShackleBow, Joins: []plan.Port{port("S1", ""), port("B1", "")},
			Rating: working(47000), Body: 0.019,
		}},
		Dampers: []plan.Damper{
			{Head: plan.Head{ID: "D1"}, Line: "L1", Stretch: 0, Share: 0.33, Mass: 3},
			{Head: plan.Head{ID: "D2"}, Line: "L1", Stretch: 1, Share: 0.67, Mass: 3},
		},
	}}
	return p
}

// outOfBase is the line out along the base plan's path.
func outOfBase() quantity.Length { return solver.Assess(basePlan(), "R1").Lines[0].Out }

func ratedPoint(id plan.ID, x, y float64) plan.Anchor {
	return plan.Anchor{Head: plan.Head{ID: id}, Kind: plan.AnchorRated, At: plan.Point{X: x, Y: y}, Rise: 0.6, Rating: working(60000)}
}

// The pieces that plans of tests are put together from.
var (
	pickup       = seeded.Pickup
	truck        = seeded.Truck
	vehiclePoint = seeded.VehiclePoint
	winchLine    = seeded.WinchLine
	block        = seeded.Block
	strap        = seeded.Strap
	working      = seeded.Working
	port         = seeded.Port
)

// change is an edit of the base plan.
type change func(p *plan.Plan)

// findingCase is one finding with the two plans at its border.
type findingCase struct {
	id    string
	raise change
	clear change   // nil: the base plan
	with  []string // what the raising plan cannot but say besides
	left  []string // what the clearing plan still says besides the base plan's
	still []string // parts that are computed and within their limits all the same
}

// do makes several changes in turn.
func do(all ...change) change {
	return func(p *plan.Plan) {
		for _, c := range all {
			c(p)
		}
	}
}

func on(what func(r *plan.Rig)) change { return func(p *plan.Plan) { what(&p.Rigs[0]) } }

func theLine(what func(l *plan.Line)) change {
	return func(p *plan.Plan) { what(&p.Rigs[0].Lines[0]) }
}
func theBlock(what func(b *plan.Block)) change {
	return func(p *plan.Plan) { what(&p.Rigs[0].Blocks[0]) }
}
func theSling(what func(s *plan.Sling)) change {
	return func(p *plan.Plan) { what(&p.Rigs[0].Slings[0]) }
}
func theShackle(what func(k *plan.Shackle)) change {
	return func(p *plan.Plan) { what(&p.Rigs[0].Shackles[0]) }
}
func theAnchor(what func(a *plan.Anchor)) change {
	return func(p *plan.Plan) { what(&p.Site.Anchors[0]) }
}
func casualty(what func(v *plan.Vehicle)) change {
	return func(p *plan.Plan) { what(&p.Site.Vehicles[0]) }
}
func stuck(what func(s *plan.Stuck)) change {
	return func(p *plan.Plan) { what(p.Site.Vehicles[0].Stuck) }
}
func puller(what func(v *plan.Vehicle)) change {
	return func(p *plan.Plan) { what(&p.Site.Vehicles[1]) }
}
func winch(what func(w *plan.Winch)) change {
	return func(p *plan.Plan) { what(p.Site.Vehicles[1].Winch) }
}
func front(what func(q *plan.RecoveryPoint)) change {
	return func(p *plan.Plan) { what(&p.Site.Vehicles[0].Recovery[0]) }
}
func person(who plan.Person) change {
	return func(p *plan.Plan) { p.Site.People = append(p.Site.People, who) }
}

// byRules leaves the resistance to the rules: firm gravel at no depth.
func byRules(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Measured = 0 }

// laden sets the casualty's mass where the rules multiply it.
func laden(m quantity.Mass) change { return casualty(func(v *plan.Vehicle) { v.Mass = m }) }

// spruceRadius is half the thickness of the tree of [onTree].
const spruceRadius quantity.Length = 0.15

// onTree hangs the block in a basket on a stout living spruce instead of the
// rated point.
func onTree(p *plan.Plan) {
	p.Site.Anchors[0] = plan.Anchor{
		Head: plan.Head{ID: "A1"}, Kind: plan.AnchorTree, At: plan.Point{X: 21.485, Y: -1.485}, Height: 15, Species: "norway-spruce",
		Girth: 2 * math.Pi * spruceRadius, Trunk: 2 * spruceRadius, Health: plan.HealthAlive, Rooting: "shallow", Soil: "gleyed",
	}
	s := &p.Rigs[0].Slings[0]
	s.Hitch, s.Length, s.Height = plan.HitchBasket, 4, 0.6
}

// inGround puts a buried log set for the pull in place of the rated point.
func inGround(p *plan.Plan) {
	p.Site.Anchors[0] = plan.Anchor{
		Head: plan.Head{ID: "A1"}, Kind: plan.AnchorDeadman, At: plan.Point{X: 21.485, Y: -1.485}, Rise: 0.6,
		SetKnown: true, SetBearing: 315, Depth: 1.5, LogLength: 1.8, LogDiameter: 0.4, LineRun: 2,
	}
}

// onPickets puts a picket holdfast there.
func onPickets(p *plan.Plan) {
	p.Site.Anchors[0] = plan.Anchor{
		Head: plan.Head{ID: "A1"}, Kind: plan.AnchorPickets, At: plan.Point{X: 21.485, Y: -1.485}, Rise: 0.6,
		SetKnown: true, SetBearing: 315, Layout: "3-2-1",
	}
}

// onBoulder puts a loose boulder of 20 t there.
func onBoulder(p *plan.Plan) {
	p.Site.Anchors[0] = plan.Anchor{
		Head: plan.Head{ID: "A1"}, Kind: plan.AnchorBoulder, At: plan.Point{X: 21.485, Y: -1.485}, Rise: 0.6, Mass: 20000,
	}
}

// onVehicle hangs the block on a second truck, braked and chocked, its nose
// along the pull.
func onVehicle(p *plan.Plan) {
	v := truck()
	v.ID, v.Name, v.Winch = "V3", "Second truck", nil
	v.At, v.Bearing = plan.Point{X: 21.485 + 3/1.41421356, Y: -1.485 - 3/1.41421356}, 315
	v.Recovery[0].Left = plan.Known(quantity.Length(0))
	p.Site.Vehicles = append(p.Site.Vehicles, v)
	p.Site.Anchors = nil
	p.Rigs[0].Slings[0].On = port("V3", "front")
}

// bridled ends the line in a shackle held by two legs to the pickup's front.
func bridled(leg quantity.Length) change {
	return func(p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		v.Recovery = append(v.Recovery, vehiclePoint("left", 2.6, 0.5, 0), vehiclePoint("right", 2.6, -0.5, 0))
		for i := range v.Recovery {
			v.Recovery[i].MaxAngle = 80
		}
		r := &p.Rigs[0]
		a, b := strap("S8", port("V1", "left"), port("K8", "")), strap("S9", port("V1", "right"), port("K8", ""))
		a.Length, b.Length = leg, leg
		r.Slings = append(r.Slings, a, b)
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K8"}, Kind: plan.ShackleBow, At: plan.Point{X: 4.4}, Rating: working(47000), Body: 0.019})
		r.Lines[0].Path[2] = port("K8", "")
	}
}

// selfRecovery lets the pickup winch itself on a block at the rated point, the
// dead end on the named point beside its own winch.
func selfRecovery(dead plan.ID, kind string) change {
	return func(p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		w := *p.Site.Vehicles[1].Winch
		w.Ahead = 2.6
		v.Winch = &w
		v.Recovery[0].Left, v.Recovery[0].Kind = plan.Known(quantity.Length(0.4)), kind
		p.Site.Vehicles = p.Site.Vehicles[:1]
		p.Site.Anchors[0].At = plan.Point{X: 20, Y: 0}
		r := &p.Rigs[0]
		r.Blocks[0].At = plan.Point{X: 17.9}
		r.Lines[0].Path = []plan.Port{port("V1", "winch"), port("B1", ""), port("V1", dead)}
	}
}

// boulderAt is a low boulder a metre wide whose near edge lies that far from
// the stretch between block and pickup.
func boulderAt(clear float64) change {
	return func(p *plan.Plan) {
		at := func(x, y float64) plan.Point { return plan.Point{X: x, Y: y} }
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Kind: "boulder",
			Outline: []plan.Point{at(10, clear), at(11, clear), at(11, clear+1), at(10, clear+1)}})
	}
}

// sloped tilts the ground.
func sloped(slope, downhill quantity.Degrees) change {
	return func(p *plan.Plan) {
		p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(slope), plan.Known(downhill)
	}
}

// heldBack slows the pickup by a line from its rear to a point behind it, paid
// out over a friction device.
func heldBack(tag quantity.Force) change {
	return func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", -6, 0))
		l := winchLine("L8", port("A2", ""), port("V1", "rear"))
		l.Use, l.PaidOut, l.Length, l.Rating = plan.UseHoldBack, plan.PaidOutFriction, 3.4, working(tag)
		p.Rigs[0].Lines = append(p.Rigs[0].Lines, l)
	}
}

// heldBackBy changes that line.
func heldBackBy(edit func(*plan.Line)) change {
	return do(heldBack(30000), on(func(r *plan.Rig) { edit(&r.Lines[len(r.Lines)-1]) }))
}

// tiedBack ties the truck's rear to a point behind it; aside moves that point.
func tiedBack(tag quantity.Force, aside float64) change {
	return func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A2", 20+aside, 25))
		p.Site.Vehicles[1].Recovery[1].MaxAngle = 80
		s := strap("S2", port("A2", ""), port("V2", "rear"))
		s.Use, s.Length, s.Rating = plan.UseTieBack, quantity.Length(math.Hypot(4, aside)), working(tag)
		p.Rigs[0].Slings = append(p.Rigs[0].Slings, s)
	}
}

// stoneAt puts a stone of 0.4 m across there, higher than any line.
func stoneAt(x, y float64) change {
	return func(p *plan.Plan) {
		p.Site.Obstacles = append(p.Site.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O9"}, Kind: "boulder", Height: 3,
			Outline: []plan.Point{{X: x - 0.2, Y: y - 0.2}, {X: x + 0.2, Y: y - 0.2}, {X: x + 0.2, Y: y + 0.2}, {X: x - 0.2, Y: y + 0.2}}})
	}
}

// second adds another sling between the rated point and the block.
func second(length quantity.Length) change {
	return on(func(r *plan.Rig) {
		s := strap("S2", port("A1", ""), port("B1", ""))
		s.Length = length
		r.Slings = append(r.Slings, s)
		r.Shackles = append(r.Shackles, shackled("S2"))
	})
}

// shackled is the shackle that joins a sling to the block.
func shackled(sling plan.ID) plan.Shackle {
	k := basePlan().Rigs[0].Shackles[0]
	k.ID, k.Joins = "K2", []plan.Port{port(sling, ""), port("B1", "")}
	return k
}
