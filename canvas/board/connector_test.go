package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/form"
	"kedge/canvas/remedy"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A line that is drawn has a hook at its end that nobody chose: its rating is
// assumed and said to be. Details shows the figure, takes what is read from the
// tag, and what was typed is no preset any more; each is one undo step.
func TestALineIsDrawnWithItsConnector(t *testing.T) {
	h := sit(t, nil)
	site(h)
	h.keys("l")
	h.drag(fairlead, front)
	l := h.b.Plan().Rigs[0].Lines[0]
	assert.Equal(t, plan.Connector{Kind: plan.ConnectorHook}, l.Connector)
	assert.True(t, l.Preset("connector.kind"))
	f, ok := h.finding("connector-assumed")
	require.True(t, ok)
	assert.Equal(t, part.Notice, f.Level)

	w := fieldIn(t, quantity.Metric)
	fields := func() (kind, rating form.Field) {
		all := form.Fields(h.b.Plan(), h.b.Rig(), l.ID, h.b.Answer(), w)
		return fieldNamed(t, all, "connector/kind"), fieldNamed(t, all, "connector/rating")
	}
	kind, rating := fields()
	assert.Equal(t, "hook", kind.Value)
	assert.Equal(t, form.OriginPreset, kind.Origin)
	assert.Equal(t, "", rating.Value)
	assert.Equal(t, form.OriginComputed, rating.Origin)
	assert.Equal(t, "29.3 kN", quantity.PlainSpaces(rating.Computed), "6600 lbf, grade 70 of 3/8 in for a line of 10 mm")

	require.NoError(t, h.b.Set(l.ID, "connector/kind", "soft"))
	require.NoError(t, h.b.Set(l.ID, "connector/rating", "31 kN working"))
	kind, rating = fields()
	assert.Equal(t, "soft shackle", kind.Value)
	assert.Equal(t, form.OriginTyped, kind.Origin)
	assert.Equal(t, "31", rating.Value)
	assert.Equal(t, "working", rating.Basis)
	assert.Empty(t, rating.Computed)
	_, ok = h.finding("connector-assumed")
	assert.False(t, ok)
	h.b.Undo()
	h.b.Undo()
	assert.Equal(t, l, h.b.Plan().Rigs[0].Lines[0])
}

// Another line in its place keeps the connector, and what is known of it.
func TestAnotherLineKeepsTheConnector(t *testing.T) {
	p := fieldPlan(t)
	l := &p.Rigs[0].Lines[0]
	l.Material = plan.MaterialKinetic
	l.Connector = plan.Connector{Kind: plan.ConnectorSoft, Rating: plan.Rating{Force: 31e3, Basis: plan.BasisWorking}}
	l.Presets = []string{"rating", "connector.kind"}
	l.Doubts = []plan.Doubt{{Member: "rating.force_n", Low: 1, High: 2}, {Member: "connector.rating.force_n", Low: 30e3, High: 32e3}}
	got, err := remedy.Do(remedy.Given{Plan: p, Rig: "R1", Kit: kit(t), Words: fieldIn(t, quantity.Metric)}, part.Remedy{Do: "static-line", Thing: l.ID})
	require.NoError(t, err)
	n := got.Plan.Rigs[0].Lines[0]
	assert.NotEqual(t, l.Material, n.Material)
	assert.Equal(t, l.Connector, n.Connector)
	assert.True(t, n.Preset("connector.kind"))
	assert.Equal(t, l.Doubts[1:], n.Doubts)
}
