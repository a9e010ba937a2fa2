package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// hitched is what a hitch leaves of the straight limit.
type hitched struct {
	share      float64      // force on the apex over the straight limit: the worse check
	even       float64      // the same if the legs share evenly: the most it can be
	legPerLoad float64      // force in the worse leg over the force on the apex
	leg, mode  facts.Figure // the two checks of a basket, as shares of straight
	choked     facts.Figure
	step       facts.Figure
	bend       facts.Figure // wire round a thin trunk; unity otherwise
	basis      string
	half       quantity.Degrees
	confidence part.Confidence
}

// wideOpening, degrees between the legs: from here the standard's last band
// before refusal holds and a longer sling is worth saying. Twice 45°, EN 1492.
const wideOpening = 90

// slingGeometry is the hitch's share of the straight limit. fits is false
// where the sling does not close, opens too wide or its hitch cannot be.
func slingGeometry(in SlingIn, where at, found *[]part.Finding) (g hitched, fits bool) {
	g = hitched{share: 1, even: 1, legPerLoad: 1, bend: unity(), basis: "sling straight"}
	s := in.Sling
	if s.Hitch == plan.HitchDefault {
		rule := "sling-trunk-unknown" // what it is choked or laid round
		if in.OnTrunk {
			rule = "sling-straight-on-trunk"
		}
		part.NotDecided(found, rule, s.ID, member(s.ID, "hitch"))
	}
	if in.OnTrunk && in.Hitch == plan.HitchStraight {
		raise(found, "sling-straight-on-trunk", part.Danger, where, &part.Remedy{Do: "choke", Thing: s.ID})
		return g, false
	}
	if in.Hitch != plan.HitchStraight && in.Hitch != plan.HitchBasket && in.Hitch != plan.HitchChoked {
		return g, false // a word nobody knows: that is said of the whole plan
	}
	if in.Hitch == plan.HitchStraight {
		return straightFits(g, s, where, found)
	}
	if !positive(float64(in.Radius)) {
		raise(found, "sling-trunk-unknown", part.Warning, where, nil, part.Word("hitch", in.Hitch))
		if s.On.Thing != "" {
			lacking(found, overLimit, member(s.On.Thing, "trunk_m"))
		}
		return g, false
	}
	if !positive(float64(s.Length)) {
		raise(found, "sling-length-unknown", part.Warning, where, &part.Remedy{Do: "type-length", Thing: s.ID})
		lacking(found, overLimit, where.lack("length_m"))
		return g, false
	}
	if !in.Round.Closes {
		needs := SlingLength(in.Radius, 2*quantity.Degrees(facts.SlingAngleLimit.Conservative().X))
		if in.Hitch == plan.HitchChoked {
			needs = s.Length + in.Round.Short
		}
		longer(found, "sling-too-short", part.Danger, where, needs, part.Length("length", s.Length))
		return g, false
	}
	g.bend = wireRound(in, where, found)
	if in.Hitch == plan.HitchChoked {
		return chokedShare(g, in, where, found)
	}
	return basketShare(g, in, where, found)
}

func straightFits(g hitched, s *plan.Sling, where at, found *[]part.Finding) (hitched, bool) {
	if !sane(float64(s.Length)) {
		raise(found, "sling-length-unknown", part.Warning, where, &part.Remedy{Do: "type-length", Thing: s.ID})
		lacking(found, overLimit, where.lack("length_m"))
		return g, false
	}
	return g, true
}

func basketShare(g hitched, in SlingIn, where at, found *[]part.Finding) (hitched, bool) {
	s := in.Sling
	g.half = in.Round.Half()
	h := float64(g.half)
	cos := math.Cos(g.half.Radians())
	if !(h >= 0 && h < 90) || !(cos > 0) {
		g.legPerLoad = 0
		return g, false
	}
	g.legPerLoad = facts.SlingBendShareFixed.Conservative().X / cos
	mode, ok := basketMode(s.Standard, h)
	if !ok {
		longer(found, "sling-opens-wide", part.Danger, where, SlingLength(in.Radius, 2*quantity.Degrees(facts.SlingAngleLimit.Conservative().X)),
			part.Number("opens", part.UnitAngle, in.Round.Opens))
		return g, false
	}
	if float64(in.Round.Opens) > wideOpening {
		longer(found, "sling-opens", part.Caution, where, SlingLength(in.Radius, wideOpening), part.Number("opens", part.UnitAngle, in.Round.Opens))
	}
	g.leg = facts.SlingBendShareFixed.Conservative()
	g.leg.X = cos / facts.SlingBendShareFixed.Conservative().X
	g.mode = mode
	g.even = math.Max(2*cos, mode.X) * g.bend.X
	if g.leg.X <= g.mode.X {
		g.share, g.basis, g.confidence = g.leg.X*g.bend.X, "sling basket, worse leg", facts.SlingBendShareFixed.Conservative().Confidence
	} else {
		g.share, g.basis, g.confidence = g.mode.X*g.bend.X, "sling basket, standard", mode.Confidence
	}
	g.even = math.Max(g.even, g.share)
	g.confidence = g.confidence.Weaker(g.bend.Confidence)
	return g, true
}

// basketMode is the standard's factor for a basket whose legs stand h degrees
// off the pull. A tag that names neither standard takes the lower of the two;
// none at all counts as EN.
func basketMode(standard string, h float64) (facts.Figure, bool) {
	b := book()
	en, us := facts.SlingBasketEN.Table(), facts.SlingBasketUS.Table()
	if !(h <= facts.SlingAngleLimit.Conservative().X) {
		return facts.Figure{}, false
	}
	x, ok := facts.Must(facts.SlingBasketEN).Step(h)
	if !ok {
		return facts.Figure{}, false
	}
	en.X = x
	us.X = 0
	if h <= facts.SlingParallelUS.Conservative().X {
		us = facts.SlingBasketUSVertical.Conservative()
	} else {
		for _, row := range b.basketUS { // printed angles from horizontal, ascending
			if 90-h >= row[0] {
				us.X = row[1]
			}
		}
	}
	switch standard {
	case "", standardEN:
		return en, true
	case standardASME:
		return us, us.X > 0
	}
	if us.X < en.X {
		return us, us.X > 0
	}
	return en, true
}

func chokedShare(g hitched, in SlingIn, where at, found *[]part.Finding) (hitched, bool) {
	g.choked = chokedFactor(in.Sling)
	step, ok := facts.Must(facts.SlingChokeAngle).Step(float64(in.Round.Choke))
	if !ok {
		return g, false
	}
	g.step = facts.SlingChokeAngle.Table()
	g.step.X = step
	if step < 1 {
		half := math.Pi - quantity.Degrees(facts.SlingChokeFree.Conservative().X).Radians()
		needs := in.Radius * quantity.Length(2*(1/math.Tan(half)+math.Pi/2+half))
		longer(found, "sling-choke-tight", part.Caution, where, needs, part.Number("choke", part.UnitAngle, in.Round.Choke), part.Number("share", part.UnitShare, step))
	}
	g.share = g.choked.X * step * g.bend.X
	g.even = g.share
	g.basis = "sling choked"
	g.confidence = g.choked.Confidence.Weaker(g.step.Confidence).Weaker(g.bend.Confidence)
	return g, true
}

// chokedFactor is the choked share of the straight limit by material and
// standard; every rope of fibres counts as laid fibre, the lowest.
func chokedFactor(s *plan.Sling) facts.Figure {
	switch s.Material {
	case plan.MaterialWeb, plan.MaterialRound:
		if s.Standard != "" && s.Standard != standardEN {
			return facts.SlingChokedWebOlder.Conservative()
		}
		return facts.SlingChokedWeb.Conservative()
	case plan.MaterialChain:
		return facts.SlingChokedChainOlder.Conservative()
	case plan.MaterialWire:
		return facts.SlingChokedWire.Conservative()
	}
	return facts.SlingChokedFibre.Conservative()
}

// wireRound is what a wire sling loses round a trunk thinner than 25 of its
// diameters (wire rope sling users manual basis). One whose diameter is not
// known loses most.
func wireRound(in SlingIn, where at, found *[]part.Finding) facts.Figure {
	if in.Sling.Material != plan.MaterialWire {
		return unity()
	}
	ratio := 1.0
	w := float64(in.Sling.Width)
	if positive(w) {
		ratio = 2 * float64(in.Radius) / w
	}
	if ratio >= facts.SlingBasketBendMechanical.Conservative().X {
		return unity()
	}
	f, ok := bendKeeps(plan.MaterialWire, math.Max(1, ratio))
	if !ok {
		f = facts.BendWireC.Conservative()
	}
	raise(found, "sling-wire-bent", part.Caution, where, &part.Remedy{Do: "type-diameter", Thing: in.Sling.ID},
		part.Number("ratio", part.UnitNone, ratio), part.Number("share", part.UnitShare, f.X))
	if !positive(w) {
		lacking(found, "sling-wire-bent", where.lack("width_m"))
	}
	return f
}

// record writes the sum of a sling.
func (g hitched) record(derivation *part.Derivation, in SlingIn, r rated, straightN, limitN float64, cond facts.Figure) {
	formula, ops := "sling-straight", []part.Operand{
		typed("rating", part.UnitLimit, r.forceN, r.preset), cited("condition", part.UnitFactor, cond),
	}
	if !r.working {
		formula = "sling-straight-breaking"
		ops = append(ops, cited("factor", part.UnitNone, breakingFactor(in.Sling, in.Lifting)))
	}
	derivation.Add(formula, part.Number("straight", part.UnitLimit, straightN), ops...)
	switch g.basis {
	case "sling choked":
		derivation.Add("sling-choked", part.Number("limit", part.UnitLimit, limitN),
			computed("straight", part.UnitLimit, straightN), cited("choked", part.UnitFactor, g.choked),
			cited("step", part.UnitFactor, g.step), cited("bend", part.UnitFactor, g.bend))
	case "sling straight":
		derivation.Add("sling-limit", part.Number("limit", part.UnitLimit, limitN), computed("straight", part.UnitLimit, straightN))
	default:
		derivation.Add("sling-basket-leg", part.Force("leg", float64(in.Load)*g.legPerLoad),
			cited("share", part.UnitFactor, facts.SlingBendShareFixed.Conservative()), computed("load", part.UnitForce, float64(in.Load)),
			computed("half", part.UnitAngle, float64(g.half)))
		derivation.Add("sling-basket-by-leg", part.Number("by-leg", part.UnitLimit, straightN*g.leg.X*g.bend.X),
			computed("straight", part.UnitLimit, straightN), computed("half", part.UnitAngle, float64(g.half)),
			computed("share", part.UnitNone, facts.SlingBendShareFixed.Conservative().X), cited("bend", part.UnitFactor, g.bend))
		derivation.Add("sling-basket-mode", part.Number("by-standard", part.UnitLimit, straightN*g.mode.X*g.bend.X),
			cited("mode", part.UnitFactor, g.mode), computed("straight", part.UnitLimit, straightN),
			cited("bend", part.UnitFactor, g.bend))
		derivation.Add("sling-basket-worse", part.Number("limit", part.UnitLimit, limitN),
			computed("by-leg", part.UnitLimit, straightN*g.leg.X*g.bend.X),
			computed("by-standard", part.UnitLimit, straightN*g.mode.X*g.bend.X))
	}
}

// longer raises a finding that a sling of the length it needs answers.
func longer(found *[]part.Finding, id string, level part.Level, where at, needs quantity.Length, values ...part.Value) {
	raise(found, id, level, where, &part.Remedy{Do: "longer-sling", Thing: where.thing, Value: part.Length("length", needs)},
		append(values, part.Length("needs", needs))...)
}
