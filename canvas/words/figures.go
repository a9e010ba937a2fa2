package words

import (
	"math"
	"strconv"
	"strings"

	"kedge/solver/part"
	"kedge/solver/quantity"
)

// Written is a figure with the decimal sign of the language. Whatever is shown
// passes through it; what is typed is read with either sign.
func (w *Words) Written(t quantity.Text) quantity.Text {
	if w.comma {
		t.Number = strings.ReplaceAll(t.Number, ".", ",")
	}
	return t
}

// Decimal prints a bare number to so many places, -1 as many as it has, with the
// language's sign between them.
func (w *Words) Decimal(x float64, places int) string {
	return w.Written(quantity.Text{Number: strconv.FormatFloat(x, 'f', places, 64)}).Number
}

// Load prints a load: rounded up.
func (w *Words) Load(f quantity.Force) string {
	return w.Written(quantity.FormatForce(f, w.sys, quantity.AsLoad)).String()
}

// Limit prints a limit or a hold: rounded down.
func (w *Words) Limit(f quantity.Force) string {
	return w.Written(quantity.FormatForce(f, w.sys, quantity.AsLimit)).String()
}

// Share prints a used share, 1 for 100 %: rounded up.
func (w *Words) Share(x float64) string { return w.Written(w.share(x, quantity.AsLoad)).String() }

// mostPercent is the highest share that is printed in per cent: beyond it the digits
// tell nothing but that something holds next to nothing. (ours)
const mostPercent = 3

// share prints a share, "over 3×" where per cent would say no more.
func (w *Words) share(x float64, as quantity.As) quantity.Text {
	if x > mostPercent && !math.IsInf(x, 0) && as != quantity.AsTyped {
		return quantity.Text{Number: w.Label("over-times", part.Count("times", mostPercent))}
	}
	return quantity.FormatShare(quantity.Share(x), as)
}

// Length prints a length with one decimal.
func (w *Words) Length(l quantity.Length) string {
	return w.Written(quantity.FormatLength(l, w.sys, quantity.Plain)).String()
}

// LengthNeeded prints a length that is needed or kept away: rounded up.
func (w *Words) LengthNeeded(l quantity.Length) string {
	return w.Written(quantity.FormatLength(l, w.sys, quantity.AsLoad)).String()
}

// LengthLeft prints a clearance or what is left of a line: rounded down.
func (w *Words) LengthLeft(l quantity.Length) string {
	return w.Written(quantity.FormatLength(l, w.sys, quantity.AsLimit)).String()
}

// Dimension prints a length with two decimals: slings, vehicles, trunks.
func (w *Words) Dimension(l quantity.Length) string {
	return w.Written(quantity.FormatDimension(l, w.sys, quantity.Plain)).String()
}

// Stem prints the thickness or girth of a trunk: as it is taped, in metres or in
// inches.
func (w *Words) Stem(l quantity.Length) string {
	if w.sys.Length() == quantity.InMetres {
		return w.Dimension(l)
	}
	return w.Thickness(l)
}

// Thickness prints the thickness of a line or pin.
func (w *Words) Thickness(l quantity.Length) string {
	return w.Written(quantity.FormatDiameter(l, w.sys, quantity.Plain)).String()
}

// Mass prints a mass.
func (w *Words) Mass(m quantity.Mass) string {
	return w.Written(quantity.FormatMass(m, w.sys, quantity.Plain)).String()
}

// Angle prints an angle with one decimal.
func (w *Words) Angle(d quantity.Degrees) string {
	return w.Written(quantity.FormatDegrees(d, quantity.Plain)).String()
}

// Bearing prints a bearing as three figures, 058°.
func (w *Words) Bearing(d quantity.Degrees) string {
	if x := float64(d); math.IsNaN(x) || math.IsInf(x, 0) {
		return w.Label("not-computed")
	}
	s := strconv.Itoa(int(math.Round(float64(d.Normal()))) % 360)
	for len(s) < 3 {
		s = "0" + s
	}
	return s + "°"
}

// LoadOf prints a part's load, "not computed" if it is not known.
func (w *Words) LoadOf(l part.Load) string {
	if !l.Known {
		return w.Label("not-computed")
	}
	return w.Load(l.Force)
}

// LimitOf prints a part's limit, "no rating" if it has none.
func (w *Words) LimitOf(l part.Limit) string {
	if !l.Known {
		return w.Label("no-rating")
	}
	return w.Limit(l.Force)
}

// UsedOf prints a part's used share, to move or to break loose, whichever is
// more; "no rating", "holds nothing" or "not
// computed" where there is none.
func (w *Words) UsedOf(p *part.Part) string {
	switch {
	case p.Known():
		return w.Share(float64(p.Planned().Force / p.Limit.Force))
	case !p.Move.Known:
		return w.Label("not-computed")
	case p.Limit.Known && p.Limit.Force == 0:
		return w.Label("holds-nothing")
	}
	return w.Label("no-rating")
}

// Chance prints how many trials of a number pass a limit, as "17 of 100": a
// chance is never a percentage.
func (w *Words) Chance(hits, of int) string {
	return w.Label("chance", part.Count("hits", hits), part.Count("of", of))
}

// Value prints a named value by its unit, as a sentence without formats would.
func (w *Words) Value(v part.Value, n Names) string { return w.value(v, slot{}, n) }

// valuesOf finds the value of a placeholder in a list.
func (w *Words) valuesOf(values []part.Value, n Names) func(slot) (string, bool) {
	return func(s slot) (string, bool) {
		for _, v := range values {
			if v.Name == s.name {
				return w.value(v, s, n), true
			}
		}
		return "", false
	}
}

func (w *Words) value(v part.Value, s slot, n Names) string {
	switch {
	case s.forms != nil && v.X == 1:
		return s.forms[0]
	case s.forms != nil:
		return s.forms[1]
	case v.Unit == part.UnitText:
		return quantity.OneLine(w.Word(v.Text))
	case v.Unit == part.UnitThing && n == nil:
		return quantity.OneLine(v.Text)
	case v.Unit == part.UnitThing:
		return w.nameOf(v.Text, n)
	case v.Unit == part.UnitNone && v.Text != "":
		return quantity.OneLine(v.Text)
	case math.IsNaN(v.X) || math.IsInf(v.X, 0):
		return w.Label("not-computed")
	}
	t := w.Written(w.figure(v, s))
	if s.has("bare") {
		return t.Number
	}
	return t.String()
}

// figure prints the number of a value.
func (w *Words) figure(v part.Value, s slot) quantity.Text {
	as := rounding(v.Unit)
	switch {
	case s.has("up"):
		as = quantity.AsLoad
	case s.has("down"):
		as = quantity.AsLimit
	}
	switch {
	case s.has("whole"):
		return w.whole(v, as)
	case s.has("long"):
		t := w.sized(v, quantity.AsTyped, s)
		if x, err := strconv.ParseFloat(t.Number, 64); err == nil {
			t.Number = digits(x, longDigits)
		}
		return t
	}
	return w.sized(v, as, s)
}

// sized prints the number of a value, rounded as told.
func (w *Words) sized(v part.Value, as quantity.As, s slot) quantity.Text {
	x := v.X
	switch v.Unit {
	case part.UnitForce, part.UnitLimit:
		return quantity.FormatForce(quantity.Force(x), w.sys, as)
	case part.UnitLength:
		switch {
		case s.has("thick"), s.has("stem") && w.sys.Length() != quantity.InMetres:
			return quantity.FormatDiameter(quantity.Length(x), w.sys, as)
		case s.has("fine"), s.has("stem"):
			return quantity.FormatDimension(quantity.Length(x), w.sys, as)
		}
		return quantity.FormatLength(quantity.Length(x), w.sys, as)
	case part.UnitMass:
		return quantity.FormatMass(quantity.Mass(x), w.sys, as)
	case part.UnitAngle:
		return quantity.FormatDegrees(quantity.Degrees(x), as)
	case part.UnitBearing:
		return quantity.Text{Number: w.Bearing(quantity.Degrees(x))}
	case part.UnitShare:
		if s.has("figure") {
			return quantity.FormatShare(quantity.Share(x), as)
		}
		return w.share(x, as)
	case part.UnitEnergy:
		return quantity.FormatEnergy(quantity.Energy(x), w.sys, as)
	case part.UnitSpeed:
		return quantity.FormatSpeed(quantity.Speed(x), quantity.InMetresPerSecond, as)
	case part.UnitTime:
		return quantity.FormatDuration(quantity.Duration(x), as)
	case part.UnitCurrent:
		return quantity.FormatCurrent(quantity.Current(x), as)
	case part.UnitMoment:
		return quantity.FormatMoment(quantity.Moment(x), w.sys, as)
	case part.UnitCount:
		return quantity.Text{Number: strconv.FormatFloat(math.Round(x), 'f', 0, 64)}
	case part.UnitFactor:
		return quantity.Text{Number: "×" + s.number(x)}
	}
	return quantity.Text{Number: s.number(x)}
}

// whole prints a value without decimals, in the unit shown.
func (w *Words) whole(v part.Value, as quantity.As) quantity.Text {
	round := func(x, unit float64) float64 {
		switch x /= unit; as {
		case quantity.AsLoad:
			x = math.Ceil(x - wholeSlack)
		case quantity.AsLimit:
			x = math.Floor(x + wholeSlack)
		default:
			x = math.Round(x)
		}
		return x
	}
	switch v.Unit {
	case part.UnitAngle:
		return quantity.Text{Number: strconv.FormatFloat(round(v.X, 1), 'f', 0, 64) + "°"}
	case part.UnitSpeed:
		return quantity.Text{Number: strconv.FormatFloat(round(v.X, 1), 'f', 0, 64), Unit: quantity.InMetresPerSecond.String()}
	case part.UnitLength:
		unit, symbol := 1.0, w.sys.Length().String()
		if w.sys.Length() == quantity.InFeet {
			unit = float64(quantity.Foot)
		}
		return quantity.Text{Number: strconv.FormatFloat(round(v.X, unit), 'f', 0, 64), Unit: symbol}
	}
	return w.figure(v, slot{})
}

// wholeSlack is what rounding to whole figures takes off first, the 1 part in
// 10⁹ of package quantity, so that 58 stays 58.
const wholeSlack = 1e-9

// rounding is the way values of a unit are rounded if the text does not say.
func rounding(u part.Unit) quantity.As {
	switch u {
	case part.UnitForce, part.UnitShare, part.UnitEnergy:
		return quantity.AsLoad
	case part.UnitLimit:
		return quantity.AsLimit
	}
	return quantity.Plain
}

// numberDigits are the significant digits of a pure number or factor: one more
// than any handbook gives.
const numberDigits = 4

// longDigits are the significant digits of a figure that a sum is followed by
// hand with: three of them may be lost in powers and differences, and the
// result still agrees in the three or four that are printed of it.
const longDigits = 7

func plainNumber(x float64) string { return digits(x, numberDigits) }

// number prints a pure number.
func (s slot) number(x float64) string {
	if s.has("long") {
		return digits(x, longDigits)
	}
	return plainNumber(x)
}

// digits prints so many significant digits, without zeros at its end.
func digits(x float64, n int) string {
	r, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', n, 64), 64)
	if err != nil {
		r = x
	}
	if r == 0 {
		r = 0 // no negative zero
	}
	return strconv.FormatFloat(r, 'f', -1, 64)
}
