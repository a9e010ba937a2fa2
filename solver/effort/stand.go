package effort

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// StandIn is a vehicle that has to stand still, whatever pulls on it.
type StandIn struct {
	Vehicle      *plan.Vehicle
	Ground       *plan.Ground
	FallAheadDeg float64     // of the ground toward its nose
	FallLeftDeg  float64     // of the ground toward its left
	Lacks        []part.Lack // what the plan lacks to tell the slope; the falls then mean nothing
	Idle         bool        // the rig asks nothing of it: nobody needs it to hold
}

// StandResult is what a vehicle does where it stands. Open is what would decide
// whether it moves; empty: that is decided.
type StandResult struct {
	Moves bool
	Open  []part.Lack
}

// Stands judges what needs no pull and no rig: whether anything brakes a vehicle
// and whether it stays where it stands. Its weight cancels on both sides, so
// that neither needs it unless the brake's own strength is given. One that
// lies, or is sunk, stays; whether an idle one is that nobody says is not decided.
// A casualty that is to hold others holds nothing that is known.
func Stands(in StandIn, found *[]part.Finding) (res StandResult) {
	v := in.Vehicle
	if v == nil || found == nil || !finite(in.FallAheadDeg, in.FallLeftDeg) || in.Idle && lies(v) {
		return res
	}
	if v.Stuck != nil && !in.Idle {
		raise(found, "casualty-must-hold", part.Danger, v.ID)
		if lies(v) {
			return res
		}
	}
	locked := v.FootBrake || v.InGear || v.Chocked()
	switch {
	case in.Idle || locked:
	case v.Brake == plan.BrakeNone:
		raise(found, "no-brake", part.Danger, v.ID)
	case !v.BrakeKnown():
		part.NotDecided(found, "no-brake", v.ID, part.Lack{Thing: v.ID, Member: "brake"})
	}
	if v.InGear && !in.Idle && !v.FootBrake && v.Chocks != plan.ChocksAll {
		raise(found, "in-gear-not-counted", part.Notice, v.ID)
	}
	const rule = "vehicle-moves-by-itself"
	if len(in.Lacks) > 0 {
		part.NotDecided(found, rule, "", in.Lacks...)
		return res
	}
	moves, lacks := in.moves(found)
	if s := v.Stuck; moves && in.Idle && s != nil && s.Depth != plan.DepthNone {
		lacks = append(lacks, part.Lack{Thing: v.ID, Member: "casualty.depth"})
	}
	switch {
	case len(lacks) > 0:
		res.Open = lacks
		part.NotDecided(found, rule, v.ID, lacks...)
	case moves:
		res.Moves = true
		raise(found, rule, part.Danger, v.ID)
	}
	return res
}

// NoFoot says that a foot on the brake of a vehicle is not counted, as nobody is
// marked in it; with all its wheels chocked none is needed.
func NoFoot(v *plan.Vehicle, found *[]part.Finding) {
	if found != nil && v.Chocks != plan.ChocksAll {
		raise(found, "foot-brake-nobody", part.Caution, v.ID).Remedies = []part.Remedy{{Do: "chock-all", Thing: v.ID}}
	}
}

// lies reports whether a casualty does not stand on its wheels: it lies, or they
// are sunk.
func lies(v *plan.Vehicle) bool {
	s := v.Stuck
	if s == nil {
		return false
	}
	switch s.Depth {
	case plan.DepthHub, plan.DepthChassis, plan.DepthBody:
		return true
	}
	return s.Overturned
}

// moves reports whether a vehicle moves on its slope by itself. lacks is what
// would have to be known where the answer hangs on it: with the least that may
// hold it the vehicle moves, with the most it stands.
func (in StandIn) moves(found *[]part.Finding) (moves bool, lacks []part.Lack) {
	v := in.Vehicle
	if in.FallAheadDeg == 0 && in.FallLeftDeg == 0 {
		return false, nil
	}
	var open [3]string
	n := 0
	lack := func(member string) {
		open[n] = member
		n++
	}
	all := v.FootBrake || v.Chocks == plan.ChocksAll
	weak, strong := *v, *v
	if brakeMatters(v) {
		lack("brake")
	}
	if !weighed(v) {
		if v.BrakeForce > 0 && v.Brake != plan.BrakeNone && !all {
			lack("mass_kg")
		}
		weak.Mass, weak.Load, strong.Mass, strong.Load = anyMass, 0, anyMass, 0
	}
	if _, ok := stand(v, 0.5, 0); !ok {
		if !all {
			lack("wheelbase_m")
			weak.Chocks, weak.InGear = plan.ChocksNone, false
		}
		for _, x := range [...]*plan.Vehicle{&weak, &strong} {
			x.Wheelbase, x.CGBehindFront, x.Length, x.FrontOverhang = anyWheelbase, 0, 0, 0
		}
	}
	mu := brace{in: HoldIn{Vehicle: v, Ground: in.Ground}, n: book()}
	if in.Idle {
		found = nil // a grip that nobody knows counts at its low end
	}
	mu.gripping(found)
	if n > 0 {
		weak.Brake, strong.FootBrake = plan.BrakeNone, true
	}
	moves = in.leaves(&weak, &mu)
	if n == 0 || !moves || in.leaves(&strong, &mu) {
		return moves, nil
	}
	for _, m := range open[:n] {
		lacks = append(lacks, part.Lack{Thing: v.ID, Member: m})
	}
	return moves, lacks
}

// A vehicle of any weight and length stands in for one whose are not known.
const (
	anyMass      = 2000 // kg
	anyWheelbase = 3    // m
)

// leaves reports whether a vehicle moves off. One whose wheels turn rolls where
// the slope along it is more than what its surface takes, |sin a| > c·cos β, or
// slips aside.
func (in StandIn) leaves(v *plan.Vehicle, grip *brace) bool {
	if v.FootBrake || v.Chocked() || v.BrakeKnown() && v.Brake != plan.BrakeNone {
		return in.gives(v, grip)
	}
	c, _ := rollingOf(v, in.Ground, grip.n)
	x := sinDeg(in.FallAheadDeg)
	locked := *v
	locked.FootBrake = true
	return abs(x) > c[low]*flatness(x, sinDeg(in.FallLeftDeg)) || in.gives(&locked, grip)
}

// gives reports whether a vehicle moves under its weight along the slope alone: no
// more of a pull is left to it.
func (in StandIn) gives(v *plan.Vehicle, grip *brace) bool {
	x, y := sinDeg(in.FallAheadDeg), sinDeg(in.FallLeftDeg)
	steep := math.Hypot(x, y)
	down := [1]LineEnd{{PerTension: r3.Vector{X: x / steep, Y: y / steep}}}
	b := *grip
	b.in = HoldIn{Vehicle: v, Ground: in.Ground, Ends: down[:], FallAheadDeg: in.FallAheadDeg, FallLeftDeg: in.FallLeftDeg}
	b.sum()
	f, ok := b.end(low, locking{}, giving{})
	return ok && f.tensionN == 0
}
