package gear

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ContactIn is a line that runs over a trunk, rock or edge.
type ContactIn struct {
	Line  plan.ID
	Thing plan.ID          // what it runs over
	Wrap  quantity.Degrees // how far it turns there
}

// Contact is the tension behind a line's contact with a trunk or rock over the
// tension before it, e^(−μ·wrap) with the high end of μ [ours]; it chafes
// there, which is said and not computed. ok is false for a wrap that cannot be.
func Contact(in ContactIn, found *[]part.Finding) (ratio float64, ok bool) {
	ratio = Wrap(BareFriction(), in.Wrap)
	if !(ratio > 0) {
		return 0, false
	}
	if float64(in.Wrap) >= leastTurn {
		raise(found, "line-chafes", part.Caution, at{thing: in.Line}, &part.Remedy{Do: "block-at-bend", Thing: in.Line},
			part.Number("wrap", part.UnitAngle, in.Wrap), part.Number("ratio", part.UnitShare, ratio))
		with(found, in.Thing)
	}
	return ratio, true
}
