package exercise

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

func modelOf(t *testing.T, p *plan.Plan, rig plan.ID) *Model {
	t.Helper()
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return Of(p, rig, w)
}

// Where a load is greatest is where it is on places of the test's own, a tenth of a
// metre apart, each the rig drawn there and assessed by itself.
func TestWhereALoadIsGreatest(t *testing.T) {
	p := openPlan(t, "redirect")
	for _, id := range []string{"B1", "T1", "L1/1"} {
		x, err := modelOf(t, p, "R1").Work([]Question{{Kind: AskWorstAt, Part: id}}, nil, 200)
		require.NoError(t, err)
		a := x.Asked[0]
		best, most := 0.0, 0.0
		for i := range 61 {
			s := float64(i) / 10
			q, ok := solver.Assess(travel.At(p, "R1", s), "R1").Part(id)
			require.True(t, ok)
			if f := float64(q.Move.Force); f > most {
				best, most = s, f
			}
		}
		assert.InDelta(t, best, a.X, 0.1, id)
		assert.Equal(t, "m", a.Unit)
		assert.GreaterOrEqual(t, a.Tol, leastPlaceM)
		for _, s := range []float64{a.X - a.Tol - 0.3, a.X + a.Tol + 0.3} { // out of the tolerance it is more than a hundredth less
			if s >= 0 && s <= 6 {
				q, _ := solver.Assess(travel.At(p, "R1", s), "R1").Part(id)
				assert.Less(t, float64(q.Move.Force), (1-leastTolerance)*most, id)
			}
		}
		assert.NotEmpty(t, a.Sums)
	}
}

// What happens first is the part that on places of the test's own, two hundredths of a
// metre apart, is the first to be over a limit that it was within as drawn.
func TestWhatHappensFirst(t *testing.T) {
	p := openPlan(t, "redirect")
	m := modelOf(t, p, "R1")
	x, err := m.Work([]Question{{Kind: AskHappens}}, nil, 200)
	require.NoError(t, err)
	a := x.Asked[0]
	first, at := "", math.Inf(1)
	within := map[string]bool{}
	for _, q := range m.compared(false) {
		within[q.ID] = q.Known() && q.Most() <= 1
	}
	for i := 1; i <= 300 && first == ""; i++ {
		now := solver.Assess(travel.At(p, "R1", float64(i)/50), "R1")
		for k := range now.Parts {
			if q := &now.Parts[k]; within[q.ID] && q.Known() && q.Most() > 1 {
				first, at = q.ID, float64(i)/50
				break
			}
		}
	}
	assert.Equal(t, first, a.Part)
	assert.InDelta(t, at, a.X, 0.02)
	assert.Contains(t, a.Answer, "Shackle 1 over its limit")
	assert.Contains(t, a.Also, "Sling 1", "within half a metre of it")
	assert.NotContains(t, a.Also, "Winch", "two metres on")
	for id := range within {
		assert.True(t, x.Hidden[id], "no figure is given that would tell: %s", id)
	}
}

// A doubled line in line with the pull loads everything alike all the way; a rig that is
// refused as drawn has no pull; nothing of the doubled rig comes over a limit.
func TestQuestionsOfAPullThatAreRefused(t *testing.T) {
	for _, c := range []struct {
		plan string
		ask  Question
		why  string
	}{
		{"doubled", Question{Kind: AskWorstAt, Part: "B1"}, "hardly changes"},
		{"doubled", Question{Kind: AskHappens}, "comes over its limit"},
		{"straight", Question{Kind: AskWorstAt, Part: "L1/1"}, "not computed"},
		{"redirect", Question{Kind: AskWorstAt, Part: "nothing"}, "no part"},
	} {
		p := openPlan(t, c.plan)
		_, err := modelOf(t, p, p.Rigs[0].ID).Work([]Question{c.ask}, nil, 100)
		require.ErrorIs(t, err, ErrQuestion, "%v", c)
		assert.ErrorContains(t, err, c.why)
	}
	p := openPlan(t, "redirect")
	for i := range p.Site.Vehicles {
		if v := p.Site.Vehicles[i]; v.Stuck != nil {
			stuck := *v.Stuck
			stuck.WayLength, v.Stuck = 0, &stuck
			p = plan.WithVehicle(p, i, v)
		}
	}
	_, err := modelOf(t, p, "R1").Work([]Question{{Kind: AskWorstAt, Part: "B1"}}, nil, 200)
	assert.ErrorContains(t, err, "cannot be followed")
}
