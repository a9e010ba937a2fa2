package statics

import "math"

const (
	// balanceTol: unbalanced force at a free point, share of the reference
	// tension, at which Newton stops. Quadratic convergence leaves it well below.
	balanceTol = 1e-9
	// gapTol: length error of taut elements, share of the mean length.
	gapTol = 1e-10
	// stepCap: longest move of a point in one step, mean lengths.
	stepCap   = 2.0
	coldSteps = 14
	warmSteps = 25
	// slowSteps is added when ratios follow the wrap: they are brought up to
	// date at each step but left out of its slope, which converges by a factor
	// of ten to fifty a step.
	slowSteps = 12
	// weakShare of Tref/lref: a stiffness below it gets extraSteps more.
	weakShare  = 1e-2
	extraSteps = 3
)

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
	d := s.dim
	for f := range s.load {
		l := &s.load[f]
		i := f * d
		s.grad[i] = -l[0]
		s.grad[i+1] = -l[1]
		m.a[int(m.off[i])+i] = drift
		m.a[int(m.off[i+1])+i+1] = drift
		if d == 3 {
			s.grad[i+2] = -l[2]
			m.a[int(m.off[i+2])+i+2] = drift
		}
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
	ux, uy := st.u[0], st.u[1]
	if s.dim == 2 {
		xx, xy, yy := kg+kd*ux*ux, kd*ux*uy, kg+kd*uy*uy
		if fa >= 0 {
			s.grad[2*fa] -= t * ux
			s.grad[2*fa+1] -= t * uy
			s.m.addDiag2(2*fa, xx, xy, yy)
		}
		if fb >= 0 {
			s.grad[2*fb] += t * ux
			s.grad[2*fb+1] += t * uy
			s.m.addDiag2(2*fb, xx, xy, yy)
			if fa >= 0 {
				hi, lo := 2*max(fa, fb), 2*min(fa, fb)
				r0 := int(s.m.off[hi]) + lo
				r1 := int(s.m.off[hi+1]) + lo
				s.m.a[r0] -= xx
				s.m.a[r0+1] -= xy
				s.m.a[r1] -= xy
				s.m.a[r1+1] -= yy
			}
		}
		return
	}
	uz := st.u[2]
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
		s.m.addDiag3(i, &b)
	}
	if fb >= 0 {
		i := 3 * fb
		s.grad[i] += t * ux
		s.grad[i+1] += t * uy
		s.grad[i+2] += t * uz
		s.m.addDiag3(i, &b)
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

func (m *skyline) addDiag2(i int, xx, xy, yy float64) {
	m.a[int(m.off[i])+i] += xx
	r := int(m.off[i+1]) + i
	m.a[r] += xy
	m.a[r+1] += yy
}

func (m *skyline) addDiag3(i int, b *[3][3]float64) {
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
		for c := 0; c < s.dim; c++ {
			u := st.u[c]
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
	d := s.dim
	for n := int(e.n0); n < int(e.n1); n++ {
		fn := int(s.nodes[n].f)
		for k := int(e.n0); k < int(e.n1); k++ {
			fk := int(s.nodes[k].f)
			if fk > fn {
				continue
			}
			for r := 0; r < d; r++ {
				g := e.act * s.eForce[3*n+r]
				o := int(s.m.off[d*fn+r]) + d*fk
				for c := 0; c < d && (fk < fn || c <= r); c++ {
					s.m.a[o+c] += g * s.eForce[3*k+c]
				}
			}
		}
	}
}

func (s *Solver) addOuterLopsided(e *element) {
	d := s.dim
	for n := int(e.n0); n < int(e.n1); n++ {
		fn := int(s.nodes[n].f)
		for k := int(e.n0); k < int(e.n1); k++ {
			fk := int(s.nodes[k].f)
			for r := 0; r < d; r++ {
				g := e.act * s.eForce[3*n+r]
				row := s.lu.a[(d*fn+r)*s.lu.n+d*fk:]
				for c := 0; c < d; c++ {
					row[c] += g * s.eRun[3*k+c]
				}
			}
		}
	}
}

func (s *Solver) factor() bool {
	if s.lopsided && !s.lagged {
		s.factored = s.lu.factor()
	} else {
		s.factored = s.m.factor()
	}
	return s.factored
}

func (s *Solver) solve(b []float64) {
	if s.lopsided && !s.lagged {
		s.lu.solve(b)
	} else {
		s.m.solve(b)
	}
}

// newton is the primal-dual iteration from the state at hand. On success the
// stiffness at the answer is factored. Where it is weak a force within
// tolerance may still be a long way: a few steps more are taken.
func (s *Solver) newton(steps int) bool {
	if s.varying {
		steps += slowSteps
	}
	drift := driftShare * s.tref / s.lref
	gtol := balanceTol * s.tref
	ltol := gapTol * s.lref
	extra := 0
	for it := 0; ; it++ {
		s.geometry(s.eps2)
		if s.varying {
			s.wrapRatios(1)
		}
		s.tensions()
		s.assemble(drift)
		worst := largest(s.grad)
		if worst <= gtol && s.dualsAgree(ltol) {
			if s.dropFaint() {
				s.assemble(drift)
			}
			if !s.factor() {
				return false
			}
			if extra == extraSteps || s.weakest() > weakShare*s.tref/s.lref || s.findLoose() {
				return true
			}
			extra++
		}
		if it >= steps+extra || !finite(worst) {
			return false
		}
		s.its++
		if !s.factored && !s.factor() {
			return false
		}
		for i, g := range s.grad {
			s.delta[i] = -g
		}
		s.solve(s.delta)
		s.advance(s.cap(s.delta))
	}
}

func (s *Solver) dualsAgree(ltol float64) bool {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		if !(s.reg*math.Abs(e.t-e.lb) <= ltol) || e.t < 0 {
			return false
		}
	}
	return true
}

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
			s.loose[i/s.dim] = true
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

// largest is the largest size in x, NaN if there is one.
func largest(x []float64) float64 {
	worst, sum := 0.0, 0.0
	for _, v := range x {
		v = math.Abs(v)
		sum += v
		if v > worst {
			worst = v
		}
	}
	if sum != sum {
		return sum
	}
	return worst
}

// cap gives the share of a step to take so that no point goes too far.
func (s *Solver) cap(d []float64) float64 {
	limit := stepCap * s.lref
	if far := largest(d); far > limit {
		return limit / far
	}
	return 1
}

// advance moves the free points by share of delta and the multipliers by the
// linearised change of tension: taken from the new places, the remainder of
// the linearisation over the regularisation would swamp it.
func (s *Solver) advance(share float64) {
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		if e.act == 0 {
			e.lb = 0
			continue
		}
		dl := 0.0
		for k := e.s0; k < e.s1; k++ {
			dl += s.runOf(&s.st[k], s.delta)
		}
		e.lb = e.t + share*dl*e.act
		if e.lb < 0 {
			e.lb = 0
		}
	}
	d := s.dim
	for f, p := range s.free {
		q := &s.pos[p]
		for c := 0; c < d; c++ {
			q[c] += share * s.delta[f*d+c]
		}
	}
}

// runOf is the change of length of a stretch for moves x of the free points.
func (s *Solver) runOf(st *stretch, x []float64) float64 {
	d := s.dim
	sum := 0.0
	if st.fb >= 0 {
		i := int(st.fb) * d
		sum += st.u[0]*x[i] + st.u[1]*x[i+1]
		if d == 3 {
			sum += st.u[2] * x[i+2]
		}
	}
	if st.fa >= 0 {
		i := int(st.fa) * d
		sum -= st.u[0]*x[i] + st.u[1]*x[i+1]
		if d == 3 {
			sum -= st.u[2] * x[i+2]
		}
	}
	return sum
}
