package solver_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/quantity"
)

// Of two winches the weaker holds by its brake what the stronger draws on its line:
// at stall each chain is checked for the 4000 N at which the stronger's limiter
// stops, though the other stops at 1500 N (figures of the plan).
func TestAChainIsCheckedForTheStrongestWinch(t *testing.T) {
	p := basePlan()
	twoWinches(p)
	require.Equal(t, quantity.Force(4000), p.Site.Vehicles[1].Winch.Limiter)
	w := *p.Site.Vehicles[2].Winch
	w.Limiter = 1500
	p.Site.Vehicles[2].Winch = &w
	a := solver.Assess(p, "R1")
	require.InDelta(t, 4000, float64(partOf(t, a, "L1/1").Stall.Force), 1e-6)
	require.InDelta(t, 4000, float64(partOf(t, a, "L2/1").Stall.Force), 1e-6)
}

// Of a winch that nobody knows the pull of, the line is checked at stall for its share
// of what the other gives: that is 4000 N for its 42 kN; the share is the plan's, in tens
// of kN, one where it says none.
func TestAWinchOfUnknownPullTakesItsShareAtStall(t *testing.T) {
	for share, want := range map[float64]float64{1.5: 4000 * 15.0 / 42, 0: 4000 * 10.0 / 42} {
		p := basePlan()
		twoWinches(p)
		w := *p.Site.Vehicles[2].Winch
		require.Equal(t, quantity.Force(42_000), w.LinePull)
		w.Limiter, w.LinePull = 0, 0
		p.Site.Vehicles[2].Winch = &w
		p.Rigs[0].Lines[1].Share = share
		a := solver.Assess(p, "R1")
		require.InDelta(t, 4000, float64(partOf(t, a, "L1/1").Stall.Force), 1e-6)
		require.InDelta(t, want, float64(partOf(t, a, "L2/1").Stall.Force), 1e-6)
	}
}
