package travel

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// stance is where the body stands: its reference point, by what angle it has turned
// since the start, and how it moves on for a metre of way.
type stance struct {
	sM       float64 // along its way; of a body that nothing guides
	ref      r3.Vector
	turnRad  float64
	way      r3.Vector // unit vector
	turnPerM float64
	heading  r3.Vector // of the body, unit vector; that of the way if it has none
}

// stands is the stance of a guided body after sM of its way.
func (m *Motion) stands(sM float64) stance {
	if m.Kind == Straight {
		return stance{ref: m.Ref.Add(m.Dir.Mul(sM)), way: m.Dir, heading: m.Dir}
	}
	turn := sM / m.RadiusM
	h := unit(m.HeadingRad + turn)
	centre := m.Ref.Add(left(unit(m.HeadingRad)).Mul(m.RadiusM))
	return stance{ref: centre.Sub(left(h).Mul(m.RadiusM)), turnRad: turn, way: h, turnPerM: 1 / m.RadiusM, heading: h}
}

// carry is where a point of the body that stood at start stands.
func (m *Motion) carry(p *stance, start r3.Vector) r3.Vector {
	arm := start.Sub(m.Ref)
	if p.turnRad == 0 {
		return p.ref.Add(arm)
	}
	return p.ref.Add(turned(arm, p.turnRad))
}

// velocity is how a point of the body that stands at at moves for a metre of way.
func (p *stance) velocity(at r3.Vector) r3.Vector {
	return p.way.Add(left(at.Sub(p.ref)).Mul(p.turnPerM))
}

func unit(rad float64) r3.Vector { return r3.Vector{X: math.Cos(rad), Y: math.Sin(rad)} }

// left is a vector turned by a quarter, counter-clockwise, its height dropped.
func left(v r3.Vector) r3.Vector { return r3.Vector{X: -v.Y, Y: v.X} }

// turned is a vector turned about the upright.
func turned(v r3.Vector, rad float64) r3.Vector {
	sin, cos := math.Sincos(rad)
	return r3.Vector{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y, Z: v.Z}
}

// drag finds how the free body moves on from where it stands: by the least tension
// at which its contacts give ([statics.LimitSurface]) for what a unit tension does to
// it. Which way the sheaves turn depends on the motion in turn, so with lossy ones it
// is found twice.
func (r *ride) drag(p *stance) bool {
	m := &r.c.Motion
	yaw := m.HeadingRad + p.turnRad
	p.heading = unit(yaw)
	if p.way == (r3.Vector{}) {
		p.way, p.turnPerM = p.heading, 0
	}
	for pass := 0; pass < 2; pass++ {
		if !r.solve(p) {
			return false
		}
		b := &r.out.Bodies[0]
		f := turned(b.ForceN, -yaw)
		r.dragged = statics.LimitSurface(m.Contacts, [3]float64{f.X, f.Y, b.MomentNm.Z})
		d := &r.dragged
		speed := math.Hypot(d.Twist[0], d.Twist[1])
		if d.Status != statics.Converged || !(speed > 0) {
			return false
		}
		p.way = turned(r3.Vector{X: d.Twist[0] / speed, Y: d.Twist[1] / speed}, yaw)
		p.turnPerM = d.Twist[2] / speed
		if len(r.turns) == 0 {
			break
		}
	}
	return true
}
