package effort

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// record writes how the low hold came about, so that a pocket calculator can
// follow: the weight on the axles at rest, what each newton of line shifts, the
// grip, and then the tension at which both meet.
func (b *brace) record(res *HoldResult, derivation *part.Derivation) {
	v, s := b.in.Vehicle, &b.low.s
	hold := holds("hold", float64(res.Hold.Low))
	derivation.Add("puller-weight", part.Force("weight", b.weight), typedOr(mass("mass", float64(v.Mass)), v.Presets, "mass_kg"),
		typedOr(mass("load", float64(v.Load)), v.Presets, "load_kg"), fromFact(number("g", quantity.Gravity), facts.GravityStandard))
	weight := computed(part.Force("weight", b.weight))
	if b.sinX != 0 || b.sinY != 0 {
		derivation.Add("slope-flat", number("flat", b.flat), computed(angle("ahead", b.in.FallAheadDeg)), computed(angle("left", b.in.FallLeftDeg)))
	}
	grip := b.recordGrip(derivation)
	fa, fb, ra, rb := b.loads(s)
	wheelbase := typedOr(part.Length("wheelbase", s.frontM-s.rearM), v.Presets, "wheelbase_m")
	derivation.Add("puller-front", part.Force("front", fa), weight, computed(number("flat", b.flat)), computed(part.Length("behind", s.cgM-s.rearM)),
		computed(angle("ahead", b.in.FallAheadDeg)), typedOr(part.Length("cg", s.cgHeight), v.Presets, "cg_height_m"), wheelbase)
	derivation.Add("puller-rear", part.Force("rear", ra), weight, computed(number("flat", b.flat)), computed(part.Force("front", fa)))
	var up, turns float64
	for i := range b.in.Ends {
		e := &b.in.Ends[i]
		from := turns
		up += e.PerTension.Z
		turns += e.PerTension.X*e.HeightM - e.PerTension.Z*(e.AheadM-s.rearM)
		derivation.Add("puller-end", part.Length("turns", turns), computed(part.Length("before", from)), computed(number("ahead", e.PerTension.X)), computed(part.Length("height", e.HeightM)),
			computed(number("up", e.PerTension.Z)), computed(part.Length("from", e.AheadM-s.rearM)))
	}
	derivation.Add("puller-shift-front", number("shift", fb), computed(part.Length("turns", turns)), wheelbase)
	derivation.Add("puller-shift-rear", number("shift", rb), computed(number("up", up)), computed(number("front", fb)))
	switch t := float64(res.Hold.Low); {
	case b.lifted(t, fa, fb):
		derivation.Add("puller-lifts", hold, computed(part.Force("rest", fa)), computed(number("shift", -fb)))
	case b.lifted(t, ra, rb):
		derivation.Add("puller-lifts", hold, computed(part.Force("rest", ra)), computed(number("shift", -rb)))
	case t >= unboundedN:
		derivation.Add("puller-pressed", hold)
	case b.low.straight:
		b.recordStraight(derivation, hold, grip, [2]float64{fa, ra}, [2]float64{fb, rb})
	default:
		b.recordContacts(derivation, hold, grip, [2]float64{fa, ra}, [2]float64{fb, rb})
	}
}

// lifted reports whether an axle carries nothing at a tension.
func (b *brace) lifted(t, rest, shift float64) bool {
	return t > 0 && shift < 0 && abs(rest+shift*t) <= leastTensionTol*abs(rest)
}

// recordGrip writes the grip at the low end.
func (b *brace) recordGrip(derivation *part.Derivation) part.Operand {
	row := facts.ID(b.grip.id)
	if b.counts == 1 {
		return fromFact(number("grip", b.mu[low]), row)
	}
	derivation.Add("puller-grip", number("grip", b.mu[low]), fromFact(number("average", b.grip.v[low]), row), fromFact(factor("times", b.counts), facts.PullerGripLow))
	return computed(number("grip", b.mu[low]))
}

// recordBrake writes the strength of the parking brake, which stands in for the
// grip of its axles, or of one of two; 0: grip is the smaller limit.
func (b *brace) recordBrake(derivation *part.Derivation) part.Operand {
	var n float64
	for _, c := range b.low.caps {
		n += max(0, c)
	}
	v := b.in.Vehicle
	if n == 0 {
		return computed(part.Force("brake", 0))
	}
	whole := typedOr(part.Force("brake", v.BrakeForce), v.Presets, "brake_force_n")
	if !(v.BrakeForce > 0) {
		whole = computed(part.Force("brake", facts.BrakeParking.Value()*b.weight))
		derivation.Add("puller-brake", whole.Value, fromFact(factor("times", facts.BrakeParking.Value()), facts.BrakeParking), computed(part.Force("weight", b.weight)))
	}
	if share := n / whole.X; share < 1-roundingSlack {
		derivation.Add("puller-brake-axle", part.Force("axle", n), whole, computed(number("share", share)))
		return computed(part.Force("brake", n))
	}
	return whole
}

// recordStraight writes the closed form of a pull along the vehicle's middle.
func (b *brace) recordStraight(derivation *part.Derivation, hold part.Value, grip part.Operand, a, bt [2]float64) {
	brake := b.recordBrake(derivation)
	var load, shift [2]float64
	for i := range a {
		if b.low.locked[i] && b.low.caps[i] < 0 {
			load[i], shift[i] = a[i], bt[i]
		}
	}
	f, down := b.f.X, b.weight*b.sinX
	if f < 0 {
		f, down = -f, -down
	}
	rest := grip.X*(load[0]+load[1]) + brake.X
	derivation.Add("puller-rest", part.Force("rest", rest), grip, computed(part.Force("front", load[0])), computed(part.Force("rear", load[1])), brake)
	toward := b.in.FallAheadDeg
	if b.f.X < 0 {
		toward = -toward
	}
	derivation.Add("puller-down", part.Force("down", down), computed(part.Force("weight", b.weight)), computed(angle("fall", toward)))
	if hold.X == 0 {
		derivation.Add("puller-holds-nothing", hold, computed(part.Force("rest", rest)), computed(part.Force("down", down)))
		return
	}
	derivation.Add("puller-straight", hold, computed(part.Force("rest", rest)), computed(part.Force("down", down)), computed(number("along", f)), grip,
		computed(number("front", shift[0])), computed(number("rear", shift[1])))
}

// recordContacts writes the balance of work in the motion that takes least, for
// each metre of line: what the four wheels resist, and what the slope gives. At
// the hold the difference is the tension itself. A pull that takes the load off
// wheels may let the vehicle go down the slope against it: then the slope gives
// what the wheels resist and the line besides.
func (b *brace) recordContacts(derivation *part.Derivation, hold part.Value, grip part.Operand, a, bt [2]float64) {
	s, tw, t := &b.low.s, b.low.twist, hold.X
	unit := b.f.X*tw[0] + b.f.Y*tw[1] + b.yaw*tw[2]
	if t > 0 && unit != 0 {
		for i := range tw {
			tw[i] /= abs(unit)
		}
	}
	brake := b.recordBrake(derivation)
	tension := computed(part.Force("tension", t))
	var total float64
	for i, x := range [2]float64{s.frontM, s.rearM} {
		load := max(0, a[i]+bt[i]*t)
		derivation.Add("puller-load", part.Force("load", load), computed(part.Force("rest", a[i])), computed(number("shift", bt[i])), tension)
		across := grip.X * load / 2
		derivation.Add("puller-across", part.Force("across", across), grip, computed(part.Force("load", load)))
		along := 0.0
		switch c := b.low.caps[i]; {
		case !b.low.locked[i]:
		case c >= 0:
			along = c / 2
			derivation.Add("puller-brake-wheel", part.Force("along", along), brake, computed(number("share", c/brake.X)))
		default:
			along = across
		}
		for _, y := range [2]float64{s.halfTrackM, -s.halfTrackM} {
			vx, vy := noted(tw[0]-tw[2]*y), noted(tw[1]+tw[2]*x)
			from := total
			total += math.Hypot(along*vx, across*vy)
			derivation.Add("puller-wheel", part.Force("work", total), computed(part.Force("before", from)), computed(part.Force("along", along)), computed(number("ahead", vx)),
				computed(part.Force("across", across)), computed(number("aside", vy)))
		}
	}
	wx, wy := b.weight*b.sinX, b.weight*b.sinY
	vx, vy := tw[0], tw[1]+tw[2]*s.cgM
	slope := wx*vx + wy*vy
	derivation.Add("puller-slope", part.Force("slope", slope), computed(part.Force("weight", b.weight)), computed(angle("ahead-fall", b.in.FallAheadDeg)), computed(number("ahead", vx)),
		computed(angle("left-fall", b.in.FallLeftDeg)), computed(number("aside", vy)))
	if t == 0 {
		derivation.Add("puller-holds-nothing", hold, computed(part.Force("rest", total)), computed(part.Force("down", slope)))
		return
	}
	if unit < 0 {
		derivation.Add("puller-against", hold, computed(part.Force("slope", slope)), computed(part.Force("work", total)))
		return
	}
	derivation.Add("puller-work", hold, computed(part.Force("work", total)), computed(part.Force("slope", slope)))
}

// noted is a share of a motion as a sum notes it: what roots and sines leave of
// nothing is nothing.
func noted(x float64) float64 {
	if abs(x) < roundingSlack {
		return 0
	}
	return x
}
