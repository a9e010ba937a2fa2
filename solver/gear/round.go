package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Round is how a sling lies round a trunk. The zero value is no lie: the sling
// does not close, or nothing is known.
type Round struct {
	Closes  bool
	Reach   quantity.Length  // from the trunk's middle to the apex, or to the end of the standing leg
	Opens   quantity.Degrees // between the two legs of a basket, between the two sides of a choked loop
	Tangent quantity.Degrees // at the trunk's middle, from the line to the apex to where a leg leaves the trunk
	Choke   quantity.Degrees // of a choked sling: between its standing leg and the loop; else 0
	Bight   quantity.Length  // of a choked sling: from the trunk's middle to the choke; else 0
	Short   quantity.Length  // what it lacks to close; 0: it closes, or nothing is known
}

// Half is half of what the legs open: the angle of a leg off the pull.
func (r Round) Half() quantity.Degrees { return r.Opens / 2 }

// SlingRound lays a sling of that length, eye to eye, round a trunk of that
// radius.
//
//	basket: L = 2·√(a²−r²) + 2r·(π − arccos(r/a)), legs open 2·arcsin(r/a)
//
// with a the reach. With c the cotangent of half the opening this is
// c − arctan c = L/(2r) − π, solved by Newton from c = L/(2r) − π/2, from where
// it falls without overshooting.
//
// A choked sling draws its loop up until it hangs freely, 135° between loop
// and standing leg (common practice); what is left of its length stands. One
// too short for that chokes at the angle its length leaves, never under 90°.
// A straight sling has no lie round a trunk.
func SlingRound(radius, length quantity.Length, hitch string) Round {
	r, l := float64(radius), float64(length)
	if !positive(r) || !positive(l) {
		return Round{}
	}
	if hitch == plan.HitchStraight {
		return Round{}
	}
	k := l/(2*r) - math.Pi // 0: it just meets itself
	if !(k > 0) {
		return Round{Short: quantity.Length(2*math.Pi*r - l)}
	}
	if hitch == plan.HitchChoked {
		return choked(r, l, k)
	}
	c := cotHalf(k)
	return Round{
		Closes:  true,
		Reach:   quantity.Length(r * math.Hypot(1, c)),
		Opens:   quantity.FromRadians(2 * math.Atan2(1, c)),
		Tangent: quantity.FromRadians(math.Atan(c)),
	}
}

func choked(r, l, k float64) Round {
	half := math.Pi - quantity.Degrees(facts.SlingChokeFree.Conservative().X).Radians() // of the loop, hanging freely
	free := loopK(1 / math.Tan(half))
	c := 1 / math.Tan(half)
	if k < free {
		c = cotHalf(k)
	}
	standing := math.Max(0, 2*r*(k-free))
	bight := r * math.Hypot(1, c)
	opens := 2 * math.Atan2(1, c)
	return Round{
		Closes:  true,
		Reach:   quantity.Length(bight + standing),
		Opens:   quantity.FromRadians(opens),
		Tangent: quantity.FromRadians(math.Atan(c)),
		Choke:   quantity.FromRadians(math.Pi - opens/2),
		Bight:   quantity.Length(bight),
	}
}

// seriesBelow, a pure number: under it the difference of c and arctan c loses
// digits and four terms of its series are exact to the last one.
const seriesBelow = 0.02

// loopK is L/(2r) − π of a loop whose half opening has the cotangent c.
func loopK(c float64) float64 {
	if c < seriesBelow {
		s := c * c
		return c * s * (1.0/3 - s*(1.0/5-s*(1.0/7-s/9)))
	}
	return c - math.Atan(c)
}

// newtonSteps, a count: from the start used, ten steps reach the last digit
// over the whole range of k; the rest is a guard.
const newtonSteps = 60

// cotHalf solves c − arctan c = k, k > 0. The function is convex and the start
// lies beyond the root, so the steps fall towards it.
func cotHalf(k float64) float64 {
	c := k + math.Pi/2
	if near := math.Cbrt(3 * k); k < 0.1 { // c³/3 for small c, from below
		c = near * (1 + 0.3*near*near)
	}
	for range newtonSteps {
		step := (loopK(c) - k) * (1 + c*c) / (c * c)
		next := c - step
		if next == c || math.Abs(step) <= 1e-15*c {
			return next
		}
		c = next
	}
	return c
}

// SlingLength is the length eye to eye of a basket whose legs open by that
// angle, over 0 to under 180°; 0 if it cannot be.
//
//	L = 2r·(cot h + π/2 + h), h half the opening
func SlingLength(radius quantity.Length, opens quantity.Degrees) quantity.Length {
	h := opens.Radians() / 2
	if !positive(float64(radius)) || !(h > 0) || !(h <= math.Pi/2) {
		return 0
	}
	return radius * quantity.Length(2*(1/math.Tan(h)+math.Pi/2+h))
}
