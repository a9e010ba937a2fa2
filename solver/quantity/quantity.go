package quantity

import "math"

// Length is a distance in metres.
type Length float64

// Mass is a mass in kilograms.
type Mass float64

// Force is a force in newtons.
type Force float64

// Degrees is an angle in degrees. Bearings count clockwise from north.
type Degrees float64

// Energy is an energy in joules.
type Energy float64

// Speed is a speed in metres per second.
type Speed float64

// Duration is a time in seconds. (time.Duration is whole nanoseconds and its
// package is kept out of the solver.)
type Duration float64

// Current is an electric current in amperes.
type Current float64

// Moment is a moment of force in newton metres.
type Moment float64

// LinearDensity is a mass per length in kilograms per metre.
type LinearDensity float64

// Share is a part of a whole or of a limit; 1 is 100 %.
type Share float64

// Gravity is the standard acceleration of free fall, m/s², exact by the
// definition of the 3rd CGPM (1901), kept in ISO 80000-3.
const Gravity = 9.80665

// Units as multiples of the SI unit. The inch (0.0254 m) and the avoirdupois
// pound (0.45359237 kg) are exact by the international yard and pound
// agreement of 1959; pound-force and kilogram-force follow with [Gravity]. The
// other factors follow from these as in NIST Special Publication 811 (2008),
// appendix B.
const (
	Metre      Length = 1
	Centimetre Length = 0.01
	Millimetre Length = 0.001
	Foot       Length = 0.3048
	Inch       Length = 0.0254
	Yard       Length = 0.9144
	Kilometre  Length = 1000

	Kilogram Mass = 1
	Tonne    Mass = 1000
	Pound    Mass = 0.45359237
	ShortTon Mass = 2000 * Pound
	LongTon  Mass = 2240 * Pound

	Newton        Force = 1
	Kilonewton    Force = 1000
	Meganewton    Force = 1e6
	Decanewton    Force = 10
	KilogramForce Force = Gravity
	TonneForce    Force = 1000 * Gravity
	PoundForce    Force = Force(Pound) * Gravity

	MetrePerSecond   Speed = 1
	MetrePerMinute   Speed = 1.0 / 60
	KilometrePerHour Speed = 1000.0 / 3600
	FootPerMinute    Speed = Speed(Foot) / 60
	MilePerHour      Speed = 0.44704

	Second Duration = 1
	Minute Duration = 60
	Hour   Duration = 3600

	Ampere Current = 1

	Joule          Energy = 1
	Kilojoule      Energy = 1000
	FootPoundForce Energy = Energy(Foot) * Energy(PoundForce)

	NewtonMetre        Moment = 1
	KilonewtonMetre    Moment = 1000
	KilogramForceMetre Moment = Gravity
	PoundForceFoot     Moment = Moment(Foot) * Moment(PoundForce)

	KilogramPerMetre LinearDensity = 1
	GramPerMetre     LinearDensity = 0.001
	PoundPerFoot     LinearDensity = LinearDensity(Pound) / LinearDensity(Foot)

	Percent Share = 0.01
)

// Weight is the force of gravity on m.
func (m Mass) Weight() Force { return Force(float64(m) * Gravity) }

// Radians is d as radians, for a trigonometric function only: a plan keeps
// degrees.
func (d Degrees) Radians() float64 { return float64(d) * math.Pi / 180 }

// SinCos are the sine and the cosine of d, exact at quarter turns.
func (d Degrees) SinCos() (sin, cos float64) {
	x := math.Mod(float64(d), 360)
	switch x {
	case 0:
		return 0, 1
	case 90, -270:
		return 1, 0
	case 180, -180:
		return 0, -1
	case 270, -90:
		return -1, 0
	}
	return math.Sincos(x * math.Pi / 180)
}

// FromRadians is an angle of rad radians in degrees.
func FromRadians(rad float64) Degrees { return Degrees(rad * 180 / math.Pi) }

// Normal is d turned into [0, 360).
func (d Degrees) Normal() Degrees {
	r := math.Mod(float64(d), 360)
	if r < 0 {
		r += 360
	}
	if r >= 360 { // a tiny negative rounds up to the full turn
		r = 0
	}
	return Degrees(r)
}

// Turn is the smallest turn from d to e, in (-180, 180], clockwise positive
// when both are bearings.
func (d Degrees) Turn(e Degrees) Degrees {
	t := (e - d).Normal()
	if t > 180 {
		t -= 360
	}
	return t
}
