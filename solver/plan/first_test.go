package plan

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestEmptyPlanRoundTrips(t *testing.T) {
	data, err := FormatPlan(New())
	require.NoError(t, err)
	t.Log(string(data))
	p, err := ParsePlan(data)
	require.NoError(t, err)
	again, err := FormatPlan(p)
	require.NoError(t, err)
	require.Equal(t, string(data), string(again))
	require.Empty(t, UnknownMembers(p))
}
