package doubt

import (
	"math"
	"slices"
)

// Band is the figure that a share of the weight lies below. The k-th of n figures of
// one weight stands at (k-1/2)/n, straight lines between. Weights nil: all alike. NaN:
// there is no weight.
func Band(x, weights []float64, share float64) float64 {
	return bands(x, weights, share)[0]
}

// bands is Band for some shares.
func bands(x, weights []float64, shares ...float64) []float64 {
	order := make([]int, 0, len(x))
	for i := range x {
		if weights == nil || weights[i] > 0 {
			order = append(order, i)
		}
	}
	inOrder(x, order)
	at, sum := make([]float64, len(order)), 0.0
	for k, i := range order {
		w := 1.0
		if weights != nil {
			w = weights[i]
		}
		at[k] = sum + w/2
		sum += w
	}
	out := make([]float64, len(shares))
	for j, share := range shares {
		k, _ := slices.BinarySearch(at, share*sum)
		switch {
		case len(order) == 0:
			out[j] = math.NaN()
		case k == 0:
			out[j] = x[order[0]]
		case k == len(order):
			out[j] = x[order[k-1]]
		default:
			low, high := x[order[k-1]], x[order[k]]
			out[j] = low + (high-low)*(share*sum-at[k-1])/(at[k]-at[k-1])
		}
	}
	return out
}
