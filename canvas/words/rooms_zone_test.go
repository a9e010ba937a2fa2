package words

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
	"kedge/solver/zone"
)

func TestEveryRuleOfZoneHasItsText(t *testing.T) {
	require.NotEmpty(t, zone.Rules)
	for _, m := range english(t, quantity.Metric).Missing(zone.Rules) {
		t.Error(m)
	}
}
