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

// Gravity is the standard acceleration of free fall, m/s², exact by the
// definition of the 3rd CGPM (1901), kept in ISO 80000-3.
const Gravity = 9.80665

// Units as multiples of the SI unit. The inch (0.0254 m) and the avoirdupois
// pound (0.45359237 kg) are exact by the international yard and pound
// agreement of 1959; pound-force and kilogram-force follow with [Gravity].
const (
	Metre      Length = 1
	Centimetre Length = 0.01
	Millimetre Length = 0.001
	Foot       Length = 0.3048
	Inch       Length = 0.0254

	Kilogram Mass = 1
	Tonne    Mass = 1000
	Pound    Mass = 0.45359237
	ShortTon Mass = 2000 * Pound
	LongTon  Mass = 2240 * Pound

	Newton        Force = 1
	Kilonewton    Force = 1000
	KilogramForce Force = Gravity
	PoundForce    Force = Force(Pound) * Gravity
)

// Weight is the force of gravity on m.
func (m Mass) Weight() Force { return Force(float64(m) * Gravity) }

// Radians is d as radians, for a trigonometric function only: a plan keeps
// degrees.
func (d Degrees) Radians() float64 { return float64(d) * math.Pi / 180 }

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
