package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What stretches as a kinetic rope does, 30 % before it breaks (common practice),
// is one in a winch rig, whatever it is called: DANGER if it surely does,
// CAUTION if it may.
func TestStretchInAWinchChain(t *testing.T) {
	const none = part.Level(-1)
	for material, tt := range map[string]struct {
		level  part.Level
		strain float64
		source string
	}{
		plan.MaterialKinetic:   {part.Danger, 0.30, "common practice"},
		plan.MaterialNylon:     {part.Danger, 0.50, "US Navy NAVEDTRA 12018"},
		plan.MaterialFibre:     {part.Danger, 0.50, "may be nylon"},
		plan.MaterialPolyester: {part.Caution, 0.30, "10 to 30 %: double braid to laid (memory)"},
		plan.MaterialWeb:       {none, 0, "polyester fibre, 15 to 25 %"},
		plan.MaterialRound:     {none, 0, "the same"},
		plan.MaterialHMPE:      {none, 0, "2.7 to 4 %"},
		plan.MaterialWire:      {none, 0, "2 to 4 %"},
		plan.MaterialChain:     {none, 0, "as wire"},
		"spider silk":          {none, 0, "line-material-unknown says it"},
	} {
		for piece, found := range map[string][]part.Finding{
			"line": func() (found []part.Finding) {
				l := hmpe()
				l.Material = material
				gear.Stretch(gear.StretchIn{Line: l, OnWinch: true}, nil, &found)
				return found
			}(),
			"sling": func() (found []part.Finding) {
				s := web()
				s.Material = material
				gear.Sling(gear.SlingIn{Sling: s, Hitch: plan.HitchStraight, OnWinch: true}, nil, &found)
				return found
			}(),
			"dead line": func() (found []part.Finding) {
				l := hmpe()
				l.Material = material
				gear.Stretch(gear.StretchIn{Line: l, Pulled: true}, nil, &found)
				return found
			}(),
		} {
			documented(t, found)
			level, raised := levelOf(found, "kinetic-on-winch")
			require.Equal(t, tt.level != none, raised, "%s of %s: %s", piece, material, tt.source)
			if raised {
				assert.Equal(t, tt.level, level, "%s of %s", piece, material)
				inDelta(t, tt.strain, valueOf(t, found, "kinetic-on-winch", "strain"), 1e-12, tt.source)
				inDelta(t, 0.30, valueOf(t, found, "kinetic-on-winch", "kinetic"), 1e-12)
			}
		}
		assert.Equal(t, tt.level == none && material != "spider silk", gear.Static(material), material)
	}
}

// A stiffness that somebody typed may make a line stretchy, and never a stretch
// rope static.
func TestTypedStiffnessOfAStretchRope(t *testing.T) {
	raises := func(material string, ae, strain float64) bool {
		l := hmpe() // 90 kN
		l.Material, l.Stiffness = material, quantity.Force(ae)
		var found []part.Finding
		gear.Stretch(gear.StretchIn{Line: l, OnWinch: true}, nil, &found)
		_, raised := levelOf(found, "kinetic-on-winch")
		if raised {
			inDelta(t, strain, valueOf(t, found, "kinetic-on-winch", "strain"), 1e-9)
		}
		return raised
	}
	assert.True(t, raises(plan.MaterialHMPE, 90e3/0.301, 0.301))
	assert.False(t, raises(plan.MaterialHMPE, 90e3/0.299, 0))
	assert.True(t, raises(plan.MaterialNylon, 90e3/0.05, 0.5))
	assert.True(t, raises(plan.MaterialNylon, 90e3/0.6, 0.6))
}

// 110 kN of laid nylon, 9 m at 30 kN: e = 0.5·√(30/110), E = T·e·L/3 with the
// stiffening exponent 2 (memory); of kinetic rope 0.3 in place of 0.5.
func TestEnergyByItsOwnStrain(t *testing.T) {
	for material, strain := range map[string]float64{plan.MaterialNylon: 0.5, plan.MaterialKinetic: 0.3} {
		var found []part.Finding
		e := gear.Kinetic(gear.KineticIn{Thing: "S2", Material: material, Tension: 30 * kN, Length: 9, Rating: breaking(110), OnWinch: true}, &found)
		inDelta(t, 30e3*strain*math.Sqrt(30.0/110)*9/3, float64(e), 1e-6, material)
		level, raised := levelOf(found, "kinetic-energy")
		assert.True(t, raised && level == part.Danger, material)
	}
}
