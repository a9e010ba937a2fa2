package doubt

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tail is a pull to 10 of a part that fails there with the chance that a standard normal
// figure lies beyond z, in one combination of states.
func tail(t *testing.T, z float64) *setup {
	t.Helper()
	s, err := ready(&Incident{
		Parts: []Part{{ID: "a", Sound: Dist{normal, 10 + z, 1, 0}}},
		Pull:  func(_ []float64, p *Pull) { p.EndN, p.StallN, p.Factors[0] = 10, 10, 1 },
		Facts: []Fact{{Kind: FailedFirst, Part: "a", Trust: Observed}},
	})
	require.NoError(t, err)
	return s
}

// However rare it is that a trial agrees, what may count is not given up before it is
// found: P(Z > z) is closed, and a search to which that just counts finds it, whatever the
// seed. One to which a hundred times as much counts hardly begins.
func TestNothingThatCountsIsGivenUp(t *testing.T) {
	for _, z := range []float64{3, 4, 5, 6} {
		s, chance := tail(t, z), math.Erfc(z/math.Sqrt2)/2
		for seed := range uint64(6) {
			c := &stratum{prior: 1}
			s.trier().refine(c, seed, true, chance)
			n := ess(c.trials, agreeing(s.hard))
			require.Greater(t, n, 40.0, "z %v, seed %d", z, seed)
			got := 0.0
			for i := range c.trials {
				got += c.trials[i].weight * agreeing(s.hard)(&c.trials[i]) / float64(len(c.trials))
			}
			assert.InEpsilon(t, chance, got, 5/math.Sqrt(n))
			found := len(c.trials)
			if s.trier().refine(c, seed, true, 100*chance); z > 3 {
				assert.Less(t, len(c.trials), found, "z %v, seed %d", z, seed)
			}
		}
	}
}

// What cannot agree is sought no further than it could count: a line of twenty times the
// tension beside a weak one of 1 in 100 of which half fail. Of what cannot agree at all,
// nothing is sought: that it was weak was seen. P(E) is closed.
func TestWhatCannotAgreeIsNotSought(t *testing.T) {
	in := &Incident{
		Parts: []Part{{ID: "a", Sound: Dist{normal, 200, 1, 0}, PriorBelow: 0.01, Below: Dist{uniform, 0, 0, 20}}},
		Pull:  func(_ []float64, p *Pull) { p.EndN, p.StallN, p.Factors[0] = 10, 10, 1 },
		Facts: []Fact{{Kind: FailedFirst, Part: "a", Trust: Observed}},
	}
	s, err := Take(in, 1024, 3, 2)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.005, s.Answer().Outright.Value, 0.01)
	assert.LessOrEqual(t, len(s.strata[0].trials), 5*Sets*refineFewer, "sound")
	in.Facts[0] = Fact{Kind: Ended, Among: []string{"a"}, Ways: []string{"cut"}, Trust: Observed}
	in.Parts[0].Weak = []Weak{{ID: "cut", Prior: 0.01, Strength: Dist{uniform, 0, 0, 20}}}
	s, err = Take(in, 1024, 3, 2)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.005, s.Answer().Outright.Value, 0.01)
	assert.Zero(t, s.Refined, "sound it was not cut")
	in.Facts[0].Ways = []string{Sound}
	s, err = Take(in, 1024, 3, 2)
	require.NoError(t, err)
	assert.Equal(t, 1, s.Refined, "it may have been sound")
}

// A change of which a figure is none takes nothing from the pull, and from the others.
func TestAChangeWithoutAFigureIsNoChange(t *testing.T) {
	as := func(endN float64) func([]float64, *Pull) {
		return func(_ []float64, p *Pull) { p.EndN, p.StallN, p.Factors[0] = endN, 1e5, 1 }
	}
	in := &Incident{Parts: []Part{{ID: "line", Sound: Dist{uniform, 10e3, 0, 20e3}}}, Pull: as(15e3), Changes: []func([]float64, *Pull){as(12e3), as(math.NaN())}}
	s, err := Take(in, 256, 1, 2)
	require.NoError(t, err)
	out := Reconstruction{Answer: s.Answer(), Changes: make([]NamedChange, 3)}
	out.Changes[0].Err = ErrNotComputed
	out.change(s, []int{1, 2})
	assert.ErrorIs(t, out.Changes[0].Err, ErrNotComputed)
	assert.InDelta(t, 0.2, out.Changes[1].After.Value, 1e-3, "of 10 to 20, that below 12")
	assert.NoError(t, out.Changes[1].Err)
	assert.ErrorIs(t, out.Changes[2].Err, ErrIncident)
	assert.Zero(t, out.Changes[2].Changed)
}
