package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// sheetText is all that stands on the pages of one sheet of a plan.
func sheetText(t *testing.T, p *plan.Plan, k sheet.Kind, w *words.Words) string {
	t.Helper()
	var all []string
	for _, g := range booklet(t, p, sheet.Options{Sheets: []sheet.Kind{k}, Words: w}).Pages {
		if g.Kind == k {
			all = append(all, allText(g))
		}
	}
	require.NotEmpty(t, all)
	return strings.Join(all, "\n")
}

// The exercise of an incident tells what is told and was found, and asks; how it is
// known, what weighs, what follows and what happened stand on the key alone, which is not
// for students. Both say the same questions, in their order.
func TestInquiryAsksAndItsKeyAnswers(t *testing.T) {
	for _, name := range []string{"alder-bend", "birch", "ford"} {
		p := seeded.Read(t, assets.Plans(), "incidents/"+name+".kedge")
		n := p.Rigs[0].Incident
		require.NotEmpty(t, n.Truth)
		for _, lang := range []string{"en", "de"} {
			w, err := words.New(lang, quantity.Metric)
			require.NoError(t, err)
			asks, key := sheetText(t, p, sheet.Inquiry, w), sheetText(t, p, sheet.InquiryKey, w)
			plain := func(s string) string {
				return strings.Join(strings.Fields(strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(s)), " ")
			}
			asks, key = plain(asks), plain(key)
			assert.Contains(t, asks, plain(n.Account)[:30], "the account")
			for i := range n.Pins {
				assert.Contains(t, asks, string(n.Pins[i].ID)+" "+w.EvidenceWord("pin", n.Pins[i].Kind))
			}
			assert.NotContains(t, asks, plain(n.Truth))
			assert.Contains(t, key, plain(n.Truth)[:20])
			trust := strings.Fields(w.Label("pin-trust"))[0]
			assert.NotContains(t, asks, trust+" ")
			assert.NotContains(t, asks, w.Label("recon-candidates"))
			at := [2]int{-1, -1}
			for i := range 7 {
				q := string(rune('1'+i)) + ". " + w.Label([]string{"inquiry-ask-known", "inquiry-ask-idle", "inquiry-ask-order", "inquiry-ask-fits", "inquiry-ask-before", "inquiry-ask-without", "inquiry-ask-lowered"}[i])
				for k, text := range []string{asks, key} {
					j := strings.Index(text, q[:20])
					assert.Greater(t, j, at[k], "%s: %s", lang, q)
					at[k] = j
				}
			}
			for _, word := range []string{"the cause", "proves", "safe", "complies", "%"} {
				assert.NotContains(t, asks+key, word)
			}
		}
	}
	w := english(t, quantity.Metric)
	key := sheetText(t, seeded.Read(t, assets.Plans(), "incidents/alder-bend.kedge"), sheet.InquiryKey, w)
	assert.Contains(t, key, "E: weighs nothing: a resting place", "the block may have rolled")
	nothing := example(t, "redirect")
	for _, k := range []sheet.Kind{sheet.Inquiry, sheet.InquiryKey} {
		assert.Contains(t, sheetText(t, nothing, k, w), "Nothing was seen or told")
	}
}
