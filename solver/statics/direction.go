package statics

import "math"

const (
	// runTol, metres over the sheave per metre of motion: less is standing.
	runTol = 1e-7
	// coneTol, share by which the ratio of a stuck sheave may pass its limit.
	coneTol = 1e-9
	// maxReleases of one sheave before its way is called unsettled.
	maxReleases = 3
)

// settle finds the equilibrium and the way every sheave turns: all haul, turn
// the worst violator, hold what turns twice, let go what holds too much
// (README section 6).
func (s *Solver) settle(r *Rig, out *Result, cold bool) Status {
	if st := s.equilibrium(cold); st != Converged {
		if !cold && s.warmed {
			// A previous answer too far off: start again as drawn.
			s.warmed = false
			return s.settle(r, out, true)
		}
		return s.diagnose(out)
	}
	if s.findLoose() && !s.settleLoose() {
		return NotConverged
	}
	s.remember()
	if !s.moving {
		for i := range s.vis {
			v := &s.vis[i]
			v.undetermined = v.loss
		}
		s.ratesKnown = false
		return Converged
	}
	limit := 8 + 6*len(s.vis)
	for pass := 0; ; pass++ {
		known := s.rates(r)
		for i := range s.vis {
			s.vis[i].run = s.tailRun(&s.vis[i])
		}
		v := s.violator(known)
		if v == nil {
			break
		}
		if pass >= limit {
			s.giveUp(v)
		}
		s.hold()
		s.layElements(r)
		s.envelope()
		s.splitDuals()
		if st := s.equilibrium(false); st != Converged {
			return s.diagnose(out)
		}
		if s.findLoose() && !s.settleLoose() {
			return NotConverged
		}
	}
	for i := range s.vis {
		v := &s.vis[i]
		if v.loss && (v.equal || !s.ratesKnown || s.slides(v) || (v.state != Stick && math.Abs(v.run) <= runTol)) {
			v.undetermined = true
		}
	}
	return Converged
}

// slides reports whether the sheave's point can slide along its line: the line
// may then run over it or carry it.
func (s *Solver) slides(v *visit) bool {
	f := s.fi[v.point]
	return f >= 0 && s.loose[f]
}

// tailRun is metres of line over the sheave towards the hauling end for a
// metre of motion.
func (s *Solver) tailRun(v *visit) float64 {
	run := 0.0
	for k := v.st + 1; k < s.lineSt[v.line+1]; k++ {
		run -= s.st[k].dl
	}
	return run
}

// violator finds the sheave whose state contradicts the motion most, changes
// it and returns it; nil when all agree.
func (s *Solver) violator(known bool) *visit {
	var worst *visit
	most := runTol
	if known {
		for i := range s.vis {
			v := &s.vis[i]
			if !v.loss || v.equal || v.unsettled || v.state == Stick || s.slides(v) {
				continue
			}
			x := v.run
			if v.state == Haul {
				x = -x
			}
			if x > most {
				worst, most = v, x
			}
		}
	}
	if worst != nil {
		worst.flips++
		switch {
		case worst.flips >= 2:
			worst.state = Stick
		case worst.state == Haul:
			worst.state = Pay
		default:
			worst.state = Haul
		}
		return worst
	}
	return s.overheld()
}

// overheld finds the stuck sheave that would need most friction beyond what it
// has, and lets it go the way it is pulled.
func (s *Solver) overheld() *visit {
	var worst *visit
	most := coneTol
	var to SheaveMotion
	for i := range s.vis {
		v := &s.vis[i]
		if v.state != Stick || v.equal {
			continue
		}
		before, after := s.tensionOf(v.st), s.tensionOf(v.st+1)
		if x := (before*v.base - after) / s.tref; x > most {
			worst, most, to = v, x, Haul
		}
		if x := (after*v.base - before) / s.tref; x > most {
			worst, most, to = v, x, Pay
		}
	}
	if worst == nil {
		return nil
	}
	worst.releases++
	worst.state = to
	worst.flips = 1
	if worst.releases > maxReleases {
		s.giveUp(worst)
	}
	return worst
}

// giveUp takes the sheave as hauling and says that this is not settled.
func (s *Solver) giveUp(v *visit) {
	v.state = Haul
	v.unsettled = true
	v.undetermined = true
}

func (s *Solver) tensionOf(k int32) float64 {
	e := &s.el[s.st[k].el]
	t := e.t
	if e.given {
		t = e.tN
	}
	return t * s.st[k].w
}

// splitDuals gives new elements the tension their stretches had, so that a
// sheave that sticks or is let go starts near the answer.
func (s *Solver) splitDuals() {
	for i := range s.el {
		e := &s.el[i]
		if !e.given {
			e.lb = s.held[e.s0]
		}
		if !e.given && e.lb == 0 && e.line >= 0 && e.s0 != s.lineSt[e.line] {
			e.lb = s.tref * 1e-3
		}
	}
}

// hold notes the tension of every stretch before the elements are laid anew.
func (s *Solver) hold() {
	s.held = grow(s.held, len(s.st))
	for k := range s.st {
		s.held[k] = math.Max(0, s.tensionOf(int32(k)))
	}
}
