// Package window is Kedge on a screen: panels, menus and questions round the
// board. Everything that can be decided without a screen is decided elsewhere:
// board edits, words speaks, draw draws, store keeps files.
//
// # Model
//
// A [Window] owns one [board.Board] on the interface goroutine. Every event is
// handed to it; then the board's picture and the panels are drawn again by a
// [panel.Worker] from values that do not change (plan, answer, overlay), and
// swapped in on the interface goroutine. Each panel is a type of its own, with the
// [panel.Pane]s it draws; the table of all panes is in layout.go.
//
// All panels are reached from the keyboard: F6 walks the regions, arrows or
// Tab walk what can be pressed in one, Enter presses, Escape returns to the
// board.
//
// # Limits
//
// The package builds and tests without cgo with Fyne's test driver; only
// cmd/kedge-board opens a real window. It has no travel strip: travel is not
// computed yet. Fyne's clipboard holds text alone: pictures of pixels go through
// [Options.Clipboard], SVG goes as text. The size of text is that of the panels;
// the picture has its own, larger in the field.
//
// # Units
//
// Places are logical pixels, x right, y down, as Fyne counts them.
//
// # The smallest example
//
//	w, err := window.New(app.NewWithID("kedge"), window.Options{File: "moss.kedge"})
//	w.ShowAndRun()
package window
