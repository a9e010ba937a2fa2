package solver_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// lacked tells that a rule said it could not decide for want of a member.
func lacked(a *solver.Assessment, rule string, thing plan.ID, member string) bool {
	return slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
		return slices.Contains(f.Lacks, part.Lack{Thing: thing, Member: member, Rule: rule})
	})
}

// What an anchor needs of the ground and of its strap is not taken for level and
// for low.
func TestAnchorsSayWhatTheyLack(t *testing.T) {
	slopeless := func(p *plan.Plan) { p.Site.Ground.Slope = plan.Maybe[quantity.Degrees]{} }
	a := assessed(t, do(onBoulder, slopeless))
	assert.True(t, lacked(a, "boulder-slides", "", "slope_deg"))
	assert.False(t, partOf(t, a, "A1").Limit.Known, "a boulder's hold hangs on the slope")
	directionless := func(p *plan.Plan) { p.Site.Ground.Slope = plan.Known(quantity.Degrees(4)) }
	assert.True(t, lacked(assessed(t, do(onPickets, directionless)), "pickets-lifted", "", "downhill_bearing_deg"))
	assert.True(t, lacked(assessed(t, do(onTree, theSling(func(s *plan.Sling) { s.Height = 0 }))), "tree-strap-high", "S1", "height_m"))
	assert.False(t, lacked(assessed(t, onTree), "tree-strap-high", "S1", "height_m"))
}

// The side-load of an anchor set for a direction lies along the ground: the
// horizontal part of its load times the sine of the angle, whatever the line
// lifts.
func TestSideLoadOfAnAnchorLiesAlongTheGround(t *testing.T) {
	q := partOf(t, assessed(t, do(onPickets, high(2), theAnchor(func(a *plan.Anchor) { a.SetBearing = 315 + 10 }))), "A1")
	require.True(t, q.Move.Known)
	v := q.Move.Vec
	require.Greater(t, v[2], 0.2*math.Hypot(v[0], v[1]), "it lifts")
	s, c := math.Sincos(float64(quantity.Degrees(315 + 10).Radians()))
	require.InDelta(t, math.Abs(v[0]*c-v[1]*s), float64(q.Move.Side), 1e-6)
	require.Less(t, float64(q.Move.Off), 12.0)
	require.InDelta(t, math.Sqrt(v.Dot(v)), float64(q.Move.Force), 1e-6)
}
