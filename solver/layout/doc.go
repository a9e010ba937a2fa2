// Package layout lays rigs: pieces of a kit hung where a line is to run, and
// rigs proposed round obstacles.
//
// [Kit] copies new pieces from a gear list and marks as presets what nobody has
// read from a tag. [Kit.Hang] gives a line a block to run over at a tree, a
// boulder or a point, [Kit.EndAt] an end. The drawing board lays rigs by the
// same functions, so that a rig proposed is the rig drawn by hand.
//
// # Axes and units
//
// Metres, x east, y north, z up; bearings degrees clockwise from north.
package layout
