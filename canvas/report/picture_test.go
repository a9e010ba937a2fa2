package report

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A report says with its assumptions how the picture lies that was traced, in every language,
// and says nothing where there is none.
func TestAssumptionsSayHowThePictureLies(t *testing.T) {
	for _, language := range words.Languages() {
		w, err := words.New(language, quantity.Metric)
		require.NoError(t, err)
		p := plan.New()
		a := &Report{Plan: p, Found: &doubt.Reconstruction{}, w: w}
		none := a.Assumptions().Lines
		p.Site.Underlay = &plan.Underlay{Type: "image/png", Metres: 0.01, Scaled: &plan.ScaleBy{B: plan.Point{X: 1}, Length: 1, Down: true}}
		lines := a.Assumptions().Lines
		assert.Equal(t, none, lines[:len(lines)-2])
		assert.Equal(t, form.PictureLies(w, p.Site.Underlay), lines[len(lines)-2:])
	}
}
