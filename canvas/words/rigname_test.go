package words

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A rig is called the same on its tab, on a sheet and on the command line, and is
// found by that name, by its number and by its id.
func TestRigName(t *testing.T) {
	w := english(t, quantity.Metric)
	straight := []plan.Line{{Head: plan.Head{ID: "L1"}, Path: []plan.Port{{Thing: "V2", Point: plan.PortWinch}, {Thing: "V1", Point: "front"}}}}
	p := &plan.Plan{Rigs: []plan.Rig{{Head: plan.Head{ID: "R1"}, Lines: straight}, {Head: plan.Head{ID: "R3"}, Lines: straight}, {Head: plan.Head{ID: "R2", Name: "By the pine"}}, {Head: plan.Head{ID: "R4"}}}}
	for i, want := range []string{"Straight", "Straight 2", "By the pine", "Rig 4"} {
		assert.Equal(t, want, w.RigName(p, i))
		r, ok := w.RigNamed(p, want)
		require.True(t, ok)
		assert.Equal(t, p.Rigs[i].ID, r.ID)
	}
	r, ok := w.RigNamed(p, "R3")
	require.True(t, ok)
	assert.Equal(t, plan.ID("R3"), r.ID)
	_, ok = w.RigNamed(p, "Bridle")
	assert.False(t, ok)
	assert.Empty(t, w.RigName(p, 9))
	assert.Empty(t, w.RigName(nil, 0))
	de, err := New("de", quantity.Metric)
	require.NoError(t, err)
	assert.NotEqual(t, "Straight", de.RigName(p, 0), "in the language")
}
