package travel_test

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// A line that is paid out from a winch ends the pull where so much of it is out that
// the wraps that must stay on the drum begin: what is out and what is missing are those
// of Assess on both sides.
func TestThePullStopsWhereALineIsOut(t *testing.T) {
	p := *seeded.Read(t, os.DirFS("../../testdata"), "held.kedge")
	back, _ := p.Vehicle("V2")
	v := *back
	v.ID, v.At, v.Bearing = "V3", plan.Point{X: -8, Y: 12}, 90
	p.Site.Vehicles = append(slices.Clone(p.Site.Vehicles), v)
	p.Site.Anchors = p.Site.Anchors[1:]
	r := p.Rigs[0]
	r.Unshare()
	l := &r.Lines[2]
	l.Path = []plan.Port{{Thing: "V3", Point: plan.PortWinch}, {Thing: "V1", Point: "rear"}}
	l.PaidOut = ""
	l.Length = 22
	q := with(plan.WithRig(&p, 0, r), func(v *plan.Vehicle) { v.Stuck.WayLength = 9 })
	a := followed(t, q, "R1")
	require.Equal(t, "line-short", a.Stop)
	missing := func(s float64) (m quantity.Length) {
		for _, l := range solver.Assess(travel.At(q, "R1", s), "R1").Lines {
			m = max(m, l.Missing)
		}
		return m
	}
	assert.Zero(t, missing(a.EndM))
	assert.Positive(t, missing(a.EndM+2e-4))
}
