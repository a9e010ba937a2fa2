package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
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
	asDrawn := map[sheet.Kind]bool{sheet.Range: true, sheet.Report: true, sheet.InquiryKey: true}
	none := map[sheet.Kind]bool{sheet.Steps: true, sheet.Order: true, sheet.Measure: true, sheet.Legend: true, sheet.Exercise: true, sheet.Key: true, sheet.Errors: true}
	followed, said := "Answer for the whole pull, 6.0 m of 6.0 m", "The figures of this sheet are those of the rig as drawn."
	loads := ""
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
		if g.Kind == sheet.Loads {
			loads += text
		}
	}
	assert.Contains(t, loads, "line tension to move "+end)
	p2 := *p
	p2.Site.Vehicles = append(p2.Site.Vehicles[:0:0], p2.Site.Vehicles...)
	for i := range p2.Site.Vehicles {
		if q := &p2.Site.Vehicles[i]; q.Stuck != nil {
			stuck := *q.Stuck
			stuck.WayLength, q.Stuck = 0, &stuck
		}
	}
	text := pagesOf(t, &p2, "en", sheet.Loads)
	assert.Contains(t, text, "line tension to move "+drawn, "nobody says how far it goes")
	assert.Contains(t, text, "Answer for the rig as drawn")
}

// The sum of the redirect's block is that of the end of the way, where it is worst, not
// that of the rig as drawn. (the sums that kedge check --why prints at both moments)
func TestSumsAreOfTheMomentAtWhichThePartIsWorst(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	all := ""
	for _, g := range booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Sums}}).Pages {
		all += allText(g)
	}
	last := func(atM float64) string {
		at := travel.At(p, "R1", atM)
		derivation, err := solver.Explain(at, "R1", "B1")
		require.NoError(t, err)
		lines := w.Derivation(derivation, w.Naming(solver.Assess(at, "R1"), w.Names(p, "R1")))
		return quantity.PlainSpaces(lines[len(lines)-1])
	}
	drawn, end := last(0), last(float64(p.Casualty().Stuck.WayLength))
	require.NotEqual(t, drawn, end)
	assert.Contains(t, all, end)
	lacks(t, all, drawn, "sums")
}

// The sheet of the pull tells of the redirect its start, its end and where gear comes
// over its limit, each with the tension that the rig has drawn there.
func TestPullSheetTellsTheMoments(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	for _, landscape := range []bool{false, true} {
		b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Pull}, Landscape: landscape})
		all := ""
		for i, g := range b.Pages {
			onPaper(t, i, g)
			found, _ := overlaps(g)
			assert.Empty(t, found, g.Name)
			all += allText(g) + " "
		}
		for _, atM := range []float64{0, 0.75, 1.5, 6} { // eighths of the way, and its ends
			a := solver.Assess(travel.At(p, "R1", atM), "R1")
			worst := &a.Parts[a.Worst]
			at := w.Value(part.Value{Unit: part.UnitLength, X: atM}, nil)
			row := at + " " + w.Load(a.Move.Tension) + " " + w.PartName(worst, w.Names(p, "R1")) + " " + w.UsedOf(worst)
			assert.Contains(t, all, quantity.PlainSpaces(row))
		}
		for _, word := range []string{"line tension", "most used Winch vehicle sliding,", "most used part"} { // which worst it is
			assert.Contains(t, all, word)
		}
		assert.Contains(t, all, "Not computed – Without a known share of a limit, at one moment at least: Casualty, front recovery point.")
		lacks(t, all, "What stops it", "a pull that goes to its end")
	}
}

// A pull that meets something on its way says where it stops and why; one that cannot be
// followed at all has no curve and says so.
func TestPullSheetSaysWhatStopsIt(t *testing.T) {
	p := *example(t, "redirect")
	v := p.Casualty()
	way, ok := v.WayOut()
	require.True(t, ok)
	e, n := plan.Heading(way)
	ahead := float64(v.Length)/2 + 3 // its front reaches the point after 3 m
	p.Site.Anchors = append(p.Site.Anchors[:len(p.Site.Anchors):len(p.Site.Anchors)], plan.Anchor{Head: plan.Head{ID: "T9"}, Kind: plan.AnchorRated,
		At: plan.Point{X: v.At.X + e*ahead, Y: v.At.Y + n*ahead}})
	all := ""
	for _, g := range booklet(t, &p, sheet.Options{Sheets: []sheet.Kind{sheet.Pull}}).Pages {
		all += allText(g) + " "
	}
	assert.Contains(t, all, "What stops it")
	assert.Contains(t, all, "The pull ends at 3.0 m of 6.0 m")
	straight := example(t, "straight")
	all = ""
	for _, g := range booklet(t, straight, sheet.Options{Sheets: []sheet.Kind{sheet.Pull}}).Pages {
		all += allText(g) + " "
	}
	assert.Contains(t, all, "Answer for the rig as drawn: the pull cannot be followed from there.")
	lacks(t, all, "100 %", "no curve")
}
