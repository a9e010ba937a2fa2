package form

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

func named(t testing.TB, fields []Field, member string) Field {
	t.Helper()
	for _, f := range fields {
		if f.Member == member {
			return f
		}
	}
	require.Fail(t, "no field "+member)
	return Field{}
}

func closeTo(t testing.TB, want, got float64) {
	t.Helper()
	require.False(t, math.IsNaN(got))
	assert.InDelta(t, want, got, 1e-9*math.Max(1, math.Abs(want)))
}

func vehicleAt(p *plan.Plan, i int) *plan.Vehicle { return &p.Site.Vehicles[i] }

// Figures by the definitions of the units: t = 1000 kg, lb = 0.45359237 kg,
// tf = 9806.65 N, in = 0.0254 m, 20 % of rise over run = arctan 0.2 = 11.3099°.
func TestSetTakes(t *testing.T) {
	tests := []struct {
		name, thing, member, text string
		sys                       quantity.System
		edit                      string
		got                       func(p *plan.Plan) float64
		want                      float64
	}{
		{"bare mass", "V1", "mass_kg", "2500", 0, "Mass of Casualty", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 2500},
		{"the least mass", "V1", "mass_kg", "100", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 100},
		{"as few kilograms as said", "V1", "mass_kg", "2.1 kg", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 2.1},
		{"tonnes with a comma", "V1", "mass_kg", "2,45 t", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 2450},
		{"bare pounds", "V1", "mass_kg", "5400", quantity.Imperial, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 5400 * 0.45359237},
		{"trunk in bare centimetres", "T1", "trunk_m", "51", 0, "Trunk at the sling of Tree 1", func(p *plan.Plan) float64 { return float64(p.Site.Anchors[0].Trunk) }, 0.51},
		{"girth in bare centimetres", "T1", "girth_m", "151", 0, "Girth 1.3 m up of Tree 1", func(p *plan.Plan) float64 { return float64(p.Site.Anchors[0].Girth) }, 1.51},
		{"a hold of zero", "T1", "hold_low_n", "0", 0, "", func(p *plan.Plan) float64 {
			return map[bool]float64{true: 1}[p.Site.Anchors[0].HoldLow == plan.Known(quantity.Force(0))]
		}, 1},
		{"trunk in metres", "T1", "trunk_m", "0.51 m", 0, "", func(p *plan.Plan) float64 { return float64(p.Site.Anchors[0].Trunk) }, 0.51},
		{"rope in bare millimetres", "L1", "diameter_m", "12", 0, "Diameter of Line", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Lines[0].Diameter) }, 0.012},
		{"rope in bare inches", "L1", "diameter_m", "3/8", quantity.Imperial, "", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Lines[0].Diameter) }, 0.375 * 0.0254},
		{"sling length", "S1", "length_m", "4", 0, "Length of Sling 1", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Slings[0].Length) }, 4},
		{"feet and inches", "S1", "length_m", "13' 1\"", 0, "", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Slings[0].Length) }, 157 * 0.0254},
		{"winch", "V2", "winch/line_pull_n", "45 kN", 0, "Line pull of Winch", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 1).Winch.LinePull) }, 45000},
		{"winch, tag in tonnes", "V2", "winch/line_pull_n", "4.5 t", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 1).Winch.LinePull) }, 4500 * 9.80665},
		{"line speed in bare metres a minute", "V2", "winch/no_load_speed_m_per_s", "9", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 1).Winch.NoLoadSpeed) }, 0.15},
		{"current", "V2", "winch/load_current_a", "385 A", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 1).Winch.LoadCurrent) }, 385},
		{"point", "V1", "recovery_points/front/rating", "50", 0, "Rating of Casualty, front recovery point", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Recovery[0].Rating.Force) }, 50000},
		{"angle below zero", "V1", "recovery_points/front/axis_deg", "-15", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Recovery[0].Axis.Or(0)) }, -15},
		{"behind the middle", "V1", "recovery_points/rear/ahead_m", "-2.4", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Recovery[1].Ahead) }, -2.4},
		{"slope in per cent", "/ground", "slope_deg", "20 %", 0, "Slope of the ground", func(p *plan.Plan) float64 { return float64(p.Site.Ground.Slope.Or(0)) }, 11.309932474020213},
		{"efficiency", "B1", "efficiency", "0.955", 0, "Efficiency at a half turn of Block 1", func(p *plan.Plan) float64 { return p.Rigs[0].Blocks[0].Efficiency }, 0.955},
		{"efficiency in per cent", "B1", "efficiency", "95 %", 0, "", func(p *plan.Plan) float64 { return p.Rigs[0].Blocks[0].Efficiency }, 0.95},
		{"place along a stretch", "D1", "share", "40", 0, "Place along it of Damper 1", func(p *plan.Plan) float64 { return p.Rigs[0].Dampers[0].Share }, 0.4},
		{"grams a metre", "L1", "mass_kg_per_m", "61", 0, "", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Lines[0].MassPerM) }, 0.061},
		{"wheels", "V1", "casualty/locked_wheels", "2", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Stuck.LockedWheels) }, 2},
		{"tension measured in kgf", "L1", "tension_n", "900", quantity.KgfMetric, "", func(p *plan.Plan) float64 { return float64(p.Rigs[0].Lines[0].Fixed) }, 900 * 9.80665},
		{"stand-off of a rig", "R1", "stand_off_factor", "1.5", 0, "Stand-off factor of Redirect", func(p *plan.Plan) float64 { return p.Rigs[0].StandOff }, 1.5},
		{"mass taken away", "V1", "mass_kg", "", 0, "", func(p *plan.Plan) float64 { return float64(vehicleAt(p, 0).Mass) }, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := sample(t)
			q, edit, err := Set(p, "R1", plan.ID(tt.thing), tt.member, tt.text, inWords(t, tt.sys))
			require.NoError(t, err)
			closeTo(t, tt.want, tt.got(q))
			if tt.edit != "" {
				assert.Equal(t, tt.edit, edit)
			}
			_, err = plan.FormatPlan(q)
			assert.NoError(t, err)
			assert.Equal(t, sample(t), p, "the plan handed in stays")
		})
	}
}

func TestSetKeepsDoubts(t *testing.T) {
	tests := []struct {
		name, member, text string
		want               plan.Doubt
		value              quantity.Mass
		shown              string
	}{
		{"plus or minus", "mass_kg", "2450 ± 200", plan.Doubt{Member: "mass_kg", Low: 2250, High: 2650, PlusMinus: true}, 2450, "2450 ± 200"},
		{"low, likely, high", "mass_kg", "2.3 / 2.4 / 2.7 t", plan.Doubt{Member: "mass_kg", Low: 2300, High: 2700, Likely: true}, 2400, "2300 / 2400 / 2700"},
		{"per cent", "mass_kg", "2 t ± 10 %", plan.Doubt{Member: "mass_kg", Low: 1800, High: 2200, PlusMinus: true}, 2000, "2000 ± 200"},
		{"range", "mass_kg", "2 to 4 t", plan.Doubt{Member: "mass_kg", Low: 2000, High: 4000}, 3000, "2000 to 4000"},
		{"dash", "mass_kg", "2200-2600", plan.Doubt{Member: "mass_kg", Low: 2200, High: 2600}, 2400, "2200 to 2600"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			w := inWords(t, quantity.Metric)
			q, _, err := Set(sample(t), "R1", "V1", tt.member, tt.text, w)
			require.NoError(t, err)
			assert.Equal(t, tt.value, vehicleAt(q, 0).Mass)
			assert.Equal(t, []plan.Doubt{tt.want}, vehicleAt(q, 0).Doubts)
			f := named(t, Fields(q, "R1", "V1", nil, w), tt.member)
			assert.Equal(t, tt.shown, f.Value)
			assert.True(t, f.Doubts)
			q, _, err = Set(q, "R1", "V1", tt.member, "2500", w)
			require.NoError(t, err)
			assert.Empty(t, vehicleAt(q, 0).Doubts, "a single figure takes the doubt away")
		})
	}
	w := inWords(t, quantity.Metric)
	q, _, err := Set(sample(t), "R1", "S1", "rating", "38 to 42 working", w)
	require.NoError(t, err)
	assert.Equal(t, []plan.Doubt{{Member: "rating.force_n", Low: 38000, High: 42000}}, q.Rigs[0].Slings[0].Doubts)
	q, _, err = Set(sample(t), "R1", "T1", "trunk_m", "46 ± 5 %", w)
	require.NoError(t, err)
	closeTo(t, 0.437, q.Site.Anchors[0].Doubts[0].Low) // 0.46 · 0.95
	q, _, err = Set(sample(t), "R1", "V2", "winch/drum_width_m", "220 to 230", w)
	require.NoError(t, err)
	assert.Equal(t, "winch.drum_width_m", vehicleAt(q, 1).Doubts[0].Member)
}

func TestSetRefuses(t *testing.T) {
	tests := []struct {
		name, thing, member, text string
		fault                     quantity.Fault // 0: refused by the plan
		says                      string
	}{
		{"below zero", "V1", "mass_kg", "-3 kg", quantity.NegativeValue, "cannot be below nought"},
		{"length below zero", "V1", "length_m", "-3", quantity.NegativeValue, "cannot be below nought"},
		{"trunk below zero", "T1", "trunk_m", "-48", quantity.NegativeValue, "cannot be below nought"},
		{"zero is not known", "V1", "mass_kg", "0", quantity.OutOfRange, "leave the field empty"},
		{"zero as a rating", "S1", "rating", "0 kN", quantity.OutOfRange, "leave the field empty"},
		{"two readings", "V1", "mass_kg", "2.450", quantity.TwoReadings, "write"},
		{"tonnes or kilograms", "V1", "mass_kg", "2.1", quantity.UnitMissing, "2.1 t or 2.1 kg"},
		{"a range of either", "V1", "mass_kg", "2 to 4", quantity.UnitMissing, "2 to 4 t or 2 to 4 kg"},
		{"a load of either", "V1", "load_kg", "0,8", quantity.UnitMissing, "0,8 t or 0,8 kg"},
		{"which ton", "V1", "mass_kg", "2 ton", quantity.UnitTwice, "write"},
		{"a length for a mass", "V1", "mass_kg", "2 m", quantity.UnitUnknown, ""},
		{"about", "V1", "mass_kg", "about 2 t", quantity.WidthMissing, "how far off"},
		{"backwards", "V1", "mass_kg", "4 to 2 t", quantity.BadRange, ""},
		{"falls below zero", "V1", "mass_kg", "2 ± 5 t", quantity.BadRange, ""},
		{"no figure", "V1", "mass_kg", "heavy", quantity.NotNumber, ""},
		{"no figure in millimetres", "L1", "diameter_m", "thick", quantity.NotNumber, ""},
		{"unit of a pure number", "B1", "efficiency", "0.9 kg", quantity.UnitUnknown, "plain number"},
		{"degrees of a pure number", "B1", "efficiency", "0.9°", quantity.UnitUnknown, "plain number"},
		{"half a wheel", "V1", "casualty/locked_wheels", "1.5", quantity.NotNumber, "whole number"},
		{"a range of wheels", "V1", "casualty/locked_wheels", "1 to 2", quantity.NotOneValue, ""},
		{"a range for the ground", "/ground", "slope_deg", "5 to 10", quantity.NotOneValue, ""},
		{"too heavy", "V1", "mass_kg", "5000 t", 0, "1 000 t"},
		{"five wheels", "V1", "casualty/locked_wheels", "5", 0, "more than 4"},
		{"efficiency over one", "B1", "efficiency", "1.2", 0, "more than 1"},
		{"steeper than it goes", "/ground", "slope_deg", "70", 0, "60°"},
		{"no such choice", "V1", "brake", "handbrake", quantity.NotNumber, "none of the choices"},
		{"which of them", "T1", "health", "d", quantity.NotNumber, "doubtful or dead"},
		{"neither yes nor no", "V1", "in_gear", "perhaps", quantity.NotNumber, "yes or no"},
		{"two corners", "O1", "outline", "1 ; 2\n3 ; 4", 0, ""},
		{"crosses itself", "O1", "outline", "0;0\n2;2\n2;0\n0;2", 0, ""},
		{"half a corner", "O1", "outline", "0;0\n2", quantity.NotNumber, "semicolon"},
		{"winch in use", "V2", "winch", "no", 0, "has no winch"},
		{"point in use", "V1", "recovery_points/front", "no", 0, "has no point"},
		{"holds out of order", "T1", "hold_low_n", "", 0, ""},
		{"what does not show", "V1", "name", "a\x00b", quantity.NotNumber, ""},
		{"empty port", "K1", "joins", "S1", 0, "two parts or none"},
		{"nothing of that name", "B1", "fixed", "T9", quantity.NotNumber, "none of the choices"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := sample(t)
			if tt.member == "hold_low_n" {
				p.Site.Anchors[0].HoldLikely = 1000
				tt.text = "2 kN"
			}
			q, name, err := Set(p, "R1", plan.ID(tt.thing), tt.member, tt.text, inWords(t, quantity.Metric))
			require.Error(t, err)
			assert.Same(t, p, q)
			assert.Empty(t, name)
			if tt.fault == 0 {
				var r *refusal.Error
				require.True(t, errors.As(err, &r), "%v", err)
				assert.Empty(t, r.Where, "the person knows which field it is")
				assert.Contains(t, inWords(t, quantity.Metric).Refusal(err), tt.says)
				return
			}
			var pe *quantity.ParseError
			require.True(t, errors.As(err, &pe), "%v", err)
			says := inWords(t, quantity.Metric).Refusal(err)
			assert.Equal(t, tt.fault, pe.Fault, says)
			assert.Contains(t, says, tt.says)
			assert.LessOrEqual(t, pe.Offset, len(pe.Input))
		})
	}
}

func TestChoices(t *testing.T) {
	w := inWords(t, quantity.Metric)
	set := func(p *plan.Plan, thing, member, text string) *plan.Plan {
		t.Helper()
		q, _, err := Set(p, "R1", plan.ID(thing), member, text, w)
		require.NoError(t, err)
		return q
	}
	p := set(sample(t), "V1", "casualty/depth", "c")
	assert.Equal(t, plan.DepthChassis, vehicleAt(p, 0).Stuck.Depth, "a letter that begins one choice alone")
	p = set(p, "V1", "casualty/depth", "Hub deep")
	assert.Equal(t, plan.DepthHub, vehicleAt(p, 0).Stuck.Depth, "as shown")
	p = set(p, "T1", "species", "sitka spruce")
	assert.Equal(t, "sitka-spruce", p.Site.Anchors[0].Species)
	p = set(p, "/ground", "surface", "roll.mud")
	assert.Equal(t, "roll.mud", p.Site.Ground.Surface)
	p = set(p, "/ground", "grip", "ice")
	assert.Equal(t, "grip.ice", p.Site.Ground.Grip, "without its family")
	p = set(p, "S1", "on", "Tree 2")
	assert.Equal(t, plan.Port{Thing: "T2"}, p.Rigs[0].Slings[0].On, "a thing by its name")
	p = set(p, "L1", "knots", "bowline\nFigure-eight-loop\n")
	assert.Len(t, p.Rigs[0].Lines[0].Knots, 2)
	p = set(p, "O1", "kind", "fallen trunk")
	assert.Equal(t, "fallen trunk", p.Site.Obstacles[0].Kind, "an obstacle may be called anything")
	p = set(p, "P1", "in_vehicle", "Winch vehicle")
	assert.Equal(t, plan.ID("V2"), p.Site.People[0].Vehicle)
	p = set(p, "V1", "casualty/depth", "")
	assert.Equal(t, plan.DepthUnknown, vehicleAt(p, 0).Stuck.Depth)

	f := named(t, Fields(p, "R1", "/ground", nil, w), "grip")
	for _, c := range f.Choices[1:] {
		assert.NotEmpty(t, c.Source, c.Value)
		assert.NotEmpty(t, c.Confidence, c.Value)
	}
}

// A preset that is typed over is the person's figure, but what it means is not
// said by typing a figure: the program's "working" goes, and unsaid counts as
// breaking. The same figure confirms what was shown.
func TestRatings(t *testing.T) {
	w := inWords(t, quantity.Metric)
	preset := func() *plan.Plan {
		p := sample(t)
		p.Rigs[0].Slings[0].Presets = []string{"length_m", "rating"} // 40 kN working
		return p
	}
	tests := []struct {
		name, text string
		preset     bool
		want       plan.Rating
	}{
		{"another figure", "35", true, plan.Rating{Force: 35000}},
		{"the same figure", "40", true, plan.Rating{Force: 40000, Basis: plan.BasisWorking}},
		{"figure and meaning", "35 kN working", true, plan.Rating{Force: 35000, Basis: plan.BasisWorking}},
		{"tag's words", "4 t WLL", true, plan.Rating{Force: 4000 * 9.80665, Basis: plan.BasisWorking}},
		{"breaking", "280 kN breaking", true, plan.Rating{Force: 280000, Basis: plan.BasisBreaking}},
		{"meaning alone", "breaking", true, plan.Rating{Force: 40000, Basis: plan.BasisBreaking}},
		{"over a typed one", "35", false, plan.Rating{Force: 35000, Basis: plan.BasisWorking}},
		{"taken away", "", false, plan.Rating{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := preset()
			if !tt.preset {
				p = sample(t)
			}
			q, _, err := Set(p, "R1", "S1", "rating", tt.text, w)
			require.NoError(t, err)
			got := q.Rigs[0].Slings[0].Rating
			closeTo(t, float64(tt.want.Force), float64(got.Force))
			assert.Equal(t, tt.want.Basis, got.Basis)
			assert.Equal(t, tt.name == "meaning alone", q.Rigs[0].Slings[0].Preset("rating"), "only a figure that was typed was read")
		})
	}
	f := named(t, Fields(preset(), "R1", "S1", nil, w), "rating")
	assert.Equal(t, OriginPreset, f.Origin)
	assert.Equal(t, "40", f.Value)
	assert.Equal(t, "kN", f.Unit)
	assert.Equal(t, "working", f.Basis)
}

func TestPartsOfAVehicle(t *testing.T) {
	w := inWords(t, quantity.Metric)
	p := sample(t)
	q, name, err := Set(p, "R1", "V1", "recovery_points/+", "rear left", w)
	require.NoError(t, err)
	assert.Equal(t, "Add a point of Casualty", name)
	got := vehicleAt(q, 0).Recovery[2]
	assert.Equal(t, plan.RecoveryPoint{ID: "P3", Name: "rear left", Ahead: -2.6, Left: plan.Known(quantity.Length(0.475)), Axis: plan.Known(quantity.Degrees(180))}, got, "no rating, no kind: nobody said so")
	q, _, err = Set(q, "R1", "V1", "recovery_points/P3", "no", w)
	require.NoError(t, err)
	assert.Equal(t, p, q)
	q, _, err = Set(p, "R1", "V1", "winch", "yes", w)
	require.NoError(t, err)
	assert.Equal(t, &plan.Winch{Ahead: 2.6, Left: plan.Known(quantity.Length(0)), Axis: plan.Known(quantity.Degrees(0))}, vehicleAt(q, 0).Winch)
	q, _, err = Set(p, "R1", "V1", "casualty", "no", w)
	require.NoError(t, err)
	assert.Nil(t, vehicleAt(q, 0).Stuck)
}

func TestComputedFields(t *testing.T) {
	w := inWords(t, quantity.Metric)
	p := sample(t)
	a := solver.Assess(p, "R1")
	f := named(t, Fields(p, "R1", "V1", a, w), "casualty/measured_resistance_n")
	assert.Equal(t, OriginComputed, f.Origin)
	assert.Contains(t, f.Computed, "planned for high")
	// 25.3°: storyboard A, step 15, within 1 %.
	legs := named(t, Fields(p, "R1", "S1", a, w), "=legs")
	assert.Equal(t, KindShown, legs.Kind)
	assert.Contains(t, []string{"25.2°", "25.3°", "25.4°", "25.5°"}, legs.Value)
	out := named(t, Fields(p, "R1", "L1", a, w), "=out")
	assert.Contains(t, out.Value, "31.") // 18.54 + 12.48 m, storyboard A
	assert.Equal(t, OriginComputed, named(t, Fields(p, "R1", "T1", a, w), "hold_low_n").Origin)
	// Of girth and trunk either gives the other: 1.50 m ÷ π ÷ 0.8 is 0.597 m,
	// 0.8 · 0.48 m · π is 1.206 m.
	for member, want := range map[string]string{"trunk_m": "0.60", "girth_m": "1.21"} {
		q, _, err := Set(p, "R1", "T1", member, "", w)
		require.NoError(t, err)
		f := named(t, Fields(q, "R1", "T1", a, w), member)
		assert.Equal(t, OriginComputed, f.Origin, member)
		assert.Contains(t, f.Computed, want)
		assert.NotEmpty(t, f.Help)
	}

	q, _, err := Set(p, "R1", "T1", "hold_low_n", "50", w)
	require.NoError(t, err)
	assert.Equal(t, OriginMeasured, named(t, Fields(q, "R1", "T1", solver.Assess(q, "R1"), w), "hold_low_n").Origin)
	f = named(t, Fields(q, "R1", "T1", solver.Assess(q, "R1"), w), "hold_low_n")
	assert.Equal(t, named(t, Fields(p, "R1", "T1", a, w), "hold_low_n").Computed, f.Computed, "what it was before it was measured")
	q, _, err = Set(p, "R1", "V1", "casualty/measured_resistance_n", "12", w)
	require.NoError(t, err)
	f = named(t, Fields(q, "R1", "V1", solver.Assess(q, "R1"), w), "casualty/measured_resistance_n")
	assert.Equal(t, OriginMeasured, f.Origin)
	assert.Equal(t, named(t, Fields(p, "R1", "V1", a, w), "casualty/measured_resistance_n").Computed, f.Computed)
	none := named(t, Fields(p, "R1", "T1", nil, w), "hold_low_n")
	assert.Equal(t, OriginUnknown, none.Origin, "nothing computed, nothing said")
}

// Zero is a slope and a direction like any other; an empty field is none.
func TestZeroIsTypedAndEmptyIsNotKnown(t *testing.T) {
	w := inWords(t, quantity.Metric)
	for _, m := range []struct {
		thing  plan.ID
		member string
		of     func(p *plan.Plan) plan.Maybe[quantity.Degrees]
	}{
		{ThingGround, "slope_deg", func(p *plan.Plan) plan.Maybe[quantity.Degrees] { return p.Site.Ground.Slope }},
		{ThingGround, "downhill_bearing_deg", func(p *plan.Plan) plan.Maybe[quantity.Degrees] { return p.Site.Ground.Downhill }},
		{"V1", "recovery_points/front/axis_deg", func(p *plan.Plan) plan.Maybe[quantity.Degrees] { return vehicleAt(p, 0).Recovery[0].Axis }},
		{"V1", "casualty/way_bearing_deg", func(p *plan.Plan) plan.Maybe[quantity.Degrees] { return vehicleAt(p, 0).Stuck.WayBearing }},
		{"V2", "winch/axis_deg", func(p *plan.Plan) plan.Maybe[quantity.Degrees] { return vehicleAt(p, 1).Winch.Axis }},
	} {
		p := sample(t)
		set := func(given string) Field {
			q, _, err := Set(p, "R1", m.thing, m.member, given, w)
			require.NoError(t, err)
			p = q
			for _, f := range Fields(p, "R1", m.thing, nil, w) {
				if f.Member == m.member {
					return f
				}
			}
			require.Fail(t, "no such field", m.member)
			return Field{}
		}
		f := set("0")
		assert.Equal(t, plan.Known(quantity.Degrees(0)), m.of(p), m.member)
		assert.Equal(t, "0", f.Value)
		assert.Equal(t, OriginTyped, f.Origin)
		f = set("")
		assert.False(t, m.of(p).Known(), m.member)
		assert.Empty(t, f.Value)
		assert.Equal(t, OriginUnknown, f.Origin)
	}
}

// A shackle that hangs has no place of its own to show; a loose one has.
func TestAShackleThatHangsHasNoPlace(t *testing.T) {
	p := sample(t)
	w := inWords(t, quantity.Metric)
	_, has := FieldOf(p, "R1", "K1", "at/x_m", nil, w)
	assert.False(t, has)
	q := *p
	q.Rigs = slices.Clone(p.Rigs)
	q.Rigs[0].Shackles = slices.Clone(p.Rigs[0].Shackles)
	q.Rigs[0].Shackles[0].Joins = nil
	_, has = FieldOf(&q, "R1", "K1", "at/x_m", nil, w)
	assert.True(t, has)
}

// A range typed into the least tension fills both ends of a pin, a single figure the
// least alone; ± of the way to a mark is kept as its doubt.
func TestTensionOfAPin(t *testing.T) {
	p, w := fullPlan(t), inWords(t, quantity.Metric)
	pinOf := func(p *plan.Plan, i int) *plan.Pin { return &p.Rigs[0].Incident.Pins[i] }
	q, _, err := Set(p, "R1", plan.PinRef("B"), "low_n", "18 to 22", w)
	require.NoError(t, err)
	assert.InDelta(t, 18e3, float64(pinOf(q, 1).Low), 1e-9)
	assert.InDelta(t, 22e3, float64(pinOf(q, 1).High), 1e-9)
	q, _, err = Set(p, "R1", plan.PinRef("B"), "low_n", "20 ± 2", w)
	require.NoError(t, err)
	assert.InDelta(t, 22e3, float64(pinOf(q, 1).High), 1e-9)
	q, _, err = Set(p, "R1", plan.PinRef("B"), "low_n", "19", w)
	require.NoError(t, err)
	assert.InDelta(t, 20e3, float64(pinOf(q, 1).High), 1e-9, "as it was")
	q, _, err = Set(p, "R1", plan.PinRef("A"), "trace_m", "6 ± 0.5", w)
	require.NoError(t, err)
	assert.Equal(t, []plan.Doubt{{Member: "trace_m", Low: 5.5, High: 6.5, PlusMinus: true}}, pinOf(q, 0).Doubts)
	for given, member := range map[string]string{"22 to 18": "low_n", "0.3": "trust", "30": "low_n", "2": "trust", "found": "kind"} {
		_, _, err = Set(p, "R1", plan.PinRef("B"), member, given, w)
		require.Error(t, err, "%s %s", member, given)
		assert.NotContains(t, w.Refusal(err), "/rigs", "a sentence")
	}
}

// Evidence of a thing that was taken out says that it was, in its list of things.
func TestPinOfWhatIsGone(t *testing.T) {
	p, w := fullPlan(t), inWords(t, quantity.Metric)
	f, ok := FieldOf(p, "R1", plan.PinRef("C"), "about", nil, w)
	require.True(t, ok)
	assert.Equal(t, "K77", f.Value)
	assert.Contains(t, f.Choices, Choice{Value: "K77", Text: "K77, no longer in the rig"})
	f, _ = FieldOf(p, "R1", plan.PinRef("A"), "about", nil, w)
	for _, c := range f.Choices {
		assert.NotContains(t, c.Text, "no longer", c.Value)
	}
}
