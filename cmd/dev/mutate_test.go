package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The expected changes are those that the language's own grammar gives (the Go
// specification, Operators): worked out by hand.
func TestMutants(t *testing.T) {
	for _, c := range []struct {
		name, body string
		want       []string
	}{
		{"below", "return a < b", []string{"a < b  ->  a <= b"}},
		{"at most", "return a <= b", []string{"a <= b  ->  a < b"}},
		{"above", "return a > b", []string{"a > b  ->  a >= b"}},
		{"at least", "return a >= b", []string{"a >= b  ->  a > b"}},
		{"equal is let be", "return a == b", nil},
		{"the language's min", "return min(a, b)", []string{"min(a, b)  ->  max(a, b)"}},
		{"the max of math", "return math.Max(a, b)", []string{"math.Max(a, b)  ->  math.Min(a, b)"}},
		{"another's Max", "return other.Max(a, b)", nil},
		{"sum", "return a + b", []string{"a + b  ->  a - b"}},
		{"difference", "return a - b", []string{"a - b  ->  a + b"}},
		{"added", "a += b", []string{"a += b  ->  a -= b"}},
		{"taken off", "a -= b", []string{"a -= b  ->  a += b"}},
		{"texts", "return a + \"x\" + b", nil},
		{"a text added", "a += b + \"x\"", nil},
		{"product", "return a * b", []string{"a * b  ->  b", "a * b  ->  a"}},
		{"three factors", "return a * b * c", []string{"a * b * c  ->  c", "a * b  ->  b", "a * b  ->  a", "a * b * c  ->  a * b"}},
		{"quotient is let be", "return a / b", nil},
		{"factor in brackets", "return a * (b + c)", []string{"a * (b + c)  ->  (b + c)", "a * (b + c)  ->  a", "b + c  ->  b - c"}},
		{"pointers", "var p *T; *p = a", nil},
		{"over two lines", "return a +\n\t\tb", []string{"a + b  ->  a - b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			source := "package p\n\nfunc f() {\n\t" + c.body + "\n}\n"
			all, err := mutants(source)
			require.NoError(t, err)
			var got []string
			for _, u := range all {
				got = append(got, u.change)
				assert.Equal(t, 4, u.line)
				assert.NotEqual(t, source, u.apply(source))
				_, err := mutants(u.apply(source))
				assert.NoError(t, err, "what is left is Go")
			}
			assert.Equal(t, c.want, got)
		})
	}
	_, err := mutants("package p\nfunc {")
	assert.Error(t, err)
}

func TestMutantChangesItsPlaceAlone(t *testing.T) {
	const source = "package p\n\nfunc f(a, b int) bool { return a < b && b < a }\n"
	all, err := mutants(source)
	require.NoError(t, err)
	require.Len(t, all, 2)
	assert.Equal(t, 3, all[1].line)
	assert.Equal(t, "package p\n\nfunc f(a, b int) bool { return a < b && b <= a }\n", all[1].apply(source))
}

// mutated runs the verb on a package with five changes: the machine fails
// where its commands contain one of these.
func mutated(t *testing.T, importPath string, fails map[string]bool, args ...string) (*fake, int) {
	m := ready(t)
	dir := t.TempDir()
	m.files[filepath.Join(dir, "a.go")] = "package a\n\nfunc f(a, b int) bool { return a < b || a > b || a+1 < b || a == 1-b }\n"
	text, err := json.Marshal(pkg{ImportPath: importPath, Dir: dir, GoFiles: []string{"a.go"}, TestGoFiles: []string{"a_test.go"}})
	require.NoError(t, err)
	m.outputs["go list"] = string(text)
	m.fails = fails
	status := dev(m, append([]string{"mutate", "./solver/a"}, args...))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left, "the tree is not touched")
	return m, status
}

func TestMutateNamesWhatNoTestNotices(t *testing.T) {
	m, status := mutated(t, "kedge/solver/a", nil)
	assert.Equal(t, 0, status)
	assert.Equal(t, []string{
		"solver/a/a.go:3: a < b  ->  a <= b",
		"solver/a/a.go:3: a > b  ->  a >= b",
		"solver/a/a.go:3: a+1  ->  a-1",
		"solver/a/a.go:3: a+1 < b  ->  a+1 <= b",
		"solver/a/a.go:3: 1-b  ->  1+b",
		"tried 5 of 5 changes: 0 killed (0 of them by the time limit), 5 survived, 0 not compiled",
	}, m.said)

	m, status = mutated(t, "kedge/solver/a", map[string]bool{"-overlay=": true})
	assert.Equal(t, 0, status)
	assert.Equal(t, []string{"tried 5 of 5 changes: 5 killed (0 of them by the time limit), 0 survived, 0 not compiled"}, m.said)
}

func TestMutateTriesASample(t *testing.T) {
	m, status := mutated(t, "kedge/canvas/sheet", nil, "-every", "3", "-seed", "4")
	assert.Equal(t, 0, status)
	assert.Equal(t, []string{
		"canvas/sheet/a.go:3: a > b  ->  a >= b",
		"canvas/sheet/a.go:3: 1-b  ->  1+b",
		"tried 2 of 5 changes: 0 killed (0 of them by the time limit), 2 survived, 0 not compiled",
	}, m.said)
}

func TestMutateRefuses(t *testing.T) {
	_, status := mutated(t, "kedge/canvas/sheets", nil)
	assert.Equal(t, 1, status, "a package that is not changed")
	m, status := mutated(t, "kedge/solver/a", map[string]bool{"go test": true})
	assert.Equal(t, 1, status, "tests that fail already would kill everything")
	assert.Contains(t, m.text(), "fail as they are")
	_, status = mutated(t, "kedge/solver/a", nil, "-every", "0")
	assert.Equal(t, 2, status)
	assert.Equal(t, 2, dev(ready(t), []string{"mutate"}))
}

// A change that does not compile, or runs on, is told from one that a test
// notices by what go test itself says.
func TestMutateTellsHowEachChangeEnded(t *testing.T) {
	for said, want := range map[string]string{
		"FAIL\tkedge/solver/a [build failed]\n": "0 killed (0 of them by the time limit), 0 survived, 1 not compiled",
		"panic: test timed out after 2m0s\n":    "1 killed (1 of them by the time limit), 0 survived, 0 not compiled",
		"--- FAIL: TestA (0.00s)\n":             "1 killed (0 of them by the time limit), 0 survived, 0 not compiled",
	} {
		trial := &trial{m: saying{ready(t), said}, dir: t.TempDir(), found: 1}
		require.NoError(t, trial.try(pkg{ImportPath: "kedge/solver/a"}, "a.go", mutant{}, ""))
		assert.Equal(t, "tried 1 of 1 changes: "+want, trial.summary(), strings.TrimSpace(said))
	}
}

// saying is a machine whose hidden commands all fail, saying this.
type saying struct {
	*fake
	says string
}

func (s saying) Quietly(command) (string, error) { return s.says, errStatus }
