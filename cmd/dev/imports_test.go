package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// uses is what one of our packages needs of others, by import path.
type uses struct {
	imports, tests      []string // of its files, and of its test files, on any system
	reaches, testsReach []string // through other packages too; with its tests
	noCgo               []string // its files that are built without cgo
	broken              string   // why it cannot be read
}

// house is every package of the project by its path within the module.
type house map[string]uses

// listed is one package as go list prints it.
type listed struct {
	ImportPath                                        string
	GoFiles, Imports, TestImports, XTestImports, Deps []string
	Error                                             *struct{ Err string }
}

// list asks go list for every package of the project, those built for tests
// included, as they are on a system. It fetches nothing and needs no compiler.
func list(t *testing.T, system string, cgo bool) (all []listed) {
	c := exec.Command("go", "list", "-e", "-test", "-json=ImportPath,GoFiles,Imports,TestImports,XTestImports,Deps,Error", module+"/...")
	c.Env = append(os.Environ(), "GOPROXY=off", "CGO_ENABLED=0")
	if cgo {
		c.Env = append(c.Env, "CGO_ENABLED=1")
	}
	if system != "" {
		c.Env = append(c.Env, "GOOS="+system)
	}
	text, err := c.Output()
	require.NoError(t, err)
	for in := json.NewDecoder(strings.NewReader(string(text))); in.More(); {
		var p listed
		require.NoError(t, in.Decode(&p))
		all = append(all, p)
	}
	return all
}

// readHouse sees what a package imports on any system, and what other modules
// reach on the one the tests run on.
func readHouse(t *testing.T) house {
	h := house{}
	for _, p := range list(t, "", true) {
		path, forTests := strings.CutSuffix(p.ImportPath, ".test")
		own, isOwn := within(path)
		if !isOwn || strings.Contains(path, " ") { // a package built once more for a test
			continue
		}
		u := h[own]
		if forTests {
			u.testsReach = p.Deps
		} else {
			u.reaches = p.Deps
			u.testsReach = append(u.testsReach, p.Deps...)
		}
		if p.Error != nil {
			u.broken = p.Error.Err
		}
		h[own] = u
	}
	for _, system := range []string{"linux", "darwin", "windows", "freebsd"} {
		for _, cgo := range []bool{true, false} {
			for _, p := range list(t, system, cgo) {
				own, isOwn := within(p.ImportPath)
				u, known := h[own]
				if !isOwn || !known {
					continue
				}
				u.imports = append(u.imports, p.Imports...)
				u.tests = slices.Concat(u.tests, p.TestImports, p.XTestImports)
				if !cgo {
					u.noCgo = append(u.noCgo, p.GoFiles...)
				}
				h[own] = u
			}
		}
	}
	for own, u := range h {
		for _, l := range []*[]string{&u.imports, &u.tests, &u.noCgo} {
			slices.Sort(*l)
			*l = slices.Compact(*l)
		}
		h[own] = u
	}
	return h
}

// within is a package's path within the module, and whether it is in it.
func within(importPath string) (string, bool) {
	if importPath == module {
		return ".", true
	}
	return strings.CutPrefix(importPath, module+"/")
}

// among is the first of the packages that is or lies below one of the roots,
// "" for none.
func among(packages []string, roots ...string) string {
	for _, path := range packages {
		path, _, _ = strings.Cut(path, " ") // built once more for a test
		if slices.ContainsFunc(roots, func(r string) bool { return below(path, r) }) {
			return path
		}
	}
	return ""
}

// breaches lists every breach of the rules of imports, one sentence each.
func (h house) breaches() (found []string) {
	say := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	for _, own := range slices.Sorted(maps.Keys(h)) {
		u := h[own]
		if u.broken != "" {
			say("%s cannot be read: %s", own, u.broken)
			continue
		}
		found = append(found, order(own, u.imports)...)

		// The solver knows no clock, file, network or chance, no picture and no
		// command. Its tests may read files, and no more than that.
		if below(own, "solver") {
			for _, o := range outside {
				if path := among(u.imports, o); path != "" && !(own == drawsPlans && o == "math/rand") {
					say("%s imports %s: the solver's answer depends on the plan and the facts alone", own, path)
				}
			}
			if path := among(u.testsReach, fyne, module+"/canvas", module+"/cmd"); path != "" {
				say("%s reaches what shows it: %s", own, path)
			}
		}
		if among(u.reaches, module+"/"+drawsPlans) != "" && own != drawsPlans {
			say("%s reaches %s: plans drawn from seeds are for tests", own, drawsPlans)
		}
		if slices.Contains(apart, own) {
			for _, s := range apart {
				if s != own && among(slices.Concat(u.imports, u.tests), module+"/"+s) != "" {
					say("%s imports %s: what it needs of it comes as an argument from solver", own, s)
				}
			}
		}

		// Two packages reach the window toolkit, tests included, and one of
		// them the part of it that needs cgo. Without cgo that one is not there
		// at all, so that ./... builds everywhere.
		if path := among(u.testsReach, fyne); path != "" && own != panelPath && own != windowPath && own != boardPath {
			say("only %s, %s and %s reach Fyne: %s reaches %s", panelPath, windowPath, boardPath, own, path)
		}
		if own == boardPath {
			for _, f := range u.noCgo {
				say("%s/%s has no //go:build cgo", own, f)
			}
		} else {
			if among(u.testsReach, fyneApp) != "" {
				say("only %s reaches %s, which needs cgo: %s does", boardPath, fyneApp, own)
			}
			if among(u.imports, "C") != "" {
				say("%s uses cgo: only %s may", own, boardPath)
			}
		}

		if own == devPath { // it runs before anything is fetched
			for _, path := range u.imports {
				if first, _, _ := strings.Cut(path, "/"); first == module || strings.Contains(first, ".") {
					say("%s imports %s: it has the standard library alone", own, path)
				}
			}
		}
		if path := among(u.reaches, optimize); path != "" { // the oracle, never the answer
			say("gonum/optimize is for tests: %s reaches %s", own, path)
		}
		if path := among(slices.Concat(u.imports, u.tests), fastJSON); path != "" && own != planPath {
			say("%s imports %s: only %s does", own, path, planPath)
		}
	}
	return found
}

// order: a package imports only lower levels.
func order(own string, imports []string) (found []string) {
	say := func(format string, args ...any) { found = append(found, fmt.Sprintf(format, args...)) }
	level, known := levels[own]
	if own != assetsPackage && !known {
		say("%s is not in the table of levels: enter it in cmd/dev/levels_test.go, on the level above everything it has to import", own)
		return found
	}
	for _, path := range imports {
		other, isOwn := within(path)
		if !isOwn {
			continue
		}
		otherLevel, otherKnown := levels[other]
		switch {
		case own == assetsPackage:
			say("assets imports %s: it may import nothing of ours", other)
		case other == assetsPackage:
			if level < assetsFrom {
				say("%s imports assets: only packages from level %d on may, it is on level %d", own, assetsFrom, level)
			}
		case !otherKnown: // said once, where it is listed itself
		case otherLevel == level:
			if sameLevel[[2]string{own, other}] == "" {
				say("%s imports %s: both are on level %d, and the table of exceptions does not name the pair", own, other, level)
			}
		case otherLevel > level:
			say("%s (level %d) imports %s (level %d): imports go to lower levels only", own, level, other, otherLevel)
		}
	}
	return found
}

func TestImports(t *testing.T) {
	h := readHouse(t)
	require.Contains(t, h[devPath].imports, "os/exec", "what is read is the project")
	require.Contains(t, h[devPath].tests, "github.com/stretchr/testify/assert")
	require.Contains(t, h["canvas/store"].noCgo, "errno_windows.go", "and its files for other systems")
	require.NotEmpty(t, among(h[windowPath].reaches, fyne), "and what it reaches in other modules")
	require.NotEmpty(t, among(h["solver/statics"].testsReach, optimize), "and what its tests reach")
	for _, sentence := range h.breaches() {
		t.Error(sentence)
	}
}

// Each rule, fed with made-up packages: what it lets through, and what it says
// of a breach. want is a part of the one sentence expected, "" for none.
func TestImportRulesCatchWhatTheyAreFor(t *testing.T) {
	imports := func(paths ...string) uses { return uses{imports: paths, reaches: paths, testsReach: paths} }
	inTest := func(paths ...string) uses { return uses{tests: paths, testsReach: paths} }
	through := func(paths ...string) uses { return uses{reaches: paths, testsReach: paths} }
	for _, c := range []struct {
		name string
		own  string
		uses uses
		want string
	}{
		{"imports go down", "solver", imports("fmt", "kedge/solver/gear", "kedge/solver/plan", "kedge/assets"), ""},
		{"an import goes up", "solver/plan", imports("kedge/solver/part"), "solver/plan (level 2) imports solver/part (level 3)"},
		{"solver imports travel", "solver", imports("kedge/solver/travel"), "solver (level 6) imports solver/travel (level 7)"},
		{"an import within a level", "solver/travel", imports("kedge/solver/doubt"), "both are on level 7"},
		{"an exception within a level", "canvas/sheet", imports("kedge/canvas/draw", "kedge/canvas/pen"), ""},
		{"the exception the other way", "canvas/pen", imports("kedge/canvas/draw"), "canvas/pen imports canvas/draw: both are on level 9"},
		{"a package nobody entered", "solver/luck", imports("kedge/solver/plan"), "solver/luck is not in the table of levels"},
		{"assets imports what is there", "assets", imports("embed"), ""},
		{"assets imports ours", "assets", imports("kedge/solver/quantity"), "assets imports solver/quantity"},
		{"plan reads assets", "solver/plan", imports("kedge/assets"), "solver/plan imports assets"},
		{"plan's tests read assets", "solver/plan", inTest("kedge/assets"), ""},

		{"the solver reads a file", "solver/facts", imports("os"), "solver/facts imports os"},
		{"the solver's tests read a file", "solver/facts", inTest("os", "time"), ""},
		{"the solver goes out below net", "solver/zone", imports("net/http"), "solver/zone imports net/http"},
		{"the solver starts a program", "solver", imports("os/exec"), "solver imports os/exec"},
		{"the solver throws dice", "solver/doubt", imports("math/rand/v2"), "solver/doubt imports math/rand/v2"},
		{"plans are drawn from seeds", "solver/seeded", imports("math/rand/v2", "kedge/solver"), ""},
		{"tests draw plans", "cmd/kedge", inTest("kedge/solver/seeded"), ""},
		{"an answer draws plans", "canvas/board", imports("kedge/solver/seeded"), "canvas/board reaches solver/seeded: plans drawn from seeds are for tests"},
		{"a name that only begins alike", "solver/zone", imports("network", "math/randomised"), ""},
		{"the solver's tests draw", "solver/zone", inTest("kedge/canvas/pen [kedge/solver/zone.test]"), "solver/zone reaches what shows it: kedge/canvas/pen"},
		{"gear's tests import hold", "solver/gear", inTest("kedge/solver/hold"), "solver/gear imports solver/hold: what it needs"},
		{"gear's outer tests import gear", "solver/gear", inTest("kedge/solver/gear"), ""},

		{"panels reach Fyne", "canvas/panel", imports("fyne.io/fyne/v2/widget"), ""},
		{"the window reaches Fyne", "canvas/window", imports("fyne.io/fyne/v2/widget"), ""},
		{"the board reaches all of it", "cmd/kedge-board", imports("fyne.io/fyne/v2/app"), ""},
		{"the command line reaches Fyne through others", "cmd/kedge", through("example.org/pretty", "fyne.io/fyne/v2/theme"),
			"only canvas/panel, canvas/window and cmd/kedge-board reach Fyne: cmd/kedge reaches fyne.io/fyne/v2/theme"},
		{"the board's tests reach Fyne", "canvas/board", inTest("fyne.io/fyne/v2/test"), "canvas/board reaches fyne.io/fyne/v2/test"},
		{"the window imports what needs cgo", "canvas/window", imports("fyne.io/fyne/v2/app"), "only cmd/kedge-board reaches fyne.io/fyne/v2/app"},
		{"the window's tests import what needs cgo", "canvas/window", inTest("fyne.io/fyne/v2/app"), "only cmd/kedge-board reaches fyne.io/fyne/v2/app"},
		{"the board has a file without the constraint", "cmd/kedge-board", uses{noCgo: []string{"flags.go"}}, "cmd/kedge-board/flags.go has no //go:build cgo"},
		{"cgo elsewhere", "canvas/pen", imports("C"), "canvas/pen uses cgo"},

		{"dev takes a module", "cmd/dev", imports("os", "github.com/spf13/cobra"), "cmd/dev imports github.com/spf13/cobra"},
		{"dev takes a room", "cmd/dev", imports("kedge/solver/plan"), "cmd/dev imports kedge/solver/plan"},
		{"dev's tests take a module", "cmd/dev", inTest("github.com/stretchr/testify"), ""},
		{"the minimiser as oracle", "solver/statics", inTest("gonum.org/v1/gonum/optimize"), ""},
		{"the minimiser as answer", "solver/layout", through("example.org/fit", "gonum.org/v1/gonum/optimize"),
			"gonum/optimize is for tests: solver/layout reaches gonum.org/v1/gonum/optimize"},
		{"plan writes the file", "solver/plan", imports("github.com/go-json-experiment/json/jsontext"), ""},
		{"store writes it as well", "canvas/store", imports("github.com/go-json-experiment/json"),
			"canvas/store imports github.com/go-json-experiment/json: only solver/plan does"},
		{"a package that cannot be read", "solver/zone", uses{broken: "no"}, "solver/zone cannot be read: no"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := house{c.own: c.uses}.breaches()
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1, "one breach, one sentence")
			assert.Contains(t, got[0], c.want)
		})
	}
}

func TestEachExceptionIsWithinOneLevelAndHasAReason(t *testing.T) {
	for pair, reason := range sameLevel {
		assert.NotZero(t, levels[pair[0]], pair[0])
		assert.Equal(t, levels[pair[0]], levels[pair[1]], pair)
		assert.NotEmpty(t, reason, pair)
		assert.Empty(t, sameLevel[[2]string{pair[1], pair[0]}], "both ways would be a circle")
	}
}
