package board

import (
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// presetSlingM is the length of a sling nobody chose.
const presetSlingM = layout.PresetSling

// slingToReach is the length of a basket that reaches so far from the middle of
// a trunk: the inverse of [layout.SlungReach].
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

// settleNew writes where the blocks of the draft's rig settle as their drawn
// places, for those that are new: a block whose place nobody chose.
func settleNew(sc *scene, d plan.Draft) {
	old, _ := sc.plan.Rig(sc.rig)
	layout.Settle(d, func(block plan.ID) bool {
		if old == nil {
			return true
		}
		_, was := old.Block(block)
		return !was
	})
}

// lengthBetween is the shortest kit length that spans two points, or their
// distance if none does.
func lengthBetween(distM float64) quantity.Length {
	for _, l := range layout.KitLengths() {
		if float64(l) >= distM {
			return l
		}
	}
	return quantity.Length(stepped(distM+0.05, 0.1))
}

// kitText is a length of the kit as it is sold, "3 m".
func kitText(sc *scene, l quantity.Length) string {
	if sc.words.System().Length() != quantity.InMetres {
		return sc.words.Length(l)
	}
	return sc.words.Decimal(float64(l), -1) + " " + quantity.InMetres.String()
}
