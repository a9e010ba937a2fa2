// Package layout lays rigs: pieces of a kit hung where a line is to run, and
// rigs proposed round obstacles.
//
// [Kit] copies new pieces from a gear list and marks as presets what nobody has
// read from a tag. [Kit.Hang] gives a line a block to run over at a tree, a
// boulder or a point, [Kit.EndAt] an end. The drawing board lays rigs by the
// same functions, so that a rig proposed is the rig drawn by hand.
//
// [Propose] is what else could be rigged on a site: the straight pull, a
// redirect over each anchor, over two anchors one after the other where one is
// not enough, and the doubled line where a single one asks more of the winch
// than its limit. Each candidate is a whole plan with one more rig, judged by
// [solver.Assess] itself: there are no figures of a shorter way of computation.
// What is left out says why, with figures.
//
// # Model and limits
//
// Figures are those as drawn, before the casualty moves. The best ways are looked
// at again at each metre of the way out, the casualty moved straight along it:
// how far they stay ways is told, and those that last come first; what the loads
// become on the way is not. Of several lines the
// first that starts at a winch is led anew; the others stay. Pieces are the
// kit's presets; nothing is counted in stock. At most [MaxTried] rigs are
// judged, those of the shortest way first, and the answer says how many were
// not. No clock, no chance: the same plan gives the same ways in the same order.
//
// # Axes and units
//
// Metres, x east, y north, z up; bearings degrees clockwise from north; forces
// newtons.
//
// # The smallest example
//
//	kit, err := facts.StarterGear()
//	found := layout.Propose(p, "R1", kit)
//	for _, way := range found.Ways {
//		fmt.Println(way.Kind, way.Over, way.Answer.Move.Tension)
//	}
package layout
