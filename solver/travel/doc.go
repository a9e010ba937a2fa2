// Package travel follows the whole pull: a rig at every place of the casualty's way,
// what happens on it and where, and the largest load of every part.
//
// # A rig of a plan
//
// [Assess] asks [solver.Assess] at place after place, as one would who draws the
// casualty there, and joins the moments into one answer. Between them [Happening]s are
// found on the figures of a prepared rig, which are those of Assess to the bit and cost
// a tenth: a part over its limit, another layer on the drum, a damper or joint at a block
// or the fairlead, a sling gone slack, a sheave that turns round, the pull far off the
// way. Where layers, slings or sheaves change, loads and limits step, so a moment is
// added on each side. The pull ends where the rig is refused, the casualty meets
// something, a line has become too short or two blocks meet; nothing is said of the way
// beyond. A sheave is taken to turn as the balance of each place alone says.
//
// A casualty that nothing guides ([effort.Dragged]) does not go its drawn way: it is
// followed where the pull on it at each place drags it, as below, and its pull along
// the drawn way is computed beside it, for what is worse there.
//
// # A rig of numbers
//
// A [Course] is the same with nothing of the trade in it: points, lines, slings, a motion
// and what resists it. [Rows] computes it at places, [Events] finds what happens on it.
// The reference cases are courses. What follows is how they are computed.
//
// # A guided pull needs no integration
//
// A casualty that goes straight or along an arc is, s metres along, where geometry
// says. With lines and slings that do not stretch the balance does not depend on the
// tension, so one solve at a tension of one gives everything at s: with F the pull of
// the lines on its points and v = d(point)/ds, the needed tension is
//
//	T(s) = R(s) / Σ F·v           (letting down: T = H / −Σ F·v, ratios 1/η)
//
// Line paid in is L(0) − L(s), never the sum of rates, so nothing drifts and any place
// can be solved at once, in any order. A grid serves only to bracket what happens
// between its places. The steps and knots of the resistance are cuts: values are taken
// on both sides of one, and nothing is bracketed across it.
//
// # What happens
//
// Everything watched for is a value that passes a level: what is on the drum and the
// ends of its layers, a load and its limit, the line beyond a block and the place of a
// join, a distance and a gap. A change of sign between two places is closed by false
// position; where three places suggest that the value touches the level between them,
// it is looked for there. Changes of state are found first and are cuts themselves:
//
//   - A sling goes slack where its tension falls to zero, and tightens where it
//     reaches its length.
//   - A sheave turns round where the line behind it no longer changes its length. From
//     there on its ratio is 1/η for η; loads step. If it then would run the way it came
//     from, it sticks: the line behind it keeps its length and its ratio is what balance
//     asks, until that is at an end of [η, 1/η].
//   - Where Σ F·v falls to zero the line is abeam. T grows like 1/(s_a − s) before;
//     beyond, the line pushes, and rows have lengths and no forces.
//   - Another layer gives the winch another pull, so that its share steps.
//
// The largest load is the best of the grid, of both sides of every cut, and of the
// flat tops between, found where the difference quotient changes its sign.
//
// # A free casualty
//
// One that nothing guides goes where its contacts give at the least tension
// ([statics.LimitSurface]; of a plan [effort.Drag]). Its place and yaw are integrated along the way of its
// reference point by Runge and Kutta's fourth order in steps of 0.25 m; places between
// are reached by one shorter step, never by interpolation.
package travel
