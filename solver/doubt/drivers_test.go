package doubt_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"gonum.org/v1/gonum/stat"

	"kedge/solver/doubt"
)

// The rank correlation is that of gonum of the ranks, which are here counted one by one:
// how many are less, and half of the others that are equal.
func TestRankCorrelationIsThatOfTheRanks(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	ranks := func(x []float64) []float64 {
		r := make([]float64, len(x))
		for i := range x {
			for j := range x {
				switch {
				case x[j] < x[i]:
					r[i]++
				case x[j] == x[i] && j != i:
					r[i] += 0.5
				}
			}
		}
		return r
	}
	for range 20 {
		x, y := make([]float64, 60), make([]float64, 60)
		for i := range x {
			x[i] = float64(random.IntN(12)) // some are equal
			y[i] = random.NormFloat64() + 0.2*x[i]
		}
		assert.InDelta(t, stat.Correlation(ranks(x), ranks(y), nil), doubt.RankCorrelation(x, y), 1e-12)
	}
}

// Of 3·x + z, both even between 0 and 1 and each with each, x has nine tenths of the
// variance and z one (closed form; means of fifty bins miss 1/50² of it).
func TestShareOfASum(t *testing.T) {
	var x, z, y []float64
	const n = 200
	for i := range n {
		for j := range n {
			x, z = append(x, (float64(i)+0.5)/n), append(z, (float64(j)+0.5)/n)
			y = append(y, 7+3*x[len(x)-1]+z[len(z)-1])
		}
	}
	assert.InDelta(t, 0.9, doubt.Share(x, y), 1e-3)
	assert.InDelta(t, 0.1, doubt.Share(z, y), 1e-3)
}
