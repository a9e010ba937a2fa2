package statics

import "math"

const (
	// balanceTol: unbalanced force at a free point, share of the reference
	// tension, at which Newton stops. Quadratic convergence leaves it well below.
	balanceTol = 1e-9
	// gapTol: length error of taut elements, share of the mean length.
	gapTol = 1e-10
	// stepCap: longest move of a point in one step, mean lengths.
	stepCap   = 2.0
	coldSteps = 14
	warmSteps = 25
	// slowSteps is added when ratios follow the wrap: they are brought up to
	// date at each step but left out of its slope, which converges by a factor
	// of ten to fifty a step.
	slowSteps = 12
	// weakShare of Tref/lref: a stiffness below it gets extraSteps more.
	weakShare  = 1e-2
	extraSteps = 3
)

func (s *Solver) factor() bool {
	if s.lopsided && !s.lagged {
		s.factored = s.lu.factor()
	} else {
		s.factored = s.m.factor()
	}
	return s.factored
}

func (s *Solver) solve(b []float64) {
	if s.lopsided && !s.lagged {
		s.lu.solve(b)
	} else {
		s.m.solve(b)
	}
}

// newton is the primal-dual iteration from the state at hand. On success the
// stiffness at the answer is factored. Where it is weak a force within
// tolerance may still be a long way: a few steps more are taken.
func (s *Solver) newton(steps int) bool {
	if s.varying {
		steps += slowSteps
	}
	drift := driftShare * s.tref / s.lref
	gtol := balanceTol * s.tref
	ltol := gapTol * s.lref
	extra := 0
	for it := 0; ; it++ {
		s.geometry(s.eps2)
		if s.varying {
			s.wrapRatios(1)
		}
		s.tensions()
		s.assemble(drift)
		worst := largest(s.grad)
		if worst <= gtol && s.dualsAgree(ltol) {
			if s.dropFaint() {
				s.assemble(drift)
			}
			if !s.factor() {
				return false
			}
			if extra == extraSteps || s.weakest() > weakShare*s.tref/s.lref || s.findLoose() {
				return true
			}
			extra++
		}
		if it >= steps+extra || !finite(worst) {
			return false
		}
		s.its++
		if !s.factored && !s.factor() {
			return false
		}
		for i, g := range s.grad {
			s.delta[i] = -g
		}
		s.solve(s.delta)
		s.advance(s.cap(s.delta))
	}
}

func (s *Solver) dualsAgree(ltol float64) bool {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		if !(s.reg*math.Abs(e.t-e.lb) <= ltol) || e.t < 0 {
			return false
		}
	}
	return true
}

// largest is the largest size in x, NaN if there is one.
func largest(x []float64) float64 {
	worst, sum := 0.0, 0.0
	for _, v := range x {
		v = math.Abs(v)
		sum += v
		if v > worst {
			worst = v
		}
	}
	if sum != sum {
		return sum
	}
	return worst
}

// cap gives the share of a step to take so that no point goes too far.
func (s *Solver) cap(d []float64) float64 {
	limit := stepCap * s.lref
	if far := largest(d); far > limit {
		return limit / far
	}
	return 1
}

// advance moves the free points by share of delta and the multipliers by the
// linearised change of tension: taken from the new places, the remainder of
// the linearisation over the regularisation would swamp it.
func (s *Solver) advance(share float64) {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		if e.act == 0 {
			e.lb = 0
			continue
		}
		dl := 0.0
		for k := e.s0; k < e.s1; k++ {
			dl += s.runOf(&s.st[k], s.delta)
		}
		e.lb = e.t + share*dl*e.act
		if e.lb < 0 {
			e.lb = 0
		}
	}
	for f, p := range s.free {
		s.pos[p] = s.pos[p].Add(at3(s.delta, f).Mul(share))
	}
	s.swingBack()
}

// swingBack puts what hangs on one sling at its length again: a block goes round
// the sling's other end, and a step along the tangent leads off its circle.
func (s *Solver) swingBack() {
	for i := range s.swing {
		w := &s.swing[i]
		e := &s.el[w.el]
		arm := s.pos[w.p].Sub(s.pos[w.a])
		if n := arm.Norm(); e.lb > 0 && n > 0 {
			s.pos[w.p] = s.pos[w.a].Add(arm.Mul((e.lenM + e.c*e.lb) / n))
		}
	}
}
