package doubt

import (
	"math"
	"sync"
	"sync/atomic"
)

// keyed is an index with the bits by which it is sorted.
type keyed struct {
	key uint64
	at  int
}

// sortKey is a figure as bits that rise with it: what is none first, as comparing has it,
// and nought without its sign.
func sortKey(x float64) uint64 {
	if math.IsNaN(x) {
		return 0
	}
	b := math.Float64bits(x + 0)
	if b>>63 == 1 {
		return ^b
	}
	return b | 1<<63
}

// inOrder sorts indices, which rise, by their figures; of equal ones the lower stays in
// front. It goes through the bytes of the figures, the last first, and over those that all
// have alike.
func inOrder(x []float64, order []int) {
	from, to := make([]keyed, len(order)), make([]keyed, len(order))
	var counts [8][256]int
	for k, i := range order {
		key := sortKey(x[i])
		from[k] = keyed{key, i}
		for b := range counts {
			counts[b][byte(key>>(8*b))]++
		}
	}
	for b := range counts {
		if len(from) == 0 || counts[b][byte(from[0].key>>(8*b))] == len(from) {
			continue
		}
		sum := 0
		for d := range counts[b] {
			counts[b][d], sum = sum, sum+counts[b][d]
		}
		for _, e := range from {
			at := &counts[b][byte(e.key>>(8*b))]
			to[*at] = e
			*at++
		}
		from, to = to, from
	}
	for k := range from {
		order[k] = from[k].at
	}
}

// shared does something for each of n, by so many workers.
func shared(n, workers int, do func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(1, min(workers, n)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
}
