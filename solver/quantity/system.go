package quantity

import "fmt"

// ForceUnit is the unit forces are shown in and bare numbers are read in. The
// zero value is kilonewtons.
type ForceUnit uint8

// The units a force is shown in.
const (
	InKilonewtons ForceUnit = iota
	InKilogramsForce
	InPoundsForce
	forceUnits // how many
)

// LengthUnit is the unit lengths are shown in and bare numbers are read in.
// The zero value is metres.
type LengthUnit uint8

// The units a length is shown in.
const (
	InMetres LengthUnit = iota
	InFeet
	lengthUnits // how many
)

// MassUnit is the unit masses are shown in and bare numbers are read in. The
// zero value is kilograms.
type MassUnit uint8

// The units a mass is shown in.
const (
	InKilograms MassUnit = iota
	InPounds
	massUnits // how many
)

// System is the choice of units a person works in: one for forces, one for
// lengths, one for masses. It is a plain number so that the usual choices are
// constants. The zero value is [Metric], and a value past the last of [Systems]
// counts as it.
type System uint8

// The usual systems.
const (
	Metric    System = 0                                                                                                   // kN, m, kg
	KgfMetric        = System(InKilogramsForce)                                                                            // kgf, m, kg
	Imperial         = System(uint8(InPoundsForce) + uint8(forceUnits)*(uint8(InFeet)+uint8(lengthUnits)*uint8(InPounds))) // lbf, ft, lb
)

const systems = System(uint8(forceUnits) * uint8(lengthUnits) * uint8(massUnits))

// Systems are all twelve systems in a fixed order, [Metric] first.
func Systems() []System {
	all := make([]System, systems)
	for i := range all {
		all[i] = System(i)
	}
	return all
}

func (s System) known() uint8 {
	if s >= systems {
		return uint8(Metric)
	}
	return uint8(s)
}

// Force is the unit forces are shown in.
func (s System) Force() ForceUnit { return ForceUnit(s.known() % uint8(forceUnits)) }

// Length is the unit lengths are shown in.
func (s System) Length() LengthUnit {
	return LengthUnit(s.known() / uint8(forceUnits) % uint8(lengthUnits))
}

// Mass is the unit masses are shown in.
func (s System) Mass() MassUnit {
	return MassUnit(s.known() / (uint8(forceUnits) * uint8(lengthUnits)))
}

// String is the three symbols, as in "kN, m, kg".
func (s System) String() string {
	return fmt.Sprintf("%s, %s, %s", s.Force(), s.Length(), s.Mass())
}

// String is the unit's symbol.
func (u ForceUnit) String() string { return u.unit().symbol }

// String is the unit's symbol.
func (u LengthUnit) String() string { return u.unit().symbol }

// String is the unit's symbol.
func (u MassUnit) String() string { return u.unit().symbol }

func (u ForceUnit) unit() shownUnit {
	switch u {
	case InKilogramsForce:
		return shownUnit{symbol: "kgf", si: float64(KilogramForce)}
	case InPoundsForce:
		return shownUnit{symbol: "lbf", si: float64(PoundForce)}
	default:
		return shownUnit{symbol: "kN", si: float64(Kilonewton)}
	}
}

func (u LengthUnit) unit() shownUnit {
	if u == InFeet {
		return shownUnit{symbol: "ft", si: float64(Foot)}
	}
	return shownUnit{symbol: "m", si: float64(Metre)}
}

func (u MassUnit) unit() shownUnit {
	if u == InPounds {
		return shownUnit{symbol: "lb", si: float64(Pound)}
	}
	return shownUnit{symbol: "kg", si: float64(Kilogram)}
}

// SpeedUnit is the unit a speed is shown in and bare numbers are read in. A
// system does not fix it, because line speeds are given by the minute and
// water by the second: each field says its own. The zero value is m/s.
type SpeedUnit uint8

// The units a speed is shown in.
const (
	InMetresPerSecond SpeedUnit = iota
	InMetresPerMinute
	InKilometresPerHour
	InFeetPerMinute
	speedUnits // how many
)

// String is the unit's symbol.
func (u SpeedUnit) String() string { return u.unit().symbol }

func (u SpeedUnit) unit() shownUnit {
	switch u {
	case InMetresPerMinute:
		return shownUnit{symbol: "m/min", si: float64(MetrePerMinute)}
	case InKilometresPerHour:
		return shownUnit{symbol: "km/h", si: float64(KilometrePerHour)}
	case InFeetPerMinute:
		return shownUnit{symbol: "ft/min", si: float64(FootPerMinute)}
	default:
		return shownUnit{symbol: "m/s", si: float64(MetrePerSecond)}
	}
}

// shownUnit is a unit as printed: its symbol and its size in the SI unit.
type shownUnit struct {
	symbol string
	si     float64
}
