package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func groundOf(t *testing.T, members string) (plan.Ground, string, error) {
	t.Helper()
	p, err := plan.ParsePlan([]byte(`{"format":"kedge-plan","version":1,"min_reader":1,"site":{"ground":{` + members + `}}}`))
	if err != nil {
		return plan.Ground{}, "", err
	}
	back, err := plan.FormatPlan(p)
	require.NoError(t, err)
	return p.Site.Ground, string(back), nil
}

// What was never said is not zero, in a file as in memory.
func TestZeroIsKnownAndAbsentIsNot(t *testing.T) {
	absent, file, err := groundOf(t, "")
	require.NoError(t, err)
	assert.Equal(t, plan.Maybe[quantity.Degrees]{}, absent.Slope)
	assert.False(t, absent.Slope.Known())
	assert.NotContains(t, file, "slope_deg")

	level, file, err := groundOf(t, `"slope_deg":0`)
	require.NoError(t, err)
	assert.Equal(t, plan.Known(quantity.Degrees(0)), level.Slope)
	assert.Contains(t, file, `"slope_deg": 0`)
	assert.NotEqual(t, absent, level)

	steep, file, err := groundOf(t, `"slope_deg":12.5,"downhill_bearing_deg":0`)
	require.NoError(t, err)
	x, known := steep.Slope.Get()
	assert.True(t, known)
	assert.Equal(t, quantity.Degrees(12.5), x)
	assert.Equal(t, quantity.Degrees(0), steep.Downhill.Or(99), "north was said")
	assert.Equal(t, quantity.Degrees(99), absent.Downhill.Or(99))
	assert.Contains(t, file, `"downhill_bearing_deg": 0`)
}

func TestMaybeIsBoundLikeItsQuantity(t *testing.T) {
	for members, want := range map[string]string{
		`"slope_deg":61`:              `/site/ground/slope_deg: more-than x="61°" most="60°"`,
		`"slope_deg":-1`:              `/site/ground/slope_deg: less-than x="-1°" least="0°"`,
		`"slope_deg":"steep"`:         "value-other found=json-text want=json-number",
		`"slope_deg":{}`:              "value-other found=json-object want=json-number",
		`"slope_deg":null`:            "slope_deg: null",
		`"downhill_bearing_deg":1e99`: `more-than x="1e99°" most="360°"`,
	} {
		_, _, err := groundOf(t, members)
		require.Error(t, err, members)
		assert.Contains(t, err.Error(), want)
	}
}

// A new plan lies level and says so.
func TestNewPlanSaysThatItIsLevel(t *testing.T) {
	data, err := plan.FormatPlan(plan.New())
	require.NoError(t, err)
	assert.True(t, strings.Contains(string(data), `"slope_deg": 0`))
}
