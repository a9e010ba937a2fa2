// Package effort reckons what it takes to move the casualty, whether the
// puller or a vehicle used as an anchor moves first, and what happens once the
// casualty comes free.
//
// # Model
//
// Resistance is the force along the way out that just moves the casualty. It
// comes from three sets of rules side by side (physics, handbook, common
// practice) and is a range that is never narrower than physics to handbook. A
// rule set that cannot answer says so with a word id; nothing not known is
// ever taken as nothing.
//
//	physics   R = Σ_turning N·c + Σ_locked μ·N + W·sin a
//	handbook  W × 1 / 2 / 3 for hub / chassis / body depth
//	common    W × a fraction of the surface
//
// A standing vehicle is four contacts on a plane. The load on each axle
// follows the line's pull, so the least line tension that makes it slide is
// solved together with the loads ([PullerHold]); pulls across it or off its
// middle go through the limit surface of the contacts, yaw included.
//
// # Limits
//
// Quasi-static: kinetic pulls are refused, the jump at breakaway is a text and
// no load. Suspension, tyre give and soil failing under a wheel are left out.
// Left and right wheels of an axle are taken as loaded alike; tipping sideways
// is its own check ([Tipping]). Own drive of the casualty is never counted.
//
// # Axes and units
//
// SI as plain float64 with the unit in the name, angles in degrees. Vehicle
// axes are x ahead, y left, z up from the ground plane; places count from the
// middle of the footprint. Falls are positive where the ground falls toward
// the direction named. W is mass times [quantity.Gravity].
//
// # Every rule
//
// takes a *part.Sum that may be nil (nothing is recorded) and a *[]part.Finding
// that may be nil (nothing is raised); [Rules] lists what can be raised.
//
// # The smallest use
//
//	res := effort.Resistance(effort.ResistanceIn{Vehicle: casualty, Ground: &site.Ground}, nil, &found)
//	if res.Known { _ = res.High }
package effort
