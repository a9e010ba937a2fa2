package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

// flagBackwards flags a force of a line on a point of a body that works against
// the body's motion.
func (s *Solver) flagBackwards(r *Rig, out *Result, line, point int, f r3.Vector) {
	p := &r.Points[point]
	if p.Kind != OnBody {
		return
	}
	d := r.Bodies[p.Body].rate(s.motions[p.Body], p.Pos)
	if along := f.Dot(d); along < -slackShare*s.tref {
		out.flag(PullsBackwards, line, point, along)
	}
}

// fillBodies sums forces and moments on the bodies from those on their points.
func (s *Solver) fillBodies(r *Rig, out *Result) {
	for i := range r.Bodies {
		out.Bodies[i] = BodyResult{PullN: nan()}
	}
	for p := range r.Points {
		if r.Points[p].Kind != OnBody {
			continue
		}
		i := r.Points[p].Body
		arm := s.pos[p].Sub(r.Bodies[i].RefM.Sub(s.origin))
		f := out.Points[p].ForceN
		o := &out.Bodies[i]
		o.ForceN = o.ForceN.Add(f)
		o.MomentNm = o.MomentNm.Add(arm.Cross(f))
	}
	for i := range r.Bodies {
		if d := s.motions[i]; d != (r3.Vector{}) {
			out.Bodies[i].PullN = out.Bodies[i].ForceN.Dot(d) + out.Bodies[i].MomentNm.Z*r.Bodies[i].TurnPerM
		}
	}
}

// fillAdvantage sums pull, tension and haul as Advantage says.
func (s *Solver) fillAdvantage(r *Rig, out *Result) {
	adv := Advantage{PullN: nan(), ByForce: nan(), ByMotion: nan(), Efficiency: nan()}
	if s.moving {
		adv.PullN = 0
		for i := range out.Bodies {
			if p := out.Bodies[i].PullN; finite(p) {
				adv.PullN += p
			}
		}
		sumT, work := 0.0, 0.0
		for i := range r.Lines {
			if !r.Lines[i].Drum {
				continue
			}
			sumT += out.Lines[i].TensionN
			work += out.Lines[i].TensionN * out.Lines[i].HaulPerMetre
		}
		if sumT > 0 {
			adv.ByForce = adv.PullN / sumT
			adv.ByMotion = work / sumT
			if math.Abs(work) > slackShare*sumT {
				adv.Efficiency = adv.PullN / work
			}
		}
	}
	out.Advantage = adv
}
