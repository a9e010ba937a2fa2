package doubt_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
)

// casesDir adds more case files: go test ./solver/doubt -run TestCases -args -cases DIR
var casesDir = flag.String("cases", "", "directory of more case files, formats kedge-doubt-cases and kedge-incidents")

const (
	ownCases = "../../testdata/doubt"
	newtons  = 1000 // in a kN: the files are in kN
	perSet   = 4096 // points of a set
)

// seeds are what every case is tried with; in short the first alone.
func seeds() []uint64 {
	all := []uint64{1, 20260801, 77}
	if testing.Short() {
		return all[:1]
	}
	return all
}

// dist is a distribution of a case.
type dist struct {
	Dist                                     string
	Mean, SD, CoV, Low, Likely, High, Factor float64
}

// of is the distribution of a figure so many times as large.
func (d *dist) of(t *testing.T, scale float64) doubt.Dist {
	t.Helper()
	var out doubt.Dist
	var err error
	switch d.Dist {
	case "normal":
		out, err = doubt.Normal(d.Mean*scale, d.SD*scale)
	case "lognormal":
		out, err = doubt.Lognormal(d.Mean*scale, d.CoV)
	case "uniform":
		out, err = doubt.Uniform(d.Low*scale, d.High*scale)
	case "triangular":
		out, err = doubt.Triangular(d.Low*scale, d.Likely*scale, d.High*scale)
	default:
		t.Fatalf("distribution %q", d.Dist)
	}
	require.NoError(t, err)
	return out
}

type fact struct {
	Fact, Part     string
	Low, High      float64 // kN
	Distance, Mass float64
	Drop           float64
	Thrown         []string
	Trust          float64
	Source         string
}

// of is the fact of an incident.
func (f *fact) of(t *testing.T) doubt.Fact {
	t.Helper()
	kinds := map[string]doubt.FactKind{"failed_first": doubt.FailedFirst, "not_first": doubt.NotFirst, "held": doubt.NotFirst, "failed": doubt.Failed,
		"tension_between": doubt.TensionBetween, "stalled": doubt.Stalled, "found_at": doubt.FoundAt}
	kind, ok := kinds[f.Fact]
	require.True(t, ok, "fact %q", f.Fact)
	if f.Fact == "held" && (f.Part == "all" || f.Part == "") {
		kind = doubt.HeldAll
	}
	return doubt.Fact{Kind: kind, Part: f.Part, LowN: f.Low * newtons, HighN: f.High * newtons, Thrown: f.Thrown,
		DistanceM: f.Distance, DropM: f.Drop, MassKg: f.Mass, Trust: f.Trust, Source: f.Source}
}

type exactly struct {
	Value     float64
	Tolerance map[string]float64 `json:"tolerance_3se"`
	Wrong     []struct{ Value float64 }
}

type evidence struct {
	Set   string
	Facts []fact
}

type refCase struct {
	ID, Kind string
	Inputs   map[string]json.RawMessage
	Model    struct {
		Type         string
		Coefficients []float64
	}
	Evidence []evidence
	Expected struct {
		Status     string
		Quantities map[string]exactly
	}
	spread float64 // times three standard errors that are allowed
}

type caseFile struct {
	Format string
	Cases  []json.RawMessage
}

// TestCases runs the open cases, and those of -cases.
func TestCases(t *testing.T) {
	names, err := filepath.Glob(filepath.Join(ownCases, "*.json"))
	require.NoError(t, err)
	if *casesDir != "" {
		dir := *casesDir
		if _, err := os.Stat(dir); err != nil && !filepath.IsAbs(dir) {
			dir = filepath.Join("../..", dir) // given from the root of the repository
		}
		more, err := filepath.Glob(filepath.Join(dir, "*.json"))
		require.NoError(t, err)
		require.NotEmpty(t, more, "no case files in %s", dir)
		names = append(names, more...)
	}
	ran := map[string]bool{}
	for _, n := range names {
		raw, err := os.ReadFile(n)
		require.NoError(t, err)
		var f caseFile
		require.NoError(t, json.Unmarshal(raw, &f), n)
		run, ok := map[string]func(*testing.T, json.RawMessage){"kedge-doubt-cases": runCase, "kedge-incidents": runIncident}[f.Format]
		if !ok {
			t.Logf("%s holds other cases: %s", n, f.Format)
			continue
		}
		require.NotEmpty(t, f.Cases, n)
		for _, c := range f.Cases {
			var head struct{ ID string }
			require.NoError(t, json.Unmarshal(c, &head))
			if ran[head.ID] {
				continue // a file that is ours too
			}
			ran[head.ID] = true
			t.Run(head.ID, func(t *testing.T) { run(t, c) })
		}
	}
	require.GreaterOrEqual(t, len(ran), 23, "the open cases")
}

// runCase runs a case of the first format with every seed.
func runCase(t *testing.T, raw json.RawMessage) {
	var c refCase
	require.NoError(t, json.Unmarshal(raw, &c))
	c.spread = 1
	if len(c.Expected.Quantities) > 20 {
		c.spread = 4.0 / 3
	}
	run, ok := map[string]func(*testing.T, *refCase, uint64) map[string]float64{
		"exceed": exceed, "chain": chain, "chain_hypotheses": chain, "chain_stall": chain,
		"flying_bound": flying, "sling_basket": slingBasket,
		"ishigami": ishigami, "sobol_g": sobolG, "linear": linear, "bivariate_normal": bivariate,
	}[c.Model.Type]
	require.True(t, ok, "model %q", c.Model.Type)
	for _, seed := range seeds() {
		got := run(t, &c, seed)
		for _, name := range slices.Sorted(maps.Keys(c.Expected.Quantities)) {
			value, ok := got[name]
			if !ok {
				assert.Fail(t, "not answered", "%q", name)
				continue
			}
			c.check(t, fmt.Sprintf("%s, seed %d", name, seed), c.Expected.Quantities[name], value)
		}
	}
}

// check compares a figure with the exact one. Where the file gives no tolerance it is
// exact, but for what is refined: a chance to 10 %, a figure to 3 standard deviations
// of 200 trials.
func (c *refCase) check(t *testing.T, name string, want exactly, got float64) {
	t.Helper()
	tol, sampled := want.Tolerance["sobol_20000"]
	tol *= c.spread
	tol += 1e-9 * math.Abs(want.Value)
	if !sampled && c.Kind == "impossible" {
		switch q := c.Expected.Quantities; {
		case strings.HasPrefix(name, "P(evidence)") || strings.HasPrefix(name, "expected agreeing"):
			tol = 0.1 * want.Value
		case strings.HasPrefix(name, "evidence weight") || strings.Contains(name, "| told"):
			tol = 1e-6
		default:
			tol = 3 * q["sd T | evidence"].Value / math.Sqrt(200)
		}
	}
	if tol == 0 {
		tol = 1e-12
	}
	assert.InDelta(t, want.Value, got, tol, name)
	for _, w := range want.Wrong {
		if sampled {
			assert.Greater(t, math.Abs(got-w.Value), tol, "%s is what a mistake gives", name)
		}
	}
}

// in reads an input of the case.
func in[T any](t *testing.T, c *refCase, name string) T {
	t.Helper()
	var x T
	raw, ok := c.Inputs[name]
	require.True(t, ok, "input %q", name)
	require.NoError(t, json.Unmarshal(raw, &x), name)
	return x
}
