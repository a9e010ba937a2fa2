package effort

import (
	"math"

	"kedge/solver/statics"
)

// limitEllipse is the length at which a ray leaves an ellipse given by its
// components over the half axes.
func limitEllipse(a, b float64) float64 { return 1 / math.Sqrt(a*a+b*b) }

// contact is one axle's grip: where it stands, the most it holds along the
// vehicle and across it. Each grows with the line tension T as a + b·T.
type contact struct {
	xM, yM  float64
	alongA  float64 // newtons
	alongB  float64
	acrossA float64
	acrossB float64
}

// at is the grip along and across at a line tension; an axle that would lift
// grips nothing.
func (c *contact) at(t float64) (along, across float64) {
	return max(0, c.alongA+c.alongB*t), max(0, c.acrossA+c.acrossB*t)
}

// wrench is a force along and across the vehicle and a moment about the middle
// of its footprint, newtons and newton metres.
type wrench [3]float64

func (w wrench) plus(v wrench, f float64) wrench {
	return wrench{w[0] + v[0]*f, w[1] + v[1]*f, w[2] + v[2]*f}
}

func (w wrench) on(v [3]float64) float64 { return w[0]*v[0] + w[1]*v[1] + w[2]*v[2] }

// leastTension is the least line tension T at which contacts give way under
// the wrench rest + T·pull, and the twist of the vehicle as they do. It is the
// root of λ(T) = 1, with λ the factor by which the wrench could still grow:
//
//	λ = min{ D(v) : w·v = 1 },  D(v) = Σ √((along·v_x)² + (across·v_y)²)
//
// (statics.md 4, maximum dissipation). Newton on T from above: D grows with T
// in straight lines, so each step lands between the root and the last one.
func leastTension(cs []contact, rest, pull wrench) (t float64, twist [3]float64, ok bool) {
	if math.Hypot(rest[0], rest[1]) > restShare*gripAtRest(cs) {
		l, v, found := factorLeft(cs, 0, rest)
		if !found {
			return 0, v, false
		}
		if l <= 1 {
			return 0, v, true // gives way without any pull
		}
	}
	t = startTension(cs, rest, pull)
	for range leastTensionSteps {
		l, v, found := factorLeft(cs, t, rest.plus(pull, t))
		if !found {
			return 0, v, false
		}
		twist = v
		if l == 0 {
			return 0, v, true
		}
		if math.Abs(l-1) < leastTensionTol {
			return t, twist, true
		}
		gap := dissipation(cs, t, v) - rest.plus(pull, t).on(v)
		slope := dissipationSlope(cs, t, v) - pull.on(v)
		if !(slope < 0) {
			return unboundedN, twist, true // the pull presses it down faster than it drags
		}
		next := t - gap/slope
		if !(next > 0) {
			next = t / 2
		}
		if next > unboundedN {
			return unboundedN, twist, true
		}
		if math.Abs(next-t) <= leastTensionTol*t {
			return next, twist, true
		}
		t = next
	}
	return t, twist, false
}

const (
	// leastTensionTol, no unit: relative error of a tension, far below any
	// figure that is shown.
	leastTensionTol = 1e-9
	// leastTensionSteps of Newton; four or five are the rule.
	leastTensionSteps = 60
	// unboundedN, newtons: a vehicle that the pull presses down so that it never
	// slides is said to hold this, above any line's strength.
	unboundedN = 1e9
)

// restShare, of the grip: a vehicle's own weight along a slope below it is
// nothing to the search for the first motion. No unit.
const restShare = 1e-9

func gripAtRest(cs []contact) float64 {
	var s float64
	for i := range cs {
		a, b := cs[i].at(0)
		s += a + b
	}
	return s
}

// startTension is above the root: the sum of all grip over the pull's force.
func startTension(cs []contact, rest, pull wrench) float64 {
	s := gripAtRest(cs)
	f := math.Hypot(pull[0], pull[1])
	return (s + math.Hypot(rest[0], rest[1]) + 1) / max(f, 1e-3)
}

// factorLeft is λ and the twist that goes with it (w·v = 1), from the limit
// surface of the statics. A motion that nothing resists has λ = 0.
func factorLeft(cs []contact, t float64, w wrench) (lambda float64, v [3]float64, ok bool) {
	var tyres [mostContacts]statics.Tyre
	for i := range cs {
		a, b := cs[i].at(t)
		n := max(a, b)
		tyres[i] = statics.Tyre{XM: cs[i].xM, YM: cs[i].yM, LoadN: n}
		if n > 0 {
			tyres[i].Along, tyres[i].Across = a/n, b/n
		}
	}
	d := statics.LimitSurface(tyres[:len(cs)], w)
	switch d.Status {
	case statics.Converged:
		return d.TensionN, d.Twist, true
	case statics.NoPull:
		return 0, v, true
	}
	return 0, v, false
}

// mostContacts of a vehicle: four wheels.
const mostContacts = 4

// dissipation is D(v) at a line tension, watts for a twist in SI.
func dissipation(cs []contact, t float64, v [3]float64) float64 {
	var d float64
	for i := range cs {
		c := &cs[i]
		a, b := c.at(t)
		d += math.Hypot(a*(v[0]-v[2]*c.yM), b*(v[1]+v[2]*c.xM))
	}
	return d
}

// dissipationSlope is dD/dT at a fixed twist.
func dissipationSlope(cs []contact, t float64, v [3]float64) float64 {
	var s float64
	for i := range cs {
		c := &cs[i]
		a, b := c.at(t)
		vx, vy := v[0]-v[2]*c.yM, v[1]+v[2]*c.xM
		r := math.Hypot(a*vx, b*vy)
		if r == 0 {
			continue
		}
		if a > 0 {
			s += a * c.alongB * vx * vx / r
		}
		if b > 0 {
			s += b * c.acrossB * vy * vy / r
		}
	}
	return s
}
