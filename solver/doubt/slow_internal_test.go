package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// A rig that is asked itself each time is drawn with fewer trials, and a change that is has
// trials of its own: those of the incident stay as they are.
func TestWhatIsAskedItselfIsDrawnLess(t *testing.T) {
	m := example(t)
	m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Pins: []plan.Pin{{ID: "A", Kind: plan.PinBroken, Thing: "S1", Known: plan.KnownObserved}}})
	in := m.incident(&Reconstruction{})
	assert.False(t, in.Slow)
	said := Reconstruction{}
	itself := example(t)
	itself.plan, itself.surface = m.plan, nil
	assert.True(t, itself.incident(&said).Slow)
	assert.True(t, said.Slow, "which is said")

	all := []batch{{in: in}}
	for i, o := range []*rigModel{itself, m, itself, m} {
		var err error
		all, err = m.join(all, o, i, nil)
		require.NoError(t, err)
	}
	require.Len(t, all, 2)
	assert.Equal(t, []int{1, 3}, all[0].of)
	assert.Equal(t, []int{0, 2}, all[1].of)
	assert.Equal(t, []bool{false, true}, []bool{all[0].in.Slow, all[1].in.Slow})
	all, err := itself.join([]batch{{in: itself.incident(&Reconstruction{})}}, m, 0, nil)
	require.NoError(t, err)
	assert.Len(t, all, 1, "nothing is quick where the rig is not")
}

// Fewer trials give the same answer, less exactly: a weak one of four fails under 10 as often
// as its strength lies below (closed form: half), and each of them as often as another.
func TestFewerTrialsSayTheSame(t *testing.T) {
	in := &Incident{
		Pull:  func(_ []float64, p *Pull) { p.EndN, p.StallN = 10, 10; fill(p.Factors, 1) },
		Facts: []Fact{{Kind: Failed, Trust: Observed}},
	}
	for _, id := range []string{"a", "b", "c", "d"} {
		in.Parts = append(in.Parts, Part{ID: id, Sound: Dist{normal, 200, 1, 0}, PriorBelow: 0.01, Below: Dist{uniform, 0, 0, 20}})
	}
	many, err := Take(in, 256, 3, 2)
	require.NoError(t, err)
	in.Slow = true
	few, err := Take(in, 256, 3, 2)
	require.NoError(t, err)
	assert.Less(t, few.Points, many.Points/3)
	for _, c := range few.Answer().Candidates[:4] {
		assert.InDelta(t, 0.25, c.Posterior.Value, 4*c.Posterior.Error+1e-4, c.Part)
	}
}
