package facts_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
)

func TestBuiltInHandbookIsSound(t *testing.T) {
	_, err := facts.BuiltIn()
	require.NoError(t, err)
}
