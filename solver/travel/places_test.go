package travel_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

// blocked reports whether an obstacle that nobody sees over lies between two places: by
// points a tenth of a metre apart, not as the search asks.
func blocked(p *plan.Plan, a, b plan.Point) bool {
	const steps = 1000
	for i := range p.Site.Obstacles {
		o := &p.Site.Obstacles[i]
		for k := 0; !o.SeeOver && k <= steps; k++ {
			f := float64(k) / steps
			if terrain.Inside(o.Outline, plan.Point{X: a.X + f*(b.X-a.X), Y: a.Y + f*(b.Y-a.Y)}) {
				return true
			}
		}
	}
	return false
}

// Whoever is placed where the search says is outside every zone of the whole pull, in the
// answer to the plan with them in it, and nothing is said of them; every operator's place sees every
// spotter's, the winch and the casualty.
func TestPlacesAreOutsideAllZonesAndInSight(t *testing.T) {
	offered := 0
	look := func(p *plan.Plan) {
		rig := p.Rigs[0].ID
		pull, err := travel.Assess(t.Context(), p, rig, nil)
		require.NoError(t, err)
		at := pull.Places(p)
		if pull.ZonesPartly() {
			assert.Empty(t, at.Operators, "outside of what was not drawn")
			return
		}
		require.Equal(t, len(at.Operators) == 0, len(at.Spotters) == 0, "a pair or none")
		if len(at.Operators) == 0 {
			return
		}
		offered++
		assert.LessOrEqual(t, len(at.Operators), 3)
		assert.LessOrEqual(t, len(at.Spotters), 3)
		placed := *p
		placed.Site.People = nil
		for i, o := range at.Operators {
			placed.Site.People = append(placed.Site.People, plan.Person{Head: plan.Head{ID: plan.ID("PO" + string(rune('1'+i)))}, Role: plan.RoleOperator, At: o})
		}
		for i, s := range at.Spotters {
			placed.Site.People = append(placed.Site.People, plan.Person{Head: plan.Head{ID: plan.ID("PS" + string(rune('1'+i)))}, Role: plan.RoleSpotter, At: s})
			for _, o := range at.Operators {
				assert.False(t, blocked(p, o, s), "%v does not see %v", o, s)
			}
			assert.False(t, blocked(p, s, p.Casualty().At))
		}
		with, err := travel.Assess(t.Context(), &placed, rig, nil)
		require.NoError(t, err)
		for _, q := range with.People {
			assert.Empty(t, q.Inside, "%s at %v", q.Person, q.At)
			assert.True(t, q.Zoned)
		}
		for _, f := range with.Findings {
			for _, id := range f.Things {
				for i := range placed.Site.People {
					assert.NotEqual(t, placed.Site.People[i].ID, id, f.ID)
				}
			}
		}
	}
	for _, name := range []string{"redirect", "doubled", "straight"} {
		look(seeded.Example(t, name))
	}
	for seed := range uint64(30) {
		p, _ := seeded.Plan(seed, nil)
		look(p)
	}
	assert.Greater(t, offered, 8)
}
