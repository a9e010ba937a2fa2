package doubt

import "math"

// bins is into how many bins of equal count a column is sorted for [Share].
const bins = 50

// byFigure is the indices of x in rising order of it.
func byFigure(x []float64) []int {
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	inOrder(x, order)
	return order
}

// ranks are the places of the figures of x in rising order; equal ones share the mean
// of theirs. order is that of [byFigure].
func ranks(x []float64, order []int) []float64 {
	r := make([]float64, len(x))
	for from := 0; from < len(order); {
		to := from
		for to < len(order) && x[order[to]] == x[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			r[i] = float64(from+to-1) / 2
		}
		from = to
	}
	return r
}

// RankCorrelation is Spearman's: how far y goes up, or down, whenever x does, from -1
// to 1. NaN: one of the two does not change.
func RankCorrelation(x, y []float64) float64 {
	return ofRanks(ranks(x, byFigure(x)), ranks(y, byFigure(y)))
}

// ofRanks is RankCorrelation of ranks.
func ofRanks(a, b []float64) float64 {
	ma, mb, cov := mean(a), mean(b), 0.0
	for i := range a {
		cov += (a[i] - ma) * (b[i] - mb)
	}
	return cov / float64(len(a)) / math.Sqrt(variance(a)*variance(b))
}

// Share is the first-order share of x in the variance of y, from 0 to 1: the variance
// of the means of y in bins of equal count along x, over that of y. Sobol points need
// no correction for the scatter of the means. NaN: y does not change.
func Share(x, y []float64) float64 { return shareBy(byFigure(x), y) }

// shareBy is Share of what stands in an order.
func shareBy(order []int, y []float64) float64 {
	m, between := mean(y), 0.0
	for b := range bins {
		from, to := b*len(order)/bins, (b+1)*len(order)/bins
		s := 0.0
		for _, i := range order[from:to] {
			s += y[i]
		}
		if n := float64(to - from); n > 0 {
			between += n * (s/n - m) * (s/n - m)
		}
	}
	return between / float64(len(y)) / variance(y)
}

// Shares are the first-order and the total share of every input of f in the variance
// of its answer, by asking it per × 16 × (inputs + 2) times: Saltelli et al., Comput.
// Phys. Commun. 181 (2010) 259-270, and Jansen, Comput. Phys. Commun. 117 (1999) 35-43.
// f is given figures between 0 and 1, and is asked by many at once; 2 × inputs is at
// most [MaxDims].
func Shares(inputs, per int, seed uint64, workers int, f func(u []float64) float64) (first, total []Estimate) {
	t := Draw(2*inputs, inputs+2, Request{Per: per, Seed: seed, Workers: workers}, func() func(u, y []float64) {
		mixed := make([]float64, inputs)
		return func(u, y []float64) {
			a, b := u[:inputs], u[inputs:]
			y[inputs], y[inputs+1] = f(a), f(b)
			for i := range inputs {
				copy(mixed, a)
				mixed[i] = b[i]
				y[i] = f(mixed)
			}
		}
	})
	a, b := t.Columns[inputs], t.Columns[inputs+1]
	for i := range inputs {
		y := t.Columns[i]
		first = append(first, t.Of(func(from, to int) float64 {
			m, s := mean(b[from:to]), 0.0
			for k := from; k < to; k++ {
				s += (b[k] - m) * (y[k] - a[k])
			}
			return s / float64(to-from) / variance(a[from:to])
		}))
		total = append(total, t.Of(func(from, to int) float64 {
			s := 0.0
			for k := from; k < to; k++ {
				s += (a[k] - y[k]) * (a[k] - y[k])
			}
			return s / float64(to-from) / 2 / variance(a[from:to])
		}))
	}
	return first, total
}
