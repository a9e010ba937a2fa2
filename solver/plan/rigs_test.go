package plan_test

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// A plan has 64 rigs at most: each is solved whenever the plan is.
func TestMostRigs(t *testing.T) {
	p := &plan.Plan{Format: plan.FormatName, Version: plan.CurrentVersion, MinReader: plan.CurrentVersion}
	for i := range 65 {
		p.Rigs = append(slices.Clone(p.Rigs), plan.Rig{Head: plan.Head{ID: plan.ID("R" + strconv.Itoa(i+1))}})
		err := plan.Validate(p)
		if i < 64 {
			require.NoError(t, err, i)
		} else {
			assert.ErrorIs(t, err, plan.ErrLimit)
		}
	}
}
