package statics

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"
)

// compile turns a checked rig into points, stretches, elements and visits.
func (s *Solver) compile(r *Rig) {
	s.placePoints(r)
	s.layLines(r)
	s.layElements(r)
	s.scales(r)
	s.envelope()
}

func (s *Solver) placePoints(r *Rig) {
	n := len(r.Points)
	s.drawn = s.vectors.grow(s.drawn, n)
	s.pos = s.vectors.grow(s.pos, n)
	s.fi = s.indices.grow(s.fi, n)
	if n > 0 {
		s.origin = r.Points[0].Pos
	}
	for i := range r.Points {
		s.drawn[i] = r.Points[i].Pos.Sub(s.origin)
		s.pos[i] = s.drawn[i]
		s.fi[i] = -1
	}
	s.moving = false
	s.motions = s.vectors.grow(s.motions, len(r.Bodies))
	for i := range r.Bodies {
		s.motions[i] = r.Bodies[i].Motion.Normalize()
		if s.motions[i] != (r3.Vector{}) {
			s.moving = true
		}
	}
}

// number gives a free point the next free index, in order of first use, which
// keeps neighbours close and the envelope small.
func (s *Solver) number(r *Rig, p int32) {
	if r.Points[p].Kind == Free && s.fi[p] < 0 {
		s.fi[p] = int32(len(s.free))
		s.free = append(s.free, p)
	}
}

// layLines makes the stretches of lines, then of slings, and the visits.
func (s *Solver) layLines(r *Rig) {
	n := 0 // stretches and visits
	for i := range r.Lines {
		n += len(r.Lines[i].Path)
	}
	s.free = slices.Grow(s.free[:0], len(r.Points))
	s.st = slices.Grow(s.st[:0], n+len(r.Slings))
	s.vis = slices.Grow(s.vis[:0], n)
	s.lineSt = s.lineSt[:0]
	s.lineVis = s.lineVis[:0]
	s.varying = false
	for i := range r.Lines {
		l := &r.Lines[i]
		s.lineSt = append(s.lineSt, int32(len(s.st)))
		s.lineVis = append(s.lineVis, int32(len(s.vis)))
		equal := s.equalising(r, l)
		for j, p := range l.Path {
			s.number(r, int32(p))
			if j == 0 {
				continue
			}
			if j < len(l.Path)-1 {
				s.layVisit(l, int32(i), j, equal)
			}
			s.st = append(s.st, stretch{a: int32(l.Path[j-1]), b: int32(p), na: -1, nb: -1, w: 1})
		}
	}
	s.lineSt = append(s.lineSt, int32(len(s.st)))
	s.lineVis = append(s.lineVis, int32(len(s.vis)))
	for i := range r.Slings {
		g := &r.Slings[i]
		s.number(r, int32(g.A))
		s.number(r, int32(g.B))
		s.st = append(s.st, stretch{a: int32(g.A), b: int32(g.B), na: -1, nb: -1, w: 1})
	}
	for i := range r.Points {
		s.number(r, int32(i))
	}
	s.load = s.vectors.grow(s.load, len(s.free))
	clear(s.load)
	for i := range r.Loads {
		l := &r.Loads[i]
		f := s.fi[l.Point]
		s.load[f] = s.load[f].Add(l.ForceN)
	}
	for k := range s.st {
		s.st[k].fa = s.fi[s.st[k].a]
		s.st[k].fb = s.fi[s.st[k].b]
	}
}

// equalising reports whether both ends of a length line are held by the same
// body, or both by the ground: a bridle leg pair at rest, whose sheave is moved
// by nothing but drift (README section 6).
func (s *Solver) equalising(r *Rig, l *Line) bool {
	if l.Drum || len(l.Path) < 3 {
		return false
	}
	a, b := &r.Points[l.Path[0]], &r.Points[l.Path[len(l.Path)-1]]
	if a.Kind == Free || a.Kind != b.Kind {
		return false
	}
	return a.Kind == Fixed || a.Body == b.Body
}

func (s *Solver) layVisit(l *Line, line int32, j int, equal bool) {
	h := &l.Sheaves[j-1]
	s.vis = append(s.vis, visit{line: line, at: int32(j - 1), point: int32(l.Path[j]),
		st: int32(len(s.st)), model: h.Model, rho: 1, base: 1, state: Haul})
	v := &s.vis[len(s.vis)-1]
	switch h.Model {
	case ByWrap, Constant:
		v.base = h.Eta
		v.loss = h.Eta < 1
		if h.Model == ByWrap {
			kappa := (1 - h.Eta) / (1 + h.Eta)
			v.kappa2 = kappa * kappa
		}
	case Ring:
		v.mu = h.Mu
		v.loss = h.Mu > 0
	}
	v.equal = equal
	if v.loss && h.Start == Pay {
		v.state = Pay
	}
	if v.byAngle() {
		s.varying = true
	}
}

// scales sets the tension and length everything is compared with.
func (s *Solver) scales(r *Rig) {
	s.tref = 0
	for i := range s.el {
		if e := &s.el[i]; e.given && e.tN > s.tref {
			s.tref = e.tN
		}
	}
	for i := range s.load {
		s.tref = math.Max(s.tref, s.load[i].Norm())
	}
	s.lref = 0
	for k := range s.st {
		l := s.drawn[s.st[k].b].Distance(s.drawn[s.st[k].a])
		s.st[k].l = l
		s.lref += l
	}
	if len(s.st) > 0 {
		s.lref /= float64(len(s.st))
	}
	if s.lref == 0 {
		s.lref = 1
	}
	if s.tref == 0 {
		for i := range s.el {
			if e := &s.el[i]; !e.given && e.comp > 0 {
				s.tref = math.Max(s.tref, (s.lengthOf(s.pos, e.s0, e.s1)-e.lenM)/e.comp)
			}
		}
	}
	if s.tref == 0 {
		s.tref = 1
	}
	s.eps2 = sq(smoothShare * s.lref)
	s.reg = regShare * s.lref / s.tref
}

func sq(x float64) float64 { return x * x }

const (
	// smoothShare of the mean length is added under the root of every length,
	// so that a stretch of no length has no 0/0; it changes a length of a
	// hundredth of the mean by 1e-12 of itself.
	smoothShare = 1e-8
	// regShare: regularisation of length elements as a share of mean length
	// over reference tension. Smaller stalls on rounding, larger converges
	// slower (README section 9).
	regShare = 1e-4
	// driftShare of Tref/lref is added to the stiffness so that a point nothing
	// holds stays where it is drawn.
	driftShare = 1e-9
)

// connected reports whether every free point has a way to one that stands; it
// flags those that have none.
func (s *Solver) connected(out *Result) bool {
	if len(s.free) == 0 {
		return true
	}
	n := len(s.fi)
	s.reach = grow(s.reach, n)
	for p := range s.fi {
		s.reach[p] = s.fi[p] < 0
	}
	left := len(s.free)
	for changed := true; changed && left > 0; {
		changed = false
		for k := range s.st {
			st := &s.st[k]
			a, b := s.reach[st.a], s.reach[st.b]
			if a != b {
				s.reach[st.a], s.reach[st.b] = true, true
				changed = true
				left--
			}
		}
	}
	if left == 0 {
		return true
	}
	for p := range s.reach {
		if !s.reach[p] {
			out.flag(LoosePoint, p, 0, 0)
		}
	}
	return false
}
