package main

import (
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// failed is the example of a redirect with a sling as short of strength as the line, of
// which something was seen, as a file. Its casualty has no way out that would be followed.
func failed(t *testing.T, pins ...plan.Pin) string {
	t.Helper()
	raw, err := os.ReadFile("../../assets/plans/redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	d := plan.Edit(p, "R1")
	d.Laid.Slings[0].Rating = plan.Rating{Force: 50e3, Basis: plan.BasisBreaking}
	winch := slices.IndexFunc(d.Site.Vehicles, func(v plan.Vehicle) bool { return v.Winch != nil })
	d.Site.Vehicles[winch].Mass, d.Site.Vehicles[winch].Brake = 25e3, plan.BrakeAll // it stays where it is
	p = d.Plan
	p.Casualty().Stuck.WayLength = 0
	for _, q := range pins {
		p = plan.WithPin(p, 0, q)
	}
	raw, err = plan.FormatPlan(p)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "failed.kedge")
	require.NoError(t, os.WriteFile(file, raw, 0o600))
	return file
}

var (
	strapBroken = plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "S1", Known: plan.KnownObserved, Source: "the instructor"}
	strapWhole  = plan.Pin{ID: "B", Kind: plan.PinWhole, Thing: "S1", Known: plan.KnownObserved}
	groaned     = plan.Pin{ID: "C", Kind: plan.PinTension, Low: 25e3, High: 45e3, Known: plan.KnownTold, Source: "the driver"}
)

// notClaimed are what no reconstruction may say, in each language.
const notClaimed = `(?i)\b(safe|the cause|was caused|proves?|proven|excludes?|prevented|must have|complies|negligen\w*|blame|sicher|die Ursache|verursacht|beweist|schließt aus|verhindert|muss gewesen|entspricht der Norm|fahrlässig\w*|Schuld)\b|%`

// An answer has candidates, its assumptions and its limits; it claims nothing that it
// may not, in no language; and the same plan gives the same bytes.
func TestReconstructAnswers(t *testing.T) {
	file := failed(t, strapBroken, groaned)
	for lang, want := range map[string][]string{
		"en": {"Sling 1 was below strength", "given these assumptions", "None of these: 10 of 100", "our own judgement"},
		"de": {"war geschwächt", "unter diesen Annahmen", "Nichts davon: 10 von 100", "eigenes Urteil"},
	} {
		out, errs, status := call(t, "", "reconstruct", "--lang", lang, "--change", "S1.rating.force_n=500000", file)
		require.Empty(t, errs)
		assert.Contains(t, []int{statusDone, statusUnsettled}, status)
		for _, s := range want {
			assert.Contains(t, out, s)
		}
		assert.NotRegexp(t, notClaimed, out)
		assert.NotRegexp(t, bracketed, out)
		if lang == "en" {
			again, _, _ := call(t, "", "reconstruct", "--lang", lang, "--change", "S1.rating.force_n=500000", file)
			assert.Equal(t, out, again)
		}
	}
}

// Contradicting observations have no answer, and a sentence that names them; nothing
// seen, and a figure that there is not, are wrong use.
func TestReconstructWithoutAnswer(t *testing.T) {
	out, errs, status := call(t, "", "reconstruct", "--json", failed(t, strapBroken, strapWhole))
	require.Empty(t, errs)
	assert.Equal(t, statusUnsettled, status)
	var got report.Answer
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.Equal(t, "too few agree", got.Verdict)
	assert.Empty(t, got.Candidates, "no chance is said where too few agree")
	assert.Nil(t, got.Tension)
	assert.Nil(t, got.HalfPrior)
	require.Len(t, got.Cautions, 2)
	assert.Contains(t, got.Cautions[1], "contradict one another")
	for _, c := range got.Changes {
		assert.Nil(t, c.StillFails)
	}
	_, errs, status = call(t, "", "reconstruct", failed(t))
	assert.Equal(t, statusUse, status)
	assert.Contains(t, errs, "nothing was seen or told")
	c, err := changeOf(&plan.Plan{}, "", "ground.slope_deg=7")
	require.NoError(t, err)
	assert.Equal(t, plan.Known(quantity.Degrees(7)), c.Plan.Site.Ground.Slope)
	_, errs, status = call(t, "", "reconstruct", "--change", "S1.colour=2", failed(t, strapBroken))
	assert.Equal(t, statusUse, status)
	assert.Contains(t, errs, "S1.colour=2 is no change")
	_, _, status = call(t, "", "reconstruct", "nothing.kedge")
	assert.Equal(t, statusRefused, status)
	assumed := strapBroken
	assumed.Known = plan.KnownAssumed
	out, _, status = call(t, "", "reconstruct", failed(t, assumed))
	assert.Equal(t, statusUnsettled, status)
	assert.Contains(t, out, "CAUTION: No piece of evidence weighs anything")
}

// A change that was asked for and with which the rig is not computed is told in a sentence,
// and the answer is not settled; what was only tried is not.
func TestAChangeThatBreaksTheRigIsTold(t *testing.T) {
	file := failed(t, strapBroken, groaned)
	_, _, before := call(t, "", "reconstruct", file)
	require.Equal(t, statusDone, before)
	out, errs, status := call(t, "", "reconstruct", "--change", "S1.length_m=60", "--change", "S1.length_m=4", file)
	require.Empty(t, errs)
	assert.Equal(t, statusUnsettled, status)
	assert.Contains(t, out, "CAUTION: S1.length_m=60: with it the rig is refused or not computed")
	assert.NotContains(t, out, "CAUTION: S1.length_m=4")
}

// Every kind of pin, look, weakness and reason has its words in every language, and
// none claims what may not be claimed.
func TestEvidenceHasItsWords(t *testing.T) {
	for _, lang := range words.Languages() {
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		for _, kind := range plan.PinKinds() {
			for _, look := range []string{plan.LookCut, plan.LookWorn, plan.LookHeat, plan.LookKnot, plan.LookOpened, plan.LookTorn} {
				text := w.Pin(&plan.Pin{ID: "A", Kind: kind, Look: look, Layer: 1, Low: 1, Earlier: true}, nil)
				assert.NotRegexp(t, bracketed, text)
			}
		}
		raw, err := fs.ReadFile(assets.Words(), lang[:2]+"-doubt.toml") // a region has the texts of its language
		require.NoError(t, err)
		assert.NotRegexp(t, notClaimed, string(raw))
	}
}
