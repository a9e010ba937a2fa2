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

// A way out is looked for, for each person in each rig: 600 in one rig, 60 in ten.
func TestMostPeople(t *testing.T) {
	for rigs, most := range map[int]int{0: 500, 1: 499, 10: 60, 60: 10} { // a plan has 500 things at most, rigs too
		p := &plan.Plan{Format: plan.FormatName, Version: plan.CurrentVersion, MinReader: plan.CurrentVersion}
		for i := range rigs {
			p.Rigs = append(p.Rigs, plan.Rig{Head: plan.Head{ID: plan.ID("R" + strconv.Itoa(i+1))}})
		}
		for i := range most {
			p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: plan.ID("P" + strconv.Itoa(i+1))}})
		}
		require.NoError(t, plan.Validate(p), rigs)
		p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: "P900"}})
		assert.ErrorIs(t, plan.Validate(p), plan.ErrLimit, rigs)
	}
}
