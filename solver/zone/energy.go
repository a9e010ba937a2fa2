package zone

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Spring is a piece of line or strap under tension. A·E tells its stretch; a
// stiffening piece (Exponent over 1) goes by its breaking strength and the
// strain there (0: BreakN/StiffnessN).
type Spring struct {
	ForceN      float64
	LengthM     float64
	StiffnessN  float64 // A·E
	MassKgPerM  float64
	Exponent    float64 // n of F = Fb·(e/eb)^n; 0 and 1: a straight line
	BreakN      float64
	BreakStrain float64
}

// strain is the stretch over the length; false if a figure is missing.
//
//	e = F/EA,  stiffening e = e_b·(F/F_b)^(1/n)
func (s *Spring) strain() (e float64, ok bool) {
	if !finite(s.ForceN) || !finite(s.LengthM) || !(s.ForceN >= 0) || !(s.LengthM >= 0) {
		return 0, false
	}
	if s.Exponent > 1 {
		eb := s.BreakStrain
		if !(eb > 0) && s.StiffnessN > 0 {
			eb = s.BreakN / s.StiffnessN
		}
		if !(eb > 0) || !(s.BreakN > 0) || !finite(eb) || !finite(s.Exponent) {
			return 0, false
		}
		return eb * math.Pow(s.ForceN/s.BreakN, 1/s.Exponent), true
	}
	if !(s.StiffnessN > 0) || !finite(s.StiffnessN) {
		return 0, false
	}
	return s.ForceN / s.StiffnessN, true
}

// Stored is the energy in a piece.
//
//	E = F·e·L/(n+1),  n = 1: E = F²·L/(2·EA)
func (s Spring) Stored() (j quantity.Energy, ok bool) {
	e, ok := s.strain()
	return quantity.Energy(s.ForceN * e * s.LengthM / (max(1, s.Exponent) + 1)), ok
}

// OwnSpeed is the speed at which the free end of a piece recoils by itself.
//
//	½·m′·L·v₀² = E,  n = 1: v₀ = F/√(EA·m′)
func (s Spring) OwnSpeed() (v quantity.Speed, ok bool) {
	e, ok := s.strain()
	if !ok || !(s.MassKgPerM > 0) || !finite(s.MassKgPerM) {
		return 0, false
	}
	return quantity.Speed(math.Sqrt(2 * s.ForceN * e / ((max(1, s.Exponent) + 1) * s.MassKgPerM))), true
}

// Pulled is a line and all that is loaded in a row with it, at one pull. Straps
// are those whose mass is not counted: it would only slow the end.
type Pulled struct{ Springs, Straps []Spring }

// RecoilIn is a line at the pull that moves the casualty and at stall; either
// may be empty, not known. HardwareKg is the heaviest thing that may fly on its
// end, 0: none. Hardware on a line heavier than itself is thrown no faster than
// the line.
type RecoilIn struct {
	Line        plan.ID
	Move, Stall Pulled
	HardwareKg  float64
}

// RecoilResult is what a parting line lets go, at the pull at which that is
// more. EnergyKnown and SpeedKnown tell what could be computed; nothing here
// sizes a zone.
type RecoilResult struct {
	EnergyKnown, SpeedKnown bool
	Energy                  quantity.Energy // of all pieces in series
	Move, Stall             quantity.Energy // the same at each pull; 0: not known
	LineKg                  float64
	End                     quantity.Speed  // of the bare end, upper figure
	Hardware                quantity.Speed  // of hardware on the end, upper figure; 0 without
	Estimate                quantity.Speed  // of hardware, likely; never above Hardware; 0 without
	HardwareEnergy          quantity.Energy // of the hardware at its upper speed
	Flight                  quantity.Length // how far hardware could reach without air, at the worst angle
}

// Recoil computes energy and speeds of a parting line.
//
//	E = ΣE,  v_end = max(F/√(EA·m′) of each piece, √(2E/m_line))
//	v_hardware ≤ √(2E/max(m_line, M)),  estimate √(2E/(M + m_line/3)), not above it
func Recoil(in RecoilIn, derivation *part.Derivation, found *[]part.Finding) RecoilResult {
	if len(in.Move.Springs)+len(in.Stall.Springs) == 0 {
		return RecoilResult{}
	}
	move, stall := in.Move.letsGo(in.HardwareKg), in.Stall.letsGo(in.HardwareKg)
	res, at := move, &in.Move
	if stall.EnergyKnown && stall.Energy >= move.Energy {
		res, at = stall, &in.Stall
	}
	res.Move, res.Stall = move.Energy, stall.Energy
	if !res.EnergyKnown {
		if found != nil {
			raise(found, "recoil-not-computed", part.Notice, []plan.ID{in.Line})
		}
		return res
	}
	if derivation.On() {
		derivation.Add("recoil-energy", part.Number("energy", part.UnitEnergy, res.Energy), part.Operand{Value: part.Count("pieces", len(at.Springs)+len(at.Straps))})
		if res.SpeedKnown {
			derivation.Add("recoil-speed", part.Number("speed", part.UnitSpeed, res.End), part.Operand{Value: part.Number("energy", part.UnitEnergy, res.Energy)},
				part.Operand{Value: part.Number("mass", part.UnitMass, res.LineKg)})
		}
	}
	if found == nil || float64(res.Energy) < facts.EnergyHazardous.Value() {
		return res
	}
	switch {
	case !move.EnergyKnown:
		raise(found, "recoil-energy-at", part.Notice, []plan.ID{in.Line}, part.Word("pull", "at stall"), part.Number("energy", part.UnitEnergy, res.Energy))
	case !stall.EnergyKnown:
		raise(found, "recoil-energy-at", part.Notice, []plan.ID{in.Line}, part.Word("pull", "at the planned pull"), part.Number("energy", part.UnitEnergy, res.Energy))
	case !res.SpeedKnown:
		raise(found, "recoil-energy-only", part.Notice, []plan.ID{in.Line}, part.Number("energy", part.UnitEnergy, move.Energy), part.Number("stall", part.UnitEnergy, stall.Energy))
	default:
		raise(found, "recoil-energy", part.Notice, []plan.ID{in.Line}, part.Number("energy", part.UnitEnergy, move.Energy), part.Number("stall", part.UnitEnergy, stall.Energy), part.Number("speed", part.UnitSpeed, res.End))
	}
	return res
}

// letsGo is what parts at one pull; the zero value where a figure is missing.
func (p *Pulled) letsGo(hardwareKg float64) (res RecoilResult) {
	if len(p.Springs) == 0 {
		return res
	}
	res.EnergyKnown, res.SpeedKnown = true, true
	var e, fastest float64
	for i := range p.Springs {
		s := &p.Springs[i]
		j, ok := s.Stored()
		v, fast := s.OwnSpeed()
		res.EnergyKnown = res.EnergyKnown && ok
		res.SpeedKnown = res.SpeedKnown && fast
		e += float64(j)
		res.LineKg += s.MassKgPerM * s.LengthM
		fastest = max(fastest, float64(v))
	}
	for i := range p.Straps {
		j, ok := p.Straps[i].Stored()
		res.EnergyKnown = res.EnergyKnown && ok
		e += float64(j)
	}
	if !finite(e) || !res.EnergyKnown {
		return RecoilResult{}
	}
	res.Energy = quantity.Energy(e)
	if res.SpeedKnown && res.LineKg > 0 {
		res.End = quantity.Speed(max(fastest, math.Sqrt(2*e/res.LineKg)))
	} else {
		res.SpeedKnown = false
	}
	if m := hardwareKg; m > 0 && finite(m) {
		v := math.Sqrt(2 * e / max(res.LineKg, m))
		res.Hardware = quantity.Speed(v)
		res.HardwareEnergy = quantity.Energy(m * v * v / 2)
		res.Flight = Flight(res.Hardware)
		res.Estimate = quantity.Speed(min(v, math.Sqrt(2*e/(m+facts.RecoilLineShareHardware.Value()*res.LineKg))))
	}
	return res
}

// Flight is how far something thrown could reach without air, at the worst
// angle: an upper limit, no radius of a zone.
//
//	R = v²/g
func Flight(v quantity.Speed) quantity.Length {
	return quantity.Length(float64(v) * float64(v) / quantity.Gravity)
}
