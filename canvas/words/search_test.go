package words

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/quantity"
)

func TestSearch(t *testing.T) {
	for _, c := range []struct {
		query string
		want  []Term
	}{
		{"", nil},
		{"deflected", []Term{{"deflected", nil}}},
		{"clevis", []Term{{"clevis", []string{"shackle"}}}},
		{"D-rings side", []Term{{"D-rings", []string{"shackle"}}, {"side", nil}}},
		{"d ring", []Term{{"d ring", []string{"shackle"}}}},
		{"snatchblock", []Term{{"snatchblock", []string{"block"}}}},
		{"Snatch Blocks", []Term{{"Snatch Blocks", []string{"block"}}}},
		{"tree saver height", []Term{{"tree saver", []string{"trunk strap", "webbing"}}, {"height", nil}}},
		{"synthetic winch rope", []Term{{"synthetic winch rope", []string{"hmpe"}}}},
		{"stuck vehicle", []Term{{"stuck vehicle", []string{"mire", "surface fraction"}}}},
		{"ground anchor", []Term{{"ground anchor", []string{"deadman", "picket", "plate anchor", "screw anchor"}}}},
		{"Schäkel", []Term{{"Schäkel", []string{"shackle"}}}},
		{"Umlenkrollen", []Term{{"Umlenkrollen", []string{"block", "sheave"}}}},
		{"toter Mann", []Term{{"toter Mann", []string{"deadman"}}}},
		{"shackle", []Term{{"shackle", []string{"shackle"}}}},
	} {
		t.Run(c.query, func(t *testing.T) {
			got, err := Search(c.query)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
}

// Whatever stands for a thing of the handbook finds it, in every language, and
// no name is listed twice for it.
func TestEveryOtherNameFindsRows(t *testing.T) {
	ids := func(rows []facts.Row) (all []facts.ID) {
		for _, r := range rows {
			all = append(all, r.ID)
		}
		return all
	}
	own, err := otherNames()
	require.NoError(t, err)
	for _, lang := range Languages() {
		w, err := New(lang, quantity.Metric)
		require.NoError(t, err)
		n := 0
		for k, names := range w.own.texts {
			if k.section != searchSection {
				continue
			}
			rows := ids(facts.FindTerms([][]string{{k.id}}))
			assert.NotEmpty(t, rows, "%s: no row of the handbook holds it", k.id)
			seen := map[string]bool{}
			for name := range strings.SplitSeq(names, ",") {
				n++
				assert.False(t, seen[bare(name)], "%s: %q twice", k.id, name)
				seen[bare(name)] = true
				terms := readTerms(name, own)
				require.Len(t, terms, 1, "%q is read as one thing", name)
				assert.Contains(t, terms[0].Also, k.id, name)
				found := facts.FindTerms([][]string{append(terms[0].Also, terms[0].Typed)})
				assert.Subset(t, ids(found), rows, name)
			}
		}
		assert.Greater(t, n, 50, lang)
	}
}

// What practitioners call the gear (from memory) finds the rows of it, whatever the
// handbook calls it.
func TestThePractitionersWordFindsRows(t *testing.T) {
	for _, name := range []string{"snatch block", "pulley block", "winch ring", "tree strap", "tree saver", "trunk protector", "strop",
		"bow shackle", "D-ring", "anchor shackle", "clevis", "line damper", "line blanket", "recovery blanket", "snap-back", "whip",
		"holding power", "buried log", "stuck vehicle", "back-up anchor", "change of direction", "Baumgurt", "Richtungswechsel"} {
		terms, err := Search(name)
		require.NoError(t, err)
		var asked [][]string
		for _, term := range terms {
			asked = append(asked, append(term.Also, term.Typed))
		}
		assert.NotEmpty(t, facts.FindTerms(asked), name)
	}
}
