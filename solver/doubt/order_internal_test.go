package doubt

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The order is that of comparing two at a time, ties and figures that are none with it.
func TestOrderIsThatOfComparing(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	odd := []float64{math.NaN(), 0, math.Copysign(0, -1), math.Inf(1), math.Inf(-1), 1, -1, math.SmallestNonzeroFloat64, -math.MaxFloat64}
	for _, n := range []int{0, 1, 2, 100, 3000} {
		x := make([]float64, n)
		for i := range x {
			switch r.IntN(3) {
			case 0:
				x[i] = odd[r.IntN(len(odd))]
			case 1:
				x[i] = float64(r.IntN(20) - 10)
			default:
				x[i] = r.NormFloat64() * math.Pow(10, float64(r.IntN(40)-20))
			}
		}
		want := make([]int, n)
		for i := range want {
			want[i] = i
		}
		slices.SortFunc(want, func(a, b int) int { return cmp.Or(cmp.Compare(x[a], x[b]), a-b) })
		assert.Equal(t, want, byFigure(x))
	}
}
