// Package hold says what anchors hold: trees, picket holdfasts, deadmen,
// boulders, ground screws, rated points, braked vehicles.
//
// # Model
//
// A hold is an ultimate, a range. The limit is its low end ÷ 3 (lifting ÷ 5)
// [ours]; a tree also keeps to D²/30 kN, which is a working load already. An
// anchor set for one direction has a side-load: the part of its load across
// it. A free tree has none.
//
//	tree     0.65 [ours] · min(C·stem mass, knot·MOR·π·d³/32) / height of the strap, at least 1 m
//	pickets  table by layout × soil
//	deadman  table by mean depth and slope of the line × face × soil
//	boulder  μ·W at most, less where the line lifts
//	screw    what it was tested to, along its axis
//	rated    its tag
//	vehicle  the line that makes it slide or tip, from the caller
//
// What is not known lowers, never raises, and is named: unknown soil is the
// lowest column, unknown species the lowest of each figure, and a tree of unknown
// health, a boulder of unknown weight or on a slope nobody entered, pickets in
// soil nobody named, a layout the tables lack have no hold at all. A tree's
// thickness is its girth 1.3 m up, or 0.8 of its diameter at the strap.
//
// # Limits of the model
//
// Tables are not read outside what they print. Frost, drought, root damage,
// a bank's edge, ropes that climb the trunk and shaking loads are not in the
// numbers. The tree figures are means of pulled trees, about which single trees
// scatter widely; no band is printed with them.
//
// # Axes and units
//
// SI; x east, y north, z up; loads are what the anchor takes. Floats carry
// their unit in their name.
//
// # The smallest example
//
//	c := hold.Anchor(hold.In{Anchor: a, Load: r3.Vector{X: 12e3}, Height: 0.6}, nil, &found)
package hold
