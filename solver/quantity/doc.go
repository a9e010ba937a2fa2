// Package quantity holds the physical quantities of a pull as small value
// types, and parses and prints them in the units people use.
//
// Every type is a float64 in the SI unit named in its first sentence, except
// [Degrees], which stays in degrees because a file keeps angles in degrees and
// a trip through radians would change the digits. The zero value of a length,
// mass or force that cannot be zero in the field (a trunk, a rating) means
// "not known"; the types themselves do not know which is which, the plan does.
//
// Axes of the whole program: x east, y north, z up, metres. Bearings are
// degrees clockwise from north; angles inside the statics are
// counter-clockwise from +x and never leave it.
//
// Reading: a bare number takes the unit of the [System] or of the field; . and
// , are both decimal signs; one of them before exactly three digits is refused
// with both readings offered, unless the digits before it cannot be thousands
// (0.125, 2450.125); spaces, thin and no-break ones too, part thousands, and so
// does an apostrophe where it cannot mean feet; a bare ton is refused. What is
// refused comes back as a [ParseError]: what is wrong, where, and what to type instead.
//
// Printing: every Format function gives a [Text], figure and unit apart. See
// [As] for the rounding. What is not finite prints as "not computed".
//
// The smallest example:
//
//	f := 12.5 * quantity.Kilonewton
//	m, err := quantity.ParseMass("2.45 t", quantity.Metric)     // 2450 kg
//	s := quantity.FormatForce(f, quantity.Metric, quantity.AsLoad) // 12.5 kN
package quantity
