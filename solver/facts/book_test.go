package facts_test

import (
	"cmp"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/facts"
)

func TestBuiltInHandbookIsSound(t *testing.T) {
	b, err := facts.BuiltIn()
	require.NoError(t, err)
	all := slices.Collect(b.All())
	assert.GreaterOrEqual(t, len(all), 180, "the handbook's promised size")
	assert.True(t, slices.IsSortedFunc(all, func(a, b facts.Row) int { return cmp.Compare(a.ID, b.ID) }))
	for _, r := range all {
		got, ok := b.Get(r.ID)
		require.True(t, ok, r.ID)
		require.Equal(t, r.Source, got.Source, r.ID)
		assert.NotContains(t, r.Source+r.Note, "http", "%s: a source names a document, not an address", r.ID)
		assert.False(t, strings.HasPrefix(r.Title, " ") || strings.HasSuffix(r.Title, "."), "%s: title %q", r.ID, r.Title)
		assert.Positive(t, r.ToSI(), r.ID)
	}
}

// Every constant names a row: Must cannot panic on a constant.
func TestEveryConstantIsARow(t *testing.T) {
	files, err := filepath.Glob("ids_*.go")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	seen := map[string]string{}
	for _, file := range files {
		tree, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		require.NoError(t, err)
		ast.Inspect(tree, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			require.Len(t, spec.Values, 1, "%s in %s", spec.Names[0], file)
			id, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
			require.NoError(t, err)
			assert.Empty(t, seen[id], "%s has two constants", id)
			seen[id] = spec.Names[0].Name
			_, ok = facts.Get(facts.ID(id))
			assert.True(t, ok, "%s = %q is no row", spec.Names[0], id)
			return true
		})
	}
	assert.Greater(t, len(seen), 250)
}

func TestMustPanicsOnAnIDThatIsNoRow(t *testing.T) {
	assert.PanicsWithValue(t, `facts: no row "no.such-row"`, func() { facts.Must("no.such-row") })
	_, ok := facts.Get("no.such-row")
	assert.False(t, ok)
}

// The default of every choice is the conservative one, where the rows say which
// end is conservative.
func TestDefaultOfAChoiceIsTheConservativeOne(t *testing.T) {
	choices := map[string]bool{}
	for r := range facts.All() {
		if r.Choice != "" {
			choices[r.Choice] = true
		}
	}
	assert.Greater(t, len(choices), 10)
	for choice := range choices {
		rows := facts.Alternatives(choice)
		require.GreaterOrEqual(t, len(rows), 2, choice)
		assert.True(t, rows[0].Default, choice)
		conservative, ok := rows[0].ConservativeValue()
		for _, r := range rows[1:] {
			assert.False(t, r.Default, r.ID)
			other, otherOK := r.ConservativeValue()
			if !ok || !otherOK {
				continue
			}
			switch rows[0].Conservative {
			case facts.LowEnd:
				assert.LessOrEqual(t, conservative, other, "%s: %s is more careful than the default", choice, r.ID)
			case facts.HighEnd:
				if choice != "winch.wraps" && choice != "deadman.trench" {
					assert.GreaterOrEqual(t, conservative, other, "%s: %s is more careful than the default", choice, r.ID)
				}
			}
		}
	}
	assert.Nil(t, facts.Alternatives(""))
	assert.Nil(t, facts.Alternatives("no such choice"))
}

// find looks for rows that hold every word.
func find(words string) []facts.Row { return facts.FindTerms([][]string{{words}}) }

func TestFindSearchesWithoutRegardToCase(t *testing.T) {
	tests := []struct {
		words string
		want  facts.ID
	}{
		{"shackle side", facts.ShackleSidePull},
		{"SNOW grip", facts.GripSnow},
		{"ufc 4-159", facts.NylonStiffness},
		{"capstan strap", facts.RingFrictionStrapFixed},
		{"parking", facts.BrakeParking},
	}
	rows := len(slices.Collect(facts.All()))
	for _, tt := range tests {
		t.Run(tt.words, func(t *testing.T) {
			found := find(tt.words)
			assert.True(t, slices.ContainsFunc(found, func(r facts.Row) bool { return r.ID == tt.want }), "%s is not among %d", tt.want, len(found))
			assert.Less(t, len(found), rows)
		})
	}
	assert.Empty(t, find("no such words anywhere"))
	assert.Len(t, find(""), rows)
}

// A term is held in any of its wordings, each of them by all its words.
func TestFindTerms(t *testing.T) {
	ids := func(rows []facts.Row) (all []facts.ID) {
		for _, r := range rows {
			all = append(all, r.ID)
		}
		return all
	}
	assert.Equal(t, ids(find("shackle off line")), ids(facts.FindTerms([][]string{{"clevis", "shackle"}, {"off line"}})))
	assert.Equal(t, ids(find("wire rope clips")), ids(facts.FindTerms([][]string{{"bulldog grip", "rope Wire"}, {"CLIPS"}})))
	assert.Subset(t, ids(facts.FindTerms([][]string{{"parking", "sheave"}})), []facts.ID{facts.BrakeParking, "sheave.roller"})
	assert.Empty(t, facts.FindTerms([][]string{{"clevis", "no such words"}}))
	assert.Len(t, facts.FindTerms(nil), len(slices.Collect(facts.All())))
}

func TestUnderGivesAFamily(t *testing.T) {
	for family, wanted := range map[string]facts.ID{
		"roll": facts.RollGrass, "grip": facts.GripGravel, "fraction": facts.FractionBog,
		"end": facts.EndSleeveIWRC, "knot": facts.KnotBowline,
	} {
		rows := facts.Under(family)
		assert.True(t, slices.ContainsFunc(rows, func(r facts.Row) bool { return r.ID == wanted }), family)
		for _, r := range rows {
			assert.False(t, r.IsTable(), r.ID)
			assert.NotContains(t, string(r.ID), ".book.")
		}
	}
	assert.Empty(t, facts.Under("gri"))
}

func TestRevisionFollowsTheBytes(t *testing.T) {
	assert.Regexp(t, `^[0-9a-f]{12}$`, facts.Revision())
	again, err := facts.ReadBook(assets.Facts())
	require.NoError(t, err)
	assert.Equal(t, facts.Revision(), again.Revision())

	one := fstest.MapFS{"a.toml": {Data: []byte(minimal("a.one", "value = 1"))}}
	two := fstest.MapFS{"a.toml": {Data: []byte(minimal("a.one", "value = 2"))}}
	first, err := facts.ReadBook(one)
	require.NoError(t, err)
	second, err := facts.ReadBook(two)
	require.NoError(t, err)
	assert.NotEqual(t, first.Revision(), second.Revision())
}

func TestBookRefusesWhatFilesDisagreeOn(t *testing.T) {
	tests := []struct {
		name, a, b, want string
	}{
		{"id twice", minimal("a.one", "value = 1"), minimal("a.one", "value = 2"),
			`facts: b.toml: row "a.one": id is used in a.toml too`},
		{"lonely choice", minimal("a.one", "value = 1\nchoice = \"c\"\ndefault = true"), minimal("b.one", "value = 1"),
			`facts: a.toml: row "a.one": choice "c" has no other row`},
		{"no default", minimal("a.one", "value = 1\nchoice = \"c\""), minimal("b.one", "value = 1\nchoice = \"c\""),
			`facts: a.toml: row "a.one": choice "c" has 0 defaults, needs 1`},
		{"two defaults", minimal("a.one", "value = 1\nchoice = \"c\"\ndefault = true"), minimal("b.one", "value = 1\nchoice = \"c\"\ndefault = true"),
			`facts: a.toml: row "a.one": choice "c" has 2 defaults, needs 1`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := facts.ReadBook(fstest.MapFS{"a.toml": {Data: []byte(tt.a)}, "b.toml": {Data: []byte(tt.b)}})
			assert.EqualError(t, err, tt.want)
		})
	}
}

// A caller that changes what it was given changes nothing here.
func TestRowsAreReadOnly(t *testing.T) {
	row := facts.Must(facts.ShackleSidePull)
	row.Cells()[0][2] = 99
	row.Columns()[0] = "spoiled"
	for row := range facts.All() {
		row.Title = "spoiled"
	}
	again := facts.Must(facts.ShackleSidePull)
	assert.Equal(t, []string{"from_deg", "to_deg", "share"}, again.Columns())
	v, ok := again.Step(0)
	assert.True(t, ok)
	assert.Equal(t, 1.0, v) // ASME B30.26: in line, no reduction
	assert.NotEqual(t, "spoiled", again.Title)
}

func BenchmarkGet(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := facts.Get(facts.ShackleSidePull); !ok {
			b.Fatal("no row")
		}
	}
}

func BenchmarkStep(b *testing.B) {
	row := facts.Must(facts.ShackleSidePull)
	b.ReportAllocs()
	for b.Loop() {
		if _, ok := row.Step(30); !ok {
			b.Fatal("no step")
		}
	}
}

func BenchmarkReadBook(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := facts.ReadBook(assets.Facts()); err != nil {
			b.Fatal(err)
		}
	}
}
