package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// The redirect pulls harder the farther the casualty comes: what its sheets say of the
// winch is what it carries at the end of the way out, drawn there; of the sheets that
// are of the drawn moment, what it carries as drawn, and they say so.
func TestSheetsAnswerForTheWholePull(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	v := p.Casualty()
	require.NotNil(t, v)
	figure := func(atM float64) string {
		a := solver.Assess(travel.At(p, "R1", atM), "R1")
		require.True(t, a.Move.Known)
		return quantity.PlainSpaces(w.Load(a.Move.Tension))
	}
	drawn, end := figure(0), figure(float64(v.Stuck.WayLength))
	require.NotEqual(t, drawn, end)
	asDrawn := map[sheet.Kind]bool{sheet.Range: true, sheet.Kit: true, sheet.Exercise: true, sheet.Key: true, sheet.Errors: true}
	none := map[sheet.Kind]bool{sheet.Steps: true, sheet.Order: true, sheet.Measure: true, sheet.Legend: true}
	followed, said := "Answer for the whole pull, 6.0 m of 6.0 m", "The figures of this sheet are those of the rig as drawn."
	for _, g := range booklet(t, p, sheet.Options{Sheets: everything()}).Pages {
		text := allText(g)
		switch {
		case asDrawn[g.Kind]:
			assert.Contains(t, text, said, g.Name)
		case none[g.Kind]:
			lacks(t, text, said, g.Name)
			lacks(t, text, followed, g.Name)
		default:
			assert.Contains(t, text, followed, g.Name)
		}
		if g.Kind == sheet.StopLook {
			assert.Contains(t, text, "planned "+end)
		}
	}
	p2 := *p
	p2.Site.Vehicles = append(p2.Site.Vehicles[:0:0], p2.Site.Vehicles...)
	for i := range p2.Site.Vehicles {
		if q := &p2.Site.Vehicles[i]; q.Stuck != nil {
			stuck := *q.Stuck
			stuck.WayLength, q.Stuck = 0, &stuck
		}
	}
	g := booklet(t, &p2, sheet.Options{Sheets: []sheet.Kind{sheet.StopLook}}).Pages[0]
	assert.Contains(t, allText(g), "planned "+drawn, "nobody says how far it goes")
	assert.Contains(t, allText(g), "Answer for the rig as drawn")
}

// Every sum ends in the figure of its part's row in the table of loads, which is that
// of the whole pull. (one rule: the last line of a sum equals the figure)
func TestSumsEndWhereThePartIsWorst(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	a := travel.Whole(p, "R1")
	all := ""
	for _, g := range booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Sums}}).Pages {
		all += allText(g)
	}
	q, ok := a.Part("B1")
	require.True(t, ok)
	require.Positive(t, q.AtM, "it is not worst as drawn")
	assert.Contains(t, all, quantity.PlainSpaces(w.LoadFigure(q.Move)))
	for _, r := range w.Loads(a, nil, words.ColumnUsed).Rows {
		if r.Part.Known() {
			assert.Contains(t, all, quantity.PlainSpaces(r.Cells[words.ColumnUsed]), r.Part.ID)
		}
	}
}
