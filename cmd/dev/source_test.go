package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What must hold of the sources beyond what a linter looks at.
const (
	// maxMethods is how many methods a type has at most: with more it is a
	// package that pretends to be a type.
	maxMethods = 150

	// maxFunction is how many lines a function has at most, its tables not
	// counted.
	maxFunction = 60
)

// source is a Go file of the project.
type source struct {
	name string // its path, with slashes
	set  *token.FileSet
	file *ast.File
}

func parseSource(t *testing.T, name string, text []byte) source {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, text, parser.ParseComments|parser.SkipObjectResolution)
	require.NoError(t, err)
	return source{name, set, file}
}

func (s source) line(p token.Pos) int { return s.set.Position(p).Line }

func (s source) at(p token.Pos) string { return fmt.Sprintf("%s:%d", s.name, s.line(p)) }

func TestSources(t *testing.T) {
	const root = "../.."
	names := tracked(t, root)
	var all []source
	for _, name := range names {
		full := filepath.Join(root, filepath.FromSlash(name))
		if info, err := os.Lstat(full); !strings.HasSuffix(name, ".go") || err != nil || !info.Mode().IsRegular() {
			continue
		}
		text, err := os.ReadFile(full)
		require.NoError(t, err)
		all = append(all, parseSource(t, name, text))
	}
	excuses := map[string]bool{}
	for _, s := range all {
		amiss := slices.Concat(s.documentsAmiss(names), s.whetherAmiss(), s.refusalsAmiss(excuses))
		if !strings.HasSuffix(s.name, "_test.go") {
			amiss = append(amiss, s.longFunctions()...)
		}
		for _, sentence := range amiss {
			t.Error(sentence)
		}
	}
	for _, list := range []map[string]string{unsaid, ownText} {
		for begin := range list {
			assert.True(t, excuses[begin], "%q excuses nothing any more", begin)
		}
	}
	for _, sentence := range wideTypes(all) {
		t.Error(sentence)
	}
}

// wideTypes are the types with too many methods, those of test files counted
// apart.
func wideTypes(all []source) (found []string) {
	count := map[string]int{}
	for _, s := range all {
		for _, d := range s.file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv == nil {
				continue
			}
			of := path.Dir(s.name) + "." + receiver(f.Recv.List[0].Type)
			if strings.HasSuffix(s.name, "_test.go") {
				of += " (tests)"
			}
			count[of]++
		}
	}
	for of, n := range count {
		if n > maxMethods {
			found = append(found, fmt.Sprintf("%s has %d methods: split it, %d is the most", of, n, maxMethods))
		}
	}
	slices.Sort(found)
	return found
}

// receiver is the name of a method's type.
func receiver(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return receiver(e.X)
	case *ast.IndexExpr:
		return receiver(e.X)
	case *ast.IndexListExpr:
		return receiver(e.X)
	case *ast.Ident:
		return e.Name
	}
	return "?"
}

// longFunctions are the functions with too many lines outside tables.
func (s source) longFunctions() (found []string) {
	for _, d := range s.file.Decls {
		if f, ok := d.(*ast.FuncDecl); ok && f.Body != nil {
			if n := s.length(f); n > maxFunction {
				found = append(found, fmt.Sprintf("%s: %s has %d lines: split it, %d is the most outside tables", s.at(f.Pos()), f.Name.Name, n, maxFunction))
			}
		}
	}
	return found
}

// length is how many lines a function has outside tables. A table is a
// composite literal; the lines of functions in it count.
func (s source) length(f *ast.FuncDecl) int {
	n := s.line(f.End()) - s.line(f.Pos()) + 1
	var visit func(inTable bool) func(ast.Node) bool
	visit = func(inTable bool) func(ast.Node) bool {
		return func(node ast.Node) bool {
			switch node := node.(type) {
			case *ast.CompositeLit:
				if !inTable {
					n -= max(0, s.line(node.Rbrace)-s.line(node.Lbrace)-1)
					for _, e := range node.Elts {
						ast.Inspect(e, visit(true))
					}
					return false
				}
			case *ast.FuncLit:
				if inTable {
					n += max(0, s.line(node.Body.Rbrace)-s.line(node.Body.Lbrace)-1)
					ast.Inspect(node.Body, visit(false))
					return false
				}
			}
			return true
		}
	}
	ast.Inspect(f.Body, visit(false))
	return n
}

var document = regexp.MustCompile(`[A-Za-z0-9_/-]*[A-Za-z0-9_-]\.md\b`)

// documentsAmiss are the documents that comments and texts name and that are
// not in the project. A name without its folder is one of any.
func (s source) documentsAmiss(names []string) (found []string) {
	has := func(doc string) bool {
		return slices.ContainsFunc(names, func(name string) bool { return name == doc || strings.HasSuffix(name, "/"+doc) })
	}
	say := func(p token.Pos, text string) {
		for _, doc := range document.FindAllString(text, -1) {
			if !has(doc) {
				found = append(found, fmt.Sprintf("%s: names %s, which is not in the project", s.at(p), doc))
			}
		}
	}
	for _, group := range s.file.Comments {
		for _, c := range group.List {
			say(c.Pos(), c.Text)
		}
	}
	if !strings.HasPrefix(s.name, "cmd/dev/") { // its tests make up files
		ast.Inspect(s.file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				say(lit.Pos(), lit.Value)
			}
			return true
		})
	}
	return found
}

var saysWhether = regexp.MustCompile(`^\w+ (says|tells|returns|gives)( true if| true when| whether| if)\b`)

// whetherAmiss are the comments of functions that answer yes or no and do not
// "report whether", as Go says it.
func (s source) whetherAmiss() (found []string) {
	ast.Inspect(s.file, func(n ast.Node) bool {
		var doc *ast.CommentGroup
		var results *ast.FieldList
		switch n := n.(type) {
		case *ast.FuncDecl:
			doc, results = n.Doc, n.Type.Results
		case *ast.Field: // a method of an interface, or a member that is a function
			if f, ok := n.Type.(*ast.FuncType); ok {
				doc, results = n.Doc, f.Results
			}
		}
		if doc == nil || results.NumFields() == 0 {
			return true
		}
		if first, ok := results.List[0].Type.(*ast.Ident); ok && first.Name == "bool" {
			if m := saysWhether.FindString(doc.Text()); m != "" {
				found = append(found, fmt.Sprintf("%s: %q: a function that answers yes or no reports whether", s.at(doc.Pos()), m))
			}
		}
		return true
	})
	return found
}

func TestSourceRules(t *testing.T) {
	lines := strings.Repeat("\tf()\n", maxFunction-2)
	rows := strings.Repeat("\t\t1,\n", maxFunction)
	for _, c := range []struct{ name, text, want string }{
		{"just not too long", "func f() {\n" + lines + "}\n", ""},
		{"too long", "func f() {\n" + lines + "\tf()\n}\n", "f has 61 lines"},
		{"a table", "func f() {\n\t_ = []int{\n" + rows + "\t}\n}\n", ""},
		{"a function in a table", "func f() {\n\t_ = []func(){\n\t\tfunc() {\n" + lines + "\tf()\n\t\t},\n\t}\n}\n", "f has 63 lines"},
		{"a table in a function in a table", "func f() {\n\t_ = []func(){\n\t\tfunc() {\n_ = []int{\n" + rows + "}\n\t\t},\n\t}\n}\n", ""},
		{"a document that is there", "// f is in docs/a.md, as in a.md.\nfunc f() {}\n", ""},
		{"a document that is not", "// f is as in b.md.\nfunc f() {}\n", "a.go:3: names b.md"},
		{"a document in a text", "const a = \"by other/a.md\"\n", "names other/a.md"},
		{"reports", "// f reports whether it is.\nfunc f() bool { return true }\n", ""},
		{"tells", "// f tells whether it is.\nfunc f() bool { return true }\n", "reports whether"},
		{"a method of an interface", "type i interface {\n\t// F says whether it is.\n\tF() (ok bool)\n}\n", "a.go:4: "},
		{"no yes or no", "// f says whether it is, in words.\nfunc f() string { return \"\" }\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := parseSource(t, "a.go", []byte("package a\n\n"+c.text))
			got := slices.Concat(s.longFunctions(), s.documentsAmiss([]string{"docs/a.md"}), s.whetherAmiss())
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1)
			assert.Contains(t, got[0], c.want)
		})
	}
	methods := "package a\n\ntype t[P any] int\n" + strings.Repeat("\nfunc (*t[P]) m() {}\n", maxMethods)
	assert.Empty(t, wideTypes([]source{parseSource(t, "x/a.go", []byte(methods)), parseSource(t, "x/a_test.go", []byte(methods))}))
	more := parseSource(t, "x/b.go", []byte("package a\n\nfunc (t[P]) n() {}\n"))
	assert.Equal(t, []string{"x.t has 151 methods: split it, 150 is the most"}, wideTypes([]source{parseSource(t, "x/a.go", []byte(methods)), more}))
}
