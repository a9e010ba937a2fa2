package zone

import (
	"math"

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

// Stretch is how much longer the piece is under its tension.
func (s Spring) Stretch() (m quantity.Length, ok bool) {
	e, ok := s.strain()
	return quantity.Length(e * s.LengthM), ok
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

// RecoilIn is a line with all that is loaded in a row with it. HardwareKg is
// the heaviest thing that may fly on its end, 0: none. Hardware on a line
// heavier than itself is thrown no faster than the line.
type RecoilIn struct {
	Line       plan.ID
	Springs    []Spring
	HardwareKg float64
}

// RecoilResult is what a parting line lets go. EnergyKnown and SpeedKnown tell
// what could be reckoned; nothing here sizes a zone.
type RecoilResult struct {
	EnergyKnown, SpeedKnown bool
	Energy                  quantity.Energy // of all pieces in series
	LineKg                  float64
	End                     quantity.Speed  // of the bare end, upper figure
	Hardware                quantity.Speed  // of hardware on the end, upper figure; 0 without
	Estimate                quantity.Speed  // of hardware, likely; never above Hardware; 0 without
	HardwareEnergy          quantity.Energy // of the hardware at its upper speed
	Flight                  quantity.Length // how far hardware could reach without air, at the worst angle
}

// Recoil reckons energy and speeds of a parting line.
//
//	E = ΣE,  v_end = max(F/√(EA·m′) of each piece, √(2E/m_line))
//	v_hardware ≤ √(2E/max(m_line, M)),  estimate √(2E/(M + m_line/3)), not above it
func Recoil(in RecoilIn, sum *part.Sum, found *[]part.Finding) (res RecoilResult) {
	if len(in.Springs) == 0 {
		return res
	}
	n := book()
	res.EnergyKnown, res.SpeedKnown = true, true
	var e, fastest float64
	for i := range in.Springs {
		s := &in.Springs[i]
		j, ok := s.Stored()
		v, fast := s.OwnSpeed()
		res.EnergyKnown = res.EnergyKnown && ok
		res.SpeedKnown = res.SpeedKnown && fast
		e += float64(j)
		res.LineKg += s.MassKgPerM * s.LengthM
		fastest = max(fastest, float64(v))
	}
	if !finite(e) || !res.EnergyKnown {
		res = RecoilResult{}
		if found != nil {
			raise(found, "recoil-not-computed", part.Notice, []plan.ID{in.Line})
		}
		return res
	}
	res.Energy = quantity.Energy(e)
	if res.SpeedKnown && res.LineKg > 0 {
		res.End = quantity.Speed(max(fastest, math.Sqrt(2*e/res.LineKg)))
	} else {
		res.SpeedKnown = false
	}
	if m := in.HardwareKg; m > 0 && finite(m) {
		v := math.Sqrt(2 * e / max(res.LineKg, m))
		res.Hardware = quantity.Speed(v)
		res.HardwareEnergy = quantity.Energy(m * v * v / 2)
		res.Flight = Flight(res.Hardware)
		res.Estimate = quantity.Speed(min(v, math.Sqrt(2*e/(m+n.lineShare*res.LineKg))))
	}
	if sum.On() {
		sum.Add("recoil-energy", energy("energy", e), part.Operand{Value: count("pieces", len(in.Springs))})
		if res.SpeedKnown {
			sum.Add("recoil-speed", speed("speed", float64(res.End)), part.Operand{Value: energy("energy", e)},
				part.Operand{Value: part.Value{Name: "mass", Unit: part.UnitMass, X: res.LineKg}})
		}
	}
	if found != nil && e >= n.hazard {
		f := raise(found, "recoil-energy", part.Notice, []plan.ID{in.Line}, energy("energy", e))
		if res.SpeedKnown {
			f.Values = append(f.Values, speed("speed", float64(res.End)))
		} else {
			f.ID = "recoil-energy-only"
		}
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

// ThrownAt is the least speed of something found a distance away.
//
//	v ≥ √(g·R)
func ThrownAt(r quantity.Length) quantity.Speed {
	return quantity.Speed(math.Sqrt(max(0, float64(r)) * quantity.Gravity))
}

// SpeedOf is the speed at which a mass carries an energy.
//
//	v = √(2E/m)
func SpeedOf(e quantity.Energy, m quantity.Mass) quantity.Speed {
	return quantity.Speed(math.Sqrt(2 * float64(e) / float64(m)))
}

// WaveSpeed is the speed at which the release runs along a piece.
//
//	c = √(EA/m′)
func (s Spring) WaveSpeed() (v quantity.Speed, ok bool) {
	if !(s.StiffnessN > 0) || !(s.MassKgPerM > 0) || !finite(s.StiffnessN) || !finite(s.MassKgPerM) {
		return 0, false
	}
	return quantity.Speed(math.Sqrt(s.StiffnessN / s.MassKgPerM)), true
}
