package hold_test

import (
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

const kN = quantity.Kilonewton

var nan = math.NaN()

// inDelta is assert.InDelta that fails on NaN.
func inDelta(t testing.TB, want, got, delta float64, msg ...any) {
	t.Helper()
	require.False(t, math.IsNaN(want) || math.IsNaN(got), msg...)
	assert.InDelta(t, want, got, delta, msg...)
}

// pine is the design's tree: Scots pine 48 cm thick at breast height, 52 at the
// strap, 20 m, gleyed, shallow.
func pine() *plan.Anchor {
	return &plan.Anchor{
		Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree, Species: "scots-pine",
		Girth: 0.48 * math.Pi, Trunk: 0.52, Height: 20, Health: plan.HealthAlive, Rooting: "shallow", Soil: hold.SoilGleyed,
	}
}

// spruce is a Norway spruce 30 cm, 20 m, gleyed, shallow: stem 547 kg, tested to
// 673 kg.
func spruce() *plan.Anchor {
	a := pine()
	a.Species = "norway-spruce"
	return thick(a, 0.30)
}

// thick gives a tree a diameter, at breast height and at the strap alike.
func thick(a *plan.Anchor, d quantity.Length) *plan.Anchor {
	a.Girth, a.Trunk = d*math.Pi, d
	return a
}

// pickets is a 3-2-1 holdfast in loam, set to be pulled east.
func pickets() *plan.Anchor {
	return &plan.Anchor{Head: plan.Head{ID: "P1"}, Kind: plan.AnchorPickets, Layout: "3-2-1", Soil: hold.SoilLoam, SetBearing: 90, SetKnown: true}
}

// log is a stout deadman in loam, set to be pulled east.
func log() *plan.Anchor {
	return &plan.Anchor{Head: plan.Head{ID: "D1"}, Kind: plan.AnchorDeadman, Soil: hold.SoilLoam, SetBearing: 90, SetKnown: true,
		Depth: 4 * quantity.Foot, LogLength: 1.8, LogDiameter: 0.40}
}

func boulder() *plan.Anchor {
	return &plan.Anchor{Head: plan.Head{ID: "B1"}, Kind: plan.AnchorBoulder, Mass: 6000}
}

func rated() *plan.Anchor {
	return &plan.Anchor{Head: plan.Head{ID: "R1"}, Kind: plan.AnchorRated, Rating: plan.Rating{Force: 50 * kN, Basis: plan.BasisWorking}}
}

var (
	east  = r3.Vector{X: 10e3}
	north = r3.Vector{Y: 10e3}
)

// rising is a load toward the east that rises.
func rising(deg float64) r3.Vector {
	s, c := math.Sincos(deg * math.Pi / 180)
	return r3.Vector{X: 10e3 * c, Z: 10e3 * s}
}

// bearing is a level load toward a bearing.
func bearing(deg float64) r3.Vector {
	s, c := math.Sincos(deg * math.Pi / 180)
	return r3.Vector{X: 10e3 * s, Y: 10e3 * c}
}

// texts are the texts of this package and of gear, which it shares ratings with.
func texts(t testing.TB) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{"basis": {}, "formula": {}, "note": {}, "remedy": {}}
	for _, name := range []string{"en-hold.toml", "en-gear.toml"} {
		data, err := os.ReadFile("../../assets/words/" + name)
		require.NoError(t, err)
		var file struct {
			Finding map[string]map[string]string `toml:"finding"`
			Basis   map[string]string            `toml:"basis"`
			Formula map[string]string            `toml:"formula"`
			Note    map[string]string            `toml:"note"`
			Remedy  map[string]string            `toml:"remedy"`
		}
		_, err = toml.Decode(string(data), &file)
		require.NoError(t, err)
		for id, text := range file.Finding {
			out[id] = text
		}
		for section, list := range map[string]map[string]string{"basis": file.Basis, "formula": file.Formula, "note": file.Note, "remedy": file.Remedy} {
			for id, text := range list {
				out[section][id] = text
			}
		}
	}
	return out
}

var slot = regexp.MustCompile(`\{([a-z0-9-]+)[:|}]`)

// slots are the names of a text's placeholders.
func slots(text string) (names []string) {
	for _, m := range slot.FindAllStringSubmatch(text, -1) {
		names = append(names, m[1])
	}
	return names
}

// documented checks findings against the rules.
func documented(t testing.TB, found []part.Finding) {
	t.Helper()
	words := texts(t)
	for _, f := range found {
		for _, l := range f.Lacks {
			assert.NotEmpty(t, l.Rule, f.ID)
			assert.NotEmpty(t, l.Member, f.ID)
			assert.Contains(t, words, l.Rule, "a rule of this room")
		}
		if f.ID == part.NotDecidedID {
			assert.NotEmpty(t, f.Lacks)
			continue
		}
		i := slices.IndexFunc(hold.Rules, func(r part.Rule) bool { return r.ID == f.ID })
		require.GreaterOrEqual(t, i, 0, "no rule %q", f.ID)
		rule := hold.Rules[i]
		assert.Contains(t, rule.Levels, f.Level, f.ID)
		var names []string
		for _, v := range f.Values {
			names = append(names, v.Name)
			assert.False(t, math.IsInf(v.X, 0), "%s: %s", f.ID, v.Name)
		}
		assert.ElementsMatch(t, rule.Values, names, f.ID)
		assert.NotEmpty(t, f.Things, f.ID)
		for _, r := range f.Remedies {
			assert.Contains(t, words["remedy"], r.Do, f.ID)
		}
	}
}

func TestRulesAreDocumented(t *testing.T) {
	words := texts(t)
	last := ""
	for _, r := range hold.Rules {
		assert.Less(t, last, r.ID, "sorted by id")
		last = r.ID
		assert.NotEmpty(t, r.Levels, r.ID)
		assert.NotEmpty(t, r.Why, r.ID)
		text, ok := words[r.ID]
		require.True(t, ok, "no text of %q", r.ID)
		for _, sentence := range []string{text["what"], text["do"]} {
			require.NotEmpty(t, sentence, r.ID)
			for _, name := range slots(sentence) {
				assert.Contains(t, append([]string{"thing", "thing2", "part"}, r.Values...), name, r.ID)
			}
			for _, banned := range []string{"safe", "OK", "is clear"} {
				assert.NotContains(t, strings.Fields(sentence), banned, r.ID)
			}
		}
	}
}

// ids are those of findings, in order.
func ids(found []part.Finding) (out []string) {
	for _, f := range found {
		out = append(out, f.ID)
	}
	return out
}
