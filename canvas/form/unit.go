package form

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// unit is what a member is measured in, or how else it is entered.
type unit int

// The units of fields. A bare number takes the unit named, by the system of
// units in use.
const (
	unitText      unit = iota
	unitLength         // m, ft
	unitThick          // mm, in: ropes, pins, drums
	unitGirth          // cm, in: trunks, ruts
	unitMass           // kg, lb
	unitForce          // kN, kgf, lbf
	unitForcePerM      // kN/m
	unitAngle          // °
	unitSlope          // °, or % of rise over run
	unitSpeed          // m/s
	unitLineSpeed      // m/min, ft/min
	unitCurrent        // A
	unitPerM           // g/m, lb/100 ft
	unitPercent        // %
	unitFactor         // a plain number
	unitCount          // a whole number
	unitRating         // a force and what it means
	unitBool
	unitChoice
	unitPort    // a choice among hook-on points
	unitID      // a choice among things
	unitIndex   // a choice by place, from 0
	unitLines   // a text of several lines
	unitOutline // one point a line
	unitPairs   // one measured point of a picture a line
	unitJoins   // one join of a line a line
	unitStages  // one stage of a way a line
	unitPorts   // one hook-on point a line
	unitWords   // one word a line
)

// doubtful tells which units are read with ± and ranges.
func (u unit) doubtful() bool {
	switch u {
	case unitLength, unitThick, unitGirth, unitMass, unitForce, unitForcePerM, unitAngle, unitSlope, unitSpeed, unitLineSpeed, unitPercent, unitFactor, unitRating:
		return true
	}
	return false
}

func feet(sys quantity.System) bool { return sys.Length() == quantity.InFeet }

// speedUnit is the unit of a bare speed.
func (u unit) speedUnit(sys quantity.System) quantity.SpeedUnit {
	switch {
	case u == unitSpeed:
		return quantity.InMetresPerSecond
	case feet(sys):
		return quantity.InFeetPerMinute
	}
	return quantity.InMetresPerMinute
}

// symbol is the unit of a bare number.
func (u unit) symbol(sys quantity.System) string {
	switch u {
	case unitLength, unitOutline:
		return sys.Length().String()
	case unitThick:
		if feet(sys) {
			return "in"
		}
		return "mm"
	case unitGirth:
		if feet(sys) {
			return "in"
		}
		return "cm"
	case unitMass:
		return sys.Mass().String()
	case unitForce, unitRating:
		return sys.Force().String()
	case unitForcePerM:
		return sys.Force().String() + "/m"
	case unitAngle, unitSlope:
		return "°"
	case unitSpeed, unitLineSpeed:
		return u.speedUnit(sys).String()
	case unitCurrent:
		return "A"
	case unitPerM:
		return quantity.FormatLinearDensity(0, sys, quantity.AsTyped).Unit
	case unitPercent:
		return "%"
	}
	return ""
}

// typed prints an SI value as it would be typed, without its unit.
func (u unit) typed(x float64, sys quantity.System) string {
	const as = quantity.AsTyped
	switch u {
	case unitLength, unitOutline:
		return quantity.FormatLength(quantity.Length(x), sys, as).Number
	case unitThick:
		return quantity.FormatDiameter(quantity.Length(x), sys, as).Number
	case unitGirth:
		if feet(sys) {
			return quantity.FormatDiameter(quantity.Length(x), sys, as).Number
		}
		return Plain(x / float64(quantity.Centimetre))
	case unitMass:
		return quantity.FormatMass(quantity.Mass(x), sys, as).Number
	case unitForce, unitRating, unitForcePerM:
		return quantity.FormatForce(quantity.Force(x), sys, as).Number
	case unitSpeed, unitLineSpeed:
		return quantity.FormatSpeed(quantity.Speed(x), u.speedUnit(sys), as).Number
	case unitPerM:
		return quantity.FormatLinearDensity(quantity.LinearDensity(x), sys, as).Number
	case unitPercent:
		return quantity.FormatShare(quantity.Share(x), as).Number
	}
	return Plain(x)
}

// Plain prints a pure number by the rules of an entry field, which the
// metre shares: its figure is the number itself.
func Plain(x float64) string {
	return quantity.FormatLength(quantity.Length(x), quantity.Metric, quantity.AsTyped).Number
}

// entry is a figure as entered, in SI. Without a doubt the three are alike.
type entry struct {
	value, low, high float64
	plusMinus        bool
	likely           bool // typed as low / likely / high
}

func (e entry) single() bool { return e.low == e.high }

// show prints what was entered as it would be typed again, with no more figures
// than are shown elsewhere: 5 t are 49.03 kN. The plan keeps what was typed.
func (u unit) show(e entry, sys quantity.System) string {
	return e.print(func(x float64) string { return u.short(u.typed(x, sys)) })
}

// exact prints what was entered to the last digit.
func (u unit) exact(e entry, sys quantity.System) string {
	return e.print(func(x float64) string { return u.typed(x, sys) })
}

func (e entry) print(figure func(float64) string) string {
	switch {
	case e.single():
		return figure(e.value)
	case e.plusMinus:
		return figure(e.value) + " ± " + figure(math.Max(e.high-e.value, e.value-e.low))
	case e.likely:
		return figure(e.low) + " / " + figure(e.value) + " / " + figure(e.high)
	}
	return figure(e.low) + " to " + figure(e.high)
}

// shownDigits are the significant digits that a field shows behind the decimal
// sign and before it together; what stands before it is never cut. lengthPlaces
// is to the millimetre: a place is typed so.
const (
	shownDigits  = 4
	lengthPlaces = 3
)

// short is a figure cut to the digits shown, if it is one that another unit may
// have been typed for.
func (u unit) short(figure string) string {
	least := 0
	switch u {
	case unitLength:
		least = lengthPlaces
	case unitThick, unitGirth, unitMass, unitForce, unitForcePerM, unitSpeed, unitLineSpeed, unitPerM, unitRating:
	default:
		return figure
	}
	whole, part, ok := strings.Cut(figure, ".")
	x, err := strconv.ParseFloat(figure, 64)
	if !ok || err != nil {
		return figure
	}
	digits := strings.TrimLeft(whole, "-0")
	places := shownDigits - len(digits)
	if digits == "" { // zeros behind the sign are no figures
		places += len(part) - len(strings.TrimLeft(part, "0"))
	}
	if places = max(places, least, 0); places >= len(part) {
		return figure
	}
	s := trimmedFigure(x, places)
	if _, part, _ = strings.Cut(s, "."); len(part) == 3 && digits != "" { // three behind a sign may be read as thousands
		if least < 3 {
			return trimmedFigure(x, 2)
		}
		return s + "0"
	}
	return s
}

// trimmedFigure prints a number to so many places, without zeros at its end.
func trimmedFigure(x float64, places int) string {
	s := strconv.FormatFloat(x, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// read reads a figure. Every error is a [*quantity.ParseError] about text.
func (u unit) read(given string, sys quantity.System, signed, doubts bool) (entry, error) {
	e, err := u.figures(given, sys)
	if err != nil {
		return entry{}, aboutText(given, err)
	}
	switch {
	case !signed && e.low < 0:
		return entry{}, refusedText(given, quantity.NegativeValue, belowZero)
	case !doubts && !e.single():
		return entry{}, refusedText(given, quantity.NotOneValue, oneFigure)
	case u == unitCount && (e.value != math.Trunc(e.value) || math.Abs(e.value) > 1e6):
		return entry{}, refusedText(given, quantity.NotNumber, wholeNumber)
	}
	return e, nil
}

func (u unit) figures(given string, sys quantity.System) (entry, error) {
	switch u {
	case unitLength, unitOutline:
		return doubted(quantity.ParseDoubtLength(given, sys))
	case unitThick, unitGirth:
		return doubted(quantity.ParseDoubtLength(withUnit(given, u.symbol(sys)), sys))
	case unitMass:
		return doubted(quantity.ParseDoubtMass(given, sys))
	case unitForce, unitRating:
		return doubted(quantity.ParseDoubtForce(given, sys))
	case unitForcePerM:
		return doubted(quantity.ParseDoubtForce(strings.ReplaceAll(given, "/m", ""), sys))
	case unitAngle:
		return doubted(quantity.ParseDoubtDegrees(given))
	case unitSlope:
		return doubted(quantity.ParseDoubtSlope(given))
	case unitSpeed, unitLineSpeed:
		return doubted(quantity.ParseDoubtSpeed(given, u.speedUnit(sys)))
	case unitPercent:
		return doubted(quantity.ParseDoubtShare(given))
	case unitCurrent:
		x, err := quantity.ParseCurrent(given)
		return entry{value: float64(x), low: float64(x), high: float64(x)}, err
	case unitPerM:
		x, err := quantity.ParseLinearDensity(withUnit(given, u.symbol(sys)))
		return entry{value: float64(x), low: float64(x), high: float64(x)}, err
	}
	return plainFigures(given)
}

func doubted[Q ~float64](d quantity.Doubt[Q], err error) (entry, error) {
	return entry{float64(d.Value), float64(d.Low), float64(d.High), d.PlusMinus, d.Likely}, err
}

// plainFigures reads a pure number, or a percentage of one. An angle is read by
// the same rules as a number and is one, so long as it has no unit.
func plainFigures(given string) (entry, error) {
	if rest, ok := strings.CutSuffix(strings.TrimSpace(given), "%"); ok && !strings.Contains(rest, "±") {
		return doubted(quantity.ParseDoubtShare(given))
	}
	if hasUnit(given) {
		return entry{}, refusedText(given, quantity.UnitUnknown, plainNumber)
	}
	e, err := doubted(quantity.ParseDoubtDegrees(given))
	if pe := (*quantity.ParseError)(nil); errors.As(err, &pe) {
		numbered := *pe
		numbered.Said = slices.Clone(pe.Said)
		for i, v := range numbered.Said {
			if v == refusal.Word("measure-angle") {
				numbered.Said[i] = refusal.Word("measure-number")
			}
		}
		err = &numbered
	}
	return e, err
}

// hasUnit reports whether a figure says its unit: any letter but those of "to".
func hasUnit(given string) bool {
	for _, word := range strings.Fields(given) {
		if word == "to" {
			continue
		}
		if strings.ContainsFunc(word, unicode.IsLetter) || strings.ContainsAny(word, `'"°′″’”`) {
			return true
		}
	}
	return false
}

// withUnit writes the unit behind a bare figure: at its end, or before a ± in
// per cent.
func withUnit(given, unit string) string {
	if hasUnit(given) {
		return given
	}
	if strings.Contains(given, "%") {
		if before, _, ok := quantity.CutPlusMinus(given); ok && before != "" {
			return before + unit + " " + given[len(before):]
		}
	}
	return given + " " + unit
}

// aboutText makes an error one about the text that was given, whatever was added
// to it before it was read.
func aboutText(given string, err error) error {
	pe := (*quantity.ParseError)(nil)
	if !errors.As(err, &pe) || pe.Input == given {
		return err
	}
	e := *pe
	e.Input, e.Offset = given, min(e.Offset, len(given))
	return &e
}
