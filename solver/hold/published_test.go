package hold_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts/factstest"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// soilOf is a soil of the tree tables by its number in the published cases.
var soilOf = map[float64]string{1: hold.SoilFreeDraining, 2: hold.SoilGleyed, 3: hold.SoilPeaty, 4: hold.SoilDeepPeat}

// tree is the tree of a published case.
func tree(t *testing.T, c factstest.Case) *plan.Anchor {
	a := pine()
	a.Species, a.Rooting = c.Words["species"], c.Words["roots"]
	if _, ok := c.Inputs["diameter_cm"]; ok {
		thick(a, quantity.Length(c.In(t, "diameter_cm"))*quantity.Centimetre)
	}
	if _, ok := c.Inputs["height_m"]; ok {
		a.Height = quantity.Length(c.In(t, "height_m"))
	}
	return a
}

// TestPublished meets the published cases of this package through its own code.
func TestPublished(t *testing.T) {
	pounds := func(f quantity.Force) float64 { return float64(f / quantity.PoundForce) }
	kn := func(f quantity.Force) float64 { return float64(f / kN) }
	picket := func(soil string) func(*testing.T, factstest.Case) {
		return func(t *testing.T, c factstest.Case) {
			a := pickets()
			a.Layout, a.Soil = c.Words["layout"], soil
			got := hold.Anchor(hold.In{Anchor: a, Load: east}, nil, nil)
			require.True(t, got.Ultimate.Known)
			c.Check(t, "hold_lb", pounds(got.Ultimate.Low))
			c.Check(t, "hold_kn", kn(got.Ultimate.Low))
			inDelta(t, kn(got.Ultimate.Low)/3, kn(got.Limit.Force), 1e-9, "a third [ours]")
		}
	}
	power := func(t *testing.T, c factstest.Case) float64 {
		p, ok := hold.HoldingPower(quantity.Length(c.In(t, "depth_ft"))*quantity.Foot, c.In(t, "run_per_rise"))
		require.True(t, ok)
		return p
	}
	const lbPerFt2 = 4.4482216152605 / (0.3048 * 0.3048) // pascals; exact by definition
	moment := func(t *testing.T, c factstest.Case) {
		m, ok := hold.Moments(hold.TreeIn{Tree: tree(t, c), Soil: soilOf[c.In(t, "soil")]})
		require.True(t, ok)
		c.Check(t, "moment_knm", float64(m.Uproot/quantity.KilonewtonMetre))
	}
	tests := map[string]func(*testing.T, factstest.Case){
		"anchors.a1": picket(hold.SoilLoam), "anchors.a2": picket(hold.SoilLoam), "anchors.a3": picket(hold.SoilLoam),
		"anchors.a4": picket(hold.SoilWetClay), "anchors.a5": picket(hold.SoilWetSand),
		"anchors.d1": func(t *testing.T, c factstest.Case) {
			c.Check(t, "power_lb_ft2", power(t, c)/lbPerFt2)
			c.Check(t, "power_kpa", power(t, c)/1000)
		},
		"anchors.d2": func(t *testing.T, c factstest.Case) {
			of := func(soil string) float64 {
				a := log()
				a.Depth, a.Soil = quantity.Length(c.In(t, "depth_ft"))*quantity.Foot, soil
				s := hold.Anchor(hold.In{Anchor: a, Load: east, Run: c.In(t, "run_per_rise")}, nil, nil)
				return float64(s.Ultimate.Low) / (0.40 * (1.8 - 0.6096)) / lbPerFt2
			}
			c.Check(t, "hardpan_lb_ft2", of(hold.SoilHardpan))
			c.Check(t, "wet_lb_ft2", of(hold.SoilWetFine))
		},
		"anchors.d8": func(t *testing.T, c factstest.Case) {
			// The case takes 1 ft off for the trench: the high end; the low end
			// takes 2 ft (FM 5-125), the conservative of the two.
			a := log()
			a.LogDiameter, a.LogLength = quantity.Length(c.In(t, "log_m")), quantity.Length(c.In(t, "length_m"))
			s := hold.Anchor(hold.In{Anchor: a, Load: east, Run: c.In(t, "run_per_rise")}, nil, nil)
			c.Check(t, "hold_kn", kn(s.Ultimate.High))
			inDelta(t, kn(s.Ultimate.High)*(1.8-0.6096)/(1.8-0.3048), kn(s.Ultimate.Low), 1e-9)
			a.Soil = hold.SoilWetFine
			c.Check(t, "wet_kn", kn(hold.Anchor(hold.In{Anchor: a, Load: east, Run: 4}, nil, nil).Ultimate.High))
		},
		"anchors.d9": func(t *testing.T, c factstest.Case) {
			runs := c.Ins(t, "run_per_rise")
			for i, depth := range c.Ins(t, "depth_ft") {
				_, ok := hold.HoldingPower(quantity.Length(depth)*quantity.Foot, runs[i])
				assert.False(t, ok)
			}
		},
		"anchors.t1": func(t *testing.T, c factstest.Case) {
			m, ok := hold.Moments(hold.TreeIn{Tree: tree(t, c), Soil: hold.SoilGleyed})
			require.True(t, ok)
			c.Check(t, "stem_kg", float64(m.StemMass))
			c.Check(t, "volume_m3", float64(m.StemMass)/850)
		},
		"anchors.t2": moment, "anchors.t4": moment,
		"anchors.t3": func(t *testing.T, c factstest.Case) {
			var got []float64
			for _, h := range c.Ins(t, "strap_m") {
				s := hold.Tree(hold.TreeIn{Tree: tree(t, c), Soil: soilOf[c.In(t, "soil")], Height: quantity.Length(h)}, nil, nil)
				got = append(got, kn(s.Ultimate.Likely)) // the mean
			}
			c.Check(t, "pull_kn", got...)
		},
		"anchors.t5": func(t *testing.T, c factstest.Case) {
			a := tree(t, c)
			thick(a, quantity.Length(c.In(t, "diameter_m")))
			m, ok := hold.Moments(hold.TreeIn{Tree: a, Soil: hold.SoilGleyed})
			require.True(t, ok)
			c.Check(t, "moment_knm", float64(m.Break/quantity.KilonewtonMetre))
		},
		"anchors.t7": func(t *testing.T, c factstest.Case) {
			var tested, beyond []float64
			for _, soil := range c.Ins(t, "soil") {
				a := spruce() // 547 kg
				a.Soil = soilOf[soil]
				m, ok := hold.Moments(hold.TreeIn{Tree: a, Soil: a.Soil})
				require.True(t, ok)
				tested = append(tested, float64(m.Tested))
				var found []part.Finding
				hold.Anchor(hold.In{Anchor: a, Load: east}, nil, &found)
				flag := 0.0
				for _, f := range found {
					if f.ID == "tree-extrapolated" {
						flag = 1
					}
				}
				beyond = append(beyond, flag)
			}
			c.Check(t, "tested_kg", tested...)
			c.Check(t, "extrapolated", beyond...)
		},
		"anchors.t8": func(t *testing.T, c factstest.Case) {
			// The rule governs where a third of the hold is more: a tall beech.
			a := pine()
			thick(a, quantity.Length(c.In(t, "diameter_cm"))*quantity.Centimetre)
			a.Species, a.Height, a.Soil, a.Rooting = "beech", 40, hold.SoilDeepPeat, "deep"
			s := hold.Anchor(hold.In{Anchor: a, Load: east}, nil, nil)
			require.Equal(t, "D²/30", s.Limit.Basis)
			c.Check(t, "limit_kn", kn(s.Limit.Force))
		},
		"trade.scots-pine": func(t *testing.T, c factstest.Case) {
			moment(t, c)
			s := hold.Tree(hold.TreeIn{Tree: tree(t, c), Soil: hold.SoilGleyed, Height: quantity.Length(c.In(t, "strap_m"))}, nil, nil)
			c.Check(t, "limit_kn", kn(s.Limit.Force))
		},
	}
	// Met elsewhere: a6, a7 are working loads of steel pickets, a8, a9 a
	// textbook stake, d3 to d5 the sizing of a log, t9 arithmetic of the rule.
	// No plan can name them; package facts computes them on the handbook's rows.
	elsewhere := map[string]bool{"anchors.a6": true, "anchors.a7": true, "anchors.a8": true, "anchors.a9": true,
		"anchors.d3": true, "anchors.d4": true, "anchors.d5": true, "anchors.t9": true}
	met := 0
	for _, file := range []string{"anchors.toml", "trade.toml"} {
		for _, c := range factstest.Published(t, os.DirFS("../../testdata/published"), file) {
			if c.Package != "hold" || elsewhere[c.ID] {
				continue
			}
			run, ok := tests[c.ID]
			require.True(t, ok, "nothing meets %s", c.ID)
			met++
			t.Run(c.ID, func(t *testing.T) { run(t, c) })
		}
	}
	assert.Equal(t, len(tests), met)
}
