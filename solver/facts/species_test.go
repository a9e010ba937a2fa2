package facts_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
)

func TestTreeOf(t *testing.T) {
	// Parameter file of the forest wind-risk model: Scots pine.
	pine, ok := facts.TreeOf("scots-pine")
	require.True(t, ok)
	c, ok := pine.Moment.StepOf(facts.RootsShallow, facts.SoilGleyed)
	assert.True(t, ok)
	assert.Equal(t, 124.2, c)
	c, ok = pine.Moment.StepOf(facts.RootsDeep, facts.SoilDeepPeat)
	assert.True(t, ok)
	assert.Equal(t, 179.4, c)
	assert.Equal(t, 850.0, pine.Density.Likely)
	assert.Equal(t, 46.0, pine.MOR.Likely)
	assert.Equal(t, 0.85, pine.Knot.Likely)
	heaviest, ok := pine.Tested.Step(facts.SoilFreeDraining)
	assert.True(t, ok)
	assert.Equal(t, 469.0, heaviest)
	_, ok = pine.Tested.Step(facts.SoilGleyed)
	assert.False(t, ok, "no test known: extrapolated")

	byRow, ok := facts.TreeOf("tree.scots-pine")
	assert.True(t, ok)
	assert.Equal(t, "scots-pine", byRow.Species)
	_, ok = facts.TreeOf("palm")
	assert.False(t, ok)
	_, ok = facts.TreeOf("")
	assert.False(t, ok)
}

// The handbook's rule for what is not known: gleyed soil and shallow roots
// are the lowest figure of every species, and the unknown species is no
// stronger than any of its kind.
func TestWhatIsNotKnownTakesTheLowestFigure(t *testing.T) {
	names := speciesNames()
	require.Len(t, names, 14) // rows of the parameter table
	unknown, ok := facts.TreeOf("unknown-conifer")
	require.True(t, ok)
	broad, ok := facts.TreeOf("unknown-broadleaf")
	require.True(t, ok)
	broadleaf := map[string]bool{"beech": true, "birch": true, "oak": true}
	for _, name := range names {
		tree, ok := facts.TreeOf(name)
		require.True(t, ok, name)
		assert.LessOrEqual(t, unknown.Density.Likely, tree.Density.Likely, name)
		assert.LessOrEqual(t, unknown.MOR.Likely, tree.MOR.Likely, name)
		assert.LessOrEqual(t, unknown.Knot.Likely, tree.Knot.Likely, name)
		if name == "radiata-pine" {
			continue // one soil only
		}
		lowest := math.Inf(1)
		for _, line := range tree.Moment.Cells() {
			for _, v := range line[1:] {
				lowest = math.Min(lowest, v)
			}
		}
		c, ok := tree.Moment.StepOf(facts.RootsShallow, facts.SoilGleyed)
		require.True(t, ok, name)
		assert.Equal(t, lowest, c, name)
		kind := unknown
		if broadleaf[name] {
			kind = broad
		}
		for soil := facts.SoilFreeDraining; soil <= facts.SoilDeepPeat; soil++ {
			for _, roots := range []string{facts.RootsShallow, facts.RootsDeep, facts.RootsUnknown} {
				have, _ := tree.Moment.StepOf(roots, float64(soil))
				least, ok := kind.Moment.StepOf(roots, float64(soil))
				require.True(t, ok)
				assert.LessOrEqual(t, least, have, "%s soil %d %s", name, soil, roots)
			}
		}
	}
}

// No figure of a tree was read in the study itself: the file they come from
// repeats and extends it, and what its column of heaviest stems means is read
// off its figures. The stakes in saturated soil come from a trade article.
func TestTreeFiguresAreNoPublishedOnes(t *testing.T) {
	want := map[facts.ID]facts.Confidence{facts.PicketSoilSaturated: facts.SecondaryCopy, facts.PicketTentStake: facts.SecondaryCopy}
	for _, name := range speciesNames() {
		tree, ok := facts.TreeOf(name)
		require.True(t, ok, name)
		for _, r := range []facts.Row{tree.Moment, tree.Density, tree.MOR, tree.Knot} {
			want[r.ID] = facts.SecondaryCopy
		}
		if tree.Tested.ID != "" {
			want[tree.Tested.ID] = facts.Ours
		}
	}
	for _, id := range []facts.ID{facts.StemSpruceC, facts.StemSpruceP, facts.StemSpruceQ, facts.StemConiferC, facts.StemConiferP, facts.StemConiferQ} {
		want[id] = facts.SecondaryCopy
	}
	for id, confidence := range want {
		assert.Equal(t, confidence, facts.Must(id).Confidence, id)
	}
}

// speciesNames lists the species of the handbook, sorted: "beech", "birch" …
func speciesNames() []string {
	var out []string
	for r := range facts.All() {
		if name, ok := strings.CutPrefix(string(r.ID), "tree."); ok {
			if name, ok = strings.CutSuffix(name, ".knot"); ok && name != "unknown" {
				out = append(out, name)
			}
		}
	}
	return out
}
