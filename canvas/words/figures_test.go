package words

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Loads round up, limits down, shares up.
func TestFiguresRoundTheCarefulWay(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, c := range []struct{ name, want, got string }{
		{"load up", "29.3 kN", w.Load(29_201)},
		{"limit down", "29.2 kN", w.Limit(29_299)},
		{"share up", "84 %", w.Share(0.831)},
		{"whole share stays", "83 %", w.Share(0.83)},
		{"length", "24.4 m", w.Length(24.44)},
		{"length needed up", "24.5 m", w.LengthNeeded(24.41)},
		{"length left down", "24.4 m", w.LengthLeft(24.49)},
		{"dimension", "3.00 m", w.Dimension(3)},
		{"thickness", "12 mm", w.Thickness(0.012)},
		{"mass", "2 450 kg", w.Mass(2450)},
		{"angle", "87.4°", w.Angle(87.42)},
		{"bearing", "058°", w.Bearing(58)},
		{"bearing turned", "350°", w.Bearing(-10)},
		{"bearing of a full turn", "000°", w.Bearing(359.9)},
		{"chance is no percentage", "17 of 100", w.Chance(17, 100)},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, plain(c.got)) })
	}
}

// Decimals are parted as the language parts them (DIN 1333: a comma in German),
// whoever prints them.
func TestDecimalsAreWrittenAsTheLanguageWritesThem(t *testing.T) {
	w, err := New("de", quantity.Metric)
	require.NoError(t, err)
	for want, got := range map[string]string{
		"29,3 kN":  w.Load(29_201),
		"24,4 m":   w.LengthLeft(24.49),
		"2 450 kg": w.Mass(2450),
		"87,4°":    w.Angle(87.42),
		"1,03":     w.Value(part.Value{X: 1.03}, nil),
		"×0,85":    w.Value(part.Value{Unit: part.UnitFactor, X: 0.85}, nil),
		"29,2":     w.LimitFigure(part.Limit{Known: true, Force: 29_299}),
		"29,3":     w.LoadFigure(part.Load{Known: true, Force: 29_201}),
	} {
		assert.Equal(t, want, plain(got))
	}
	text := fill("{x:long} at {v:whole}, {f:bare}", w.valuesOf([]part.Value{{Name: "x", X: 1.25}, {Name: "v", Unit: part.UnitSpeed, X: 70.87}, {Name: "f", Unit: part.UnitForce, X: 29_201}}, nil))
	assert.Equal(t, "1,25 at 71 m/s, 29,3", plain(text))
	assert.Equal(t, "about 71 m/s", plain(fill("about {v:whole}", english(t, quantity.Metric).valuesOf([]part.Value{{Name: "v", Unit: part.UnitSpeed, X: 70.87}}, nil))))
}

func TestWhatIsNotFiniteIsNotComputed(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		assert.Equal(t, "not computed", w.Load(quantity.Force(x)))
		assert.Equal(t, "not computed", w.Limit(quantity.Force(x)))
		assert.Equal(t, "not computed", w.Share(x))
		assert.Equal(t, "not computed", w.Bearing(quantity.Degrees(x)))
		for u := part.UnitNone; u <= part.UnitFactor; u++ {
			if u != part.UnitText && u != part.UnitThing {
				assert.Equal(t, "not computed", w.Value(part.Value{Name: "x", Unit: u, X: x}, nil), "unit %d", u)
			}
		}
	}
}

func TestEachUnitOfAValuePrints(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, c := range []struct {
		v    part.Value
		want string
	}{
		{part.Value{Unit: part.UnitNone, X: 1.0300001}, "1.03"},
		{part.Value{Unit: part.UnitNone, X: 128800}, "128800"},
		{part.Value{Unit: part.UnitNone, Text: "as typed"}, "as typed"},
		{part.Value{Unit: part.UnitForce, X: 5010}, "5.1 kN"},
		{part.Value{Unit: part.UnitLimit, X: 5190}, "5.1 kN"},
		{part.Value{Unit: part.UnitLength, X: 9.13}, "9.1 m"},
		{part.Value{Unit: part.UnitMass, X: 2450}, "2 450 kg"},
		{part.Value{Unit: part.UnitAngle, X: 25.3}, "25.3°"},
		{part.Value{Unit: part.UnitShare, X: 1.2701}, "128 %"},
		{part.Value{Unit: part.UnitEnergy, X: 4210}, "4.3 kJ"},
		{part.Value{Unit: part.UnitSpeed, X: 1.24}, "1.24 m/s"},
		{part.Value{Unit: part.UnitTime, X: 42}, "42 s"},
		{part.Value{Unit: part.UnitCurrent, X: 318.4}, "318 A"},
		{part.Value{Unit: part.UnitMoment, X: 128_800}, "128.8 kN·m"},
		{part.Value{Unit: part.UnitCount, X: 4}, "4"},
		{part.Value{Unit: part.UnitText, Text: "tow ball"}, "a tow ball"},
		{part.Value{Unit: part.UnitText, Text: "/site/anchors/0/new"}, "/site/anchors/0/new"},
		{part.Value{Unit: part.UnitThing, Text: "T1"}, "Tree 1"},
		{part.Value{Unit: part.UnitBearing, X: 119.8}, "120°"},
		{part.Value{Unit: part.UnitFactor, X: 0.85}, "×0.85"},
	} {
		t.Run(c.want, func(t *testing.T) {
			assert.Equal(t, c.want, plain(w.Value(c.v, called("T1", "Tree 1"))))
		})
	}
}

func TestFormatsOfPlaceholders(t *testing.T) {
	w := english(t, quantity.Metric)
	values := []part.Value{
		metres("d", 3.141), {Name: "turn", Unit: part.UnitAngle, X: 57.8}, force("need", 29_300), limit("holds", 5100),
		{Name: "rope", Unit: part.UnitLength, X: 0.0095}, {Name: "what", Text: "It slides."}, {Name: "f", Unit: part.UnitFactor, X: 0.85},
		force("exact", 58_849.3333), {Name: "g", X: 0.00980665}, {Name: "c", X: 8.6e-5}, {Name: "mass", Unit: part.UnitMass, X: 12345.678},
	}
	for _, c := range []struct{ text, want string }{
		{"{d}", "3.1 m"}, {"{d:up}", "3.2 m"}, {"{d:down}", "3.1 m"}, {"{d:fine}", "3.14 m"}, {"{d:fine:up}", "3.15 m"},
		{"{d:whole:up}", "4 m"}, {"{turn:whole}", "58°"}, {"{rope:thick}", "9.5 mm"},
		{"needs {need:bare}, holds {holds}", "needs 29.3, holds 5.1 kN"},
		{"{what:stop}!", "It slides!"},
		{"{d:long}", "3.141 m"}, {"{rope:long}", "0.0095 m"}, {"{rope:thick:long}", "9.5 mm"}, {"{exact:long}", "58.84933 kN"}, {"{g:long} × {f:long}", "0.00980665 × 0.85"},
		{"{turn:long}", "57.8°"}, {"{c:long}", "0.000086"}, {"{mass:long}", "12345.68 kg"},
		{"{need} {f}", "29.3 kN ×0.85"}, {"{need} × {f}", "29.3 kN × 0.85"},
	} {
		t.Run(c.text, func(t *testing.T) {
			assert.Equal(t, c.want, plain(fill(c.text, w.valuesOf(values, nil))))
		})
	}
	assert.Equal(t, "11 ft", plain(fill("{d:whole:up}", w.In(quantity.Imperial).valuesOf(values, nil))), "3.141 m = 10.3 ft")
}

// As numbers are shown: 29.3 kN (15.2 to 29.3, planned on high).
func TestARangeSaysWhatIsPlannedOn(t *testing.T) {
	w := english(t, quantity.Metric)
	r := part.Range{Known: true, Low: 15_200, Likely: 21_000, High: 29_300}
	assert.Equal(t, "29.3 kN (15.2 to 29.3, planned for high)", plain(w.Range(r, plan.PlanHigh)))
	assert.Equal(t, "29.3 kN (15.2 to 29.3, planned for high)", plain(w.Range(r, "")), "what is not said counts as high")
	assert.Equal(t, "21.0 kN (15.2 to 29.3, planned for likely)", plain(w.Range(r, plan.PlanLikely)))
	assert.Equal(t, "not computed", w.Range(part.Range{}, plan.PlanHigh))
	assert.Equal(t, "15.2 kN (15.2 to 29.3, planned for low)", plain(w.Hold(r)))
	assert.Equal(t, "not known", w.Hold(part.Range{}))
}

func TestUnknownLoadsAndLimitsAreNeverZero(t *testing.T) {
	w := english(t, quantity.Metric)
	assert.Equal(t, "not computed", w.LoadOf(part.Load{}))
	assert.Equal(t, "no rating", w.LimitOf(part.Limit{}))
	assert.Equal(t, "not computed", w.UsedOf(&part.Part{}))
	assert.Equal(t, "no rating", w.UsedOf(&part.Part{Move: part.Load{Known: true, Force: 1000}}))
	none := &part.Part{Move: part.Load{Known: true, Force: 1000}, Limit: part.Limit{Known: true}}
	none.Judge()
	assert.Equal(t, "holds nothing", w.UsedOf(none))
	assert.Equal(t, "0.0 kN", plain(w.LimitOf(none.Limit)))
	assert.Equal(t, part.Over, none.Status)
	assert.Equal(t, "25 %", plain(w.UsedOf(&part.Part{Move: part.Load{Known: true, Force: 1000}, Limit: part.Limit{Known: true, Force: 4000}})))
}

// Above three times a limit no share is printed in per cent, in any way that a
// share is printed; at three it still is.
func TestNoShareAboveThreeIsAPercentage(t *testing.T) {
	w := english(t, quantity.Metric)
	for x, want := range map[float64]string{2.99: "299 %", 3: "300 %", 3.0001: "over 3×", 19.31: "over 3×"} {
		p := part.Part{Move: part.Load{Known: true, Force: quantity.Force(x * 1000)}, Limit: part.Limit{Known: true, Force: 1000}}
		for _, got := range []string{w.Share(x), w.UsedOf(&p), w.Value(part.Value{Unit: part.UnitShare, X: x}, nil)} {
			assert.Equal(t, want, plain(got))
		}
	}
	used := part.Step{Formula: "nobody-wrote-this", Result: part.Value{Name: "used", Unit: part.UnitShare, X: 19.31}}
	assert.Contains(t, plain(w.step(used, nil)), "1 931 %", "a sum is followed by hand: there it is a figure")
	assert.NotContains(t, w.Share(math.Inf(1)), "×", "what is no number is no figure")
}

// A trunk is taped in metres or in inches, not in feet. 0.48 m are 18.9 in.
func TestStemsAreInMetresOrInches(t *testing.T) {
	f := part.Finding{ID: "tree-trunk-assumed", Things: []plan.ID{"T1"}, Values: []part.Value{
		{Name: "trunk", Unit: part.UnitLength, X: 0.48}, {Name: "diameter", Unit: part.UnitLength, X: 0.48}, {Name: "taper", X: 0.9},
	}}
	for sys, want := range map[quantity.System]string{quantity.Metric: "0.48\u00a0m", quantity.Imperial: "18.90\u00a0in"} {
		w := english(t, sys)
		what, _ := w.Finding(f, nil)
		assert.Contains(t, what, want+" counts for slings")
		assert.Equal(t, want, w.Stem(0.48))
	}
}
