package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

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
	s.vel = s.vectors.grow(s.vel, len(s.pos))
	clear(s.vel)
	for p := range r.Points {
		if r.Points[p].Kind == OnBody {
			i := r.Points[p].Body
			s.vel[p] = r.Bodies[i].rate(s.motions[i], r.Points[p].Pos)
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
			s.vel[p] = s.vel[p].Add(at3(s.delta, f))
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
		a, b := s.vel[st.a], s.vel[st.b]
		st.dl = st.u.Dot(b.Sub(a))
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
			kg := t * st.w / st.l
			along := e.dt*st.w - kg*st.dl
			along += t * st.dw
			g := s.vel[st.b].Sub(s.vel[st.a]).Mul(kg).Add(st.u.Mul(along))
			if f := int(st.fb); f >= 0 {
				put3(s.delta, f, at3(s.delta, f).Sub(g))
			}
			if f := int(st.fa); f >= 0 {
				put3(s.delta, f, at3(s.delta, f).Add(g))
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
			dc := -du.Dot(a.u) - dua.Dot(b.u)
			rate = v.haulRatioRate(b.u, a.u, v.base, dc)
			if v.state == Pay {
				rate = -rate * v.rho * v.rho
			}
		}
		a.dw = b.dw*v.rho + b.w*rate
	}
}

// turnRate is the rate of the direction of a stretch.
func (s *Solver) turnRate(st *stretch) r3.Vector {
	return s.vel[st.b].Sub(s.vel[st.a]).Sub(st.u.Mul(st.dl)).Mul(1 / st.l)
}
