package quantity_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/quantity"
)

// Every expected text follows from the rule in the comment of As and of the
// Format function, worked by hand.

func TestFormatForce(t *testing.T) {
	const kN, lbf, kgf = quantity.Kilonewton, quantity.PoundForce, quantity.KilogramForce
	tests := []struct {
		f    quantity.Force
		s    quantity.System
		as   quantity.As
		want string
	}{
		{29.3 * kN, quantity.Metric, quantity.AsLoad, "29.3 kN"},
		{29.3 * kN, quantity.Metric, quantity.AsLimit, "29.3 kN"},
		{29.21 * kN, quantity.Metric, quantity.AsLoad, "29.3 kN"},
		{29.29 * kN, quantity.Metric, quantity.AsLimit, "29.2 kN"},
		{29.25 * kN, quantity.Metric, quantity.Plain, "29.3 kN"},
		{29.24 * kN, quantity.Metric, quantity.Plain, "29.2 kN"},
		{29.3 * kN * (1 + 9e-10), quantity.Metric, quantity.AsLoad, "29.3 kN"},
		{29.3 * kN * (1 + 2e-9), quantity.Metric, quantity.AsLoad, "29.4 kN"},
		{29.3 * kN * (1 - 9e-10), quantity.Metric, quantity.AsLimit, "29.3 kN"},
		{29.3 * kN * (1 - 2e-9), quantity.Metric, quantity.AsLimit, "29.2 kN"},
		{999.91 * kN, quantity.Metric, quantity.AsLoad, "1 000 kN"},
		{999.99 * kN, quantity.Metric, quantity.AsLimit, "999.9 kN"},
		{1000.2 * kN, quantity.Metric, quantity.AsLoad, "1 001 kN"},
		{1000.9 * kN, quantity.Metric, quantity.AsLimit, "1 000 kN"},
		{1234567 * kN, quantity.Metric, quantity.Plain, "1 234 567 kN"},
		{1, quantity.Metric, quantity.AsLoad, "0.1 kN"},
		{99, quantity.Metric, quantity.AsLimit, "0.0 kN"},
		{0, quantity.Metric, quantity.AsLoad, "0.0 kN"},
		{1e-7, quantity.Metric, quantity.AsLoad, "0.0 kN"}, // what a solve leaves of zero
		{-1e-7, quantity.Metric, quantity.AsLimit, "0.0 kN"},
		{quantity.Force(math.Copysign(0, -1)), quantity.Metric, quantity.Plain, "0.0 kN"},
		{-1, quantity.Metric, quantity.Plain, "0.0 kN"},
		{-29.21 * kN, quantity.Metric, quantity.AsLoad, "-29.3 kN"},
		{-29.21 * kN, quantity.Metric, quantity.AsLimit, "-29.3 kN"},
		{-29.25 * kN, quantity.Metric, quantity.Plain, "-29.3 kN"},
		{6581 * lbf, quantity.Imperial, quantity.AsLoad, "6 590 lbf"},
		{6589 * lbf, quantity.Imperial, quantity.AsLimit, "6 580 lbf"},
		{6590 * lbf, quantity.Imperial, quantity.AsLoad, "6 590 lbf"},
		{6590 * lbf, quantity.Imperial, quantity.AsLimit, "6 590 lbf"},
		{88.2 * lbf, quantity.Imperial, quantity.AsLoad, "89 lbf"},
		{999.5 * lbf, quantity.Imperial, quantity.AsLoad, "1 000 lbf"},
		{9991 * lbf, quantity.Imperial, quantity.AsLoad, "10 000 lbf"},
		{12345 * kgf, quantity.KgfMetric, quantity.AsLoad, "12 400 kgf"},
		{12345 * kgf, quantity.KgfMetric, quantity.AsLimit, "12 300 kgf"},
		{12345 * kgf, quantity.KgfMetric, quantity.Plain, "12 300 kgf"},
		{quantity.Force(math.NaN()), quantity.Metric, quantity.AsLoad, "not computed"},
		{quantity.Force(math.Inf(1)), quantity.Imperial, quantity.AsLimit, "not computed"},
		{quantity.Force(math.Inf(-1)), quantity.Imperial, quantity.AsTyped, "not computed"},
		{1.2345e23, quantity.Metric, quantity.AsLoad, "1.24e+20 kN"},
		{1.2345e23, quantity.Metric, quantity.AsLimit, "1.23e+20 kN"},
		{29.3 * kN, quantity.Metric, quantity.AsTyped, "29.3 kN"},
		{29.3 * kN, quantity.System(200), quantity.Plain, "29.3 kN"}, // no such system: metric
	}
	for _, tt := range tests {
		t.Run(fmt.Sprint(float64(tt.f), tt.s, tt.as), func(t *testing.T) {
			assert.Equal(t, tt.want, plain(quantity.FormatForce(tt.f, tt.s, tt.as)))
		})
	}
}

func TestFormatOther(t *testing.T) {
	const m, i, k = quantity.Metric, quantity.Imperial, quantity.KgfMetric
	const p, load, limit, typed = quantity.Plain, quantity.AsLoad, quantity.AsLimit, quantity.AsTyped
	tests := []struct {
		want string
		got  quantity.Text
	}{
		{"24.4 m", quantity.FormatLength(24.4, m, p)},
		{"80.1 ft", quantity.FormatLength(24.4, i, p)}, // 24.4 / 0.3048 = 80.05
		{"-0.3 m", quantity.FormatLength(-0.25, m, p)},
		{"1 234.5 m", quantity.FormatLength(1234.5, m, p)},
		{"3.00 m", quantity.FormatDimension(3, m, p)},
		{"9.84 ft", quantity.FormatDimension(3, i, p)}, // 9.8425
		{"12 mm", quantity.FormatDiameter(0.012, m, p)},
		{"9.5 mm", quantity.FormatDiameter(0.0095, m, p)},
		{"0.50 in", quantity.FormatDiameter(0.0127, i, p)},
		{"2 450 kg", quantity.FormatMass(2450, m, p)},
		{"8.6 kg", quantity.FormatMass(8.6, m, p)},
		{"100 kg", quantity.FormatMass(99.96, m, p)},
		{"5 401 lb", quantity.FormatMass(2450, i, p)}, // 2450 / 0.45359237 = 5401.3
		{"87.4°", quantity.FormatDegrees(87.4, p)},
		{"-87.4°", quantity.FormatDegrees(-87.4, p)},
		{"83 %", quantity.FormatShare(0.83, load)},
		{"84 %", quantity.FormatShare(0.8301, load)},
		{"100 %", quantity.FormatShare(0.992, load)},
		{"100 %", quantity.FormatShare(1, load)},
		{"101 %", quantity.FormatShare(1.001, load)},
		{"1 270 %", quantity.FormatShare(12.7, load)},
		{"96 %", quantity.FormatShare(0.96, p)},
		{"96 %", quantity.FormatShare(0.969, limit)},
		{"6.0 m/min", quantity.FormatSpeed(0.1, quantity.InMetresPerMinute, p)},
		{"1.50 m/s", quantity.FormatSpeed(1.5, quantity.InMetresPerSecond, p)},
		{"5.4 km/h", quantity.FormatSpeed(1.5, quantity.InKilometresPerHour, p)},
		{"20 ft/min", quantity.FormatSpeed(0.1016, quantity.InFeetPerMinute, p)},
		{"0.0 s", quantity.FormatDuration(0, p)},
		{"0.8 s", quantity.FormatDuration(0.8, p)},
		{"10 s", quantity.FormatDuration(9.96, p)},
		{"45 s", quantity.FormatDuration(45, p)},
		{"1 min", quantity.FormatDuration(59.6, p)},
		{"59 s", quantity.FormatDuration(59.6, limit)},
		{"4 min 10 s", quantity.FormatDuration(250, load)},
		{"4 min 11 s", quantity.FormatDuration(250.2, load)},
		{"1 h", quantity.FormatDuration(3599.5, load)},
		{"1 h 20 min", quantity.FormatDuration(4800, p)},
		{"1 h 21 min", quantity.FormatDuration(4801, load)},
		{"1 h 20 min", quantity.FormatDuration(4859, limit)},
		{"4800 s", quantity.FormatDuration(4800, typed)},
		{"not computed", quantity.FormatDuration(quantity.Duration(math.NaN()), p)},
		{"385 A", quantity.FormatCurrent(385, p)},
		{"1.5 A", quantity.FormatCurrent(1.5, p)},
		{"4.2 kJ", quantity.FormatEnergy(4200, m, load)},
		{"3 100 ft·lbf", quantity.FormatEnergy(4200, i, load)}, // 4200 / 1.355818 = 3097.8
		{"12.0 kN·m", quantity.FormatMoment(12000, m, p)},
		{"1 230 kgf·m", quantity.FormatMoment(12000, k, load)},  // 12000 / 9.80665 = 1223.7
		{"8 860 lbf·ft", quantity.FormatMoment(12000, i, load)}, // 12000 / 1.355818 = 8850.7
		{"80 g/m", quantity.FormatLinearDensity(0.08, m, p)},
		{"5.4 lb/100 ft", quantity.FormatLinearDensity(0.08, i, p)}, // 0.08 / 0.01488164 = 5.3757
		// what was typed
		{"24.4 m", quantity.FormatLength(24.4, m, typed)},
		{"2.4570 m", quantity.FormatLength(2.457, m, typed)}, // three decimals would be refused
		{"0.125 m", quantity.FormatLength(0.125, m, typed)},
		{"2450.125 m", quantity.FormatLength(2450.125, m, typed)},
		{"3 m", quantity.FormatLength(3, m, typed)},
		{"5.5 ft", quantity.FormatLength(1.6764, i, typed)},
		{"0.3 m", quantity.FormatLength(0.1+0.2, m, typed)},
		{"0 m", quantity.FormatLength(-1e-17, m, typed)},
		{"-2.5 m", quantity.FormatLength(-2.5, m, typed)},
	}
	for _, tt := range tests {
		t.Run(tt.want, func(t *testing.T) { assert.Equal(t, tt.want, plain(tt.got)) })
	}
}

// The figure and its unit never part at the end of a row.
func TestTextSpaces(t *testing.T) {
	mass := quantity.FormatMass(2450, quantity.Metric, quantity.Plain)
	assert.Equal(t, "2\u202f450\u00a0kg", mass.String())
	assert.Equal(t, "2\u202f450", mass.Number)
	assert.Equal(t, "kg", mass.Unit)
	none := quantity.FormatMass(quantity.Mass(math.NaN()), quantity.Metric, quantity.Plain)
	assert.Equal(t, quantity.NotComputed, none.Number)
	assert.Empty(t, none.Unit)
	assert.Empty(t, quantity.Text{}.String())
}

func TestSystem(t *testing.T) {
	assert.Equal(t, "kN, m, kg", quantity.Metric.String())
	assert.Equal(t, "kgf, m, kg", quantity.KgfMetric.String())
	assert.Equal(t, "lbf, ft, lb", quantity.Imperial.String())
	assert.Equal(t, quantity.Metric, quantity.System(0), "the zero value")
	seen := map[string]bool{}
	for _, s := range quantity.Systems() {
		seen[s.String()] = true
	}
	assert.Len(t, seen, 3*2*2, "forces × lengths × masses")
	assert.Equal(t, quantity.Metric.String(), quantity.System(255).String())
}

func ExampleFormatForce() {
	const pull, hold = 29.21 * quantity.Kilonewton, 5.19 * quantity.Kilonewton
	for _, s := range []quantity.System{quantity.Metric, quantity.KgfMetric, quantity.Imperial} {
		needs := quantity.FormatForce(pull, s, quantity.AsLoad)
		holds := quantity.FormatForce(hold, s, quantity.AsLimit)
		fmt.Println(quantity.PlainSpaces("needs " + needs.Number + ", holds " + holds.String()))
	}
	// Output:
	// needs 29.3, holds 5.1 kN
	// needs 2 980, holds 529 kgf
	// needs 6 570, holds 1 160 lbf
}

func ExampleFormatShare() {
	fmt.Println(quantity.PlainSpaces(quantity.FormatShare(0.992, quantity.AsLoad).String()))
	fmt.Println(quantity.FormatShare(quantity.Share(math.NaN()), quantity.AsLoad))
	// Output:
	// 100 %
	// not computed
}
