package travel

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/statics"
)

// hills is a value along a way in closed form.
type hills func(sM float64) float64

func (h hills) all(sM float64) []float64      { return []float64{h(sM)} }
func (h hills) one(_ int, sM float64) float64 { return h(sM) }

// The greatest value along a way is found where it lies between the places of the grid,
// though another place of the grid is above all that lie beside it: parabolas of height
// 1 at 1 m, and a little more elsewhere.
func TestPeakBetweenPlaces(t *testing.T) {
	const endM = 5
	for _, topM := range []float64{3.125, 3.05, 4.9, 4.97} {
		h := hills(func(s float64) float64 { return max(1-0.5*(s-1)*(s-1), 1.0001-0.1*(s-topM)*(s-topM)) })
		p := newScan(h, even(endM, 0.25), nil).peak(0)
		require.True(t, p.known)
		assert.InDelta(t, topM, p.sM, 1e-6)
		assert.InDelta(t, 1.0001, p.value, 1e-9)
		assert.True(t, p.smooth)
	}
	// Beside a cut each side is looked at by itself; here the value jumps down at 3 m,
	// and its top lies just beyond, or just before.
	for _, topM := range []float64{2.9, 3.1} {
		h := hills(func(s float64) float64 {
			x := max(1-0.5*(s-1)*(s-1), 1.0001-0.1*(s-topM)*(s-topM))
			if (s >= 3) == (topM < 3) {
				x -= 0.2
			}
			return x
		})
		s := newScan(h, even(endM, 0.25), nil)
		s.cut(3, 0)
		p := s.peak(0)
		assert.InDelta(t, topM, p.sM, 1e-6)
		assert.InDelta(t, 1.0001, p.value, 1e-9)
	}
}

// The share of a part is greatest at the top of the parabola through the three moments
// about the greatest of them, however far apart they lie.
func TestTopOfThreeMoments(t *testing.T) {
	moments := func(at ...float64) (all []solver.Moment) {
		for _, s := range at {
			used := 0.8 - 0.03*(s-1.4)*(s-1.4)
			all = append(all, solver.Moment{AtM: s, Assessment: &solver.Assessment{Parts: []part.Part{{ID: "L1/1", Used: used}}}})
		}
		return all
	}
	for _, at := range [][]float64{{0, 1, 3}, {0, 0.5, 1.5, 2}, {1, 1.25, 1.5, 1.75}, {0.2, 1.9, 2.3}} {
		s, between := top(moments(at...), "L1/1")
		assert.True(t, between, "%v", at)
		assert.InDelta(t, 1.4, s, 1e-9, "%v", at)
	}
	for _, at := range [][]float64{{0, 1, 1.2}, {1.6, 2, 3}, {0, 1.4, 3}} {
		_, between := top(moments(at...), "L1/1")
		assert.False(t, between, "%v: it is greatest at a moment that there is", at)
	}
	assert.False(t, math.IsNaN(share(moments(0)[0], "none")))
}

// The highest or lowest place of a parabola through three of its points is its own.
func TestVertexOfAParabola(t *testing.T) {
	for _, x := range [][3]float64{{2, 3, 5}, {2.9, 3.2, 3.3}, {-1, 3.05, 4}} {
		for _, bend := range []float64{0.7, -0.2} {
			of := func(s float64) float64 { return 5 + bend*(s-3.1)*(s-3.1) }
			at, value, ok := vertex(x, [3]float64{of(x[0]), of(x[1]), of(x[2])})
			assert.True(t, ok)
			assert.InDelta(t, 3.1, at, 1e-9)
			assert.InDelta(t, 5, value, 1e-9)
		}
	}
	_, _, ok := vertex([3]float64{4, 5, 6}, [3]float64{0.81, 3.61, 8.41}) // its lowest place is 3.1
	assert.False(t, ok)
}

// A level that is passed there and back between two places of the grid is passed twice:
// (s − 3.1)² is below 0.001 for 0.0316 m either way.
func TestALevelPassedThereAndBackBetweenPlaces(t *testing.T) {
	const endM = 5
	for _, sign := range []float64{1, -1} {
		h := hills(func(s float64) float64 { return 2 + sign*(s-3.1)*(s-3.1) })
		all := newScan(h, even(endM, 0.25), nil).crossings(0, 2+sign*0.001, 0)
		if sign > 0 {
			require.NotEmpty(t, all)
			require.True(t, all[0].start)
			all = all[1:]
		}
		require.Len(t, all, 2)
		assert.InDelta(t, 3.1-math.Sqrt(0.001), all[0].sM, 1e-8)
		assert.InDelta(t, 3.1+math.Sqrt(0.001), all[1].sM, 1e-8)
		assert.Equal(t, sign < 0, all[0].rises)
		assert.Equal(t, sign > 0, all[1].rises)
	}
}

// A sheave that hauls: by its pin, ρ = (a − √(a² − b²))/b with a = 1 + κ² cos θ and
// b = 1 − κ²; round a ring e^(−μ(π − θ)); at a half turn the first is its efficiency.
func TestRatioOfASheaveThatHauls(t *testing.T) {
	for _, deg := range []float64{0, 40, 90, 150} {
		angle := deg * math.Pi / 180
		k := 0.1 / 1.9
		a, b := 1+k*k*math.Cos(angle), 1-k*k
		assert.InDelta(t, (a-math.Sqrt(a*a-b*b))/b, hauling(statics.Sheave{Eta: 0.9}, angle), 1e-12)
		assert.InDelta(t, math.Exp(-0.2*(math.Pi-angle)), hauling(statics.Sheave{Model: statics.Ring, Mu: 0.2}, angle), 1e-12)
	}
	assert.InDelta(t, 0.9, hauling(statics.Sheave{Eta: 0.9}, 0), 1e-12)
}

// A body whose direction turns by 0.4·s rad a metre goes on a clothoid: x = ∫ cos 0.2 s²,
// y = ∫ sin 0.2 s², here by two thousand steps of Simpson's rule.
func TestAClothoid(t *testing.T) {
	d := &drift{on: func(p *stance) bool {
		p.way, p.turnPerM = r3.Vector{X: math.Cos(p.turnRad), Y: math.Sin(p.turnRad)}, 0.4*p.sM
		return true
	}}
	start := stance{}
	d.on(&start)
	d.nodes = []stance{start}
	const endM, n = 2.1, 2000
	want := r3.Vector{}
	for k := range n + 1 {
		weight := 2 + 2*float64(k%2)
		if k == 0 || k == n {
			weight = 1
		}
		turn := 0.2 * math.Pow(endM*float64(k)/n, 2)
		want = want.Add(r3.Vector{X: math.Cos(turn), Y: math.Sin(turn)}.Mul(weight * endM / n / 3))
	}
	p, ok := d.at(endM)
	require.True(t, ok)
	assert.InDelta(t, endM, p.sM, 1e-12)
	assert.InDelta(t, 0.2*endM*endM, p.turnRad, 1e-9)
	assert.InDelta(t, want.X, p.ref.X, 1e-5)
	assert.InDelta(t, want.Y, p.ref.Y, 1e-5)
}
