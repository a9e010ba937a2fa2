package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"kedge/solver/refusal"
)

// unit is one unit a field reads.
type unit struct {
	names  string  // ways of writing it, parted by |; a space in a name may be left out or be a ·
	si     float64 // size in the SI unit; 0 for a unit that has several readings
	weight bool    // a mass read as its weight
	exact  bool    // upper and lower case matter
	grade  bool    // rise over run: read as the angle
}

// measure is what a field of one kind reads.
type measure struct {
	name        string // of its word, after "measure-"
	units       []unit
	bare        float64  // size of a bare number in SI; 0: the unit must be said
	signed      bool     // may be below zero
	apostrophes bool     // ' parts thousands
	compound    []string // names of units that may follow one another, largest first
	known       any      // the units, for the sentence that refuses one
}

// word is what is measured, as sentences call it.
func (m measure) word() refusal.Word { return refusal.Word("measure-" + m.name) }

const (
	feetNames   = "ft|foot|feet|'|′|’"
	inchNames   = "in|inch|inches|\"|″|”|''|′′|’’"
	hourNames   = "h|hr|hrs|hour|hours"
	minuteNames = "min|mins|minute|minutes"
	secondNames = "s|sec|secs|second|seconds"
)

func lengthMeasure(u LengthUnit) measure {
	return measure{
		name: "length", bare: u.unit().si, signed: true,
		compound: []string{feetNames, inchNames},
		known:    "m, cm, mm, km, ft, in, yd",
		units: []unit{
			{names: "m|metre|metres|meter|meters", si: float64(Metre)},
			{names: "cm|centimetre|centimetres|centimeter|centimeters", si: float64(Centimetre)},
			{names: "mm|millimetre|millimetres|millimeter|millimeters", si: float64(Millimetre)},
			{names: "km|kilometre|kilometres|kilometer|kilometers", si: float64(Kilometre)},
			{names: feetNames, si: float64(Foot)},
			{names: inchNames, si: float64(Inch)},
			{names: "yd|yds|yard|yards", si: float64(Yard)},
		},
	}
}

// massUnitList is the units of mass, each times scale: 1 for a mass, [Gravity]
// for its weight.
func massUnitList(scale float64, weight bool) []unit {
	return []unit{
		{names: "kg|kgs|kilo|kilos|kilogram|kilograms", si: float64(Kilogram) * scale, weight: weight},
		{names: "t|tonne|tonnes|metric ton|metric tons", si: float64(Tonne) * scale, weight: weight},
		{names: "lb|lbs|pound|pounds", si: float64(Pound) * scale, weight: weight},
		{names: "short ton|short tons", si: float64(ShortTon) * scale, weight: weight},
		{names: "long ton|long tons", si: float64(LongTon) * scale, weight: weight},
		{names: "ton|tons"},
	}
}

func massMeasure(u MassUnit) measure {
	return measure{
		name: "mass", bare: u.unit().si, apostrophes: true,
		known: "kg, t, lb, short ton, long ton",
		units: massUnitList(1, false),
	}
}

func forceMeasure(u ForceUnit) measure {
	return measure{
		name: "force", bare: u.unit().si, apostrophes: true,
		known: refusal.Word("units-of-force"),
		units: append([]unit{
			{names: "N|newton|newtons", si: float64(Newton)},
			{names: "daN", si: float64(Decanewton)},
			{names: "kN|kilonewton|kilonewtons", si: float64(Kilonewton)},
			{names: "MN", si: float64(Meganewton), exact: true},
			{names: "kgf|kp", si: float64(KilogramForce)},
			{names: "tf", si: float64(TonneForce)},
			{names: "lbf", si: float64(PoundForce)},
		}, massUnitList(Gravity, true)...),
	}
}

func degreesMeasure() measure {
	return measure{
		name: "angle", bare: 1, signed: true, apostrophes: false, known: "°, deg",
		units: []unit{{names: "°|deg|degs|degree|degrees", si: 1}},
	}
}

func slopeMeasure() measure {
	m := degreesMeasure()
	m.name, m.known = "slope", "°, deg, %"
	m.units = append(m.units, unit{names: "%|percent|per cent", si: float64(Percent), grade: true})
	return m
}

func speedMeasure(u SpeedUnit) measure {
	return measure{
		name: "speed", bare: u.unit().si, apostrophes: true,
		known: "m/s, m/min, km/h, ft/min, mph",
		units: []unit{
			{names: "m/s", si: float64(MetrePerSecond)},
			{names: "m/min", si: float64(MetrePerMinute)},
			{names: "km/h|kmh|kph", si: float64(KilometrePerHour)},
			{names: "ft/min|fpm", si: float64(FootPerMinute)},
			{names: "mph|mi/h", si: float64(MilePerHour)},
		},
	}
}

func currentMeasure() measure {
	return measure{
		name: "current", bare: 1, apostrophes: true, known: "A",
		units: []unit{{names: "A|amp|amps|ampere|amperes", si: float64(Ampere)}},
	}
}

func shareMeasure() measure {
	return measure{
		name: "share", bare: float64(Percent), known: "%",
		units: []unit{{names: "%|percent|per cent", si: float64(Percent)}},
	}
}

func linearDensityMeasure() measure {
	return measure{
		name: "mass-per-length", apostrophes: true, known: "g/m, kg/m, kg/100 m, lb/ft, lb/100 ft",
		units: []unit{
			{names: "kg/m", si: float64(KilogramPerMetre)},
			{names: "g/m", si: float64(GramPerMetre)},
			{names: "kg/100 m", si: float64(KilogramPerMetre) / 100},
			{names: "lb/ft", si: float64(PoundPerFoot)},
			{names: "lb/100 ft", si: float64(PoundPerFoot) / 100},
		},
	}
}

// unit steps over the longest unit of m that starts here and gives it, or nil.
func (c *scan) unit(m measure) *unit {
	best, end := -1, c.at
	for i, u := range m.units {
		for names := u.names; names != ""; {
			var name string
			name, names, _ = strings.Cut(names, "|")
			if e := matchName(c.text, c.at, name, u.exact); e > end {
				best, end = i, e
			}
		}
	}
	if best < 0 {
		return nil
	}
	c.at = end
	return &m.units[best]
}

// matchName gives the end of name at byte i of text, or i if it is not there
// or a longer word is.
func matchName(text string, i int, name string, exact bool) int {
	at := i
	lastLetter := false
	for _, want := range name {
		if want == ' ' {
			for at < len(text) {
				r, n := utf8.DecodeRuneInString(text[at:])
				if !isSpace(r) && r != '·' && r != '⋅' {
					break
				}
				at += n
			}
			continue
		}
		if at >= len(text) {
			return i
		}
		r, n := utf8.DecodeRuneInString(text[at:])
		if r != want && (exact || unicode.ToLower(r) != unicode.ToLower(want)) {
			return i
		}
		at += n
		lastLetter = unicode.IsLetter(want)
	}
	if lastLetter && at < len(text) {
		if r, _ := utf8.DecodeRuneInString(text[at:]); unicode.IsLetter(r) {
			return i
		}
	}
	return at
}

// word gives the run of letters and signs here, for a sentence.
func (c *scan) word() string {
	for i, r := range c.text[c.at:] {
		if isSpace(r) || isDigit(r) || r == '\n' || r == '\r' {
			return clip(c.text[c.at : c.at+i])
		}
	}
	return clip(c.text[c.at:])
}
