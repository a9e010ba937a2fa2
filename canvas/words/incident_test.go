package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What was entered of a piece of evidence is said of it: its range and what it weighs too.
func TestAPieceOfEvidenceSaysItsRangeAndMass(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	q := &plan.Pin{ID: "C", Kind: plan.PinLanding, Length: plan.Known(quantity.Length(5.3)), Mass: 3, Doubts: []plan.Doubt{{Member: "trace_m", Low: 4.8, High: 5.8, PlusMinus: true}}}
	said := words.PinSaid(w, q, func(plan.ID) string { return "" })
	assert.Contains(t, said, "5.3\u00a0m (4.8\u00a0m to 5.8\u00a0m) · 3.0\u00a0kg")
}
