package window

import (
	"fmt"

	"kedge/solver/refusal"
)

// How a [PictureClipboard] refuses a picture.
var (
	NoPictureClipboard = refusal.Of(nil, "window-no-clipboard")
	PictureNotTaken    = refusal.Of(nil, "window-not-taken")
	notDone            = refusal.Of(nil, "window-not-done", "why")
)

// broken is the refusal of work that has panicked.
func broken(why any) error { return notDone.At("", fmt.Sprint(why)) }

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	NoPictureClipboard, PictureNotTaken, notDone,
}
