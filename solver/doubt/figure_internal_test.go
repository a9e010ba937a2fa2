package doubt

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// What was typed with ± and turned since is as well known where it is now: not where it
// was. One of which no figure is entered lies in the middle of what is said of it.
func TestPlusMinusGoesWithItsFigure(t *testing.T) {
	normal := func(mean, sd float64) Dist {
		d, err := Normal(mean, sd)
		require.NoError(t, err)
		return d
	}
	d := plan.Doubt{Member: "bearing_deg", Low: 38, High: 42, PlusMinus: true}
	for at, want := range map[float64]Dist{40: normal(40, 1), 90: normal(90, 1), 0: normal(40, 1)} {
		assert.Equal(t, want, read(&plan.Head{Doubts: []plan.Doubt{d}}, d, at), "%v", at)
	}
}
