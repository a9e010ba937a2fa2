package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// The redirect is wider than high: 1 : 200 on the long side of A4, where
// upright it only fits at 1 : 500 (ISO 5455). A plan higher than wide stays
// upright, and a scale of the caller's own settles nothing.
func TestLongSideWhereTheDrawingIsLarger(t *testing.T) {
	o := sheet.Options{Words: english(t, quantity.Metric)}
	wide := example(t, "redirect")
	require.True(t, sheet.LongSide(wide, o))

	o.Scale = 500
	require.False(t, sheet.LongSide(wide, o))

	o.Scale = 0
	high := *wide
	high.Site.Vehicles = append([]plan.Vehicle(nil), wide.Site.Vehicles[:1]...)
	high.Site.Anchors = append([]plan.Anchor(nil), wide.Site.Anchors...)
	high.Site.Anchors[0].At, high.Site.Anchors[1].At, high.Site.Anchors[2].At = plan.Point{X: 5, Y: 40}, plan.Point{X: 6, Y: 45}, plan.Point{X: 4, Y: -5}
	high.Site.Obstacles, high.Site.People, high.Rigs = nil, nil, nil
	require.False(t, sheet.LongSide(&high, o))
}
