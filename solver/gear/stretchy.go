package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// LineStiffness is A·E of a line in newtons: force per strain. It is the
// user's own figure, or follows from material and diameter (wire) or breaking
// strength (fibre). 0: not known.
//
// Wire: c·d², c 46 000 N/mm² (6x36 steel core). HMPE: 37.5 × breaking. Nylon:
// 2 × breaking, laid, the softer of two navy figures. Polyester and kinetic
// rope: breaking over the strain at break. A rating that is no breaking
// strength gives none.
func LineStiffness(l *plan.Line) quantity.Force {
	if positive(float64(l.Stiffness)) {
		return l.Stiffness
	}
	switch l.Material {
	case plan.MaterialWire:
		return wireAE(facts.WireStiffness.Likely(), l.Diameter)
	case plan.MaterialHMPE:
		return breaking(l, facts.HMPEStiffness.Conservative().X)
	case plan.MaterialNylon, plan.MaterialFibre:
		return breaking(l, facts.NylonStiffnessLaid.Conservative().X)
	case plan.MaterialPolyester:
		return breaking(l, 1/facts.PolyesterBreakStrain.Likely().X)
	case plan.MaterialKinetic:
		return breaking(l, 1/facts.KineticBreakStrainRope.Likely().X)
	}
	return 0
}

// LineStiffnessRange is the range of [LineStiffness]: the low end is conservative
// for stored energy, the high one for sharing of load. Only wire has a range.
func LineStiffnessRange(l *plan.Line) (low, high quantity.Force) {
	ae := LineStiffness(l)
	if l.Material != plan.MaterialWire || positive(float64(l.Stiffness)) {
		return ae, ae
	}
	return wireAE(facts.WireStiffness.Low(), l.Diameter), wireAE(facts.WireStiffness.High(), l.Diameter)
}

// wireAE is c·d²; the handbook's coefficient is in SI, newtons per metre².
func wireAE(c facts.Figure, diameter quantity.Length) quantity.Force {
	if !positive(float64(diameter)) {
		return 0
	}
	return quantity.Force(c.X * float64(diameter) * float64(diameter))
}

// breaking is c times the breaking strength; 0 if that is not known.
func breaking(l *plan.Line, c float64) quantity.Force {
	if !positive(float64(l.Rating.Force)) || l.Rating.Basis == plan.BasisWorking {
		return 0
	}
	return quantity.Force(c) * l.Rating.Force
}

// LineMass is the mass of a metre of line: the user's own figure, or c·d² of
// its material. 0: not known.
func LineMass(l *plan.Line) quantity.LinearDensity {
	if positive(float64(l.MassPerM)) {
		return l.MassPerM
	}
	d := float64(l.Diameter)
	if !positive(d) {
		return 0
	}
	c := 0.0
	switch l.Material {
	case plan.MaterialWire:
		c = facts.WireMassIWRC.Conservative().X
	case plan.MaterialHMPE:
		c = facts.HMPEMass.Conservative().X
	case plan.MaterialPolyester:
		c = facts.PolyesterMass.Conservative().X
	case plan.MaterialNylon, plan.MaterialFibre, plan.MaterialKinetic:
		c = facts.NylonMass.Conservative().X
	}
	return quantity.LinearDensity(c * d * d)
}

// Stiffening is the exponent n of a line's force over stretch, F = F_b·(e/e_b)^n:
// 1 for wire, chain and HMPE, above 1 for ropes that grow stiffer.
func Stiffening(material string) float64 {
	switch material {
	case plan.MaterialNylon, plan.MaterialKinetic, plan.MaterialFibre:
		return facts.StiffeningNylon.Conservative().X
	case plan.MaterialPolyester:
		return facts.StiffeningPolyester.Likely().X
	}
	return facts.StiffeningLinear.Conservative().X
}

// StoredEnergy is what a line of length lengthM holds at tension tensionN:
//
//	e = e_b·(T/F_b)^(1/n),  E = T·e·L/(n+1),  e_b = F_b/AE
//
// With n = 1 it is T²·L/(2·AE) and breakingN is not read. With n above 1 the
// larger of the two forms is given: below 0.444 of breaking (n = 2) the linear
// one understates. ok is false if an argument cannot be.
func StoredEnergy(tensionN, lengthM, aeN, breakingN, n float64) (energy quantity.Energy, ok bool) {
	if !sane(tensionN) || !sane(lengthM) || !positive(aeN) || !(n >= 1) {
		return 0, false
	}
	linear := tensionN * tensionN * lengthM / (2 * aeN)
	if n == 1 || !positive(breakingN) {
		return quantity.Energy(linear), true
	}
	strain := breakingN / aeN * math.Pow(tensionN/breakingN, 1/n)
	return quantity.Energy(math.Max(linear, tensionN*strain*lengthM/(n+1))), true
}
