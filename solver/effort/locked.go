package effort

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// lockedShare is the share of the weight on the casualty's wheels that do not
// turn, at the low, likely and high end: those somebody counted as locked, and
// those that its own brake, its chocks, a foot on the brake or the gear hold.
// Counted wheels are the lightest at the low end and the heaviest at the high
// one. Left in gear counts as it does for a puller: nothing at the low end, the
// rear axle at the likely, all at the high. (ours)
func lockedShare(v *plan.Vehicle, wheels int) (s triple) {
	front, rear, known := axleShares(v)
	n4 := float64(min(max(wheels, 0), 4))
	// Wheels from the heaviest: two at heavy/2, two at (1-heavy)/2.
	heavy := max(front[high], rear[high])
	if known {
		heavy = max(front[likely], rear[likely])
	}
	two, rest := min(n4, 2)/2, max(n4-2, 0)/2
	s = triple{two*(1-heavy) + rest*heavy, n4 / 4, two*heavy + rest*(1-heavy)}
	for e := range s {
		f, r := held(v, e)
		held := 0.0
		switch {
		case f && r:
			held = 1
		case f:
			held = front[e]
		case r:
			held = rear[e]
		}
		s[e] = max(s[e], held)
	}
	return s
}

// axleShares are the shares of the weight that the axles carry on the level;
// known tells that somebody said where the centre of gravity lies.
func axleShares(v *plan.Vehicle) (front, rear triple, known bool) {
	rear = book().cgBehind
	if v.CGBehindFront > 0 && v.Wheelbase > v.CGBehindFront {
		x := float64(v.CGBehindFront / v.Wheelbase)
		rear, known = triple{x, x, x}, true
	}
	return triple{1 - rear[high], 1 - rear[likely], 1 - rear[low]}, rear, known
}

// held tells which axles of a casualty do not turn because of what is set on it.
func held(v *plan.Vehicle, end int) (front, rear bool) {
	front = v.FootBrake || v.Brake == plan.BrakeFront || v.Brake == plan.BrakeAll || v.Chocks == plan.ChocksFront || v.Chocks == plan.ChocksAll
	rear = v.FootBrake || v.Brake == plan.BrakeRear || v.Brake == plan.BrakeAll || v.Chocks == plan.ChocksRear || v.Chocks == plan.ChocksAll
	if v.InGear {
		rear = rear || end >= likely
		front = front || end == high
	}
	return front, rear
}

// braked says that the casualty is pulled with wheels locked by what is set on
// it, and what it would take with wheels that turn.
func (p *pull) braked(res *ResistanceResult) {
	v := p.in.Vehicle
	f, r := held(v, high)
	if p.found == nil {
		return
	}
	if !(f || r) {
		if !v.BrakeKnown() {
			part.NotDecided(p.found, "casualty-braked", p.id, part.Lack{Thing: p.id, Member: "brake"})
		}
		return
	}
	say := func(v *plan.Vehicle) (n ResistanceResult) {
		q := pull{in: p.in, n: p.n, stuck: p.stuck, sinA: p.sinA, flat: p.flat, id: p.id, locked: lockedShare(v, p.stuck.LockedWheels)}
		q.rules(&n, nil)
		return n
	}
	turns := *v
	turns.Brake, turns.Chocks, turns.FootBrake, turns.InGear = plan.BrakeNone, plan.ChocksNone, false, false
	locked, free := say(v), say(&turns)
	x := raise(p.found, "casualty-braked-unknown", part.Caution, p.id)
	if locked.Physics.Known && free.Known {
		x.ID = "casualty-braked"
		x.Values = []part.Value{part.Force("locked", locked.High), part.Force("free", free.High)}
	}
	x.Remedies = []part.Remedy{{Do: "release-brakes", Thing: p.id}}
}

// steerDeg, degrees, is how far off the way its wheels roll a vehicle still
// follows a pull by its steering. (ours: wheels turn by 30 to 40)
const steerDeg = 30

// drifts counts what wheels take that are dragged aside, where the way out lies
// further off the vehicle's middle than it steers: grip times the sine of that
// angle, at the likely and the high end; at the low one it swings round and rolls.
// (ours) What somebody measured has it in it.
func (p *pull) drifts() {
	way, known := p.in.Vehicle.WayOut()
	if !known || p.stuck.Overturned {
		return
	}
	aside := math.Sin((way - p.in.Vehicle.Bearing).Radians())
	off := float64(quantity.FromRadians(math.Asin(min(abs(aside), 1))))
	if off <= steerDeg*(1+roundingSlack) {
		return
	}
	p.locked[likely], p.locked[high] = max(p.locked[likely], abs(aside)), max(p.locked[high], abs(aside))
	if p.found != nil && !(p.stuck.Measured > 0) {
		raise(p.found, "dragged-aside", part.Caution, p.id, angle("off", off), angle("steers", steerDeg))
	}
}
