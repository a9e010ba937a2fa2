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
