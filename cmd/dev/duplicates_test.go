package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostSame is how many lines in a row two functions may have alike. Blank lines,
// comments and those of braces alone do not count.
const mostSame = 5

// allowedDuplicates are the pairs of functions that may have more lines alike, and why.
var allowedDuplicates = map[string]string{
	"solver/effort/limit.go search.cost ~ solver/effort/limit.go search.lost": "the innermost loop of the search: cost stays free of the derivatives that lost has",
}

// Direct duplicates are one logic written twice: what mends one leaves the other wrong.
func TestDuplicates(t *testing.T) {
	const root = "../.."
	var all []body
	for _, name := range tracked(t, root) {
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
		if os.IsNotExist(err) {
			continue // deleted
		}
		require.NoError(t, err)
		found, err := bodies(name, text)
		require.NoError(t, err)
		all = append(all, found...)
	}
	require.Greater(t, len(all), 1000, "what is read is the project")

	seen := map[string]bool{}
	for _, d := range duplicates(all) {
		seen[d.pair] = true
		if allowedDuplicates[d.pair] == "" {
			t.Errorf("%s: %d lines alike, from %q", d.pair, d.lines, d.first)
		}
	}
	for pair := range allowedDuplicates {
		assert.True(t, seen[pair], "%s: no more alike, it need not be allowed", pair)
	}
}

func TestDuplicatesAreFound(t *testing.T) {
	const five = "a := 1\n\n\tb   := 2 // why\n/* of\ntwo */\n{\nc(a, b)\n}\nd := func() {\ne()\n}"
	read := func(name, text string) []body {
		found, err := bodies(name, []byte("package p\n"+text))
		require.NoError(t, err)
		return found
	}
	of := func(one, two string) (pairs []string) {
		for _, d := range duplicates(append(read("a/a.go", one), read("b/b.go", two)...)) {
			pairs = append(pairs, fmt.Sprintf("%s %d", d.pair, d.lines))
		}
		return pairs
	}
	f := func(body string) string { return "func f() {\n" + body + "\n}\n" }
	m := func(body string) string { return "func (t *T[K]) m() {\n" + body + "\n}\n" }

	assert.Empty(t, of(f(five), m(five)), "five lines are few")
	assert.Equal(t, []string{"a/a.go f ~ b/b.go T.m 6"}, of(f(five+"\ng()"), m("x()\n"+five+"\n\n\ng()\ny()")))
	assert.Equal(t, []string{"a/a.go f ~ a/a.go g 7"}, of(f(five+"\ng()\nh()")+strings.Replace(f(five+"\ng()\nh()"), " f", " g", 1), ""))
	assert.Equal(t, []string{"a/a.go f ~ a/a.go f 6"}, of(f(five+"\ng()\nnot()\n"+five+"\ng()"), ""), "in one function")
	assert.Empty(t, of(f(strings.Repeat("g()\n", 9)), ""), "a run does not pair with itself, shifted")
	assert.Empty(t, of(f(five), f("g()")+m(five)), "no run goes on in the next function")
	assert.Empty(t, of("var x = []int{\n1,\n2,\n3,\n4,\n5,\n6,\n7,\n}", "var x = []int{\n1,\n2,\n3,\n4,\n5,\n6,\n7,\n}"), "tables")
}

// body is what counts of a function's lines.
type body struct {
	name  string // file and function
	lines []string
}

// bodies are the functions of a file. Blank lines, comments and lines of braces
// alone are left out, spaces made one.
func bodies(name string, text []byte) (all []body, err error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.ParseComments)
	if err != nil {
		return nil, err
	}
	plain := slices.Clone(text)
	for _, group := range file.Comments {
		for i := set.Position(group.Pos()).Offset; i < min(set.Position(group.End()).Offset, len(plain)); i++ {
			if plain[i] != '\n' {
				plain[i] = ' '
			}
		}
	}
	for _, d := range file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Body == nil {
			continue
		}
		b := body{name: name + " " + nameOf(f)}
		for line := range strings.Lines(string(plain[set.Position(f.Body.Lbrace).Offset+1 : set.Position(f.Body.Rbrace).Offset])) {
			line = strings.Join(strings.Fields(line), " ")
			if strings.Trim(line, "{}(), ") != "" {
				b.lines = append(b.lines, line)
			}
		}
		all = append(all, b)
	}
	return all, nil
}

// nameOf is a function's name, with its receiver's type in front.
func nameOf(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return f.Name.Name
	}
	of := f.Recv.List[0].Type
	for {
		switch x := of.(type) {
		case *ast.StarExpr:
			of = x.X
		case *ast.IndexExpr:
			of = x.X
		case *ast.IndexListExpr:
			of = x.X
		case *ast.Ident:
			return x.Name + "." + f.Name.Name
		default:
			return f.Name.Name
		}
	}
}

// duplicate is the longest run of lines that two functions have alike.
type duplicate struct {
	pair  string
	lines int
	first string // its first line
}

// duplicates are the pairs of functions with more than mostSame lines in a row alike.
func duplicates(all []body) (found []duplicate) {
	type place struct{ body, line int }
	at := map[string][]place{}
	longest := map[[2]int]duplicate{}
	for i := range all {
		lines := all[i].lines
		for k := 0; k+mostSame < len(lines); k++ {
			key := strings.Join(lines[k:k+mostSame+1], "\n")
			for _, p := range at[key] {
				n, other := 0, all[p.body].lines
				for p.line+n < len(other) && k+n < len(lines) && other[p.line+n] == lines[k+n] && (p.body != i || p.line+n < k) {
					n++
				}
				if pair := [2]int{p.body, i}; n > max(mostSame, longest[pair].lines) {
					longest[pair] = duplicate{all[p.body].name + " ~ " + all[i].name, n, lines[k]}
				}
			}
			at[key] = append(at[key], place{i, k})
		}
	}
	for _, d := range longest {
		found = append(found, d)
	}
	slices.SortFunc(found, func(a, b duplicate) int { return strings.Compare(a.pair, b.pair) })
	return found
}
