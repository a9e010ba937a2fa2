package sheet_test

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// fieldKinds are the sheets that go to the field.
var fieldKinds = []sheet.Kind{sheet.Briefing, sheet.Order, sheet.StopLook, sheet.Steps}

// pulling are the lines of the lists that set about the pull.
func pulling(t *testing.T, lang string) (all []string) {
	t.Helper()
	for _, name := range []string{"order", "signals"} {
		data, err := fs.ReadFile(assets.SheetLists(), lang+"-"+name+".toml")
		require.NoError(t, err)
		var file struct {
			Line []struct {
				Text       string
				Sign, Goes bool
			}
		}
		require.NoError(t, toml.Unmarshal(data, &file))
		n := len(all)
		for _, l := range file.Line {
			if l.Goes {
				all = append(all, l.Text[:min(len(l.Text), 24)])
			}
		}
		require.Greater(t, len(all), n, name)
	}
	return all
}

// A sheet for the field has the verdict; of a rig that is not computed, over a
// limit or with a DANGER it says that it is not pulled, and nothing how.
func TestFieldSheetsForbidWhatIsNotPulled(t *testing.T) {
	w := english(t, quantity.Metric)
	weak := example(t, "doubled") // nothing over, nobody in danger: one part is made so
	weak.Rigs[0].Lines[0].Connector.Rating = plan.Rating{Force: 2e3, Basis: plan.BasisWorking}
	inside := held(t)
	unrated := example(t, "doubled")
	unrated.Rigs[0].Blocks[0].Rating = plan.Rating{}
	for _, c := range []struct {
		what, why string
		p         *plan.Plan
	}{
		{"not computed", "Do not pull this rig: it is not computed. Line bears on Boulder 1", example(t, "straight")},
		{"over a limit", "Do not pull this rig: OVER LIMIT: Winch vehicle sliding, ", example(t, "redirect")},
		{"a connector over its tag", "Do not pull this rig: OVER LIMIT: Line, hook at Casualty, ", weak},
		{"somebody inside", "Do not pull this rig: Spotter 1 stands inside the recoil", inside},
		{"no rating", "", unrated},
		{"nothing known against it", "", example(t, "doubled")},
	} {
		a, names := answered(c.p, c.p.Rigs[0].ID, w)
		verdict := quantity.PlainSpaces(strings.TrimSuffix(w.VerdictLine(a, names), " ▸"))
		for _, k := range fieldKinds {
			text := strings.Join(strings.Fields(pagesOf(t, c.p, "en", k)), " ")
			assert.Contains(t, text, strings.Join(strings.Fields(verdict), " "), "%s: %s", c.what, k)
			if c.why == "" {
				lacks(t, text, "Do not pull this rig", c.what)
				continue
			}
			assert.Contains(t, text, c.why, "%s: %s", c.what, k)
			for _, s := range append(pulling(t, "en"), "Above the planned pull: stop", "Walk them before the pull", "to go. It frees") {
				lacks(t, text, s, c.what+" "+string(k))
			}
		}
	}
	order := pagesOf(t, example(t, "doubled"), "en", sheet.Order)
	for _, s := range pulling(t, "en")[:4] {
		assert.Contains(t, order, s)
	}
	assert.Contains(t, pagesOf(t, unrated, "en", sheet.StopLook), "Not known to be within the limit: Block 1. Do not pull before that is known.")
	assert.Equal(t, len(pulling(t, "en")), len(pulling(t, "de")))
}
