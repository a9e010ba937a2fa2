package quantity

// ParseSlope reads a slope as its angle: 12, 12°, 12 deg, or 20 % of rise over
// run, arctan(0.20). A bare number is degrees. Every error is a [*ParseError].
func ParseSlope(text string) (Degrees, error) { return parse[Degrees](text, slopeMeasure()) }

// ParseDuration reads a time: 45 s, 12 min, 1.5 h, 1 h 20 min. A bare number
// is refused: nothing says whether it is seconds or hours. Every error is a
// [*ParseError].
func ParseDuration(text string) (Duration, error) { return parse[Duration](text, durationMeasure()) }

// ParseShare reads a percentage as a share of one: 83 and 83 % are 0.83. Every
// error is a [*ParseError].
func ParseShare(text string) (Share, error) { return parse[Share](text, shareMeasure()) }

// ParseEnergy reads an energy with its unit: 250 J, 4.2 kJ, 900 ft·lbf. Every
// error is a [*ParseError].
func ParseEnergy(text string) (Energy, error) { return parse[Energy](text, energyMeasure()) }

// ParseMoment reads a moment of force with its unit: 250 N·m, 12 kN·m, 30
// kgf·m, 900 lbf·ft. Every error is a [*ParseError].
func ParseMoment(text string) (Moment, error) { return parse[Moment](text, momentMeasure()) }

func durationMeasure() measure {
	return measure{
		name: "time", apostrophes: false,
		compound: []string{hourNames, minuteNames, secondNames},
		known:    "s, min, h",
		units: []unit{
			{names: hourNames, si: float64(Hour)},
			{names: minuteNames, si: float64(Minute)},
			{names: secondNames, si: float64(Second)},
		},
	}
}

func energyMeasure() measure {
	return measure{
		name: "energy", apostrophes: true, known: "J, kJ, ft·lbf",
		units: []unit{
			{names: "J|joule|joules", si: float64(Joule)},
			{names: "kJ", si: float64(Kilojoule)},
			{names: "ft lbf|ft lb", si: float64(FootPoundForce)},
		},
	}
}

func momentMeasure() measure {
	return measure{
		name: "moment", signed: true, apostrophes: true, known: "N·m, kN·m, kgf·m, lbf·ft",
		units: []unit{
			{names: "N m", si: float64(NewtonMetre)},
			{names: "kN m", si: float64(KilonewtonMetre)},
			{names: "kgf m", si: float64(KilogramForceMetre)},
			{names: "lbf ft|lb ft", si: float64(PoundForceFoot)},
		},
	}
}
