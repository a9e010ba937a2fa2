package form

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/hold"
)

// No two choices of a list read alike, in any language.
func TestChoicesDiffer(t *testing.T) {
	for _, lang := range words.Languages() {
		w, err := words.New(lang, 0)
		require.NoError(t, err)
		differ := func(set string, list []Choice) {
			seen := map[string]string{}
			for _, c := range list {
				other, twice := seen[c.Text]
				assert.False(t, twice, "%s: %s: %q and %q are both %q", lang, set, other, c.Value, c.Text)
				seen[c.Text] = c.Value
			}
		}
		for set, family := range choiceFamilies {
			differ(set, rowChoices(w, set, facts.Under(family)))
		}
		for set, values := range choiceWords {
			differ(set, wordChoices(w, set, values))
		}
		differ("soil", wordChoices(w, "soil", append([]string{""}, hold.Soils()...)))
	}
}
