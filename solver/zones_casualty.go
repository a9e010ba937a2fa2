package solver

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// zoneCasualty makes the zone of the casualty that is pulled. Alone it raises
// nothing: what is not known widens it.
func (a *zoning) zoneCasualty(in *zone.Input) {
	v := a.g.casualty
	if v == nil || !a.g.touches(v.ID) || !(v.Length > 0) || !(v.Width > 0) {
		return
	}
	c := v.Corners()
	_, travel := plan.Range(&v.Head, "casualty.way_length_m", float64(v.Stuck.WayLength))
	travel = v.WayRun(travel)
	z := zone.Casualty{Thing: v.ID, Footprint: c[:], Dir: a.g.way, TravelM: travel, HeightM: float64(v.Height)}
	z.LurchM, z.LurchGone = a.lurch(v, in)
	z.Loose = !a.guided(v)
	z.Sides = a.tipSides(v)
	in.Casualty = &z
}

// casualtyNearM, metres, is how far from a casualty without a size people are
// asked about: as far as any is pulled, and as long as any is. (ours)
const casualtyNearM = 70

// casualtyReach says that nobody knows who stands in the casualty's way while
// nobody says how far it has to go: of people whom it would reach before it
// comes to what pulls it.
func (a *zoning) casualtyReach(in *zone.Input, people *zone.PeopleIn) {
	v := a.g.casualty
	if v == nil || !a.g.touches(v.ID) {
		return
	}
	const rule = "person-in-zone"
	if in.Casualty == nil {
		near := false
		for i := range people.People {
			near = near || math.Hypot(people.People[i].At.X-v.At.X, people.People[i].At.Y-v.At.Y) <= casualtyNearM
		}
		if near {
			part.NotDecided(a.found(), rule, v.ID, part.Lack{Thing: v.ID, Member: "length_m"}, part.Lack{Thing: v.ID, Member: "width_m"})
		}
		return
	}
	if in.Casualty.TravelM > 0 {
		return
	}
	far := *in.Casualty
	row := facts.Must("roll-away.run-unknown")
	far.TravelM = row.Likely * row.ToSI()
	if run := a.slideRun(v.ID); run > 0 {
		far.TravelM = run
	}
	reached := *people
	reached.Zones = zone.Zones(zone.Input{Casualty: &far}, nil)
	for _, s := range zone.People(reached, nil) {
		if len(s.Inside) > 0 {
			part.NotDecided(a.found(), rule, v.ID, part.Lack{Thing: v.ID, Member: "casualty.way_length_m"})
			return
		}
	}
}

// lurch is how far the casualty may jump as it breaks loose: from the greatest
// pull that takes to the least it then runs with, all of the line and its
// straps at the soft end. gone: not computed.
func (a *zoning) lurch(v *plan.Vehicle, in *zone.Input) (m float64, gone bool) {
	if a.refused || a.solved.status != part.Within || !a.res.Breakaway.Known || !a.res.Known {
		return 0, true
	}
	drop := float64(a.res.Breakaway.High - a.res.Low)
	if !(drop > 0) {
		return 0, false
	}
	var pieces []effort.Piece
	for i := range a.g.lines {
		rl := &a.g.lines[i]
		if rl.index < 0 || rl.winch == nil {
			continue
		}
		pieces = append(pieces, effort.Piece{LengthM: float64(a.lineOut(rl.line.ID)), StiffnessN: float64(gear.SoftLine(rl.line))})
		for k := range in.Lines {
			for _, s := range in.Lines[k].Straps {
				if in.Lines[k].ID == rl.line.ID {
					pieces = append(pieces, effort.Piece{LengthM: s.LengthM, StiffnessN: float64(gear.SoftSling(a.g.things.Sling(s.ID)))})
				}
			}
		}
	}
	k, ok := effort.LineStiffness(pieces...)
	if adv := a.out.Advantage; adv > 0 {
		k *= adv * adv // seen from the casualty
	}
	res := effort.Jump(effort.JumpIn{Casualty: v.ID, BreakawayN: drop, MassKg: float64(v.Mass + v.Load), LineNPerM: k}, nil, nil)
	return float64(res.Jump), !ok || !res.Known
}

// straightShare is the share of a pull across the way out under which it counts
// as along it: rounding. (ours)
const straightShare = 1e-6

// guided reports whether the casualty keeps to its way out: what pulls it across, and
// its weight on a cross slope, is no more than it grips.
func (a *zoning) guided(v *plan.Vehicle) bool {
	if a.refused || a.solved.status != part.Within {
		return false
	}
	out, _ := v.WayOut()
	ground := &a.g.p.Site.Ground
	slips := func(r *solution) bool {
		var pull r3.Vector
		a.hookedOn(r, v.ID, func(_, f r3.Vector) { pull = pull.Add(f) })
		flat := a.g.ground.OnGround(pull)
		side := flat.Sub(a.g.way.Mul(flat.Dot(a.g.way))).Norm()
		lateral := math.Abs(float64(a.g.ground.Lateral(out)))
		if side <= straightShare*flat.Norm() {
			side = 0
		}
		if side == 0 && lateral == 0 {
			return false
		}
		if a.solved.move.isNone() { // nobody knows how hard it is pulled
			return true
		}
		res := effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: ground, FallSideDeg: lateral,
			FallLongDeg: float64(a.g.ground.Fall(out)), SideN: side, UpN: math.Max(0, pull.Z)}, nil, nil)
		return !res.Known || res.Slips
	}
	if a.solved.move.isNone() {
		return !slips(a.solved.unit)
	}
	for _, b := range [2]balances{a.solved.move, a.solved.loosen} {
		for _, r := range b {
			if !r.isNone() && slips(r) {
				return false
			}
		}
	}
	return true
}

// tipSides are the sides to which the casualty is over half of tipping, at any
// pull or by the slope alone; both where that is not known.
func (a *zoning) tipSides(v *plan.Vehicle) (sides []r3.Vector) {
	if a.refused || a.solved.status != part.Within {
		return nil // its zone reaches to every side
	}
	ahead := a.g.ground.Along(v.Bearing)
	left := r3.Vector{X: -ahead.Y, Y: ahead.X}
	row := facts.Must(facts.TipWarning)
	half := row.Likely * row.ToSI()
	for i, side := range [2]r3.Vector{left, left.Mul(-1)} {
		if !a.casualtyTips.Known || a.casualtyTips.About[i] > half {
			sides = append(sides, side)
		}
	}
	return sides
}
