package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

// haulRatio is the ratio by angle of tension behind over before while the line hauls,
// for unit directions ub of the stretch before and ua of the one behind.
//
// ByWrap, friction kappa |N| at the pin with kappa = (1-eta)/(1+eta)
// (README section 7):
//
//	rho = (a - sqrt(a^2 - b^2)) / b,  a = 1 + kappa^2 cos(theta),  b = 1 - kappa^2
//
// Ring, capstan equation (Euler-Eytelwein):
//
//	rho = e^(-mu wrap),  wrap = pi - theta
//
// with theta the included angle of the legs -ub and ua.
func (v *visit) haulRatio(ub, ua r3.Vector) float64 {
	if v.model == Ring {
		return math.Exp(-v.mu * wrap(ub, ua))
	}
	turn := legSum2(ub, ua) / 2 // 1 + cos(theta)
	a := 1 - v.kappa2*ub.Dot(ua)
	b := 1 - v.kappa2
	return (a - math.Sqrt(v.kappa2*turn*(a+b))) / b
}

// haulRatioRate is the rate of haulRatio for the rate dc of cos(theta). At no
// turn at all the ratio has a kink and no rate: zero is returned.
func (v *visit) haulRatioRate(ub, ua r3.Vector, rho, dc float64) float64 {
	const noTurn = 1e-7 // sine or its like below which the kink is too near
	if v.model == Ring {
		// d(wrap) = -d(theta) = dc / sin(theta)
		sin := math.Sin(wrap(ub, ua))
		if sin < noTurn {
			return 0
		}
		return -rho * v.mu * dc / sin
	}
	a := 1 - v.kappa2*ub.Dot(ua)
	b := 1 - v.kappa2
	root := math.Sqrt(v.kappa2 * legSum2(ub, ua) / 2 * (a + b))
	if root < noTurn {
		return 0
	}
	return v.kappa2 * dc * (1 - a/root) / b
}

// byAngle reports whether the ratio follows the angle of the legs.
func (v *visit) byAngle() bool { return v.loss && v.model != Constant }

// legSum2 is the square of the sum of the unit legs: 2 (1 + cos theta).
func legSum2(ub, ua r3.Vector) float64 {
	return ua.Sub(ub).Norm2()
}

// legDiff2 is the square of the difference of the unit legs: 2 (1 - cos theta).
func legDiff2(ub, ua r3.Vector) float64 {
	return ua.Add(ub).Norm2()
}

// wrap is the angle of line on the sheave, radians, 0 for a straight line.
func wrap(ub, ua r3.Vector) float64 {
	return 2 * math.Atan2(math.Sqrt(legSum2(ub, ua)), math.Sqrt(legDiff2(ub, ua)))
}

// ratioFor gives the ratio in use for a hauling ratio.
func (v *visit) ratioFor(base float64) float64 {
	switch {
	case v.equal:
		return 1
	case v.state == Pay:
		return 1 / base
	}
	return base
}

// fixedRatios sets the weights that do not depend on the geometry.
func (s *Solver) fixedRatios() {
	for i := range s.vis {
		v := &s.vis[i]
		b, a := &s.st[v.st], &s.st[v.st+1]
		if b.el != a.el {
			a.w = 1
			continue
		}
		v.rho = v.ratioFor(v.base)
		a.w = b.w * v.rho
	}
}

// wrapRatios sets the weights from the directions in st, ratios going the share
// damp of their way, and gives the largest change of a ratio.
func (s *Solver) wrapRatios(damp float64) (change float64) {
	for i := range s.vis {
		v := &s.vis[i]
		b, a := &s.st[v.st], &s.st[v.st+1]
		if v.byAngle() {
			base := v.haulRatio(b.u, a.u)
			if damp != 1 {
				base = v.base + damp*(base-v.base)
			}
			change = math.Max(change, math.Abs(base-v.base))
			v.base = base
		}
		if b.el != a.el {
			a.w = 1
			continue
		}
		v.rho = v.ratioFor(v.base)
		a.w = b.w * v.rho
	}
	for i := range s.el {
		e := &s.el[i]
		if e.friction && e.comp > 0 {
			s.loadedCompliance(e)
		}
	}
	return change
}

// loadedCompliance is c = sum(w l)/EA, the stretch of the whole line per
// newton at its hauling end.
func (s *Solver) loadedCompliance(e *element) {
	var lw, l float64
	for k := e.s0; k < e.s1; k++ {
		lw += s.st[k].w * s.st[k].l
		l += s.st[k].l
	}
	if l > 0 {
		e.c = e.comp * lw / l
	}
}
