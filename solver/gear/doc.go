// Package gear says what the pieces between winch and anchor may be asked for
// as they are rigged: lines, slings, blocks, rings, shackles, recovery points,
// the winch on the layer its rope is on.
//
// # Model
//
// Each part has two numbers and they are never mixed. Its limit is the load it
// may be asked for, on a named basis: half of breaking strength for a winch
// line, a third for blocks, the working tag for slings and shackles. Its
// ultimate is the load at which it gives: breaking strength, or the tag times
// the factor of its standard. Limits and ultimates are stated as the force on
// the part as rigged, so that they can be compared with its load: the angle of
// a sling's legs, a choke, a pull off line, a bend, a knot, wear and wet are
// in the limit, not in the load.
//
// What is not known lowers, never raises: a rating whose meaning is not said
// counts as breaking strength; no rating, no kind, no material, no state means
// no limit at all, said by a finding. Gear that cannot be (a sheave smaller
// than its line, a negative rating) gets a finding and the rest is computed.
//
// # Limits of the model
//
// Static loads. Wear, heat and chafe are words, not numbers. Bending of the
// line on the drum and at the fairlead is not counted, nor are the bolts of a
// recovery point. Kinetic pulls are not computed.
//
// # Shape
//
// One function a rule: func X(in XIn, derivation *part.Derivation, found *[]part.Finding).
// With a nil sum nothing is recorded, with a nil found nothing is raised; a
// call that finds nothing allocates nothing. [Rules] lists every finding.
//
// # Axes and units
//
// SI. Floats carry their unit in their name; angles are degrees.
//
// # The smallest example
//
//	r := gear.SlingRound(0.24, 3, plan.HitchBasket) // apex 1.097 m from the middle, legs open 25.3°
//	cap := gear.Sling(gear.SlingIn{Sling: s, Round: r, OnTrunk: true, Load: 36900}, nil, &found)
package gear
