package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/report"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The report of a rig has its sections in their order, in English and German: what was
// seen before what is made of it, the opinion last and apart. Of a rig of which nothing
// was seen it says so.
func TestReportHasItsSections(t *testing.T) {
	p := example(t, "redirect")
	nothing := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Report}})
	assert.Contains(t, allText(nothing.Pages[0]), "Nothing was seen or told")
	p = plan.WithPin(p, 0, plan.Pin{ID: "A", Kind: plan.PinTension, Low: 20e3, High: 60e3, Known: plan.KnownTold, Source: "the driver"})
	n := *p.Rigs[0].Incident
	n.Opinion = "Curlew Moss teaches patience."
	n.Custody = "12 May: the line was coiled\n\n13 May: the line was measured\n"
	p = plan.WithIncident(p, 0, &n)
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Report}, Words: english(t, quantity.Metric)})
	text := ""
	for _, g := range b.Pages {
		text += allText(g) + "\n"
	}
	at := -1
	for _, want := range []string{"What was seen and told", "Accounts, as told", "Who took, measured and kept what", "12 May: the line was coiled", "13 May: the line was measured", "Assumptions: what was drawn", "Held before the pull", "Method", "Plan sha256", "kedge " + report.Version, "What limits this answer",
		"What failed first", "What would have lowered", "hangs on the assumptions", "It is no chance of either", "opinion, apart", "Curlew Moss teaches patience."} {
		k := strings.Index(text, want)
		assert.Greater(t, k, at, want)
		at = max(at, k)
	}
	for _, word := range []string{"the cause", "proves", "safe", "complies", "%"} {
		assert.NotContains(t, text, word)
	}
}
