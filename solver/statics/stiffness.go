package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

// geometry brings lengths and directions of all stretches up to date.
func (s *Solver) geometry(eps2 float64) {
	pos := s.pos
	for k := range s.st {
		st := &s.st[k]
		d := pos[st.b].Sub(pos[st.a])
		st.l = math.Sqrt(d.Norm2() + eps2)
		st.u = d.Mul(1 / st.l)
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
		put3(s.grad, f, s.load[f].Mul(-1))
		i := 3 * f
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
	u := st.u
	b := block{kg + kd*u.X*u.X, kd * u.X * u.Y, kd * u.X * u.Z, kg + kd*u.Y*u.Y, kd * u.Y * u.Z, kg + kd*u.Z*u.Z}
	f := u.Mul(t)
	if fa >= 0 {
		put3(s.grad, fa, at3(s.grad, fa).Sub(f))
		s.m.addDiag(3*fa, &b)
	}
	if fb >= 0 {
		put3(s.grad, fb, at3(s.grad, fb).Add(f))
		s.m.addDiag(3*fb, &b)
		if fa >= 0 {
			s.m.subCoupling(3*max(fa, fb), 3*min(fa, fb), &b)
		}
	}
}

// block is a symmetric matrix of three rows.
type block struct{ xx, xy, xz, yy, yz, zz float64 }

// addDiag adds b to the rows and columns from i on.
func (m *skyline) addDiag(i int, b *block) {
	m.a[int(m.off[i])+i] += b.xx
	r := int(m.off[i+1]) + i
	m.a[r] += b.xy
	m.a[r+1] += b.yy
	r = int(m.off[i+2]) + i
	m.a[r] += b.xz
	m.a[r+1] += b.yz
	m.a[r+2] += b.zz
}

// subCoupling takes b from the rows from hi and the columns from lo on.
func (m *skyline) subCoupling(hi, lo int, b *block) {
	row := m.a[int(m.off[hi])+lo:][:3]
	row[0] -= b.xx
	row[1] -= b.xy
	row[2] -= b.xz
	row = m.a[int(m.off[hi+1])+lo:][:3]
	row[0] -= b.xy
	row[1] -= b.yy
	row[2] -= b.yz
	row = m.a[int(m.off[hi+2])+lo:][:3]
	row[0] -= b.xz
	row[1] -= b.yz
	row[2] -= b.zz
}

// elementGradients finds, for a length element of several stretches, the
// gradient of its length (eRun) and its force for a tension of one (eForce).
func (s *Solver) elementGradients(e *element) {
	run, force := s.eRun, s.eForce
	clear(run[e.n0:e.n1])
	clear(force[e.n0:e.n1])
	for k := e.s0; k < e.s1; k++ {
		st := &s.st[k]
		f := st.u.Mul(st.w)
		if n := st.na; n >= 0 {
			run[n], force[n] = run[n].Sub(st.u), force[n].Sub(f)
		}
		if n := st.nb; n >= 0 {
			run[n], force[n] = run[n].Add(st.u), force[n].Add(f)
		}
	}
}

func xyz(v r3.Vector) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

func (s *Solver) addOuter(e *element) {
	for n := e.n0; n < e.n1; n++ {
		fn := int(s.nodes[n].f)
		rows := xyz(s.eForce[n].Mul(e.act))
		for k := e.n0; k < e.n1; k++ {
			fk := int(s.nodes[k].f)
			if fk > fn {
				continue
			}
			columns := xyz(s.eForce[k])
			for r, g := range rows {
				o := int(s.m.off[3*fn+r]) + 3*fk
				for c := 0; c < 3 && (fk < fn || c <= r); c++ {
					s.m.a[o+c] += g * columns[c]
				}
			}
		}
	}
}

func (s *Solver) addOuterLopsided(e *element) {
	for n := e.n0; n < e.n1; n++ {
		fn := int(s.nodes[n].f)
		rows := xyz(s.eForce[n].Mul(e.act))
		for k := e.n0; k < e.n1; k++ {
			columns := xyz(s.eRun[k])
			for r, g := range rows {
				row := s.lu.a[(3*fn+r)*s.lu.n+3*int(s.nodes[k].f):]
				for c, x := range columns {
					row[c] += g * x
				}
			}
		}
	}
}

// runOf is the change of length of a stretch for moves x of the free points.
func (s *Solver) runOf(st *stretch, x []float64) float64 {
	sum := 0.0
	if st.fb >= 0 {
		sum += st.u.Dot(at3(x, int(st.fb)))
	}
	if st.fa >= 0 {
		sum -= st.u.Dot(at3(x, int(st.fa)))
	}
	return sum
}
