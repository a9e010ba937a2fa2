package draw

import (
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	fields "kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Every kind of anchor has its members, its question, its hold, its symbol and
// its words in every language.
func TestEveryKindOfAnchorIsWhole(t *testing.T) {
	for _, language := range words.Languages() {
		w, err := words.New(language, quantity.Metric)
		require.NoError(t, err)
		for _, k := range plan.AnchorKinds {
			about := language + " " + k.Word
			p := plan.New()
			p.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "A1"}, Kind: k.Word, SetKnown: true}}
			known := map[string]bool{}
			for _, f := range fields.Fields(p, "", "A1", nil, w) {
				known[f.Member] = true
			}
			for _, m := range k.Members {
				assert.True(t, known[m], "%s: no field for %s", about, m)
			}
			for _, m := range k.Asks {
				assert.True(t, known[m], "%s asks for %s, which is no field", about, m)
				assert.True(t, w.HasLabel("prompt-anchor-"+m), "%s: no question for %s", about, m)
			}
			assert.True(t, w.HasLabel("choice-anchor-"+k.Word), about)
			assert.True(t, w.HasLabel("called-"+strings.ReplaceAll(k.Word, " ", "-")), about)
			assert.True(t, !k.Placed || w.HasLabel("kind-"+k.Word), about)

			var found []part.Finding
			hold.Anchor(hold.In{Anchor: &p.Site.Anchors[0], Load: r3.Vector{X: 1e4}}, nil, &found)
			raised := map[string]bool{}
			for i := range found {
				raised[found[i].ID] = true
			}
			assert.False(t, raised["anchor-kind-unknown"], "%s: no rule of its hold", about)
			assert.Contains(t, anchorSymbols, k.Word)
			assert.Empty(t, plan.UnknownWords(p), about)
		}
	}
}
