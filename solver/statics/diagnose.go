package statics

import "math"

// diagnose says why no equilibrium was found and flags what is at fault.
func (s *Solver) diagnose(out *Result) Status {
	s.geometry(0)
	if s.touching(out) {
		return TwoBlocked
	}
	if s.ranAway(out) {
		return Runaway
	}
	if s.tooShort(out) {
		return Infeasible
	}
	return NotConverged
}

// minStretchM, metres: the points of a shorter stretch are two blocks touching.
// No block is shorter. (common practice)
const minStretchM = 1e-3

// touching flags stretches of lines shorter than a block; geometry must be up
// to date.
func (s *Solver) touching(out *Result) bool {
	found := false
	for k := int32(0); k < s.lineSt[len(s.lineSt)-1]; k++ {
		if st := &s.st[k]; st.l < minStretchM {
			out.flag(BlocksTouch, int(st.a), int(st.b), 0)
			found = true
		}
	}
	return found
}

func (s *Solver) ranAway(out *Result) bool {
	size := s.lref
	for p := range s.drawn {
		size = math.Max(size, s.drawn[p].Norm())
	}
	found := false
	for _, p := range s.free {
		if !(s.pos[p].Distance(s.drawn[p]) <= farOut*size) {
			out.flag(RunawayPoint, int(p), 0, 0)
			found = true
		}
	}
	return found
}

// tooShort looks for the places at which the lengths without stretch are
// exceeded least, in the sense of squares: a convex problem whose answer is a
// proof. What is still exceeded there is too short.
func (s *Solver) tooShort(out *Result) bool {
	const missing = 1e-6 // share of the mean length
	for _, p := range s.free {
		s.pos[p] = s.drawn[p]
	}
	for k := range s.st {
		s.st[k].w = 1
	}
	clear(s.load)
	for i := range s.el {
		e := &s.el[i]
		e.lb, e.lam, e.friction = 0, e.lenM, false
		if e.given || e.comp > 0 {
			e.given, e.tN = true, 0
			continue
		}
		e.c = s.lref / s.tref
	}
	s.lopsided = false
	reg := s.reg
	s.reg = 0
	solved := false
	for try := 0; try < 5 && !solved; try++ {
		solved = s.descend(1e-9*s.tref, false)
	}
	s.reg = reg
	s.geometry(s.eps2)
	found := false
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		gap := s.weighted(e) - e.lenM
		if gap < missing*s.lref {
			continue
		}
		found = true
		if e.line >= 0 {
			out.flag(ShortLine, int(e.line), 0, gap)
		} else {
			out.flag(ShortSling, int(e.sling), 0, gap)
		}
	}
	if !found || !solved {
		if !solved {
			out.Flags = out.Flags[:0]
		}
		return found && solved
	}
	return true
}
