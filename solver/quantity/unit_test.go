package quantity_test

import (
	"math"
	"testing"

	"kedge/solver/quantity"
)

// TestUnits compares the units with NIST Special Publication 811 (2008),
// appendix B.8 (factors from memory of that table; bold there = exact).
// The inexact ones are printed there with seven digits, hence 5e-7.
func TestUnits(t *testing.T) {
	const exact, printed = 1e-15, 5e-7
	tests := []struct {
		name      string
		want, got float64
		tol       float64
	}{
		{"foot, international yard and pound agreement 1959", 0.3048, float64(quantity.Foot), exact},
		{"inch, the same", 0.0254, float64(quantity.Inch), exact},
		{"yard, the same", 0.9144, float64(quantity.Yard), exact},
		{"yard of three feet", 3 * float64(quantity.Foot), float64(quantity.Yard), exact},
		{"foot of twelve inches", 12 * float64(quantity.Inch), float64(quantity.Foot), exact},
		{"pound, the same", 0.45359237, float64(quantity.Pound), exact},
		{"short ton, SP 811: 9.071 847 E+02 kg", 907.1847, float64(quantity.ShortTon), printed},
		{"long ton, SP 811: 1.016 047 E+03 kg", 1016.047, float64(quantity.LongTon), printed},
		{"tonne, SP 811: 1.0 E+03 kg", 1000, float64(quantity.Tonne), exact},
		{"standard gravity, 3rd CGPM 1901", 9.80665, quantity.Gravity, exact},
		{"kilogram-force, SP 811: 9.806 65 N exactly", 9.80665, float64(quantity.KilogramForce), exact},
		{"tonne-force, a thousand of them", 9806.65, float64(quantity.TonneForce), exact},
		{"pound-force, SP 811: 4.448 222 N", 4.448222, float64(quantity.PoundForce), printed},
		{"pound-force in full, 0.45359237 × 9.80665", 4.4482216152605, float64(quantity.PoundForce), exact},
		{"mile per hour, SP 811: 4.4704 E-01 m/s exactly", 0.44704, float64(quantity.MilePerHour), exact},
		{"kilometre per hour, SP 811: 2.777 778 E-01 m/s", 0.2777778, float64(quantity.KilometrePerHour), printed},
		{"foot per minute, SP 811: 5.08 E-03 m/s exactly", 0.00508, float64(quantity.FootPerMinute), exact},
		{"foot pound-force, SP 811: 1.355 818 J", 1.355818, float64(quantity.FootPoundForce), printed},
		{"pound-force foot, SP 811: 1.355 818 N·m", 1.355818, float64(quantity.PoundForceFoot), printed},
		{"kilogram-force metre, SP 811: 9.806 65 N·m exactly", 9.80665, float64(quantity.KilogramForceMetre), exact},
		{"pound per foot, SP 811: 1.488 164 kg/m", 1.488164, float64(quantity.PoundPerFoot), printed},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if !(math.Abs(tt.got-tt.want) <= tt.tol*tt.want) {
				t.Errorf("want %.10g, got %.10g", tt.want, tt.got)
			}
		})
	}
}
