package board

import (
	"kedge/solver/facts"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Items of the gear list that new vehicles are copied from; what rigs are laid
// of is in package layout.
const (
	itemCasualty facts.ID = "casualty-pickup"
	itemPuller   facts.ID = "winch-truck"
	itemWinch    facts.ID = "winch-40kn"
)

// Presets that are no gear. They are marked as presets in the plan, so that
// whoever reads a figure is told that nobody has measured them.
const (
	presetPointN       = 40 * quantity.Kilonewton // of a recovery point, working (ours: a round figure to be overruled by the tag)
	presetPointHeight  = 0.6                      // metres above ground (common practice)
	presetPointAside   = 0.45                     // metres from the middle line to the point beside a fairlead (ours)
	presetWayM         = 6                        // metres of way out (ours: a little more than the vehicle's length)
	presetRatedN       = 40 * quantity.Kilonewton // of a rated point on the ground, working (ours)
	presetDeadmanM     = 1.0                      // mean depth of a deadman, metres (common practice)
	presetLogM         = 1.5                      // its log
	presetLogDiameterM = 0.2
	presetLayout       = "1-1"
)

// gear is the kit that rigs are laid from.
func (sc *scene) gear() layout.Kit { return layout.Kit(sc.kit) }

// ratingText is a rating as hook-on points show it.
func ratingText(sc *scene, r plan.Rating) string {
	if !r.Known() {
		return sc.label("no-rating")
	}
	return sc.words.Value(part.Value{Unit: part.UnitLimit, X: float64(r.Force)}, nil)
}
