package main

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// doubtful is the example of a redirect with the mass of the casualty in doubt, and
// what a change makes of it, as a file.
func doubtful(t *testing.T, change func(p *plan.Plan)) string {
	t.Helper()
	raw, err := os.ReadFile("../../assets/plans/redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	h := &p.Site.Vehicles[0].Head
	h.Doubts = append(h.Doubts, plan.Doubt{Member: "mass_kg", Low: 2300, High: 2600, PlusMinus: true})
	change(p)
	raw, err = plan.FormatPlan(p)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "doubtful.kedge")
	require.NoError(t, os.WriteFile(file, raw, 0o600))
	return file
}

// unmoved is a plan whose casualty has no way out: its pull is not followed.
func unmoved(p *plan.Plan) { p.Site.Vehicles[0].Stuck.WayLength = 0 }

// What was known in every trial is 0; a missing limit, a doubt that could not be drawn
// and a refused rig are 4; no doubt at all is 2.
func TestDoubtSaysWhatIsNotKnown(t *testing.T) {
	for _, tt := range []struct {
		what   string
		change func(p *plan.Plan)
		status int
		says   string
	}{
		{"all known", unmoved, statusDone, "Line tension to move:"},
		{"not known farther on", func(*plan.Plan) {}, statusUnsettled, "CAUTION: Not known in every trial to stay within limit over the whole pull: Casualty, front recovery point"},
		{"no rating", func(p *plan.Plan) {
			unmoved(p)
			p.Rigs[0].Blocks[0].Rating = plan.Rating{}
		}, statusUnsettled, "CAUTION: Not known to be within limit in every trial: Block 1"},
		{"not drawn", func(p *plan.Plan) {
			unmoved(p)
			h := &p.Site.Vehicles[0].Head
			h.Doubts = append(h.Doubts, plan.Doubt{Member: "casualty.suction_of_mud_n", Low: 1, High: 2})
		}, statusUnsettled, "CAUTION: In doubt, but not drawn:"},
		{"refused", func(p *plan.Plan) { p.Site.Vehicles[0].Stuck = nil }, statusUnsettled, "CAUTION:"},
	} {
		file := doubtful(t, tt.change)
		out, errs, status := call(t, "", "doubt", "--typed-only", file)
		assert.Empty(t, errs, tt.what)
		assert.Equal(t, tt.status, status, "%s: %s", tt.what, out)
		assert.Contains(t, out, tt.says, tt.what)
	}
	_, errs, status := call(t, "", "doubt", "--typed-only", "../../assets/plans/redirect.kedge")
	assert.Equal(t, statusUse, status)
	assert.Contains(t, errs, "no figure of the plan is in doubt")
	misspelt := doubtful(t, func(p *plan.Plan) { p.Site.Vehicles[0].Doubts = []plan.Doubt{{Member: "mas_kg", Low: 1, High: 2}} })
	_, errs, status = call(t, "", "doubt", "--typed-only", misspelt)
	assert.Equal(t, statusUse, status)
	assert.Contains(t, errs, "no figures that can be drawn")
}

// A count is of trials, never a percentage, and none is no zero; nothing is called safe
// or the cause. The same plan gives the same bytes.
func TestDoubtSpeaksOfTrials(t *testing.T) {
	file := doubtful(t, func(*plan.Plan) {})
	for _, lang := range []string{"en", "de"} {
		out, errs, _ := call(t, "", "doubt", "--typed-only", "--lang", lang, file)
		require.Empty(t, errs)
		assert.Contains(t, out, map[string]string{"en": "fewer than 3 in 16384", "de": "weniger als 3 von 16384"}[lang])
		for _, word := range []string{"safe", "the cause was", "proves", "0 of ", "0 von "} {
			assert.NotContains(t, strings.ReplaceAll(strings.ReplaceAll(out, "00 of ", ""), "00 von ", ""), word, lang)
		}
		if lang == "en" {
			again, _, _ := call(t, "", "doubt", "--typed-only", "--lang", lang, file)
			assert.Equal(t, out, again)
		}
	}
}

// Where nothing is known of a part, JSON has null and no chance.
func TestDoubtJSONHasNullForWhatIsNotKnown(t *testing.T) {
	file := doubtful(t, func(p *plan.Plan) {
		unmoved(p)
		p.Rigs[0].Blocks[0].Rating = plan.Rating{}
	})
	out, errs, status := call(t, "", "doubt", "--typed-only", "--json", file)
	require.Empty(t, errs)
	assert.Equal(t, statusUnsettled, status)
	var got struct {
		Exit   int
		Trials int
		Parts  []struct {
			ID   string
			Over struct {
				Hits, Of int
				NotKnown int `json:"not_known"`
				Chance   *float64
			} `json:"over_limit"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, statusUnsettled, got.Exit)
	found := false
	for _, p := range got.Parts {
		if p.ID == "B1" {
			found = true
			assert.Equal(t, 0, p.Over.Of)
			assert.Equal(t, got.Trials, p.Over.NotKnown)
			assert.Nil(t, p.Over.Chance)
		}
	}
	assert.True(t, found)
}

// The file has a row a trial, and its figures are those that were counted: as many rows
// over the limit as the answer says, and an empty cell where nothing is known.
func TestSamplesGoOutAsCSV(t *testing.T) {
	file := doubtful(t, func(p *plan.Plan) {
		unmoved(p)
		p.Rigs[0].Blocks[0].Rating = plan.Rating{}
	})
	path := filepath.Join(t.TempDir(), "samples.csv")
	out, errs, _ := call(t, "", "doubt", "--typed-only", "--json", "--csv", path, file)
	require.Empty(t, errs)
	var got doubtDoc
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 1+got.Trials)
	assert.Equal(t, []string{"V1.mass_kg", "to_move_n"}, rows[0][:2])
	for _, p := range got.Parts {
		k := slices.Index(rows[0], p.ID+".over_limit")
		require.GreaterOrEqual(t, k, 0)
		hits, empty := 0, 0
		for _, r := range rows[1:] {
			switch r[k] {
			case "1":
				hits++
			case "":
				empty++
			}
		}
		assert.Equal(t, p.Over.Hits, hits, p.ID)
		assert.Equal(t, p.Over.NotKnown, empty, p.ID)
	}
}

// Without a range in the plan what is known to scatter is drawn, listed with how well it is
// founded, and followed over the whole pull.
func TestDoubtDrawsWhatIsKnownToScatter(t *testing.T) {
	for lang, says := range map[string][]string{
		"en": {"Assumed scatter", "Mass (Casualty)", "2450, likely 2820, to 3310", "our own judgement", "Over the whole pull, 6.0 m", "fails first", "resistance of the casualty", "ends or stalls (sliding and tipping not counted, nor the winch): "},
		"de": {"Angenommene Streuung", "2450, wahrscheinlich 2820, bis 3310", "Über den ganzen Zug", "versagt zuerst", "(Rutschen und Kippen nicht gezählt, auch nicht die Winde): "},
	} {
		out, errs, _ := call(t, "", "doubt", "--lang", lang, "../../assets/plans/redirect.kedge")
		require.Empty(t, errs)
		for _, x := range says {
			assert.Contains(t, out, x)
		}
		checked := map[string]string{"en": "kedge check answers DANGER", "de": "kedge check antwortet zu diesem Plan mit GEFAHR"}[lang]
		check, _, _ := call(t, "", "check", "--lang", lang, "../../assets/plans/redirect.kedge")
		assert.Equal(t, strings.Contains(check, map[string]string{"en": "DANGER", "de": "GEFAHR"}[lang]), strings.Contains(out, checked), "what check says stands in the head")
		assert.NotRegexp(t, notClaimed, strings.ReplaceAll(out, " %", ""))
		assert.Regexp(t, `2048 +–\n`, out, "the vehicle that slides every time is not said to be hardly ever the first")
	}
	out, errs, status := call(t, "", "doubt", "--json", "../../assets/plans/redirect.kedge")
	require.Empty(t, errs)
	var got doubtDoc
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, status, got.Exit)
	require.NotNil(t, got.Along)
	assert.Equal(t, number(6), got.Along.To)
	assert.Equal(t, "resistance", got.Drawn[len(got.Drawn)-1].What)
	first := 0
	for _, p := range got.Along.Parts {
		first += p.First.Hits
	}
	assert.Equal(t, got.Along.Fails.Hits, first, "one part is the first")
	assert.NotEmpty(t, got.Assumed)
}

// What is given up answers nothing, and writes nothing.
func TestDoubtIsGivenUp(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	file := filepath.Join(t.TempDir(), "samples.csv")
	text, _, err := doubts(ctx, "../../assets/plans/redirect.kedge", nil, doubtOptions{units: "kN", lang: "en", csv: file})
	status, why := explain(err)
	assert.Equal(t, statusGivenUp, status)
	assert.ErrorContains(t, why, "interrupted")
	assert.Empty(t, text)
	assert.NoFileExists(t, file)
	_, _, err = reconstruct(ctx, failed(t, strapBroken), nil, reconstructOptions{units: "kN", lang: "en"})
	status, _ = explain(err)
	assert.Equal(t, statusGivenUp, status)
}
