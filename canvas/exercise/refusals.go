package exercise

import (
	"strconv"

	"kedge/solver/refusal"
)

// mostShown is how much of an option a refusal shows, in characters.
const mostShown = 60

// written is a figure as an option writes it.
func written(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// How an exercise is refused.
var (
	varyBeyond   = refusal.Of(ErrOption, "exercise-vary-beyond", "what", "most", "x")
	varySling    = refusal.Of(ErrOption, "exercise-vary-sling", "length")
	varyNothing  = refusal.Of(ErrOption, "exercise-vary-nothing", "name")
	varyTwice    = refusal.Of(ErrOption, "exercise-vary-twice", "name")
	varyFigure   = refusal.Of(ErrOption, "exercise-vary-figure", "item")
	variesNot    = refusal.Of(ErrOption, "exercise-varies-not", "what")
	questionOf   = refusal.Of(ErrOption, "exercise-question-of", "question", "kind")
	questionMore = refusal.Of(ErrOption, "exercise-question-more", "question", "kind")
	questionIf   = refusal.Of(ErrOption, "exercise-question-if", "question")
	noQuestion   = refusal.Of(ErrOption, "exercise-no-question", "name", "all")
)

// Refusals are all kinds of refusal of this package. It is read-only.
var Refusals = []refusal.Kind{
	varyBeyond, varySling, varyNothing, varyTwice, varyFigure, variesNot, questionOf, questionMore, questionIf, noQuestion,
}
