package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// The length that is asked for round a trunk is that of two tangents and the arc
// between them, 2r·(cot h + π/2 + h) at a half opening of h: 60° for a basket, which
// no standard lets open wider than 120° (EN 1492); 45° for a choke as it hangs freely,
// at 135° (common practice). A bridle's widest is that of a basket.
func TestWhatFindingsAskFor(t *testing.T) {
	needs := func(halfDeg float64) float64 {
		h := halfDeg * math.Pi / 180
		return 2 * 0.24 * (1/math.Tan(h) + math.Pi/2 + h)
	}
	short := func(s *plan.Sling) { s.Length = 1.52 }
	for _, c := range []struct {
		id, name string
		want     float64
		raise    func(f findings)
	}{
		{"sling-opens-wide", "needs", needs(60), slingOf(plan.HitchBasket, 0.24, short)},
		{"sling-too-short", "needs", needs(60), slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.4 })},
		{"sling-choke-tight", "needs", needs(45), slingOf(plan.HitchChoked, 0.24, short)},
		{"bridle-wide", "most", 120, func(f findings) { gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 130}, f) }},
		{"bridle-wide", "between", 130, func(f findings) { gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 130}, f) }},
		{"two-winches", "whole", 25_000, func(f findings) { gear.TwoWinches("L1", 10*kN, 25*kN, f) }},
	} {
		var found []part.Finding
		c.raise(&found)
		said := false
		for _, f := range found {
			for _, v := range f.Values {
				if f.ID == c.id && v.Name == c.name {
					said = true
					assert.InDelta(t, c.want, v.X, 1e-6, "%s %s", c.id, c.name)
				}
			}
		}
		require.True(t, said, "%s says no %s", c.id, c.name)
	}
}

// Wraps are counted whole though a quotient of two typed lengths falls short of the
// number by its last bit (0.072/0.012 = 5.999…), and a layer that is just full is the
// last one.
func TestWrapsAndLayersAreCountedWhole(t *testing.T) {
	d := gear.Drum{Diameter: 0.08, Width: 0.072, Line: 0.012}
	require.Equal(t, 6, d.WrapsPerLayer(), "72 mm by 12 mm")
	for n, onDrum := 1, d.LayerLength(1); n <= 4; n, onDrum = n+1, onDrum+d.LayerLength(n+1) {
		layer, wraps := d.Layer(onDrum)
		assert.Equal(t, n, layer)
		assert.InDelta(t, 6*n, wraps, 1e-9)
	}
}
