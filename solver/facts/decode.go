package facts

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// Limits of what the decoder takes: far above the handbook, far below what
// would hurt.
const (
	maxFileBytes = 4 << 20
	maxRows      = 10_000
	maxCells     = 20_000 // of one table
)

// fileTOML is a file of the handbook as written.
type fileTOML struct {
	Row []rowTOML `toml:"row"`
}

type rowTOML struct {
	ID           string      `toml:"id"`
	Package      string      `toml:"room"`
	Title        string      `toml:"title"`
	Value        *float64    `toml:"value"`
	Low          *float64    `toml:"low"`
	Likely       *float64    `toml:"likely"`
	High         *float64    `toml:"high"`
	Lookup       string      `toml:"lookup"`
	Columns      []string    `toml:"columns"`
	Table        [][]float64 `toml:"table"`
	Unit         string      `toml:"unit"`
	Source       string      `toml:"source"`
	Confidence   string      `toml:"surety"`
	Note         string      `toml:"note"`
	Choice       string      `toml:"choice"`
	Default      bool        `toml:"default"`
	Conservative string      `toml:"careful"`
}

// Parse decodes and checks the rows of one file of the handbook, sorted by
// id. The name stands in errors, which give file, row and field:
//
//	facts: surfaces.toml: row "grip.gravel": low 0.5 is above likely 0.4
//
// Unknown keys, unknown confidences, units and packages, empty sources, values that
// are not finite and ids used twice are errors.
func Parse(name string, data []byte) ([]Row, error) {
	var file fileTOML
	var ok bool
	if file.Row, ok = quick(string(data)); !ok {
		if err := decodeStrict(name, data, &file); err != nil {
			return nil, err
		}
	}
	if len(file.Row) > maxRows {
		return nil, fmt.Errorf("facts: %s: %d rows, at most %d", name, len(file.Row), maxRows)
	}
	rows := make([]Row, 0, len(file.Row))
	for i, raw := range file.Row {
		row, err := raw.row(name)
		if err != nil {
			return nil, fmt.Errorf("facts: %s: row %s: %w", name, place(raw.ID, i), err)
		}
		rows = append(rows, row)
	}
	slices.SortFunc(rows, byID)
	for i := 1; i < len(rows); i++ {
		if rows[i].ID == rows[i-1].ID {
			return nil, fmt.Errorf("facts: %s: row %q: id is used twice", name, rows[i].ID)
		}
	}
	return rows, nil
}

func byID(a, b Row) int { return strings.Compare(string(a.ID), string(b.ID)) }

// place names a row in an error: its id, or its number in the file.
func place(id string, index int) string {
	if id == "" {
		return fmt.Sprintf("%d", index+1)
	}
	return fmt.Sprintf("%q", id)
}

// decodeStrict decodes TOML and refuses keys that nothing reads.
func decodeStrict(name string, data []byte, into any) error {
	if len(data) > maxFileBytes {
		return largeFile.At(name, len(data), maxFileBytes)
	}
	meta, err := toml.Decode(string(data), into)
	if err != nil {
		var syntax toml.ParseError
		if errors.As(err, &syntax) {
			return badLine.At(name, syntax.Position.Line, syntax.Message)
		}
		return notTOML.At(name).Because(err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return unknownKey.At(name, extra[0].String())
	}
	return nil
}

func (raw rowTOML) row(file string) (Row, error) {
	r := Row{
		ID: ID(raw.ID), Title: raw.Title, Package: Package(raw.Package), Unit: raw.Unit,
		Source: raw.Source, Confidence: Confidence(raw.Confidence), Note: raw.Note,
		Choice: raw.Choice, Default: raw.Default, Conservative: End(raw.Conservative), File: file,
	}
	switch {
	case !goodID(raw.ID):
		return Row{}, errors.New("id is not lower-case words joined by dots and dashes")
	case strings.TrimSpace(raw.Title) == "":
		return Row{}, errors.New("title is empty")
	case !slices.Contains(packages(), r.Package):
		return Row{}, fmt.Errorf("room %q is unknown", raw.Package)
	case strings.TrimSpace(raw.Source) == "":
		return Row{}, errors.New("source is empty")
	case !slices.Contains(Confidences(), r.Confidence):
		return Row{}, fmt.Errorf("surety %q is unknown", raw.Confidence)
	case raw.Default && raw.Choice == "":
		return Row{}, errors.New("default without a choice")
	case r.Conservative != NoEnd && r.Conservative != LowEnd && r.Conservative != HighEnd:
		return Row{}, fmt.Errorf("careful %q is neither low nor high", raw.Conservative)
	}
	if _, ok := unitSI[raw.Unit]; !ok {
		return Row{}, fmt.Errorf("unit %q is unknown", raw.Unit)
	}
	if raw.Table != nil || raw.Columns != nil || raw.Lookup != "" {
		return raw.table(r)
	}
	return raw.figures(r)
}

// figures takes value, or low, likely and high.
func (raw rowTOML) figures(r Row) (Row, error) {
	ranged := raw.Low != nil || raw.Likely != nil || raw.High != nil
	switch {
	case raw.Value != nil && ranged:
		return Row{}, errors.New("has both value and a range")
	case raw.Value != nil:
		r.Low, r.Likely, r.High = *raw.Value, *raw.Value, *raw.Value
	case raw.Low == nil || raw.Likely == nil || raw.High == nil:
		return Row{}, errors.New("needs value, or low, likely and high, or a table")
	default:
		r.Low, r.Likely, r.High = *raw.Low, *raw.Likely, *raw.High
	}
	for _, f := range []struct {
		name string
		v    float64
	}{{"low", r.Low}, {"likely", r.Likely}, {"high", r.High}} {
		if !finite(f.v) {
			return Row{}, fmt.Errorf("%s is not a finite number", f.name)
		}
	}
	if r.Low > r.Likely {
		return Row{}, fmt.Errorf("low %g is above likely %g", r.Low, r.Likely)
	}
	if r.Likely > r.High {
		return Row{}, fmt.Errorf("likely %g is above high %g", r.Likely, r.High)
	}
	return r, nil
}

// table takes columns, lookup and rows of numbers.
func (raw rowTOML) table(r Row) (Row, error) {
	if raw.Value != nil || raw.Low != nil || raw.Likely != nil || raw.High != nil {
		return Row{}, errors.New("has both a table and a figure")
	}
	if !slices.Contains([]string{stepFrom, stepTo, stepBand, stepKey, curve}, raw.Lookup) {
		return Row{}, fmt.Errorf("lookup %q is unknown", raw.Lookup)
	}
	r.columns, r.cells, r.lookup = raw.Columns, raw.Table, raw.Lookup
	r.Low, r.Likely, r.High = math.NaN(), math.NaN(), math.NaN()
	keys := r.keyColumns()
	if len(r.columns) <= keys {
		return Row{}, fmt.Errorf("columns: %d, needs at least %d", len(r.columns), keys+1)
	}
	for i, c := range r.columns {
		if strings.TrimSpace(c) == "" || slices.Contains(r.columns[:i], c) {
			return Row{}, fmt.Errorf("columns: %q is empty or used twice", c)
		}
	}
	if len(r.cells) == 0 {
		return Row{}, errors.New("table is empty")
	}
	if len(r.cells)*len(r.columns) > maxCells {
		return Row{}, fmt.Errorf("table has more than %d cells", maxCells)
	}
	for i, line := range r.cells {
		if len(line) != len(r.columns) {
			return Row{}, fmt.Errorf("table: row %d has %d numbers for %d columns", i+1, len(line), len(r.columns))
		}
		for j, v := range line {
			if !finite(v) {
				return Row{}, fmt.Errorf("table: row %d, %s is not a finite number", i+1, r.columns[j])
			}
		}
		if err := keysAscend(r, i); err != nil {
			return Row{}, err
		}
	}
	return r, nil
}

// keysAscend checks row i of a table against the row before it.
func keysAscend(r Row, i int) error {
	line := r.cells[i]
	if r.lookup == stepBand {
		if line[0] > line[1] {
			return fmt.Errorf("table: row %d: band ends before it begins", i+1)
		}
		if i > 0 && line[0] < r.cells[i-1][1] {
			return fmt.Errorf("table: row %d: band overlaps the one before", i+1)
		}
		if i > 0 && line[1] <= r.cells[i-1][1] {
			return fmt.Errorf("table: row %d: bands do not ascend", i+1)
		}
		return nil
	}
	if i > 0 && line[0] <= r.cells[i-1][0] {
		return fmt.Errorf("table: row %d: keys do not ascend", i+1)
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// goodID accepts words of a–z and 0–9 joined by single dots or dashes, two
// words at least, so that an id never needs quoting on a command line.
func goodID(id string) bool {
	if len(id) > 80 {
		return false
	}
	joined := false
	letter := false
	for _, c := range id {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			letter = true
		case (c == '.' || c == '-') && letter:
			joined, letter = true, false
		default:
			return false
		}
	}
	return joined && letter
}
