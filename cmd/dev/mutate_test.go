package main

import (
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
		{"three factors", "return a * b * c", []string{"a * b * c  ->  c", "a * b * c  ->  a * b", "a * b  ->  b", "a * b  ->  a"}},
		{"quotient is let be", "return a / b", nil},
		{"factor in brackets", "return a * (b + c)", []string{"a * (b + c)  ->  (b + c)", "a * (b + c)  ->  a", "b + c  ->  b - c"}},
		{"a constant", "const c = a + b", nil},
		{"pointers", "var p *T; *p = a", nil},
		{"over two lines", "return a +\n\t\tb", []string{"a + b  ->  a - b"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			source := "package p\n\nfunc f() {\n\t" + c.body + "\n}\n"
			all, err := mutants("a.go", source)
			require.NoError(t, err)
			var got []string
			for _, u := range all {
				got = append(got, u.change)
				assert.Equal(t, 4, u.line)
			}
			assert.Equal(t, c.want, got)
		})
	}
	_, err := mutants("a.go", "package p\nfunc {")
	assert.Error(t, err)
}

// What is asked when the tests run, worked out by hand.
func TestSourcesAskWhichChangeIsChosen(t *testing.T) {
	for is, want := range map[string]string{
		"a < b && b*c<=a":      "mutantLess(7, a , b) && mutantAtMost(8, mutantProduct(9, b,c),a)",
		"a - (b - c)":          "mutantDifference(7, a , (mutantDifference(8, b , c)))",
		"min(max(a, 0), b, c)": "mutantMin(7, mutantMax(8, a, 0), b, c)",
		"math.Max(a, b+c)":     "mutantEither(7, math.Max, math.Min)(a, mutantSum(8, b,c))",
	} {
		all, err := mutants("a.go", "package p\n\nvar x = "+is+"\n")
		require.NoError(t, err)
		assert.Equal(t, "package p\n\nvar x = "+want+"\n", chosen("package p\n\nvar x = "+is+"\n", all, 7))
	}
	all, err := mutants("a.go", "package p\n\nfunc f() { a -= b; c[i+1] += d }\n")
	require.NoError(t, err)
	all[0].out = true
	assert.Equal(t, "package p\n\nfunc f() { a -= b; c[mutantSum(3, i,1)] += mutantTurned(2, d) }\n",
		chosen("package p\n\nfunc f() { a -= b; c[i+1] += d }\n", all, 1))
}

// A package of its own, built and run: its changes, and which of them its test
// can notice, worked out by hand. The test asks f(2, 3): the least, 2, is not
// below 1; times 3 it is 6, and the two letters of the text, times 3, less 3, are
// 3 more. Two texts have no difference, which does not compile.
const (
	changedSource = `package a

import "math"

func f(a, b float64) float64 {
	least := min(a, b)
	if least < 1 {
		least = math.Max(a, b)
	}
	least *= b
	text := name + name
	least += float64(len(text))*b - 3
	return least
}

func unseen(a int) int { return a - 1 }

var name = "x"
`
	changedTest = `package a

import "testing"

func TestF(t *testing.T) {
	if got := f(2, 3); got != 9 {
		t.Fatal(got)
	}
}

func TestNothing(t *testing.T) {}
`
)

func TestMutateNamesWhatNoTestNotices(t *testing.T) {
	dir := t.TempDir()
	for name, text := range map[string]string{"go.mod": "module kedge\n\ngo 1.26\n", "solver/a/a.go": changedSource, "solver/a/a_test.go": changedTest} {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o700))
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600))
	}
	t.Chdir(dir)
	m := &speaking{host: newHost()}
	require.NoError(t, mutate(m, []string{"./solver/a"}))
	assert.Equal(t, []string{
		"solver/a/a.go:7: least < 1  ->  least <= 1  (no test comes to where it matters)",
		"solver/a/a.go:8: math.Max(a, b)  ->  math.Min(a, b)  (no test comes to where it matters)",
		"solver/a/a.go:16: a - 1  ->  a + 1  (no test comes to where it matters)",
		"tried 9 of 9 changes: 5 killed (0 of them by the time limit), 3 survived, 1 not compiled",
	}, m.said)
	m.said = nil
	require.NoError(t, mutate(m, []string{"./solver/a", "-every", "4", "-seed", "5"}))
	assert.Equal(t, []string{
		"solver/a/a.go:7: least < 1  ->  least <= 1  (no test comes to where it matters)",
		"tried 2 of 9 changes: 1 killed (0 of them by the time limit), 1 survived, 0 not compiled",
	}, m.said)

	m.said = nil
	require.NoError(t, mutate(m, []string{"./solver/a", "-within", "1ns"}))
	assert.Equal(t, "tried 9 of 9 changes: 0 killed (0 of them by the time limit), 8 survived, 1 not compiled", m.said[8])
	m.said = nil
	require.NoError(t, mutate(m, []string{"./solver/a", "-run", "^TestN"}))
	assert.Equal(t, "tried 9 of 9 changes: 0 killed (0 of them by the time limit), 8 survived, 1 not compiled", m.said[8])
	m.said = nil
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "b"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "b/b_test.go"), []byte("package b\n\nimport (\n\t\"testing\"\n\n\t_ \"kedge/solver/a\"\n)\n\nfunc TestB(t *testing.T) {}\n"), 0o600))
	require.NoError(t, mutate(m, []string{"./solver/a", "-by", "./b"}))
	assert.Equal(t, "tried 9 of 9 changes: 0 killed (0 of them by the time limit), 8 survived, 1 not compiled", m.said[8])

	require.NoError(t, os.WriteFile(filepath.Join(dir, "solver/a/b_test.go"), []byte("package a\n\nimport \"testing\"\n\nfunc TestB(t *testing.T) { t.Fail() }\n"), 0o600))
	assert.ErrorContains(t, mutate(m, []string{"./solver/a"}), "fail as they are", "tests that fail already would kill everything")
	require.NoError(t, os.WriteFile(filepath.Join(dir, "solver/a/c.go"), []byte("package a\n\nvar c = d\n"), 0o600))
	assert.ErrorContains(t, mutate(m, []string{"./solver/a"}), "do not build")
}

// speaking is the real machine; what it says is kept.
type speaking struct {
	*host
	said []string
}

func (s *speaking) Say(line string) { s.said = append(s.said, line) }

func TestMutateRefuses(t *testing.T) {
	m := ready(t)
	m.outputs["go list"] = `{"ImportPath": "kedge/canvas/sheets", "TestGoFiles": ["a_test.go"]}`
	assert.Equal(t, 1, dev(m, []string{"mutate", "./canvas/sheets"}), "a package that is not changed")
	assert.Equal(t, 2, dev(m, []string{"mutate", "./canvas/sheet", "-every", "0"}))
	assert.Equal(t, 2, dev(m, []string{"mutate", "./canvas/sheet", "-within", "0"}))
	assert.Equal(t, 2, dev(m, []string{"mutate"}))
}

// A change that runs on is told from one that a test notices by what the tests
// themselves say.
func TestMutateTellsHowEachChangeEnded(t *testing.T) {
	for said, want := range map[string]string{
		"panic: test timed out after 2m0s\n": "1 killed (1 of them by the time limit), 0 survived, 0 not compiled",
		"--- FAIL: TestA (0.00s)\n":          "1 killed (0 of them by the time limit), 0 survived, 0 not compiled",
	} {
		trial := &trial{m: ready(t), found: 1}
		trial.try(&changed{m: saying{ready(t), said}}, 1, mutant{}, []timed{{name: "TestA"}})
		assert.Equal(t, "tried 1 of 1 changes: "+want, trial.summary(), strings.TrimSpace(said))
	}
}

// saying is a machine whose hidden commands all fail, saying this.
type saying struct {
	*fake
	says string
}

func (s saying) Quietly(command) (string, error) { return s.says, errStatus }
