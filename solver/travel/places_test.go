package travel_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
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

// screen is a bank that nobody sees over, from one place to another, half a metre thick.
func screen(id plan.ID, a, b plan.Point) plan.Obstacle {
	d := a.Dist(b)
	x, y := -(b.Y-a.Y)/d/4, (b.X-a.X)/d/4
	return plan.Obstacle{Head: plan.Head{ID: id}, Kind: plan.ObstacleBank, Outline: []plan.Point{a.Plus(x, y), b.Plus(x, y), b.Plus(-x, -y), a.Plus(-x, -y)}}
}

// Whoever stands where the search says sees the rig's own casualty: another one, hidden far
// away, changes nothing.
func TestPlacesSeeTheRigsOwnCasualty(t *testing.T) {
	p := examplePlan(t, "redirect")
	want := followed(t, p, "R1").Places(p)
	require.NotEmpty(t, want.Operators)
	other := *p.Casualty()
	other.ID, other.At = "V9", plan.Point{X: -200, Y: 0}
	with := *p
	with.Site.Vehicles = append([]plan.Vehicle{other}, p.Site.Vehicles...)
	with.Site.Obstacles = append(slices.Clone(p.Site.Obstacles), screen("O9", plan.Point{X: -190, Y: -100}, plan.Point{X: -190, Y: 100}))
	require.Equal(t, plan.ID("V9"), with.Casualty().ID)
	assert.Equal(t, want, followed(t, &with, "R1").Places(&with))
}

// Whoever stands where the search says sees a casualty that is dragged where it is dragged,
// and not where its way was drawn.
func TestPlacesSeeWhereTheCasualtyIsDragged(t *testing.T) {
	p := directPlan(t, 0)
	v := stuckIn(p)
	v.Stuck.Way, v.Stuck.WayBearing = plan.WayFree, plan.Known[quantity.Degrees](270-50)
	hides := screen("O9", plan.Point{X: 16, Y: -12}, plan.Point{X: 22, Y: -12})
	p.Site.Obstacles = []plan.Obstacle{hides}
	pull := followed(t, p, "R1")
	require.Positive(t, pull.EndM)
	at := stuckIn(travel.At(p, "R1", pull.EndM)).At
	way, known := v.WayLine()
	require.True(t, known)
	require.Greater(t, at.Dist(way.At(pull.EndM).At), 5.0, "it is dragged elsewhere")
	places := pull.Places(p)
	require.NotEmpty(t, places.Operators)
	for _, q := range slices.Concat(places.Operators, places.Spotters) {
		assert.False(t, blocked(p, q, at), "%v", q)
	}
}
