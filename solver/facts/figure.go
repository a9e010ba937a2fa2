package facts

import (
	"math"

	"kedge/solver/part"
)

// Figure is one figure of a row in SI, resolved once, with how well the row is
// founded. An empty ID stands for no row: a factor of one, say.
type Figure struct {
	ID     ID
	X      float64
	Surety part.Surety
}

// Low is the low end of the row. Like the others it is for the ids of this
// package, and panics as Must does.
func (id ID) Low() Figure { row := Must(id); return row.figure(row.Low) }

// Likely is the middle of the row, the only figure of most.
func (id ID) Likely() Figure { row := Must(id); return row.figure(row.Likely) }

// High is the high end of the row.
func (id ID) High() Figure { row := Must(id); return row.figure(row.High) }

// Careful is the careful end of the row. Where no end is careful in every use
// the row is a single figure, or the rule that reads it says which end it takes:
// the middle then.
func (id ID) Careful() Figure {
	row := Must(id)
	x, ok := row.CarefulValue()
	if !ok {
		x = row.Likely
	}
	return row.figure(x)
}

// Table is the head of a table, whose figures are read by its columns: it has
// none of its own, NaN.
func (id ID) Table() Figure { row := Must(id); return row.figure(math.NaN()) }

// Value is the middle of the row in SI.
func (id ID) Value() float64 { return id.Likely().X }

func (r *Row) figure(x float64) Figure {
	return Figure{r.ID, x * r.ToSI(), part.SuretyOf(string(r.Surety))}
}
