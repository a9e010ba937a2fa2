package travel

import (
	"math"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/solver/terrain"
)

// clear is how far the stretch from a to b is from an obstacle in plan view, metres,
// and where it is nearest. Negative is how deep it lies in it, or for a polygon by
// how much a corner lies on the far side.
func (o *Obstacle) clear(from, to r3.Vector) (float64, r2.Point) {
	a, b := flat(from), flat(to)
	if len(o.Corners) == 0 {
		p, _ := terrain.Nearest(o.Centre, a, b)
		return p.Sub(o.Centre).Norm() - o.RadiusM, p
	}
	if terrain.Meets(o.Corners, a, b) {
		return o.depth(a, b)
	}
	best, at := math.Inf(1), r2.Point{}
	nearer := func(p, q, place r2.Point) {
		if d := p.Sub(q).Norm(); d < best {
			best, at = d, place
		}
	}
	for i, p := range o.Corners {
		q := o.Corners[(i+1)%len(o.Corners)]
		on, _ := terrain.Nearest(p, a, b)
		nearer(on, p, p)
		for _, end := range [...]r2.Point{a, b} {
			on, _ := terrain.Nearest(end, p, q)
			nearer(on, end, on)
		}
	}
	return best, at
}

// depth is, with the sign turned, how far the obstacle would have to be shifted
// square to a stretch that meets it to come free of the line through it.
func (o *Obstacle) depth(a, b r2.Point) (float64, r2.Point) {
	if a == b {
		return 0, a
	}
	across := b.Sub(a).Ortho().Normalize()
	low, high := math.Inf(1), math.Inf(-1)
	var atLow, atHigh r2.Point
	for _, p := range o.Corners {
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

func flat(v r3.Vector) r2.Point { return r2.Point{X: v.X, Y: v.Y} }
