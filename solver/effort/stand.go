package effort

import (
	"math"

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
}

// Stands judges what needs no pull and no rig: whether anything brakes a vehicle
// and whether it stays where it stands. Its weight cancels on both sides, so
// that neither needs it unless the brake's own strength is given.
func Stands(in StandIn, found *[]part.Finding) {
	v := in.Vehicle
	if v == nil || found == nil || !finite(in.FallAheadDeg, in.FallLeftDeg) {
		return
	}
	locked := v.FootBrake || v.InGear || v.Chocks != plan.ChocksNone
	switch {
	case v.Brake == plan.BrakeNone && !locked:
		raise(found, "no-brake", part.Danger, v.ID)
		return
	case v.Brake == plan.BrakeUnknown && !locked:
		part.NotDecided(found, "no-brake", v.ID, part.Lack{Thing: v.ID, Member: "brake"})
	}
	if v.InGear && !v.FootBrake && v.Chocks != plan.ChocksAll {
		raise(found, "in-gear-not-counted", part.Notice, v.ID)
	}
	const rule = "vehicle-moves-by-itself"
	if len(in.Lacks) > 0 {
		part.NotDecided(found, rule, "", in.Lacks...)
		return
	}
	switch moves, lacks := in.moves(found); {
	case len(lacks) > 0:
		part.NotDecided(found, rule, v.ID, lacks...)
	case moves:
		raise(found, rule, part.Danger, v.ID)
	}
}

// moves tells whether a vehicle moves on its slope by itself. lacks is what
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
	mu.gripping(found)
	if n > 0 {
		weak.Brake, strong.FootBrake = plan.BrakeNone, true
	}
	moves = in.gives(&weak, &mu)
	if n == 0 || !moves || in.gives(&strong, &mu) {
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

// gives tells that a vehicle moves under its weight along the slope alone: no
// more of a pull is left to it.
func (in StandIn) gives(v *plan.Vehicle, grip *brace) bool {
	x, y := sinDeg(in.FallAheadDeg), sinDeg(in.FallLeftDeg)
	steep := math.Hypot(x, y)
	down := [1]LineEnd{{PerTension: part.Vec{x / steep, y / steep}}}
	b := *grip
	b.in = HoldIn{Vehicle: v, Ground: in.Ground, Ends: down[:], FallAheadDeg: in.FallAheadDeg, FallLeftDeg: in.FallLeftDeg}
	b.sum()
	f, ok := b.end(low, locking{}, giving{})
	return ok && f.tensionN == 0
}
