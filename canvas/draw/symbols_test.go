package draw

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// Every kind has a symbol of its own; what has none is drawn as not known.
func TestEveryKindHasItsSymbol(t *testing.T) {
	for _, k := range plan.AnchorWords() {
		require.Contains(t, anchorSymbols, k)
	}
	require.Len(t, zoneLooks, len(part.ZoneKinds)-1, "the stand-off is no kind of keep-out")
	for _, k := range part.ZoneKinds {
		n := 0
		for i := range zoneLooks {
			if zoneLooks[i].kind == k {
				n++
			}
		}
		if k != part.ZoneStandOff {
			require.Equal(t, 1, n, k)
		}
	}
	for i := range portSymbols {
		require.NotNil(t, portSymbols[i].outline, i)
	}
	require.Len(t, portSymbols, int(PortRated)+1)
}
