package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func TestSumShowsValuesSourcesAndSureties(t *testing.T) {
	w := withScreen(t, map[string]string{"en-x.toml": "[formula]\nleg = '{leg} = {share} × {load} ÷ cos({half})'\n"})
	row := facts.Must(facts.SlingHalfOfBasket) // common practice, by its row
	s := &part.Derivation{}
	s.Add("leg", force("leg", 20_800),
		part.Operand{Value: part.Value{Name: "share", X: row.Likely}, Fact: string(row.ID), From: part.FromFact},
		part.Operand{Value: force("load", 36_900)},
		part.Operand{Value: part.Value{Name: "half", Unit: part.UnitAngle, X: 12.65}})
	s.Add("not-worded", part.Value{Name: "used", Unit: part.UnitShare, X: 0.52},
		part.Operand{Value: force("load", 20_800)},
		part.Operand{Value: limit("limit", 40_000), From: part.FromPreset})
	s.Add("nameless", part.Value{Unit: part.UnitCount, X: 2}, part.Operand{Value: part.Value{Name: "n", Unit: part.UnitCount, X: 1}, Fact: "no.such-row"})
	got := w.Derivation(s, nil)
	for i := range got {
		got[i] = plain(got[i])
	}
	assert.Equal(t, []string{
		"20.8 kN = 0.5 (c) × 36.9 kN ÷ cos(12.7°) [" + row.Title + ": " + row.Source + ", common practice]",
		"used = 52 % · load = 20.8 kN, limit = 40.0 kN (assumed)",
		"[nameless] = 2 · n = 1 [no.such-row]",
	}, got)
	stem := &part.Derivation{}
	c, p := facts.Must(facts.StemSpruceC), facts.Must(facts.StemSpruceP)
	require.Equal(t, c.Source, p.Source)
	stem.Add("nameless", part.Value{Unit: part.UnitCount, X: 2}, part.Operand{Value: part.Value{Name: "c", X: c.Likely}, Fact: string(c.ID)},
		part.Operand{Value: part.Value{Name: "p", X: p.Likely}, Fact: string(p.ID)})
	assert.Contains(t, plain(w.Derivation(stem, nil)[0]), "["+c.Title+", "+p.Title+": "+c.Source+", secondary copy]", "a source is named once")
	assert.Nil(t, w.Derivation(nil, nil))
	assert.Empty(t, w.Derivation(&part.Derivation{}, nil))
}

func TestEveryConfidenceHasItsWordAndMark(t *testing.T) {
	w := english(t, quantity.Metric)
	marks := map[facts.Confidence]string{facts.FromMemory: " (m)", facts.CommonPractice: " (c)"} // a small m, c
	for _, s := range facts.Confidences() {
		assert.NotContains(t, w.Confidence(s), "[", "%s", s)
		assert.Equal(t, marks[s], w.ConfidenceMark(s), "%s", s)
	}
}

func TestALimitSaysWhatItRestsOn(t *testing.T) {
	w := english(t, quantity.Metric)
	assert.Equal(t, " (assumed)", w.LimitMark(part.Limit{Known: true, Preset: true, Confidence: part.ConfidenceMemory}), "a preset is said first")
	assert.Equal(t, " (m)", w.LimitMark(part.Limit{Known: true, Confidence: part.ConfidenceMemory}))
	assert.Equal(t, " (c)", w.LimitMark(part.Limit{Known: true, Confidence: part.ConfidenceCommon}))
	assert.Empty(t, w.LimitMark(part.Limit{Known: true, Confidence: part.ConfidenceTyped}))
	assert.Empty(t, w.LimitMark(part.Limit{Preset: true}), "no limit")
}

// What a failure load rests on is said with it, and nothing where none is known.
func TestAFailureLoadSaysWhatItRestsOn(t *testing.T) {
	p := &part.Part{Ultimate: part.Range{Known: true, Low: 235e3, Likely: 235e3, High: 235e3}, Note: "from the standard's factor, not tested"}
	assert.Equal(t, []string{"breaks or gives way at 235.0\u00a0kN and more: from the standard's factor, not tested"}, english(t, quantity.Metric).FailureBasis(p))
	assert.Empty(t, english(t, quantity.Metric).FailureBasis(&part.Part{Note: p.Note}))
	assert.Empty(t, english(t, quantity.Metric).FailureBasis(&part.Part{Ultimate: p.Ultimate}))
}

// Parts whose failure load rests on the same are named together, in their order; one
// whose failure load is not known is not named.
func TestFailureBasesNameTheirParts(t *testing.T) {
	known := part.Range{Known: true, Low: 1e4, Likely: 1e4, High: 1e4}
	parts := []part.Part{{ID: "B1", Thing: "B1", Ultimate: known, Note: "from the standard's factor, not tested"},
		{ID: "A1", Thing: "A1", Ultimate: known, Note: "the tree is pulled over first"}, {ID: "K1", Thing: "K1", Ultimate: known, Note: "from the standard's factor, not tested"},
		{ID: "K2", Thing: "K2", Note: "from the standard's factor, not tested"}}
	assert.Equal(t, []string{"from the standard's factor, not tested: B1; K1", "the tree is pulled over first: A1"},
		FailureBases(english(t, quantity.Metric), parts, func(id plan.ID) string { return string(id) }))
}
