package statics

import "math"

func scaled(v [3]float64, x float64) [3]float64 {
	return [3]float64{v[0] * x, v[1] * x, v[2] * x}
}

// flagBackwards flags a force of a line on a point of a body that works against
// the body's motion.
func (s *Solver) flagBackwards(r *Rig, out *Result, line, point int, f *[3]float64) {
	p := &r.Points[point]
	if p.Kind != OnBody {
		return
	}
	d := s.motions[p.Body]
	if dot(f, &d) < -slackShare*s.tref {
		out.flag(PullsBackwards, line, point, dot(f, &d))
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
		ref := &r.Bodies[i].RefM
		f := &out.Points[p].ForceN
		x := s.pos[p][0] - (ref[0] - s.origin[0])
		y := s.pos[p][1] - (ref[1] - s.origin[1])
		z := s.pos[p][2] - (ref[2] - s.origin[2])
		o := &out.Bodies[i]
		for c := range f {
			o.ForceN[c] += f[c]
		}
		o.MomentNm[0] += y*f[2] - z*f[1]
		o.MomentNm[1] += z*f[0] - x*f[2]
		o.MomentNm[2] += x*f[1] - y*f[0]
	}
	for i := range r.Bodies {
		if d := s.motions[i]; d != ([3]float64{}) {
			out.Bodies[i].PullN = dot(&out.Bodies[i].ForceN, &d)
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
