package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// SlingIn is a sling as rigged. The Width of a wire sling is its diameter.
type SlingIn struct {
	Sling   *plan.Sling
	Part    string          // id of the part, if the sling has several
	Hitch   string          // as resolved: never empty
	OnTrunk bool            // it goes round something; else it is hooked to points
	Radius  quantity.Length // of what it goes round; 0: not known
	Round   Round           // its lie there, see [SlingRound]
	Load    quantity.Force  // resultant on its apex or free end, for the sum
	OnWinch bool            // it is in a chain that a winch pulls
	Lifting bool            // the lifting basis
}

// SlingState is what a sling may be asked for, as the force on its apex.
type SlingState struct {
	part.Capacity
	Leg      quantity.Force // in the worse leg at the load asked about; 0: not computed
	Straight quantity.Force // its limit for a straight pull; 0: none
}

// Sling is what a sling may be asked for: the worse of two checks, never their
// product.
//
//	basket   0.55·F/cos h ≤ straight   the worse leg, 45 : 55 over a fixed bend
//	         F ≤ M · straight          M by the standard's band for h
//	choked   F ≤ choked share · choke-angle step · straight
//	straight F ≤ straight
//
// h is half the opening of the legs; beyond 60° refused. Straight is the
// working tag, or breaking ÷ 5 where only that is known. Sources: EN 1492
// and 29 CFR 1910.184 / 1918 bands, 0027/ND 5.8 for the uneven legs.
func Sling(in SlingIn, derivation *part.Derivation, found *[]part.Finding) SlingState {
	s := in.Sling
	where := at{thing: s.ID, part: in.Part}
	var out SlingState
	g, fits := slingGeometry(in, where, found)
	out.Leg = quantity.Force(float64(in.Load) * g.legPerLoad)
	r := readRating(s.Rating, s.Presets, where, found)
	beyondSize(ofMaterial(s.Material, float64(s.Width), "width_m", slingFactor(s).X), &r, where, found)
	cond, good := condition(s.Condition, wornSling, where, found)
	material := knownMaterial(s.Material)
	if !material {
		raise(found, "sling-material-unknown", part.Warning, where, &part.Remedy{Do: "type-material", Thing: s.ID})
		lacking(found, overLimit, where.lack("material"))
	}
	if found != nil && in.OnWinch {
		if strain, level, is := stretchy(s.Material); is {
			onWinch(strain, level, "static-sling", where, found)
		}
	}
	if !fits || !r.known || !good || !material {
		return out
	}
	straight, ult := slingStraight(s, r, cond, in.Lifting)
	confidence := cond.Confidence.Weaker(ult.Confidence).Weaker(g.confidence)
	out.Straight = quantity.Force(straight)
	out.Limit = limited(straight*g.share, g.basis, r, confidence)
	out.Ultimate = part.Range{
		Known: true, Low: quantity.Force(ult.X * g.share),
		Likely: quantity.Force(ult.X * g.share), High: quantity.Force(ult.X * g.even),
	}
	out.Note = "from the standard's factor, not tested"
	if !r.working {
		out.Note = "breaking strength as rigged"
	}
	if derivation.On() {
		g.record(derivation, in, r, straight, float64(out.Limit.Force), cond)
	}
	return out
}

// slingStraight is the limit of a straight pull and the strength behind it.
func slingStraight(s *plan.Sling, r rated, cond facts.Figure, lifting bool) (limitN float64, ultimate facts.Figure) {
	standard := slingFactor(s)
	if r.working {
		standard.X *= r.forceN * cond.X
		return r.forceN * cond.X, standard
	}
	factor := breakingFactor(s, lifting)
	standard.X = r.forceN * cond.X
	return r.forceN * cond.X / factor.X, standard
}

// breakingFactor is what a sling known by its breaking strength is divided by:
// 5, on the lifting basis its standard's factor if that is higher.
func breakingFactor(s *plan.Sling, lifting bool) facts.Figure {
	if !lifting {
		return facts.FactorPullingSlingBreaking.Conservative()
	}
	if standard := slingFactor(s); standard.X > facts.FactorLiftingRigging.Conservative().X {
		return standard
	}
	return facts.FactorLiftingRigging.Conservative()
}

// slingFactor is breaking over tag by the sling's standard. A web sling that
// names no standard counts with the lower factor.
func slingFactor(s *plan.Sling) facts.Figure {
	switch s.Material {
	case plan.MaterialWeb, plan.MaterialRound:
		if s.Standard == standardEN {
			return facts.FactorUltimateWebEN.Conservative()
		}
		return facts.FactorUltimateWebUS.Conservative()
	case plan.MaterialChain:
		return facts.FactorUltimateChain.Conservative()
	case plan.MaterialWire:
		return facts.FactorUltimateWireSling.Conservative()
	case plan.MaterialFibre:
		return facts.FactorUltimateFibreSling.Conservative()
	}
	return facts.FactorUltimateSling.Conservative()
}

// The standards a sling's tag can name.
const (
	standardEN   = "EN"
	standardASME = "ASME"
)
