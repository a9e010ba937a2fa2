package gear_test

import (
	"math"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
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

func working(kn float64) plan.Rating {
	return plan.Rating{Force: quantity.Force(kn) * kN, Basis: plan.BasisWorking}
}

func breaking(kn float64) plan.Rating {
	return plan.Rating{Force: quantity.Force(kn) * kN, Basis: plan.BasisBreaking}
}

// hmpe is a sound 10 mm HMPE winch line of 90 kN with a spliced eye.
func hmpe() *plan.Line {
	return &plan.Line{
		Head: plan.Head{ID: "L1"}, Material: plan.MaterialHMPE, Diameter: 0.010, Length: 40,
		Rating: breaking(90), Condition: plan.ConditionNew, End: "end.hmpe-splice",
	}
}

// wire is a sound 10 mm wire of 69.8 kN with a spliced sleeve.
func wire() *plan.Line {
	l := hmpe()
	l.Material, l.Rating, l.End = plan.MaterialWire, breaking(69.8), "end.sleeve-iwrc"
	return l
}

// web is a new EN web sling of 30 kN, 3 m long and 90 mm wide.
func web() *plan.Sling {
	return &plan.Sling{
		Head: plan.Head{ID: "S1"}, Material: plan.MaterialWeb, Standard: "EN", Length: 3, Width: 0.09,
		Rating: working(30), Condition: plan.ConditionNew,
	}
}

// round lays a sling on a trunk of that radius.
func round(s *plan.Sling, hitch string, radius quantity.Length, load quantity.Force) gear.SlingIn {
	s.Hitch = hitch
	return gear.SlingIn{Sling: s, Hitch: hitch, OnTrunk: true, Radius: radius,
		Round: gear.SlingRound(radius, s.Length, hitch), Load: load}
}

func bow() *plan.Shackle {
	return &plan.Shackle{Head: plan.Head{ID: "K1"}, Kind: plan.ShackleBow, Rating: working(47), Body: 0.019}
}

func block() *plan.Block {
	return &plan.Block{Head: plan.Head{ID: "B1"}, Kind: plan.BlockRoller, Rating: working(80), RatingOn: plan.RatedHanger,
		Sheave: 0.12, LineMin: 0.008, LineMax: 0.012}
}

func point() *plan.RecoveryPoint {
	return &plan.RecoveryPoint{ID: "front", Kind: plan.PointRated, Rating: working(40)}
}

// winch is a 42 kN winch with a drum of 64 mm, 230 mm wide.
func winch() *plan.Winch {
	return &plan.Winch{LinePull: 42 * kN, DrumDiameter: 0.064, DrumWidth: 0.230, FlangeDiameter: 0.250}
}

// texts are the finding texts of the package.
func texts(t testing.TB) map[string]map[string]string {
	t.Helper()
	data, err := os.ReadFile("../../assets/words/en-gear.toml")
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
	out := file.Finding
	out["basis"], out["formula"], out["note"], out["remedy"] = file.Basis, file.Formula, file.Note, file.Remedy
	return out
}

// documented checks findings against the rules: id, level, values, remedies,
// no number that is not one.
func documented(t testing.TB, found []part.Finding) {
	t.Helper()
	words := texts(t)
	for _, f := range found {
		if f.ID == part.NotDecidedID {
			undecided(t, f)
			continue
		}
		i := slices.IndexFunc(gear.Rules, func(r part.Rule) bool { return r.ID == f.ID })
		require.GreaterOrEqual(t, i, 0, "no rule %q", f.ID)
		rule := gear.Rules[i]
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

// undecided checks that a finding names a rule of the package and what it lacks.
func undecided(t testing.TB, f part.Finding) {
	t.Helper()
	assert.Equal(t, part.Caution, f.Level)
	require.NotEmpty(t, f.Lacks)
	for _, l := range f.Lacks {
		assert.True(t, slices.ContainsFunc(gear.Rules, func(r part.Rule) bool { return r.ID == l.Rule }), "no rule %q", l.Rule)
		assert.NotEmpty(t, l.Member)
	}
}

// lacksOf are the members for want of which a rule is not decided.
func lacksOf(found []part.Finding, rule string) (members []string) {
	for _, f := range found {
		for _, l := range f.Lacks {
			if l.Rule == rule {
				members = append(members, l.Member)
			}
		}
	}
	return members
}

// levelOf is the highest level of a finding with that id; false: not raised.
func levelOf(found []part.Finding, id string) (level part.Level, raised bool) {
	for _, f := range found {
		if f.ID == id && (!raised || f.Level > level) {
			level, raised = f.Level, true
		}
	}
	return level, raised
}

var slot = regexp.MustCompile(`\{([a-z0-9-]+)[:|}]`)

// slots are the names of a text's placeholders.
func slots(text string) (names []string) {
	for _, m := range slot.FindAllStringSubmatch(text, -1) {
		names = append(names, m[1])
	}
	return names
}

func TestRulesAreDocumented(t *testing.T) {
	words := texts(t)
	last := ""
	for _, r := range gear.Rules {
		assert.Less(t, last, r.ID, "sorted by id")
		last = r.ID
		assert.NotEmpty(t, r.Levels, r.ID)
		assert.NotEmpty(t, r.Why, r.ID)
		text, ok := words[r.ID]
		require.True(t, ok, "no text of %q", r.ID)
		for _, sentence := range []string{text["what"], text["do"]} {
			for _, name := range slots(sentence) {
				assert.Contains(t, append([]string{"thing", "thing2", "part"}, r.Values...), name, r.ID)
			}
			for _, banned := range []string{"safe", "OK", "is clear"} {
				assert.NotContains(t, strings.Fields(sentence), banned, r.ID)
			}
		}
	}
}

// valueOf is a value of the first finding with that id.
func valueOf(t testing.TB, found []part.Finding, id, name string) float64 {
	t.Helper()
	for _, f := range found {
		if f.ID != id {
			continue
		}
		for _, v := range f.Values {
			if v.Name == name {
				return v.X
			}
		}
	}
	require.Fail(t, "no value", "%s of %s", name, id)
	return nan
}
