package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/zone"
)

// Every finding that a package can raise has its two sentences, and they use no
// value it does not carry.
func TestEveryRuleHasItsText(t *testing.T) {
	w := english(t, quantity.Metric)
	for pkg, rules := range map[string][]part.Rule{"effort": effort.Rules, "gear": gear.Rules, "hold": hold.Rules, "solver": solver.Rules, "travel": solver.PullRules, "zone": zone.Rules} {
		t.Run(pkg, func(t *testing.T) {
			require.NotEmpty(t, rules)
			for _, m := range w.Missing(rules) {
				t.Error(m)
			}
		})
	}
}

// Every formula, note, basis, remedy and word whose id stands in the solver's
// code has its text. Ids that are put together there are beyond this test.
func TestEveryIdInTheSolversCodeHasItsText(t *testing.T) {
	w := english(t, quantity.Metric)
	found := map[string]bool{}
	for _, dir := range []string{".", "effort", "gear", "hold", "zone"} {
		for _, use := range idsOf(t, filepath.Join("..", "..", "solver", dir)) {
			has := false
			switch use.section {
			case wordSection:
				has = !strings.HasPrefix(w.Word(use.id), "[")
			case noteSection:
				has = use.id == "" || !strings.HasPrefix(w.Note(use.id), "[")
			default:
				_, has = w.text(use.section, use.id, "")
			}
			found[use.section] = true
			assert.True(t, has, "%s: %s %q has no text", use.at, use.section, use.id)
		}
	}
	for _, section := range []string{formulaSection, noteSection, basisSection, remedySection, wordSection} {
		assert.True(t, found[section], "no id of a %s was found: this test has lost sight of them", section)
	}
}

// use is an id of a text in the solver's code.
type use struct{ section, id, at string }

// idsOf reads the Go files of a folder for ids of texts.
func idsOf(t *testing.T, dir string) []use {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	names = slices.DeleteFunc(names, func(n string) bool { return strings.HasSuffix(n, "_test.go") })
	set := token.NewFileSet()
	var files []*ast.File
	for _, name := range names {
		f, err := parser.ParseFile(set, name, nil, 0)
		require.NoError(t, err)
		files = append(files, f)
	}
	consts := map[string]string{}
	wordFuncs := map[string]bool{} // func(name, id string) part.Value { … UnitText … }
	for _, f := range files {
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if v, ok := s.(*ast.ValueSpec); ok && d.Tok == token.CONST {
						for i, n := range v.Names {
							if i < len(v.Values) {
								if text, ok := literal(v.Values[i]); ok {
									consts[n.Name] = text
								}
							}
						}
					}
				}
			case *ast.FuncDecl:
				if d.Recv == nil && d.Body != nil && len(d.Body.List) == 1 && mentions(d.Body, "UnitText") {
					wordFuncs[d.Name.Name] = true
				}
			}
		}
	}
	text := func(e ast.Expr) (string, bool) {
		if id, ok := e.(*ast.Ident); ok {
			s, ok := consts[id.Name]
			return s, ok
		}
		return literal(e)
	}
	var all []use
	add := func(section string, e ast.Expr) {
		if s, ok := text(e); ok && s != "" {
			all = append(all, use{section, s, set.Position(e.Pos()).String()})
		}
	}
	members := map[string]string{"Note": noteSection, "Basis": basisSection, "LowRule": wordSection, "HighRule": wordSection}
	for _, f := range files {
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				switch fun := n.Fun.(type) {
				case *ast.SelectorExpr:
					if fun.Sel.Name == "Add" && len(n.Args) >= 2 {
						add(formulaSection, n.Args[0])
					}
				case *ast.Ident:
					if wordFuncs[fun.Name] && len(n.Args) == 2 {
						add(wordSection, n.Args[1])
					}
				}
			case *ast.CompositeLit:
				isRemedy := mentions(n.Type, "Remedy")
				for _, e := range n.Elts {
					kv, ok := e.(*ast.KeyValueExpr)
					if !ok {
						continue
					}
					name, _ := kv.Key.(*ast.Ident)
					switch {
					case name == nil:
					case isRemedy && name.Name == "Do":
						add(remedySection, kv.Value)
					case members[name.Name] != "":
						add(members[name.Name], kv.Value)
					}
				}
			case *ast.AssignStmt:
				for i, l := range n.Lhs {
					if sel, ok := l.(*ast.SelectorExpr); ok && len(n.Lhs) == len(n.Rhs) && members[sel.Sel.Name] != "" {
						add(members[sel.Sel.Name], n.Rhs[i])
					}
				}
			}
			return true
		})
	}
	for name, text := range consts { // ids that the code keeps as constants
		if strings.HasPrefix(name, "Why") || strings.HasPrefix(name, "Rule") {
			all = append(all, use{wordSection, text, dir + ": " + name})
		}
	}
	slices.SortFunc(all, func(a, b use) int { return strings.Compare(a.at+a.id, b.at+b.id) })
	return all
}

func literal(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(l.Value)
	return s, err == nil
}

func mentions(n ast.Node, name string) (found bool) {
	if n == nil || n == ast.Expr(nil) {
		return false
	}
	ast.Inspect(n, func(n ast.Node) bool {
		if id, ok := n.(*ast.Ident); ok && id.Name == name {
			found = true
		}
		return !found
	})
	return found
}

// What a finding may name is often a word of the plan: each has its text.
func TestEveryWordOfThePlanHasItsText(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, id := range []string{
		plan.PlanHigh, plan.PlanLikely, plan.PlanLow,
		plan.PointRated, plan.PointBowEye, plan.PointHook, plan.PointPintle, plan.PointScrewEye, plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering,
		plan.HitchBasket, plan.HitchChoked, plan.HitchStraight,
		plan.HealthAlive, plan.HealthDoubtful, plan.HealthDead, plan.HealthRotten,
		"front", "rear", "fairlead", "hook-on point", "anchor", "block", "join", "hook", "knot", "damper", "shackle", "soft shackle",
		string(part.ZoneRecoil), string(part.ZoneBight), string(part.ZoneRelease), string(part.ZoneStandOff), string(part.ZoneTree), string(part.ZoneRollAway), string(part.ZoneSlide),
	} {
		assert.NotContains(t, w.Word(id), "[", "%q", id)
	}
}
