package board_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/remedy"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What is offered as an edit clears what it is offered for: of every finding of
// the examples and of the plans made to mislead, each remedy that can be done
// is done, and the finding is gone.
func TestWhatIsOfferedClearsItsFinding(t *testing.T) {
	var files []string
	for _, folder := range []string{"../../assets/plans", "../../testdata/unsafe"} {
		names, err := filepath.Glob(folder + "/*.kedge")
		require.NoError(t, err)
		files = append(files, names...)
	}
	require.NotEmpty(t, files)
	w := fieldIn(t, quantity.Metric)
	done := map[string]int{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		p, err := plan.ParsePlan(data)
		require.NoError(t, err)
		rig := p.Rigs[0].ID
		a := solver.Assess(p, rig)
		for _, f := range a.Findings {
			for _, r := range f.Remedies {
				in := remedy.Given{Plan: p, Rig: rig, Answer: a, Kit: kit(t), Words: w}
				if can, _ := remedy.Can(in, r); !can {
					continue
				}
				got, err := remedy.Do(in, r)
				if err != nil || got.Plan == nil {
					continue // a field to type in, or a sentence why not
				}
				done[r.Do]++
				left := solver.Assess(got.Plan, rig).Findings
				assert.False(t, slices.ContainsFunc(left, func(g part.Finding) bool { return g.Key() == f.Key() }), "%s: %s leaves %s %v", filepath.Base(file), r.Do, f.ID, f.Things)
			}
		}
	}
	assert.Greater(t, len(done), 3, "%v", done)
}
