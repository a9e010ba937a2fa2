package window

import "kedge/solver/refusal"

// How a [PictureClipboard] refuses a picture.
var (
	NoPictureClipboard = refusal.Of(nil, "window-no-clipboard")
	PictureNotTaken    = refusal.Of(nil, "window-not-taken")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	NoPictureClipboard, PictureNotTaken,
}
