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

// unitSI is the size in SI of the units a row may use. Weights used as ratings
// ("t rated") are newtons.
var unitSI = map[string]float64{
	"1": 1, "m": 1, "kg": 1, "N": 1, "Pa": 1, "J": 1, "s": 1, "m/s": 1, "deg": 1, "kg/m": 1, "kg/m3": 1, "m2": 1, "A": 1, "V": 1, "N m/kg": 1, "m/s2": 1,
	"%":       0.01,
	"cm":      0.01,
	"1/cm":    100,
	"mm":      0.001,
	"in":      inchM,
	"ft":      footM,
	"t":       1000,
	"lb":      poundKg,
	"kN":      1000,
	"MN":      1e6,
	"kgf":     gravity,
	"t rated": 1000 * gravity, "tf": 1000 * gravity,
	"lbf":             poundN,
	"kipf":            1000 * poundN,
	"short ton rated": shortTonN,
	"lbf/ft2":         poundN / (footM * footM),
	"MPa":             1e6, "N/mm2": 1e6,
	"GPa":      1e9,
	"kJ":       1000,
	"km/h":     1 / 3.6,
	"mile/h":   1609.344 / 3600,
	"J/cm2":    1e4,
	"min":      60,
	"kN/cm2":   1000 / (0.01 * 0.01),                                 // coefficient of a rule kN = c·D² with D in cm
	"N/mm2 d2": 1 / (0.001 * 0.001), "kg/m mm2": 1 / (0.001 * 0.001), // coefficient of N = c·d² or kg/m = c·d², d in mm
	"N/mm": 1 / 0.001, // coefficient of N = c·width, width in mm
	"1/m":  1,
}
