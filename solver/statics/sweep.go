package statics

import (
	"math"
	"slices"
)

// sweeps of the cold start. Each places every swinging block in line with the
// pull on it; the error falls by about sling over leg length each time.
const sweeps = 4

// coldStart puts the free points near the answer: blocks on a single sling
// are turned to the pull of the lines, length lines nearly tight get a tension.
func (s *Solver) coldStart() {
	for _, p := range s.free {
		s.pos[p] = s.drawn[p]
	}
	s.geometry(s.eps2)
	for i := range s.el {
		e := &s.el[i]
		if e.given {
			continue
		}
		e.lb, e.t = 0, 0
		l := 0.0
		for k := e.s0; k < e.s1; k++ {
			l += s.st[k].l
		}
		const nearlyTight = 0.9
		if l > nearlyTight*e.lenM {
			e.lb = s.tref
			if e.line >= 0 {
				e.lb = 2 * s.tref
			}
			if e.c > 0 {
				e.lb = math.Min(e.lb, math.Max(0, (l-e.lenM)/e.c))
			}
		}
	}
	if len(s.swing) == 0 {
		return
	}
	for i := 0; i < sweeps; i++ {
		s.sweep()
	}
}

// findSwings lists free blocks held by exactly one sling, from a point that
// stands. Blocks with more have their place from the slings.
func (s *Solver) findSwings() {
	s.swing = slices.Grow(s.swing[:0], len(s.el))
	s.slings = s.indices.grow(s.slings, len(s.free))
	clear(s.slings)
	first := len(s.el)
	for first > 0 && s.el[first-1].sling >= 0 {
		first--
		st := &s.st[s.el[first].s0]
		if st.fa >= 0 {
			s.slings[st.fa]++
		}
		if st.fb >= 0 {
			s.slings[st.fb]++
		}
	}
	for i := first; i < len(s.el); i++ {
		st := &s.st[s.el[i].s0]
		w := swing{p: st.b, a: st.a, f: st.fb, el: int32(i)}
		if st.fb < 0 {
			w.p, w.a, w.f = st.a, st.b, st.fa
		}
		if (st.fa < 0) != (st.fb < 0) && s.slings[w.f] == 1 {
			s.swing = append(s.swing, w)
		}
	}
}

func (s *Solver) sweep() {
	if s.varying {
		s.wrapRatios(1)
	}
	for f := range s.load {
		put3(s.rhs, f, s.load[f])
	}
	for i := range s.el {
		e := &s.el[i]
		t := e.tN
		if !e.given {
			if e.sling >= 0 {
				continue
			}
			t = e.lb
		}
		for k := e.s0; k < e.s1; k++ {
			st := &s.st[k]
			pull := st.u.Mul(t * st.w)
			if f := int(st.fa); f >= 0 {
				put3(s.rhs, f, at3(s.rhs, f).Add(pull))
			}
			if f := int(st.fb); f >= 0 {
				put3(s.rhs, f, at3(s.rhs, f).Sub(pull))
			}
		}
	}
	for i := range s.swing {
		w := &s.swing[i]
		pull := at3(s.rhs, int(w.f))
		n := pull.Norm()
		e := &s.el[w.el]
		e.lb = n
		if n < slackShare*s.tref {
			continue
		}
		s.pos[w.p] = s.pos[w.a].Add(pull.Mul((e.lenM + e.c*n) / n))
	}
	s.geometry(s.eps2)
}
