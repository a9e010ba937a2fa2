package sheet

import (
	"strconv"

	"kedge/solver/refusal"
)

// mostShown is how much of an option a refusal shows, in characters.
const mostShown = 60

// written is a figure as an option writes it.
func written(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// How a sheet is refused that nothing of the plan can help. What can be helped on
// the sheet says so in its own texts.
var (
	noPlan      = refusal.Of(ErrEmpty, "sheet-no-plan")
	noPages     = refusal.Of(ErrEmpty, "sheet-no-pages")
	noPage      = refusal.Of(ErrOption, "sheet-no-page", "page", "pages")
	badPicture  = refusal.Of(ErrOption, "sheet-picture", "cause")
	noSheet     = refusal.Of(ErrOption, "sheet-no-sheet", "name", "all")
	noPaper     = refusal.Of(ErrOption, "sheet-no-paper", "name", "all")
	noPaperSize = refusal.Of(ErrOption, "sheet-no-paper-size", "width", "height")
	noScale     = refusal.Of(ErrOption, "sheet-no-scale", "scale")
	noRig       = refusal.Of(ErrOption, "sheet-no-rig", "rig")
	noDPI       = refusal.Of(ErrOption, "sheet-no-dpi", "dpi")
	noVariants  = refusal.Of(ErrOption, "sheet-no-variants", "n", "most")
	badEnding   = refusal.Of(ErrEnding, "sheet-ending")
	largeFilm   = refusal.Of(ErrTooLarge, "sheet-film-large")
	filmEnding  = refusal.Of(ErrEnding, "sheet-film-ending")
	noPull      = refusal.Of(ErrEmpty, "sheet-no-pull")
	noRate      = refusal.Of(ErrOption, "sheet-no-rate", "rate")
	noWidth     = refusal.Of(ErrOption, "sheet-no-width", "width", "least", "most")
	largeClass  = refusal.Of(ErrOption, "sheet-large-class", "n", "most")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	noPlan, noPages, noPage, badPicture, noSheet, noPaper, noPaperSize, noScale, noRig, noDPI, noVariants,
	badEnding, largeClass, largeFilm, filmEnding, noPull, noRate, noWidth,
}
