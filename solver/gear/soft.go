package gear

import (
	"sync"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// softest are the greatest strains of web slings at their tag.
var softest = sync.OnceValue(func() (s struct{ polyester, nylon float64 }) {
	s.polyester, s.nylon = facts.PolyesterWebStrain.High().X, facts.NylonWebStrain.High().X
	return s
})

// SoftLine is A·E of a line at the soft end of its material. 0: not known.
func SoftLine(l *plan.Line) quantity.Force {
	if l.Material == plan.MaterialPolyester && !positive(float64(l.Stiffness)) {
		return breaking(l, 1/facts.PolyesterBreakStrain.High().X)
	}
	low, _ := LineStiffnessRange(l)
	return low
}

// SoftSling is A·E of a sling at the soft end of its material, the conservative one
// for stored energy:
//
//	web and round slings   tag ÷ the most they stretch at it
//	rope                   as lines of its material
//	wire and chain         breaking ÷ the most wire stretches before it breaks
//
// The user's own stiffness overrules it. 0: not known.
func SoftSling(s *plan.Sling) quantity.Force {
	if positive(float64(s.Stiffness)) && positive(float64(s.Length)) {
		return s.Stiffness * quantity.Force(s.Length)
	}
	f := float64(s.Rating.Force)
	if !positive(f) {
		return 0
	}
	times := slingFactor(s).X
	tag, breaking := f, f*times
	if s.Rating.Basis != plan.BasisWorking {
		tag, breaking = f/times, f
	}
	switch s.Material {
	case plan.MaterialWeb, plan.MaterialRound, plan.MaterialPolyester:
		return quantity.Force(tag / softest().polyester)
	case plan.MaterialNylon:
		return quantity.Force(min(tag/softest().nylon, breaking*facts.NylonStiffnessLaid.Conservative().X))
	case plan.MaterialFibre:
		return quantity.Force(breaking * facts.NylonStiffnessLaid.Conservative().X)
	case plan.MaterialKinetic:
		return quantity.Force(breaking / facts.KineticBreakStrainRope.High().X)
	case plan.MaterialHMPE:
		return quantity.Force(breaking * facts.HMPEStiffness.Conservative().X)
	case plan.MaterialWire, plan.MaterialChain:
		return quantity.Force(breaking / facts.WireBreakStrain.High().X)
	}
	return 0
}
