package store_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/quantity"
)

// said is what a person reads of an error, in English.
func said(t testing.TB, err error) string {
	t.Helper()
	w, fault := words.New("en", quantity.Metric)
	require.NoError(t, fault)
	return w.Refusal(err)
}
