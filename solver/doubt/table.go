package doubt

import (
	"math"
	"sync"
	"sync/atomic"
)

// Table is a sample: columns of figures, a row a trial. The rows of the sixteen sets
// follow one another, Per rows each.
type Table struct {
	Per     int
	Columns [][]float64
}

// Draw makes a table with a column for each figure of y. It starts f once a worker:
// what start returns is used by one goroutine alone, is given a point u of dims figures
// between 0 and 1, and writes the row. A worker more or less changes no bit. What is
// given up has rows of zeros.
func Draw(dims, columns int, q Request, start func() func(u, y []float64)) *Table {
	per := q.Per
	t := &Table{Per: per, Columns: make([][]float64, columns)}
	for c := range t.Columns {
		t.Columns[c] = make([]float64, Sets*per)
	}
	size := min(per, blockPoints)
	blocks := per / size
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(1, q.Workers) {
		all.Go(func() {
			f, u, y := start(), make([]float64, dims*size), make([]float64, columns)
			for {
				b := int(next.Add(1)) - 1
				if b >= Sets*blocks {
					return
				}
				set, from := b/blocks, b%blocks*size
				points(u, dims, from, set, q.Seed)
				for i := range size {
					if q.given() {
						return
					}
					f(u[i*dims:(i+1)*dims:(i+1)*dims], y)
					for c := range y {
						t.Columns[c][set*per+from+i] = y[c]
					}
				}
			}
		})
	}
	all.Wait()
	return t
}

// Estimate is a figure with its standard error, taken from the spread of the sets.
type Estimate struct{ Value, Error float64 }

// tFifteen is the 97.5 % point of Student's t with fifteen degrees of freedom, from
// tables.
const tFifteen = 2.1314

// Interval is where the figure lies with a sureness of 95 %, as far as sampling goes.
func (e Estimate) Interval() (low, high float64) {
	return e.Value - tFifteen*e.Error, e.Value + tFifteen*e.Error
}

// Of is the estimate of what stat makes of rows from..to of a table: the value from
// all rows, the error from the sets.
func (t *Table) Of(stat func(from, to int) float64) Estimate {
	var sets [Sets]float64
	for s := range sets {
		sets[s] = stat(s*t.Per, (s+1)*t.Per)
	}
	return Estimate{Value: stat(0, Sets*t.Per), Error: spread(&sets)}
}

// Mean is the mean of a column; of a column of 0 and 1, a chance.
func (t *Table) Mean(column int) Estimate {
	return t.Of(func(from, to int) float64 { return mean(t.Columns[column][from:to]) })
}

// Chance is how often something holds of a row.
func (t *Table) Chance(holds func(row int) bool) Estimate {
	return t.Of(func(from, to int) float64 {
		n := 0
		for i := from; i < to; i++ {
			if holds(i) {
				n++
			}
		}
		return float64(n) / float64(to-from)
	})
}

// spread is the standard error of the mean of the sets' figures.
func spread(sets *[Sets]float64) float64 {
	return math.Sqrt(variance(sets[:]) / (Sets - 1)) // variance is over n
}

// mean is 0 of no figures.
func mean(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s / float64(max(1, len(x)))
}

// variance is the mean square distance from the mean.
func variance(x []float64) float64 {
	m, s := mean(x), 0.0
	for _, v := range x {
		s += (v - m) * (v - m)
	}
	return s / float64(max(1, len(x)))
}
