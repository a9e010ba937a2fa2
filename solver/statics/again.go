package statics

import "slices"

// kept is a rig whose forces go with its drum tensions, and the state of the solver
// that it was settled in: asked at another pull it only has to be scaled.
type kept struct {
	runs    int // of the solver, when it was kept; 0: nothing is
	rig     Rig
	sheaves []Sheave // of all lines
	path    []int

	el        []element
	lb        []float64
	flags     []Flag
	pulls     []float64 // on each body
	tref, reg float64
	its       int
}

// Keep makes the solver keep what [Solver.RequiredPull] settles: of the same rig it is
// then asked for another pull in a fraction of the time, with the same answer to the
// last bit.
func (s *Solver) Keep() { s.kept = &kept{} }

// store keeps what settled.
func (s *Solver) store(r *Rig, out *Result) {
	k := s.kept
	k.rig.Points = append(k.rig.Points[:0], r.Points...)
	k.rig.Bodies = append(k.rig.Bodies[:0], r.Bodies...)
	k.rig.Slings = append(k.rig.Slings[:0], r.Slings...)
	k.rig.Loads = append(k.rig.Loads[:0], r.Loads...)
	k.rig.Lines = append(k.rig.Lines[:0], r.Lines...)
	k.sheaves, k.path = k.sheaves[:0], k.path[:0]
	for i := range r.Lines {
		k.sheaves = append(k.sheaves, r.Lines[i].Sheaves...)
		k.path = append(k.path, r.Lines[i].Path...)
	}
	k.el, k.lb = append(k.el[:0], s.el...), append(k.lb[:0], s.prevLb...)
	k.flags, k.pulls = append(k.flags[:0], out.Flags...), k.pulls[:0]
	for i := range out.Bodies {
		k.pulls = append(k.pulls, out.Bodies[i].PullN)
	}
	k.runs, k.tref, k.reg, k.its = s.runs, s.tref, s.reg, s.its
}

// again puts the solver back into the state that it settled this rig in; false: it
// settled another since, or never did.
func (s *Solver) again(r *Rig, out *Result) bool {
	k := s.kept
	if k.runs == 0 || k.runs != s.runs || len(r.Lines) != len(k.rig.Lines) || !slices.Equal(k.rig.Points, r.Points) ||
		!slices.Equal(k.rig.Bodies, r.Bodies) || !slices.Equal(k.rig.Slings, r.Slings) || !slices.Equal(k.rig.Loads, r.Loads) {
		return false
	}
	sheaves, path := k.sheaves, k.path
	for i := range r.Lines {
		l, m := &r.Lines[i], &k.rig.Lines[i]
		n, p := len(l.Sheaves), len(l.Path)
		if l.Drum != m.Drum || l.TensionN != m.TensionN || l.Steady != m.Steady || l.LengthM != m.LengthM || l.ComplianceMPerN != m.ComplianceMPerN ||
			n > len(sheaves) || p > len(path) || !slices.Equal(l.Sheaves, sheaves[:n]) || !slices.Equal(l.Path, path[:p]) {
			return false
		}
		sheaves, path = sheaves[n:], path[p:]
	}
	copy(s.el, k.el)
	copy(s.prevLb, k.lb)
	s.scale, s.tref, s.reg, s.its = 1, k.tref, k.reg, k.its
	out.Flags = append(out.Flags[:0], k.flags...)
	return true
}
