package quantity

// EnteredForce is a force as entered.
type EnteredForce struct {
	Force    Force
	AsWeight bool // entered as a mass (t, kg, lb), taken as its weight: show that it was
	Mass     Mass // that mass; zero unless AsWeight
}

// ParseLength reads a length: 2.5 m, 250 cm, 12 mm, 1 km, 8 ft, 5' 6", 5 ft
// 6 1/2 in, 3 yd. A bare number takes the length unit of s. Lengths below
// zero are read. Every error is a [*ParseError].
func ParseLength(text string, s System) (Length, error) {
	return parse[Length](text, lengthMeasure(s.Length()))
}

// ParseMass reads a mass: 2450 kg, 2.45 t (1000 kg each), 5400 lb, 2.7 short
// ton (2000 lb), 2.4 long ton (2240 lb). A bare ton is refused with the three
// readings. A bare number takes the mass unit of s. Every error is a
// [*ParseError].
func ParseMass(text string, s System) (Mass, error) {
	return parse[Mass](text, massMeasure(s.Mass()))
}

// ParseForce reads a force: 29.3 kN, 500 N, 4 MN, 3 000 kgf, 3 tf, 6600 lbf; a
// mass (t, kg, lb, short ton, long ton) is taken as its weight in standard
// gravity, and the result says so. A bare number takes the force unit of s.
// Every error is a [*ParseError].
func ParseForce(text string, s System) (EnteredForce, error) {
	v, r, err := single(text, forceMeasure(s.Force()))
	if err != nil {
		return EnteredForce{}, err
	}
	f := EnteredForce{Force: Force(v)}
	if r.unit != nil && r.unit.weight {
		f.AsWeight, f.Mass = true, Mass(v/Gravity)
	}
	return f, nil
}

// ParseDegrees reads an angle or a bearing: 82, 82°, 82 deg. Angles below
// zero are read and nothing is turned into [0, 360). Every error is a
// [*ParseError].
func ParseDegrees(text string) (Degrees, error) { return parse[Degrees](text, degreesMeasure()) }

// ParseSpeed reads a speed: 1.5 m/s, 6 m/min, 5 km/h, 20 ft/min, 3 mph. A bare
// number takes the unit the field shows. Every error is a [*ParseError].
func ParseSpeed(text string, bare SpeedUnit) (Speed, error) {
	return parse[Speed](text, speedMeasure(bare))
}

// ParseCurrent reads a current in amperes: 385, 385 A. Every error is a
// [*ParseError].
func ParseCurrent(text string) (Current, error) { return parse[Current](text, currentMeasure()) }

// ParseLinearDensity reads a mass per length with its unit: 80 g/m, 0.08 kg/m,
// 8 kg/100 m, 0.05 lb/ft, 5 lb/100 ft. Every error is a [*ParseError].
func ParseLinearDensity(text string) (LinearDensity, error) {
	return parse[LinearDensity](text, linearDensityMeasure())
}

func parse[Q ~float64](text string, m measure) (Q, error) {
	v, _, err := single(text, m)
	if err != nil {
		return 0, err
	}
	return Q(v), nil
}
