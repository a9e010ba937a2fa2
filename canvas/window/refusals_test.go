package window

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/quantity"
)

func TestEveryRefusalHasItsText(t *testing.T) {
	for _, lang := range words.Languages() {
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		assert.Empty(t, w.Unsaid(Refusals), lang)
	}
}
