package sheet_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// held is a truck tied back by a line and a strap, a casualty held back by a
// line over a friction device, and a casualty that takes 15.4 kN to break loose
// and 9.0 to move.
func held(t testing.TB) *plan.Plan { return seeded.Read(t, os.DirFS("../../testdata"), "held.kedge") }

// pagesOf is what is written on the pages of some sheets, page by page.
func pagesOf(t testing.TB, p *plan.Plan, lang string, kinds ...sheet.Kind) string {
	t.Helper()
	w, err := words.New(lang, quantity.Metric)
	require.NoError(t, err)
	var all []string
	for _, g := range booklet(t, p, sheet.Options{Sheets: kinds, Words: w}).Pages {
		all = append(all, allText(g))
	}
	return strings.Join(all, "\n")
}

// The pull that breaks loose is on every sheet that tells of the pulls, where it
// asks more than that to move, and on none where it does not.
func TestSheetsHaveThePullToBreakLoose(t *testing.T) {
	for kind, want := range map[sheet.Kind][]string{
		sheet.Overview: {"to break loose", "15.4", "Line 2, tie-back to Tree 2"},
		sheet.Loads: {"to break loose", "Line 2, tie-back to Tree 2 · a third of breaking strength", "Line 3, hold-back to Tree 1",
			"line tension to move 9.0 kN, to break loose 15.4 kN, at stall 20.0 kN"},
		sheet.Briefing: {"line tension to move 9.0 kN, to break loose 15.4 kN, at stall 20.0 kN"},
		sheet.StopLook: {"planned 9.0 kN, to break loose 15.4 kN, the winch can pull up to 20.0 kN. Above that to break loose: stop."},
		sheet.Compare:  {"to break loose 15.4 kN", "Tree 3 17.0 kN"},
		sheet.Sums:     {"line tension to break loose = 15.37927 kN ÷ advantage 1 = 15.37927 kN", "used to break loose = 15.37927 kN ÷ 36.3375 kN = 43 %"},
	} {
		p := held(t)
		p.Site.People = nil // one stands in the recoil: no card then says how to pull
		text := strings.Join(strings.Fields(pagesOf(t, p, "en", kind)), " ")
		for _, s := range want {
			assert.Contains(t, text, s, kind)
		}
		flat := p
		flat.Site.Vehicles[0].Stuck.Breakaway = 1
		text = strings.Join(strings.Fields(pagesOf(t, flat, "en", kind)), " ")
		lacks(t, text, "15.4 kN", string(kind))
		if kind == sheet.Compare || kind == sheet.StopLook || kind == sheet.Overview {
			lacks(t, text, "to break loose", string(kind))
		}
	}
	assert.Contains(t, pagesOf(t, held(t), "de", sheet.Loads), "zum Losbrechen 15,4 kN")
}

// A page without room for the basis in a column of its own breaks no word.
func TestLoadsToBreakLooseBreakNoWord(t *testing.T) {
	for _, lang := range []string{"en", "de"} {
		text := strings.Fields(pagesOf(t, held(t), lang, sheet.Loads))
		for _, word := range map[string][]string{"en": {"limit", "failure", "status", "tie-back"}, "de": {"Bewegen", "Losbrechen", "blockiert", "Grenze", "innerhalb", "Rückverankerung"}}[lang] {
			assert.True(t, slices.Contains(text, word), word)
		}
	}
}

// What ties back and holds back has captions and steps of its own; a line that
// runs from winch to casualty is the pulling one alone.
func TestStepsOfWhatHolds(t *testing.T) {
	for lang, want := range map[string][]string{
		"en": {"Fit the slings: Sling 1 and Sling 3.", "Tie back, from the vehicle to what holds it: Line 2 and Sling 2.",
			"Hold back, from the casualty to what holds it: Line 3.", "Run out, from the winch to the casualty: Line 1."},
		"de": {"Rückverankern, vom Fahrzeug zu dem, was es hält: Seil 2 und Schlinge 2.", "Rückhalten, vom Havaristen zu dem, was ihn hält: Seil 3."},
	} {
		text := strings.Join(strings.Fields(pagesOf(t, held(t), lang, sheet.Steps)), " ")
		for _, s := range want {
			assert.Contains(t, text, s)
		}
	}
	r := example(t, "redirect")
	lacks(t, pagesOf(t, r, "en", sheet.Steps), "Tie back", "a rig without one")
}

// The kit has every line with what of it is out, and what pays one out.
func TestKitOfWhatHolds(t *testing.T) {
	text := pagesOf(t, held(t), "en", sheet.Kit)
	for _, s := range []string{"Line 2: 10.1 m of 10.1 m out", "Line 3: 7.7 m of 7.7 m out", "in all 32.8 m of line is out", "Friction device: 1, to pay out Line 3."} {
		assert.Contains(t, text, s)
	}
	p := held(t)
	p.Rigs[0].Lines[2].PaidOut = ""
	lacks(t, pagesOf(t, p, "en", sheet.Kit), "Friction device", "a line that is fixed")
}

// The basis in the title block is the one the shares count on.
func TestBasisOfAnOverturnedCasualty(t *testing.T) {
	assert.Contains(t, pagesOf(t, held(t), "en", sheet.Diagram), "Basis: pulling")
	p := held(t)
	p.Site.Vehicles[0].Stuck.Overturned = true
	assert.Contains(t, pagesOf(t, p, "en", sheet.Diagram), "Basis: lifting")
}

// A tie-back beside the line that pulls leaves its way on paper as it is.
func TestKeyOfATiedRig(t *testing.T) {
	p := example(t, "redirect")
	p.Site.Anchors[2].Rise = 0.6 // as high as the point: nothing is steep
	r := &p.Rigs[0]
	r.Lines = append(slices.Clone(r.Lines), plan.Line{Head: plan.Head{ID: "L9"}, Path: []plan.Port{{Thing: "V2", Point: "rear"}, {Thing: "T3"}}, Length: 9, Use: plan.UseTieBack})
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Questions: []exercise.Question{{Kind: exercise.AskLoad, Part: "B1"}}})
	var all []string
	for _, g := range b.Pages {
		all = append(all, allText(g))
	}
	assert.Contains(t, strings.Join(all, " "), "× cos", "worked out by the law of cosines, not told as the solver's sum")
}

// Of a rig that is refused not all zones are drawn: nobody counts as outside of
// them, on the briefing card or among rigs side by side.
func TestNobodyIsOutsideOfMissingZones(t *testing.T) {
	p := example(t, "straight")
	p.Site.People[0].At = plan.Point{X: 20, Y: 80}
	outside := func(p *plan.Plan) int { // besides the foot and the cautions
		s := pagesOf(t, p, "en", sheet.Briefing)
		return strings.Count(s, "outside the zones") - strings.Count(s, "People stay outside the zones whatever the figures say")
	}
	assert.Contains(t, pagesOf(t, p, "en", sheet.Briefing), "not all zones computed")
	assert.Zero(t, outside(p))
	assert.Contains(t, strings.Join(strings.Fields(pagesOf(t, p, "en", sheet.Compare)), " "), "people inside a zone 0, not all zones computed")
	assert.Equal(t, 1, outside(held(t)), "the operator")
}

// Whoever stands beside a line that ties back or holds back stands in its zone, on
// every sheet that says where people stand; the line is listed and drawn there.
func TestBesideWhatHoldsIsInside(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, use := range []string{plan.UseTieBack, plan.UseHoldBack} {
		p := held(t)
		p.Site.People = p.Site.People[:1]
		a, _ := answered(p, "R1", w)
		found := false
		for i := range a.Stretches {
			st := &a.Stretches[i]
			l, ok := p.Rigs[0].Line(st.Line)
			if !ok || l.Use != use {
				continue
			}
			found = true
			dx, dy := st.B.X-st.A.X, st.B.Y-st.A.Y
			n := math.Hypot(dx, dy)
			p.Site.People[0].At = plan.Point{X: (st.A.X+st.B.X)/2 - 0.3*dy/n, Y: (st.A.Y+st.B.Y)/2 + 0.3*dx/n} // 0.3 m off its middle
		}
		require.True(t, found, use)
		for _, k := range []sheet.Kind{sheet.Briefing, sheet.Overview, sheet.Findings} {
			s := strings.Join(strings.Fields(pagesOf(t, p, "en", k)), " ")
			assert.Contains(t, s, "inside recoil", "%s %s", use, k)
			lacks(t, strings.ReplaceAll(s, "People stay outside the zones", ""), "outside the zones", use)
		}
		assert.Contains(t, pagesOf(t, p, "en", sheet.Briefing), "Do not pull this rig", use)
		assert.Contains(t, pagesOf(t, p, "en", sheet.Overview), ", "+use+" to Tree", use)
	}
}
