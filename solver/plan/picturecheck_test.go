package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// fitOf is how a picture lies by points, which must say it.
func fitOf(t *testing.T, points []plan.PicturePoint) *plan.PictureFit {
	t.Helper()
	f, fault := plan.FitPicture(points)
	require.Nil(t, fault)
	return f
}

// square are four corners of 10 m, and more.
func square(more ...plan.Point) []plan.Point {
	return append([]plan.Point{{X: 0, Y: 5}, {X: 10, Y: 5}, {X: 10, Y: 15}, {X: 0, Y: 15}}, more...)
}

// Of five points of which three lie on a line, an error of either of the others hides: the
// picture is met all the same, and that is said. Moving one as far as the map allows moves no
// miss: a map that keeps the line and the other point is found in closed form.
func TestAnErrorMayHide(t *testing.T) {
	five := square(plan.Point{X: 5, Y: 5})
	points := oblique.points(five...)
	f := fitOf(t, points)
	for i, hides := range []bool{true, true, true, true, false} {
		assert.Equal(t, hides, f.Checks[i].Hides(), "point %d: %v", i+1, f.Checks[i].Least)
	}
	// (x, v) to (x, v)·1/w, w = 1 + k·v with v from the line on, and the other way for the point
	// opposite: keeps each point of the line, and moves the two others to where one of them was.
	points[2].At, points[3].At = plan.Point{X: 5 + 5/1.2, Y: 5 + 10/1.2}, plan.Point{X: 5 - 5/1.2, Y: 5 + 10/1.2}
	f = fitOf(t, points)
	assert.Less(t, float64(f.RMS), 1e-9, "two metres out, and no miss")
	assert.True(t, f.Checks[2].Hides() && f.Checks[3].Hides())
}

// Six points round a circle check one another alike: 4 of 12 figures are more than needed, a
// third of each. Four show nothing.
func TestPointsRoundACircleCheckOneAnother(t *testing.T) {
	var ring []plan.Point
	for i := range 6 {
		s, c := math.Sincos(float64(i) * math.Pi / 3)
		ring = append(ring, plan.Point{X: 4 + 6*c, Y: 10 + 6*s})
	}
	for i, c := range fitOf(t, oblique.points(ring...)).Checks {
		assert.InDelta(t, 1.0/3, c.Least, 1e-9)
		assert.False(t, c.Hides() || c.Off, "point %d", i+1)
	}
	for _, c := range fitOf(t, oblique.points(square()...)).Checks {
		assert.True(t, c.Hides())
		assert.False(t, c.Off)
	}
}

// The share of an error that shows is 1 less that which gonum's projection on to the columns
// of the map's slopes takes up; these by differences.
func TestWhatShowsIsWhatIsNotProjected(t *testing.T) {
	points := noisy(3, &oblique, 0.2, 0.05, 0.4)
	f := fitOf(t, points)
	n := len(points)
	a := mat.NewDense(2*n, 8, nil)
	at := func(h [9]float64, i int) plan.Point {
		u, v := points[i].Right/1000, points[i].Down/1000
		w := h[6]*u + h[7]*v + h[8]
		return plan.Point{X: (h[0]*u + h[1]*v + h[2]) / w, Y: (h[3]*u + h[4]*v + h[5]) / w}
	}
	h := f.H
	for _, k := range []int{0, 1, 3, 4, 6, 7} {
		h[k] *= 1000
	}
	for k := range 8 {
		up, low := h, h
		d := 1e-6 * math.Max(math.Abs(h[k]), 1e-3)
		up[k], low[k] = up[k]+d, low[k]-d
		for i := range points {
			p, q, s := at(up, i), at(low, i), 2*d*float64(points[i].Doubt)
			a.Set(2*i, k, (p.X-q.X)/s)
			a.Set(2*i+1, k, (p.Y-q.Y)/s)
		}
	}
	var svd mat.SVD
	require.True(t, svd.Factorize(a, mat.SVDThin))
	var u mat.Dense
	svd.UTo(&u)
	for i := range points {
		block := mat.NewSymDense(2, nil)
		for r := range 2 {
			for c := r; c < 2; c++ {
				x := 0.0
				for k := range 8 {
					x -= u.At(2*i+r, k) * u.At(2*i+c, k)
				}
				if r == c {
					x++
				}
				block.SetSym(r, c, x)
			}
		}
		var e mat.EigenSym
		require.True(t, e.Factorize(block, false))
		assert.InDelta(t, e.Values(nil)[0], f.Checks[i].Least, 1e-5, "point %d", i+1)
	}
}

// A point that is out by many times its ± is off; one that is out by what its ± says is not,
// and no more is one of a picture whose ± are not said, unless it is out by a good part of
// how far the points span.
func TestAPointThatIsFarOff(t *testing.T) {
	off := func(points []plan.PicturePoint) (which []int) {
		for i, c := range fitOf(t, points).Checks {
			if c.Off {
				which = append(which, i)
			}
		}
		return which
	}
	for seed := range uint64(40) {
		assert.Empty(t, off(noisy(seed, &oblique, 0.2, 0.05, 0.4)), seed)
	}
	said := noisy(5, &oblique, 0.1)
	said[4].At.X += 3
	assert.Contains(t, off(said), 4)
	for _, east := range []float64{0.4, 8} {
		points := oblique.points(yard...)
		points[5].At.X += east
		if east > 1 {
			assert.NotEmpty(t, off(points))
		} else {
			assert.Empty(t, off(points))
		}
		points[5].Doubt = quantity.Length(100) // however little is said of it
		if east > 1 {
			assert.NotEmpty(t, off(points))
		}
	}
}
