package walls

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// plain is a file that is no test.
func plain(imports ...string) []File { return []File{{Name: "a.go", Imports: imports}} }

// inTest is a package whose test file alone imports.
func inTest(imports ...string) []File {
	return []File{{Name: "a.go"}, {Name: "a_test.go", Test: true, Imports: imports}}
}

// Every rule, fed with made-up graphs: what it lets through, and what it says
// of a breach. want is a part of the one sentence expected, "" for none.
func TestRulesCatchWhatTheyAreFor(t *testing.T) {
	others := map[string][]string{
		"fyne.io/fyne/v2/app":         {"fyne.io/fyne/v2", "C"},
		"example.org/pretty":          {"example.org/inner"},
		"example.org/inner":           {"fyne.io/fyne/v2/theme"},
		"example.org/fit":             {"gonum.org/v1/gonum/optimize"},
		"github.com/stretchr/testify": {"os", "time"},
	}
	for _, c := range []struct {
		name string
		ours map[string][]File
		want string
	}{
		{"imports go down", map[string][]File{
			"solver": plain("fmt", "kedge/solver/gear", "kedge/solver/plan", "kedge/assets"), "assets": plain("embed")}, ""},
		{"an import goes up", map[string][]File{"solver/plan": plain("kedge/solver/part")},
			"solver/plan (level 2) imports solver/part (level 3)"},
		{"solver imports travel", map[string][]File{"solver": plain("kedge/solver/travel")},
			"solver (level 6) imports solver/travel (level 7)"},
		{"an import within a level", map[string][]File{"solver/travel": plain("kedge/solver/doubt")},
			"both are on level 7"},
		{"an exception within a level", map[string][]File{"canvas/sheet": plain("kedge/canvas/draw", "kedge/canvas/pen")}, ""},
		{"the exception the other way", map[string][]File{"canvas/pen": plain("kedge/canvas/draw")},
			"canvas/pen imports canvas/draw: both are on level 9"},
		{"a package nobody entered", map[string][]File{"solver/luck": plain("kedge/solver/plan")},
			"solver/luck is not in the table of levels: enter it in internal/walls/levels.go"},
		{"assets imports ours", map[string][]File{"assets": plain("kedge/solver/quantity")},
			"assets imports solver/quantity"},
		{"plan reads assets", map[string][]File{"solver/plan": plain("kedge/assets")},
			"solver/plan imports assets"},
		{"plan's tests read assets", map[string][]File{"solver/plan": inTest("kedge/assets")}, ""},

		{"the solver reads a file", map[string][]File{"solver/facts": plain("os")}, "solver/facts imports os"},
		{"the solver's tests read a file", map[string][]File{"solver/facts": inTest("os", "time")}, ""},
		{"the solver goes out below net", map[string][]File{"solver/zone": plain("net/http")}, "solver/zone imports net/http"},
		{"the solver starts a program", map[string][]File{"solver": plain("os/exec")}, "solver imports os/exec"},
		{"the solver throws dice", map[string][]File{"solver/doubt": plain("math/rand/v2")}, "solver/doubt imports math/rand/v2"},
		{"a name that only begins alike", map[string][]File{"solver/zone": plain("network", "math/randomised")}, ""},
		{"the solver's tests draw", map[string][]File{"solver/zone": inTest("kedge/canvas/pen"), "canvas/pen": plain()},
			"the solver reaches what shows it: kedge/solver/zone → kedge/canvas/pen"},

		{"gear's tests import hold", map[string][]File{"solver/gear": inTest("kedge/solver/hold"), "solver/hold": plain()},
			"solver/gear imports solver/hold: what it needs of it comes as an argument"},
		{"gear's outer tests import gear", map[string][]File{"solver/gear": inTest("kedge/solver/gear")}, ""},

		{"the window reaches Fyne", map[string][]File{
			"canvas/window": plain("fyne.io/fyne/v2/widget"), "cmd/kedge-board": {{Name: "main.go", Cgo: true, Imports: []string{"fyne.io/fyne/v2/app"}}}}, ""},
		{"the command line reaches Fyne through a module", map[string][]File{"cmd/kedge": plain("example.org/pretty")},
			"only canvas/window and cmd/kedge-board reach Fyne: kedge/cmd/kedge → example.org/pretty → example.org/inner → fyne.io/fyne/v2/theme"},
		{"the command line reaches Fyne through the window", map[string][]File{
			"cmd/kedge": plain("kedge/canvas/window"), "canvas/window": plain("fyne.io/fyne/v2")},
			"kedge/cmd/kedge → kedge/canvas/window → fyne.io/fyne/v2"},
		{"the board's tests reach Fyne", map[string][]File{"canvas/board": inTest("fyne.io/fyne/v2/test")},
			"kedge/canvas/board → fyne.io/fyne/v2/test"},
		{"the window imports what needs cgo", map[string][]File{"canvas/window": plain("fyne.io/fyne/v2/app")},
			"only cmd/kedge-board imports fyne.io/fyne/v2/app"},
		{"the window's tests import what needs cgo", map[string][]File{"canvas/window": inTest("fyne.io/fyne/v2/app")},
			"only cmd/kedge-board imports fyne.io/fyne/v2/app"},

		{"the board's program has a file without the constraint", map[string][]File{
			"cmd/kedge-board": {{Name: "main.go", Cgo: true}, {Name: "flags.go"}, {Name: "main_test.go", Test: true}}},
			"cmd/kedge-board/flags.go has no //go:build cgo"},
		{"cgo elsewhere", map[string][]File{"canvas/pen": plain("C")}, "canvas/pen uses cgo"},

		{"dev takes a module", map[string][]File{"cmd/dev": plain("os", "github.com/spf13/cobra")}, "cmd/dev imports github.com/spf13/cobra"},
		{"dev takes a room", map[string][]File{"cmd/dev": plain("kedge/solver/plan")}, "cmd/dev imports kedge/solver/plan"},
		{"dev's tests take a module", map[string][]File{"cmd/dev": inTest("github.com/stretchr/testify")}, ""},

		{"the minimiser as oracle", map[string][]File{"solver/statics": inTest("gonum.org/v1/gonum/optimize")}, ""},
		{"the minimiser as answer", map[string][]File{"solver/layout": plain("example.org/fit")},
			"gonum/optimize is for tests: kedge/solver/layout → example.org/fit → gonum.org/v1/gonum/optimize"},

		{"plan writes the file", map[string][]File{"solver/plan": plain("github.com/go-json-experiment/json/jsontext")}, ""},
		{"store writes it as well", map[string][]File{"canvas/store": plain("github.com/go-json-experiment/json")},
			"canvas/store imports github.com/go-json-experiment/json: only solver/plan does"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Graph{Ours: c.ours, Others: others}.Violations()
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1, "one breach, one sentence")
			assert.Contains(t, got[0], c.want)
		})
	}
}

func TestAPackageThatCannotBeReadIsABreach(t *testing.T) {
	assert.Equal(t, []string{"solver/zone cannot be read"}, Graph{Broken: []string{"solver/zone cannot be read"}}.Violations())
}

func TestParse(t *testing.T) {
	for _, c := range []struct {
		name, text string
		part, cgo  bool
	}{
		{"no constraint", "package a\n", true, false},
		{"cgo", "//go:build cgo\n\npackage a\n", true, true},
		{"cgo after a licence", "// Licence.\n\n//go:build cgo && linux\n\n// Package a.\npackage a\n", true, true},
		{"cgo on one system only", "//go:build cgo || windows\n\npackage a\n", true, false},
		{"no cgo", "//go:build !cgo\n\npackage a\n", true, false},
		{"another constraint", "//go:build linux\n\npackage a\n", true, false},
		{"too late", "package a\n\n//go:build cgo\n", true, false},
		{"ignored", "//go:build ignore\n\npackage main\n", false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, part, err := parse("a.go", c.text+"\nimport _ \"os\"\n")
			require.NoError(t, err)
			assert.Equal(t, c.part, part)
			assert.Equal(t, c.cgo, f.Cgo)
			assert.Equal(t, []string{"os"}, f.Imports)
		})
	}
	_, _, err := parse("a.go", "pack age")
	assert.Error(t, err)
}

func TestTextViolations(t *testing.T) {
	long := []byte(strings.Repeat("\n", maxLines+1))
	for _, c := range []struct {
		name, file string
		text       []byte
		want       string
	}{
		{"nothing", "README.md", []byte("see docs/works and ..shared things\n"), ""},
		{"a place outside", "README.md", []byte("one\nsee .." + "/shared/facts\n"), "README.md:2 mentions"},
		{"this machine", "a.go", []byte("// /" + "work/main\n"), "a.go:1 mentions"},
		{"no text", "a.png", []byte("\x89PNG\x00.." + "/shared"), ""},
		{"a long Go file", "a.go", long, "a.go has 801 lines"},
		{"just not too long", "a.go", long[1:], ""},
		{"a long table", "a.csv", long, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := textViolations(c.file, c.text)
			if c.want == "" {
				assert.Empty(t, got)
				return
			}
			require.Len(t, got, 1)
			assert.Contains(t, got[0], c.want)
		})
	}
}

func TestTrackedOutsideACheckout(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "bin"), 0o755))
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "docs"), 0o755))
	for _, name := range []string{"go.mod", "bin/kedge", "docs/a.md"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(foreign[0]+"\n"), 0o644))
	}
	names, err := Tracked(dir)
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{"go.mod", "docs/a.md"}, names)
	found, err := FileViolations(dir, append(names, "deleted.go"))
	require.NoError(t, err)
	assert.Len(t, found, 2)
}
