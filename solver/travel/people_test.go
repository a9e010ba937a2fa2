package travel_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// Somebody in the zones on a part of the way: before the place told nobody is in
// them, behind it somebody is, both by the plan drawn there.
func TestFromWhereSomebodyIsInTheZones(t *testing.T) {
	p := examplePlan(t, "redirect")
	q := *p
	r := q.Rigs[0]
	found := 0
	for x := -34.0; x <= -14; x += 2 { // at the stand-off ring behind the casualty, which goes with it
		for y := -8.0; y <= 24; y += 8 {
			q.Site.People = []plan.Person{{Head: plan.Head{ID: "P9"}, Role: plan.RoleBystander, At: plan.Point{X: x, Y: y}}}
			a := followed(t, &q, r.ID)
			require.Len(t, a.People, 1)
			in := func(s float64) bool {
				m := solver.Assess(travel.At(&q, r.ID, s), r.ID)
				return len(m.People[0].Inside) > 0
			}
			for _, s := range a.People[0].Spans {
				assert.GreaterOrEqual(t, s.ToM, s.FromM)
				if s.FromM > 0 {
					found++
					assert.False(t, in(s.FromM), "%v %g", q.Site.People[0].At, s.FromM)
					assert.True(t, in(s.FromM+0.0101), "%v %g", q.Site.People[0].At, s.FromM)
				}
				if s.ToM < a.EndM {
					found++
					assert.False(t, in(s.ToM), "%v %g", q.Site.People[0].At, s.ToM)
					assert.True(t, in(s.ToM-0.0101), "%v %g", q.Site.People[0].At, s.ToM)
				}
			}
		}
	}
	assert.Positive(t, found, "no place is in the zones on a part of the way")
}
