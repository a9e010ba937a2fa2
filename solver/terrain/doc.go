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
// there than the obstacle by [PassOver]. An obstacle of unknown height is as
// high as any line. Outlines are simple polygons; plan.Validate sees to it.
//
// # Axes and units
//
// x east, y north, z up, metres. Bearings are degrees clockwise from north,
// angles of statics counter-clockwise from +x; this package is where one becomes
// the other. Bare floats in inner loops are metres, or shares t of a segment from
// 0 at its first end to 1 at its second.
//
// # The smallest example
//
//	shape := terrain.NewShape(&obstacle)
//	c := shape.Contact(a, b) // c.Touches: the line a–b bears on it, from c.From to c.To
package terrain
