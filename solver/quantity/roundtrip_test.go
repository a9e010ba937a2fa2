package quantity_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kedge/solver/quantity"
)

// kind is one quantity as printed and read again.
type kind struct {
	name   string
	signed bool
	step   float64 // coarsest last digit, in the unit shown; a hundredth of the figure goes too
	format func(v float64, s quantity.System, as quantity.As) quantity.Text
	parse  func(text string, s quantity.System) (float64, error)
}

func speedKind(u quantity.SpeedUnit) kind {
	return kind{"speed in " + u.String(), false, 1,
		func(v float64, _ quantity.System, as quantity.As) quantity.Text {
			return quantity.FormatSpeed(quantity.Speed(v), u, as)
		},
		func(x string, _ quantity.System) (float64, error) {
			v, err := quantity.ParseSpeed(x, u)
			return float64(v), err
		}}
}

func kinds() []kind {
	type sys = quantity.System
	type as = quantity.As
	return []kind{
		{"force", false, 1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatForce(quantity.Force(v), s, a) },
			func(x string, s sys) (float64, error) {
				v, err := quantity.ParseForce(x, s)
				return float64(v.Force), err
			}},
		{"length", true, 0.1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatLength(quantity.Length(v), s, a) },
			func(x string, s sys) (float64, error) { v, err := quantity.ParseLength(x, s); return float64(v), err }},
		{"dimension", true, 0.01,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatDimension(quantity.Length(v), s, a) },
			func(x string, s sys) (float64, error) { v, err := quantity.ParseLength(x, s); return float64(v), err }},
		{"diameter", true, 1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatDiameter(quantity.Length(v), s, a) },
			func(x string, s sys) (float64, error) { v, err := quantity.ParseLength(x, s); return float64(v), err }},
		{"mass", false, 1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatMass(quantity.Mass(v), s, a) },
			func(x string, s sys) (float64, error) { v, err := quantity.ParseMass(x, s); return float64(v), err }},
		{"degrees", true, 0.1,
			func(v float64, _ sys, a as) quantity.Text { return quantity.FormatDegrees(quantity.Degrees(v), a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseDegrees(x); return float64(v), err }},
		{"share", false, 1,
			func(v float64, _ sys, a as) quantity.Text { return quantity.FormatShare(quantity.Share(v), a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseShare(x); return float64(v), err }},
		{"duration", false, 60,
			func(v float64, _ sys, a as) quantity.Text { return quantity.FormatDuration(quantity.Duration(v), a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseDuration(x); return float64(v), err }},
		{"current", false, 1,
			func(v float64, _ sys, a as) quantity.Text { return quantity.FormatCurrent(quantity.Current(v), a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseCurrent(x); return float64(v), err }},
		{"energy", false, 1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatEnergy(quantity.Energy(v), s, a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseEnergy(x); return float64(v), err }},
		{"moment", true, 1,
			func(v float64, s sys, a as) quantity.Text { return quantity.FormatMoment(quantity.Moment(v), s, a) },
			func(x string, _ sys) (float64, error) { v, err := quantity.ParseMoment(x); return float64(v), err }},
		{"mass per length", false, 1,
			func(v float64, s sys, a as) quantity.Text {
				return quantity.FormatLinearDensity(quantity.LinearDensity(v), s, a)
			},
			func(x string, _ sys) (float64, error) {
				v, err := quantity.ParseLinearDensity(x)
				return float64(v), err
			}},
		speedKind(quantity.InMetresPerSecond),
		speedKind(quantity.InMetresPerMinute),
		speedKind(quantity.InKilometresPerHour),
		speedKind(quantity.InFeetPerMinute),
	}
}

// slack is the 1 part in 10⁹ the printing takes off, and a little for the
// trip through the unit and back.
const slack = 1.001e-9

// drawSI draws a figure in SI: any size, or one that falls on a printed step.
func drawSI(t *rapid.T, k kind, unitSI float64) float64 {
	var v float64
	if rapid.Bool().Draw(t, "on a step") {
		v = float64(rapid.IntRange(0, 200000).Draw(t, "hundredths")) / 100 * unitSI
	} else {
		v = math.Pow(10, rapid.Float64Range(-8, 8.9).Draw(t, "power of ten"))
	}
	if k.signed && rapid.Bool().Draw(t, "negative") {
		v = -v
	}
	return v
}

// What is printed can be read again, prints the same again, and lies on the
// side it should: loads not below, limits not above, and no farther off than
// the last digit.
func TestFormatParse(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				s := rapid.SampledFrom(quantity.Systems()).Draw(t, "system")
				in := rapid.SampledFrom(quantity.Systems()).Draw(t, "read in") // the unit is written: no matter
				as := quantity.As(rapid.IntRange(0, 3).Draw(t, "as"))
				one := k.format(1, s, as)
				unitSI, err := k.parse("1 "+one.Unit, s)
				if err != nil {
					t.Fatal(err)
				}
				v := drawSI(t, k, unitSI)
				text := k.format(v, s, as).String()
				got, err := k.parse(text, in)
				if err != nil {
					t.Fatalf("%v printed as %q: %v", v, text, err)
				}
				if again := k.format(got, s, as).String(); again != text {
					t.Fatalf("%v printed as %q, read as %v, printed as %q", v, text, got, again)
				}
				off := slack * math.Max(math.Abs(v), unitSI)
				step := math.Max(k.step*unitSI, math.Abs(v)/100) + off
				ok := math.Abs(got-v) <= step
				switch as {
				case quantity.Plain:
					ok = math.Abs(got-v) <= step/2+off
				case quantity.AsLoad:
					ok = ok && math.Abs(got) >= math.Abs(v)-off && (got == 0 || got < 0 == (v < 0))
				case quantity.AsLimit:
					ok = ok && got <= v+off
				case quantity.AsTyped:
					// twelve significant digits: half of the last is 5e-12 of a figure that begins with 1
					ok = math.Abs(got-v) <= 5.001e-12*math.Abs(v)
				}
				if !ok {
					t.Fatalf("%v printed as %q, read as %v", v, text, got)
				}
			})
		})
	}
}

// A figure typed with up to twelve digits stands in the field as typed, in
// every system.
func TestTypedStays(t *testing.T) {
	for _, k := range kinds() {
		t.Run(k.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				s := rapid.SampledFrom(quantity.Systems()).Draw(t, "system")
				typed := k.format(float64(rapid.Int64Range(0, 999_999_999_999).Draw(t, "digits"))/
					math.Pow10(rapid.IntRange(4, 9).Draw(t, "decimals")), s, quantity.AsTyped).String()
				v, err := k.parse(typed, s)
				if err != nil {
					if fault(t, err).Fault == quantity.OutOfRange {
						t.Skip("beyond what is read")
					}
					t.Fatal(err)
				}
				if again := k.format(v, s, quantity.AsTyped).String(); again != typed {
					t.Fatalf("%q stands as %q", typed, again)
				}
			})
		})
	}
}

// The order of figures survives printing: a larger load never prints smaller.
func TestFormatOrder(t *testing.T) {
	for _, as := range []quantity.As{quantity.Plain, quantity.AsLoad, quantity.AsLimit} {
		rapid.Check(t, func(t *rapid.T) {
			s := rapid.SampledFrom(quantity.Systems()).Draw(t, "system")
			a := math.Pow(10, rapid.Float64Range(0, 8.5).Draw(t, "a"))
			b := a * (1 + math.Pow(10, rapid.Float64Range(-12, 0).Draw(t, "more")))
			read := func(v float64) quantity.Force {
				f, err := quantity.ParseForce(quantity.FormatForce(quantity.Force(v), s, as).String(), s)
				if err != nil {
					t.Fatal(err)
				}
				return f.Force
			}
			if low, high := read(a), read(b); !(low <= high) {
				t.Fatalf("%v prints as %v, %v as %v", a, low, b, high)
			}
		})
	}
}

func BenchmarkFormatForce(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = quantity.FormatForce(29.21*quantity.Kilonewton, quantity.Imperial, quantity.AsLoad).String()
	}
}

func BenchmarkParseMass(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := quantity.ParseMass("2 450 kg", quantity.Metric); err != nil {
			b.Fatal(err)
		}
	}
}
