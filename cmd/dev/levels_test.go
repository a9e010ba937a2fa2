package main

// module is the project's module path, and the prefix of its packages.
const module = "kedge"

// levels is the import order: a package imports only packages of lower
// levels. Paths are within the module. A new package is entered here, on the
// level above everything it has to import.
var levels = map[string]int{
	"solver/refusal":  1,
	"solver/flat":     1,
	"solver/quantity": 1,

	"solver/plan": 2,

	"solver/part":            3,
	"solver/facts":           3,
	"solver/facts/factstest": 4,

	"solver/statics": 4,
	"solver/terrain": 4,

	// Never each other; what they need of each other comes as arguments from
	// solver.
	"solver/effort": 5,
	"solver/gear":   5,
	"solver/hold":   5,
	"solver/zone":   5,

	"solver": 6,

	"solver/travel": 7,
	"solver/doubt":  7,
	"solver/layout": 7,
	"solver/seeded": 7,

	"canvas/words":  8,
	"canvas/form":   8,
	"canvas/remedy": 8,

	"canvas/pen":      9,
	"canvas/label":    9,
	"canvas/draw":     9,
	"canvas/exercise": 9,
	"canvas/sheet":    9,
	"canvas/board":    9,
	"canvas/store":    9,
	"canvas/report":   9,
	"canvas/survey":   9,

	"canvas/panel":  10,
	"canvas/window": 10,

	"cmd/kedge":       11,
	"cmd/kedge-board": 11,
	"cmd/dev":         11,
}

// The embedded files import nothing of ours, and everything from this level
// on may import them: quantity and plan know of no file.
const (
	assetsPackage = "assets"
	assetsFrom    = 3
)

// sameLevel lists the imports allowed within one level, as importer to
// imported, each with its reason.
var sameLevel = map[[2]string]string{
	{"solver/quantity", "solver/refusal"}: "a text that cannot be read is refused",
	{"solver/facts", "solver/part"}:       "a figure of the handbook says how sure it is in the words of the answers",
	{"canvas/form", "canvas/words"}:       "a field is labelled in the words of the screen",
	{"canvas/remedy", "canvas/words"}:     "an edit has a name on the screen, and a refusal a sentence",
	{"canvas/remedy", "canvas/form"}:      "a remedy types into fields, or says which is to be typed into",
	{"canvas/draw", "canvas/pen"}:         "draw knows what is drawn, pen how a path becomes ink",
	{"canvas/sheet", "canvas/pen"}:        "a sheet's frame and tables are inked like the drawing",
	{"canvas/sheet", "canvas/exercise"}:   "an exercise is set on pages",
	{"canvas/sheet", "canvas/draw"}:       "a sheet shows the drawing itself, at a scale",
	{"canvas/sheet", "canvas/report"}:     "a report is set on pages",
	{"canvas/board", "canvas/draw"}:       "the board turns pointer places into site places by the view that was drawn",
	{"canvas/draw", "canvas/label"}:       "draw knows what is said, label where there is room for it",
	{"canvas/label", "canvas/pen"}:        "labels lie among the points and boxes of a picture",
	{"canvas/window", "canvas/panel"}:     "a window is made of panels",
}

// outside is what no file of the solver imports: its answers depend on the
// plan and the facts alone. fmt itself needs os, so direct imports count.
var outside = []string{"os", "net", "time", "syscall", "math/rand"}

// drawsPlans is what draws plans from seeds for tests: chance is its trade, and
// nothing but tests imports it.
const drawsPlans = "solver/seeded"

// apart never import each other, in tests either.
var apart = []string{"solver/effort", "solver/gear", "solver/hold", "solver/zone"}

const (
	windowPath = "canvas/window"
	panelPath  = "canvas/panel"
	boardPath  = "cmd/kedge-board"
	devPath    = "cmd/dev"
	planPath   = "solver/plan"

	fyne     = "fyne.io/fyne/v2"
	fyneApp  = "fyne.io/fyne/v2/app" // the one part of Fyne that needs cgo
	optimize = "gonum.org/v1/gonum/optimize"
	fastJSON = "github.com/go-json-experiment/json"
)
