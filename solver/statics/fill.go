package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

const (
	// slackShare of the reference tension: less counts as slack.
	slackShare = 1e-6
	// looseShare of Tref/lref: a pivot below it means a point can slide.
	looseShare = 1e-6
	// trustShare: unbalance over Tref, or gap over lref, above which an answer
	// is not handed out.
	trustShare = 1e-7
)

// fill writes the answer to out and sums the balance again from it.
func (s *Solver) fill(r *Rig, out *Result) Status {
	s.shape(r, out)
	s.geometry(0)
	if s.touching(out) {
		return TwoBlocked
	}
	for p := range out.Points {
		out.Points[p] = PointResult{Pos: s.place(r, p)}
	}
	slack := s.fillLines(r, out)
	slack = s.fillSlings(r, out) || slack
	s.fillVisits(r, out)
	s.fillBodies(r, out)
	s.fillAdvantage(r, out)
	s.residual(out)
	if !(out.ResidualN <= trustShare*s.tref) || !(out.GapM <= trustShare*s.lref) {
		return NotConverged
	}
	if s.loosePoints(out) || slack {
		out.Status = Slack
	} else {
		out.Status = Converged
	}
	return out.Status
}

// shape gives the slices of out their lengths.
func (s *Solver) shape(r *Rig, out *Result) {
	out.Lines = grow(out.Lines, len(r.Lines))
	out.Slings = grow(out.Slings, len(r.Slings))
	out.Points = grow(out.Points, len(r.Points))
	out.Bodies = grow(out.Bodies, len(r.Bodies))
	n := int(s.lineSt[len(s.lineSt)-1])
	out.stretches = grow(out.stretches, n)
	out.visits = grow(out.visits, len(s.vis))
	for i := range out.Lines {
		l := &out.Lines[i]
		l.Stretches = out.stretches[s.lineSt[i]:s.lineSt[i+1]:s.lineSt[i+1]]
		l.Visits = out.visits[s.lineVis[i]:s.lineVis[i+1]:s.lineVis[i+1]]
	}
	out.Scale = s.scale
	out.ReferenceN = s.tref
	out.Iterations = s.its
	out.GapM = 0
}

func (s *Solver) place(r *Rig, p int) r3.Vector {
	if s.fi[p] < 0 {
		return r.Points[p].Pos
	}
	return s.pos[p].Add(s.origin)
}

// pull adds tension t along stretch k to both its ends.
func (s *Solver) pull(out *Result, st *stretch, t float64) {
	f := st.u.Mul(t)
	a, b := &out.Points[st.a], &out.Points[st.b]
	a.ForceN = a.ForceN.Add(f)
	b.ForceN = b.ForceN.Sub(f)
}

func (s *Solver) fillLines(r *Rig, out *Result) (slack bool) {
	for i := range r.Lines {
		o := &out.Lines[i]
		o.LengthM = 0
		o.Slack = false
		rate := 0.0
		for k := s.lineSt[i]; k < s.lineSt[i+1]; k++ {
			st := &s.st[k]
			t := s.tensionOf(k)
			out.stretches[k] = Stretch{A: int(st.a), B: int(st.b), TensionN: t, LengthM: st.l, Dir: st.u}
			s.pull(out, st, t)
			o.LengthM += st.l
			rate -= st.dl
			if t <= slackShare*s.tref {
				o.Slack = true
			}
		}
		o.TensionN = out.stretches[s.lineSt[i]].TensionN
		o.HaulPerMetre = nan()
		if s.ratesKnown && r.Lines[i].Drum {
			o.HaulPerMetre = rate
		}
		if o.Slack {
			out.flag(SlackLine, i, 0, 0)
			slack = true
		}
	}
	for i := range s.el {
		s.gap(out, &s.el[i])
	}
	return slack
}

// gap notes by how much an element is longer than its tension allows, or
// shorter while it pulls.
func (s *Solver) gap(out *Result, e *element) {
	if e.given {
		return
	}
	l := -e.lenM - e.c*e.t
	for k := e.s0; k < e.s1; k++ {
		l += s.st[k].l
	}
	if e.t > 0 {
		l = math.Abs(l)
	}
	if e.t < 0 {
		l = math.Max(l, -e.t/s.tref*s.lref)
	}
	if l > out.GapM || l != l {
		out.GapM = l
	}
}

func (s *Solver) fillSlings(r *Rig, out *Result) (slack bool) {
	k := s.lineSt[len(r.Lines)]
	for i := range r.Slings {
		st := &s.st[k]
		t := s.tensionOf(k)
		out.Slings[i] = SlingResult{TensionN: t, LengthM: st.l, Dir: st.u, Slack: t <= slackShare*s.tref}
		if st.l == 0 {
			out.Slings[i].Dir = r3.Vector{}
		} else {
			s.pull(out, st, t)
		}
		if out.Slings[i].Slack {
			out.flag(SlackSling, i, 0, 0)
			slack = true
		}
		k++
	}
	s.sharedSlings(r, out)
	return slack
}

// sharedSlings flags taut slings without stretch that hold a free point in more
// ways than their directions span: how they share is not determined. Each is
// flagged with the one before it that pulls most nearly along it.
func (s *Solver) sharedSlings(r *Rig, out *Result) {
	s.spans = grow(s.spans, len(s.free))
	clear(s.spans)
	for i := range r.Slings {
		f := s.holds(r, out, i)
		if f >= 0 && s.spans[f].widen(out.Slings[i].Dir) {
			continue
		}
		with, most := -1, 0.0
		for j := 0; j < i; j++ {
			if f >= 0 && s.holds(r, out, j) == f {
				if along := math.Abs(out.Slings[i].Dir.Dot(out.Slings[j].Dir)); with < 0 || along > most {
					with, most = j, along
				}
			} else if f < 0 && s.sameRigid(r, out, i, j) {
				with = j
			}
		}
		if with >= 0 {
			out.flag(SharedSlings, with, i, 0)
		}
	}
}

// holds is the free index of the point that sling i, taut and without stretch,
// ties to one that stands; -1 if it does not.
func (s *Solver) holds(r *Rig, out *Result, i int) int32 {
	g := &r.Slings[i]
	fa, fb := s.fi[g.A], s.fi[g.B]
	if out.Slings[i].Slack || !rigid(g) || (fa >= 0) == (fb >= 0) {
		return -1
	}
	return max(fa, fb)
}

// sameRigid reports whether slings i and j, both taut and without stretch, tie
// the same two points.
func (s *Solver) sameRigid(r *Rig, out *Result, i, j int) bool {
	g, h := &r.Slings[i], &r.Slings[j]
	return !out.Slings[i].Slack && !out.Slings[j].Slack && rigid(g) && rigid(h) &&
		(g.A == h.A && g.B == h.B || g.A == h.B && g.B == h.A)
}

// span is up to three directions square to each other.
type span struct {
	n   int
	dir [3]r3.Vector
}

// newWay is the sine of the angle to the ways that slings already hold a point
// within which one more holds it no other way: centimetres of place would decide
// how they share. (ours)
const newWay = 0.01

// widen takes a unit direction in and reports whether the span has grown.
func (w *span) widen(d r3.Vector) bool {
	for _, e := range w.dir[:w.n] {
		d = d.Sub(e.Mul(d.Dot(e)))
	}
	if w.n == 3 || d.Norm() < newWay {
		return false
	}
	w.dir[w.n] = d.Normalize()
	w.n++
	return true
}

func rigid(g *Sling) bool { return g.StiffnessNPerM == 0 || g.StiffnessNPerM > math.MaxFloat64 }

func (s *Solver) fillVisits(r *Rig, out *Result) {
	for i := range s.vis {
		v := &s.vis[i]
		o := &out.visits[i]
		b, a := &s.st[v.st], &s.st[v.st+1]
		tb, ta := out.stretches[v.st].TensionN, out.stretches[v.st+1].TensionN
		*o = Visit{Point: int(v.point), Motion: v.state, Determined: !v.undetermined,
			Ratio: v.rho, RatioLow: v.rho, RatioHigh: v.rho, RunPerMetre: nan()}
		if v.state == Stick && !v.equal {
			o.Ratio = ta / tb
		}
		if v.loss && (v.undetermined || v.state == Stick) {
			o.Motion = Stick
			o.RatioLow, o.RatioHigh = v.base, 1/v.base
		}
		if !v.loss {
			o.Motion = freeMotion(s, v)
		}
		if s.ratesKnown && !s.slides(v) {
			o.RunPerMetre = v.run
		}
		o.LoadN = a.u.Mul(ta).Sub(b.u.Mul(tb))
		o.LoadMagN = o.LoadN.Norm()
		o.IncludedDeg = 180 - wrap(b.u, a.u)*(180/math.Pi)
		if v.undetermined {
			kind := UndeterminedSheave
			if v.unsettled {
				kind = UnsettledSheave
			}
			out.flag(kind, int(v.line), int(v.at), 0)
		}
		if s.moving && s.fi[v.point] < 0 {
			s.flagBackwards(r, out, int(v.line), int(v.point), o.LoadN)
		}
	}
	if !s.moving {
		return
	}
	for i := range r.Lines {
		st := out.Lines[i].Stretches
		first, last := &st[0], &st[len(st)-1]
		s.flagBackwards(r, out, i, first.A, first.Dir.Mul(first.TensionN))
		s.flagBackwards(r, out, i, last.B, last.Dir.Mul(-last.TensionN))
	}
}

// freeMotion is the motion of a sheave without loss: known from the rates.
func freeMotion(s *Solver, v *visit) SheaveMotion {
	switch {
	case !s.ratesKnown || s.slides(v):
		return Stick
	case v.run > runTol:
		return Haul
	case v.run < -runTol:
		return Pay
	}
	return Stick
}
