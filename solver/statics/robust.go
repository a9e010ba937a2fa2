package statics

import "math"

const (
	stages     = 60 // continuation stages at most
	innerSteps = 40 // Newton steps in one stage
	armijo     = 1e-4
	// roundShare of the potential is allowed as rise in the line search: the
	// potential is some 1e6 J and its rounding must not stop the search.
	roundShare = 1e-13
	// farOut: a point this many rig sizes from its drawn place has run away.
	farOut = 10.0
)

// equilibrium finds the free points for the weights and splits at hand.
func (s *Solver) equilibrium(cold bool) Status {
	s.factored = false
	if cold {
		s.coldStart()
		if s.newton(coldSteps) {
			return Converged
		}
	} else if s.newton(warmSteps) {
		return Converged
	}
	if s.robust() {
		return Converged
	}
	return NotConverged
}

// robust is the damped way round for rigs Newton alone does not reach:
// stages of a smoothed, regularised convex problem, each solved with a line
// search, sharpened until Newton holds.
func (s *Solver) robust() bool {
	for _, p := range s.free {
		s.pos[p] = s.drawn[p]
	}
	for i := range s.el {
		s.el[i].lb = 0
		s.el[i].lam = s.el[i].lenM
	}
	eps, reg := s.eps2, s.reg
	defer func() { s.eps2, s.reg, s.lagged = eps, reg, false }()
	epsM := 0.2 * s.lref
	share := 0.3
	for stage := 0; stage < stages; stage++ {
		s.lagged = true
		s.eps2 = sq(epsM)
		s.reg = share * s.lref / s.tref
		s.geometry(s.eps2)
		if s.varying {
			s.wrapRatios(0.7)
		}
		s.descend(1e-2*s.tref*math.Max(share, 1e-3), stage%2 == 0)
		s.raiseDuals()
		const shrink = 0.1
		epsM = math.Max(epsM*shrink, math.Sqrt(eps))
		share = math.Max(share*shrink, regShare)
		if stage < 2 {
			continue
		}
		s.keep()
		s.eps2, s.reg, s.lagged = eps, reg, false
		if s.newton(coldSteps) {
			return true
		}
		s.recall()
		if s.varying && (stage == 3 || stage == 9 || stage == 27) {
			if s.laggedRatios() {
				return true
			}
			s.recall()
		}
	}
	return false
}

const (
	// ratioTol: change of a ratio from one pass to the next at which lagged
	// ratios are taken as found.
	ratioTol = 1e-8
	// ratioGood: change after the last pass at which they still count as
	// found. A loss is not known to a thousand times this.
	ratioGood   = 1e-6
	ratioPasses = 60
)

// laggedRatios solves with the ratios held and brings them up to date in
// between, half way at a time: for soft rigs, a block hanging in an all but
// straight line, where bringing them up at every step does not converge.
func (s *Solver) laggedRatios() bool {
	change := 1.0
	for pass := 0; pass < ratioPasses; pass++ {
		s.geometry(s.eps2)
		damp := 0.5
		if pass == 0 {
			damp = 1
		}
		change = s.wrapRatios(damp)
		s.varying = false
		ok := s.newton(warmSteps)
		s.varying = true
		if !ok {
			return false
		}
		if change < ratioTol {
			return true
		}
	}
	return change < ratioGood
}

func (s *Solver) keep() {
	s.save = grow(s.save, len(s.free))
	for f, p := range s.free {
		s.save[f] = s.pos[p]
	}
	s.saveLb = grow(s.saveLb, len(s.el))
	for i := range s.el {
		s.saveLb[i] = s.el[i].lb
	}
	s.baseWas = grow(s.baseWas, len(s.vis))
	for i := range s.vis {
		s.baseWas[i] = s.vis[i].base
	}
}

func (s *Solver) recall() {
	for f, p := range s.free {
		s.pos[p] = s.save[f]
	}
	for i := range s.el {
		s.el[i].lb = s.saveLb[i]
	}
	for i := range s.vis {
		s.vis[i].base = s.baseWas[i]
	}
	s.fixedRatios()
}

// convexTensions is the force of the convex form: never negative, on weighted
// lengths. With stiff, elements that just went slack keep their stiffness, so
// that the step does not fly off.
func (s *Solver) convexTensions(stiff bool) {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		inv := 1 / (e.c + s.reg)
		x := (s.reg*e.lb + s.weighted(e) - e.lam) * inv
		e.t, e.tk, e.act = 0, 0, 0
		if x > 0 {
			e.t, e.tk, e.act = x, x, inv
		} else if stiff && e.lb > 0 {
			e.act = inv
		}
	}
}

func (s *Solver) weighted(e *element) float64 {
	l := 0.0
	for k := e.s0; k < e.s1; k++ {
		l += s.st[k].w * s.st[k].l
	}
	return l
}

// potential is the convex function whose minimum is the balance (README
// section 2), regularised; geometry must be up to date.
func (s *Solver) potential() float64 {
	v := 0.0
	for i := range s.el {
		e := &s.el[i]
		l := s.weighted(e)
		if e.given {
			v += e.tN * l
			continue
		}
		if x := s.reg*e.lb + l - e.lam; x > 0 {
			v += x * x / (2 * (e.c + s.reg))
		}
	}
	for f, p := range s.free {
		v -= s.load[f].Dot(s.pos[p])
	}
	return v
}

// descend minimises the convex form by Newton with a line search.
func (s *Solver) descend(tol float64, stiff bool) bool {
	drift := driftShare * s.tref / s.lref
	for it := 0; it < innerSteps; it++ {
		s.geometry(s.eps2)
		s.convexTensions(stiff && it%2 == 0)
		s.assemble(drift)
		worst := largest(s.grad)
		if worst <= tol {
			return true
		}
		s.its++
		if !finite(worst) {
			return false
		}
		if !s.m.factor() {
			drift *= 1e3
			continue
		}
		for i, g := range s.grad {
			s.delta[i] = -g
		}
		s.m.solve(s.delta)
		slope := 0.0
		for i, g := range s.grad {
			slope += g * s.delta[i]
		}
		if !(slope < 0) {
			drift *= 1e3
			continue
		}
		if !s.lineSearch(slope) {
			return false
		}
	}
	return false
}

// lineSearch moves the free points by the largest of the halved steps along
// delta that lowers the potential enough, and reports whether there is one.
func (s *Solver) lineSearch(slope float64) bool {
	v0 := s.potential()
	s.from = grow(s.from, len(s.free))
	for f, p := range s.free {
		s.from[f] = s.pos[p]
	}
	share := s.cap(s.delta)
	for try := 0; try < 40; try++ {
		for f, p := range s.free {
			s.pos[p] = s.from[f].Add(at3(s.delta, f).Mul(share))
		}
		s.geometry(s.eps2)
		if v := s.potential(); v <= v0+armijo*share*slope+roundShare*math.Abs(v0) {
			return true
		}
		share /= 2
	}
	for f, p := range s.free {
		s.pos[p] = s.from[f]
	}
	return false
}

// raiseDuals takes the forces as multipliers and moves the weighted limits so
// that the true lengths come out.
func (s *Solver) raiseDuals() {
	s.geometry(s.eps2)
	s.convexTensions(false)
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		e.lb = e.t
		if e.friction {
			l := 0.0
			for k := e.s0; k < e.s1; k++ {
				l += s.st[k].l
			}
			e.lam = s.weighted(e) - (l - e.lenM - e.c*e.t) - e.c*e.t
			if e.t == 0 {
				e.lam = s.weighted(e) - (l - e.lenM)
			}
		}
	}
}
