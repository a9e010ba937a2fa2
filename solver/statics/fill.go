package statics

import "math"

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
	if s.touching(r, out) {
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

func (s *Solver) place(r *Rig, p int) [3]float64 {
	if s.fi[p] < 0 {
		q := r.Points[p].Pos
		if s.dim == 2 {
			q[2] = 0
		}
		return q
	}
	q := s.pos[p]
	q[0] += s.origin[0]
	q[1] += s.origin[1]
	if s.dim == 3 {
		q[2] += s.origin[2]
	}
	return q
}

// pull adds tension t along stretch k to both its ends.
func (s *Solver) pull(out *Result, st *stretch, t float64) {
	a, b := &out.Points[st.a].ForceN, &out.Points[st.b].ForceN
	for c := 0; c < 3; c++ {
		f := t * st.u[c]
		a[c] += f
		b[c] -= f
	}
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
			out.Slings[i].Dir = [3]float64{}
		} else {
			s.pull(out, st, t)
		}
		if out.Slings[i].Slack {
			out.flag(SlackSling, i, 0, 0)
			slack = true
		}
		k++
	}
	for i := range r.Slings {
		g := &r.Slings[i]
		if out.Slings[i].Slack || !rigid(g) {
			continue
		}
		for j := 0; j < i; j++ {
			h := &r.Slings[j]
			if !out.Slings[j].Slack && rigid(h) &&
				(g.A == h.A && g.B == h.B || g.A == h.B && g.B == h.A) {
				out.flag(SharedSlings, j, i, 0)
			}
		}
	}
	s.sharedAtPoint(r, out)
	return slack
}

// sharedAtPoint flags free points held by more taut slings without stretch from
// points that stand than there are directions: their split is not determined.
func (s *Solver) sharedAtPoint(r *Rig, out *Result) {
	s.slings = grow(s.slings, len(s.free))
	clear(s.slings)
	for i := range r.Slings {
		g := &r.Slings[i]
		fa, fb := s.fi[g.A], s.fi[g.B]
		if out.Slings[i].Slack || !rigid(g) || (fa >= 0) == (fb >= 0) {
			continue
		}
		f := max(fa, fb)
		s.slings[f]++
		if int(s.slings[f]) > s.dim {
			first := 0
			for r.Slings[first].A != int(s.free[f]) && r.Slings[first].B != int(s.free[f]) {
				first++
			}
			out.flag(SharedSlings, first, i, 0)
		}
	}
}

func rigid(g *Sling) bool { return g.StiffnessNPerM == 0 || g.StiffnessNPerM > math.MaxFloat64 }

func (s *Solver) fillVisits(r *Rig, out *Result) {
	for i := range s.vis {
		v := &s.vis[i]
		o := &out.visits[i]
		b, a := &s.st[v.st], &s.st[v.st+1]
		tb, ta := out.stretches[v.st].TensionN, out.stretches[v.st+1].TensionN
		*o = Visit{Point: int(v.point), Motion: v.state, Determined: !v.undetermined, Assumed: v.assumed,
			Ratio: v.rho, RatioLow: v.rho, RatioHigh: v.rho, RunPerMetre: nan()}
		if v.state == Stick && !v.equal {
			o.Ratio = ta / tb
		}
		if v.loss && (v.undetermined || v.state == Stick) {
			o.Motion = Stick
			o.RatioLow, o.RatioHigh = v.base, 1/v.base
		}
		if !v.loss && !v.assumed {
			o.Motion = freeMotion(s, v)
		}
		if s.ratesKnown && !s.slides(v) {
			o.RunPerMetre = v.run
		}
		for c := 0; c < 3; c++ {
			o.LoadN[c] = ta*a.u[c] - tb*b.u[c]
		}
		o.LoadMagN = norm(&o.LoadN)
		o.IncludedDeg = 180 - wrap(&b.u, &a.u)*(180/math.Pi)
		if v.undetermined {
			kind := UndeterminedSheave
			if v.unsettled {
				kind = UnsettledSheave
			}
			out.flag(kind, int(v.line), int(v.at), 0)
		}
		if s.moving && s.fi[v.point] < 0 {
			s.flagBackwards(r, out, int(v.line), int(v.point), &o.LoadN)
		}
	}
	if !s.moving {
		return
	}
	for i := range r.Lines {
		st := out.Lines[i].Stretches
		first, last := &st[0], &st[len(st)-1]
		f := scaled(first.Dir, first.TensionN)
		s.flagBackwards(r, out, i, first.A, &f)
		f = scaled(last.Dir, -last.TensionN)
		s.flagBackwards(r, out, i, last.B, &f)
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
