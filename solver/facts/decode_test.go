package facts_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
)

// minimal is a file of one sound row, but for the figures.
func minimal(id, figures string) string {
	return fmt.Sprintf("[[row]]\nid = %q\nroom = \"gear\"\ntitle = \"a row\"\nunit = \"1\"\nsource = \"a book\"\nsurety = \"ours\"\n%s\n", id, figures)
}

const sound = `lookup = "exact"
columns = ["key", "value"]
`

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, text, want string
	}{
		{"no toml", "row = [", `facts: f.toml: line line=1 `},
		{"unknown key", minimal("a.one", "value = 1\nvalu = 2"), `facts: f.toml: unknown-key key="row.valu"`},
		{"no id", minimal("", "value = 1"), `facts: f.toml: row 1: id is not lower-case words joined by dots and dashes`},
		{"id in capitals", minimal("A.one", "value = 1"), `facts: f.toml: row "A.one": id is not lower-case words joined by dots and dashes`},
		{"id of one word", minimal("one", "value = 1"), `facts: f.toml: row "one": id is not lower-case words joined by dots and dashes`},
		{"id ends in a dot", minimal("a.one.", "value = 1"), `facts: f.toml: row "a.one.": id is not lower-case words joined by dots and dashes`},
		{"no figures", minimal("a.one", ""), `facts: f.toml: row "a.one": needs value, or low, likely and high, or a table`},
		{"half a range", minimal("a.one", "low = 1\nhigh = 2"), `facts: f.toml: row "a.one": needs value, or low, likely and high, or a table`},
		{"value and range", minimal("a.one", "value = 1\nlow = 1"), `facts: f.toml: row "a.one": has both value and a range`},
		{"low above likely", minimal("a.one", "low = 3\nlikely = 2\nhigh = 4"), `facts: f.toml: row "a.one": low 3 is above likely 2`},
		{"likely above high", minimal("a.one", "low = 1\nlikely = 5\nhigh = 4"), `facts: f.toml: row "a.one": likely 5 is above high 4`},
		{"nan", minimal("a.one", "value = nan"), `facts: f.toml: row "a.one": low is not a finite number`},
		{"nan in the middle", minimal("a.one", "low = 1\nlikely = nan\nhigh = 2"), `facts: f.toml: row "a.one": likely is not a finite number`},
		{"infinite", minimal("a.one", "low = 1\nlikely = 2\nhigh = inf"), `facts: f.toml: row "a.one": high is not a finite number`},
		{"default without choice", minimal("a.one", "value = 1\ndefault = true"), `facts: f.toml: row "a.one": default without a choice`},
		{"careful", minimal("a.one", "value = 1\ncareful = \"middle\""), `facts: f.toml: row "a.one": careful "middle" is neither low nor high`},
		{"table and value", minimal("a.one", sound+"table = [[1, 2]]\nvalue = 1"), `facts: f.toml: row "a.one": has both a table and a figure`},
		{"lookup", minimal("a.one", "lookup = \"cubic\"\ncolumns = [\"key\", \"value\"]\ntable = [[1, 2]]"), `facts: f.toml: row "a.one": lookup "cubic" is unknown`},
		{"empty table", minimal("a.one", sound+"table = []"), `facts: f.toml: row "a.one": table is empty`},
		{"no values", minimal("a.one", "lookup = \"bands\"\ncolumns = [\"from\", \"to\"]\ntable = [[1, 2]]"), `facts: f.toml: row "a.one": columns: 2, needs at least 3`},
		{"column twice", minimal("a.one", "lookup = \"exact\"\ncolumns = [\"key\", \"key\"]\ntable = [[1, 2]]"), `facts: f.toml: row "a.one": columns: "key" is empty or used twice`},
		{"ragged", minimal("a.one", sound+"table = [[1, 2], [3]]"), `facts: f.toml: row "a.one": table: row 2 has 1 numbers for 2 columns`},
		{"nan in a table", minimal("a.one", sound+"table = [[1, nan]]"), `facts: f.toml: row "a.one": table: row 1, value is not a finite number`},
		{"keys fall", minimal("a.one", sound+"table = [[2, 1], [1, 1]]"), `facts: f.toml: row "a.one": table: row 2: keys do not ascend`},
		{"band backwards", minimal("a.one", "lookup = \"bands\"\ncolumns = [\"from\", \"to\", \"v\"]\ntable = [[5, 1, 1]]"), `facts: f.toml: row "a.one": table: row 1: band ends before it begins`},
		{"bands overlap", minimal("a.one", "lookup = \"bands\"\ncolumns = [\"from\", \"to\", \"v\"]\ntable = [[0, 5, 1], [4, 9, 1]]"), `facts: f.toml: row "a.one": table: row 2: band overlaps the one before`},
		{"id twice", minimal("a.one", "value = 1") + minimal("a.one", "value = 2"), `facts: f.toml: row "a.one": id is used twice`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rows, err := facts.Parse("f.toml", []byte(tt.text))
			require.ErrorContains(t, err, tt.want)
			assert.Nil(t, rows)
		})
	}
}

func TestParseRefusesUnknownWords(t *testing.T) {
	tests := []struct {
		name, room, title, unit, source, confidence, want string
	}{
		{"room", "kitchen", "a row", "1", "a book", "ours", `row "a.one": room "kitchen" is unknown`},
		{"title", "gear", "  ", "1", "a book", "ours", `row "a.one": title is empty`},
		{"unit", "gear", "a row", "furlong", "a book", "ours", `row "a.one": unit "furlong" is unknown`},
		{"source", "gear", "a row", "1", " ", "ours", `row "a.one": source is empty`},
		{"surety", "gear", "a row", "1", "a book", "certain", `row "a.one": surety "certain" is unknown`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := facts.Parse("f.toml", fmt.Appendf(nil, "[[row]]\nid = \"a.one\"\nroom = %q\ntitle = %q\nunit = %q\nsource = %q\nsurety = %q\nvalue = 1\n",
				tt.room, tt.title, tt.unit, tt.source, tt.confidence))
			assert.EqualError(t, err, "facts: f.toml: "+tt.want)
		})
	}
}

func TestParseSortsAndKeepsFigures(t *testing.T) {
	rows, err := facts.Parse("f.toml", []byte(minimal("b.two", "low = 1\nlikely = 2\nhigh = 4\ncareful = \"high\"")+minimal("a.one", "value = 7")))
	require.NoError(t, err)
	require.Len(t, rows, 2)
	assert.Equal(t, facts.ID("a.one"), rows[0].ID)
	assert.Equal(t, [3]float64{7, 7, 7}, [3]float64{rows[0].Low, rows[0].Likely, rows[0].High})
	assert.False(t, rows[0].IsRange())
	assert.True(t, rows[1].IsRange())
	conservative, ok := rows[1].ConservativeValue()
	assert.True(t, ok)
	assert.Equal(t, 4.0, conservative)
	assert.Equal(t, "f.toml", rows[1].File)

	var none facts.Row
	assert.True(t, math.IsNaN(none.ToSI()))
	assert.Nil(t, none.Cells())
	assert.False(t, none.IsTable())
}

// Factors to SI: pound, foot and inch are exact by the 1959 agreement,
// standard gravity by the 3rd CGPM.
func TestUnitsToSI(t *testing.T) {
	tests := []struct {
		unit string
		want float64
	}{
		{"1", 1}, {"%", 0.01}, {"cm", 0.01}, {"mm", 0.001}, {"in", 0.0254}, {"ft", 0.3048},
		{"lb", 0.45359237}, {"t", 1000}, {"kN", 1000}, {"MN", 1e6},
		{"kgf", 9.80665}, {"tf", 9806.65}, {"t rated", 9806.65},
		{"lbf", 4.4482216152605}, {"kipf", 4448.2216152605}, {"short ton rated", 8896.443230521},
		{"lbf/ft2", 47.880258980336}, {"MPa", 1e6}, {"N/mm2", 1e6}, {"GPa", 1e9}, {"kJ", 1000},
		{"km/h", 1 / 3.6}, {"mile/h", 0.44704}, {"J/cm2", 1e4}, {"min", 60},
		{"kN/cm2", 1e7}, {"N/mm2 d2", 1e6}, {"N/mm", 1e3}, {"kg/m mm2", 1e6}, {"1/cm", 100}, {"deg", 1},
	}
	for _, tt := range tests {
		t.Run(tt.unit, func(t *testing.T) {
			rows, err := facts.Parse("f.toml", fmt.Appendf(nil, "[[row]]\nid = \"a.one\"\nroom = \"gear\"\ntitle = \"a\"\nunit = %q\nsource = \"a\"\nsurety = \"ours\"\nvalue = 1\n", tt.unit))
			require.NoError(t, err)
			assert.InEpsilon(t, tt.want, rows[0].ToSI(), 1e-12)
		})
	}
}

// Whatever Parse takes is a sound set of rows; whatever it refuses is an
// error and never a panic.
func FuzzParse(f *testing.F) {
	f.Add([]byte(minimal("a.one", "value = 1")))
	f.Add([]byte(minimal("a.one", "low = 1\nlikely = 2\nhigh = 3")))
	f.Add([]byte(minimal("a.one", sound+"table = [[1, 2], [3, 4]]")))
	f.Add([]byte(minimal("a.one", "lookup = \"bands\"\ncolumns = [\"from\", \"to\", \"v\"]\ntable = [[0, 5, 1], [6, 9, 1]]")))
	f.Add([]byte(minimal("a.one", "value = nan")))
	f.Add([]byte("[[row]]\nid = 3"))
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := facts.Parse("fuzz.toml", data)
		if err != nil {
			if rows != nil {
				t.Fatal("rows beside an error")
			}
			return
		}
		for i, r := range rows {
			if i > 0 && rows[i-1].ID >= r.ID {
				t.Fatalf("not sorted: %s, %s", rows[i-1].ID, r.ID)
			}
			if r.Source == "" || r.Title == "" || !(r.ToSI() > 0) {
				t.Fatalf("unsound row %+v", r)
			}
			if !r.IsTable() && !(r.Low <= r.Likely && r.Likely <= r.High && !math.IsInf(r.High-r.Low, 0)) {
				if !math.IsInf(r.High-r.Low, 0) { // a range of ±1e308 overflows only the difference
					t.Fatalf("unsound figures %+v", r)
				}
			}
			for _, line := range r.Cells() {
				if v, ok := r.Step(line[0]); ok && math.IsNaN(v) {
					t.Fatalf("%s: Step gives NaN", r.ID)
				}
				if v, ok := r.Interp(line[0]); ok && v != line[1] {
					t.Fatalf("%s: Interp(%g) = %g, printed %g", r.ID, line[0], v, line[1])
				}
			}
			if _, ok := r.Step(math.NaN()); ok {
				t.Fatalf("%s: Step(NaN) answers", r.ID)
			}
		}
	})
}
