package quantity_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// relTol covers the two roundings of a product of exact factors in float64
// (2·2^-53, 2.2e-16) with room for a sum.
const relTol = 1e-15

// near fails unless got is want to relTol; it fails on NaN.
func near[Q ~float64](t testing.TB, want, got Q) {
	t.Helper()
	require.False(t, math.IsNaN(float64(want)) || math.IsNaN(float64(got)), "want %v, got %v", want, got)
	assert.LessOrEqual(t, math.Abs(float64(got-want)), relTol*math.Abs(float64(want)), "want %v, got %v", want, got)
}

// fault is the fault of err, which must be a *ParseError.
func fault(t require.TestingT, err error) *quantity.ParseError {
	var p *quantity.ParseError
	require.ErrorAs(t, err, &p)
	return p
}

// plain is a printed text with ordinary spaces.
func plain(t quantity.Text) string { return quantity.PlainSpaces(t.String()) }
