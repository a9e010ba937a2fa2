package gear

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/facts/factstest"
	"kedge/solver/plan"
)

// The bands of the standards, which the worse-leg check hides from outside
// where it governs.
func TestBandsOfTheStandards(t *testing.T) {
	cases := factstest.Published(t, os.DirFS("../../testdata/published"), "gear.toml")
	en := func(half float64) float64 {
		f, ok := basketMode("EN", half)
		require.True(t, ok)
		return f.X
	}
	us := func(half float64) float64 {
		f, ok := basketMode("ASME", half)
		require.True(t, ok)
		return f.X
	}
	c := factstest.ByID(t, cases, "gear.9") // EN web sling 3 t
	straight := c.In(t, "straight_t")
	c.Check(t, "basket_parallel_t", straight*en(6))
	c.Check(t, "basket_45_t", straight*en(45))
	c.Check(t, "basket_60_t", straight*en(60))
	c.Check(t, "choked_t", straight*chokedFactor(&plan.Sling{Material: plan.MaterialWeb, Standard: "EN"}).X)
	for _, border := range []struct{ below, above, step float64 }{{6, 6.01, 1.4}, {45, 45.01, 1.0}} {
		assert.Greater(t, en(border.below), en(border.above))
		assert.Equal(t, border.step, en(border.above))
	}

	c = factstest.ByID(t, cases, "gear.10") // manila 1 in, US
	vertical := c.Wants(t, "vertical_lb")[0]
	var basket []float64
	for _, a := range c.Ins(t, "angle_deg") {
		basket = append(basket, vertical*us(a))
	}
	c.Check(t, "basket_lb", basket...)
	c.Check(t, "choker_lb", vertical*chokedFactor(&plan.Sling{Material: plan.MaterialFibre, Standard: "ASME"}).X)

	c = factstest.ByID(t, cases, "gear.11") // choke-angle steps
	var allowed []float64
	for _, a := range c.Ins(t, "choke_deg") {
		x, ok := facts.Must(facts.SlingChokeAngle).Step(a)
		require.True(t, ok)
		allowed = append(allowed, c.In(t, "choker_kn")*x)
	}
	c.Check(t, "allowed_kn", allowed...)

	for _, standard := range []string{"", "EN", "ASME", "other"} {
		for _, half := range []float64{60.01, 90, -1, math.NaN()} {
			_, ok := basketMode(standard, half)
			assert.False(t, ok, "%s %v", standard, half)
		}
	}
	f, ok := basketMode("other", 5.5)
	require.True(t, ok)
	assert.Equal(t, 1.732, f.X, "the lower of EN 2.0 (to 6°) and US 1.732 (over 5°)")
}

func TestUltimateFactorByStandard(t *testing.T) {
	// EN 1492 7, web slings US 5, chain 4 (EN 818-4), wire 5 (EN 13414-1). A tag
	// that names no standard counts with the lower.
	for _, tt := range []struct {
		material, standard string
		want               float64
	}{
		{plan.MaterialWeb, "EN", 7}, {plan.MaterialWeb, "ASME", 5}, {plan.MaterialWeb, "", 5}, {plan.MaterialRound, "EN", 7},
		{plan.MaterialChain, "EN", 4}, {plan.MaterialWire, "EN", 5}, {plan.MaterialFibre, "", 5}, {plan.MaterialHMPE, "EN", 5},
	} {
		assert.Equal(t, tt.want, slingFactor(&plan.Sling{Material: tt.material, Standard: tt.standard}).X, "%s %s", tt.material, tt.standard)
	}
}

func TestTheHandbookIsWhole(t *testing.T) {
	b := book()
	assert.Len(t, b.ends, 16)
	assert.Len(t, b.knots, 18)
	inRange := func(f facts.Figure) {
		assert.Greater(t, f.X, 0.0, f.ID)
		assert.LessOrEqual(t, f.X, 1.0, f.ID)
	}
	for _, k := range append(append([]keeps{}, b.ends...), b.knots...) {
		inRange(k.Figure)
	}
	assert.Equal(t, 0.70, b.lowestEndWire.X, "spliced eye with thimble, low end: US Army FM 55-501")
	assert.Equal(t, 0.45, b.lowestEndFibre.X, "lowest of the knot table")
	assert.Equal(t, 0.7, b.pointShare.X, "the middle band of a shackle's side pull")
}
