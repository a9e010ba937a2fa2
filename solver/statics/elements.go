package statics

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
)

// layElements groups the stretches by tension. It is called again when a
// sheave sticks or is let go; then the free points stand where they are and
// what lies behind a stuck sheave has the length it has now.
func (s *Solver) layElements(r *Rig) {
	s.el = slices.Grow(s.el[:0], len(r.Lines)+len(r.Slings))
	s.lopsided = false
	for i := range r.Lines {
		l := &r.Lines[i]
		e := element{line: int32(i), sling: -1, s0: s.lineSt[i], given: l.Drum}
		full := l.LengthM
		if !l.Drum && full == 0 {
			full = s.lengthOf(s.drawn, s.lineSt[i], s.lineSt[i+1])
		}
		e.tN = l.TensionN * s.scaleOf(l)
		e.lenM = full
		e.comp = l.ComplianceMPerN
		for v := s.lineVis[i]; v < s.lineVis[i+1]; v++ {
			vi := &s.vis[v]
			if vi.state == Stick && !vi.equal {
				cut := s.lengthOf(s.pos, vi.st+1, s.lineSt[i+1])
				tail := element{line: int32(i), sling: -1, s0: vi.st + 1, lenM: cut}
				if !l.Drum && full > 0 {
					tail.comp = e.comp * math.Min(1, cut/e.lenM)
					e.comp -= tail.comp
				}
				e.lenM -= cut
				e.s1 = vi.st + 1
				s.addElement(e)
				e = tail
				continue
			}
			if vi.loss && !vi.equal && !e.given {
				e.friction = true
			}
		}
		e.s1 = s.lineSt[i+1]
		s.addElement(e)
	}
	k := s.lineSt[len(r.Lines)]
	for i := range r.Slings {
		g := &r.Slings[i]
		e := element{line: -1, sling: int32(i), s0: k, s1: k + 1, lenM: g.LengthM}
		if g.LengthM == 0 {
			e.lenM = s.lengthOf(s.drawn, k, k+1)
		}
		if g.StiffnessNPerM > 0 {
			e.comp = 1 / g.StiffnessNPerM
		}
		s.addElement(e)
		k++
	}
	s.layNodes()
	s.findSwings()
	s.fixedRatios()
}

func (s *Solver) scaleOf(l *Line) float64 {
	if l.Steady {
		return 1
	}
	return s.scale
}

func (s *Solver) addElement(e element) {
	e.c = e.comp
	e.lam = e.lenM
	if e.friction {
		s.lopsided = true
		// Each stretch takes its own tension: how much the line gives depends on
		// where it lies, whatever its ratios do.
		s.varying = s.varying || e.comp > 0
	}
	for k := e.s0; k < e.s1; k++ {
		s.st[k].el = int32(len(s.el))
	}
	s.el = append(s.el, e)
}

// layNodes lists the free points of each length element of several stretches.
func (s *Solver) layNodes() {
	s.nodes = s.nodes[:0]
	for i := range s.el {
		e := &s.el[i]
		e.n0 = int32(len(s.nodes))
		if !e.given && e.s1 > e.s0+1 {
			for k := e.s0; k < e.s1; k++ {
				st := &s.st[k]
				st.na = s.nodeOf(e.n0, st.fa)
				st.nb = s.nodeOf(e.n0, st.fb)
			}
		}
		e.n1 = int32(len(s.nodes))
	}
	s.eForce = grow(s.eForce, len(s.nodes))
	s.eRun = grow(s.eRun, len(s.nodes))
}

func (s *Solver) nodeOf(n0, f int32) int32 {
	if f < 0 {
		return -1
	}
	for n := n0; n < int32(len(s.nodes)); n++ {
		if s.nodes[n].f == f {
			return n
		}
	}
	s.nodes = append(s.nodes, elementNode{f})
	return int32(len(s.nodes) - 1)
}

func (s *Solver) lengthOf(pos []r3.Vector, k0, k1 int32) float64 {
	sum := 0.0
	for k := k0; k < k1; k++ {
		sum += pos[s.st[k].b].Distance(pos[s.st[k].a])
	}
	return sum
}
