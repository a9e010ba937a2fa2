package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
)

// mutant is one change to a source: the bytes from one place to another, and
// what stands there instead.
type mutant struct {
	line     int    // of the change, from 1
	from, to int    // byte offsets
	put      string // instead
	change   string // as it is printed: "a < b  ->  <="
}

// apply is the source with the change made; no line moves but those within it.
func (u mutant) apply(source string) string { return source[:u.from] + u.put + source[u.to:] }

// swapped is what each operator becomes.
var swapped = map[token.Token]token.Token{
	token.LSS: token.LEQ, token.LEQ: token.LSS, token.GTR: token.GEQ, token.GEQ: token.GTR,
	token.ADD: token.SUB, token.SUB: token.ADD, token.ADD_ASSIGN: token.SUB_ASSIGN, token.SUB_ASSIGN: token.ADD_ASSIGN,
}

// opposite is what each function becomes, of the language and of math.
var opposite = map[string]string{"min": "max", "max": "min", "Min": "Max", "Max": "Min"}

// mutants are the changes that a source gives, in the order of their places:
// < and <= swapped, > and >=, min and max, + and −, and each factor of a product
// left out. Types are not looked at: a sum of texts without a literal gives a
// change that does not compile.
func mutants(source string) ([]mutant, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, "", source, parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("mutate: %w", err)
	}
	f := &finder{source: source, set: set}
	ast.Inspect(file, f.visit)
	slices.SortStableFunc(f.found, func(a, b mutant) int { return a.from - b.from })
	return f.found, nil
}

// finder collects the changes of one source.
type finder struct {
	source string
	set    *token.FileSet
	found  []mutant
}

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BinaryExpr:
		f.binary(n)
	case *ast.AssignStmt:
		if to, ok := swapped[n.Tok]; ok && !textual(n.Rhs[0]) {
			f.add(n, n.TokPos, n.TokPos+token.Pos(len(n.Tok.String())), to.String())
		}
	case *ast.CallExpr:
		name, ok := n.Fun.(*ast.Ident)
		if s, selects := n.Fun.(*ast.SelectorExpr); selects {
			if of, named := s.X.(*ast.Ident); named && of.Name == "math" {
				name, ok = s.Sel, true
			}
		}
		if ok && opposite[name.Name] != "" {
			f.add(n, name.Pos(), name.End(), opposite[name.Name])
		}
	}
	return true
}

func (f *finder) binary(n *ast.BinaryExpr) {
	if n.Op == token.MUL {
		f.add(n, n.Pos(), n.Y.Pos(), "")
		f.add(n, n.X.End(), n.End(), "")
		return
	}
	if to, ok := swapped[n.Op]; ok && !textual(n) {
		f.add(n, n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), to.String())
	}
}

// textual reports whether a sum has a text among its terms.
func textual(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.BasicLit:
		return e.Kind == token.STRING
	case *ast.BinaryExpr:
		return e.Op == token.ADD && (textual(e.X) || textual(e.Y))
	case *ast.ParenExpr:
		return textual(e.X)
	}
	return false
}

func (f *finder) add(whole ast.Node, from, to token.Pos, put string) {
	at := func(p token.Pos) int { return f.set.Position(p).Offset }
	u := mutant{line: f.set.Position(from).Line, from: at(from), to: at(to), put: put}
	was := f.source[at(whole.Pos()):at(whole.End())]
	is := f.source[at(whole.Pos()):u.from] + put + f.source[u.to:at(whole.End())]
	u.change = oneLine(was) + "  ->  " + oneLine(is)
	f.found = append(f.found, u)
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
