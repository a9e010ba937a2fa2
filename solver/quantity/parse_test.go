package quantity_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// The expected values are the written figure times the unit's factor (see
// TestUnits), multiplied out by hand or left as a product.

func TestParseLength(t *testing.T) {
	const m, i = quantity.Metric, quantity.Imperial
	tests := []struct {
		text string
		s    quantity.System
		want quantity.Length
	}{
		{"24.4", m, 24.4},
		{"24,4", m, 24.4},
		{"24,4", i, 24.4 * 0.3048},
		{" 24.4 m ", m, 24.4},
		{"24.4m", i, 24.4},
		{"250 cm", m, 2.5},
		{"12 mm", m, 0.012},
		{"1.5 km", m, 1500},
		{"8 ft", m, 8 * 0.3048},
		{"10 feet", m, 3.048},
		{`6"`, m, 0.1524},
		{`3/4"`, m, 0.75 * 0.0254},
		{"3/8 in", m, 0.375 * 0.0254},
		{"6 1/2 in", m, 6.5 * 0.0254},
		{`5'6"`, m, 1.6764}, // 66 in × 0.0254
		{`5' 6"`, m, 1.6764},
		{"5′6″", m, 1.6764},
		{"5’6”", m, 1.6764},
		{"5'6", m, 1.6764},
		{"5 ft 6 in", m, 1.6764},
		{"5ft6in", m, 1.6764},
		{"5 ft 6", m, 1.6764},
		{`5'6''`, m, 1.6764},
		{`5' 6 1/2"`, m, 66.5 * 0.0254},
		{"5 ft 6.5 in", m, 66.5 * 0.0254},
		{`-5'6"`, m, -1.6764},
		{"2 yd", m, 1.8288},
		{"-3.5", m, -3.5},
		{"−3.5 m", m, -3.5},
		{"– 3.5 m", m, -3.5},
		{"+3.5 m", m, 3.5},
		{"-0", m, 0},
		{".5 m", m, 0.5},
		{"2 450 m", m, 2450},
		{"2\u202f450 m", m, 2450},
		{"2\u2009450 m", m, 2450},
		{"2\u00a0450\u00a0m", m, 2450},
		{"1 234 567.25 mm", m, 1234.56725},
		{"1,234.5", m, 1234.5},
		{"1.234,5", m, 1234.5},
		{"1,234,567 mm", m, 1234.567},
		{"1.234.567 mm", m, 1234.567},
		{"1,234.567", m, 1234.567},
		{"12 345,678", m, 12345.678},
		{"0.125", m, 0.125},
		{"0,125", m, 0.125},
		{"2450.125", m, 2450.125},
		{"2.4570", m, 2.457},
		{"24 M", m, 24},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := quantity.ParseLength(tt.text, tt.s)
			require.NoError(t, err)
			near(t, tt.want, got)
			assert.False(t, got == 0 && math.Signbit(float64(got)), "no negative zero")
		})
	}
}

func TestParseMass(t *testing.T) {
	tests := []struct {
		text string
		s    quantity.System
		want quantity.Mass
	}{
		{"2450", quantity.Metric, 2450},
		{"2450", quantity.Imperial, 2450 * 0.45359237},
		{"2450", quantity.KgfMetric, 2450},
		{"2,45 t", quantity.Metric, 2450}, // storyboards, mistakes to forgive
		{"2.45 tonnes", quantity.Metric, 2450},
		{"2.5 metric tons", quantity.Metric, 2500},
		{"2 450 kg", quantity.Metric, 2450},
		{"2'450 kg", quantity.Metric, 2450},
		{"2’450,5 kg", quantity.Metric, 2450.5},
		{"1'234'567 kg", quantity.Metric, 1234567},
		{"5400 lbs", quantity.Metric, 5400 * 0.45359237},
		{"2 short tons", quantity.Metric, 1814.36948}, // 4000 lb
		{"2 shortton", quantity.Metric, 1814.36948},
		{"1 long ton", quantity.Metric, 1016.0469088}, // 2240 lb
		{"3 KG", quantity.Metric, 3},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := quantity.ParseMass(tt.text, tt.s)
			require.NoError(t, err)
			near(t, tt.want, got)
		})
	}
}

func TestParseForce(t *testing.T) {
	tests := []struct {
		text string
		s    quantity.System
		want quantity.Force
		mass quantity.Mass // not zero: taken as weight
	}{
		{"29.3", quantity.Metric, 29300, 0},
		{"29.3", quantity.KgfMetric, 29.3 * 9.80665, 0},
		{"9500", quantity.Imperial, 9500 * 4.4482216152605, 0},
		{"29,3 kN", quantity.Imperial, 29300, 0},
		{"500 N", quantity.Metric, 500, 0},
		{"50 daN", quantity.Metric, 500, 0},
		{"4 MN", quantity.Metric, 4e6, 0},
		{"3 000 kgf", quantity.Metric, 29419.95, 0},
		{"3 tf", quantity.Metric, 29419.95, 0},
		{"10'000 lbf", quantity.Metric, 44482.216152605, 0},
		{"3 t", quantity.Metric, 29419.95, 3000},
		{"3000 kg", quantity.Metric, 29419.95, 3000},
		{"9500 lb", quantity.Metric, 9500 * 4.4482216152605, 9500 * 0.45359237},
		{"2 short ton", quantity.Metric, 4000 * 4.4482216152605, 1814.36948},
		{"2 long ton", quantity.Metric, 4480 * 4.4482216152605, 2032.0938176},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			got, err := quantity.ParseForce(tt.text, tt.s)
			require.NoError(t, err)
			near(t, tt.want, got.Force)
			assert.Equal(t, tt.mass != 0, got.AsWeight, "taken as weight")
			near(t, tt.mass, got.Mass)
		})
	}
}

// parseAny reads text in a field of each kind, as the program names them.
func parseAny(kind, text string) (float64, error) {
	switch kind {
	case "length":
		v, err := quantity.ParseLength(text, quantity.Metric)
		return float64(v), err
	case "mass":
		v, err := quantity.ParseMass(text, quantity.Metric)
		return float64(v), err
	case "force":
		v, err := quantity.ParseForce(text, quantity.Metric)
		return float64(v.Force), err
	case "degrees":
		v, err := quantity.ParseDegrees(text)
		return float64(v), err
	case "slope":
		v, err := quantity.ParseSlope(text)
		return float64(v), err
	case "speed":
		v, err := quantity.ParseSpeed(text, quantity.InMetresPerMinute)
		return float64(v), err
	case "duration":
		v, err := quantity.ParseDuration(text)
		return float64(v), err
	case "current":
		v, err := quantity.ParseCurrent(text)
		return float64(v), err
	case "share":
		v, err := quantity.ParseShare(text)
		return float64(v), err
	case "energy":
		v, err := quantity.ParseEnergy(text)
		return float64(v), err
	case "moment":
		v, err := quantity.ParseMoment(text)
		return float64(v), err
	case "density":
		v, err := quantity.ParseLinearDensity(text)
		return float64(v), err
	}
	panic("no field of " + kind)
}

func TestParseOther(t *testing.T) {
	tests := []struct {
		kind, text string
		want       float64
	}{
		{"degrees", "82", 82},
		{"degrees", "82°", 82},
		{"degrees", "-12,5 deg", -12.5},
		{"degrees", "400", 400},
		{"slope", "12", 12},
		{"slope", "100 %", 45},                // arctan 1
		{"slope", "20 %", 11.309932474020213}, // arctan 0.2, mathematical tables
		{"slope", "-100%", -45},
		{"speed", "6", 0.1},
		{"speed", "6 m/min", 0.1},
		{"speed", "1.5 m/s", 1.5},
		{"speed", "5.4 km/h", 1.5},
		{"speed", "20 ft/min", 0.1016},
		{"speed", "10 mph", 4.4704},
		{"duration", "45 s", 45},
		{"duration", "12 min", 720},
		{"duration", "1.5 h", 5400},
		{"duration", "1 h 20 min", 4800},
		{"duration", "1 h 20", 4800},
		{"duration", "1 h 5 s", 3605},
		{"duration", "4 min 10.5 s", 250.5},
		{"current", "385", 385},
		{"current", "385 A", 385},
		{"share", "83", 0.83},
		{"share", "83 %", 0.83},
		{"energy", "4.2 kJ", 4200},
		{"energy", "900 ft·lbf", 900 * 1.3558179483314004}, // 0.3048 × 4.4482216152605
		{"moment", "12 kN·m", 12000},
		{"moment", "-12 kNm", -12000},
		{"moment", "12 N m", 12},
		{"moment", "10 lbf ft", 13.558179483314004},
		{"density", "80 g/m", 0.08},
		{"density", "8 kg/100 m", 0.08},
		{"density", "8 kg/100m", 0.08},
		{"density", "0,08 kg/m", 0.08},
		{"density", "5 lb/100 ft", 5 * 0.45359237 / 30.48},
	}
	for _, tt := range tests {
		t.Run(tt.kind+" "+tt.text, func(t *testing.T) {
			got, err := parseAny(tt.kind, tt.text)
			require.NoError(t, err)
			near(t, tt.want, got)
		})
	}
}

func TestRefused(t *testing.T) {
	tests := []struct {
		kind, text string
		want       quantity.Fault
		offset     int
		offers     []string
	}{
		{"mass", "", quantity.Empty, 0, nil},
		{"mass", " \t", quantity.Empty, 0, nil},
		{"mass", "kg", quantity.NotNumber, 0, nil},
		{"mass", "heavy", quantity.NotNumber, 0, nil},
		{"mass", "-", quantity.NotNumber, 0, nil},
		{"mass", ".", quantity.NotNumber, 0, nil},
		{"mass", "2. kg", quantity.NotNumber, 1, nil},
		{"mass", "٢٤٥٠ kg", quantity.NotNumber, 0, nil},
		{"mass", "NaN", quantity.NotNumber, 0, nil},
		{"mass", "Inf kg", quantity.NotNumber, 0, nil},
		{"mass", "0x10 kg", quantity.UnitUnknown, 1, nil},
		{"mass", "1e3 kg", quantity.UnitUnknown, 1, nil},
		{"mass", "2,450 kg", quantity.TwoReadings, 0, []string{"2.45 kg", "2450 kg"}},
		{"mass", "2.450 kg", quantity.TwoReadings, 0, []string{"2.45 kg", "2450 kg"}},
		{"mass", "2.457", quantity.TwoReadings, 0, []string{"2.4570", "2457"}},
		{"mass", "12,000 kg", quantity.TwoReadings, 0, []string{"12 kg", "12000 kg"}},
		{"length", "-1,250 m", quantity.TwoReadings, 1, []string{"-1.25 m", "-1250 m"}},
		{"mass", "02,450 kg", quantity.TwoReadings, 0, []string{"2.45 kg", "2450 kg"}},
		{"mass", "1,23.4", quantity.BadGrouping, 0, nil},
		{"mass", "1,23,456", quantity.BadGrouping, 0, nil},
		{"mass", "1,234,56", quantity.BadGrouping, 0, nil},
		{"mass", "1,234 567", quantity.BadGrouping, 0, nil},
		{"mass", "1.2.3", quantity.BadGrouping, 0, nil},
		{"mass", "2 45 kg", quantity.BadGrouping, 0, nil},
		{"mass", "2450 300 kg", quantity.BadGrouping, 0, nil},
		{"mass", "0 450 kg", quantity.BadGrouping, 0, nil},
		{"mass", "2  450 kg", quantity.BadGrouping, 3, nil},
		{"mass", "2.5 450 kg", quantity.BadGrouping, 0, nil},
		{"mass", "1234567890123456", quantity.TooManyDigits, 0, nil},
		{"mass", "9999999999 kg", quantity.OutOfRange, 0, nil},
		{"mass", "0.0000000000001 kg", quantity.OutOfRange, 0, nil},
		{"mass", "5 ton", quantity.UnitTwice, 0, []string{"5 t", "5 short ton", "5 long ton"}},
		{"mass", "2,5 Tons", quantity.UnitTwice, 0, []string{"2.5 t", "2.5 short ton", "2.5 long ton"}},
		{"force", "5 ton", quantity.UnitTwice, 0, []string{"5 t", "5 short ton", "5 long ton"}},
		{"force", "5 tonf", quantity.UnitUnknown, 2, nil},
		{"force", "5 mN", quantity.UnitUnknown, 2, nil},
		{"mass", "5 stone", quantity.UnitUnknown, 2, nil},
		{"mass", "5 m", quantity.UnitUnknown, 2, nil},
		{"mass", "5 %", quantity.UnitUnknown, 2, nil},
		{"degrees", "5 %", quantity.UnitUnknown, 2, nil},
		{"duration", "5 m", quantity.UnitUnknown, 2, nil},
		{"duration", "5", quantity.UnitMissing, 0, nil},
		{"energy", "5", quantity.UnitMissing, 0, nil},
		{"moment", "5", quantity.UnitMissing, 0, nil},
		{"density", "5", quantity.UnitMissing, 0, nil},
		{"mass", "-5 kg", quantity.NegativeValue, 0, nil},
		{"force", "−5 kN", quantity.NegativeValue, 0, nil},
		{"share", "-5 %", quantity.NegativeValue, 0, nil},
		{"duration", "-0 h 5 min", quantity.NegativeValue, 0, nil}, // found by FuzzParse
		{"length", `5'13"`, quantity.BadCompound, 2, nil},
		{"length", "1'234 m", quantity.BadCompound, 2, nil},
		{"length", `5.5' 6"`, quantity.BadCompound, 5, nil},
		{"length", `6" 5'`, quantity.BadCompound, 3, nil},
		{"length", "5 ft 6 m", quantity.BadCompound, 5, nil},
		{"length", `5'6" 7`, quantity.BadCompound, 5, nil},
		{"duration", "1 h 60 min", quantity.BadCompound, 4, nil},
		{"duration", "5 min 1 h", quantity.BadCompound, 6, nil},
		{"length", "5/6/7", quantity.UnitUnknown, 3, nil},
		{"length", "7/6 in", quantity.NotNumber, 0, nil},
		{"length", "1/0 in", quantity.NotNumber, 0, nil},
		{"length", "2 to 4 m", quantity.NotOneValue, 2, nil},
		{"length", "2-4 m", quantity.NotOneValue, 1, nil},
		{"length", "2 ± 1 m", quantity.NotOneValue, 2, nil},
		{"length", "2 m long", quantity.Trailing, 4, nil},
		{"length", strings.Repeat("1", 500), quantity.Trailing, 0, nil},
		{"length", "2\xff", quantity.NotNumber, 0, nil},
	}
	for _, tt := range tests {
		t.Run(tt.kind+" "+tt.text, func(t *testing.T) {
			_, err := parseAny(tt.kind, tt.text)
			e := fault(t, err)
			assert.Equal(t, tt.want, e.Fault, e.Error())
			assert.Equal(t, tt.offset, e.Offset, e.Error())
			assert.Equal(t, tt.offers, e.Offers)
			for _, offer := range e.Offers {
				_, err := parseAny(tt.kind, offer)
				assert.NoError(t, err, "an offer is taken as it stands")
			}
		})
	}
}

// The sentences are what the person reads, so they are fixed here as written.
func ExampleParseMass() {
	for _, text := range []string{"2,45 t", "5400 lb", "2,450 kg", "3 ton", "3 stone"} {
		m, err := quantity.ParseMass(text, quantity.Metric)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(quantity.PlainSpaces(quantity.FormatMass(m, quantity.Metric, quantity.Plain).String()))
	}
	// Output:
	// 2 450 kg
	// 2 449 kg
	// quantity: "2,450 kg": two-readings offers=2.45 kg|2450 kg
	// quantity: "3 ton": which-ton offers=3 t|3 short ton|3 long ton
	// quantity: "3 stone": unit-unknown at="stone" word="stone" measure=measure-mass known="kg, t, lb, short ton, long ton"
}

func ExampleParseForce() {
	f, err := quantity.ParseForce("2.45 t", quantity.Metric)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(quantity.PlainSpaces(quantity.FormatForce(f.Force, quantity.Metric, quantity.Plain).String()))
	fmt.Println("taken as weight:", f.AsWeight)
	// Output:
	// 24.0 kN
	// taken as weight: true
}
