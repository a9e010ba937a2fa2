package board

import (
	"strconv"

	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// presetSlingM is the length of a sling nobody chose.
const presetSlingM = layout.PresetSling

// slingFor is the shortest kit sling that suits a trunk; see [layout.SlingFor].
func (b *Board) slingFor(radius, least quantity.Length) quantity.Length {
	return layout.SlingFor(radius, least)
}

// slungReach is how far from the middle of the trunk, or from the point it is
// hooked to, a sling holds what hangs on it.
func slungReach(s *plan.Sling, radius quantity.Length) quantity.Length {
	return layout.SlungReach(s, radius)
}

// slingToReach is the length of a basket that reaches so far from the middle of
// a trunk: the inverse of [slungReach].
//
//	legs open 2·arcsin(r/a), length by gear.SlingLength
func slingToReach(radius quantity.Length, reachM float64) quantity.Length {
	if radius <= 0 {
		return quantity.Length(reachM)
	}
	if reachM <= float64(radius) {
		return 0
	}
	return gear.SlingLength(radius, opensAt(radius, reachM))
}

// settle writes where the blocks of the draft's rig settle as their drawn
// places, for those that are new: a block whose place nobody chose.
func (b *Board) settle(d draft) {
	old, _ := b.plan.Rig(b.rig)
	layout.Settle(d.laid(), func(block plan.ID) bool {
		if old == nil {
			return true
		}
		_, was := old.Block(block)
		return !was
	})
}

// lengthBetween is the shortest kit length that spans two points, or their
// distance if none does.
func (b *Board) lengthBetween(distM float64) quantity.Length {
	for _, l := range layout.KitLengths() {
		if float64(l) >= distM {
			return l
		}
	}
	return quantity.Length(stepped(distM+0.05, 0.1))
}

// kitText is a length of the kit as it is sold, "3 m".
func (b *Board) kitText(l quantity.Length) string {
	if b.words.System().Length() != quantity.InMetres {
		return b.words.Length(l)
	}
	return quantity.Text{Number: strconv.FormatFloat(float64(l), 'f', -1, 64), Unit: quantity.InMetres.String()}.String()
}
