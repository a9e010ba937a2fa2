package words

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The sums of anchors are followed by hand from what is printed of them: what
// stands between the first and the last sign of equality gives what stands
// behind it, to its last digit.
func TestSumsOfAnchorsAreFollowedByHand(t *testing.T) {
	const kN = quantity.Kilonewton
	tree := func(change func(a *plan.Anchor)) plan.Anchor {
		a := plan.Anchor{Kind: plan.AnchorTree, Species: "scots-pine", Girth: 1.513, Trunk: 0.517, Height: 21.7, Health: plan.HealthAlive, Rooting: "shallow", Soil: hold.SoilGleyed}
		change(&a)
		return a
	}
	set := func(a plan.Anchor) plan.Anchor { a.SetKnown, a.SetBearing = true, 90; return a }
	log := set(plan.Anchor{Kind: plan.AnchorDeadman, Soil: hold.SoilWetFine, Depth: 1.43, LogLength: 1.87, LogDiameter: 0.413, LineRun: 2.6})
	anchors := map[string]plan.Anchor{
		"tree":                   tree(func(*plan.Anchor) {}),
		"tree by its strap":      tree(func(a *plan.Anchor) { a.Girth = 0 }),
		"tree of two sizes":      tree(func(a *plan.Anchor) { a.Trunk = 0.31 }),
		"spruce":                 tree(func(a *plan.Anchor) { a.Species = "norway-spruce" }),
		"unknown tree":           tree(func(a *plan.Anchor) { a.Species = "" }),
		"thin unknown tree":      tree(func(a *plan.Anchor) { a.Species, a.Girth = "", 0.27 }),
		"oak that was moved":     tree(func(a *plan.Anchor) { a.Species, a.PulledBefore = "oak", true }),
		"beech by its diameter":  tree(func(a *plan.Anchor) { a.Species, a.Girth, a.Height = "beech", 0.93, 44 }),
		"measured tree":          tree(func(a *plan.Anchor) { a.HoldLow = plan.Known(61.37 * kN) }),
		"measured moved tree":    tree(func(a *plan.Anchor) { a.HoldLow, a.PulledBefore = plan.Known(61.37*kN), true }),
		"pickets":                set(plan.Anchor{Kind: plan.AnchorPickets, Layout: "3-2-1", Soil: hold.SoilWetClay}),
		"log":                    log,
		"boulder":                {Kind: plan.AnchorBoulder, Mass: 6137},
		"point of breaking load": {Kind: plan.AnchorRated, Rating: plan.Rating{Force: 100 * kN, Basis: plan.BasisBreaking}},
	}
	s, c := math.Sincos(6.3 * math.Pi / 180)
	for _, language := range []string{"en", "de"} {
		w, err := New(language, quantity.Metric)
		require.NoError(t, err)
		for name, a := range anchors {
			for _, up := range []float64{0, 0.11, 1.7} {
				if up == 1.7 && a.Kind == plan.AnchorPickets { // drawn out
					continue
				}
				t.Run(language+" "+name, func(t *testing.T) {
					var derivation part.Derivation
					state := hold.Anchor(hold.In{Anchor: &a, Load: r3.Vector{X: 1, Z: up}, Normal: r3.Vector{X: s, Z: c}, Height: 1.17}, &derivation, nil)
					require.True(t, state.Limit.Known)
					for _, line := range w.Derivation(&derivation, nil) {
						follow(t, line)
					}
				})
			}
		}
		var derivation part.Derivation
		slides, tips := part.Range{Known: true, Low: 9.13 * kN}, part.Range{Known: true, Low: 8.77 * kN}
		hold.Vehicle(hold.VehicleIn{Braked: true, Slides: slides, Tips: tips}, &derivation, nil)
		hold.Vehicle(hold.VehicleIn{Braked: true, Slides: slides}, &derivation, nil)
		for _, line := range w.Derivation(&derivation, nil) {
			follow(t, line)
		}
	}
}

// follow computes a printed line by itself. What has no sign of equality is read
// off a table.
func follow(t *testing.T, line string) {
	t.Helper()
	line, _, _ = strings.Cut(plain(line), " [")
	line = decimals.ReplaceAllString(line, "$1.$2")
	parts := strings.Split(line, " = ")
	if len(parts) < 3 {
		assert.NotContains(t, line, "=", line)
		return
	}
	printed := number.FindString(strings.ReplaceAll(parts[len(parts)-1], " ", ""))
	want, err := strconv.ParseFloat(printed, 64)
	require.NoError(t, err, line)
	digit := 1.0
	if _, behind, ok := strings.Cut(printed, "."); ok {
		digit = math.Pow10(-len(behind))
	}
	digit = max(digit, want*1e-6) // of operands with seven digits
	for _, side := range parts[1 : len(parts)-1] {
		assert.InDelta(t, want, evaluate(t, side), digit*(1+1e-9), line)
	}
}

var (
	decimals = regexp.MustCompile(`([0-9]),([0-9])`) // as German writes them
	number   = regexp.MustCompile(`[0-9]+(\.[0-9]+)?`)
	least    = regexp.MustCompile(`(?:the lower of|die kleinere aus|das kleinere aus|der kleinere aus) (.+) (?:and|und) (.+)`)
	inner    = regexp.MustCompile(`\(((?:the lower of|das kleinere aus)[^()]*)\)`)
	unit     = regexp.MustCompile(`(kN·m/kg|kN/kg|kN·m|kN/m²|kg/m³|kN|kg|\bm\b|\([a-zü]+\)|to slide|to tip|pounds a square foot|Pfund je Quadratfuß|zum Rutschen|zum Kippen)`)
)

// evaluate is what a printed sum comes to.
func evaluate(t *testing.T, s string) float64 {
	t.Helper()
	if m := inner.FindStringSubmatch(s); m != nil {
		return evaluate(t, strings.Replace(s, m[0], strconv.FormatFloat(evaluate(t, m[1]), 'f', -1, 64), 1))
	}
	if m := least.FindStringSubmatch(s); m != nil {
		return math.Min(evaluate(t, m[1]), evaluate(t, m[2]))
	}
	s = unit.ReplaceAllString(s, "")
	s = regexp.MustCompile(`\( *([0-9.]+) *\)³`).ReplaceAllString(s, "($1*$1*$1)")
	s = regexp.MustCompile(`\( *([0-9.]+) *\)²`).ReplaceAllString(s, "($1*$1)")
	s = regexp.MustCompile(`([0-9.]+)²`).ReplaceAllString(s, "($1*$1)")
	s = regexp.MustCompile(`([0-9.]+)\^([0-9.]+)`).ReplaceAllString(s, "pow($1,$2)")
	s = strings.NewReplacer("×", "*", "÷", "/", "−", "-", "π", strconv.FormatFloat(math.Pi, 'f', -1, 64), "°", "").Replace(s)
	e, err := parser.ParseExpr(s)
	require.NoError(t, err, s)
	return value(t, e)
}

func value(t *testing.T, e ast.Expr) float64 {
	t.Helper()
	switch e := e.(type) {
	case *ast.BasicLit:
		x, err := strconv.ParseFloat(e.Value, 64)
		require.NoError(t, err)
		return x
	case *ast.ParenExpr:
		return value(t, e.X)
	case *ast.BinaryExpr:
		x, y := value(t, e.X), value(t, e.Y)
		return map[token.Token]float64{token.MUL: x * y, token.QUO: x / y, token.ADD: x + y, token.SUB: x - y}[e.Op]
	case *ast.CallExpr:
		x := value(t, e.Args[0])
		switch name := e.Fun.(*ast.Ident).Name; name {
		case "sin":
			return math.Sin(x * math.Pi / 180)
		case "cos":
			return math.Cos(x * math.Pi / 180)
		case "pow":
			return math.Pow(x, value(t, e.Args[1]))
		}
	}
	require.Fail(t, "cannot be evaluated")
	return math.NaN()
}
