// Package quantity holds the physical quantities of a pull as small value
// types, and parses and prints them in the units people use.
//
// Every type is a float64 in the SI unit named in its first sentence, except
// [Degrees], which stays in degrees because a file keeps angles in degrees and
// a trip through radians would change the digits. The zero value of a length,
// mass or force that cannot be nought in the field (a trunk, a rating) means
// "not known"; the types themselves do not know which is which, the plan does.
//
// Axes of the whole program: x east, y north, z up, metres. Bearings are
// degrees clockwise from north; angles inside the statics are
// counter-clockwise from +x and never leave it.
//
// The smallest example:
//
//	f := 12.5 * quantity.Kilonewton
//	m, err := quantity.ParseMass("2.45 t") // 2450 kg
package quantity
