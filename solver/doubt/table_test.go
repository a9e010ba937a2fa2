package doubt_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/doubt"
)

// sampled is a table of one column of a function of two figures between 0 and 1.
func sampled(seed uint64, workers int, f func(a, b float64) float64) *doubt.Table {
	return doubt.Draw(2, 1, doubt.Request{Per: 2048, Seed: seed, Workers: workers}, func() func(u, y []float64) {
		return func(u, y []float64) { y[0] = f(u[0], u[1]) }
	})
}

func TestAnyNumberOfWorkersGivesTheSameBits(t *testing.T) {
	f := func(a, b float64) float64 { return math.Exp(a) * b }
	assert.Equal(t, sampled(7, 1, f), sampled(7, 8, f))
	assert.NotEqual(t, sampled(7, 1, f), sampled(8, 1, f))
}

// The error is the error: of a quarter circle (π/4), 95 % of the intervals of 200 seeds
// hold it; 0.90 to 0.99 is four standard deviations of that count.
func TestIntervalsHoldTheFigure(t *testing.T) {
	held := 0
	for seed := range uint64(200) {
		low, high := sampled(seed, 2, func(a, b float64) float64 {
			if math.Hypot(a, b) < 1 {
				return 1
			}
			return 0
		}).Mean(0).Interval()
		if low <= math.Pi/4 && math.Pi/4 <= high {
			held++
		}
	}
	assert.True(t, held >= 180 && held <= 198, "%d of 200", held)
}

// By hand: the k-th of n figures stands at (k-1/2)/n.
func TestBandsStandAtHalves(t *testing.T) {
	x := []float64{4, 1, 3, 2}
	assert.Equal(t, 2.5, doubt.Band(x, nil, 0.5))
	assert.Equal(t, 1.0, doubt.Band(x, nil, 0.05))
	assert.Equal(t, 4.0, doubt.Band(x, nil, 0.95))
	assert.Equal(t, 1.5, doubt.Band(x, nil, 0.25))
	assert.Equal(t, 1.5, doubt.Band(x, []float64{0, 1, 0, 1}, 0.5), "without weight it counts for nothing")
	assert.Equal(t, 2.25, doubt.Band([]float64{1, 3}, []float64{3, 1}, 0.6875), "halves of weights: 0.375 and 0.875")
	assert.True(t, math.IsNaN(doubt.Band(x, make([]float64, 4), 0.5)))
}

// Two pairs that tie share the mean of their ranks: 3/√(5·4.5), worked by hand as the
// correlation of ranks 0, 1.5, 1.5, 3 with 0, 1, 2, 3.
func TestEqualFiguresShareTheirRanks(t *testing.T) {
	assert.InDelta(t, 4.5/math.Sqrt(4.5*5), doubt.RankCorrelation([]float64{1, 5, 5, 9}, []float64{1, 2, 3, 4}), 1e-12)
	assert.Equal(t, -1.0, doubt.RankCorrelation([]float64{1, 2, 3}, []float64{9, 4, 2}))
	assert.True(t, math.IsNaN(doubt.RankCorrelation([]float64{1, 2}, []float64{3, 3})))
}
