package factstest

import (
	"io/fs"
	"math"
	"testing"

	"github.com/BurntSushi/toml"
)

// Case is one worked example. The names of inputs and answers end in their
// unit as the source has it: load_lb, between_deg, total_tons.
type Case struct {
	ID           string   `toml:"id"`
	Package      string   `toml:"room"` // effort, gear, hold, zone or statics: who checks it
	Title        string   `toml:"title"`
	Formula      string   `toml:"formula"`
	Source       string   `toml:"source"`
	Confidence   string   `toml:"surety"`  // as in package facts
	Printed      bool     `toml:"printed"` // the source prints the answer; else it was computed from the formula
	ToleranceRel float64  `toml:"tolerance_rel"`
	ToleranceAbs float64  `toml:"tolerance_abs"`
	ToleranceWhy string   `toml:"tolerance_why"`
	Facts        []string `toml:"facts"` // rows of the handbook it goes with
	Note         string   `toml:"note"`

	Inputs   map[string]any    `toml:"inputs"`
	Words    map[string]string `toml:"words"` // inputs that are words: species, layout
	Expected map[string]any    `toml:"expected"`
}

// Published loads one file of worked examples; a file that cannot be read or
// holds an unknown key fails the test.
func Published(t testing.TB, folder fs.FS, file string) []Case {
	t.Helper()
	data, err := fs.ReadFile(folder, file)
	if err != nil {
		t.Fatalf("published cases: %v", err)
	}
	var all struct {
		Case []Case `toml:"case"`
	}
	meta, err := toml.Decode(string(data), &all)
	if err != nil {
		t.Fatalf("published cases: %s: %v", file, err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		t.Fatalf("published cases: %s: unknown key %s", file, extra[0])
	}
	if len(all.Case) == 0 {
		t.Fatalf("published cases: %s: no cases", file)
	}
	return all.Case
}

// ByID returns the case of that id; none fails the test.
func ByID(t testing.TB, cases []Case, id string) Case {
	t.Helper()
	for _, c := range cases {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("published cases: no case %q", id)
	return Case{}
}

// In is a single input.
func (c Case) In(t testing.TB, name string) float64 {
	t.Helper()
	return single(t, c, name, c.Ins(t, name))
}

// Ins is a list of inputs; a single one is a list of one.
func (c Case) Ins(t testing.TB, name string) []float64 {
	t.Helper()
	return numbers(t, c, name, c.Inputs)
}

// Want is a single answer.
func (c Case) Want(t testing.TB, name string) float64 {
	t.Helper()
	return single(t, c, name, c.Wants(t, name))
}

// Wants is a list of answers; a single one is a list of one.
func (c Case) Wants(t testing.TB, name string) []float64 {
	t.Helper()
	return numbers(t, c, name, c.Expected)
}

// Check compares what was computed with the answers of that name, one by one,
// within the case's tolerance. NaN fails, and so does a differing count.
func (c Case) Check(t testing.TB, name string, got ...float64) {
	t.Helper()
	want := c.Wants(t, name)
	if len(got) != len(want) {
		t.Errorf("%s: %s: %d figures, want %d", c.ID, name, len(got), len(want))
		return
	}
	for i, w := range want {
		if !c.Within(w, got[i]) {
			t.Errorf("%s: %s[%d] = %.6g, want %.6g (%s; %s)", c.ID, name, i, got[i], w, c.ToleranceWhy, c.Source)
		}
	}
}

// rounding lets the last bit of an exact answer differ: relative.
const rounding = 1e-12

// Within reports whether got is want within the case's tolerance; false for
// NaN.
func (c Case) Within(want, got float64) bool {
	allowed := c.ToleranceAbs + (c.ToleranceRel+rounding)*math.Abs(want)
	return math.Abs(got-want) <= allowed
}

func single(t testing.TB, c Case, name string, list []float64) float64 {
	t.Helper()
	if len(list) != 1 {
		t.Fatalf("published cases: %s: %s has %d figures, not one", c.ID, name, len(list))
	}
	return list[0]
}

func numbers(t testing.TB, c Case, name string, from map[string]any) []float64 {
	t.Helper()
	value, there := from[name]
	if !there {
		t.Fatalf("published cases: %s: no figure %q", c.ID, name)
	}
	list, isList := value.([]any)
	if !isList {
		list = []any{value}
	}
	out := make([]float64, len(list))
	for i, v := range list {
		switch n := v.(type) {
		case int64:
			out[i] = float64(n)
		case float64:
			out[i] = n
		default:
			t.Fatalf("published cases: %s: %s is no number", c.ID, name)
		}
		if math.IsNaN(out[i]) || math.IsInf(out[i], 0) {
			t.Fatalf("published cases: %s: %s is not finite", c.ID, name)
		}
	}
	return out
}
