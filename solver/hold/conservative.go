package hold

import (
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// conservativeEnds take the end of a member's doubt with which an anchor holds less.
var conservativeEnds = map[string]func(*plan.Anchor, plan.Doubt){
	"rating.force_n": low(func(a *plan.Anchor) *quantity.Force { return &a.Rating.Force }),
	"girth_m":        low(func(a *plan.Anchor) *quantity.Length { return &a.Girth }),
	"trunk_m":        low(func(a *plan.Anchor) *quantity.Length { return &a.Trunk }),
	"height_m":       low(func(a *plan.Anchor) *quantity.Length { return &a.Height }),
	"mass_kg":        low(func(a *plan.Anchor) *quantity.Mass { return &a.Mass }),
	"depth_m":        low(func(a *plan.Anchor) *quantity.Length { return &a.Depth }),
	"log_length_m":   low(func(a *plan.Anchor) *quantity.Length { return &a.LogLength }),
	"log_diameter_m": low(func(a *plan.Anchor) *quantity.Length { return &a.LogDiameter }),
	"helix_m":        high(func(a *plan.Anchor) *quantity.Length { return &a.Helix }),
	"axis_rise_deg":  func(*plan.Anchor, plan.Doubt) {}, // both ends count, see screwAxis
	"hold_low_n": func(a *plan.Anchor, d plan.Doubt) {
		if x, known := a.HoldLow.Get(); known {
			a.HoldLow = plan.Known(min(x, quantity.Force(d.Low)))
		}
	},
}

func low[T ~float64](of func(*plan.Anchor) *T) func(*plan.Anchor, plan.Doubt) {
	return func(a *plan.Anchor, d plan.Doubt) { *of(a) = min(*of(a), T(d.Low)) }
}

func high[T ~float64](of func(*plan.Anchor) *T) func(*plan.Anchor, plan.Doubt) {
	return func(a *plan.Anchor, d plan.Doubt) { *of(a) = max(*of(a), T(d.High)) }
}

// TakeConservative sets a member of a, named as in the file, to the end of its doubt with
// which the anchor holds less; false if none of the rules reads it from such an end.
func TakeConservative(a *plan.Anchor, member string, d plan.Doubt) bool {
	take, ok := conservativeEnds[member]
	if ok {
		take(a, d)
	}
	return ok
}
