// Package panel is what panels of a window are made of: a pane drawn with a pen,
// what can be pressed in it, an entry, a divider, a question, a chooser of files,
// and the worker that draws.
//
// # Model
//
// A [Pane] asks on the interface goroutine for a function that draws it from
// values that do not change, and has the worker call it twice: once on a pen that
// sums up what it is given, and, if that is not what was drawn last, once more on
// a picture. What can be pressed ([Hit]) is listed while drawing; pointer and keys
// walk that list. Arrows or Tab go from one to the next, Enter presses.
//
// The window is known by [Host] alone.
//
// # Units
//
// Lengths are logical pixels, x right, y down; [Drawing.Px] makes them from those
// of desk size.
package panel
