package terrain_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

func TestGroundClosedForms(t *testing.T) {
	g, err := terrain.NewGround(plan.Ground{Slope: deg(20), Downhill: deg(90)}) // falls to the east
	require.NoError(t, err)
	rad := math.Pi / 180
	// closed forms of a plane of 20°
	near(t, -10*math.Tan(20*rad), g.Z(10, 7), 1e-12)
	near(t, 0, g.Z(0, 5), 1e-12)
	near(t, 20, float64(g.Fall(90)), 1e-12)
	near(t, -20, float64(g.Fall(270)), 1e-12)
	near(t, 0, float64(g.Fall(0)), 1e-12)
	near(t, 20, float64(g.Lateral(0)), 1e-12, "heading north, it falls to the right")
	near(t, -20, float64(g.Lateral(180)), 1e-12)
	near(t, 0, float64(g.Lateral(90)), 1e-12)
	// a bearing of 45° off the fall line on the map: tan a = tan β · cos 45°
	near(t, math.Atan(math.Tan(20*rad)*math.Sqrt2/2)/rad, float64(g.Fall(45)), 1e-12)
	// and in closed form, sin a = sin β · cos ψ, ψ in the plane: tan ψ = cos β · tan 45°
	psi := math.Atan(math.Cos(20 * rad))
	near(t, math.Sin(20*rad)*math.Cos(psi), g.SinFall(45), 1e-12)
	near(t, math.Sin(20*rad)*math.Sin(psi), g.SinLateral(45), 1e-12)
	near(t, 1.5, g.Above(g.Lift(plan.Point{X: 3, Y: 4}, 1.5)), 1e-12)
}

func TestGroundRefuses(t *testing.T) {
	for _, g := range []plan.Ground{{Slope: deg(61)}, {Slope: deg(-1)}, {Slope: plan.Known(quantity.Degrees(math.NaN()))}, {Slope: deg(5), Downhill: plan.Known(quantity.Degrees(math.Inf(1)))}} {
		_, err := terrain.NewGround(g)
		assert.ErrorContains(t, err, "terrain: ground:")
	}
	g, err := terrain.NewGround(plan.Ground{Slope: deg(0)})
	require.NoError(t, err)
	assert.Equal(t, terrain.Flat, g)
	assert.Equal(t, r3.Vector{Z: 1}, g.Normal())
}

func TestGroundProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		slope := rapid.Float64Range(0, 60).Draw(t, "slope")
		g, err := terrain.NewGround(plan.Ground{Slope: plan.Known(quantity.Degrees(slope)), Downhill: plan.Known(quantity.Degrees(rapid.Float64Range(-360, 360).Draw(t, "downhill")))})
		require.NoError(t, err)
		b := quantity.Degrees(rapid.Float64Range(0, 360).Draw(t, "bearing"))
		along, across, n := g.Along(b), g.Across(b), g.Normal()
		near(t, 1, along.Norm(), 1e-12)
		near(t, 1, across.Norm(), 1e-12)
		near(t, 0, along.Dot(n), 1e-12)
		near(t, 0, across.Dot(along), 1e-12)
		near(t, 0, g.Downhill().Dot(n), 1e-12)
		s := math.Sin(slope * math.Pi / 180)
		near(t, s*s, g.SinFall(b)*g.SinFall(b)+g.SinLateral(b)*g.SinLateral(b), 1e-12)
		near(t, 0, math.Abs(float64(b.Turn(terrain.VecBearing(along)))), 1e-9)
		// along + 10 m stays on the plane
		near(t, 0, g.Above(along.Mul(10)), 1e-9)
	})
}

func TestBearings(t *testing.T) {
	for _, tt := range []struct {
		name    string
		v       r3.Vector
		bearing quantity.Degrees
	}{ // by definition: clockwise from north, whatever it climbs
		{"north", r3.Vector{Y: 1}, 0},
		{"east", r3.Vector{X: 1, Z: 3}, 90},
		{"south", r3.Vector{Y: -1}, 180},
		{"west", r3.Vector{X: -1, Z: -2}, 270},
		{"north-east", r3.Vector{X: 1, Y: 1}, 45},
		{"upright", r3.Vector{Z: 1}, 0},
	} {
		t.Run(tt.name, func(t *testing.T) { near(t, float64(tt.bearing), float64(terrain.VecBearing(tt.v)), 1e-12) })
	}
}

func deg(x float64) plan.Maybe[quantity.Degrees] { return plan.Known(quantity.Degrees(x)) }

func TestGroundTellsWhatItLacks(t *testing.T) {
	for _, c := range []struct {
		ground plan.Ground
		lacks  string
	}{
		{plan.Ground{}, "slope_deg"},
		{plan.Ground{Downhill: deg(90)}, "slope_deg"},
		{plan.Ground{Slope: deg(0)}, ""}, // level: there is no downhill to know
		{plan.Ground{Slope: deg(12)}, "downhill_bearing_deg"},
		{plan.Ground{Slope: deg(12), Downhill: deg(0)}, ""},
	} {
		g, err := terrain.NewGround(c.ground)
		require.NoError(t, err)
		assert.Equal(t, c.lacks, g.Lacks())
	}
}
