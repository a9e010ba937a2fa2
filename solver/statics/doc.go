// Package statics finds the equilibrium of a rig of running lines, blocks,
// rings, slings and bridles: numbers only, in three dimensions.
//
// # Model
//
// Points are fixed, carried by a body whose place is given, or free. A line is
// a path of points listed from the hauling end; every inner point of the path
// is a visit of a sheave or ring there, and the tension behind it is its ratio
// times the tension before it. A drum line has a given tension; any other line,
// and every sling, is a length that may go slack but not longer than it is
// (or only as its compliance allows). Free points move until the forces balance:
//
//	sum over stretches (+-) t w u + f = 0,   0 <= t  _|_  L0 + c t - L >= 0
//
// with w the product of the ratios passed. For given ratios this is the
// minimum of a convex function, found by a primal-dual Newton method with a
// damped continuation behind it; README.md has the derivations. A point may be
// visited several times, by several lines; points may share a place; a fixed or
// carried point inside a path is a block made fast directly.
//
// Which way the line runs over each sheave is found, not assumed: all haul,
// solve, take the rate of the tail for the intended motion, turn the worst
// violator, and hold (stick) what turns twice, letting it go again when it
// would need more friction than it has.
//
// # Limits
//
// Sheave radius, weight and sag of line, ground contact of blocks and dynamics
// are left out. Bodies stand where they are drawn: their own equilibrium is for
// the caller ([LimitSurface] gives the least tension that drags tyres). Where a
// sheave's motion is not determined the result says so (Visit.Determined) and
// gives the interval its ratio may lie in.
//
// # Answers
//
// Every [Result] has a [Status]. Only Converged and Slack come with forces; in
// every other case forces, moments and advantages are NaN and the flags name
// the things at fault. The balance of forces is summed again from the answer and
// its residual is part of the result.
//
// # Axes and units
//
// SI throughout as plain float64: metres, newtons, newton metres, radians
// unless a name says Deg. Right-handed axes, z up, angles counter-clockwise
// from +x. A rig in one plane needs nothing special: a line or sling under
// tension holds a point in the plane as a string is held straight. Coordinates
// may be large (survey grids): a local origin is taken off inside.
//
// # Smallest use
//
//	var s statics.Solver
//	var out statics.Result
//	if st := s.Solve(&rig, &out); st.HasForces() {
//		_ = out.Points[anchor].ForceN
//	}
//
// A Solver is a workspace owned by one goroutine; it and the slices in a Result
// are used again, so a solve allocates nothing once both have grown.
package statics
