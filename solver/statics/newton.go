package statics

import "math"

const (
	// balanceTol: unbalanced force at a free point, share of the reference
	// tension, at which Newton stops. Quadratic convergence leaves it well below.
	balanceTol = 1e-9
	// nearTol: unbalance, share of the reference tension, at which a stiffness is as
	// good as that of the answer.
	nearTol = 1e-5
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

func (s *Solver) factor(drift float64) bool {
	s.stiffness(drift)
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
	was := math.Inf(1) // what was out of balance when the stiffness was factored
	for it := 0; ; it++ {
		s.geometry(s.eps2)
		if s.varying {
			s.wrapRatios(1)
		}
		if s.tensions() {
			was = math.Inf(1)
		}
		s.balance()
		worst := largest(s.grad)
		if worst <= gtol && s.dualsAgree(ltol) {
			if (s.dropFaint() || was > nearTol*s.tref || s.weakest() <= weakShare*s.tref/s.lref) && !s.factor(drift) {
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
		if !s.factor(drift) {
			return false
		}
		was = worst
		s.aim()
		s.solve(s.delta)
		s.advance(s.cap(s.delta))
	}
}

// aim puts in delta the force that the step has to balance.
func (s *Solver) aim() {
	for i, g := range s.grad {
		s.delta[i] = -g
	}
	for i := range s.el {
		e := &s.el[i]
		if e.given || e.over == 0 {
			continue
		}
		for k := e.s0; k < e.s1; k++ {
			s.pullEnds(s.delta, &s.st[k], e.over)
		}
	}
}

func (s *Solver) dualsAgree(ltol float64) bool {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		if x := e.t + e.over; !(s.reg*math.Abs(x-e.lb) <= ltol) || x < 0 || e.c > 0 && math.Abs(e.over) > balanceTol*s.tref {
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
		e.lb = e.t + e.over + share*dl*e.act
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
