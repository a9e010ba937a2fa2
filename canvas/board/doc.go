// Package board is the drawing board without a screen: a state machine that
// turns pointer, keys and commands into edits of a plan.
//
// # Model
//
// One [Board] holds the scene (the current plan, the rig shown, what is selected,
// the view, the words), the undo list, the tool that is armed, the gesture in
// progress and the open question. [Board.Handle] takes one [Event]; afterwards the caller reads
// the plan as it is ([Board.Plan]) and as it is shown ([Board.Shown], which
// holds the preview of a gesture), the answer for what is shown
// ([Board.Answer]) and what the board adds to the picture ([Board.Overlay]).
//
// A gesture is one function from the place of the pointer to an outcome. While
// the pointer moves its outcome is shown, when it is let go the outcome of the
// same function is taken: what was previewed is what is kept, to the digit. One
// thing is shown that is never kept: what a stretch bent over open ground would
// carry if something held it there; the status line says that nothing does. The
// keyboard drives the same functions through a crosshair.
//
// Every edit is one undo step with a name. Undo hands back the very plan that
// was there before, so any gestures followed by as many undos give the same
// bytes. Plans are values: nothing here changes a plan that was handed out.
//
// # Limits
//
// A Board belongs to one goroutine. It draws nothing, reads no files and knows
// no clock. What it computes it asks of package solver.
//
// # Axes and units
//
// Pointer places are pixels of the view, y down; plan places metres, x east, y
// north; bearings degrees clockwise from north. Distances at the pointer (hit
// radius, snapping) are logical pixels.
//
// # The smallest example
//
//	b, err := board.New(nil, board.Options{})
//	b.Handle(board.Resize{W: 1440, H: 900})
//	b.Handle(board.Rune{R: 'v'})
//	b.Handle(board.PointerDown{X: 200, Y: 400})
//	b.Handle(board.PointerUp{X: 200, Y: 400})
//	p := b.Plan() // one vehicle, to be moved
package board
