package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/sheet"
	"kedge/solver/plan"
)

// What the plan keeps of an exercise is printed, unless something else is asked for; a
// question of a later version is refused, not left out.
func TestTheExerciseOfThePlanIsPrinted(t *testing.T) {
	kept := &plan.Exercise{Questions: []string{"load:B1"}, Blanks: []string{"T1"}, Names: []string{"Ada Moor", "Ben Sedge"}, Variants: 2}
	p := plan.WithExercise(example(t, "redirect"), 0, kept)
	kinds := []sheet.Kind{sheet.Exercise}
	b := booklet(t, p, sheet.Options{Sheets: kinds})
	require.Len(t, b.Variants, 2)
	assert.Contains(t, allText(b.Pages[0]), "Ada Moor")
	require.Len(t, b.Answers, 4)
	assert.Equal(t, exercise.Question{Kind: exercise.AskLoad, Part: "B1"}, b.Answers[0].Question)
	assert.True(t, b.Answers[1].Drawn)

	one := booklet(t, p, sheet.Options{Sheets: kinds, Variants: 1, Questions: []exercise.Question{{Kind: exercise.AskWeakest}}})
	require.Len(t, one.Answers, 1)
	assert.Equal(t, exercise.AskWeakest, one.Answers[0].Kind)
	assert.Empty(t, one.Variants)

	_, err := sheet.Make(plan.WithExercise(p, 0, &plan.Exercise{Questions: []string{"riddle"}}), sheet.Options{Sheets: kinds})
	assert.ErrorIs(t, err, sheet.ErrOption)
	_, err = sheet.Make(plan.WithExercise(p, 0, &plan.Exercise{Questions: []string{"riddle"}}), sheet.Options{})
	assert.NoError(t, err, "no exercise is printed")
}
