package quantity_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/quantity"
)

// The expected ends are the written figures, added or taken off by hand.
func TestParseDoubtLength(t *testing.T) {
	tests := []struct {
		text             string
		s                quantity.System
		value, low, high quantity.Length
		plusMinus        bool
	}{
		{"24", quantity.Metric, 24, 24, 24, false},
		{"24 ± 2", quantity.Metric, 24, 22, 26, true},
		{"24±2 m", quantity.Imperial, 24, 22, 26, true},
		{"24 m ± 2", quantity.Imperial, 24, 22, 26, true},
		{"24 +/- 2", quantity.Metric, 24, 22, 26, true},
		{"24 +- 2", quantity.Metric, 24, 22, 26, true},
		{"24 ± 2", quantity.Imperial, 24 * 0.3048, 22 * 0.3048, 26 * 0.3048, true},
		{"24 m ± 50 cm", quantity.Metric, 24, 23.5, 24.5, true},
		{"24 m ± 5 %", quantity.Metric, 24, 22.8, 25.2, true},
		{"-24 m ± 5%", quantity.Metric, -24, -25.2, -22.8, true},
		{"24 m ± 0", quantity.Metric, 24, 24, 24, true},
		{`5'6" ± 2"`, quantity.Metric, 66 * 0.0254, 64 * 0.0254, 68 * 0.0254, true},
		{`5'6" ± 50 %`, quantity.Metric, 66 * 0.0254, 33 * 0.0254, 99 * 0.0254, true},
		{"2 to 4 m", quantity.Metric, 3, 2, 4, false},
		{"2 bis 4 m", quantity.Metric, 3, 2, 4, false},
		{"2,5 bis 3,5", quantity.Metric, 3, 2.5, 3.5, false},
		{"2to4", quantity.Metric, 3, 2, 4, false},
		{"2 m to 4", quantity.Imperial, 3, 2, 4, false},
		{"2-4 m", quantity.Imperial, 3, 2, 4, false},
		{"2–4", quantity.Metric, 3, 2, 4, false},
		{"2 — 4", quantity.Metric, 3, 2, 4, false},
		{"2..4", quantity.Metric, 3, 2, 4, false},
		{"2...4", quantity.Metric, 3, 2, 4, false},
		{"2…4", quantity.Metric, 3, 2, 4, false},
		{"2.5..4.5", quantity.Metric, 3.5, 2.5, 4.5, false},
		{"-4 - -2", quantity.Metric, -3, -4, -2, false},
		{"250 cm to 3.5 m", quantity.Metric, 3, 2.5, 3.5, false},
		{`5'6"-6'6"`, quantity.Metric, 72 * 0.0254, 66 * 0.0254, 78 * 0.0254, false},
		{"1 000 to 2 000", quantity.Metric, 1500, 1000, 2000, false},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := quantity.ParseDoubtLength(tt.text, tt.s)
			require.NoError(t, err)
			near(t, tt.value, got.Value)
			near(t, tt.low, got.Low)
			near(t, tt.high, got.High)
			assert.Equal(t, tt.plusMinus, got.PlusMinus)
		})
	}
}

func TestParseDoubtOther(t *testing.T) {
	mass, err := quantity.ParseDoubtMass("2 450 ± 200 kg", quantity.Imperial)
	require.NoError(t, err)
	assert.Equal(t, quantity.Doubt[quantity.Mass]{Value: 2450, Low: 2250, High: 2650, PlusMinus: true}, mass)

	mass, err = quantity.ParseDoubtMass("2.5 t ± 200 kg", quantity.Metric)
	require.NoError(t, err)
	near(t, 2300, mass.Low)
	near(t, 2700, mass.High)

	force, err := quantity.ParseDoubtForce("2 to 3 t", quantity.Metric)
	require.NoError(t, err)
	near(t, 2000*9.80665, force.Low)
	near(t, 3000*9.80665, force.High)
	assert.True(t, force.AsWeight)

	force, err = quantity.ParseDoubtForce("20 to 30 kN", quantity.Metric)
	require.NoError(t, err)
	assert.False(t, force.AsWeight)

	angle, err := quantity.ParseDoubtDegrees("82 ± 2°")
	require.NoError(t, err)
	assert.Equal(t, quantity.Doubt[quantity.Degrees]{Value: 82, Low: 80, High: 84, PlusMinus: true}, angle)

	slope, err := quantity.ParseDoubtSlope("0 to 100 %")
	require.NoError(t, err)
	assert.Equal(t, quantity.Degrees(0), slope.Low)
	near(t, 45, slope.High) // arctan 1

	speed, err := quantity.ParseDoubtSpeed("1.5 to 2.5", quantity.InMetresPerSecond)
	require.NoError(t, err)
	near(t, 2, speed.Value)

	share, err := quantity.ParseDoubtShare("83 ± 5 %")
	require.NoError(t, err)
	near(t, 0.78, share.Low)
	near(t, 0.88, share.High)
}

func TestDoubtRefused(t *testing.T) {
	tests := []struct {
		text string
		want quantity.Fault
	}{
		{"", quantity.Empty},
		{"~24", quantity.WidthMissing},
		{"≈ 24 m", quantity.WidthMissing},
		{"about 24 m", quantity.WidthMissing},
		{"4 to 2 m", quantity.BadRange},
		{"24 ± -2", quantity.BadRange},
		{"24 ±", quantity.NotNumber},
		{"24 to", quantity.NotNumber},
		{"24 tonight", quantity.UnitUnknown},
		{"24 ± 2 ± 1", quantity.Trailing},
		{"2-4-6", quantity.Trailing},
		{"2 to 5 %", quantity.Trailing},
		{"2,450 ± 0.2", quantity.TwoReadings},
		{"2 ± 1,200", quantity.TwoReadings},
		{`5'6" to 7`, quantity.UnitMissing}, // 7 ft or 7 m?
		{`5 to 5'6"`, quantity.UnitMissing},
		{`5'6" ± 2`, quantity.UnitMissing},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := quantity.ParseDoubtLength(tt.text, quantity.Metric)
			assert.Equal(t, tt.want, fault(t, err).Fault, err.Error())
			assert.Zero(t, got)
		})
	}
	_, err := quantity.ParseDoubtMass("200 ± 300 kg", quantity.Metric)
	assert.Equal(t, quantity.BadRange, fault(t, err).Fault)
	_, err = quantity.ParseDoubtMass("-2 to 3 kg", quantity.Metric)
	assert.Equal(t, quantity.NegativeValue, fault(t, err).Fault)
	_, err = quantity.ParseDoubtSlope("10° ± 5 %")
	assert.Equal(t, quantity.UnitUnknown, fault(t, err).Fault)
}

// Low, likely and high stand between strokes; a unit written once goes for all three.
func TestLowLikelyHigh(t *testing.T) {
	for text, want := range map[string][3]quantity.Length{
		"2 / 2.5 / 4": {2, 2.5, 4}, "2 / 2,5 / 4 m": {2, 2.5, 4}, "200 cm / 2.5 m / 4 m": {2, 2.5, 4}, "2 m / 2.5 / 4": {2, 2.5, 4}, "2 / 2 / 4": {2, 2, 4},
		"-4 / -3 / 1": {-4, -3, 1}, `1/2" / 3/4" / 1"`: {0.0127, 0.01905, 0.0254},
	} {
		got, err := quantity.ParseDoubtLength(text, quantity.Metric)
		require.NoError(t, err, text)
		near(t, want[0], got.Low)
		near(t, want[1], got.Value)
		near(t, want[2], got.High)
		assert.True(t, got.Likely && !got.PlusMinus, text)
	}
	for text, want := range map[string]quantity.Fault{
		"2 / 4": quantity.WidthMissing, "2 / 4 / 3": quantity.BadRange, "3 / 2 / 4": quantity.BadRange, "2 / 3 / 4 / 5": quantity.Trailing, "2 / 3 /": quantity.NotNumber,
		"2/2.5/4": quantity.NotNumber, "2 to 3 / 4": quantity.Trailing, `5'6" / 6 / 7`: quantity.UnitMissing, `5 / 6 / 6'6"`: quantity.UnitMissing,
	} {
		_, err := quantity.ParseDoubtLength(text, quantity.Metric)
		require.Error(t, err, text)
		assert.Equal(t, want, fault(t, err).Fault, "%s: %v", text, err)
	}
	mass, err := quantity.ParseDoubtMass("2.3 / 2.45 / 2.7 t", quantity.Metric)
	require.NoError(t, err)
	near(t, 2450, mass.Value)
	share, err := quantity.ParseDoubtShare("80 / 83 / 90 %")
	require.NoError(t, err)
	near(t, 0.83, share.Value)
	force, err := quantity.ParseDoubtForce("2 / 3 t / 40 kN", quantity.Metric)
	require.NoError(t, err)
	assert.True(t, force.AsWeight)
}

// A range and a ± written from two figures come back ordered and whole.
func TestDoubtOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.IntRange(0, 999999).Draw(t, "a")
		b := rapid.IntRange(0, 999999).Draw(t, "b")
		s := rapid.SampledFrom(quantity.Systems()).Draw(t, "system")
		unit := rapid.SampledFrom([]string{"", " m", " cm", " ft", " in"}).Draw(t, "unit")
		sign := rapid.SampledFrom([]string{"-", " to ", "..", "–", " ± ", "+/-"}).Draw(t, "sign")
		text := fmt.Sprintf("%d.%d%s%d.%d%s", a/10, a%10, sign, b/10, b%10, unit)
		d, err := quantity.ParseDoubtLength(text, s)
		if err != nil {
			if fault(t, err).Fault != quantity.BadRange || a <= b {
				t.Fatalf("%q: %v", text, err)
			}
			return
		}
		if !(d.Low <= d.Value && d.Value <= d.High) {
			t.Fatalf("%q: %v", text, d)
		}
		first, err := quantity.ParseLength(fmt.Sprintf("%d.%d%s", a/10, a%10, unit), s)
		if err != nil {
			t.Fatal(err)
		}
		got := d.Low
		if d.PlusMinus {
			got = d.Value
		}
		if !(math.Abs(float64(got-first)) <= relTol*float64(first)) {
			t.Fatalf("%q: first figure %v, want %v", text, got, first)
		}
	})
}

func ExampleParseDoubtMass() {
	d, err := quantity.ParseDoubtMass("2450 ± 200", quantity.Metric)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(float64(d.Low), float64(d.Value), float64(d.High), d.PlusMinus)
	_, err = quantity.ParseDoubtMass("about 2450", quantity.Metric)
	fmt.Println(err)
	// Output:
	// 2250 2450 2650 true
	// quantity: "about 2450": how-far
}
