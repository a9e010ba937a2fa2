package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// ShackleIn is a shackle as rigged.
type ShackleIn struct {
	Shackle *plan.Shackle
	Part    string
	Off     quantity.Degrees // pull off its own line
	Between quantity.Degrees // between two legs in its bow; 0: one leg
	BearsOn quantity.Length  // diameter of the thinnest edge or pin a soft shackle bears on; 0: not known
	Line    quantity.Length  // diameter of the line it joins; 0: none
}

// Shackle is what a shackle may be asked for: its working tag times the step
// of the side-pull table, or breaking ÷ 5 times that step. Full to 5° off
// line, 70 % to 45°, 50 % to 90°, beyond refused (ASME B30.26 bands); two legs
// in a bow up to 120°; a round pin takes no side pull; its pin against a
// running line is refused. A soft shackle has no step, but the edge it bears
// on must be at least its own diameter.
func Shackle(in ShackleIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	s := in.Shackle
	where := at{thing: s.ID, part: in.Part}
	r := readRating(s.Rating, s.Presets, where, found)
	if s.Kind == plan.ShackleBow || s.Kind == plan.ShackleDee {
		beyondSize(sized{rangeOf(facts.StrengthShackle), 2, float64(s.Body), "body_m", facts.FactorUltimateShackle.Conservative().X, ""}, &r, where, found)
	}
	if !r.known && positive(float64(s.Body)) && s.Kind != plan.ShackleSoft {
		raise(found, "shackle-unmarked", part.Notice, where, nil,
			part.Number("rule", part.UnitLimit, UnmarkedShackle(s.Body)))
	}
	fits := true
	if s.PinIsRunning {
		raise(found, "shackle-pin-running", part.Danger, where, &part.Remedy{Do: "turn-shackle", Thing: s.ID})
		fits = false
	}
	if small := shackleSmall(in); small {
		raise(found, "shackle-small", part.Caution, where, nil,
			part.Length("body", s.Body), part.Length("line", in.Line))
	}
	step, ok := shackleStep(in, where, found)
	if !ok || !fits || !r.known {
		return part.Capacity{}
	}
	confidence := step.Confidence
	var c part.Capacity
	factor := facts.Figure{X: 1}
	basis := "tag"
	if !r.working {
		factor, basis = facts.FactorPullingShackleBreaking.Conservative(), "shackle 5:1"
		confidence = confidence.Weaker(factor.Confidence)
	}
	c.Limit = limited(r.forceN/factor.X*step.X, basis, r, confidence)
	if r.working {
		c.Ultimate = tagUltimate(r.forceN*step.X, facts.FactorUltimateShackle.Conservative())
		c.Note = "from the standard's factor, not tested"
	} else {
		u := quantity.Force(r.forceN * step.X)
		c.Ultimate = part.Range{Known: true, Low: u, Likely: u, High: u}
		c.Note = "breaking strength as rigged"
	}
	if derivation.On() {
		if r.working {
			derivation.Add("shackle-limit", part.Number("limit", part.UnitLimit, c.Limit.Force),
				typed("tag", part.UnitLimit, r.forceN, r.preset), cited("step", part.UnitFactor, step),
				computed("off", part.UnitAngle, float64(in.Off)))
		} else {
			derivation.Add("shackle-limit-breaking", part.Number("limit", part.UnitLimit, c.Limit.Force),
				typed("breaking", part.UnitLimit, r.forceN, r.preset), cited("factor", part.UnitNone, factor),
				cited("step", part.UnitFactor, step), computed("off", part.UnitAngle, float64(in.Off)))
		}
	}
	return c
}

// shackleStep is the share of the rating that the directions of pull leave.
func shackleStep(in ShackleIn, where at, found *[]part.Finding) (facts.Figure, bool) {
	s := in.Shackle
	if s.Kind == plan.ShackleSoft {
		return softStep(in, where, found)
	}
	if s.Kind != plan.ShackleBow && s.Kind != plan.ShackleDee {
		raise(found, "shackle-kind-unknown", part.Warning, where, &part.Remedy{Do: "type-kind", Thing: s.ID})
		lacking(found, overLimit, where.lack("kind"))
		return facts.Figure{}, false
	}
	off := float64(in.Off)
	step := facts.ShackleSidePull.Table()
	x, ok := facts.Must(facts.ShackleSidePull).Step(off)
	if !ok {
		raise(found, "shackle-side-pull", part.Danger, where, &part.Remedy{Do: "turn-shackle", Thing: s.ID},
			part.Number("off", part.UnitAngle, off), part.Number("share", part.UnitShare, 0))
		return facts.Figure{}, false
	}
	step.X = x
	full := x == 1
	switch {
	case !full && s.RoundPin:
		raise(found, "shackle-round-pin", part.Danger, where, &part.Remedy{Do: "turn-shackle", Thing: s.ID},
			part.Number("off", part.UnitAngle, off))
		return facts.Figure{}, false
	case !full:
		level := part.Caution
		if off > sideWarning {
			level = part.Warning
		}
		raise(found, "shackle-side-pull", level, where, &part.Remedy{Do: "turn-shackle", Thing: s.ID},
			part.Number("off", part.UnitAngle, off), part.Number("share", part.UnitShare, x))
	}
	return twoLegs(in, step, where, found)
}

// sideWarning, degrees off line: the last band before refusal begins here
// (ASME B30.26).
const sideWarning = 45

// twoLegs checks two legs in a bow.
func twoLegs(in ShackleIn, step facts.Figure, where at, found *[]part.Finding) (facts.Figure, bool) {
	between := float64(in.Between)
	if between == 0 {
		return step, true
	}
	if in.Shackle.Kind == plan.ShackleDee {
		raise(found, "shackle-dee-legs", part.Warning, where, &part.Remedy{Do: "bow-shackle", Thing: in.Shackle.ID},
			part.Number("between", part.UnitAngle, between))
		return facts.Figure{}, false
	}
	if !(between <= facts.ShackleIncludedAngle.Conservative().X) {
		raise(found, "shackle-legs-wide", part.Danger, where, nil, part.Number("between", part.UnitAngle, between),
			part.Number("most", part.UnitAngle, facts.ShackleIncludedAngle.Conservative().X))
		return facts.Figure{}, false
	}
	return step, true
}

func softStep(in ShackleIn, where at, found *[]part.Finding) (facts.Figure, bool) {
	own, edge := float64(in.Shackle.Body), float64(in.BearsOn)
	step := facts.SoftShackleEdge.Conservative()
	step.X = 1
	if !positive(own) || !positive(edge) {
		raise(found, "soft-shackle-edge-unknown", part.Notice, where, nil)
		return step, true
	}
	if edge < own*facts.SoftShackleEdge.Conservative().X {
		raise(found, "soft-shackle-edge", part.Danger, where, nil,
			part.Length("edge", edge), part.Length("own", own*facts.SoftShackleEdge.Conservative().X))
		return facts.Figure{}, false
	}
	return step, true
}

// shackleSmall tells a shackle no thicker than the line it joins: it should be
// one size larger (WAC 296-54-54730).
func shackleSmall(in ShackleIn) bool {
	return in.Shackle.Kind != plan.ShackleSoft && positive(float64(in.Shackle.Body)) && in.Shackle.Body <= in.Line
}

// UnmarkedShackle is the army and navy field rule for a shackle of unknown
// steel, in newtons: 0.417·D² tonnes, D its body in centimetres. It is a
// number to show, never a limit.
func UnmarkedShackle(body quantity.Length) float64 {
	const cmPerM = 100
	d := float64(body) * cmPerM
	if !positive(d) {
		return 0
	}
	return facts.ShackleUnmarked.Conservative().X * d * d
}
