package seeded

import (
	"fmt"
	"math"
	"math/rand/v2"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// found draws one plan as people rig it on Curlew Moss: a casualty, one or two
// trucks, a line straight, doubled or redirected, whatever holds its blocks, and
// what ties back and holds back. One seed is one plan. Most gear suits the pull,
// some is a size too small, some figures nobody knows.
//
// While it is drawn the casualty stands at the origin and goes east.
type found struct {
	*rand.Rand
	p       *plan.Plan
	r       *plan.Rig
	numbers map[string]int
	calm    bool // nothing is the matter with its gear
	spliced bool // the plain losses of its blocks are typed

	leaveOut func(p *plan.Plan, pick func(n int) int)

	// aside are the tie-backs and hold-backs: each with all that carries load for
	// it alone, things and parts.
	aside [][]string
}

// Plan is the plan of a seed, and its tie-backs and hold-backs: each with all
// that carries load for it alone, things and parts. Every plan of a seed is the
// same plan. What nobody knows is left out by leaveOut, which draws below n by
// pick; nil: all is known.
func Plan(seed uint64, leaveOut func(p *plan.Plan, pick func(n int) int)) (p *plan.Plan, aside [][]string) {
	f := &found{Rand: rand.New(rand.NewPCG(seed, 20260801)), p: plan.New(), numbers: map[string]int{}, leaveOut: leaveOut}
	f.p.Title = fmt.Sprintf("Curlew Moss, found plan %d", seed)
	f.p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}}
	f.r = &f.p.Rigs[0]
	f.calm, f.spliced = f.chance(0.5), f.chance(0.5)
	f.ground()
	f.p.Site.Vehicles = append(f.p.Site.Vehicles, f.casualty())
	f.pull()
	f.ties()
	f.dampers()
	f.people()
	f.obstacles()
	if !f.calm {
		for f.chance(0.4) {
			f.forget()
		}
	}
	f.limiter()
	f.turn(quantity.Degrees(f.between(0, 360)))
	return f.p, f.aside
}

func (f *found) chance(p float64) bool             { return f.Float64() < p }
func (f *found) between(low, high float64) float64 { return low + (high-low)*f.Float64() }

// oneOf draws one of several, all alike.
func oneOf[T any](f *found, all ...T) T { return all[f.IntN(len(all))] }

// spoilt tells of a piece of gear that something is the matter with it.
func (f *found) spoilt(p float64) bool { return !f.calm && f.chance(p) }

// id is the next id of a kind: V1, V2 …
func (f *found) id(kind string) plan.ID {
	f.numbers[kind]++
	return plan.ID(fmt.Sprint(kind, f.numbers[kind]))
}

func (f *found) ground() {
	g := plan.Ground{Slope: plan.Known(quantity.Degrees(0)), Surface: "roll.gravel-firm", Grip: "grip.earth-firm", Soil: "loam"}
	if !f.calm {
		g.Surface = oneOf(f, "roll.gravel-firm", "roll.earth-firm", "roll.grass", "roll.field", "roll.mud")
		g.Grip = oneOf(f, "grip.earth-firm", "grip.gravel", "grip.grass-dry", "grip.grass-wet", "grip.mud")
	}
	if f.chance(0.4) {
		g.Slope = plan.Known(quantity.Degrees(f.between(0, oneOf(f, 0.6, 3, 12))))
		g.Downhill = plan.Known(quantity.Degrees(oneOf(f, 90, 270, f.between(0, 360))))
	}
	f.p.Site.Ground = g
}

// casualty is a pickup or a heavier vehicle, at the origin, going east.
func (f *found) casualty() plan.Vehicle {
	v := Pickup()
	v.ID, v.Name = f.id("V"), ""
	v.Mass = quantity.Mass(f.between(900, 3200))
	v.Recovery[0].Rating, v.Recovery[1].Rating = f.tag(35000), f.tag(35000)
	v.Recovery = append(v.Recovery, VehiclePoint("left", 2.6, 0.5, 0), VehiclePoint("right", 2.6, -0.5, 0))
	for i := range v.Recovery {
		v.Recovery[i].MaxAngle = quantity.Degrees(oneOf(f, 45, 80))
	}
	if f.spoilt(0.05) {
		v.Recovery[0].Kind = oneOf(f, plan.PointTowBall, plan.PointTieDown, plan.PointUnknown)
	}
	s := v.Stuck
	s.WayLength = quantity.Length(f.between(1, 3))
	switch {
	case f.chance(0.5): // measured with a load cell
		s.Measured, s.Breakaway = quantity.Force(f.between(1000, 4000)), oneOf(f, 1, 1, 1.3)
	default:
		s.Measured, s.Breakaway = 0, oneOf(f, 0.0, 1)
	}
	if !f.calm {
		s.WayLength *= 3
		s.Measured *= 3
		s.Depth = oneOf(f, plan.DepthNone, plan.DepthHub, plan.DepthHub, plan.DepthChassis)
	}
	if f.chance(0.2) {
		s.Way, v.Bearing = plan.WayReverse, 270
		for i := range v.Recovery { // its points are where it is pulled
			q := &v.Recovery[i]
			if q.ID != "rear" {
				q.Ahead, q.Axis = -q.Ahead, plan.Known(quantity.Degrees(180))
			} else {
				q.Ahead, q.Axis = -q.Ahead, plan.Known(quantity.Degrees(0))
			}
		}
	}
	return v
}

// truck adds a truck at a place, its nose toward another.
func (f *found) truck(x, y float64, toward plan.Point) *plan.Vehicle {
	v := Truck()
	v.ID, v.Name = f.id("V"), ""
	v.At = plan.Point{X: x, Y: y}
	v.Bearing = bearingTo(v.At, toward)
	v.Mass = quantity.Mass(f.between(5000, 9000))
	v.Recovery[0].Left = plan.Known(quantity.Length(oneOf(f, 0, 0.5)))
	for i := range v.Recovery {
		v.Recovery[i].Rating = f.tag(45000)
		v.Recovery[i].MaxAngle = 60
	}
	if !f.calm {
		v.Mass = quantity.Mass(f.between(1800, 9000))
		v.Bearing += quantity.Degrees(f.between(-12, 12))
		v.Brake = oneOf(f, plan.BrakeAll, plan.BrakeAll, plan.BrakeRear, plan.BrakeUnknown, plan.BrakeNone)
		v.Chocks = oneOf(f, plan.ChocksAll, plan.ChocksAll, plan.ChocksFront, plan.ChocksRear, plan.ChocksNone)
		v.FootBrake = f.chance(0.1)
		v.InGear = f.chance(0.1)
		if f.chance(0.1) {
			v.BrakeForce = quantity.Force(f.between(3000, 15000))
		}
	}
	v.Winch.LinePull = quantity.Force(f.between(35000, 60000))
	f.p.Site.Vehicles = append(f.p.Site.Vehicles, v)
	return &f.p.Site.Vehicles[len(f.p.Site.Vehicles)-1]
}

// bearingTo is the bearing from one place to another.
func bearingTo(a, b plan.Point) quantity.Degrees {
	return turned360(quantity.FromRadians(math.Atan2(b.X-a.X, b.Y-a.Y)))
}

// turned360 is a bearing from 0 to 360°.
func turned360(b quantity.Degrees) quantity.Degrees {
	return quantity.Degrees(math.Mod(float64(b)+1080, 360))
}

// away is the place that far from another in the direction of a bearing.
func away(p plan.Point, bearing quantity.Degrees, far float64) plan.Point {
	s, c := math.Sincos(bearing.Radians())
	return plan.Point{X: p.X + far*s, Y: p.Y + far*c}
}

// tag is a rating read from a tag about as high as that: one that suits the
// pull, or a size too small, or one whose meaning or figure nobody knows.
func (f *found) tag(about quantity.Force) plan.Rating {
	r := Working(about * quantity.Force(f.between(0.9, 1.4)))
	switch {
	case f.spoilt(0.06):
		r.Force *= quantity.Force(f.between(0.1, 0.5))
	case f.spoilt(0.03):
		r.Basis = plan.BasisUnsaid
	case f.spoilt(0.02):
		r = plan.Rating{}
	}
	return r
}

// anchor stands for a pull in that direction: a rated point, a tree, a boulder,
// a truck, pickets or a buried log.
func (f *found) anchor(at plan.Point, pull quantity.Degrees) plan.Port {
	a := plan.Anchor{At: at, Rise: 0.6}
	pull = turned360(pull)
	switch f.IntN(9) {
	case 0, 1, 2:
		return f.tree(at)
	case 3:
		a.Kind, a.Mass = plan.AnchorBoulder, quantity.Mass(f.between(15000, 60000))
	case 4:
		o := plan.Obstacle{Head: plan.Head{ID: f.id("O")}, Kind: plan.ObstacleBoulder, Anchor: true, Height: 1.4, Mass: quantity.Mass(f.between(15000, 60000))}
		r := f.between(0.7, 1.1)
		o.Mass *= quantity.Mass(2 * 2700 * 1.4 * 2 * math.Sqrt2 * r * r / 60000) // rock of that size, as much again in the ground
		for i := range 8 {
			o.Outline = append(o.Outline, away(at, quantity.Degrees(-45*i), r))
		}
		f.p.Site.Obstacles = append(f.p.Site.Obstacles, o)
		return Port(o.ID, "")
	case 5:
		nose := away(at, pull+180, 3)
		v := f.truck(nose.X, nose.Y, at)
		v.Winch, v.Bearing = nil, pull
		v.Recovery[0].Left = plan.Known(quantity.Length(0))
		return Port(v.ID, "front")
	case 6:
		a.Kind, a.SetKnown, a.SetBearing, a.Layout = plan.AnchorPickets, true, pull, oneOf(f, "1-1-1", "2-1", "3-2-1")
	case 7:
		a.Kind, a.SetKnown, a.SetBearing = plan.AnchorDeadman, true, pull
		a.Depth, a.LogLength, a.LogDiameter, a.LineRun = 1.5, quantity.Length(f.between(1.6, 2.2)), quantity.Length(f.between(0.38, 0.45)), 2
	default:
		a.Kind, a.Rating = plan.AnchorRated, f.tag(60000)
	}
	if a.SetKnown && !f.calm {
		a.SetBearing = turned360(a.SetBearing + quantity.Degrees(f.between(-25, 25)))
	}
	a.ID = f.id("A")
	f.p.Site.Anchors = append(f.p.Site.Anchors, a)
	return Port(a.ID, "")
}

// tree is a living one, or nobody looked.
func (f *found) tree(at plan.Point) plan.Port {
	a := plan.Anchor{Head: plan.Head{ID: f.id("A")}, Kind: plan.AnchorTree, At: at, Height: quantity.Length(f.between(12, 20)),
		Species: "norway-spruce", Trunk: quantity.Length(f.between(0.3, 0.4)), Health: plan.HealthAlive, Rooting: "shallow", Soil: "gleyed"}
	if !f.calm {
		a.Species, a.Soil = oneOf(f, "norway-spruce", "scots-pine", "birch", ""), oneOf(f, "gleyed", "free-draining", "")
		a.Rooting, a.Trunk = oneOf(f, "shallow", "deep", ""), quantity.Length(f.between(0.2, 0.6))
	}
	if f.spoilt(0.1) {
		a.Health = oneOf(f, plan.HealthUnknown, plan.HealthDoubtful, plan.HealthDead, plan.HealthRotten)
	}
	a.PulledBefore = f.spoilt(0.05)
	f.p.Site.Anchors = append(f.p.Site.Anchors, a)
	return Port(a.ID, "")
}

// people stand far off, but for some.
func (f *found) people() {
	stand := func(role string, x, y float64) {
		f.p.Site.People = append(f.p.Site.People, plan.Person{Head: plan.Head{ID: f.id("P")}, Role: role, At: plan.Point{X: x, Y: y}})
	}
	stand(plan.RoleOperator, -80, 80)
	stand(plan.RoleSpotter, -82, 80)
	for f.spoilt(0.25) || f.chance(0.05) {
		stand(oneOf(f, plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander), f.between(-40, 60), f.between(-60, 60))
		q := &f.p.Site.People[len(f.p.Site.People)-1]
		switch {
		case f.chance(0.2):
			q.Vehicle = f.p.Site.Vehicles[f.IntN(len(f.p.Site.Vehicles))].ID
		case f.chance(0.2):
			q.Cover = oneOf(f, plan.CoverGround, plan.CoverTimber, "behind the truck")
		}
	}
	if f.spoilt(0.1) {
		f.p.Site.People = append(f.p.Site.People, plan.Person{Head: plan.Head{ID: f.id("P")}, Role: plan.RoleDriver, Vehicle: "V1"})
	}
}

// obstacles lie about: stones, banks, a tree nobody uses.
func (f *found) obstacles() {
	for f.chance(0.3) {
		x, y, r := f.between(-10, 35), f.between(-20, 20), f.between(0.2, 1.2)
		if f.calm && math.Abs(y) < 5 {
			y += math.Copysign(30, y)
		}
		if f.chance(0.3) {
			f.tree(plan.Point{X: x, Y: y})
			continue
		}
		o := plan.Obstacle{Head: plan.Head{ID: f.id("O")}, Kind: oneOf(f, plan.ObstacleBoulder, plan.ObstacleBank, "wall"), Height: quantity.Length(oneOf(f, 0, 0.3, 1.5, 3)), SeeOver: f.chance(0.5)}
		for _, c := range [][2]float64{{-r, -r}, {r, -r}, {r, r}, {-r, r}} {
			o.Outline = append(o.Outline, plan.Point{X: x + c[0], Y: y + c[1]})
		}
		f.p.Site.Obstacles = append(f.p.Site.Obstacles, o)
	}
}

// forget leaves out a figure or word that nobody knows.
func (f *found) forget() {
	if f.leaveOut != nil {
		f.leaveOut(f.p, f.IntN)
	}
}

// limiter stops the winch somewhat above the pull, so that not every plan breaks
// something at stall.
func (f *found) limiter() {
	if !f.calm && f.chance(0.5) {
		return
	}
	pull := solver.Assess(f.p, "R1").Move
	for i := range f.p.Site.Vehicles {
		if w := f.p.Site.Vehicles[i].Winch; w != nil && pull.Known {
			w.Limiter = pull.Tension * quantity.Force(f.between(1.4, 2))
		}
	}
}

// turn turns the whole site about the casualty.
func (f *found) turn(by quantity.Degrees) {
	sin, cos := math.Sincos(-by.Radians())
	at := func(p *plan.Point) { p.X, p.Y = p.X*cos-p.Y*sin, p.X*sin+p.Y*cos }
	bearing := func(b *quantity.Degrees) { *b = turned360(*b + by) }
	s := &f.p.Site
	if down, known := s.Ground.Downhill.Get(); known {
		bearing(&down)
		s.Ground.Downhill = plan.Known(down)
	}
	for i := range s.Vehicles {
		at(&s.Vehicles[i].At)
		bearing(&s.Vehicles[i].Bearing)
	}
	for i := range s.Anchors {
		at(&s.Anchors[i].At)
		if s.Anchors[i].SetKnown {
			bearing(&s.Anchors[i].SetBearing)
		}
	}
	for i := range s.Obstacles {
		for k := range s.Obstacles[i].Outline {
			at(&s.Obstacles[i].Outline[k])
		}
	}
	for i := range s.People {
		at(&s.People[i].At)
	}
	for i := range f.r.Blocks {
		at(&f.r.Blocks[i].At)
	}
	for i := range f.r.Shackles {
		at(&f.r.Shackles[i].At)
	}
}
