package zone

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// standsOut are how far an outline comes inside of a convex one, at most, and how far
// its corners are outside of it: by the edges of both, metres.
func standsOut(fewer, hull []plan.Point) (insideM, outsideM float64) {
	for i, a := range fewer {
		a, d := r2.Point(a), r2.Point(fewer[(i+1)%len(fewer)]).Sub(r2.Point(a)).Normalize()
		for _, p := range hull {
			insideM = max(insideM, -d.Cross(r2.Point(p).Sub(a)))
		}
		out := math.Inf(1)
		for k, b := range hull {
			dist, _ := terrain.ToSegment(plan.Point(a), b, hull[(k+1)%len(hull)])
			out = min(out, dist)
		}
		outsideM = max(outsideM, out)
	}
	return insideM, outsideM
}

// Whatever the corners, large or small, near or far: no ground is left out, none is
// added farther than allowed, and where there are many they become fewer.
func TestLeanLeavesNoGroundOut(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	fewer := 0
	for range 3000 {
		middle := plan.Point{X: rnd.NormFloat64() * 1000, Y: rnd.NormFloat64() * 1000}
		wide, high := math.Exp(rnd.NormFloat64()*3), math.Exp(rnd.NormFloat64()*3)
		var ps []plan.Point
		for range 3 + rnd.IntN(300) {
			sn, cs := math.Sincos(rnd.Float64() * 2 * math.Pi)
			ps = append(ps, plan.Point{X: middle.X + wide*cs, Y: middle.Y + high*sn})
		}
		hull := terrain.Hull(ps)
		if hull == nil {
			continue
		}
		got := lean(hull)
		require.GreaterOrEqual(t, len(got), 3)
		require.LessOrEqual(t, len(got), len(hull))
		inside, outside := standsOut(got, hull)
		require.Less(t, inside, 1e-9, "%v", hull)
		require.LessOrEqual(t, outside, leanM+1e-9, "%v", hull)
		require.GreaterOrEqual(t, terrain.Area(got), terrain.Area(hull)-1e-9*(1+wide*high))
		if len(got) < len(hull) {
			fewer++
		}
	}
	assert.Greater(t, fewer, 1000)
	assert.Empty(t, lean(nil))
	square := []plan.Point{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}
	assert.Equal(t, square, lean(square))
}

// Tangents of a circle of 20 m that meet 0.01 m outside of it stand at 2·acos(20/20.01)
// = 3.62°: 100 of them go round. One edge in a row of 3600 cannot always be the best, so
// one more is allowed. (closed form)
func TestLeanOfACircle(t *testing.T) {
	var circle []plan.Point
	for i := range 3600 {
		sn, cs := math.Sincos(float64(i) / 1800 * math.Pi)
		circle = append(circle, plan.Point{X: 20 * cs, Y: 20 * sn})
	}
	assert.InDelta(t, 101, len(lean(circle)), 3)
}

// A sector that turns by 60° while it moves on: the swept outline holds that of each
// moment, and has no more corners than a few of them.
func TestSweptOutlinesHaveFewCorners(t *testing.T) {
	var atM []float64
	var moments [][]part.Zone
	for s := 0.0; s <= 12; s += 0.25 {
		z := part.Zone{Kind: part.ZoneTree, Thing: "T1"}
		for k := range 25 {
			sn, cs := math.Sincos((float64(k)*5 + s*5) * math.Pi / 180)
			z.Outline = append(z.Outline, plan.Point{X: s/4 + 20*cs, Y: 20 * sn})
		}
		z.Outline = append(z.Outline, plan.Point{X: s / 4})
		atM, moments = append(atM, s), append(moments, []part.Zone{z})
	}
	got := Swept(atM, moments)
	require.Len(t, got, 1)
	assert.Less(t, len(got[0].Outline), 80)
	for i := range moments {
		for _, p := range moments[i][0].Outline {
			if !terrain.Inside(got[0].Outline, p) {
				near := math.Inf(1)
				for k, a := range got[0].Outline {
					d, _ := terrain.ToSegment(p, a, got[0].Outline[(k+1)%len(got[0].Outline)])
					near = min(near, d)
				}
				require.Less(t, near, 1e-9, "at %g m %v is not inside", atM[i], p)
			}
		}
	}
}
