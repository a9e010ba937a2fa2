package effort

import (
	"math"

	"kedge/solver/quantity"
	"kedge/solver/statics"
)

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

// leastTension is the least line tension T at which contacts give way under
// the wrench rest + T·pull, and the twist v of the vehicle as they do. By
// maximum dissipation (see the limit surface of package statics) no twist may gain:
//
//	D(v; T) ≥ rest·v + T·pull·v,  D = Σ √((along·v_x)² + (across·v_y)²)
//
// and T is the least at which one does no longer lose. With pull·v = 1 two
// unknowns of the twist are left, in which D is convex; grip follows T in
// straight lines. Newton in the twist and Newton in T go hand in hand while the
// corners of D, where a contact stands still, are rounded less and less. The
// statics' own limit surface, which knows no load that follows T, is what the
// tests hold this against. guess is an answer nearby; the zero value: none.
func leastTension(cs []contact, rest, pull wrench, guess giving) (f giving, ok bool) {
	switch {
	case !(math.Hypot(rest[0], rest[1]) > restShare*gripAtRest(cs)):
		rest = wrench{}
	case !restsWithin(cs, rest):
		l, v, known := factorLeft(cs, 0, rest)
		if !known {
			return giving{}, false
		}
		if l <= 1 {
			return giving{twist: v}, true // gives way without any pull
		}
	}
	s := search{cs: cs, rest: rest, arm: armM(cs), most: liftsAt(cs)}
	if !s.aim(pull) {
		return giving{}, false
	}
	sound := false
	if guess.tensionN > 0 {
		s.t, s.z = min(guess.tensionN, s.most), guess.z
		sound = s.settle(smoothing[warmStage:])
	}
	if !sound {
		s.t, s.z = 0, [2]float64{}
		sound = s.settle(smoothing[:])
	}
	s.way = s.twist()
	if !sound {
		if s.z = [2]float64{}; !s.halve(pull) {
			return giving{}, false
		}
	}
	f = giving{tensionN: s.t, z: s.z, twist: s.way}
	if s.t < leastTensionN {
		f.tensionN = 0
	}
	return f, true
}

// restsWithin reports whether contacts bear a wrench without any pull, by forces that
// are found at once: those of the least Σ (along/its most)² + (across/its most)² that
// balance it. If each stays within its own grip no motion can gain (the lower bound
// theorem of limit analysis); if one does not, nothing is said.
func restsWithin(cs []contact, w wrench) bool {
	// Σ along²·A·Aᵀ + across²·B·Bᵀ with A = (1, 0, -y), B = (0, 1, x), but for its 0
	var xx, xm, yy, ym, mm float64
	for i := range cs {
		a, b := cs[i].at(0)
		a, b = a*a, b*b
		x, y := cs[i].xM, cs[i].yM
		xx, xm, yy, ym, mm = xx+a, xm-a*y, yy+b, ym+b*x, mm+a*y*y+b*x*x
	}
	det := xx*(yy*mm-ym*ym) - xm*xm*yy
	if !(det > 1e-9*xx*yy*mm) {
		return false // a motion that hardly anything resists
	}
	v := wrench{
		((yy*mm-ym*ym)*w[0] + xm*ym*w[1] - xm*yy*w[2]) / det,
		(xm*ym*w[0] + (xx*mm-xm*xm)*w[1] - xx*ym*w[2]) / det,
		(xx*yy*w[2] - xm*yy*w[0] - xx*ym*w[1]) / det,
	}
	for i := range cs {
		a, b := cs[i].at(0)
		if !(math.Hypot(a*(v[0]-v[2]*cs[i].yM), b*(v[1]+v[2]*cs[i].xM)) < withinShare) {
			return false
		}
	}
	return true
}

// withinShare, of its grip: a contact that bears less is within it, whatever is rounded.
// No unit.
const withinShare = 0.999

// liftsAt is the tension at which the first contact lifts; then the vehicle
// moves, whatever the others grip. unboundedN at most: a pull that presses it
// down faster than it drags never moves it.
func liftsAt(cs []contact) float64 {
	t := float64(unboundedN)
	for i := range cs {
		if c := &cs[i]; c.acrossB < 0 {
			t = min(t, max(0, -c.acrossA/c.acrossB))
		}
	}
	return t
}

// halve finds the tension by halving, on the statics' limit surface: slow, and
// for what the search does not settle.
func (s *search) halve(pull wrench) bool {
	lo, hi := 0.0, s.most
	for hi-lo > leastTensionTol*hi && hi > leastTensionN {
		t := (lo + hi) / 2
		l, v, ok := factorLeft(s.cs, t, s.rest.plus(pull, t))
		if !ok {
			return false
		}
		if l >= 1 {
			lo = t
		} else {
			hi, s.way = t, v
		}
	}
	s.t = lo
	return true
}

// giving is an answer of leastTension, and where a next one may begin.
type giving struct {
	tensionN float64
	z        [2]float64
	twist    [3]float64
	how      how
}

// search is the state of leastTension. Moments are scaled by an arm, so that
// the three components of the twist are of a size: v = u + z₀·e + z₁·f.
type search struct {
	cs      []contact
	at      [mostContacts]corner
	rest    wrench
	arm     float64
	u, e, f [3]float64
	most    float64 // tension at which a contact lifts
	t       float64
	z       [2]float64
	way     [3]float64 // the twist of the answer
}

// armM is the distance of the farthest contact, metres.
func armM(cs []contact) float64 {
	a := 0.1
	for i := range cs {
		a = max(a, math.Hypot(cs[i].xM, cs[i].yM))
	}
	return a
}

// aim turns the axes so that pull·v = 1 for every z.
func (s *search) aim(pull wrench) bool {
	g := [3]float64{pull[0], pull[1], pull[2] / s.arm}
	n := math.Sqrt(g[0]*g[0] + g[1]*g[1] + g[2]*g[2])
	if !(n > 0) || math.IsInf(n, 0) {
		return false
	}
	s.e, s.f = across([3]float64{g[0] / n, g[1] / n, g[2] / n})
	for i := range g {
		s.u[i] = g[i] / n / n
		s.e[i] /= n
		s.f[i] /= n
	}
	for i := range s.cs {
		k := &s.at[i]
		k.x, k.y = s.cs[i].xM/s.arm, s.cs[i].yM/s.arm
		k.ex, k.ey = s.e[0]-s.e[2]*k.y, s.e[1]+s.e[2]*k.x
		k.fx, k.fy = s.f[0]-s.f[2]*k.y, s.f[1]+s.f[2]*k.x
	}
	return true
}

func (s *search) scaled(z [2]float64) (v [3]float64) {
	for i := range v {
		v[i] = s.u[i] + z[0]*s.e[i] + z[1]*s.f[i]
	}
	return v
}

func (s *search) twist() [3]float64 {
	v := s.scaled(s.z)
	v[2] /= s.arm
	return v
}

// corner is where a contact stands, in arms, and how it moves along and across for
// each of the two unknowns of the twist.
type corner struct{ x, y, ex, ey, fx, fy float64 }

// cost is what the motion z costs at tension t, above what rest gives, with its
// derivative in t.
func (s *search) cost(z [2]float64, t, eps float64) (d, dt float64) {
	v := s.scaled(z)
	for i := range s.cs {
		c, k := &s.cs[i], &s.at[i]
		a, b := c.at(t)
		w := a + b
		if w == 0 {
			continue
		}
		px, py := v[0]-v[2]*k.y, v[1]+v[2]*k.x
		x, y := a*px, b*py
		r := math.Sqrt(x*x + y*y + eps*eps*w*w)
		d += r
		if a > 0 {
			dt += c.alongB * x * px / r
		}
		if b > 0 {
			dt += c.acrossB * y * py / r
		}
	}
	return d - (s.rest[0]*v[0] + s.rest[1]*v[1] + s.rest[2]/s.arm*v[2]), dt
}

// lost is [search.cost] with its first and second derivatives in z.
func (s *search) lost(z [2]float64, t, eps float64) (d float64, g [2]float64, h [3]float64, dt float64) {
	v := s.scaled(z)
	for i := range s.cs {
		c, k := &s.cs[i], &s.at[i]
		a, b := c.at(t)
		w := a + b
		if w == 0 {
			continue
		}
		px, py := v[0]-v[2]*k.y, v[1]+v[2]*k.x
		x, y := a*px, b*py
		x0, x1, y0, y1 := a*k.ex, a*k.fx, b*k.ey, b*k.fy
		r := math.Sqrt(x*x + y*y + eps*eps*w*w)
		d += r
		q0, q1 := (x*x0+y*y0)/r, (x*x1+y*y1)/r
		g[0] += q0
		g[1] += q1
		h[0] += (x0*x0 + y0*y0 - q0*q0) / r
		h[1] += (x0*x1 + y0*y1 - q0*q1) / r
		h[2] += (x1*x1 + y1*y1 - q1*q1) / r
		if a > 0 {
			dt += c.alongB * x * px / r
		}
		if b > 0 {
			dt += c.acrossB * y * py / r
		}
	}
	d -= s.rest[0]*v[0] + s.rest[1]*v[1] + s.rest[2]/s.arm*v[2]
	g[0] -= s.rest[0]*s.e[0] + s.rest[1]*s.e[1] + s.rest[2]/s.arm*s.e[2]
	g[1] -= s.rest[0]*s.f[0] + s.rest[1]*s.f[1] + s.rest[2]/s.arm*s.f[2]
	return d, g, h, dt
}

// settle finds z and t through a row of roundings. It tells whether the answer
// stands the test: the twist can gain nothing, and it loses as much as it gains.
func (s *search) settle(roundings []float64) bool {
	var d, gain float64
	for _, eps := range roundings {
		d, gain = s.round(eps)
	}
	if !finite(d, gain, s.t) {
		return false
	}
	if d == 0 && s.t == 0 {
		return true // a motion nothing resists
	}
	if gain > settledShare*math.Abs(d) {
		return false
	}
	return math.Abs(d-s.t) <= settledShare*s.t || s.t == 0 && d <= 0
}

// settledShare, of the tension: what may be left unbalanced in an answer.
const settledShare = 1e-7

// round finds z and t for one rounding. gain is what Newton still promises.
func (s *search) round(eps float64) (d, gain float64) {
	d, g, h, dt := s.lost(s.z, s.t, eps)
	for range settleSteps {
		moved := false
		gain = math.Inf(1)
		m := flatShare * (h[0] + h[2])
		a, b, c := h[0]+m, h[1], h[2]+m
		if det := a*c - b*b; det > 0 {
			p := [2]float64{-(c*g[0] - b*g[1]) / det, -(a*g[1] - b*g[0]) / det}
			drop := g[0]*p[0] + g[1]*p[1]
			gain = -drop
			for step := 1.0; step > 1e-9 && drop < -leastTensionTol*1e-3*math.Abs(d); step /= 2 {
				z := [2]float64{s.z[0] + step*p[0], s.z[1] + step*p[1]}
				if dz, tz := s.cost(z, s.t, eps); dz <= d+1e-4*step*drop {
					s.z, d, dt, moved = z, dz, tz, true
					break
				}
			}
		}
		// pull·v = 1: what is lost grows by dt a newton, what is gained by 1.
		// Where grip grows faster than the pull the twist is not the last one
		// yet, or it holds to the end: go up, but not past what z can follow.
		next := 2*s.t + math.Abs(d)
		if dt < 1 {
			next = min(max(0, s.t+(d-s.t)/(1-dt)), next)
		}
		next = min(next, s.most)
		was, change := s.t, math.Abs(next-s.t)
		s.t = next
		if change > leastTensionTol*1e-3*s.t {
			d, g, h, dt = s.lost(s.z, s.t, eps)
		} else if moved {
			d, g, h, dt = s.lost(s.z, was, eps)
		}
		if !moved && change <= leastTensionTol*s.t {
			break
		}
	}
	return d, gain
}

// smoothing, no unit: how far the corners of D are rounded, as a share of the
// speed of a metre of line a second. The last one costs 1e-8 of the tension.
var smoothing = [...]float64{1e-1, 1e-2, 1e-4, 1e-6, 1e-8}

// warmStage is where a search begins that has an answer nearby.
const warmStage = 2

// settleSteps of Newton for one rounding; five are the rule.
const settleSteps = 40

// flatShare, of the curvature: added so that a motion nothing resists still
// has a step.
const flatShare = 1e-11

// across is two unit vectors at right angles to u and to each other.
func across(u [3]float64) (e, f [3]float64) {
	k := 0
	for i := 1; i < 3; i++ {
		if math.Abs(u[i]) < math.Abs(u[k]) {
			k = i
		}
	}
	for i := range e {
		e[i] = -u[k] * u[i]
	}
	e[k]++
	l := math.Sqrt(e[0]*e[0] + e[1]*e[1] + e[2]*e[2])
	for i := range e {
		e[i] /= l
	}
	return e, [3]float64{u[1]*e[2] - u[2]*e[1], u[2]*e[0] - u[0]*e[2], u[0]*e[1] - u[1]*e[0]}
}

const (
	// leastTensionTol, no unit: relative error of a tension, far below any
	// figure that is shown.
	leastTensionTol = 1e-8
	// leastTensionN, newtons: below it a vehicle holds nothing.
	leastTensionN = 1e-3
	// unboundedN, newtons: a vehicle that the pull presses down so that it never
	// slides is assumed to hold this, twenty times what any winch line is made
	// for. (ours)
	unboundedN = 1e7
)

// Unbounded reports whether a hold is none: no line that is made moves the vehicle,
// and how much would is no figure to show.
// The search for it ends a hair below.
func Unbounded(x quantity.Force) bool { return float64(x) >= unboundedN*(1-1e-6) }

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
