package terrain

import (
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// touch is the distance at which a line touches, metres: finer than anything
// is measured on the ground, coarser than the rounding of grid coordinates.
const touch = 1e-3

// Contact is where a straight line meets an obstacle. The zero value is none.
type Contact struct {
	Touches  bool            // it bears on the obstacle, be it only at a point
	Over     bool            // its plan crosses the obstacle, but it passes above
	From, To quantity.Length // along the line from its first end: first and last touch
	Length   quantity.Length // along the line, all pieces together; at most To - From
	OverM    float64         // the least it passes above the obstacle, metres, if Over
}

// Bears is where the line from a to b, in space, bears on s: where its plan is
// inside the outline and it is not 0.1 m (ours) higher than the obstacle, about
// what a loaded line sags and a boulder's top is misjudged. Lengths are along
// the line.
func (s *Shape) Bears(g *Ground, a, b r3.Vector) Contact {
	pa, pb := plan.Point{X: a.X, Y: a.Y}, plan.Point{X: b.X, Y: b.Y}
	if s.boxGap(pa, pb) > touch {
		return Contact{}
	}
	lengthM := b.Sub(a).Norm()
	if s.HeightM <= 0 {
		return s.contact(pa, pb, 0, 1, lengthM)
	}
	ha, hb := g.Above(a), g.Above(b)
	lo, hi, any := lowPart(ha, hb, s.HeightM+facts.InWayPassOver.Value())
	if any {
		if c := s.contact(pa, pb, lo, hi, lengthM); c.Touches {
			return c
		}
	}
	c := s.contact(pa, pb, 0, 1, lengthM)
	c.Over, c.Touches = c.Touches, false
	if c.Over {
		at := func(along quantity.Length) float64 { // heights above the plane run straight
			if lengthM == 0 {
				return min(ha, hb)
			}
			return ha + (hb-ha)*float64(along)/lengthM
		}
		c.OverM = min(at(c.From), at(c.To)) - s.HeightM
	}
	return c
}

// lowPart is the share of a line from ha to hb above the ground that is not
// above top.
func lowPart(ha, hb, top float64) (lo, hi float64, any bool) {
	aLow, bLow := !(ha > top), !(hb > top)
	switch {
	case aLow && bLow:
		return 0, 1, true
	case aLow:
		return 0, (top - ha) / (hb - ha), true
	case bLow:
		return (top - ha) / (hb - ha), 1, true
	}
	return 0, 0, false
}

// contact is the meeting of s with the piece from lo to hi of the segment a–b,
// which counts as lengthM long.
//
// Each edge that the endless line through a and b crosses ends or begins a
// piece inside. The length inside is the sum of the shares where pieces end less
// those where they begin, each cut off at lo and hi: no sorting, no memory. A
// line exactly along an edge counts as just to its left; if it then crosses
// nothing, graze finds the edge.
func (s *Shape) contact(a, b plan.Point, lo, hi, lengthM float64) Contact {
	if len(s.Corners) == 0 {
		return Contact{}
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	l2 := dx*dx + dy*dy
	if l2 == 0 { // an upright line, or none
		if s.Inside(a) || EdgeDistance(s.Corners, a) <= touch {
			return Contact{Touches: true, From: quantity.Length(lo * lengthM), To: quantity.Length(hi * lengthM), Length: quantity.Length((hi - lo) * lengthM)}
		}
		return Contact{}
	}
	inside, first, last := 0.0, hi, lo
	inAtLo, inAtHi := false, false
	least, most := math.Inf(1), math.Inf(-1) // of the corners beside the line, each times its length
	p := s.Corners[len(s.Corners)-1]
	px, py := p.X-a.X, p.Y-a.Y
	sp := dx*py - dy*px
	for _, q := range s.Corners {
		qx, qy := q.X-a.X, q.Y-a.Y
		sq := dx*qy - dy*qx
		least, most = min(least, sq), max(most, sq)
		if (sp > 0) != (sq > 0) {
			f := sp / (sp - sq)
			t := ((px+f*(qx-px))*dx + (py+f*(qy-py))*dy) / l2
			switch {
			case t <= lo:
				inAtLo = !inAtLo
				t = lo
			case t < hi:
				first, last = min(first, t), max(last, t)
			}
			if t >= hi {
				inAtHi = !inAtHi
				t = hi
			}
			if sq > sp {
				inside += t
			} else {
				inside -= t
			}
		}
		px, py, sp = qx, qy, sq
	}
	if beside := 2 * touch; max(least, 0)*least > beside*beside*l2 || min(most, 0)*most > beside*beside*l2 {
		return Contact{} // all on one side, and well away
	}
	inside *= s.sense
	if inAtLo {
		first = lo
	}
	if inAtHi {
		last = hi
	}
	if inside*lengthM > touch {
		return Contact{Touches: true, From: quantity.Length(first * lengthM), To: quantity.Length(last * lengthM),
			Length: quantity.Length(min(inside, last-first) * lengthM)}
	}
	return s.graze(a, b, lo, hi, lengthM)
}

// graze is the meeting of s with a line that runs along its edge or just
// touches a corner.
func (s *Shape) graze(a, b plan.Point, lo, hi, lengthM float64) Contact {
	dx, dy := b.X-a.X, b.Y-a.Y
	from := plan.Point{X: a.X + lo*dx, Y: a.Y + lo*dy}
	to := plan.Point{X: a.X + hi*dx, Y: a.Y + hi*dy}
	l2 := dx*dx + dy*dy
	first, last := math.Inf(1), math.Inf(-1)
	see := func(p plan.Point) {
		t := max(lo, min(hi, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l2))
		first, last = min(first, t), max(last, t)
	}
	p := s.Corners[len(s.Corners)-1]
	for _, q := range s.Corners {
		if squareToSegment(p, from, to) <= touch*touch {
			see(p)
		}
		if squareToSegment(from, p, q) <= touch*touch {
			see(from)
		}
		if squareToSegment(to, p, q) <= touch*touch {
			see(to)
		}
		if plan.SegmentsMeet(from, to, p, q) { // a corner cut off by less than touch
			sp, sq := dx*(p.Y-a.Y)-dy*(p.X-a.X), dx*(q.Y-a.Y)-dy*(q.X-a.X)
			if f := sp / (sp - sq); f >= 0 && f <= 1 { // not along the edge
				see(plan.Point{X: p.X + f*(q.X-p.X), Y: p.Y + f*(q.Y-p.Y)})
			}
		}
		p = q
	}
	if first > last {
		return Contact{}
	}
	return Contact{Touches: true, From: quantity.Length(first * lengthM), To: quantity.Length(last * lengthM),
		Length: quantity.Length((last - first) * lengthM)}
}

// Distance is the least horizontal distance between the segment a–b and s, 0
// where they meet. Where it is atMost or more, some number not below atMost
// comes back, sooner: whoever looks for the nearest of many gives the least so
// far; math.Inf(1) asks for the distance itself.
func (s *Shape) Distance(a, b plan.Point, atMostM float64) float64 {
	gap := s.boxGap(a, b)
	if gap >= atMostM {
		return gap
	}
	if gap <= touch && s.contact(a, b, 0, 1, math.Hypot(b.X-a.X, b.Y-a.Y)).Touches {
		return 0
	}
	best := math.Inf(1)
	if len(s.Corners) == 0 {
		return best
	}
	p := s.Corners[len(s.Corners)-1]
	for _, q := range s.Corners {
		best = min(best, squareToSegment(q, a, b), squareToSegment(a, p, q), squareToSegment(b, p, q))
		p = q
	}
	return math.Sqrt(best)
}
