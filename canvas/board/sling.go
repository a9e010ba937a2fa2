package board

import (
	"slices"
	"strconv"

	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// presetSlingM is the length of a sling nobody chose. (common practice)
const presetSlingM quantity.Length = 3

// slingFor is the shortest kit sling of at least that length which closes round
// a trunk and opens under 60°; the longest there is if none does. Round a trunk
// whose thickness is not known it is the length itself.
func (b *Board) slingFor(radius, least quantity.Length) quantity.Length {
	if radius <= 0 {
		return max(least, presetSlingM)
	}
	for _, l := range kitLengths {
		if l < least {
			continue
		}
		if r := gear.SlingRound(radius, l, plan.HitchBasket); r.Closes && r.Opens < opensMost {
			return l
		}
	}
	return kitLengths[len(kitLengths)-1]
}

// slungReach is how far from the middle of the trunk, or from the point it is
// hooked to, a sling holds what hangs on it.
func slungReach(s *plan.Sling, radius quantity.Length) quantity.Length {
	if radius <= 0 {
		return s.Length
	}
	return gear.SlingRound(radius, s.Length, solver.Hitch(s, true)).Reach
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
	if d.rig == nil {
		return
	}
	old, _ := b.plan.Rig(b.rig)
	if !slices.ContainsFunc(d.rig.Blocks, func(k plan.Block) bool {
		if old == nil {
			return true
		}
		_, was := old.Block(k.ID)
		return !was
	}) {
		return
	}
	a := solver.Assess(d.Plan, d.rig.ID)
	if a.Why != "" && len(a.Nodes) == 0 {
		return
	}
	for i := range d.rig.Blocks {
		k := &d.rig.Blocks[i]
		if old != nil {
			if _, was := old.Block(k.ID); was {
				continue
			}
		}
		for j := range a.Nodes {
			if n := &a.Nodes[j]; n.Thing == k.ID && !n.Loose {
				if at := rounded(flat(n.At), fineM); finite(at) {
					k.At = at
				}
			}
		}
	}
}

// lengthBetween is the shortest kit length that spans two points, or their
// distance if none does.
func (b *Board) lengthBetween(distM float64) quantity.Length {
	for _, l := range kitLengths {
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
