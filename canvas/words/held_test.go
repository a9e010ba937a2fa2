package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What lies in a tie-back or hold-back is called after it; a line's far end is
// what holds. One that holds nothing leads nowhere, and a word nobody knows
// names nothing.
func TestWhatHoldsHasItsName(t *testing.T) {
	n := called("L2", "Line 2", "S2", "Strap", "T1", "Tree 1", "V2", "Truck")
	line := func(use string, to plan.ID) *part.Part {
		return &part.Part{ID: "L2/1", Kind: part.KindStretch, Thing: "L2", From: "V2", To: to, Use: use}
	}
	sling := &part.Part{ID: "S2", Kind: part.KindSling, Thing: "S2", From: "V2", To: "T1", Use: plan.UseTieBack, Angle: 30}
	for _, c := range []struct {
		p      *part.Part
		en, de string
	}{
		{line(plan.UseTieBack, "T1"), "Line 2, tie-back to Tree 1", "Line 2, Rückverankerung an Tree 1"},
		{line(plan.UseHoldBack, "T1"), "Line 2, hold-back to Tree 1", "Line 2, Rückhaltung an Tree 1"},
		{line(plan.UseTieBack, ""), "Line 2, tie-back", "Line 2, Rückverankerung"},
		{line("hoist", "T1"), "Line 2, Truck to Tree 1", "Line 2, Truck bis Tree 1"},
		{line(plan.UsePull, "T1"), "Line 2, Truck to Tree 1", "Line 2, Truck bis Tree 1"},
		{sling, "Strap, tie-back", "Strap, Rückverankerung"},
	} {
		for lang, want := range map[string]string{"en": c.en, "de": c.de} {
			w, err := New(lang, quantity.Metric)
			require.NoError(t, err)
			assert.Equal(t, want, w.PartName(c.p, n))
		}
	}
}

// The share and the state are those of the greater of the pulls to move and to
// break loose; of a part that only the latter brings there it is said.
func TestStateToBreakLoose(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, c := range []struct {
		move, loosen quantity.Force
		used, status string
	}{
		{10e3, 10e3, "50 %", "within limit"},
		{10e3, 14e3, "70 %", "within limit"},
		{10e3, 16e3, "80 %", "near limit, to break loose"},
		{16e3, 18e3, "90 %", "near limit"},
		{10e3, 22e3, "110 %", "OVER LIMIT, to break loose"},
		{22e3, 30e3, "150 %", "OVER LIMIT"},
	} {
		p := part.Part{Move: part.Load{Known: true, Force: c.move}, Loosen: part.Load{Known: true, Force: c.loosen}, Limit: part.Limit{Known: true, Force: 20e3}}
		p.Judge()
		assert.Equal(t, c.used, plain(w.UsedOf(&p)), c)
		assert.Equal(t, c.status, w.StatusOf(&p), c)
	}
}
