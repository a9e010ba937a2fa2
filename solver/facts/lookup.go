package facts

import (
	"math"
	"slices"
	"sort"
)

// Step reads the table's first value column at key x the way the source
// prints it: bands, steps or printed keys only. The value is in Unit.
//
// It reports false outside the printed range, for a key that is not printed
// where only printed keys count, for NaN, for a row that is no table, and
// for a curve (see Interp). In a gap between two bands (the books print
// whole degrees) the lower of the two neighbours is taken, which is the
// conservative one for every banded row of this handbook.
func (r *Row) Step(x float64) (value float64, ok bool) {
	return r.stepAt(x, r.keyColumns())
}

// StepOf is Step for the value column of that name.
func (r *Row) StepOf(column string, x float64) (value float64, ok bool) {
	c := slices.Index(r.columns, column)
	if c < r.keyColumns() {
		return 0, false
	}
	return r.stepAt(x, c)
}

// Interp reads the table's first value column at key x by straight lines
// between printed points. It reports false outside the printed range, for
// NaN, and wherever the source does not allow reading between its points.
func (r *Row) Interp(x float64) (value float64, ok bool) { return r.interpAt(x, 1) }

// InterpOf is Interp for the value column of that name.
func (r *Row) InterpOf(column string, x float64) (value float64, ok bool) {
	c := slices.Index(r.columns, column)
	if c < 1 {
		return 0, false
	}
	return r.interpAt(x, c)
}

// keyTolerance is how far a computed key may miss a printed one and still be
// it, relative above 1, else absolute: unit conversion and acos leave an error
// in the last bits; 7 × 0.3048 is not the printed 2.1336, and must not fall
// outside the table for that.
const keyTolerance = 1e-9

// near reports whether x is the printed key within keyTolerance.
func near(x, key float64) bool {
	return math.Abs(x-key) <= keyTolerance*math.Max(1, math.Abs(key))
}

// printed is the index of the first printed key that x reaches up to, and
// whether x is that key.
func (r *Row) printed(x float64) (index int, is bool) {
	n := len(r.cells)
	i := sort.Search(n, func(i int) bool { return r.cells[i][0] >= x || near(x, r.cells[i][0]) })
	return i, i < n && near(x, r.cells[i][0])
}

func (r *Row) interpAt(x float64, column int) (float64, bool) {
	if r.lookup != curve || math.IsNaN(x) {
		return 0, false
	}
	i, is := r.printed(x)
	switch {
	case i == len(r.cells) || i == 0 && !is:
		return 0, false
	case is:
		return r.cells[i][column], true
	}
	lo, hi := r.cells[i-1], r.cells[i]
	t := (x - lo[0]) / (hi[0] - lo[0])
	return (1-t)*lo[column] + t*hi[column], true
}

func (r *Row) stepAt(x float64, column int) (float64, bool) {
	if math.IsNaN(x) {
		return 0, false
	}
	if r.lookup == stepBand {
		return r.bandAt(x, column)
	}
	i, is := r.printed(x)
	if i == len(r.cells) || i == 0 && !is {
		return 0, false
	}
	switch {
	case is && r.lookup != curve, r.lookup == stepTo:
		return r.cells[i][column], true
	case r.lookup == stepFrom:
		return r.cells[i-1][column], true
	}
	return 0, false
}

// bandAt takes the first band that holds x, both edges included, so a shared
// edge belongs to the earlier band.
func (r *Row) bandAt(x float64, column int) (float64, bool) {
	for i, c := range r.cells {
		if (x >= c[0] || near(x, c[0])) && (x <= c[1] || near(x, c[1])) {
			return c[column], true
		}
		if i > 0 && x > r.cells[i-1][1] && x < c[0] {
			return math.Min(r.cells[i-1][column], c[column]), true
		}
	}
	return 0, false
}
