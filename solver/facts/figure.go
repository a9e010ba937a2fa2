package facts

import (
	"math"
	"sync"

	"kedge/solver/part"
)

// Figure is one figure of a row in SI, resolved once, with how well the row is
// founded. An empty ID stands for no row: a factor of one, say.
type Figure struct {
	ID         ID
	X          float64
	Confidence part.Confidence
}

// ends are the figures of a row.
type ends struct{ low, likely, high, conservative Figure }

// figures are those of every row, in the order of the rows. Sums of all packages ask
// for them over and over.
var figures = sync.OnceValue(func() []ends {
	rows := book().rows
	all := make([]ends, len(rows))
	for i := range rows {
		row := &rows[i]
		if row.IsTable() {
			head := row.figure(math.NaN())
			all[i] = ends{head, head, head, head}
			continue
		}
		conservative, ok := row.ConservativeValue()
		if !ok {
			conservative = row.Likely
		}
		all[i] = ends{row.figure(row.Low), row.figure(row.Likely), row.figure(row.High), row.figure(conservative)}
	}
	return all
})

// must are the figures of a row, and panics as Must does; those of a table are
// not numbers.
func (id ID) must() *ends { return &figures()[mustIndex(id)] }

// Low is the low end of the row. Like the others it is for the ids of this
// package, and panics as Must does.
func (id ID) Low() Figure { return id.must().low }

// Likely is the middle of the row, the only figure of most.
func (id ID) Likely() Figure { return id.must().likely }

// High is the high end of the row.
func (id ID) High() Figure { return id.must().high }

// Ends are the low end, the middle and the high end of the row.
func (id ID) Ends() (low, likely, high Figure) {
	e := id.must()
	return e.low, e.likely, e.high
}

// Conservative is the conservative end of the row. Where no end is conservative in every use
// the row is a single figure, or the rule that reads it says which end it takes:
// the middle then.
func (id ID) Conservative() Figure { return id.must().conservative }

// Table is the head of a table, whose figures are read by its columns: it has
// none of its own, NaN.
func (id ID) Table() Figure { return id.must().likely }

// Value is the middle of the row in SI.
func (id ID) Value() float64 { return id.Likely().X }

func (r *Row) figure(x float64) Figure {
	return Figure{r.ID, x * r.ToSI(), part.ConfidenceOf(string(r.Confidence))}
}
