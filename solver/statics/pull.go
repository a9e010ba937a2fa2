package statics

import "math"

const (
	// pullTol: share of the resistance to which RequiredPull meets it.
	pullTol = 1e-10
	// pullTries bounds each of the two parts of the search for the scale.
	pullTries = 80
	// noPullShare: pull along the motion per newton of drum tension below
	// which a rig does not pull.
	noPullShare = 1e-6
)

// RequiredPull finds the factor on the drum tensions, Steady drums left alone,
// at which the pull on the body along its motion is resistanceN, and the whole
// answer at that factor (Result.Scale). Rigs without stretch, loads and steady
// drums scale; others are searched in a bracket with warm solves. NoPull when
// the rig does not pull the body along its motion, or no bracket is found.
func (s *Solver) RequiredPull(r *Rig, body int, resistanceN float64, out *Result) Status {
	s.scale = 1
	s.its = 0
	if body < 0 || body >= len(r.Bodies) || !(resistanceN > 0) || !finite(resistanceN) {
		out.Flags = out.Flags[:0]
		out.flag(Fault, body, 0, 0)
		return s.withhold(r, out, BadInput)
	}
	start := 1.0
	st := s.at(r, out, start, false)
	for _, k := range [...]float64{10, 0.1, 100, 0.01, 1000, 0.001} {
		// A load may run away or blocks meet at the tension given and not at
		// the one looked for.
		if st != Runaway && st != TwoBlocked && st != NotConverged || s.homogeneous(r) {
			break
		}
		start = k
		st = s.at(r, out, start, false)
	}
	if !st.HasForces() {
		return st
	}
	if out.Bodies[body].PullN != out.Bodies[body].PullN {
		return s.noPull(r, out)
	}
	if s.homogeneous(r) {
		if out.Bodies[body].PullN < noPullShare*s.tref {
			return s.noPull(r, out)
		}
		k := resistanceN / out.Bodies[body].PullN
		s.rescale(r, k)
		return s.finish(r, out, Converged)
	}
	return s.search(r, body, resistanceN, start, out)
}

func (s *Solver) noPull(r *Rig, out *Result) Status {
	out.Flags = out.Flags[:0]
	return s.withhold(r, out, NoPull)
}

// at solves with the drums at a factor.
func (s *Solver) at(r *Rig, out *Result, scale float64, warm bool) Status {
	s.scale = scale
	if st := s.begin(r, out, warm); st != NotComputed {
		return s.withhold(r, out, st)
	}
	return s.finish(r, out, s.settle(r, out, !warm || !s.warmed))
}

// homogeneous reports whether all forces go with the drum tensions.
func (s *Solver) homogeneous(r *Rig) bool {
	for f := range s.load {
		if s.load[f] != ([3]float64{}) {
			return false
		}
	}
	for i := range s.el {
		if !s.el[i].given && s.el[i].comp > 0 {
			return false
		}
	}
	for i := range r.Lines {
		if r.Lines[i].Drum && r.Lines[i].Steady && r.Lines[i].TensionN > 0 {
			return false
		}
	}
	return true
}

// rescale multiplies all tensions, the places staying as they are.
func (s *Solver) rescale(r *Rig, k float64) {
	s.scale *= k
	s.tref *= k
	s.reg /= k
	for i := range s.el {
		e := &s.el[i]
		e.tN *= k
		e.lb *= k
		e.t *= k
		e.tk *= k
		e.dt *= k
		e.act *= k
	}
	for i := range s.prevLb {
		s.prevLb[i] *= k
	}
}

// search brackets the factor and closes the bracket (regula falsi with the
// Illinois change), each step a warm solve.
func (s *Solver) search(r *Rig, body int, want, start float64, out *Result) Status {
	miss := func(scale float64) (float64, Status) {
		st := s.at(r, out, scale, true)
		return out.Bodies[body].PullN - want, st
	}
	const low, high = 1e-9, 1e9
	const near = 1e-7 // share within which a root is one of rounding, not a jump where a sheave turns
	x0, f0 := start, out.Bodies[body].PullN-want
	if f0 == 0 {
		return out.Status
	}
	x1, f1 := x0, f0
	step := 2.0
	if p := f0 + want; p > 0 && want/p > 1e-3 && want/p < 1e3 {
		step = want / p
		step *= step // overshoot a little: brackets at once when nearly linear
		if f0 > 0 {
			step = math.Max(step, 0.25)
			step = 1 / step
		}
		step = math.Min(math.Max(step, 1.05), 4)
	}
	limit := nan() // factor at which there is no equilibrium
	for try := 0; (f0 > 0) == (f1 > 0); try++ {
		x0, f0 = x1, f1
		x := x1 * step
		if f1 > 0 {
			x = x1 / step
		}
		if limit == limit && (x-limit)*(x1-limit) <= 0 {
			x = (x1 + limit) / 2
		}
		if try > pullTries || x < low || x > high {
			return s.noPull(r, out)
		}
		f, st := miss(x)
		if !st.HasForces() {
			limit = x
			if math.Abs(x-x1) <= near*x {
				return st
			}
			continue
		}
		step = math.Min(step*1.5, 4)
		if x1, f1 = x, f; f1 == 0 {
			return st
		}
	}
	side := 0
	for try := 0; try < pullTries; try++ {
		x := (x0*f1 - x1*f0) / (f1 - f0)
		if !(x > math.Min(x0, x1) && x < math.Max(x0, x1)) {
			x = (x0 + x1) / 2
		}
		f, st := miss(x)
		if !st.HasForces() {
			return st
		}
		if math.Abs(f) <= pullTol*want {
			return st
		}
		if math.Abs(x1-x0) <= 1e-13*x {
			if math.Abs(f) <= near*want {
				return st
			}
			break
		}
		if (f > 0) == (f1 > 0) {
			x1, f1 = x, f
			if side == 1 {
				f0 /= 2
			}
			side = 1
		} else {
			x0, f0 = x, f
			if side == -1 {
				f1 /= 2
			}
			side = -1
		}
	}
	return s.noPull(r, out)
}
