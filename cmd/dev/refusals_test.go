package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is refused is said by canvas/words, in every language. Nobody else makes
// a sentence for a person out of an error.

// shown are the packages whose errors a person reads.
var shown = []string{
	"solver/quantity", "solver/plan", "canvas/form", "canvas/remedy", "canvas/store", "canvas/survey", "canvas/exercise",
	"canvas/sheet", "canvas/board", "canvas/panel", "canvas/window", "cmd/kedge", "cmd/kedge-board",
}

// unsaid are the errors of those packages that no person reads as they are, each
// with the reason: file and text, or the beginning of the text.
var unsaid = map[string]string{
	"canvas/board/board.go: board: %w":                         "the first plan, words and kit of a board are built in",
	"canvas/form/list.go: %w: %q":                              "only a slip of the program asks for a member that there is not",
	"canvas/form/set.go: %w: ":                                 "only a slip of the program asks for a member that there is not",
	"canvas/sheet/excerpt.go: sheet: ":                         "a picture or page that was made here itself",
	"canvas/sheet/lists.go: sheet: list ":                      "lists are built in, and tested",
	"canvas/sheet/make.go: sheet: page ":                       "a page that cannot be drawn is a slip of the program, and framed",
	"canvas/store/picture.go: store: picture of unknown type ": "only what was read as PNG or JPEG is packed",
	"canvas/window/window.go: window: %w":                      "the first words and board of a window are built in",
	"cmd/kedge-board/main.go: -size ":                          "the terminal is told before a language is chosen",
	"cmd/kedge-board/main.go: one plan, not ":                  "the terminal is told before a language is chosen",
	"cmd/kedge-board/main.go: no window can be shown: ":        "the terminal is told before a language is chosen",
}

// ownText are the uses of an error's own text in those packages, each with the
// reason.
var ownText = map[string]string{
	"canvas/board/underlay.go": "the text for a developer of an error that wraps another",
	"canvas/survey/geojson.go": "what the decoder says stands in a refusal as its cause",
	"canvas/survey/gpx.go":     "what the decoder says stands in a refusal as its cause",
	"canvas/store/lock.go":     "the text for a developer of an error that is said as a refusal",
	"canvas/store/stamp.go":    "the text for a developer of an error that is said as a refusal",
	"canvas/survey/survey.go":  "two remarks are the same if their texts for a developer are",
	"solver/quantity/error.go": "the text for a developer of an error that is said as a refusal",
	"cmd/kedge/help.go":        "the texts themselves are damaged",
	"cmd/kedge/main.go":        "what the flags' reader says stands in a refusal as its cause",
}

// speaks are the functions that show a text to a person.
var speaks = []string{"say", "complain", "refused", "wrongUse", "notTaken"}

// refusalsAmiss are the errors of a file that a person would read in English
// whatever the language is, and the kinds of refusal that are in no table.
func (s source) refusalsAmiss(used map[string]bool) (found []string) {
	if !slices.Contains(shown, path.Dir(s.name)) || strings.HasSuffix(s.name, "_test.go") {
		return nil
	}
	tell := func(p token.Pos, format string, args ...any) {
		found = append(found, s.at(p)+": "+fmt.Sprintf(format, args...))
	}
	sentinels, kinds, table := s.declared()
	for _, k := range kinds {
		if !table[k.Name] {
			tell(k.Pos(), "the refusal %s is not in the table of its package: no test looks for its texts", k.Name)
		}
	}
	ast.Inspect(s.file, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		switch name := called(call.Fun); {
		case (name == "errors.New" || name == "fmt.Errorf") && !sentinels[call] && len(call.Args) > 0:
			text := firstText(call.Args[0])
			if !excused(unsaid, s.name+": "+text, used) {
				tell(call.Pos(), "the error %q would be read in English: refuse with a kind of the package's table", text)
			}
		case strings.HasSuffix(name, ".Error") && len(call.Args) == 0:
			if !excused(ownText, s.name, used) {
				tell(call.Pos(), "%s() is for developers: let words say the error", name)
			}
		case slices.Contains(speaks, name[strings.LastIndexByte(name, '.')+1:]):
			for _, a := range call.Args {
				if text := firstText(a); strings.Contains(text, " ") {
					tell(a.Pos(), "%q is said in English whatever the language is", text)
				}
			}
		}
		return true
	})
	return found
}

// declared are the calls that make a package's errors to branch on, its kinds
// of refusal, and what stands in its table of them.
func (s source) declared() (sentinels map[*ast.CallExpr]bool, kinds []*ast.Ident, table map[string]bool) {
	sentinels, table = map[*ast.CallExpr]bool{}, map[string]bool{}
	for _, d := range s.file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.VAR {
			continue
		}
		for _, spec := range g.Specs {
			v := spec.(*ast.ValueSpec)
			for i, x := range v.Values {
				switch x := x.(type) {
				case *ast.CallExpr:
					switch called(x.Fun) {
					case "errors.New":
						sentinels[x] = true
					case "refusal.Of", "kind":
						kinds = append(kinds, v.Names[i])
					}
				case *ast.CompositeLit:
					if strings.EqualFold(v.Names[i].Name, "refusals") {
						for _, e := range x.Elts {
							if id, ok := e.(*ast.Ident); ok {
								table[id.Name] = true
							}
						}
					}
				}
			}
		}
	}
	return sentinels, kinds, table
}

// called is the name of a function as it is called: "errors.New", "w.say".
func called(fun ast.Expr) string {
	switch fun := fun.(type) {
	case *ast.Ident:
		return fun.Name
	case *ast.SelectorExpr:
		return called(fun.X) + "." + fun.Sel.Name
	}
	return ""
}

// firstText is the text that an expression begins with; empty if it begins with
// none.
func firstText(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		if s, err := strconv.Unquote(e.Value); err == nil {
			return s
		}
	case *ast.BinaryExpr:
		return firstText(e.X)
	}
	return ""
}

// excused reports whether what begins like this is on a list, and marks the
// entry.
func excused(list map[string]string, what string, used map[string]bool) bool {
	for begin := range list {
		if strings.HasPrefix(what, begin) {
			used[begin] = true
			return true
		}
	}
	return false
}

func TestRefusalRulesCatchWhatTheyAreFor(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a literal", `func f() error { return errors.New("it is too large") }`, `the error "it is too large" would be read in English`},
		{"a format", `func f() error { return fmt.Errorf("no sheet %q", "x") }`, `the error "no sheet %q" would be read in English`},
		{"to branch on", `var errX = errors.New("store: x")`, ""},
		{"its own text", `func f(err error) string { return err.Error() }`, "err.Error() is for developers"},
		{"a sentence", `func f(w window) { w.complain("Nothing was " + "copied") }`, `"Nothing was " is said in English`},
		{"a label", `func f(w window) { w.say(w.label("nothing-copied")) }`, ""},
		{"in no table", `var full = refusal.Of(nil, "store-full")`, "the refusal full is not in the table"},
		{"in its table", `var full = refusal.Of(nil, "store-full")` + "\n" + `var Refusals = []refusal.Kind{full}`, ""},
	} {
		s := parseSource(t, "canvas/store/x.go", []byte("package store\n\n"+c.text+"\n"))
		got := strings.Join(s.refusalsAmiss(map[string]bool{}), "; ")
		if c.want == "" {
			assert.Empty(t, got, c.name)
			continue
		}
		assert.Contains(t, got, c.want, c.name)
	}
	elsewhere := parseSource(t, "canvas/pen/x.go", []byte("package pen\n\nvar _ = f(errors.New(\"a b\"))\n"))
	assert.Empty(t, elsewhere.refusalsAmiss(map[string]bool{}), "nobody reads the errors of a pen as they are")
}
