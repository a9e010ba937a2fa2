package seeded

import (
	"math"

	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// pull leads the line: straight from a truck ahead, doubled at the casualty,
// redirected over an anchor, doubled over one, or from the casualty's own winch
// and back.
func (f *found) pull() {
	switch f.IntN(8) {
	case 0, 1:
		f.straight()
		if f.chance(0.3) {
			f.second()
		}
	case 2, 3:
		f.doubled()
	case 4, 5, 6:
		f.redirected()
	default:
		f.selfRecovery()
	}
}

// straight leads the line from a truck ahead to the casualty.
func (f *found) straight() {
	v := f.truck(f.between(16, 30), f.between(-0.4, 0.4), plan.Point{})
	f.line(Port(v.ID, "winch"), f.hooked("front"))
}

// second is another truck that pulls beside the first.
func (f *found) second() {
	y := oneOf(f, 5.0, -5.0)
	v := f.truck(f.between(20, 30), y, plan.Point{})
	f.line(Port(v.ID, "winch"), Port("V1", oneOf(f, plan.ID("left"), "right")))
}

// doubled leads the line through a block at the casualty and back: to an anchor
// beside the truck, or to the truck itself.
func (f *found) doubled() {
	v := *f.truck(f.between(18, 28), 0, plan.Point{})
	b := f.hang([]plan.Port{Port("V1", "front")}, plan.Point{X: 4})
	var end plan.Port
	if f.chance(0.4) {
		end = Port(v.ID, "front")
	} else {
		at := plan.Point{X: float64(v.At.X) + f.between(-2, 6), Y: oneOf(f, 1.0, -1) * f.between(2.5, 4)}
		end = f.endOn(f.anchor(at, bearingTo(at, plan.Point{X: 3})), at, plan.Point{X: 3})
	}
	f.line(Port(v.ID, "winch"), b, end)
}

// redirected leads the line over a block at an anchor, from a truck at the side.
func (f *found) redirected() {
	b := plan.Point{X: f.between(15, 22), Y: f.between(-0.3, 0.3)}
	side := quantity.Degrees(oneOf(f, 1.0, -1) * f.between(40, 120)) // off the line to the casualty
	from := away(b, 270+side, f.between(14, 22))
	v := *f.truck(from.X, from.Y, b)
	pull := 270 + side/2
	f.line(Port(v.ID, "winch"), f.hang(f.anchors(b, pull), b), f.hooked("front"))
}

// selfRecovery leads the casualty's own line over a block ahead and back.
func (f *found) selfRecovery() {
	v := &f.p.Site.Vehicles[0]
	if v.Stuck.Way == plan.WayReverse {
		f.straight()
		return
	}
	w := *Truck().Winch
	w.Ahead, w.LinePull = 2.6, quantity.Force(f.between(30000, 50000))
	v.Winch = &w
	b := plan.Point{X: f.between(14, 22)}
	f.line(Port("V1", "winch"), f.hang(f.anchors(b, 270), b), Port("V1", oneOf(f, plan.ID("left"), "front")))
}

// anchors are one or (for a bridle) two things a block is hung from, which is
// drawn there and pulls in that direction.
func (f *found) anchors(b plan.Point, pull quantity.Degrees) []plan.Port {
	behind := away(b, pull+180, f.between(1.5, 3))
	if f.chance(0.15) {
		l, r := away(behind, pull-90, 1.2), away(behind, pull+90, 1.2)
		return []plan.Port{f.anchor(l, bearingTo(l, b)), f.anchor(r, bearingTo(r, b))}
	}
	return []plan.Port{f.anchor(behind, pull)}
}

// hang fixes a block to what holds it: straight on, through a shackle, by a
// strap, a strap hooked on a shackle, a chain of straps, or by the legs of a
// bridle.
func (f *found) hang(from []plan.Port, at plan.Point) plan.Port {
	b := Block(f.id("B"), at.X, at.Y)
	b.Rating = f.tag(69000)
	if !f.spliced {
		b.Efficiency = 0
	}
	if f.spoilt(0.1) {
		b.Kind = oneOf(f, plan.BlockPlain, plan.BlockRing, plan.BlockUnknown)
	}
	p, on := Port(b.ID, ""), from[0]
	how := f.IntN(6)
	if len(from) > 1 {
		how = 6 + f.IntN(2)
	} else if f.round(on) {
		how = 2 + f.IntN(3)
	}
	switch how {
	case 0:
		b.Fixed = on
	case 1:
		b.Fixed = f.shackle(on, p)
	case 2:
		f.strap(on, p)
	case 3:
		s := f.strap(on, p)
		f.shackle(Port(s, ""), p)
	case 4: // one strap behind another
		k := f.shackleAt(at)
		f.strap(on, k)
		f.strap(k, p)
	case 5: // a strap hooked on the shackle of the point
		s := f.strap(plan.Port{}, p)
		f.r.Slings[len(f.r.Slings)-1].On = f.shackle(on, Port(s, ""))
	case 6:
		f.strap(from[0], p)
		f.strap(from[1], p)
	default: // two legs that meet in a shackle, and a strap from there
		k := f.shackleAt(at)
		f.strap(from[0], k)
		f.strap(from[1], k)
		f.strap(k, p)
	}
	f.r.Blocks = append(f.r.Blocks, b)
	return p
}

// round reports whether a strap goes round a thing.
func (f *found) round(on plan.Port) bool {
	if _, ok := f.p.Obstacle(on.Thing); ok {
		return true
	}
	a, ok := f.p.Anchor(on.Thing)
	return ok && a.Kind == plan.AnchorTree
}

// radius is that of what a strap goes round, metres.
func (f *found) radius(on plan.Port) float64 {
	if a, ok := f.p.Anchor(on.Thing); ok {
		return float64(a.Trunk) / 2
	}
	return 1.1
}

// strap adds one between two places and returns its id: round a tree or boulder
// a long one.
func (f *found) strap(on, holds plan.Port) plan.ID {
	s := Strap(f.id("S"), on, holds)
	s.Rating = f.tag(50000)
	s.Length = quantity.Length(f.between(1.5, 2.5))
	if f.round(on) {
		s.Hitch = oneOf(f, plan.HitchBasket, plan.HitchBasket, plan.HitchChoked)
		s.Length = quantity.Length(2*math.Pi*f.radius(on) + f.between(2, 3))
		s.Height = quantity.Length(f.between(0.3, 0.9))
		s.Rating = f.tag(70000)
	}
	if f.spoilt(0.06) {
		s.Condition = oneOf(f, plan.ConditionUnknown, plan.ConditionDoubtful, plan.ConditionKinked)
	}
	if f.spoilt(0.03) {
		s.Material = oneOf(f, plan.MaterialNylon, plan.MaterialHMPE, "")
	}
	s.Width = quantity.Length(0.03 * float64(s.Rating.Force) / 1e4) // 30 mm a tonne
	f.r.Slings = append(f.r.Slings, s)
	return s.ID
}

// shackle joins two places and returns its own.
func (f *found) shackle(joins ...plan.Port) plan.Port {
	k := plan.Shackle{Head: plan.Head{ID: f.id("K")}, Kind: plan.ShackleBow, Joins: joins, Rating: f.tag(75000), Body: 0.028}
	if f.spoilt(0.05) {
		k.Kind = oneOf(f, plan.ShackleDee, plan.ShackleSoft, "")
	}
	f.r.Shackles = append(f.r.Shackles, k)
	return Port(k.ID, "")
}

// shackleAt is one that straps meet in.
func (f *found) shackleAt(at plan.Point) plan.Port {
	p := f.shackle()
	f.r.Shackles[len(f.r.Shackles)-1].At = at
	return p
}

// hooked is where a line ends at the casualty: on its point, in a strap, in a
// shackle on a strap, or in a bridle.
func (f *found) hooked(point plan.ID) plan.Port {
	at := Port("V1", point)
	switch f.IntN(6) {
	case 0:
		return Port(f.strap(at, plan.Port{}), "")
	case 1:
		k := f.shackleAt(plan.Point{X: 5})
		f.strap(at, k)
		return k
	case 2:
		k := f.shackleAt(plan.Point{X: 4.4})
		f.strap(Port("V1", "left"), k)
		f.strap(Port("V1", "right"), k)
		return k
	}
	return at
}

// endOn is where a line ends at an anchor: on it, or in a strap round or on it.
func (f *found) endOn(on plan.Port, at, toward plan.Point) plan.Port {
	if !f.round(on) && f.chance(0.5) {
		return on
	}
	if f.chance(0.5) {
		return Port(f.strap(on, plan.Port{}), "")
	}
	k := f.shackleAt(away(at, bearingTo(at, toward), 1.5))
	f.strap(on, k)
	return k
}

// line adds a winch line.
func (f *found) line(path ...plan.Port) {
	l := WinchLine(f.id("L"), path...)
	l.Length = 90
	for i := range f.p.Site.Vehicles { // a drum that has room for it
		if v := &f.p.Site.Vehicles[i]; v.ID == path[0].Thing && v.Winch != nil {
			v.Winch.DrumWidth, v.Winch.FlangeDiameter = 0.4, 0.3
		}
	}
	l.Rating = plan.Rating{Force: quantity.Force(f.between(80000, 110000)), Basis: plan.BasisBreaking}
	if f.chance(0.3) {
		l.Material, l.Diameter, l.End, l.Rating.Force = plan.MaterialWire, 0.011, "end.sleeve-iwrc", 75000
	}
	if f.spoilt(0.05) {
		l.Rating.Force /= 3
	}
	if f.spoilt(0.05) {
		l.Condition = oneOf(f, plan.ConditionUnknown, plan.ConditionDoubtful, plan.ConditionKinked)
	}
	if f.spoilt(0.05) {
		l.Knots = []string{"knot.bowline"}
	}
	f.r.Lines = append(f.r.Lines, l)
}

// dampers lie on the stretches, on most of them.
func (f *found) dampers() {
	for i := range f.r.Lines {
		l := &f.r.Lines[i]
		for k := 1; k < len(l.Path); k++ {
			if f.chance(0.9) {
				f.r.Dampers = append(f.r.Dampers, plan.Damper{Head: plan.Head{ID: f.id("D")}, Line: l.ID, Stretch: k - 1, Share: oneOf(f, 0.6, 0.7), Mass: 3})
			}
		}
	}
}

// ties tie trucks back and hold the casualty back.
func (f *found) ties() {
	trucks := len(f.p.Site.Vehicles)
	for i := 1; i < trucks; i++ {
		if f.chance(0.35) {
			v := f.p.Site.Vehicles[i]
			f.restrain(plan.UseTieBack, Port(v.ID, "rear"), v.Place(-3, 0), v.Bearing+180)
		}
	}
	slope := f.p.Site.Ground.Slope.Or(0)
	if f.chance(0.2) || slope > 1 && f.chance(0.6) {
		f.restrain(plan.UseHoldBack, Port("V1", "rear"), plan.Point{X: -2.6}, 270)
	}
}

// restrain ties a vehicle's point back to something in that direction: by a
// strap, a line, a strap, shackle and tree strap; a hold-back over a friction
// device, by the winch of another truck, or by a strap that stays.
func (f *found) restrain(use string, own plan.Port, from plan.Point, toward quantity.Degrees) {
	if !f.calm {
		toward += quantity.Degrees(f.between(-25, 25))
	}
	far := f.between(4, 8)
	at := away(from, toward, far)
	group := []string{own.String()}
	add := func(id plan.ID) { group = append(group, string(id)) }
	slack := 0.15
	if f.spoilt(0.1) {
		slack = oneOf(f, -0.3, 0.9)
	}
	how := f.IntN(4)
	if use == plan.UseHoldBack && (f.calm || f.chance(0.7)) {
		how = 4 + f.IntN(2) // paid out
	}
	var on plan.Port
	if how == 3 {
		on = f.tree(at)
	} else if how < 5 {
		on = f.anchor(at, toward+180)
	}
	switch {
	case how == 5: // paid out by the winch of a truck behind
		back := away(at, toward, 6)
		v := f.truck(back.X, back.Y, from)
		add(v.ID)
		f.line(Port(v.ID, "winch"), own)
		l := &f.r.Lines[len(f.r.Lines)-1]
		l.Use = use
		add(l.ID)
	case how == 2 || how == 4: // a line
		f.line(on, own)
		l := &f.r.Lines[len(f.r.Lines)-1]
		l.Use, l.Length, l.Rating = use, quantity.Length(far+slack), f.tag(30000)
		if f.round(on) { // laid round it
			l.Length -= quantity.Length(f.radius(on))
		}
		if how == 4 {
			l.PaidOut = plan.PaidOutFriction
		}
		add(l.ID)
	case how == 3: // strap, shackle, tree strap
		f.shackled(use, on, own, away(at, toward+180, 2), far+slack, add)
	default: // one strap
		add(f.strap(on, own))
		s := &f.r.Slings[len(f.r.Slings)-1]
		s.Use, s.Length = use, quantity.Length(far+slack)
		if f.round(on) { // longer by what goes round
			s.Hitch = plan.HitchChoked
			for range 40 {
				s.Length += quantity.Length(far+slack) - gear.SlingRound(quantity.Length(f.radius(on)), s.Length, s.Hitch).Reach
			}
		}
	}
	if on.Thing != "" {
		group = append(group, on.String(), string(on.Thing))
	}
	f.aside = append(f.aside, group)
}

// shackled ties own to a tree that far away by a strap, a shackle at a place
// and a strap round the tree.
func (f *found) shackled(use string, on, own plan.Port, at plan.Point, far float64, add func(plan.ID)) {
	k := f.shackleAt(at)
	add(k.Thing)
	t := f.strap(on, k)
	tree := &f.r.Slings[len(f.r.Slings)-1]
	tree.Hitch = plan.HitchChoked
	if f.chance(0.5) {
		tree.Use = use
	}
	reach := gear.SlingRound(quantity.Length(f.radius(on)), tree.Length, tree.Hitch).Reach
	add(t)
	add(f.strap(own, k))
	s := &f.r.Slings[len(f.r.Slings)-1]
	s.Use, s.Length = use, max(0.5, quantity.Length(far)-reach)
}
