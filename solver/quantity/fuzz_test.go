package quantity_test

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"kedge/solver/quantity"
)

// FuzzParse feeds every field any text: no panic, nothing that is not finite,
// each refusal a whole sentence with a place inside the text, and what is read
// stands in the field so that it is read as the same again.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"", "2450", "2,45 t", "2.450 kg", "1,234.5", "5'6\"", "5 ft 6 1/2 in", "-3.5 m", "−0",
		"2 450 ± 200 kg", "2 to 4 m", "2..4", "24 m ± 5 %", "~24", "5 ton", "5 short tons", "20 %",
		"1 h 20 min", "12 kN·m", "8 kg/100 m", "1e999", "0.0000000000000000001", "2\xff", "٣", "'", "1'234",
		"999999999999999", "2\u202f450\u00a0kg", "+", "±", "5/6", "1 1/2\"", "-0 h5",
	} {
		f.Add(seed, uint8(0))
		f.Add(seed, uint8(quantity.Imperial))
	}
	f.Fuzz(func(t *testing.T, text string, system uint8) {
		s := quantity.System(system)
		for _, k := range kinds() {
			v, err := k.parse(text, s)
			if err != nil {
				refused(t, text, err)
				continue
			}
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 && !k.signed || v == 0 && math.Signbit(v) {
				t.Fatalf("%s %q: %v", k.name, text, v)
			}
			typed := k.format(v, s, quantity.AsTyped).String()
			again, err := k.parse(typed, s)
			if err != nil {
				// the least and the largest figure may fall outside by their last digit
				if edge := math.Abs(v); edge < 1.001e-9 || edge > 0.999e9 {
					continue
				}
				t.Fatalf("%s %q: stands as %q: %v", k.name, text, typed, err)
			}
			if !(math.Abs(again-v) <= 5.001e-12*math.Abs(v)) {
				t.Fatalf("%s %q: %v stands as %q, read as %v", k.name, text, v, typed, again)
			}
		}
		length, err := quantity.ParseDoubtLength(text, s)
		ordered(t, text, length, err)
		mass, err := quantity.ParseDoubtMass(text, s)
		ordered(t, text, mass, err)
		force, err := quantity.ParseDoubtForce(text, s)
		ordered(t, text, force, err)
		slope, err := quantity.ParseDoubtSlope(text)
		ordered(t, text, slope, err)
	})
}

func ordered[Q ~float64](t *testing.T, text string, d quantity.Doubt[Q], err error) {
	t.Helper()
	if err != nil {
		refused(t, text, err)
		return
	}
	if !(d.Low <= d.Value && d.Value <= d.High) || math.IsInf(float64(d.Low), 0) || math.IsInf(float64(d.High), 0) {
		t.Fatalf("%q: %v", text, d)
	}
}

func refused(t *testing.T, text string, err error) {
	t.Helper()
	var p *quantity.ParseError
	if !errors.As(err, &p) {
		t.Fatalf("%q: %T is not a ParseError", text, err)
	}
	if p.Fault == quantity.NoFault || p.Kind.ID == "" || p.Offset < 0 || p.Offset > len(p.Input) {
		t.Fatalf("%q: %+v", text, p)
	}
	if !utf8.ValidString(err.Error()) || !strings.HasPrefix(err.Error(), "quantity: ") {
		t.Fatalf("%q: %q", text, err.Error())
	}
}
