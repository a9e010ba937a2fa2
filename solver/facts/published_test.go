package facts_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/facts/factstest"
)

const publishedFolder = "../../testdata/published"

func published(t *testing.T, file string) []factstest.Case {
	t.Helper()
	return factstest.Published(t, os.DirFS(publishedFolder), file)
}

// Every file of worked examples is well formed: unique ids, a source, a known
// confidence and room, one tolerance with its reason, rows that exist.
func TestPublishedFilesAreWellFormed(t *testing.T) {
	entries, err := os.ReadDir(publishedFolder)
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, entry := range entries {
		base, isCases := strings.CutSuffix(entry.Name(), ".toml")
		if !isCases {
			continue
		}
		for _, c := range published(t, entry.Name()) {
			t.Run(c.ID, func(t *testing.T) {
				assert.True(t, strings.HasPrefix(c.ID, base+"."), "ids begin with the file's name")
				assert.False(t, seen[c.ID], "id is used twice")
				seen[c.ID] = true
				assert.Contains(t, []string{"effort", "gear", "hold", "zone", "statics"}, c.Package)
				assert.Contains(t, facts.Confidences(), facts.Confidence(c.Confidence))
				assert.NotEmpty(t, c.Title)
				assert.NotEmpty(t, c.Formula)
				assert.NotEmpty(t, c.Source)
				assert.NotEmpty(t, c.ToleranceWhy)
				assert.True(t, (c.ToleranceRel > 0) != (c.ToleranceAbs > 0), "one tolerance")
				assert.NotEmpty(t, c.Expected)
				for name := range c.Inputs {
					assert.NotEmpty(t, c.Ins(t, name))
				}
				for name := range c.Expected {
					assert.NotEmpty(t, c.Wants(t, name))
				}
				for _, id := range c.Facts {
					_, ok := facts.Get(facts.ID(id))
					assert.True(t, ok, "%s is no row", id)
				}
			})
		}
	}
	assert.GreaterOrEqual(t, len(seen), 120)
}

// sum is the plain arithmetic of a case. It reads the case's own inputs and,
// where the case goes with rows of the handbook, takes the constants from the
// rows instead, so that a row that drifts from its source is found.
type sum func(t *testing.T, c factstest.Case)

func likely(id facts.ID) float64 { return facts.Must(id).Likely }

func step(t *testing.T, id facts.ID, x float64) float64 {
	t.Helper()
	v, ok := facts.Must(id).Step(x)
	require.True(t, ok, "%s at %g", id, x)
	return v
}

func stepOf(t *testing.T, id facts.ID, column string, x float64) float64 {
	t.Helper()
	v, ok := facts.Must(id).StepOf(column, x)
	require.True(t, ok, "%s %s at %g", id, column, x)
	return v
}

// each maps a function over a list.
func each(xs []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = f(x)
	}
	return out
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// series is 1 + E + … of n terms times E: load over pull of an n-part tackle.
func series(e, n float64) float64 { return e * (1 - math.Pow(e, n)) / (1 - e) }

// lead is pull over load with every part's sheave turning.
func lead(k, n float64) float64 { return math.Pow(k, n) * (k - 1) / (math.Pow(k, n) - 1) }

// layer is the pull on a layer over that of the first, d the line, D the drum.
func layer(drum, line, n float64) float64 { return (drum + line) / (drum + (2*n-1)*line) }

func run(t *testing.T, file string, sums map[string]sum) {
	cases := published(t, file)
	for _, c := range cases {
		if check, ok := sums[c.ID]; ok {
			t.Run(c.ID, func(t *testing.T) { check(t, c) })
			delete(sums, c.ID)
		}
	}
	for id := range sums {
		t.Errorf("%s has no case %s", file, id)
	}
}

func TestPublishedLoads(t *testing.T) {
	tackle := func(t *testing.T, c factstest.Case) {
		load, n := c.In(t, "load_tons"), c.In(t, "sheaves")
		total := load * (1 + likely(facts.ArmyTacklePerSheave)*n)
		c.Check(t, "total_tons", total)
		c.Check(t, "pull_tons", total/c.In(t, "parts"))
	}
	army := func(t *testing.T, c factstest.Case) {
		resistance := (c.In(t, "vehicle_lb") + c.In(t, "cargo_lb")) * c.In(t, "mire") * (1 - c.In(t, "reduction"))
		winch := c.In(t, "winch_lb")
		for parts := math.Max(1, math.Ceil(resistance/winch)); ; parts++ {
			sheaves := parts - likely(facts.ArmySheaves)
			friction := likely(facts.ArmyTacklePerSheave) * resistance * sheaves
			if fall := (resistance + friction) / parts; fall <= winch {
				c.Check(t, "load_resistance_lb", resistance)
				c.Check(t, "advantage", parts)
				c.Check(t, "sheaves", sheaves)
				c.Check(t, "tackle_lb", friction)
				c.Check(t, "total_lb", resistance+friction)
				c.Check(t, "fall_line_lb", fall)
				return
			}
			require.Less(t, parts, 20.0)
		}
	}
	partsTable := func(id facts.ID, e facts.ID) sum {
		return func(t *testing.T, c factstest.Case) {
			c.Check(t, "ratio", each(c.Ins(t, "parts"), func(n float64) float64 { return series(likely(e), n) })...)
			c.Check(t, "ratio", each(c.Ins(t, "parts"), func(n float64) float64 { return step(t, id, n) })...)
		}
	}
	leadTable := func(k facts.ID) sum {
		return func(t *testing.T, c factstest.Case) {
			c.Check(t, "factor", each(c.Ins(t, "parts"), func(n float64) float64 { return lead(likely(k), n) })...)
		}
	}
	run(t, "loads.toml", map[string]sum{
		"loads.t1": func(t *testing.T, c factstest.Case) {
			friction := likely(facts.ArmyTacklePerSheave) * c.In(t, "load_lb") * c.In(t, "sheaves")
			c.Check(t, "friction_lb", friction)
			c.Check(t, "total_lb", c.In(t, "load_lb")+friction)
			c.Check(t, "pull_lb", (c.In(t, "load_lb")+friction)/c.In(t, "advantage"))
		},
		"loads.t2": func(t *testing.T, c factstest.Case) {
			c.Check(t, "frictionless_tons", c.In(t, "rope_swl_tons")*c.In(t, "advantage"))
			c.Check(t, "safe_load_tons", c.In(t, "rope_swl_tons")*c.In(t, "advantage")*10/(10+c.In(t, "sheaves")))
		},
		"loads.t3a": func(t *testing.T, c factstest.Case) { c.Check(t, "pull_lb", c.In(t, "load_lb")/c.In(t, "advantage")) },
		"loads.t3b": func(t *testing.T, c factstest.Case) { c.Check(t, "pull_lb", c.In(t, "load_lb")/c.In(t, "advantage")) },
		"loads.t4": func(t *testing.T, c factstest.Case) {
			advantage := series(likely(facts.SheavePlain), c.In(t, "parts"))
			c.Check(t, "advantage", advantage)
			c.Check(t, "pull_lb", c.In(t, "load_lb")/advantage)
		},
		"loads.t5": func(t *testing.T, c factstest.Case) { c.Check(t, "pull_lb", c.In(t, "load_lb")/c.In(t, "parts")) },
		"loads.t6": func(t *testing.T, c factstest.Case) {
			k := likely(facts.SheavePlainK)
			factor := lead(k, c.In(t, "parts")) * math.Pow(k, c.In(t, "lead_sheaves"))
			c.Check(t, "factor", factor)
			c.Check(t, "pull_lb", factor*c.In(t, "load_lb"))
		},
		"loads.lead-plain": leadTable(facts.SheavePlainK), "loads.lead-roller": leadTable(facts.SheaveRollerK),
		"loads.t7": tackle, "loads.t8": tackle, "loads.t9": tackle, "loads.t9b": tackle,
		"loads.t11": tackle, "loads.t13": tackle, "loads.t14": tackle, "loads.t16": tackle,
		"loads.t17": func(t *testing.T, c factstest.Case) {
			ratio := c.In(t, "load_lb") / c.In(t, "pull_lb")
			c.Check(t, "ratio", ratio)
			for name, id := range map[string]facts.ID{"bronze_parts": facts.SheavePartsBronze, "roller_parts": facts.SheavePartsRoller} {
				cells := facts.Must(id).Cells()
				at := slices.IndexFunc(cells, func(line []float64) bool { return line[1] >= ratio })
				require.GreaterOrEqual(t, at, 0)
				c.Check(t, name, cells[at][0])
			}
		},
		"loads.parts-bronze": partsTable(facts.SheavePartsBronze, facts.SheaveCraneBronze),
		"loads.parts-roller": partsTable(facts.SheavePartsRoller, facts.SheaveCraneRoller),
		"loads.rules": func(t *testing.T, c factstest.Case) {
			parts := c.Ins(t, "parts")
			moving := func(k facts.ID) []float64 {
				return each(parts, func(n float64) float64 { return lead(likely(k), n) / likely(k) })
			}
			c.Check(t, "ideal", each(parts, func(n float64) float64 { return 1 / n })...)
			c.Check(t, "army", each(parts, func(n float64) float64 { return (1 + likely(facts.ArmyTacklePerSheave)*(n-1)) / n })...)
			c.Check(t, "plain", moving(facts.SheavePlainK)...)
			c.Check(t, "roller", moving(facts.SheaveRollerK)...)
		},
		"loads.t18": func(t *testing.T, c factstest.Case) {
			c.Check(t, "pull_lb", each(c.Ins(t, "layers"), func(n float64) float64 {
				return c.In(t, "first_lb") * layer(c.In(t, "drum_over_line"), 1, n)
			})...)
			c.Check(t, "pull_lb", each(c.Ins(t, "layers"), func(n float64) float64 { return step(t, facts.WinchArmyLayers, n) })...)
		},
		"loads.t19": func(t *testing.T, c factstest.Case) {
			part := c.In(t, "resistance_tons") / c.In(t, "parts")
			c.Check(t, "part_tons", part)
			c.Check(t, "block_tons", 2*part)
			assert.Less(t, 2*part, c.In(t, "block_rating_tons"))
			c.Check(t, "fraction", c.In(t, "resistance_tons")/c.In(t, "mass_tons"))
		},
		"loads.t20": func(t *testing.T, c factstest.Case) { c.Check(t, "lead", 1/math.Tan(rad(likely(facts.FleetPlain)))) },
		"loads.t21": func(t *testing.T, c factstest.Case) {
			grade := c.In(t, "rise_ft") / c.In(t, "run_ft")
			c.Check(t, "grade", grade)
			c.Check(t, "angle_deg", math.Atan(grade)*180/math.Pi)
		},
		"loads.t22": func(t *testing.T, c factstest.Case) {
			c.Check(t, "total_n", c.In(t, "level_n")+c.In(t, "weight_n")*math.Sin(rad(c.In(t, "slope_deg"))))
		},
		"loads.t23": func(t *testing.T, c factstest.Case) {
			c.Check(t, "pull_lb", c.In(t, "weight_lb")*likely(facts.FractionSandWetHard))
		},
		"loads.army-a1": army, "loads.army-a2": army, "loads.army-a3": army, "loads.army-a4": army, "loads.army-a5": army,
	})
}
