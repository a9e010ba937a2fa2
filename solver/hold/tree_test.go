package hold_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

func TestTreeScotsPine(t *testing.T) {
	// By hand: V = 8.6e-5 · 48^1.634205 · 20^1.079539 = 1.2202 m³, 1037 kg,
	// times 124.2 is 128.8 kN·m in the mean, at 1 m 128.8 kN; 0.65 of it [ours]
	// is 83.7 kN, a third 27.9 kN.
	in := hold.TreeIn{Tree: pine(), Soil: hold.SoilGleyed, Height: 1}
	m, ok := hold.Moments(in)
	require.True(t, ok)
	inDelta(t, 128.8e3, float64(m.Uproot), 50)
	c := hold.Tree(in, nil, nil)
	require.True(t, c.Limit.Known)
	inDelta(t, 27.9e3, float64(c.Limit.Force), 50)
	assert.Equal(t, "hold ÷ 3", c.Limit.Basis)
	inDelta(t, 83.7e3, float64(c.Ultimate.Low), 50)
	inDelta(t, 128.8e3, float64(c.Ultimate.Likely), 50, "the mean")
	inDelta(t, 128.8e3, float64(c.Ultimate.High), 50)
	assert.Equal(t, part.ConfidenceOurs, c.Limit.Confidence, "the factor is ours")
}

func TestTreeBroadleafIsAForm(t *testing.T) {
	// By hand: 0.4 · π/4 · 0.48² · 20 = 1.4476 m³ (form factor of forest
	// mensuration, low end, from memory), 1676.4 kg of oak at 1158 kg/m³, times
	// 176.0 N·m/kg on gleyed soil (both of the wind-risk model's parameters) is
	// 295.0 kN·m.
	oak := pine()
	oak.Species = "oak"
	m, ok := hold.Moments(hold.TreeIn{Tree: oak, Soil: hold.SoilGleyed, Height: 1})
	require.True(t, ok)
	inDelta(t, 295.0e3, float64(m.Uproot), 100)
}

func TestAStemIsKnownByItsGirthOrAtTheStrap(t *testing.T) {
	of := func(girth, trunk quantity.Length) *plan.Anchor {
		a := pine()
		a.Girth, a.Trunk = girth, trunk
		return a
	}
	limit := func(a *plan.Anchor, height quantity.Length) (quantity.Force, []part.Finding) {
		var found []part.Finding
		s := hold.Anchor(hold.In{Anchor: a, Load: east, Height: height}, nil, &found)
		require.True(t, s.Limit.Known)
		documented(t, found)
		return s.Limit.Force, found
	}
	// A girth of 1.508 m is a diameter of 0.48 m (girth ÷ π).
	both := of(0.48*math.Pi, 0.52)
	inDelta(t, 0.48, float64(terrain.AtBreast(both)), 1e-12)
	inDelta(t, 0.52, float64(terrain.AtStrap(both)), 1e-12)
	inDelta(t, 0.52, float64(terrain.AtStrapThin(both)), 1e-12)
	girth := of(0.48*math.Pi, 0)
	inDelta(t, 0.60, float64(terrain.AtStrap(girth)), 1e-12, "÷ 0.8: as thick as it may be")
	inDelta(t, 0.48, float64(terrain.AtStrapThin(girth)), 1e-12, "no thinner than above")
	trunk := of(0, 0.60)
	inDelta(t, 0.48, float64(terrain.AtBreast(trunk)), 1e-12, "× 0.8")
	inDelta(t, 0.60, float64(terrain.AtStrap(trunk)), 1e-12)
	assert.Zero(t, terrain.AtBreast(of(0, 0)))
	assert.Zero(t, terrain.AtStrap(of(0, 0)))

	want, found := limit(both, 1)
	assert.Equal(t, []string{"tree-untested"}, ids(found), "both are measured")
	got, found := limit(girth, 1)
	inDelta(t, float64(want), float64(got), 1e-6, "the hold is by the girth")
	assert.Equal(t, []string{"tree-trunk-assumed", "tree-untested"}, ids(found))
	got, found = limit(trunk, 1)
	inDelta(t, float64(want), float64(got), 1e-6)
	assert.Equal(t, []string{"tree-girth-assumed", "tree-untested"}, ids(found))

	// 0.48 m above 0.40 m is no stem, and 0.15 m above 0.52 m a diameter typed
	// for the girth: it is told, and the thinner counts.
	thin, found := limit(of(0.48*math.Pi, 0.40), 1)
	assert.Equal(t, []string{"tree-girth-doubtful", "tree-untested"}, ids(found))
	same, _ := limit(of(0.40*math.Pi, 0.40), 1)
	assert.Equal(t, same, thin)
	_, found = limit(of(0.48, 0.52), 1)
	assert.Equal(t, []string{"tree-girth-doubtful"}, ids(found)[:1])
	// A strap above breast height may lie on a thinner stem, which counts.
	above, found := limit(of(0.48*math.Pi, 0.40), 1.4)
	inDelta(t, float64(same)/1.4, float64(above), 1e-6)
	assert.NotContains(t, ids(found), "tree-girth-doubtful")
	_, found = limit(of(0.48*math.Pi, 0.475), 1)
	assert.NotContains(t, ids(found), "tree-girth-doubtful", "a girth read to the centimetre")
}

// The square of the diameter is a working load and not divided again: 48² ÷ 30 is
// 76.8 kN. A tall pine on peat: its third would be more.
func TestDiameterRuleGoesByTheGirth(t *testing.T) {
	a := pine()
	a.Trunk, a.Height, a.Soil, a.Rooting = 0.60, 60, hold.SoilDeepPeat, "deep"
	s := hold.Anchor(hold.In{Anchor: a, Load: east}, nil, nil)
	require.Equal(t, "D²/30", s.Limit.Basis)
	inDelta(t, 76.8e3, float64(s.Limit.Force), 1e-6)
}

func TestASpeciesNobodyNamedIsTheLowest(t *testing.T) {
	// The lowest product of volume, density and moment is that of no tree of the
	// tables more than of the unknown, on any soil and at any size.
	for _, d := range []quantity.Length{0.08, 0.2, 0.48, 1} {
		for _, soil := range []string{hold.SoilFreeDraining, hold.SoilGleyed, hold.SoilPeaty, hold.SoilDeepPeat} {
			of := func(species string) (hold.TreeMoments, bool) {
				a := thick(pine(), d)
				a.Species, a.Height = species, 12
				return hold.Moments(hold.TreeIn{Tree: a, Soil: soil})
			}
			unknown, ok := of("")
			require.True(t, ok)
			for _, name := range hold.Species() {
				if m, ok := of(name); ok {
					assert.LessOrEqual(t, float64(unknown.Uproot), float64(m.Uproot)*(1+1e-12), "%s %v %s", name, d, soil)
					assert.LessOrEqual(t, float64(unknown.Break), float64(m.Break)*(1+1e-12), "%s %v %s", name, d, soil)
				}
			}
		}
	}
}
