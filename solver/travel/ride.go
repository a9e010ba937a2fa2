package travel

import (
	"math"
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// ride solves a course at any place of its way, in any order: one workspace, each
// place from the answer before it.
type ride struct {
	c      *Course
	rig    statics.Rig // at the place
	solver statics.Solver
	out    statics.Result
	turns  []turnWatch // every lossy sheave
	startM float64     // of the line on the drum, along its path, at the start

	free    drift
	dragged statics.Drag

	phases []phase // of the way the sheaves turn, in order; none: as the solver finds
	phase  *phase
	split  statics.Rig

	stance    stance
	ok        bool // solved: lengths and forces for a tension of one are known
	gain      float64
	tensionN  float64 // NaN: the line does not pull
	paidInM   float64
	onDrumM   float64
	layer     int
	layerPull float64
}

// phase is a part of the way on which no sheave changes the way it turns.
type phase struct {
	fromM float64
	ways  []statics.SheaveMotion // by turnWatch; Stick: as the solver finds
	held  *turnWatch             // the sheave that sticks: the line behind it keeps its length
	tailM float64
}

func newRide(c *Course) *ride {
	r := &ride{c: c, rig: c.Rig}
	r.rig.Points = slices.Clone(c.Rig.Points)
	r.rig.Bodies = slices.Clone(c.Rig.Bodies)
	r.rig.Lines = slices.Clone(c.Rig.Lines)
	r.rig.Lines[0].TensionN = 1
	r.free = drift{on: r.drag, nodes: []stance{{ref: c.Motion.Ref}}}
	for i := range r.rig.Lines {
		r.rig.Lines[i].Sheaves = slices.Clone(c.Rig.Lines[i].Sheaves)
		for at, h := range r.rig.Lines[i].Sheaves {
			if h.Eta < 1 || h.Mu > 0 {
				r.turns = append(r.turns, turnWatch{i, at})
			}
		}
	}
	return r
}

// start finds what is counted from the start; false if nothing can be solved there.
func (r *ride) start() bool {
	r.at(0)
	if !r.ok {
		return false
	}
	r.startM = r.tail(0, -1)
	r.at(0)
	return r.ok
}

// at solves the place sM metres along the way.
func (r *ride) at(sM float64) {
	r.enter(sM)
	m := &r.c.Motion
	if m.Kind == Free {
		r.stance, r.ok = r.free.at(sM)
		r.ok = r.ok && r.solve(&r.stance)
	} else {
		r.stance = m.stands(sM)
		r.ok = r.solve(&r.stance)
	}
	nan := math.NaN()
	r.gain, r.tensionN, r.paidInM, r.onDrumM, r.layer, r.layerPull = nan, nan, nan, nan, 0, nan
	if !r.ok {
		return
	}
	r.paidInM = r.startM - r.tail(0, -1)
	r.onDrumM = float64(r.c.Drum.OnDrum) + r.paidInM
	r.layer, r.layerPull = r.c.Drum.layer(r.onDrumM)
	r.gain = r.out.Bodies[0].PullN
	if r.c.PayOut {
		r.gain = -r.gain
	}
	if !(r.gain > 0) {
		return
	}
	if m.Kind == Free {
		r.tensionN = r.dragged.TensionN
		return
	}
	r.tensionN = resistance(r.c.Resistance, sM) / r.gain
}

// enter takes up the phase of a place.
func (r *ride) enter(sM float64) {
	r.phase = nil
	for i := range r.phases {
		if p := &r.phases[i]; sM >= p.fromM {
			r.phase = p
		}
	}
	if r.phase == nil {
		return
	}
	for i, w := range r.turns {
		r.rig.Lines[w.line].Sheaves[w.at].Start = r.phase.ways[i]
	}
}

// solve finds the balance at a tension of one with the body standing so.
func (r *ride) solve(p *stance) bool {
	for i := range r.rig.Points {
		if q := &r.rig.Points[i]; q.Kind == statics.OnBody {
			q.Pos = r.c.Motion.carry(p, r.c.Rig.Points[i].Pos)
		}
	}
	r.rig.Bodies[0] = statics.Body{RefM: p.ref, Motion: p.way, TurnPerM: p.turnPerM}
	rig := &r.rig
	if r.phase != nil && r.phase.held != nil {
		rig = r.cutLine()
	}
	return r.solver.Warm(rig, &r.out).HasForces()
}

// cutLine is the rig with the line of the sheave that sticks made two there.
func (r *ride) cutLine() *statics.Rig {
	h := r.phase.held
	r.split = r.rig
	r.split.Lines = append(r.split.Lines[:0:0], r.rig.Lines...)
	whole := &r.rig.Lines[h.line]
	first := *whole
	first.Path, first.Sheaves = whole.Path[:h.at+2], whole.Sheaves[:h.at]
	r.split.Lines[h.line] = first
	r.split.Lines = append(r.split.Lines, statics.Line{Path: whole.Path[h.at+1:], Sheaves: whole.Sheaves[h.at+1:],
		LengthM: r.phase.tailM, ComplianceMPerN: whole.ComplianceMPerN})
	return &r.split
}

// stretch is stretch k of a line.
func (r *ride) stretch(line, k int) *statics.Stretch {
	own := r.out.Lines[line].Stretches
	if k < len(own) {
		return &own[k]
	}
	return &r.out.Lines[len(r.out.Lines)-1].Stretches[k-len(own)]
}

// turn is the visit at of a line, as far as the solver decides on it: nil for the one
// that sticks.
func (r *ride) turn(line, at int) *statics.Visit {
	own := r.out.Lines[line].Visits
	switch {
	case at < len(own):
		return &own[at]
	case r.phase == nil || r.phase.held == nil || at == len(own):
		return nil
	}
	return &r.out.Lines[len(r.out.Lines)-1].Visits[at-len(own)-1]
}

// ratio is the tension behind over that before visit at of a line.
func (r *ride) ratio(line, at int) float64 {
	return r.stretch(line, at+1).TensionN / r.stretch(line, at).TensionN
}

// load is the force of the line on its visit at, for a tension of one.
func (r *ride) load(line, at int) r3.Vector {
	b, a := r.stretch(line, at), r.stretch(line, at+1)
	return a.Dir.Mul(a.TensionN).Sub(b.Dir.Mul(b.TensionN))
}

// tail is the line beyond visit at of a line, all of it for -1, metres.
func (r *ride) tail(line, at int) float64 {
	if !r.ok {
		return math.NaN()
	}
	sum := 0.0
	for k := at + 1; k < len(r.c.Rig.Lines[line].Path)-1; k++ {
		sum += r.stretch(line, k).LengthM
	}
	return sum
}

// part is the load of a part at the place: newtons, of the winch a share. NaN: not
// computed.
func (r *ride) part(p Part) float64 {
	if !r.ok || r.tensionN != r.tensionN {
		return math.NaN()
	}
	unit := 0.0
	switch p.Kind {
	case LinePart:
		unit = r.stretch(p.Line, p.Index).TensionN
	case BlockPart:
		var f r3.Vector
		for i := range r.c.Rig.Lines {
			path := r.c.Rig.Lines[i].Path
			for j := 1; j < len(path)-1; j++ {
				if path[j] == p.Index {
					f = f.Add(r.load(i, j-1))
				}
			}
		}
		unit = f.Norm()
	case SlingPart:
		unit = r.out.Slings[p.Index].TensionN
	case PointPart:
		unit = r.out.Points[p.Index].ForceN.Norm()
	case WinchPart:
		return r.tensionN / r.layerPull
	}
	return unit * r.tensionN
}

// offWayDeg is the angle between the pull and where the body should go.
func (r *ride) offWayDeg() float64 {
	d := r.stance.heading
	if r.c.PayOut && r.c.Motion.Kind == Straight {
		d = d.Mul(-1)
	}
	return r.out.Bodies[0].ForceN.Angle(d).Degrees()
}

// offHookDeg is the angle between the force at the first point of the body that a
// line pulls at and how that point moves.
func (r *ride) offHookDeg() float64 {
	for i := range r.rig.Points {
		if p := &r.rig.Points[i]; p.Kind == statics.OnBody && r.out.Points[i].ForceN != (r3.Vector{}) {
			return r.out.Points[i].ForceN.Angle(r.stance.velocity(p.Pos)).Degrees()
		}
	}
	return math.NaN()
}

// workOf is the part of what a stretch does to a point of the body that works with its
// motion, for a tension of one.
func (r *ride) workOf(b Backward) float64 {
	s := r.stretch(0, b.Stretch)
	u := s.Dir
	if s.B == b.Point {
		u = u.Mul(-1)
	}
	return u.Dot(r.stance.velocity(r.rig.Points[b.Point].Pos))
}
