package main

import (
	"cmp"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
)

// mutant is one change to a source. It is chosen when the tests run: what is
// computed in its place is asked of a function that knows the chosen number.
type mutant struct {
	name        string  // of the file, without its folder
	line, first int     // of the change, and the first of the whole that it changes
	last        int     // of that whole
	change      string  // as it is printed: "a < b  ->  a <= b"
	edits       []patch // none in the second of the two of a product
	out         bool    // the compiler does not take it
}

// patch puts a text in place of another; %d in it is the number of the mutant.
type patch struct {
	from, to int // byte offsets
	put      string
}

// chosen is a source that asks at each place of these mutants which is chosen;
// the first has this number, and one without a place is let be. No line moves.
func chosen(source string, all []mutant, number int) string {
	var edits []patch
	for i, u := range all {
		for _, e := range u.edits {
			if u.out {
				break
			}
			edits = append(edits, patch{e.from, e.to, strings.ReplaceAll(e.put, "%d", fmt.Sprint(number+i))})
		}
	}
	slices.SortStableFunc(edits, func(a, b patch) int { return cmp.Or(a.from-b.from, a.to-b.to) })
	var out strings.Builder
	at := 0
	for _, e := range edits {
		out.WriteString(source[at:e.from] + e.put)
		at = e.to
	}
	return out.String() + source[at:]
}

// asked is what each operator becomes, and what stands for it.
var asked = map[token.Token]struct {
	to   token.Token
	call string
}{
	token.LSS: {token.LEQ, "mutantLess"}, token.LEQ: {token.LSS, "mutantAtMost"},
	token.GTR: {token.GEQ, "mutantMore"}, token.GEQ: {token.GTR, "mutantAtLeast"},
	token.ADD: {token.SUB, "mutantSum"}, token.SUB: {token.ADD, "mutantDifference"},
	token.ADD_ASSIGN: {token.SUB_ASSIGN, ""}, token.SUB_ASSIGN: {token.ADD_ASSIGN, ""},
}

// opposite is what each function becomes, of the language and of math.
var opposite = map[string]string{"min": "max", "max": "min", "Min": "Max", "Max": "Min"}

// mutants are the changes that a source gives, each after those around it:
// < and <= swapped, > and >=, min and max, + and −, and each factor of a product
// left out. Types are not looked at: a sum of texts without a literal gives a
// change that does not compile.
func mutants(name, source string) ([]mutant, error) {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, name, source, parser.SkipObjectResolution)
	if err != nil {
		return nil, fmt.Errorf("mutate: %w", err)
	}
	f := &finder{name: name, source: source, set: set}
	ast.Inspect(file, f.visit)
	return f.found, nil
}

// finder collects the changes of one source.
type finder struct {
	name, source string
	set          *token.FileSet
	found        []mutant
}

func (f *finder) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.GenDecl:
		return n.Tok != token.CONST // a constant is not asked when the tests run
	case *ast.BinaryExpr:
		f.binary(n)
	case *ast.AssignStmt:
		if a, ok := asked[n.Tok]; ok && !textual(n.Rhs[0]) {
			f.add(n, n.TokPos, n.TokPos+2, a.to.String(), f.around(n.Rhs[0], "mutantTurned(%d, ")...)
		}
	case *ast.CallExpr:
		f.call(n)
	}
	return true
}

func (f *finder) call(n *ast.CallExpr) {
	switch fun := n.Fun.(type) {
	case *ast.Ident:
		if to := opposite[fun.Name]; to != "" {
			f.add(n, fun.Pos(), fun.End(), to, f.edit(fun.Pos(), n.Args[0].Pos(), "mutant"+strings.ToUpper(fun.Name[:1])+fun.Name[1:]+"(%d, "))
		}
	case *ast.SelectorExpr:
		if of, named := fun.X.(*ast.Ident); named && of.Name == "math" && opposite[fun.Sel.Name] != "" {
			to := opposite[fun.Sel.Name]
			f.add(n, fun.Sel.Pos(), fun.End(), to, f.edit(fun.Pos(), fun.End(), "mutantEither(%d, math."+fun.Sel.Name+", math."+to+")"))
		}
	}
}

func (f *finder) binary(n *ast.BinaryExpr) {
	instead := func(call string) []patch {
		return append(f.around(n, call+"(%d, "), f.edit(n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), ","))
	}
	if n.Op == token.MUL {
		f.add(n, n.Pos(), n.Y.Pos(), "", instead("mutantProduct")...)
		f.add(n, n.X.End(), n.End(), "")
		return
	}
	if a, ok := asked[n.Op]; ok && !textual(n) {
		f.add(n, n.OpPos, n.OpPos+token.Pos(len(n.Op.String())), a.to.String(), instead(a.call)...)
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

func (f *finder) at(p token.Pos) int   { return f.set.Position(p).Offset }
func (f *finder) line(p token.Pos) int { return f.set.Position(p).Line }

func (f *finder) edit(from, to token.Pos, put string) patch { return patch{f.at(from), f.at(to), put} }

// around makes an expression the arguments of a call.
func (f *finder) around(e ast.Expr, call string) []patch {
	return []patch{f.edit(e.Pos(), e.Pos(), call), f.edit(e.End(), e.End(), ")")}
}

// add finds a change: what is put from one place to another of the whole, and
// how the source asks for it.
func (f *finder) add(whole ast.Node, from, to token.Pos, put string, edits ...patch) {
	was := f.source[f.at(whole.Pos()):f.at(whole.End())]
	is := f.source[f.at(whole.Pos()):f.at(from)] + put + f.source[f.at(to):f.at(whole.End())]
	f.found = append(f.found, mutant{name: f.name, line: f.line(from), first: f.line(whole.Pos()), last: f.line(whole.End()),
		change: oneLine(was) + "  ->  " + oneLine(is), edits: edits})
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
