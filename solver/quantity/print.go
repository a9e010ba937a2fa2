package quantity

import "math"

// FormatForce prints a force in the unit of s: kilonewtons with one decimal
// below 1000, pounds and kilograms as whole numbers of three significant
// digits.
func FormatForce(f Force, s System, as As) Text {
	if s.Force() == InKilonewtons {
		return format(float64(f), InKilonewtons.unit(), style{decimals: 1, coarse: 1000}, as)
	}
	return format(float64(f), s.Force().unit(), style{digits: 3}, as)
}

// FormatLength prints a length with one decimal, as 24.4 m: lines, distances,
// places.
func FormatLength(l Length, s System, as As) Text {
	return format(float64(l), s.Length().unit(), style{decimals: 1}, as)
}

// FormatDimension prints a length with two decimals, as 3.00 m: slings,
// vehicles, trunks.
func FormatDimension(l Length, s System, as As) Text {
	return format(float64(l), s.Length().unit(), style{decimals: 2}, as)
}

// FormatDiameter prints the thickness of a line, a pin or a groove: whole
// millimetres from 10 on, with one decimal below, or inches with two decimals.
func FormatDiameter(l Length, s System, as As) Text {
	if s.Length() == InFeet {
		return format(float64(l), shownUnit{"in", float64(Inch)}, style{decimals: 2}, as)
	}
	return format(float64(l), shownUnit{"mm", float64(Millimetre)}, style{decimals: 1, coarse: 10}, as)
}

// FormatMass prints a mass, whole from 100 on, with one decimal below.
func FormatMass(m Mass, s System, as As) Text {
	return format(float64(m), s.Mass().unit(), style{decimals: 1, coarse: 100}, as)
}

// FormatDegrees prints an angle with one decimal, as 87.4°.
func FormatDegrees(d Degrees, as As) Text {
	t := format(float64(d), shownUnit{"°", 1}, style{decimals: 1}, as)
	t.close = true
	return t
}

// FormatShare prints a share as whole per cent. A used share goes [AsLoad]:
// 0.992 is 100 %, 1.001 is 101 %. Whether a part is over its limit is told by
// the share, never by the figure printed.
func FormatShare(s Share, as As) Text {
	return format(float64(s), shownUnit{"%", float64(Percent)}, style{}, as)
}

// FormatSpeed prints a speed in the unit u: m/s with two decimals, m/min and
// km/h with one, ft/min whole.
func FormatSpeed(v Speed, u SpeedUnit, as As) Text {
	st := style{decimals: 1}
	switch u {
	case InMetresPerSecond:
		st.decimals = 2
	case InFeetPerMinute:
		st.decimals = 0
	}
	return format(float64(v), u.unit(), st, as)
}

// FormatDuration prints a time: seconds (one decimal below ten) below a
// minute, minutes and seconds below an hour, then hours and minutes.
func FormatDuration(d Duration, as As) Text {
	x := float64(d)
	if as == AsTyped || math.IsNaN(x) || math.Abs(x) >= maxFigure {
		return format(x, shownUnit{"s", 1}, style{decimals: 1, coarse: 10}, as)
	}
	sec := count(x, 0, as)
	if math.Abs(sec) < 60 {
		return format(x, shownUnit{"s", 1}, style{decimals: 1, coarse: 10}, as)
	}
	large, small, unit := sec, 60.0, "s"
	mid := "min"
	if math.Abs(sec) >= 3600 {
		large, mid, unit = count(x/60, 0, as), "h", "min"
	}
	most, rest := math.Trunc(large/small), math.Abs(math.Mod(large, small))
	if rest == 0 {
		return Text{Number: group(most, 0), Unit: mid}
	}
	return Text{Number: group(most, 0) + unitSpace + mid + unitSpace + group(rest, 0), Unit: unit}
}

// FormatCurrent prints a current in amperes, whole from 10 on, with one
// decimal below.
func FormatCurrent(i Current, as As) Text {
	return format(float64(i), shownUnit{"A", float64(Ampere)}, style{decimals: 1, coarse: 10}, as)
}

// FormatEnergy prints an energy: kilojoules with one decimal below 1000, or
// foot-pounds of three significant digits where forces are in pounds.
func FormatEnergy(e Energy, s System, as As) Text {
	if s.Force() == InPoundsForce {
		return format(float64(e), shownUnit{"ft·lbf", float64(FootPoundForce)}, style{digits: 3}, as)
	}
	return format(float64(e), shownUnit{"kJ", float64(Kilojoule)}, style{decimals: 1, coarse: 1000}, as)
}

// FormatMoment prints a moment of force as [FormatForce] prints a force, in
// kN·m, kgf·m or lbf·ft.
func FormatMoment(m Moment, s System, as As) Text {
	switch s.Force() {
	case InKilogramsForce:
		return format(float64(m), shownUnit{"kgf·m", float64(KilogramForceMetre)}, style{digits: 3}, as)
	case InPoundsForce:
		return format(float64(m), shownUnit{"lbf·ft", float64(PoundForceFoot)}, style{digits: 3}, as)
	}
	return format(float64(m), shownUnit{"kN·m", float64(KilonewtonMetre)}, style{decimals: 1, coarse: 1000}, as)
}

// FormatLinearDensity prints a mass per length in whole grams a metre, or in
// pounds a hundred feet with one decimal where masses are in pounds.
func FormatLinearDensity(d LinearDensity, s System, as As) Text {
	if s.Mass() == InPounds {
		return format(float64(d), shownUnit{"lb/100 ft", float64(PoundPerFoot) / 100}, style{decimals: 1}, as)
	}
	return format(float64(d), shownUnit{"g/m", float64(GramPerMetre)}, style{}, as)
}
