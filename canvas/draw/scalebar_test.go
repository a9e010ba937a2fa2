package draw_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/quantity"
)

// The scale bar writes its half as the language does: a bar of 1 m has 0.5 m at its
// middle. At 250 px a metre 260 px hold 1 m and not 2 m.
func TestTheScaleBarHasTheLanguagesDecimalSign(t *testing.T) {
	for lang, half := range map[string]string{"en": "0.5", "en-US": "0.5", "de": "0,5"} {
		s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		s.Words = w
		s.View.PerM = 250
		r := &pen.Recorder{}
		draw.Draw(r, s)
		texts := textsOf(r)
		assert.Contains(t, texts, half, lang)
		assert.Contains(t, texts, "1 m", lang)
	}
}
