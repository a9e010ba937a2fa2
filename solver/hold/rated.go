package hold

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// RatedIn is a rated anchor point.
type RatedIn struct {
	Thing   plan.ID
	Rating  plan.Rating
	Preset  bool
	Lifting bool
}

// Rated is what a rated point may be loaded with: its working tag, or
// breaking ÷ 3 (lifting ÷ 5). No standard is known for what breaks behind such
// a tag: it counts as made to between 2:1, the least that any published pulling
// basis asks, and 5:1, likely 3:1 [ours].
func Rated(in RatedIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	x := float64(in.Rating.Force)
	switch {
	case x == 0:
		raise(found, "no-rating", part.Warning, in.Thing, "type-rating")
		lacks(found, "rating.force_n")
		return part.Capacity{}
	case !positive(x):
		raise(found, "rating-impossible", part.Danger, in.Thing, "type-rating")
		return part.Capacity{}
	}
	most := oddWorkingN
	if in.Rating.Basis == plan.BasisBreaking {
		most = oddBreakingN
	}
	odd := x > most
	if odd {
		raise(found, "rating-odd", part.Warning, in.Thing, "type-rating", part.Number("rating", part.UnitLimit, x), part.Number("most", part.UnitLimit, most))
	}
	confidence := part.ConfidenceTyped
	if in.Preset {
		confidence = part.ConfidenceMemory
	}
	u := quantity.Force(x)
	c := part.Capacity{Ultimate: part.Range{Known: true, Low: u, Likely: u, High: u}, Note: "breaking strength as rigged"}
	f, basis := facts.Figure{X: 1}, "tag"
	if in.Rating.Basis == plan.BasisWorking {
		c.Ultimate = part.Range{Known: true, Low: quantity.Force(x * facts.FactorPullingWinchLine.Conservative().X),
			Likely: quantity.Force(x * facts.FactorPullingAnchorGear.Conservative().X), High: quantity.Force(x * facts.FactorLiftingRigging.Conservative().X)}
		c.Note = "no standard known, 2 to 5 times its tag"
	} else {
		if in.Rating.Basis != plan.BasisBreaking {
			raise(found, "rating-unsaid", part.Notice, in.Thing, "say-rating-basis", part.Number("rating", part.UnitLimit, x))
		}
		f, basis = facts.FactorPullingAnchorGear.Conservative(), "gear 3:1"
		if in.Lifting {
			f, basis = facts.FactorLiftingRigging.Conservative(), "gear 5:1"
		}
	}
	limit := x / f.X
	c.Limit = part.Limit{Known: true, Force: quantity.Force(limit), Basis: basis, Confidence: confidence.Weaker(f.Confidence), Preset: in.Preset, AtMost: odd}
	if derivation.On() {
		from := part.FromTyped
		if in.Preset {
			from = part.FromPreset
		}
		derivation.Add("rated-limit", part.Number("limit", part.UnitLimit, limit),
			part.Operand{Value: part.Number("rating", part.UnitLimit, x), From: from}, cited("factor", part.UnitNone, f))
	}
	return c
}

// Newtons: a tag beyond this is no point that vehicles are pulled from. [ours]
const (
	oddWorkingN  = 1e6
	oddBreakingN = 5e6
)

// VehicleIn is a vehicle that serves as anchor. What moves it is another
// package's answer and comes in as the line pull that makes it slide or tip.
type VehicleIn struct {
	Vehicle    plan.ID
	Slides     part.Range // line pull that makes it slide
	Tips       part.Range // line pull that tips it; not known: it does not tip first
	Braked     bool       // somebody set its brake, or chocked it
	Confidence part.Confidence
	Lifting    bool
}

// Vehicle is what a braked vehicle holds as anchor: the lower of sliding and
// tipping, ÷ 3 as every hold. One that is not known to be braked holds nothing.
func Vehicle(in VehicleIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	if !in.Braked {
		raise(found, "vehicle-not-braked", part.Danger, in.Vehicle, "chock")
		return part.Capacity{}
	}
	if !in.Slides.Known {
		raise(found, "vehicle-hold-unknown", part.Warning, in.Vehicle, "type-mass")
		return part.Capacity{}
	}
	low, likely, high := in.Slides.Low, in.Slides.Likely, in.Slides.High
	if in.Tips.Known {
		low, likely, high = min(low, in.Tips.Low), min(likely, in.Tips.Likely), min(high, in.Tips.High)
	}
	if !positive(float64(low)) {
		raise(found, "vehicle-holds-nothing", part.Danger, in.Vehicle, "chock")
		return part.Capacity{}
	}
	if derivation.On() {
		slides := computed("slides", part.UnitLimit, float64(in.Slides.Low))
		if in.Tips.Known {
			derivation.Add("vehicle-hold", part.Number("hold", part.UnitLimit, low), slides, computed("tips", part.UnitLimit, float64(in.Tips.Low)))
		} else {
			derivation.Add("vehicle-slides-at", part.Number("hold", part.UnitLimit, low), slides)
		}
	}
	return divided(ultimate(float64(low), float64(likely), float64(high)), in.Confidence.Weaker(part.ConfidenceOurs), "slides or tips", false, in.Lifting, derivation)
}
