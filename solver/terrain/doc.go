// Package terrain is the ground and what stands on it, as geometry: heights,
// slopes, bearings, outlines, and what a straight line meets on its way.
//
// # Model and its limits
//
// The ground is one plane through the origin. Places are map coordinates:
// horizontal metres, so that a length along the slope is longer by 1/cos of the
// slope along it. A footprint on a slope is drawn without that foreshortening.
// Heights above ground are vertical. A line is straight: its sag is not counted,
// and it makes contact where its plan crosses an outline and it is not higher
// there than the obstacle by 0.1 m (ours). An obstacle of unknown height is as
// high as any line, and a trunk is. Outlines are simple polygons; plan.Validate
// sees to it.
//
// # Axes and units
//
// x east, y north, z up, metres. Bearings are degrees clockwise from north. Bare
// floats in inner loops are metres, or shares t of a segment from 0 at its first
// end to 1 at its second.
//
// # The smallest example
//
//	bodies := terrain.Bodies(&site)
//	line := terrain.Line{A: fairlead, B: point, Ends: [2]plan.ID{"V2", "V1"}}
//	c := bodies[0].Bears(&ground, &line) // c.Touches: it bears on it, from c.From to c.To
package terrain
