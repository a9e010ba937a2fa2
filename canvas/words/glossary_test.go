package words

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// Each word of the trade says what it is, and no name of it is written twice.
func TestTheGlossaryIsWhole(t *testing.T) {
	for _, lang := range Languages() {
		w, err := New(lang, quantity.Metric)
		require.NoError(t, err)
		all := w.Glossary()
		assert.Greater(t, len(all), 20)
		assert.True(t, slices.IsSortedFunc(all, func(a, b Entry) int { return strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)) }), lang)
		for _, e := range all {
			assert.NotEmpty(t, e.Name, e.ID)
			assert.NotEmpty(t, e.Is, "%s: a name, a colon and what it is", e.ID)
			assert.NotEmpty(t, e.Also, "%s: what else it is called", e.ID)
			searched, _ := w.text(searchSection, e.ID, "")
			for name := range strings.SplitSeq(w.own.texts[key{calledSection, e.ID, ""}], ", ") {
				assert.NotContains(t, strings.Split(searched, ", "), name, "%s: the handbook's names of it hold it already", e.ID)
			}
		}
		for k := range w.own.texts {
			if k.section == calledSection {
				assert.Contains(t, w.base.texts, key{termSection, k.id, ""}, "%v names no word of the trade", k)
			}
		}
	}
}

// Whatever a word of the trade is called, in whatever language, finds it, whole and
// begun.
func TestEveryNameFindsItsWord(t *testing.T) {
	f, err := NewFinder()
	require.NoError(t, err)
	for _, shown := range Languages() {
		in, err := New(shown, quantity.Metric)
		require.NoError(t, err)
		for _, lang := range Languages() {
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			for _, e := range w.Glossary() {
				for _, name := range append(e.Also, e.Name) {
					_, ok := f.Seek(name).In(in.Entry(e.ID).Name)
					assert.True(t, ok, "%s: %q does not find %q", shown, name, in.Entry(e.ID).Name)
				}
			}
		}
	}
}

func TestSeek(t *testing.T) {
	f, err := NewFinder()
	require.NoError(t, err)
	for _, c := range []struct {
		typed, text string
		far         int
		found       bool
	}{
		{"", "Block 1", 0, true},
		{"block", "Block 1", nearBegins, true},
		{"1", "Block 1", nearWord, true},
		{"lock", "Block 1", nearHolds, true},
		{"Snatch Block", "Block 1", nearAlsoBegins, true},
		{"snatchbl", "Block 1", nearAlsoBegins, true},
		{"sn", "Block 1", notNear, false},
		{"Umlenkrollen 1", "Block 1", nearAlsoBegins, true},
		{"Umlenkrolle 2", "Block 1", notNear, false},
		{"D-Ring", "Schäkel 3", nearAlsoBegins, true},
		{"tree saver", "Sling 1, heavier leg", nearAlsoBegins, true},
		{"pulley", "Winch vehicle", notNear, false},
		{"winch", "Winch vehicle", nearBegins, true},
		{"veh winch", "Winch vehicle", nearWord, true},
		{"pulley", "Title and title block", nearAlso, true},
		{"?", "Save", notNear, false},
	} {
		far, ok := f.Seek(c.typed).In(c.text)
		assert.Equal(t, c.found, ok, "%q in %q", c.typed, c.text)
		assert.Equal(t, c.far, far, "%q in %q", c.typed, c.text)
	}
}

// A tooltip names what else people call the thing.
func TestHints(t *testing.T) {
	w := english(t, quantity.Metric)
	assert.Equal(t, "Damper  D · also: winch blanket, recovery blanket, line blanket, cable blanket, dampener", w.Hint("Damper  D", "damper"))
	assert.Equal(t, "Vehicle  V", w.Hint("Vehicle  V", "vehicle"))
	us, err := New("en-US", quantity.Metric)
	require.NoError(t, err)
	assert.Equal(t, []string{"casualty", "disabled vehicle"}, us.Entry("casualty").Also, "its British name is found too")
}
