package sheet_test

import (
	"math"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// example is one of the plans built into the program.
func example(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

func english(t testing.TB, sys quantity.System) *words.Words {
	t.Helper()
	w, err := words.New("en", sys)
	require.NoError(t, err)
	return w
}

func booklet(t testing.TB, p *plan.Plan, o sheet.Options) *sheet.Booklet {
	t.Helper()
	b, err := sheet.Make(p, o)
	require.NoError(t, err)
	return b
}

// near fails on NaN, which testify's InDelta passes when both are.
func near(t testing.TB, want, got, delta float64, what string) {
	t.Helper()
	if math.IsNaN(want) || math.IsNaN(got) || !(math.Abs(want-got) <= delta) {
		t.Errorf("%s: want %g ± %g, got %g", what, want, delta, got)
	}
}

// allText is everything written on a page, in one piece with ordinary spaces.
func allText(g *sheet.Page) string {
	return quantity.PlainSpaces(strings.Join(g.Texts(), " "))
}

// lacks fails if s has the text in it, without printing all of s.
func lacks(t testing.TB, s, text, what string) {
	t.Helper()
	if i := strings.Index(s, text); i >= 0 {
		t.Errorf("%s: %q stands in …%s…", what, text, s[max(0, i-30):min(len(s), i+len(text)+30)])
	}
}

// tool is a program that reads PDF; without it the test is passed over.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not installed (poppler-utils)")
	}
	return path
}

func temp(t *testing.T, name string) string { return filepath.Join(t.TempDir(), name) }

// everything is every kind of sheet without variants.
func everything() []sheet.Kind { return sheet.Kinds() }

// answered is the answer for the whole pull of a rig and what its things and parts are
// called.
func answered(p *plan.Plan, rig plan.ID, w *words.Words) (*solver.Assessment, words.Names) {
	a := travel.Whole(p, rig)
	return a, w.Naming(a, w.Names(p, rig))
}
