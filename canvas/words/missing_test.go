package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
)

func TestMissingNamesWhatLacks(t *testing.T) {
	w := withScreen(t, slideTexts)
	assert.Empty(t, w.Missing([]part.Rule{{ID: "slides", Values: []string{"need", "holds"}}}))
	assert.Equal(t, []string{
		`finding "no-such" has no "do"`,
		`finding "no-such" has no "what"`,
		`finding "slides": its "what" uses {holds}, which the rule does not carry`,
	}, w.Missing([]part.Rule{{ID: "slides", Values: []string{"need"}}, {ID: "no-such"}}))
}
