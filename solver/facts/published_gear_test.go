package facts_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/facts"
	"kedge/solver/facts/factstest"
)

func TestPublishedGear(t *testing.T) {
	redirect := func(deg float64) float64 { return 2 * math.Cos(rad(deg)/2) }
	block := func(t *testing.T, c factstest.Case) {
		c.Check(t, "block_lb", redirect(c.In(t, "between_deg"))*c.In(t, "tension_lb"))
	}
	linear := func(t *testing.T, c factstest.Case) {
		tension, length, ae := c.In(t, "tension_n"), c.In(t, "length_m"), c.In(t, "ae_n")
		c.Check(t, "stretch_m", tension*length/ae)
		c.Check(t, "energy_kj", tension*tension*length/(2*ae)/1000)
	}
	bend := func(ratio float64) float64 { return 1 - likely(facts.BendWireC)/math.Sqrt(ratio) }
	wire := func(t *testing.T, c factstest.Case) {
		c.Check(t, "breaking_kn", each(c.Ins(t, "grade"), func(grade float64) float64 {
			return facts.Must(facts.ID(c.Facts[0])).Likely * math.Pow(c.In(t, "diameter_mm"), 2) * grade / 1000
		})...)
	}
	run(t, "gear.toml", map[string]sum{
		"gear.1": block, "gear.2": block, "gear.3": block,
		"gear.4": func(t *testing.T, c factstest.Case) { c.Check(t, "factor", each(c.Ins(t, "between_deg"), redirect)...) },
		"gear.redirect": func(t *testing.T, c factstest.Case) {
			c.Check(t, "factor", each(c.Ins(t, "between_deg"), redirect)...)
			c.Check(t, "factor", each(c.Ins(t, "between_deg"), func(deg float64) float64 { return step(t, facts.RedirectFactor, deg) })...)
		},
		"gear.5": func(t *testing.T, c factstest.Case) {
			leg := c.In(t, "sling_ft") * c.In(t, "weight_lb") / (2 * c.In(t, "height_ft"))
			c.Check(t, "leg_lb", leg)
			c.Check(t, "used", leg/c.In(t, "shackle_lb"))
		},
		"gear.6": func(t *testing.T, c factstest.Case) {
			choked := c.In(t, "straight_lb") * likely(facts.SlingChokedWire)
			c.Check(t, "choked_lb", choked)
			assert.Greater(t, choked, c.In(t, "load_lb"))
		},
		"gear.8": func(t *testing.T, c factstest.Case) {
			c.Check(t, "leg_lb", c.In(t, "weight_lb")/2/math.Sin(rad(c.In(t, "from_horizontal_deg"))))
			c.Check(t, "leg_lb", c.In(t, "weight_lb")/2*stepOf(t, facts.SlingLegLoad, "load", c.In(t, "from_horizontal_deg")))
		},
		"gear.9": func(t *testing.T, c factstest.Case) {
			straight := c.In(t, "straight_t")
			c.Check(t, "straight_out_t", straight*likely(facts.SlingStraight))
			c.Check(t, "choked_t", straight*likely(facts.SlingChokedWeb))
			c.Check(t, "basket_parallel_t", straight*step(t, facts.SlingBasketEN, 0))
			c.Check(t, "basket_45_t", straight*step(t, facts.SlingBasketEN, 45))
			c.Check(t, "basket_60_t", straight*step(t, facts.SlingBasketEN, 60))
		},
		"gear.10": func(t *testing.T, c factstest.Case) {
			d := c.In(t, "diameter_in")
			vertical := stepOf(t, facts.SlingManila, "vertical", d)
			c.Check(t, "vertical_lb", vertical)
			c.Check(t, "choker_lb", stepOf(t, facts.SlingManila, "choker", d))
			c.Check(t, "choker_lb", vertical*likely(facts.SlingChokedFibre))
			c.Check(t, "basket_lb", each(c.Ins(t, "angle_deg"), func(a float64) float64 { return 2 * vertical * math.Cos(rad(a)) })...)
			c.Check(t, "basket_lb", stepOf(t, facts.SlingManila, "basket0", d), stepOf(t, facts.SlingManila, "basket30", d),
				stepOf(t, facts.SlingManila, "basket45", d), stepOf(t, facts.SlingManila, "basket60", d))
		},
		"gear.11": func(t *testing.T, c factstest.Case) {
			c.Check(t, "allowed_kn", each(c.Ins(t, "choke_deg"), func(a float64) float64 {
				return c.In(t, "choker_kn") * step(t, facts.SlingChokeAngle, a)
			})...)
		},
		"gear.12": func(t *testing.T, c factstest.Case) {
			tons := likely(facts.ShackleUnmarkedUS) * math.Pow(c.In(t, "body_in"), 2)
			c.Check(t, "rating_tons", tons)
			c.Check(t, "rating_lb", tons*2000)
		},
		"gear.13": func(t *testing.T, c factstest.Case) {
			c.Check(t, "rating_t", likely(facts.ShackleUnmarked)*math.Pow(c.In(t, "body_cm"), 2))
		},
		"gear.15": func(t *testing.T, c factstest.Case) {
			tons := likely(facts.ChainFieldRule) * math.Pow(c.In(t, "link_in"), 2)
			c.Check(t, "rating_tons", tons)
			c.Check(t, "rating_lb", tons*2000)
		},
		"gear.16": func(t *testing.T, c factstest.Case) {
			c.Check(t, "rating_kg", likely(facts.WireFieldRule)*math.Pow(c.In(t, "diameter_mm"), 2))
		},
		"gear.17": func(t *testing.T, c factstest.Case) {
			c.Check(t, "diameter_mm", math.Sqrt(c.In(t, "load_kg")/likely(facts.WireFieldRule)))
		},
		"gear.18": func(t *testing.T, c factstest.Case) {
			c.Check(t, "rating_tons", likely(facts.WireFieldRuleUS)*math.Pow(c.In(t, "diameter_in"), 2))
		},
		"gear.19": func(t *testing.T, c factstest.Case) {
			c.Check(t, "breaking_lb", likely(facts.ManilaRule)*math.Pow(c.In(t, "circumference_in"), 2))
		},
		"gear.20": func(t *testing.T, c factstest.Case) {
			d := c.Ins(t, "diameter_in")
			rule := each(d, func(d float64) float64 { return likely(facts.NylonRule) * math.Pow(math.Pi*d, 2) })
			c.Check(t, "rule_lb", rule...)
			c.Check(t, "table_lb", rule...)
			c.Check(t, "table_lb", each(d, func(d float64) float64 { return stepOf(t, facts.NylonBreak, "breaking", d) })...)
		},
		"gear.21": func(t *testing.T, c factstest.Case) {
			c.Check(t, "factor", each(c.Ins(t, "ratio"), func(r float64) float64 { return 1 / bend(r) })...)
			c.Check(t, "factor", each(c.Ins(t, "ratio"), func(r float64) float64 { return step(t, facts.BendWirePrinted, r) })...)
		},
		"gear.bend-curve": func(t *testing.T, c factstest.Case) {
			ratios := c.Ins(t, "ratio")
			c.Check(t, "formula", each(ratios, bend)...)
			for i, r := range ratios {
				v, ok := facts.Must(facts.BendWireCurve).Interp(r)
				assert.True(t, ok)
				assert.Equal(t, c.Wants(t, "curve")[i], v)
				assert.InDelta(t, v, bend(r), 0.03, "the two agree within three points") // gear facts, section 4.1
			}
		},
		"gear.22": func(t *testing.T, c factstest.Case) {
			ratio := c.In(t, "sheave_in") / c.In(t, "diameter_in")
			v, ok := facts.Must(facts.BendWireCurve).Interp(ratio)
			assert.True(t, ok)
			c.Check(t, "table", v)
			c.Check(t, "formula", bend(ratio))
		},
		"gear.24": wire, "gear.24b": wire, "gear.25": wire,
		"gear.26": func(t *testing.T, c factstest.Case) {
			c.Check(t, "pull_lb", each(c.Ins(t, "layers"), func(n float64) float64 {
				return c.In(t, "first_lb") * layer(likely(facts.WinchArmyDrumRatio), 1, n)
			})...)
		},
		"gear.26b": func(t *testing.T, c factstest.Case) {
			c.Check(t, "share", each(c.Ins(t, "layers"), func(n float64) float64 { return layer(c.In(t, "drum_mm"), c.In(t, "line_mm"), n) })...)
			c.Check(t, "share", each(c.Ins(t, "layers"), func(n float64) float64 { return step(t, facts.WinchHandDrum, n) })...)
		},
		"gear.27": func(t *testing.T, c factstest.Case) {
			w, h, b, d := c.In(t, "width_in"), c.In(t, "flange_depth_in"), c.In(t, "barrel_in"), c.In(t, "line_in")
			c.Check(t, "length_ft", math.Pi*(b+h)*w*h/(d*d)/12)
		},
		"gear.28": func(t *testing.T, c factstest.Case) {
			w, b, d := c.In(t, "width_m"), c.In(t, "barrel_m"), c.In(t, "line_m")
			lengths := each(c.Ins(t, "layers"), func(k float64) float64 { return w / d * math.Pi * (b + (2*k-1)*d) })
			total := 0.0
			for _, l := range lengths {
				total += l
			}
			h := float64(len(lengths)) * d
			c.Check(t, "layer_m", lengths...)
			c.Check(t, "total_m", total)
			c.Check(t, "total_m", math.Pi*(b+h)*w*h/(d*d))
		},
		"gear.30": func(t *testing.T, c factstest.Case) {
			half := c.In(t, "width_m") / 2
			leadM := half * likely(facts.FleetLeadGrooved)
			c.Check(t, "lead_m", leadM)
			c.Check(t, "angle_deg", math.Atan(half/leadM)*180/math.Pi)
		},
		"gear.32": func(t *testing.T, c factstest.Case) {
			breaking, ae := stepOf(t, facts.NylonDoubleBraid, "breaking", 1), stepOf(t, facts.NylonDoubleBraid, "ae", 1)
			assert.Equal(t, c.In(t, "breaking_kip"), breaking)
			assert.Equal(t, c.In(t, "ae_kip"), ae)
			c.Check(t, "strain", breaking/ae)
			for _, line := range facts.Must(facts.NylonDoubleBraid).Cells() {
				assert.InEpsilon(t, likely(facts.NylonStiffness), line[2]/line[1], 0.001, "%g in", line[0]) // 3.54 throughout, UFC 4-159-03
			}
		},
		"gear.33": func(t *testing.T, c factstest.Case) {
			c.Check(t, "stretch_ft", c.In(t, "share")*c.In(t, "length_ft")/likely(facts.HMPEStiffness))
		},
		"gear.34": func(t *testing.T, c factstest.Case) { c.Check(t, "strain", c.In(t, "break_strain")*c.In(t, "share")) },
		"gear.35": linear, "gear.36": linear, "gear.37": linear,
		"gear.46": func(t *testing.T, c factstest.Case) {
			n := likely(facts.StiffeningNylon)
			tension := c.In(t, "tension_n")
			strain := c.In(t, "break_strain") * math.Pow(tension/c.In(t, "breaking_n"), 1/n)
			c.Check(t, "stretch_m", strain*c.In(t, "length_m"))
			c.Check(t, "energy_kj", tension*strain*c.In(t, "length_m")/(n+1)/1000)
		},
		"gear.38": func(t *testing.T, c factstest.Case) {
			d := c.Ins(t, "diameter_in")
			c.Check(t, "navy", each(d, func(d float64) float64 { return math.Ceil(3*d + likely(facts.ClipsNavy)) })...)
			c.Check(t, "osha", each(d, func(d float64) float64 { return step(t, facts.ClipsOSHA, d) })...)
		},
		"gear.39": func(t *testing.T, c factstest.Case) {
			row := facts.Must(facts.WireBreakInchFC)
			lb := step(t, row.ID, c.In(t, "diameter_in")) / c.In(t, "factor")
			c.Check(t, "safe_lb", lb)
			c.Check(t, "safe_kn", lb*row.ToSI()/1000)
			c.Check(t, "safe_kg", lb*row.ToSI()/likely(facts.GravityStandard))
		},
		"gear.40": func(t *testing.T, c factstest.Case) {
			worse := likely(facts.SlingBendShareFixed) * c.In(t, "total_kn")
			c.Check(t, "worse_kn", worse)
			c.Check(t, "lighter_kn", c.In(t, "total_kn")-worse)
		},
		"gear.41": func(t *testing.T, c factstest.Case) {
			factor, ok := facts.Get("factor.tow-hawser")
			assert.True(t, ok)
			onProof, ok := factor.StepOf("shackle_on_proof", 1)
			assert.True(t, ok)
			c.Check(t, "proof_lb", c.In(t, "tow_lb")*onProof)
		},
		"gear.42": func(t *testing.T, c factstest.Case) {
			c.Check(t, "low_kg", c.In(t, "gvm_kg")*likely(facts.StrapBreakingLow))
			c.Check(t, "high_kg", c.In(t, "gvm_kg")*likely(facts.StrapBreakingHigh))
		},
		"gear.43": func(t *testing.T, c factstest.Case) {
			c.Check(t, "allowed_kn", c.In(t, "breaking_kn")/likely(facts.FactorPullingWinchLine))
		},
		"gear.44": func(t *testing.T, c factstest.Case) {
			chain, webbing, rope := step(t, facts.ChainGrade70, 10), step(t, facts.WebbingDefault, 100), step(t, facts.WireDefault, 0.5)
			assert.Equal(t, [3]float64{c.In(t, "chain_lb"), c.In(t, "webbing_lb"), c.In(t, "wire_lb")}, [3]float64{chain, webbing, rope})
			c.Check(t, "limit_lb", min(chain, webbing, rope))
		},
		"gear.45": func(t *testing.T, c factstest.Case) {
			assert.Equal(t, c.In(t, "end"), likely(facts.EndSleeveIWRC))
			assert.InDelta(t, c.In(t, "bend"), bend(4), 1e-12) // D/d 4
			c.Check(t, "kept_kn", c.In(t, "breaking_kn")*min(c.In(t, "bend"), c.In(t, "end")))
		},
	})
}

// The computed table of wire rope strengths follows from its factors:
// F = K d² R / 1000, EN 12385-4.
func TestWireTableFollowsFromItsFactors(t *testing.T) {
	k, ok := facts.Get("wire.6x36-iwrc.k")
	assert.True(t, ok)
	fc, ok := facts.Get("wire.6x36-fc.k")
	assert.True(t, ok)
	for _, line := range facts.Must(facts.WireBreakIWRC).Cells() {
		d2 := line[0] * line[0] / 1000
		want := []float64{k.Likely * d2 * 1770, k.Likely * d2 * 1960, k.Likely * d2 * 2160, fc.Likely * d2 * 1770}
		for i, w := range want {
			assert.InDelta(t, w, line[i+1], 0.0501, "%g mm, column %d", line[0], i+1) // one decimal
		}
	}
}
