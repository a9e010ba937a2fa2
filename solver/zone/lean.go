package zone

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// leanM, metres, is how far the outline of ground that is swept may stand out for the
// sake of fewer corners, each of the two times that they are made fewer. An arc stands
// out by as much, and nobody sees it. (ours)
const leanM = 0.01

// lean is an outline of fewer corners round a convex one that runs counter-clockwise:
// some of its edges, lengthened until they meet no farther than leanM outside of it. It
// leaves no ground of the other out.
func lean(hull []plan.Point) []plan.Point {
	n := len(hull)
	var out []plan.Point
	for i := n - 1; i < 2*n-1; { // edge i leaves corner i, and goes once round from the last
		next, at := i+1, hull[(i+1)%n]
		for next < 2*n-1 {
			p, ok := beyond(hull, i, next+1)
			if !ok {
				break
			}
			next, at = next+1, p
		}
		out = append(out, at)
		i = next
	}
	return out
}

// beyond is where edge i of a convex outline, lengthened, meets edge j behind it; ok is
// false if that is too far outside, or nowhere.
func beyond(hull []plan.Point, i, j int) (at plan.Point, ok bool) {
	corner := func(k int) r2.Point { return r2.Point(hull[k%len(hull)]) }
	a, d := corner(i+1), corner(i+1).Sub(corner(i))
	b, e := corner(j), corner(j+1).Sub(corner(j))
	if !(d.Cross(e) > 0) { // half a turn or more: they part
		return plan.Point{}, false
	}
	p := a.Add(d.Mul(b.Sub(a).Cross(e) / d.Cross(e)))
	out := math.Inf(1)
	for k := i + 1; k < j && out > leanM; k++ {
		near, _ := terrain.ToSegment(p, corner(k), corner(k+1))
		out = min(out, near)
	}
	return plan.Point(p), out <= leanM
}
