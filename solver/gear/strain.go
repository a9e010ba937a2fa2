package gear

import (
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// breakStrain is the strain at break of a material by its own row; ok is false
// for a material nobody knows. Laid fibre may be nylon and counts as such, web
// and round slings as the polyester they are made of, chain as wire: what else
// it gives stays.
func breakStrain(material string) (strain ends, ok bool) {
	switch material {
	case plan.MaterialWire, plan.MaterialChain:
		return rangeOf(facts.WireBreakStrain), true
	case plan.MaterialHMPE:
		return rangeOf(facts.HMPEBreakStrain), true
	case plan.MaterialNylon, plan.MaterialFibre:
		return rangeOf(facts.NylonBreakStrainLaid), true
	case plan.MaterialPolyester:
		return rangeOf(facts.PolyesterBreakStrain), true
	case plan.MaterialWeb, plan.MaterialRound:
		return rangeOf(facts.PolyesterFibreBreakStrain), true
	case plan.MaterialKinetic:
		return rangeOf(facts.KineticBreakStrainRope), true
	}
	return ends{}, false
}

// stretchy tells what stretches as a kinetic rope does before it breaks: at
// DANGER if it surely does, at CAUTION if only the high end of its row says so.
func stretchy(material string) (strain float64, level part.Level, is bool) {
	s, ok := breakStrain(material)
	kinetic := facts.KineticBreakStrainRope.Likely().X
	switch {
	case !ok:
		return 0, 0, false
	case s.likely.X >= kinetic:
		return s.likely.X, part.Danger, true
	case s.high.X >= kinetic:
		return s.high.X, part.Caution, true
	}
	return 0, 0, false
}

// Static tells a material that surely does not stretch as a kinetic rope does.
func Static(material string) bool {
	_, known := breakStrain(material)
	_, _, is := stretchy(material)
	return known && !is
}

// Snatches tells a material that surely stretches as a kinetic rope does.
func Snatches(material string) bool {
	_, level, is := stretchy(material)
	return is && level == part.Danger
}

// stretchLine is stretchy with the stiffness that somebody typed for a line: it
// may show one to be stretchy, and never a kinetic rope to be none.
func stretchLine(l *plan.Line) (strain float64, level part.Level, is bool) {
	strain, level, is = stretchy(l.Material)
	if ae, f := float64(l.Stiffness), float64(breaking(l, 1)); positive(ae) && positive(f) && f/ae >= facts.KineticBreakStrainRope.Likely().X && f/ae > strain {
		return f / ae, part.Danger, true
	}
	return strain, level, is
}

// onWinch raises a piece that stretches in a winch rig.
func onWinch(strain float64, level part.Level, remedy string, where at, found *[]part.Finding) {
	raise(found, "kinetic-on-winch", level, where, &part.Remedy{Do: remedy, Thing: where.thing},
		part.Number("strain", part.UnitShare, strain), part.Number("kinetic", part.UnitShare, facts.KineticBreakStrainRope.Likely().X))
}
