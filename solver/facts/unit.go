package facts

// Exact by definition: international pound, foot and inch, standard gravity.
const (
	poundKg   = 0.45359237
	footM     = 0.3048
	inchM     = 0.0254
	gravity   = 9.80665
	poundN    = poundKg * gravity
	shortTonN = 2000 * poundN
)

// unitFactor gives the factor to SI of a unit name a row may use. Weights
// used as ratings ("t rated") become newtons.
func unitFactor(unit string) (float64, bool) {
	switch unit {
	case "1", "m", "kg", "N", "Pa", "J", "s", "m/s", "deg", "kg/m", "kg/m3", "m2", "A", "V", "N m/kg", "m/s2":
		return 1, true
	case "%":
		return 0.01, true
	case "cm":
		return 0.01, true
	case "1/cm":
		return 100, true
	case "mm":
		return 0.001, true
	case "in":
		return inchM, true
	case "ft":
		return footM, true
	case "t":
		return 1000, true
	case "lb":
		return poundKg, true
	case "kN":
		return 1000, true
	case "MN":
		return 1e6, true
	case "kgf":
		return gravity, true
	case "t rated", "tf":
		return 1000 * gravity, true
	case "lbf":
		return poundN, true
	case "kipf":
		return 1000 * poundN, true
	case "short ton rated":
		return shortTonN, true
	case "lbf/ft2":
		return poundN / (footM * footM), true
	case "MPa", "N/mm2":
		return 1e6, true
	case "GPa":
		return 1e9, true
	case "kJ":
		return 1000, true
	case "km/h":
		return 1 / 3.6, true
	case "mile/h":
		return 1609.344 / 3600, true
	case "J/cm2":
		return 1e4, true
	case "min":
		return 60, true
	case "kN/cm2": // coefficient of a rule kN = c·D² with D in cm
		return 1000 / (0.01 * 0.01), true
	case "N/mm2 d2", "kg/m mm2": // coefficient of N = c·d² or kg/m = c·d², d in mm
		return 1 / (0.001 * 0.001), true
	case "N/mm": // coefficient of N = c·width, width in mm
		return 1 / 0.001, true
	case "1/m":
		return 1, true
	}
	return 0, false
}
