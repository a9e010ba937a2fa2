package report_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// said is all that a report says.
func said(a *report.Report) []any {
	all := []any{a.Cautions(), a.Agree(), a.Head(), a.How(), a.Evidence(), a.Assumptions(), a.Changes()}
	if a.Answered() {
		all = append(all, a.Candidates(), a.Sensitivity())
	}
	return all
}

// In other words a report says what one drawn anew in those says, of the same trials.
func TestReportInOtherWords(t *testing.T) {
	de, err := words.New("de", quantity.Imperial)
	require.NoError(t, err)
	en, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	a := found(t, "birch", report.PerSet, func(p *plan.Plan) *plan.Plan { return p })
	require.True(t, a.Answered())
	require.NotEmpty(t, a.Found.Changes)
	got := a.In(de)
	require.NotNil(t, got, "what is tried hangs on no words")
	assert.Same(t, &a.Found.Answer.Candidates[0], &got.Found.Answer.Candidates[0], "nothing is drawn anew")
	want, err := report.New(de, a.Plan, a.Rig, doubt.Request{Per: report.PerSet, Seed: report.Seed, Workers: 2})
	require.NoError(t, err)
	assert.Equal(t, said(want), said(got))
	assert.NotEqual(t, said(a), said(got))
	assert.Equal(t, said(a), said(got.In(en)), "and back")
}

// So do chances.
func TestChancesInOtherWords(t *testing.T) {
	en, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	de, err := words.New("de", quantity.Imperial)
	require.NoError(t, err)
	p := found(t, "birch", 64, func(p *plan.Plan) *plan.Plan { return p }).Plan
	drawn := func(w *words.Words) *report.Chances {
		a, err := report.NewChances(w, p, p.Rigs[0].ID, doubt.Request{Per: 16, Seed: report.Seed, Workers: 2})
		require.NoError(t, err)
		return a
	}
	all := func(a *report.Chances) []any {
		return []any{a.Cautions(), a.Head(), a.Tension(), a.Over(), a.Loads(), a.Assumed(), a.Drawn()}
	}
	a := drawn(en)
	assert.Same(t, a.Found, a.In(de).Found)
	assert.Equal(t, all(drawn(de)), all(a.In(de)))
}
