package sheet_test

import (
	"fmt"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// written is where a text's capitals lie on a page.
type written struct {
	text           string
	x0, y0, x1, y1 float64
}

func textsOf(g *sheet.Page) []written {
	var r pen.Recorder
	g.Draw(&r)
	var all []written
	for _, m := range r.Marks {
		if m.Kind != pen.TextMark || m.Text == "" || m.Type.RotateDeg != 0 {
			continue
		}
		w, _, _ := pen.Measure(m.Text, &m.Type)
		x := m.X - map[pen.Anchor]float64{pen.Start: 0, pen.Middle: w / 2, pen.End: w}[m.Type.Anchor]
		all = append(all, written{m.Text, x, m.Y - pen.CapHeight(&m.Type), x + w, m.Y})
	}
	return all
}

// sign reports whether a text is the letter on a person's sign.
func sign(text string) bool { return len(text) == 1 && text >= "A" && text <= "Z" }

// overlaps are the pairs of texts of a page that lie on each other; signs says
// how often two people stand in one place.
func overlaps(g *sheet.Page) (out []string, signs int) {
	const touch = 0.3 // mm that do not hinder reading
	all := textsOf(g)
	for i, a := range all {
		for _, b := range all[i+1:] {
			if a.x0+touch < b.x1 && b.x0+touch < a.x1 && a.y0+touch < b.y1 && b.y0+touch < a.y1 {
				if sign(a.text) && sign(b.text) {
					signs++
					continue
				}
				out = append(out, fmt.Sprintf("%q on %q", a.text, b.text))
			}
		}
	}
	return out, signs
}

func TestNoTextLiesOnAnotherInTheExamples(t *testing.T) {
	for _, name := range []string{"redirect", "straight", "doubled"} {
		for _, landscape := range []bool{false, true} {
			kinds := everything()
			if name == "straight" {
				kinds = kinds[:len(kinds)-3]
			}
			for _, g := range booklet(t, example(t, name), sheet.Options{Sheets: kinds, Landscape: landscape}).Pages {
				found, _ := overlaps(g)
				assert.Empty(t, found, "%s, landscape %v: %s", name, landscape, g.Name)
			}
		}
	}
}

// crowdedPlan is the redirect's plan with its things thrown about, more trees,
// people and boulders.
func crowdedPlan(t testing.TB, seed uint64) *plan.Plan {
	r := rand.New(rand.NewPCG(seed, 1))
	p := *example(t, "redirect")
	near := func(x, by float64) float64 { return x + (2*r.Float64()-1)*by }
	p.Site.Vehicles = append([]plan.Vehicle(nil), p.Site.Vehicles...)
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		v.At = plan.Point{X: near(v.At.X, 4), Y: near(v.At.Y, 4)}
		v.Bearing = quantity.Degrees(near(float64(v.Bearing), 30)).Normal()
	}
	tree := p.Site.Anchors[0]
	p.Site.Anchors = append([]plan.Anchor(nil), p.Site.Anchors...)
	for i := range r.IntN(5) {
		a := tree
		a.ID, a.Name = plan.ID(fmt.Sprintf("T%d", 10+i)), ""
		a.At = plan.Point{X: r.Float64() * 40, Y: r.Float64() * 25}
		p.Site.Anchors = append(p.Site.Anchors, a)
	}
	for i := range r.IntN(5) {
		p.Site.People = append(p.Site.People[:len(p.Site.People):len(p.Site.People)], plan.Person{Head: plan.Head{ID: plan.ID(fmt.Sprintf("P%d", 10+i))},
			Role: []string{plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander}[r.IntN(3)], At: plan.Point{X: r.Float64() * 40, Y: r.Float64() * 25}})
	}
	return &p
}

func TestNoTextLiesOnAnotherInAnyPlan(t *testing.T) {
	plans := 200
	if testing.Short() {
		plans = 20
	}
	bad, signs, pages := 0, 0, 0
	for seed := range plans {
		for _, g := range booklet(t, crowdedPlan(t, uint64(seed)), sheet.Options{Sheets: []sheet.Kind{sheet.Overview, sheet.Zones, sheet.Steps}, Landscape: seed%2 == 1}).Pages {
			found, covered := overlaps(g)
			pages++
			signs += covered
			for _, s := range found {
				bad++
				if bad <= 10 {
					t.Errorf("plan %d, %s: %s", seed, g.Name, s)
				}
			}
		}
	}
	assert.Zero(t, bad, "texts on one another in %d plans", plans)
	assert.LessOrEqual(t, signs, pages/20, "signs of people that stand in one place")
}

// Everything copies in black and white: no mark of any sheet has a colour.
func TestSheetsAreBlackAndWhite(t *testing.T) {
	grey := func(c color.NRGBA) bool { return c.A == 0 || c.R == c.G && c.G == c.B }
	for _, g := range booklet(t, example(t, "redirect"), sheet.Options{Sheets: everything()}).Pages {
		var r pen.Recorder
		g.Draw(&r)
		for _, m := range r.Marks {
			if !grey(m.Style.Fill) || !grey(m.Style.Stroke) || !grey(m.Type.Colour) {
				t.Errorf("%s: a mark has a colour", g.Name)
				break
			}
			if m.Kind == pen.TextMark {
				c := m.Type.Colour // text is dark on white or white on black, never between
				assert.True(t, c.R < 0x60 || c.R == 0xff, "%s: %q is grey", g.Name, m.Text)
			}
		}
	}
}

// In colour the drawings have the signal colours of ISO 3864-4, and the legend says so;
// tables and words stay black and white.
func TestSheetsInColour(t *testing.T) {
	danger := color.NRGBA{R: 0x9B, G: 0x24, B: 0x23, A: 0xFF}
	for _, k := range []sheet.Kind{sheet.Overview, sheet.Diagram, sheet.Zones, sheet.Legend, sheet.Loads, sheet.Order} {
		g := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{k}, Colour: true}).Pages[0]
		var r pen.Recorder
		g.Draw(&r)
		found := false
		for _, m := range r.Marks {
			found = found || m.Style.Fill == danger || m.Style.Stroke == danger
		}
		assert.Equal(t, k != sheet.Loads && k != sheet.Order, found, k)
		if k == sheet.Legend {
			assert.Contains(t, allText(g), "Numbered triangle, red: a DANGER")
			lacks(t, allText(g), "Numbered triangle, black", "legend")
		}
	}
	assert.Contains(t, pagesOf(t, example(t, "redirect"), "en", sheet.Legend), "Numbered triangle, black: a DANGER")
}

func TestLandscapeAndScaleNeverShrinkLetters(t *testing.T) {
	least := math.Inf(1)
	for _, g := range booklet(t, crowdedPlan(t, 7), sheet.Options{Sheets: everything()[:15]}).Pages {
		var r pen.Recorder
		g.Draw(&r)
		for _, m := range r.Marks {
			if m.Kind == pen.TextMark {
				least = math.Min(least, pen.CapHeight(&m.Type))
			}
		}
	}
	assert.GreaterOrEqual(t, least, sheet.TextCap)
}

// Any plan gives every sheet or a sentence, and never a mark that is no number.
func TestAnyPlanGivesEverySheet(t *testing.T) {
	for seed := range 12 {
		p := crowdedPlan(t, uint64(1000+seed))
		for _, k := range sheet.Kinds() {
			b, err := sheet.Make(p, sheet.Options{Sheets: []sheet.Kind{k}, Paper: sheet.Papers()[seed%len(sheet.Papers())], Landscape: seed%2 == 0})
			if err != nil {
				assert.ErrorIs(t, err, sheet.ErrQuestion, "plan %d: %s", seed, k)
				continue
			}
			for i, g := range b.Pages {
				onPaper(t, i, g)
			}
		}
	}
}
