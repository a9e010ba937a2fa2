// Package survey reads what was measured on the ground, GPX, GeoJSON or a list
// of coordinates (CSV), and puts it on a plan's plane: points, outlines, and
// notes of all that was assumed on the way. It is pure: bytes in, values out.
//
// # Axes and units
//
// As in a plan: x east, y north, z up, metres. Latitude and longitude are
// degrees on the WGS 84 ellipsoid, north and east positive. They are laid on the
// plane that touches the ellipsoid at an origin in their middle; distances up to
// 2 km from it are true to 1e-6 on the ellipsoid. On ground h above it they come
// out too short by h/R, 8 mm in 50 m at 1000 m. Heights are kept as the file
// gives them, above whatever it counts from, and bend nothing.
//
// Plain coordinates are taken as metres, the first of two as east, unless the
// file names its columns. Large ones (a national grid) are moved to the middle
// of the points; the grid is not turned or scaled.
//
// # Limits
//
// At most MaxBytes, plan.MaxSurveyPoints points, and Reach from the origin.
// Other reference systems than WGS 84 are refused, never guessed. A row of a list
// that cannot be read is left out and said in a note; more than half of them is
// a refusal. Every error is a refusal, which package words can say.
//
// The smallest use:
//
//	r, err := survey.Read("moss.gpx", data, survey.Options{})
//	p.Site.Survey = r.Survey(w.Refusal)
package survey
