package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

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
// the rig does not pull the body along its motion, or no bracket is found. Of a
// solver that keeps one that scales is only scaled when it is asked for again.
func (s *Solver) RequiredPull(r *Rig, body int, resistanceN float64, out *Result) Status {
	s.scale = 1
	s.its = 0
	if body < 0 || body >= len(r.Bodies) || !(resistanceN > 0) || !finite(resistanceN) {
		out.Flags = out.Flags[:0]
		out.flag(Fault, body, 0, 0)
		return s.withhold(r, out, BadInput)
	}
	if s.kept != nil && s.again(r, out) {
		return s.scaled(r, s.kept.pulls[body], resistanceN, out)
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
	pullN := out.Bodies[body].PullN
	if pullN != pullN {
		return s.noPull(r, out)
	}
	if s.homogeneous(r) {
		if s.kept != nil && start == 1 {
			s.store(r, out)
		}
		return s.scaled(r, pullN, resistanceN, out)
	}
	return s.search(r, body, resistanceN, start, out)
}

// scaled is the answer at the factor that gives a resistance for what is pulled.
func (s *Solver) scaled(r *Rig, pullN, resistanceN float64, out *Result) Status {
	if pullN < noPullShare*s.tref {
		return s.noPull(r, out)
	}
	s.rescale(r, resistanceN/pullN)
	return s.finish(r, out, Converged)
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
		if s.load[f] != (r3.Vector{}) {
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

// near: share within which a root is one of rounding, not a jump where a sheave
// turns.
const near = 1e-7

// pullSearch looks for the factor on the drums at which a body is pulled with a
// given force. Between two factors, x0 and x1, what the pull misses is f0 and f1.
type pullSearch struct {
	s              *Solver
	r              *Rig
	out            *Result
	body           int
	want           float64
	x0, f0, x1, f1 float64
}

// miss is the pull too much at a factor.
func (p *pullSearch) miss(scale float64) (float64, Status) {
	st := p.s.at(p.r, p.out, scale, true)
	return p.out.Bodies[p.body].PullN - p.want, st
}

// search brackets the factor and closes the bracket, each step a warm solve.
func (s *Solver) search(r *Rig, body int, want, start float64, out *Result) Status {
	p := pullSearch{s: s, r: r, out: out, body: body, want: want, x0: start, f0: out.Bodies[body].PullN - want}
	p.x1, p.f1 = p.x0, p.f0
	if p.f0 == 0 {
		return out.Status
	}
	if st, done := p.bracket(); done {
		return st
	}
	return p.close()
}

// bracket moves x1 until what is missed changes its sign; done: the answer is
// found, or there is none.
func (p *pullSearch) bracket() (st Status, done bool) {
	const low, high = 1e-9, 1e9
	step := p.firstStep()
	limit := nan() // factor at which there is no equilibrium
	for try := 0; (p.f0 > 0) == (p.f1 > 0); try++ {
		p.x0, p.f0 = p.x1, p.f1
		x := p.x1 * step
		if p.f1 > 0 {
			x = p.x1 / step
		}
		if limit == limit && (x-limit)*(p.x1-limit) <= 0 {
			x = (p.x1 + limit) / 2
		}
		if try > pullTries || x < low || x > high {
			return p.s.noPull(p.r, p.out), true
		}
		f, st := p.miss(x)
		if !st.HasForces() {
			limit = x
			if math.Abs(x-p.x1) <= near*x {
				return st, true
			}
			continue
		}
		step = math.Min(step*1.5, 4)
		if p.x1, p.f1 = x, f; f == 0 {
			return st, true
		}
	}
	return NotComputed, false
}

// firstStep overshoots a little, which brackets at once when nearly linear.
func (p *pullSearch) firstStep() float64 {
	step := 2.0
	if pull := p.f0 + p.want; pull > 0 && p.want/pull > 1e-3 && p.want/pull < 1e3 {
		step = p.want / pull
		step *= step
		if p.f0 > 0 {
			step = 1 / math.Max(step, 0.25)
		}
		step = math.Min(math.Max(step, 1.05), 4)
	}
	return step
}

// close narrows the bracket by false position with the Illinois change.
func (p *pullSearch) close() Status {
	side := 0
	for try := 0; try < pullTries; try++ {
		x := (p.x0*p.f1 - p.x1*p.f0) / (p.f1 - p.f0)
		if !(x > math.Min(p.x0, p.x1) && x < math.Max(p.x0, p.x1)) {
			x = (p.x0 + p.x1) / 2
		}
		f, st := p.miss(x)
		if !st.HasForces() || math.Abs(f) <= pullTol*p.want {
			return st
		}
		if math.Abs(p.x1-p.x0) <= 1e-13*x {
			if math.Abs(f) <= near*p.want {
				return st
			}
			break
		}
		if (f > 0) == (p.f1 > 0) {
			p.x1, p.f1 = x, f
			if side == 1 {
				p.f0 /= 2
			}
			side = 1
		} else {
			p.x0, p.f0 = x, f
			if side == -1 {
				p.f1 /= 2
			}
			side = -1
		}
	}
	return p.s.noPull(p.r, p.out)
}
