// Package zone draws the ground where nobody stands, says who stands in it,
// and computes what a parting line lets go.
//
// # Model
//
// Eight kinds of ground, each from plain geometry and one rule of the handbook:
//
//	recoil     sectors of 10° either side along each stretch and past its far
//	           end by all of the running line loaded at that end
//	bight      the ground enclosed by a bent line
//	release    a sector of 20° either side of the resultant on a block
//	stand-off  a ring round the ends, 2, 1.5 or 1 times the line out
//	tree       one and a half heights within 45° of the pull, and the crown
//	roll-away  downhill of the casualty; beside one that is set upright
//	casualty   what its body covers on its way, with its lurch, and 2 m
//	slide path before a vehicle that may slide
//
// A person is a disc of 0.5 m and the doubt of the place; touching is inside. A
// place that can be left only through a zone is inside as well.
//
// Nothing shrinks a zone: no damper, no line of low stretch, no low or unknown
// tension. A stretch nobody could solve has its zones all the same. Round
// edges are drawn as polygons that contain the true arc.
//
// # Limits
//
// No published angle exists for land winching: the recoil sector is mooring
// practice, the rest largely judgement, and every zone carries the id of its
// rule. Zones are plan views on the ground; what flies may fly further, and
// over things. Cover is judged in plan as well, by its height alone: a line that
// runs high is not told from a low one. "Outside the drawn zones" is all that is ever said.
//
// # Axes and units
//
// x east, y north, metres; outlines counter-clockwise, not closed by repeating
// the first corner. SI as plain float64 with the unit in the name.
//
// # The smallest use
//
//	zs := zone.Zones(zone.Input{Lines: lines}, &found)
//	at := zone.People(zone.PeopleIn{People: site.People, Zones: zs}, &found)
package zone
