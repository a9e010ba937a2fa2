package statics

import "math"

// rates finds how every length and tension changes for a metre of motion of
// the bodies, from the stiffness at the answer. The linear system is solved by
// refinement: the factor is regularised and leaves out the change of ratios
// with wrap, the defect is exact. Where a block hangs so softly that this does
// not converge, the ratios are taken as not changing.
func (s *Solver) rates(r *Rig) bool {
	s.ratesKnown = s.factored && (s.refineRates(r, s.varying) || s.varying && s.refineRates(r, false))
	return s.ratesKnown
}

func (s *Solver) refineRates(r *Rig, turning bool) bool {
	for k := range s.st {
		s.st[k].dw = 0
	}
	s.vel = grow(s.vel, len(s.pos))
	clear(s.vel)
	for p := range r.Points {
		if r.Points[p].Kind == OnBody {
			s.vel[p] = s.motions[r.Points[p].Body]
		}
	}
	for i := range s.el {
		s.el[i].dt = 0
	}
	const steps = 40
	ftol := 1e-9 * s.tref / s.lref
	const ltol = 1e-9
	best := math.Inf(1)
	for it := 0; it < steps; it++ {
		worst := s.rateDefect(ltol, turning)
		if w := largest(s.delta) / ftol; !(w <= worst) {
			worst = w
		}
		if !finite(worst) {
			return false
		}
		if worst <= 1 {
			return true
		}
		best = worst
		s.solve(s.delta)
		for i := range s.el {
			e := &s.el[i]
			if e.given || e.act == 0 {
				continue
			}
			for k := e.s0; k < e.s1; k++ {
				e.dt += e.act * s.runOf(&s.st[k], s.delta)
			}
		}
		for f, p := range s.free {
			for c := 0; c < 3; c++ {
				s.vel[p][c] += s.delta[3*f+c]
			}
		}
	}
	const good = 1e4 // 1e-5 of the scale will do
	return best <= good
}

// rateDefect brings dl, dw and dt up to date for the velocities at hand and
// puts minus the rate of unbalance in delta. It returns the worst defect of
// length over tol.
func (s *Solver) rateDefect(tol float64, turning bool) float64 {
	for k := range s.st {
		st := &s.st[k]
		a, b := &s.vel[st.a], &s.vel[st.b]
		st.dl = st.u[0]*(b[0]-a[0]) + st.u[1]*(b[1]-a[1]) + st.u[2]*(b[2]-a[2])
	}
	if turning {
		s.ratioRates()
	}
	worst := 0.0
	clear(s.delta)
	for i := range s.el {
		e := &s.el[i]
		t := e.t
		if e.given {
			t = e.tN
		} else if e.act == 0 {
			t = 0 // slack, or so faint that the stiffness leaves it out
		} else {
			h := -e.c * e.dt
			for k := e.s0; k < e.s1; k++ {
				h += s.st[k].dl
			}
			e.dt += h * e.act
			if h = math.Abs(h) / tol; !(h <= worst) {
				worst = h
			}
		}
		for k := e.s0; k < e.s1; k++ {
			st := &s.st[k]
			if st.fa < 0 && st.fb < 0 {
				continue
			}
			a, b := &s.vel[st.a], &s.vel[st.b]
			kg := t * st.w / st.l
			along := e.dt*st.w - kg*st.dl
			along += t * st.dw
			for c := 0; c < 3; c++ {
				g := kg*(b[c]-a[c]) + along*st.u[c]
				if st.fb >= 0 {
					s.delta[3*int(st.fb)+c] -= g
				}
				if st.fa >= 0 {
					s.delta[3*int(st.fa)+c] += g
				}
			}
		}
	}
	return worst
}

// ratioRates finds the rates of the weights from those of the directions.
func (s *Solver) ratioRates() {
	for i := range s.vis {
		v := &s.vis[i]
		b, a := &s.st[v.st], &s.st[v.st+1]
		if b.el != a.el {
			a.dw = 0
			continue
		}
		if v.at == 0 {
			b.dw = 0
		}
		rate := 0.0
		if v.byAngle() && !v.equal && !s.slides(v) {
			du := s.turnRate(b)
			dua := s.turnRate(a)
			dc := -dot(&du, &a.u) - dot(&dua, &b.u)
			rate = v.haulRatioRate(&b.u, &a.u, v.base, dc)
			if v.state == Pay {
				rate = -rate * v.rho * v.rho
			}
		}
		a.dw = b.dw*v.rho + b.w*rate
	}
}

// turnRate is the rate of the direction of a stretch.
func (s *Solver) turnRate(st *stretch) [3]float64 {
	a, b := &s.vel[st.a], &s.vel[st.b]
	var du [3]float64
	for c := range du {
		du[c] = (b[c] - a[c] - st.u[c]*st.dl) / st.l
	}
	return du
}
