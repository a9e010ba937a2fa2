package statics

import "github.com/golang/geo/r3"

// residual sums the balance of the free points from the forces handed out.
func (s *Solver) residual(out *Result) {
	worst := 0.0
	for f, p := range s.free {
		x := out.Points[p].ForceN.Add(s.load[f]).Norm()
		if x > worst || x != x {
			worst = x
		}
	}
	out.ResidualN = worst
}

// loosePoints flags free points whose place the equilibrium leaves open.
func (s *Solver) loosePoints(out *Result) bool {
	found := false
	for f, p := range s.free {
		if !s.loose[f] {
			continue
		}
		found = true
		kind := HangingPoint
		for k := range s.st {
			if (s.st[k].a == p || s.st[k].b == p) && s.tensionOf(int32(k)) > slackShare*s.tref {
				kind = FloatingPoint
			}
		}
		out.flag(kind, int(p), 0, 0)
	}
	return found
}

// withhold writes a result without forces: NaN wherever a number could be
// taken for an answer. Free points stand where they are drawn.
func (s *Solver) withhold(r *Rig, out *Result, st Status) Status {
	out.Status = st
	n := nan()
	none := r3.Vector{X: n, Y: n, Z: n}
	out.Scale, out.ResidualN, out.ReferenceN, out.GapM = n, n, n, n
	out.Iterations = s.its
	out.Advantage = Advantage{n, n, n, n}
	out.Lines = grow(out.Lines, len(r.Lines))
	out.Slings = grow(out.Slings, len(r.Slings))
	out.Points = grow(out.Points, len(r.Points))
	out.Bodies = grow(out.Bodies, len(r.Bodies))
	for i := range out.Lines {
		out.Lines[i] = LineResult{TensionN: n, LengthM: n, HaulPerMetre: n}
	}
	for i := range out.Slings {
		out.Slings[i] = SlingResult{TensionN: n, LengthM: n, Dir: none}
	}
	for i := range out.Points {
		out.Points[i] = PointResult{Pos: r.Points[i].Pos, ForceN: none}
	}
	for i := range out.Bodies {
		out.Bodies[i] = BodyResult{none, none, n}
	}
	return st
}
