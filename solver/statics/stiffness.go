package statics

import "math"

// geometry brings lengths and directions of all stretches up to date.
func (s *Solver) geometry(eps2 float64) {
	pos := s.pos
	for k := range s.st {
		st := &s.st[k]
		a, b := &pos[st.a], &pos[st.b]
		x, y, z := b[0]-a[0], b[1]-a[1], b[2]-a[2]
		l := math.Sqrt(x*x + y*y + z*z + eps2)
		i := 1 / l
		st.l = l
		st.u = [3]float64{x * i, y * i, z * i}
	}
}

// tensions finds the tension of every length element, taking those with a
// multiplier as equalities: t may then be negative, which the step after puts
// right.
func (s *Solver) tensions() {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		l := s.st[e.s0].l
		for k := e.s0 + 1; k < e.s1; k++ {
			l += s.st[k].l
		}
		inv := 1 / (e.c + s.reg)
		gap := l - e.lenM
		x := (s.reg*e.lb + gap) * inv
		switch {
		case e.lb > 0:
			e.t, e.tk, e.act = x, e.lb, inv
		case x > 0:
			e.t, e.tk, e.act = x, x, inv
		default:
			e.t, e.tk, e.act = 0, 0, 0
		}
	}
}

// assemble puts the gradient in grad and the stiffness in m (and lu when the
// rig is lopsided), for the tensions and directions at hand.
func (s *Solver) assemble(drift float64) {
	m := &s.m
	clear(m.a)
	s.factored = false
	for f := range s.load {
		l := &s.load[f]
		i := 3 * f
		s.grad[i] = -l[0]
		s.grad[i+1] = -l[1]
		s.grad[i+2] = -l[2]
		m.a[int(m.off[i])+i] = drift
		m.a[int(m.off[i+1])+i+1] = drift
		m.a[int(m.off[i+2])+i+2] = drift
	}
	for i := range s.el {
		e := &s.el[i]
		t, tk := e.t, e.tk
		if e.given {
			t, tk = e.tN, e.tN
		}
		if e.s1 == e.s0+1 {
			ka := 0.0
			if !e.given {
				ka = e.act
			}
			s.addStretch(&s.st[e.s0], t, tk, ka)
			continue
		}
		for k := e.s0; k < e.s1; k++ {
			st := &s.st[k]
			s.addStretch(st, t*st.w, tk*st.w, 0)
		}
		if e.given || e.act == 0 {
			continue
		}
		s.elementGradients(e)
		if !e.friction || s.lagged {
			s.addOuter(e)
		}
	}
	if s.lopsided && !s.lagged {
		s.lu.from(m)
		for i := range s.el {
			if e := &s.el[i]; e.friction && e.act > 0 {
				s.addOuterLopsided(e)
			}
		}
	}
}

// addStretch adds force t u and stiffness tk/l (I - u u') + ka u u'.
func (s *Solver) addStretch(st *stretch, t, tk, ka float64) {
	fa, fb := int(st.fa), int(st.fb)
	if fa < 0 && fb < 0 {
		return
	}
	kg := tk / st.l
	kd := ka - kg
	ux, uy, uz := st.u[0], st.u[1], st.u[2]
	b := [3][3]float64{
		{kg + kd*ux*ux, kd * ux * uy, kd * ux * uz},
		{kd * ux * uy, kg + kd*uy*uy, kd * uy * uz},
		{kd * ux * uz, kd * uy * uz, kg + kd*uz*uz},
	}
	if fa >= 0 {
		i := 3 * fa
		s.grad[i] -= t * ux
		s.grad[i+1] -= t * uy
		s.grad[i+2] -= t * uz
		s.m.addDiag(i, &b)
	}
	if fb >= 0 {
		i := 3 * fb
		s.grad[i] += t * ux
		s.grad[i+1] += t * uy
		s.grad[i+2] += t * uz
		s.m.addDiag(i, &b)
		if fa >= 0 {
			hi, lo := 3*max(fa, fb), 3*min(fa, fb)
			for r := 0; r < 3; r++ {
				row := s.m.a[int(s.m.off[hi+r])+lo:]
				row = row[:3]
				row[0] -= b[r][0]
				row[1] -= b[r][1]
				row[2] -= b[r][2]
			}
		}
	}
}

func (m *skyline) addDiag(i int, b *[3][3]float64) {
	m.a[int(m.off[i])+i] += b[0][0]
	r := int(m.off[i+1]) + i
	m.a[r] += b[1][0]
	m.a[r+1] += b[1][1]
	r = int(m.off[i+2]) + i
	m.a[r] += b[2][0]
	m.a[r+1] += b[2][1]
	m.a[r+2] += b[2][2]
}

// elementGradients finds, for a length element of several stretches, the
// gradient of its length (eRun) and its force for a tension of one (eForce).
func (s *Solver) elementGradients(e *element) {
	run, force := s.eRun, s.eForce
	clear(run[3*e.n0 : 3*e.n1])
	clear(force[3*e.n0 : 3*e.n1])
	for k := e.s0; k < e.s1; k++ {
		st := &s.st[k]
		for c, u := range st.u {
			if st.na >= 0 {
				run[3*int(st.na)+c] -= u
				force[3*int(st.na)+c] -= u * st.w
			}
			if st.nb >= 0 {
				run[3*int(st.nb)+c] += u
				force[3*int(st.nb)+c] += u * st.w
			}
		}
	}
}

func (s *Solver) addOuter(e *element) {
	for n := int(e.n0); n < int(e.n1); n++ {
		fn := int(s.nodes[n].f)
		for k := int(e.n0); k < int(e.n1); k++ {
			fk := int(s.nodes[k].f)
			if fk > fn {
				continue
			}
			for r := 0; r < 3; r++ {
				g := e.act * s.eForce[3*n+r]
				o := int(s.m.off[3*fn+r]) + 3*fk
				for c := 0; c < 3 && (fk < fn || c <= r); c++ {
					s.m.a[o+c] += g * s.eForce[3*k+c]
				}
			}
		}
	}
}

func (s *Solver) addOuterLopsided(e *element) {
	for n := int(e.n0); n < int(e.n1); n++ {
		fn := int(s.nodes[n].f)
		for k := int(e.n0); k < int(e.n1); k++ {
			fk := int(s.nodes[k].f)
			for r := 0; r < 3; r++ {
				g := e.act * s.eForce[3*n+r]
				row := s.lu.a[(3*fn+r)*s.lu.n+3*fk:]
				for c := 0; c < 3; c++ {
					row[c] += g * s.eRun[3*k+c]
				}
			}
		}
	}
}

// runOf is the change of length of a stretch for moves x of the free points.
func (s *Solver) runOf(st *stretch, x []float64) float64 {
	sum := 0.0
	if st.fb >= 0 {
		i := 3 * int(st.fb)
		sum += st.u[0]*x[i] + st.u[1]*x[i+1] + st.u[2]*x[i+2]
	}
	if st.fa >= 0 {
		i := 3 * int(st.fa)
		sum -= st.u[0]*x[i] + st.u[1]*x[i+1] + st.u[2]*x[i+2]
	}
	return sum
}
