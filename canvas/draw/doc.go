// Package draw makes a picture of a [Scene] on a pen: the site and the rig to
// scale, every line with the pattern of its state, loads beside the things
// that carry them, zones with hatch and word, and what the board adds while it
// is used. It knows nothing of windows; a screen, a PNG, a PDF and a sheet of
// SVG are the same calls.
//
// # Two layers
//
// [DrawStatic] has the paper, grid, picture to trace, obstacles, survey,
// vehicles and anchors that are not being dragged, notes, measures, scale bar,
// north and slope. [DrawMoving] has the zones, the rig, people, arrows, labels
// and flags, the overlay and the things being dragged. [Draw] is one after the
// other. People are on the moving layer: whether one stands in a zone changes
// while something else is dragged. Names are there too, so that all labels
// make room for each other. Zones leave vehicles, trunks, lines, people and
// labels unhatched with 2 mm round them, so that they may be drawn after them,
// a number be read and a protractor be laid; their edges break where letters lie
// on them.
//
// # Labels
//
// All labels have their places before anything is drawn. What matters most is
// placed first. None covers another, a person or, but for a warning that finds
// nothing else, a vehicle: where there is no room it shows a shorter text, is
// pushed off with a leader, and last of all is left out; then the picture says
// how many are. A label keeps its place while its thing stands still: wholly
// while something is held or merely pointed at, else as long as its place is a
// good one. One put somewhere by hand stays there, whatever it covers.
//
// # Units and limits
//
// Places of a plan are metres, x east and y north; a [View] maps them to pen
// units, y down. Sizes of symbols, letters and strokes are logical pixels times
// [View.UnitsPerPx]. Things are true to size but never smaller than a least
// symbol. Only the plan view is drawn: heights show as text. All functions are
// pure: the same scene gives the same marks; only [Labels] remembers, so that
// labels keep their places.
//
//	s := &draw.Scene{Plan: p, Rig: "R1", Answer: answer, Words: w}
//	if box := draw.Bounds(p, answer); !box.IsEmpty() {
//		s.View = draw.Fit(box, 1400, 900, 60)
//	}
//	draw.Draw(raster, s)
package draw
