// Package effort computes what it takes to move the casualty, whether the
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
// What breaks it loose is a range of its own: k times what wheels roll and sink
// in, the slope and what is dragged once, the handbook's pulls as they are (see
// breakaway.go). It is asked for at the start and at every restart.
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
// is its own check ([Tipping]), as is whether it stands at all ([Stands]). Own drive of the casualty is never counted.
//
// # Axes and units
//
// SI as plain float64 with the unit in the name, angles in degrees. Vehicle
// axes are x ahead, y left, z up from the ground plane; places count from the
// middle of the footprint. Falls are positive where the ground falls toward
// the direction named. W is mass times [quantity.Gravity].
//
// # What is missing
//
// is not decided: a rule that lacks one of its inputs says so by
// [part.NotDecided], and speaks all the same where the answer does not hang on
// it: a weight that cancels, a height that the roof bounds, a brake beside
// chocks. Without the slope the figures are those of level ground.
//
// # Every rule
//
// takes a *part.Derivation that may be nil (nothing is recorded) and a *[]part.Finding
// that may be nil (nothing is raised); [Rules] lists what can be raised.
//
// # The smallest use
//
//	res := effort.Resistance(effort.ResistanceIn{Vehicle: casualty, Ground: &site.Ground}, nil, &found)
//	if res.Known { _ = res.High }
package effort
