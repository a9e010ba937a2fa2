package facts_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/facts/factstest"
)

// power is the deadman table at a depth in feet and a slope 1 : n.
func power(t *testing.T, depthFt, run float64) float64 {
	t.Helper()
	return stepOf(t, facts.DeadmanLoam, fmt.Sprintf("slope_1_%g", run), depthFt*0.3048)
}

// stemKg is the stem mass of a species by the conifer volume rules.
func stemKg(t *testing.T, species string, diameterCm, heightM float64) (volumeM3, massKg float64) {
	t.Helper()
	kind := "conifer"
	if species == "norway-spruce" || species == "sitka-spruce" {
		kind = "spruce"
	}
	figure := func(name string) float64 {
		row, ok := facts.Get(facts.ID("stem." + kind + "." + name))
		require.True(t, ok)
		return row.Likely
	}
	tree, ok := facts.TreeOf(species)
	require.True(t, ok)
	volume := figure("c") * math.Pow(diameterCm, figure("p")) * math.Pow(heightM, figure("q"))
	return volume, volume * tree.Density.Likely
}

func TestPublishedAnchors(t *testing.T) {
	lbf := facts.Must(facts.PicketLayout321).ToSI() / 1000 // kN
	pickets := func(t *testing.T, c factstest.Case) {
		hold, ok := facts.Get(facts.ID("picket.layout-" + c.Words["layout"]))
		require.True(t, ok)
		factor := 1.0
		if len(c.Facts) > 1 {
			factor = facts.Must(facts.ID(c.Facts[1])).Likely
		}
		c.Check(t, "hold_lb", hold.Likely*factor)
		c.Check(t, "hold_kn", hold.Likely*factor*lbf)
	}
	steel := func(t *testing.T, c factstest.Case) {
		kg := min(c.In(t, "pickets")*likely(facts.PicketSteel), likely(facts.PicketSteelCeiling)*1000)
		c.Check(t, "working_kg", kg)
		c.Check(t, "working_kn", kg*facts.Must(facts.PicketSteel).ToSI()/1000)
	}
	moment := func(t *testing.T, c factstest.Case) float64 {
		tree, ok := facts.TreeOf(c.Words["species"])
		require.True(t, ok)
		_, mass := stemKg(t, c.Words["species"], c.In(t, "diameter_cm"), c.In(t, "height_m"))
		perKg, ok := tree.Moment.StepOf(c.Words["roots"], c.In(t, "soil"))
		require.True(t, ok)
		return perKg * mass / 1000
	}
	grip := func(t *testing.T, c factstest.Case) {
		row, ok := facts.Get(facts.ID(c.Facts[0]))
		require.True(t, ok)
		assert.Equal(t, c.In(t, "mu"), row.Likely)
		c.Check(t, "hold_kn", row.Likely*c.In(t, "mass_kg")*likely(facts.GravityStandard)/1000)
	}
	recoil := func(t *testing.T, c factstest.Case) {
		f, ea, m, l := c.In(t, "tension_n"), c.In(t, "ea_n"), c.In(t, "mass_kg_per_m"), c.In(t, "length_m")
		energy, speed := f*f*l/(2*ea), f/math.Sqrt(ea*m)
		c.Check(t, "stretch_m", f*l/ea)
		c.Check(t, "energy_j", energy)
		c.Check(t, "wave_m_per_s", math.Sqrt(ea/m))
		c.Check(t, "recoil_m_per_s", speed)
		assert.InEpsilon(t, energy, m*l*speed*speed/2, 1e-12) // identity, anchors facts E4
	}
	bound := func(t *testing.T, c factstest.Case) (boundMS, energyJ float64) {
		f, ea, m, l := c.In(t, "tension_n"), c.In(t, "ea_n"), c.In(t, "mass_kg_per_m"), c.In(t, "length_m")
		return f / math.Sqrt(ea*m) * min(1, math.Sqrt(m*l/c.In(t, "hardware_kg"))), f * f * l / (2 * ea)
	}
	run(t, "anchors.toml", map[string]sum{
		"anchors.a1": pickets, "anchors.a2": pickets, "anchors.a3": pickets, "anchors.a4": pickets, "anchors.a5": pickets,
		"anchors.a6": steel, "anchors.a7": steel,
		"anchors.d1": func(t *testing.T, c factstest.Case) {
			hp := power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise"))
			c.Check(t, "power_lb_ft2", hp)
			c.Check(t, "power_kpa", hp*facts.Must(facts.DeadmanLoam).ToSI()/1000)
		},
		"anchors.d2": func(t *testing.T, c factstest.Case) {
			hp := power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise"))
			c.Check(t, "hardpan_lb_ft2", hp*likely(facts.DeadmanSoilHardpan))
			c.Check(t, "wet_lb_ft2", hp*likely(facts.DeadmanSoilWetFine))
		},
		"anchors.d3": func(t *testing.T, c factstest.Case) {
			area := c.In(t, "breaking_lb") / power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise"))
			effective := area / c.In(t, "face_ft")
			total := effective + c.In(t, "trench_ft")
			c.Check(t, "area_ft2", area)
			c.Check(t, "effective_ft", effective)
			c.Check(t, "total_ft", total)
			c.Check(t, "thickness_in", total*12/likely(facts.DeadmanSlenderTimber))
		},
		"anchors.d4": func(t *testing.T, c factstest.Case) {
			effective := c.In(t, "breaking_lb") / power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise")) / c.In(t, "log_ft")
			total := effective + c.In(t, "trench_ft")
			c.Check(t, "effective_ft", effective)
			c.Check(t, "total_ft", total)
			c.Check(t, "slender", total/c.In(t, "log_ft"))
			assert.LessOrEqual(t, total/c.In(t, "log_ft"), likely(facts.DeadmanSlenderLog))
		},
		"anchors.d5": func(t *testing.T, c factstest.Case) {
			length := c.In(t, "capacity_lb")/(power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise"))*c.In(t, "log_ft")) + likely(facts.DeadmanTrenchTM)
			c.Check(t, "length_ft", length)
			c.Check(t, "slender", length/c.In(t, "log_ft"))
			assert.Greater(t, length/c.In(t, "log_ft"), likely(facts.DeadmanSlenderLog))
		},
		"anchors.d8": func(t *testing.T, c factstest.Case) {
			pa := power(t, c.In(t, "depth_ft"), c.In(t, "run_per_rise")) * facts.Must(facts.DeadmanLoam).ToSI()
			trenchM := likely(facts.DeadmanTrenchTM) * facts.Must(facts.DeadmanTrenchTM).ToSI()
			kn := pa * c.In(t, "log_m") * (c.In(t, "length_m") - trenchM) / 1000
			c.Check(t, "hold_kn", kn)
			c.Check(t, "wet_kn", kn*likely(facts.DeadmanSoilWetFine))
			c.Check(t, "slender", c.In(t, "length_m")/c.In(t, "log_m"))
		},
		"anchors.d9": func(t *testing.T, c factstest.Case) {
			depths, runs := c.Ins(t, "depth_ft"), c.Ins(t, "run_per_rise")
			refused := make([]float64, len(depths))
			for i := range depths {
				if _, ok := facts.Must(facts.DeadmanLoam).StepOf(fmt.Sprintf("slope_1_%g", runs[i]), depths[i]*0.3048); !ok {
					refused[i] = 1
				}
			}
			c.Check(t, "refused", refused...)
		},
		"anchors.t1": func(t *testing.T, c factstest.Case) {
			volume, mass := stemKg(t, c.Words["species"], c.In(t, "diameter_cm"), c.In(t, "height_m"))
			c.Check(t, "volume_m3", volume)
			c.Check(t, "stem_kg", mass)
		},
		"anchors.t2": func(t *testing.T, c factstest.Case) { c.Check(t, "moment_knm", moment(t, c)) },
		"anchors.t3": func(t *testing.T, c factstest.Case) {
			c.Check(t, "pull_kn", each(c.Ins(t, "strap_m"), func(h float64) float64 {
				return moment(t, c) / math.Max(h, likely(facts.TreeStrapHeightFloor))
			})...)
		},
		"anchors.t4": func(t *testing.T, c factstest.Case) { c.Check(t, "moment_knm", moment(t, c)) },
		"anchors.t5": func(t *testing.T, c factstest.Case) {
			tree, ok := facts.TreeOf(c.Words["species"])
			require.True(t, ok)
			c.Check(t, "moment_knm", tree.Knot.Likely*tree.MOR.Likely*tree.MOR.ToSI()*math.Pi*math.Pow(c.In(t, "diameter_m"), 3)/32/1000)
		},
		"anchors.t7": func(t *testing.T, c factstest.Case) {
			tree, ok := facts.TreeOf(c.Words["species"])
			require.True(t, ok)
			tested := each(c.Ins(t, "soil"), func(soil float64) float64 {
				kg, ok := tree.Tested.Step(soil)
				require.True(t, ok)
				return kg
			})
			c.Check(t, "tested_kg", tested...)
			c.Check(t, "extrapolated", each(tested, func(kg float64) float64 {
				if c.In(t, "stem_kg") > kg {
					return 1
				}
				return 0
			})...)
		},
		"anchors.t8": func(t *testing.T, c factstest.Case) {
			c.Check(t, "limit_kn", likely(facts.TreeD2Rule)*math.Pow(c.In(t, "diameter_cm"), 2))
		},
		"anchors.t9": func(t *testing.T, c factstest.Case) {
			d := c.Ins(t, "diameter_cm")
			c.Check(t, "ratio", math.Pow(d[1]/d[0], 2))
			c.Check(t, "ratio", likely(facts.TreeDoubleDiameter))
		},
		"anchors.t10": func(t *testing.T, c factstest.Case) {
			mu := likely(facts.StumpFriction)
			c.Check(t, "notch", math.Exp(mu*2*math.Pi/math.Sin(rad(c.In(t, "notch_deg")/2))))
			c.Check(t, "notch", likely(facts.StumpNotchRatio))
			c.Check(t, "round", math.Exp(mu*2*math.Pi))
		},
		"anchors.v1": grip, "anchors.v2": grip,
		"anchors.v3": func(t *testing.T, c factstest.Case) {
			c.Check(t, "hold_kn", c.In(t, "mass_kg")*likely(facts.GravityStandard)*math.Sin(math.Atan(likely(facts.BrakeParkingGrade)))/1000)
		},
		"anchors.v5": func(t *testing.T, c factstest.Case) {
			mu, rise := c.In(t, "mu"), rad(c.In(t, "rise_deg"))
			c.Check(t, "hold_kn", mu*c.In(t, "mass_kg")*likely(facts.GravityStandard)/(math.Cos(rise)+mu*math.Sin(rise))/1000)
		},
		"anchors.r1": func(t *testing.T, c factstest.Case) {
			c.Check(t, "factor", each(c.Ins(t, "between_deg"), func(deg float64) float64 { return 2 * math.Cos(rad(deg)/2) })...)
		},
		"anchors.z1": func(t *testing.T, c factstest.Case) {
			k := []float64{likely(facts.StandoffOther), likely(facts.StandoffStretch), likely(facts.StandoffWire)}
			assert.Equal(t, c.Ins(t, "k"), k)
			c.Check(t, "radius_m", each(k, func(k float64) float64 { return k * c.In(t, "length_m") })...)
		},
		"anchors.z2": func(t *testing.T, c factstest.Case) {
			c.Check(t, "radius_m", likely(facts.StandoffStretch)*c.In(t, "length_m"))
		},
		"anchors.z3": func(t *testing.T, c factstest.Case) {
			c.Check(t, "half_width_m", c.In(t, "length_m")*math.Tan(rad(likely(facts.RecoilHalfAngle))))
		},
		"anchors.z4": func(t *testing.T, c factstest.Case) {
			c.Check(t, "part_kn", c.In(t, "winch_kn")*likely(facts.FactorForestryLine))
		},
		"anchors.e1": recoil, "anchors.e2": recoil, "anchors.e3": recoil,
		"anchors.e5": func(t *testing.T, c factstest.Case) {
			fastest, energy := bound(t, c)
			hardware := c.In(t, "hardware_kg")
			estimate := math.Sqrt(2 * energy / (hardware + c.In(t, "mass_kg_per_m")*c.In(t, "length_m")*likely(facts.RecoilLineShareHardware)))
			c.Check(t, "bound_m_per_s", fastest)
			c.Check(t, "estimate_m_per_s", estimate)
			c.Check(t, "energy_kj", hardware*estimate*estimate/2/1000)
		},
		"anchors.e6": func(t *testing.T, c factstest.Case) {
			fastest, _ := bound(t, c)
			c.Check(t, "bound_m_per_s", fastest)
			c.Check(t, "energy_j", c.In(t, "hardware_kg")*fastest*fastest/2)
		},
		"anchors.e8": func(t *testing.T, c factstest.Case) {
			distance, mass := facts.Must(facts.ReleaseThrownDistance), facts.Must(facts.ReleaseThrownMass)
			speed := math.Sqrt(distance.Likely * likely(facts.GravityStandard))
			c.Check(t, "speed_m_per_s", speed)
			c.Check(t, "energy_kj", mass.Likely*mass.ToSI()*speed*speed/2/1000)
		},
		"anchors.e9": func(t *testing.T, c factstest.Case) {
			si := func(id facts.ID) float64 { return facts.Must(id).Likely * facts.Must(id).ToSI() }
			c.Check(t, "synthetic_m_per_s", si(facts.RecoilSpeedSynthetic))
			c.Check(t, "wire_m_per_s", si(facts.RecoilSpeedWire))
			c.Check(t, "army_m_per_s", si(facts.RecoilSpeedSyntheticArmy))
			c.Check(t, "test_mile_h", si(facts.RecoilSpeedNylonTest)/facts.Must(facts.RecoilSpeedSyntheticArmy).ToSI())
		},
		"anchors.e10": func(t *testing.T, c factstest.Case) {
			c.Check(t, "speed_m_per_s", each([]float64{likely(facts.EnergyHazardous), likely(facts.EnergyInjury)}, func(e float64) float64 {
				return math.Sqrt(2 * e / c.In(t, "mass_kg"))
			})...)
		},
		"anchors.e11": func(t *testing.T, c factstest.Case) {
			at := func(e float64) []float64 {
				return each(c.Ins(t, "mass_kg"), func(m float64) float64 { return math.Sqrt(2 * e / m) })
			}
			c.Check(t, "at_15", at(likely(facts.EnergyInjury))...)
			c.Check(t, "at_79", at(likely(facts.EnergyHazardous))...)
		},
	})
}

// The cases of the project's own description that are plain arithmetic on
// rows; the others belong to the packages.
func TestPublishedTrade(t *testing.T) {
	run(t, "trade.toml", map[string]sum{
		"trade.water": func(t *testing.T, c factstest.Case) {
			c.Check(t, "push_kn", each(c.Ins(t, "speed_m_per_s"), func(v float64) float64 {
				return likely(facts.WaterDensity) * likely(facts.WaterCurrentC) * c.In(t, "length_m") * c.In(t, "depth_m") * v * v / 2 / 1000
			})...)
		},
		"trade.scots-pine": func(t *testing.T, c factstest.Case) {
			tree, ok := facts.TreeOf(c.Words["species"])
			require.True(t, ok)
			_, mass := stemKg(t, c.Words["species"], c.In(t, "diameter_cm"), c.In(t, "height_m"))
			perKg, ok := tree.Moment.StepOf(c.Words["roots"], c.In(t, "soil"))
			require.True(t, ok)
			c.Check(t, "moment_knm", perKg*mass/1000)
			c.Check(t, "limit_kn", likely(facts.TreeLowShare)*perKg*mass/1000/c.In(t, "strap_m")/likely(facts.FactorPullingHold))
		},
		"trade.energy-order": func(t *testing.T, c factstest.Case) {
			c.Check(t, "energy_kj", each(c.Ins(t, "ae_n"), func(ae float64) float64 {
				return math.Pow(c.In(t, "tension_n"), 2) * c.In(t, "length_m") / (2 * ae) / 1000
			})...)
		},
	})
}
