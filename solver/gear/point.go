package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// PointIn is a recovery point of a vehicle, or a rated anchor point, as
// pulled.
type PointIn struct {
	Vehicle plan.ID
	Part    string // vehicle/point
	Point   *plan.RecoveryPoint
	Off     quantity.Degrees // pull off the direction it is meant to take
	Assumed bool             // nobody said which that is
	Lifting bool
}

// RecoveryPoint is what a hook-on point of a vehicle may be asked for. Its
// kind comes first: a tow ball, tie-down eye, bar, axle or steering part is no
// recovery point whatever number stands on it. A tag that is silent on the
// angle is full to 15° and taken as a side-pulled shackle (70 %) to 45°, with
// a warning; beyond refused [ours]. A screw-in eye is pulled in line, ±5°.
// Breaking ÷ 3 (lifting ÷ 5), as anchor gear. No standard is known for what
// breaks behind such a tag: it counts as made to between 2:1, the least that
// any published pulling basis asks, and 5:1, likely 3:1 [ours]. Where nobody
// said which direction is in line no load is known to be within the limit.
func RecoveryPoint(in PointIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	p := in.Point
	where := at{thing: in.Vehicle, part: in.Part}
	if found != nil {
		where.below = "recovery_points." + string(p.ID) + "."
	}
	switch p.Kind {
	case plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering:
		raise(found, "not-a-pulling-point", part.Danger, where, &part.Remedy{Do: "other-point", Thing: in.Vehicle},
			part.Word("kind", p.Kind))
		return part.Capacity{}
	}
	if !pullingPoint(p.Kind) {
		raise(found, "point-kind-unknown", part.Warning, where, &part.Remedy{Do: "type-kind", Thing: in.Vehicle})
		lacking(found, "not-a-pulling-point", where.lack("kind"))
		return part.Capacity{}
	}
	r := readRating(p.Rating, p.Presets, where, found)
	share, ok := pointShare(in, where, found)
	if !r.known || !ok {
		return part.Capacity{}
	}
	factor, basis := facts.Figure{X: 1}, "tag"
	if !r.working {
		factor, basis = facts.FactorPullingAnchorGear.Conservative(), "gear 3:1"
		if in.Lifting {
			factor, basis = facts.FactorLiftingRigging.Conservative(), "gear 5:1"
		}
	}
	var c part.Capacity
	c.Limit = limited(r.forceN/factor.X*share.X, basis, r, factor.Confidence.Weaker(share.Confidence))
	c.Limit.AtMost = c.Limit.AtMost || in.Assumed
	u := r.forceN * share.X
	c.Ultimate = part.Range{Known: true, Low: quantity.Force(u), Likely: quantity.Force(u), High: quantity.Force(u)}
	c.Note = "breaking strength as rigged"
	if r.working {
		c.Ultimate = part.Range{Known: true, Low: quantity.Force(u * facts.FactorPullingWinchLine.Conservative().X),
			Likely: quantity.Force(u * facts.FactorPullingAnchorGear.Conservative().X), High: quantity.Force(u * facts.FactorLiftingRigging.Conservative().X)}
		c.Note = "no standard known, 2 to 5 times its tag"
	}
	if derivation.On() {
		derivation.Add("point-limit", part.Number("limit", part.UnitLimit, c.Limit.Force),
			typed("rating", part.UnitLimit, r.forceN, r.preset), cited("factor", part.UnitNone, factor),
			cited("share", part.UnitFactor, share), computed("off", part.UnitAngle, float64(in.Off)))
	}
	return c
}

// pullingPoint tells the kinds that are made for pulling.
func pullingPoint(kind string) bool {
	switch kind {
	case plan.PointRated, plan.PointBowEye, plan.PointHook, plan.PointPintle, plan.PointScrewEye:
		return true
	}
	return false
}

// widestPull, degrees off its direction, is the most that a tag can allow: beyond
// that the pull goes back through what the point is on. (ours, as ASME B30.26 of
// shackles)
const widestPull = 90

// pointShare is the share of its rating that the direction of pull leaves.
func pointShare(in PointIn, where at, found *[]part.Finding) (facts.Figure, bool) {
	p, b, off := in.Point, book(), float64(in.Off)
	if !(off >= 0 && off <= 180) {
		return facts.Figure{}, false
	}
	if in.Assumed {
		part.NotDecided(found, "point-side-pull", in.Vehicle, where.lack("axis_deg"))
	}
	most, tagged := float64(p.MaxAngle), positive(float64(p.MaxAngle))
	if most > widestPull {
		raise(found, "point-angle-odd", part.Warning, where, nil,
			part.Number("angle", part.UnitAngle, most), part.Number("most", part.UnitAngle, widestPull))
		most = widestPull
	}
	if p.Kind == plan.PointScrewEye {
		raise(found, "screw-eye-steady", part.Notice, where, nil)
		if !tagged || most > facts.PointScrewInEye.Conservative().X {
			most, tagged = facts.PointScrewInEye.Conservative().X, true
		}
	}
	beyond := func(level part.Level, share float64) {
		raise(found, "point-side-pull", level, where, &part.Remedy{Do: "pull-in-line", Thing: in.Vehicle},
			part.Number("off", part.UnitAngle, off), part.Number("most", part.UnitAngle, most), part.Number("share", part.UnitShare, share))
	}
	switch {
	case tagged && off <= most:
		return unity(), true
	case tagged:
		beyond(part.Danger, 0)
		return facts.Figure{}, false
	case off <= facts.PointUnsaidFull.Conservative().X && in.Assumed:
		return b.pointShare, true
	case off <= facts.PointUnsaidFull.Conservative().X:
		f := facts.PointUnsaidFull.Conservative()
		f.X = 1
		return f, true
	case off <= facts.PointUnsaidWarning.Conservative().X:
		most = facts.PointUnsaidFull.Conservative().X
		beyond(part.Warning, b.pointShare.X)
		return b.pointShare, true
	}
	most = facts.PointUnsaidWarning.Conservative().X
	beyond(part.Danger, 0)
	return facts.Figure{}, false
}
