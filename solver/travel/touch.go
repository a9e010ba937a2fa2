package travel

import (
	"math"

	"github.com/golang/geo/r3"
)

// clear is how far the stretch from a to b is from an obstacle in plan view, metres,
// and where it is nearest. Negative is how deep it lies in it, or for a polygon by
// how much a corner lies on the far side.
func (o *Obstacle) clear(a, b r3.Vector) (float64, r3.Vector) {
	a.Z, b.Z = 0, 0
	if len(o.Corners) == 0 {
		p := nearest(o.Centre, a, b)
		c := o.Centre
		c.Z = 0
		return p.Sub(c).Norm() - o.RadiusM, p
	}
	if o.inside(a) || o.inside(b) || o.crossed(a, b) {
		return o.depth(a, b)
	}
	best, at := math.Inf(1), r3.Vector{}
	for i := range o.Corners {
		p, q := o.side(i)
		corner := nearest(p, a, b)
		if d := corner.Sub(p).Norm(); d < best {
			best, at = d, p
		}
		for _, end := range [...]r3.Vector{a, b} {
			on := nearest(end, p, q)
			if d := on.Sub(end).Norm(); d < best {
				best, at = d, on
			}
		}
	}
	return best, at
}

func (o *Obstacle) side(i int) (p, q r3.Vector) {
	p, q = o.Corners[i], o.Corners[(i+1)%len(o.Corners)]
	p.Z, q.Z = 0, 0
	return p, q
}

// depth is, with the sign turned, how far the obstacle would have to be shifted
// square to a stretch that meets it to come free of the line through it.
func (o *Obstacle) depth(a, b r3.Vector) (float64, r3.Vector) {
	across := left(b.Sub(a))
	if across == (r3.Vector{}) {
		return 0, a
	}
	across = across.Normalize()
	low, high := math.Inf(1), math.Inf(-1)
	var atLow, atHigh r3.Vector
	for i := range o.Corners {
		p, _ := o.side(i)
		d := p.Sub(a).Dot(across)
		if d < low {
			low, atLow = d, p
		}
		if d > high {
			high, atHigh = d, p
		}
	}
	if high < -low {
		return math.Min(-high, 0), atHigh
	}
	return math.Min(low, 0), atLow
}

func (o *Obstacle) inside(a r3.Vector) bool {
	in := false
	for i := range o.Corners {
		p, q := o.side(i)
		if (p.Y > a.Y) != (q.Y > a.Y) && a.X < p.X+(q.X-p.X)*(a.Y-p.Y)/(q.Y-p.Y) {
			in = !in
		}
	}
	return in
}

func (o *Obstacle) crossed(a, b r3.Vector) bool {
	for i := range o.Corners {
		p, q := o.side(i)
		if apart(a, b, p, q) && apart(p, q, a, b) {
			return true
		}
	}
	return false
}

// apart reports whether p and q lie on different sides of the line through a and b.
func apart(a, b, p, q r3.Vector) bool {
	across := left(b.Sub(a))
	return (p.Sub(a).Dot(across) > 0) != (q.Sub(a).Dot(across) > 0)
}

// nearest is the place on the stretch from a to b nearest to p, in plan view.
func nearest(p, a, b r3.Vector) r3.Vector {
	p.Z = 0
	d := b.Sub(a)
	long := d.Dot(d)
	if long == 0 {
		return a
	}
	share := math.Min(math.Max(p.Sub(a).Dot(d)/long, 0), 1)
	return a.Add(d.Mul(share))
}
