package exercise_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// What an exercise asks comes back from the file of its plan as it was: every kind of
// question, ranges, names. The usual is nothing to keep.
func TestAnExerciseIsKeptInItsPlan(t *testing.T) {
	var asks []exercise.Question
	for _, k := range exercise.QuestionKinds() {
		q := exercise.Question{Kind: k}
		switch k {
		case exercise.AskWhatIf:
			q.Rig, q.Part = "R3", "L1/1"
		case exercise.AskAngle, exercise.AskLoad, exercise.AskWorstAt:
			q.Part = "V1/tip"
		}
		asks = append(asks, q)
	}
	want := exercise.Setup{Questions: asks, Blanks: []string{"B1"}, Variants: 17, Names: []string{"Ada Moor", "Ben Sedge"},
		Vary: exercise.Vary{MassShare: 0.07, PlaceM: 0.5, Trunks: 0.1, TurnDeg: 12.5, Lengths: []quantity.Length{2, 3.5}}}
	p := seeded.Example(t, "redirect")
	data, err := plan.FormatPlan(plan.WithExercise(p, 0, want.Kept(nil)))
	require.NoError(t, err)
	assert.Contains(t, string(data), `"min_reader": 1`)
	back, err := plan.ParsePlan(data)
	require.NoError(t, err)
	got, err := exercise.SetupOf(back, p.Rigs[0].ID)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	other, err := exercise.SetupOf(back, p.Rigs[1].ID)
	require.NoError(t, err)
	assert.Zero(t, other)

	assert.Nil(t, exercise.Setup{Variants: 1, Vary: exercise.UsualVary()}.Kept(nil))
	later := &plan.Exercise{Extra: []byte(`{"later":1}`)}
	assert.Equal(t, later, exercise.Setup{}.Kept(later))
	for _, x := range []plan.Exercise{{Questions: []string{"riddle:B1"}}, {Vary: "weather=2"}} {
		_, err := exercise.SetupOf(plan.WithExercise(p, 0, &x), p.Rigs[0].ID)
		assert.ErrorIs(t, err, exercise.ErrOption)
	}
}
