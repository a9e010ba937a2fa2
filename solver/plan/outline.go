package plan

import (
	"math"
	"math/big"

	"kedge/solver/refusal"
)

// maxCorners is how many corners one outline may have: the check for crossings
// compares every two edges, and 2 000 of them take some 10 ms. (ours)
const maxCorners = 2000

// Turn tells on which side of the way from a to b the point c lies: 1 to the
// left, -1 to the right, 0 exactly on the line through both. The sign is
// exact: where rounding could change it, it is computed again in fractions.
// Error bound: Shewchuk, Adaptive Precision Floating-Point Arithmetic and Fast
// Robust Geometric Predicates, 1997, bound A of the orientation test.
func Turn(a, b, c Point) int {
	l := (a.X - c.X) * (b.Y - c.Y)
	r := (a.Y - c.Y) * (b.X - c.X)
	det := l - r
	const eps = 0x1p-53
	if bound := (3 + 16*eps) * eps * (math.Abs(l) + math.Abs(r)); det > bound || -det > bound {
		if det > 0 {
			return 1
		}
		return -1
	}
	return turnExact(a, b, c)
}

func turnExact(a, b, c Point) int {
	diff := func(x, y float64) *big.Rat {
		p, q := new(big.Rat), new(big.Rat)
		if p.SetFloat64(x) == nil || q.SetFloat64(y) == nil {
			return p // not finite: no plan has it
		}
		return p.Sub(p, q)
	}
	l := diff(a.X, c.X)
	l.Mul(l, diff(b.Y, c.Y))
	r := diff(a.Y, c.Y)
	r.Mul(r, diff(b.X, c.X))
	return l.Cmp(r)
}

// SegmentsMeet reports whether the segments ab and cd have a point in common, be
// it only an end.
func SegmentsMeet(a, b, c, d Point) bool {
	if math.Max(a.X, b.X) < math.Min(c.X, d.X) || math.Max(c.X, d.X) < math.Min(a.X, b.X) ||
		math.Max(a.Y, b.Y) < math.Min(c.Y, d.Y) || math.Max(c.Y, d.Y) < math.Min(a.Y, b.Y) {
		return false
	}
	// With boxes that overlap, neither segment wholly on one side of the other
	// means that they meet, collinear ones included.
	return Turn(a, b, c)*Turn(a, b, d) <= 0 && Turn(c, d, a)*Turn(c, d, b) <= 0
}

// OutlineFault is what keeps corners from being the outline of an obstacle: too
// few or too many, two at one place, edges that cross or touch, no area. Nil:
// it is a simple polygon.
func OutlineFault(corners []Point) *refusal.Error {
	n := len(corners)
	switch {
	case n < 3:
		return fewCorners.At("", n)
	case n > maxCorners:
		return manyCorners.At("", maxCorners, n)
	}
	corner := func(i int) int { return i%n + 1 }
	for i := range corners {
		a, b, c := corners[i], corners[(i+1)%n], corners[(i+2)%n]
		if a == b {
			return onePlace.At("", corner(i), corner(i+1))
		}
		// An edge that runs back along the one before it.
		if Turn(a, b, c) == 0 && (b.X-a.X)*(c.X-b.X)+(b.Y-a.Y)*(c.Y-b.Y) < 0 {
			return runsBack.At("", corner(i+1))
		}
	}
	for i := range corners {
		a, b := corners[i], corners[(i+1)%n]
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue // neighbours
			}
			if SegmentsMeet(a, b, corners[j], corners[(j+1)%n]) {
				return edgesCross.At("", corner(i), corner(j))
			}
		}
	}
	return nil
}
