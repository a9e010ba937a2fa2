package statics

import "math"

// dropFaint takes length elements that carry next to nothing out of the
// stiffness: a point they would hold can slide.
func (s *Solver) dropFaint() bool {
	found := false
	for i := range s.el {
		e := &s.el[i]
		if !e.given && e.act > 0 && e.t <= slackShare*s.tref {
			e.act, e.tk = 0, 0
			found = true
		}
	}
	return found
}

// pivot gives the stiffness left at unknown i once those before it are free.
func (s *Solver) pivot(i int) float64 {
	if s.lopsided && !s.lagged {
		return math.Abs(s.lu.a[i*s.lu.n+i])
	}
	return 1 / s.m.inv[i]
}

// weakest is the smallest pivot of the factored stiffness.
func (s *Solver) weakest() float64 {
	least := math.Inf(1)
	for i := 0; i < s.m.n; i++ {
		if p := s.pivot(i); p < least {
			least = p
		}
	}
	return least
}

// findLoose marks free points that can slide or hang: those a force of
// looseShare of the reference tension moves by a mean length. Pivots bound the
// softest direction only up to how it lies to the axes (the cube root in three
// dimensions), so they screen and the compliance decides.
func (s *Solver) findLoose() bool {
	s.loose = grow(s.loose, len(s.free))
	clear(s.loose)
	if len(s.free) == 0 || s.weakest() > weakShare*s.tref/s.lref {
		return false
	}
	limit := s.lref / (looseShare * s.tref)
	found := false
	for i := 0; i < s.m.n; i++ {
		clear(s.rhs)
		s.rhs[i] = 1
		s.solve(s.rhs)
		if !(s.rhs[i] < limit) {
			s.loose[i/3] = true
			found = true
		}
	}
	return found
}

// settleLoose puts points that can slide back to where they are drawn and lets
// the balance move them as little as it needs, so that their place does not
// depend on how the answer was reached.
func (s *Solver) settleLoose() bool {
	s.keep()
	for f, p := range s.free {
		if s.loose[f] {
			s.pos[p] = s.drawn[p]
		}
	}
	for i := range s.el {
		if e := &s.el[i]; !e.given && e.act == 0 {
			e.lb = 0
		}
	}
	if s.newton(warmSteps) {
		s.findLoose()
		return true
	}
	// Soft beyond what steps with changing ratios can do: leave it as found.
	s.recall()
	varying := s.varying
	s.varying = false
	ok := s.newton(warmSteps)
	s.varying = varying
	if ok {
		s.findLoose()
	}
	return ok
}
