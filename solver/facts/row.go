package facts

import (
	"math"
	"slices"
)

// ID names one row permanently, lower case with dots and dashes:
// "shackle.side-pull". The empty ID names nothing.
type ID string

// Confidence says how well a row is founded.
type Confidence string

// The five degrees, best first. FromMemory and CommonPractice are shown with
// a mark on screen; Ours is this program's own engineering judgement.
const (
	Published      Confidence = "published"       // seen in the document named as source
	SecondaryCopy  Confidence = "secondary copy"  // seen in a copy that repeats the source
	CommonPractice Confidence = "common practice" // seen in trade reproductions only
	FromMemory     Confidence = "from memory"     // recalled; an editable preset
	Ours           Confidence = "ours"            // judged or derived here
)

// Confidences lists the degrees, best first.
func Confidences() []Confidence {
	return []Confidence{Published, SecondaryCopy, CommonPractice, FromMemory, Ours}
}

// Package names the package of the solver that uses a row.
type Package string

// The packages that own rows.
const (
	Effort  Package = "effort"
	Gear    Package = "gear"
	Hold    Package = "hold"
	Zone    Package = "zone"
	Statics Package = "statics"
	Terrain Package = "terrain"
	Doubt   Package = "doubt"
)

func packages() []Package { return []Package{Effort, Gear, Hold, Zone, Statics, Terrain, Doubt} }

// End names the conservative end of a range.
type End string

// The conservative ends: Low for what holds (grip, hold, strength), High for what
// pulls or flies (resistance, energy). NoEnd where it depends on the use.
const (
	NoEnd    End = ""
	LowEnd   End = "low"
	HighEnd  End = "high"
	stepFrom     = "floor"  // the largest printed key not above x
	stepTo       = "ceil"   // the smallest printed key not below x
	stepBand     = "bands"  // first two columns are a band's edges, both included
	stepKey      = "exact"  // printed keys only
	curve        = "linear" // straight between printed points
)

// Row is one fact of the handbook. The zero value is no fact.
type Row struct {
	ID      ID
	Title   string // short words, lower case
	Package Package
	// Low, Likely and High are in Unit and equal for a single figure. A table
	// has no single figure: all three are NaN (see IsTable).
	Low, Likely, High float64
	Unit              string // of the figures or of a table's value columns; "1" for a pure number
	Source            string // the public document
	Confidence        Confidence
	Note              string // may be empty
	Choice            string // rows that answer the same question share it; may be empty
	Default           bool   // the conservative one of its Choice
	Conservative      End    // which end of the range errs on the conservative side
	File              string // the file of the handbook

	columns []string
	cells   [][]float64
	lookup  string
}

// IsTable reports whether the row is a table.
func (r *Row) IsTable() bool { return r.cells != nil }

// IsRange reports whether the row has a low and a high that differ.
func (r *Row) IsRange() bool { return !r.IsTable() && r.Low != r.High }

// ConservativeValue is the conservative end of the row, in Unit; ok is false for a
// table and where no end is conservative in every use.
func (r *Row) ConservativeValue() (value float64, ok bool) {
	switch {
	case r.IsTable():
		return 0, false
	case r.Low == r.High:
		return r.Likely, true
	case r.Conservative == LowEnd:
		return r.Low, true
	case r.Conservative == HighEnd:
		return r.High, true
	}
	return 0, false
}

// ToSI is the factor from the row's unit to SI (m, kg, N, Pa, J, s; degrees
// stay degrees). It is NaN for the zero Row.
func (r *Row) ToSI() float64 {
	if f, ok := unitSI[r.Unit]; ok {
		return f
	}
	return math.NaN()
}

// Columns returns the names of a table's columns, keys first; nil for a
// row that is no table.
func (r *Row) Columns() []string { return slices.Clone(r.columns) }

// Cells returns a copy of a table's rows of numbers; nil for a row that is
// no table.
func (r *Row) Cells() [][]float64 {
	if r.cells == nil {
		return nil
	}
	out := make([][]float64, len(r.cells))
	for i, c := range r.cells {
		out[i] = slices.Clone(c)
	}
	return out
}

// keyColumns is the number of leading columns that are keys.
func (r *Row) keyColumns() int {
	if r.lookup == stepBand {
		return 2
	}
	return 1
}
