package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// In the range sheet the low, likely and high figures of a part stand under their
// heads, in that order, load and hold.
func TestRangeSheetHasItsColumnsInOrder(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	a, names := answered(p, p.Rigs[0].ID, w)
	text := " " + strings.Join(strings.Fields(pagesOf(t, p, "en", sheet.Range)), " ") + " "
	r := a.Resistance
	require.Less(t, r.Likely, r.High)
	assert.Contains(t, text, quantity.PlainSpaces(w.Label("sheet-range-of", part.Text("what", w.Label("title-resistance")),
		part.Text("low", w.Load(r.Low)), part.Text("likely", w.Load(r.Likely)), part.Text("high", w.Load(r.High)))))
	loads := map[string][]string{}
	for _, end := range []string{plan.PlanLow, plan.PlanLikely, plan.PlanHigh} {
		for i := range p.Site.Vehicles {
			if v := p.Site.Vehicles[i]; v.Stuck != nil {
				stuck := *v.Stuck
				stuck.PlanOn, v.Stuck = end, &stuck
				of := solver.Assess(plan.WithVehicle(p, i, v), a.Rig)
				for k := range of.Parts {
					loads[of.Parts[k].ID] = append(loads[of.Parts[k].ID], w.LoadFigure(of.Parts[k].Move))
				}
			}
		}
	}
	different := 0
	for i := range a.Parts {
		q := &a.Parts[i]
		u := q.Ultimate
		if !u.Known || !(u.Low < u.Likely && u.Likely < u.High) {
			continue
		}
		different++
		give := func(f quantity.Force) string {
			return quantity.FormatForce(f, quantity.Metric, quantity.AsLimit).Number
		}
		row := strings.Join([]string{w.PartName(q, names), strings.Join(loads[q.ID], " "), w.LimitFigure(q.Limit), give(u.Low), give(u.Likely), give(u.High)}, " ")
		assert.Contains(t, text, " "+quantity.PlainSpaces(row)+" ")
		require.Len(t, loads[q.ID], 3)
	}
	assert.Positive(t, different)
}
