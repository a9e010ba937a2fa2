package statics

import (
	"math"

	"github.com/golang/geo/r3"
)

// Tyre is a contact that resists sliding. XM, YM are its place in the body's
// axes (x along the wheel, metres), LoadN its normal load (newtons, not
// negative), Along the coefficient of drag along x (rolling, mire, or mu when
// locked), Across the coefficient along y; both not negative.
type Tyre struct {
	XM, YM, LoadN, Along, Across float64
}

// Drag is the answer of LimitSurface. TensionN is the least line tension that
// moves the body. Twist is the motion it starts with: metres and metres and
// radians per unit of work of a unit tension (wrench . Twist = 1), that is for a
// metre of line under direct pull. Status is Converged, BadInput, or NoPull when
// the wrench is nothing or a motion without resistance follows it (then
// TensionN is 0 and Twist NaN), or NotConverged.
type Drag struct {
	Status   Status
	TensionN float64
	Twist    [3]float64
}

const (
	// dragStages of smoothing, each a hundredth of the one before, from a
	// tenth of the body's scale of speed.
	dragStages = 6
	dragSteps  = 60
)

// LimitSurface finds the least tension at which the tyres give, for the wrench
// a unit tension puts on the body (wrench[0], [1] forces along x and y, [2]
// moment about the origin of the tyres' places, metres), and how the body starts
// to move. Maximum dissipation (README section 8):
//
//	T = min { D(v) : g . v = 1 },  D = sum N sqrt((c v_x)^2 + (mu v_y)^2)
//
// with v the twist and v_x, v_y the speed at the tyre. D is convex; Newton with
// falling smoothing in the two free unknowns.
func LimitSurface(tyres []Tyre, wrench [3]float64) Drag {
	bad := Drag{Status: BadInput, TensionN: nan(), Twist: [3]float64{nan(), nan(), nan()}}
	if !finite(wrench[0]) || !finite(wrench[1]) || !finite(wrench[2]) {
		return bad
	}
	var size, force float64
	for i := range tyres {
		y := &tyres[i]
		if !finite(y.XM) || !finite(y.YM) || !amount(y.LoadN) || !amount(y.Along) || !amount(y.Across) {
			return bad
		}
		size = math.Max(size, math.Hypot(y.XM, y.YM))
		force += y.LoadN * math.Max(y.Along, y.Across)
	}
	if size == 0 {
		size = 1
	}
	// Turn counts as speed at the outermost tyre, so that all three unknowns
	// are alike: scaled wrench g, scaled twist v = g/|g|^2 + B z.
	g := r3.Vector{X: wrench[0], Y: wrench[1], Z: wrench[2] / size}
	gn := g.Norm()
	if gn == 0 || force == 0 {
		bad.Status = NoPull
		bad.TensionN = 0
		return bad
	}
	e := g.Normalize()
	p := e.Ortho()
	var z [2]float64 // in units of 1/|g|
	d := dragger{tyres, size, e, p, e.Cross(p)}
	eps := 0.1
	for stage := 0; stage < dragStages; stage++ {
		if !d.minimise(&z, eps) {
			bad.Status = NotConverged
			return bad
		}
		eps *= 1e-2
	}
	v := d.twist(z)
	total := d.value(z, 0)
	if total <= 1e-12*force {
		bad.Status = NoPull
		bad.TensionN = 0
		return bad
	}
	return Drag{Status: Converged, TensionN: total / gn,
		Twist: [3]float64{v.X / gn, v.Y / gn, v.Z / gn / size}}
}

// dragger is the drag of tyres as a function of the two unknowns that are left:
// scaled twists e + z0 p + z1 q.
type dragger struct {
	tyres   []Tyre
	size    float64
	e, p, q r3.Vector
}

func (d *dragger) twist(z [2]float64) r3.Vector {
	return d.e.Add(d.p.Mul(z[0])).Add(d.q.Mul(z[1]))
}

// rows gives the resisted speeds of a tyre as linear forms of the twist.
func (d *dragger) rows(y *Tyre) (along, across r3.Vector) {
	return r3.Vector{X: y.Along, Z: -y.Along * y.YM / d.size}, r3.Vector{Y: y.Across, Z: y.Across * y.XM / d.size}
}

func (d *dragger) value(z [2]float64, eps float64) float64 {
	v := d.twist(z)
	sum := 0.0
	for i := range d.tyres {
		a, b := d.rows(&d.tyres[i])
		x, y := a.Dot(v), b.Dot(v)
		sum += d.tyres[i].LoadN * math.Sqrt(x*x+y*y+eps*eps)
	}
	return sum
}

// slopes is the gradient of the smoothed drag, its second derivatives (00, 01,
// 11), and the size of what the gradient is a sum of.
func (d *dragger) slopes(z [2]float64, eps float64) (g [2]float64, h [3]float64, scale float64) {
	v := d.twist(z)
	for i := range d.tyres {
		t := &d.tyres[i]
		a, b := d.rows(t)
		x, y := a.Dot(v), b.Dot(v)
		s := math.Sqrt(x*x + y*y + eps*eps)
		x, y = x/s, y/s
		ap, aq, bp, bq := a.Dot(d.p), a.Dot(d.q), b.Dot(d.p), b.Dot(d.q)
		sp, sq := x*ap+y*bp, x*aq+y*bq
		g[0] += t.LoadN * sp
		g[1] += t.LoadN * sq
		k := t.LoadN / s
		h[0] += k * (ap*ap + bp*bp - sp*sp)
		h[1] += k * (ap*aq + bp*bq - sp*sq)
		h[2] += k * (aq*aq + bq*bq - sq*sq)
		scale += t.LoadN * (math.Abs(ap) + math.Abs(aq) + math.Abs(bp) + math.Abs(bq))
	}
	return g, h, scale
}

// minimise is Newton with a line search on the smoothed drag.
func (d *dragger) minimise(z *[2]float64, eps float64) bool {
	for range dragSteps {
		g, h, scale := d.slopes(*z, eps)
		if math.Hypot(g[0], g[1]) <= 1e-12*scale {
			return true
		}
		damp := 1e-12 * (h[0] + h[2])
		h[0] += damp
		h[2] += damp
		det := h[0]*h[2] - h[1]*h[1]
		if !(det > 0) {
			damp = 1e-6*(h[0]+h[2]) + 1e-12*scale
			h[0] += damp
			h[2] += damp
			det = h[0]*h[2] - h[1]*h[1]
		}
		if !(det > 0) {
			return false
		}
		step := [2]float64{-(h[2]*g[0] - h[1]*g[1]) / det, -(h[0]*g[1] - h[1]*g[0]) / det}
		slope := g[0]*step[0] + g[1]*step[1]
		v0 := d.value(*z, eps)
		share := 1.0
		if far := math.Hypot(step[0], step[1]); far > 10*(1+math.Hypot(z[0], z[1])) {
			share = 10 * (1 + math.Hypot(z[0], z[1])) / far
		}
		moved := false
		for try := 0; try < 50; try++ {
			next := [2]float64{z[0] + share*step[0], z[1] + share*step[1]}
			if d.value(next, eps) <= v0+armijo*share*slope+1e-15*v0 {
				moved = next != *z
				*z = next
				break
			}
			share /= 2
		}
		if !moved || -slope <= 1e-16*v0 {
			return true // at rounding
		}
	}
	return true
}
