package hold_test

import (
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"

	"kedge/solver/facts"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Of a figure in doubt that end counts with which an anchor holds less: less of all
// but the plate of a screw, which has to lie five times as deep as it is wide.
func TestTheEndThatHoldsLess(t *testing.T) {
	of := func(a *plan.Anchor) map[string]float64 {
		typed, _ := a.HoldLow.Get()
		return map[string]float64{
			"rating.force_n": float64(a.Rating.Force), "girth_m": float64(a.Girth), "trunk_m": float64(a.Trunk), "height_m": float64(a.Height), "mass_kg": float64(a.Mass),
			"depth_m": float64(a.Depth), "log_length_m": float64(a.LogLength), "log_diameter_m": float64(a.LogDiameter), "helix_m": float64(a.Helix), "hold_low_n": float64(typed),
			"axis_rise_deg": float64(a.AxisRise),
		}
	}
	for member := range of(&plan.Anchor{}) {
		want := map[string]float64{"helix_m": 14, "axis_rise_deg": 10}[member]
		if want == 0 {
			want = 7
		}
		a := &plan.Anchor{Girth: 10, Trunk: 10, Height: 10, Mass: 10, Depth: 10, LogLength: 10, LogDiameter: 10, Helix: 10, AxisRise: 10, HoldLow: plan.Known(quantity.Force(10))}
		a.Rating.Force = 10
		assert.True(t, hold.TakeConservative(a, member, plan.Doubt{Member: member, Low: 7, High: 14}), member)
		for m, x := range of(a) {
			if m == member {
				assert.InDelta(t, want, x, 0, m)
			} else {
				assert.InDelta(t, 10, x, 0, "%s, by a doubt of %s", m, member)
			}
		}
	}
	assert.False(t, hold.TakeConservative(&plan.Anchor{}, "set_bearing_deg", plan.Doubt{}))
}

// The rise of a screw's axis is that above the ground on the way it was set for: on
// ground that falls by 10° that way it is 10° less in space, on ground that falls
// across as much as on the level. A load along it is off by nothing.
func TestAScrewOnASlope(t *testing.T) {
	sin, cos := math.Sincos(10 * math.Pi / 180)
	for _, c := range []struct {
		what   string
		normal r3.Vector
		rise   float64
	}{
		{"falls toward the pull", r3.Vector{X: sin, Z: cos}, 20},
		{"rises toward the pull", r3.Vector{X: -sin, Z: cos}, 40},
		{"falls across", r3.Vector{Y: sin, Z: cos}, 30},
		{"level", r3.Vector{}, 30},
	} {
		s := hold.Anchor(hold.In{Anchor: screw(), Normal: c.normal, Load: rising(c.rise)}, nil, nil)
		up, along := math.Sincos(c.rise * math.Pi / 180)
		assert.InDelta(t, up, s.Axis.Z, 1e-9, c.what)
		assert.InDelta(t, along, s.Axis.X, 1e-9, c.what)
		assert.InDelta(t, 0, float64(s.Off), 1e-6, c.what)
		assert.True(t, s.Limit.Known, c.what)
	}
	for rise, can := range map[quantity.Degrees]bool{90: true, 90.1: false, -1: false, 0.1: true} {
		a := screw()
		a.AxisRise = rise
		var found []part.Finding
		hold.Anchor(hold.In{Anchor: a, Load: rising(30)}, nil, &found)
		assert.Equal(t, !can, slices.ContainsFunc(found, func(f part.Finding) bool { return f.ID == "anchor-impossible" }), "%v", float64(rise))
	}
	// 90° off nothing of a load lies along it: all of it is side load.
	a := screw()
	a.AxisRise = 90
	s := hold.Anchor(hold.In{Anchor: a, Load: r3.Vector{X: 5e3}}, nil, nil)
	assert.InDelta(t, 90, float64(s.Off), 1e-9)
	assert.InDelta(t, 5e3, float64(s.Side), 1e-6)
}

// There may be twice as much of a boulder as is seen (ours): of one of 2 m by 1.5 m
// that is 1 m high 6 m³, of one of which nobody entered the height the square of its
// width thrice, of one without an outline 3 by 3 times its height. Of more than that
// at the densest stone it has no hold.
func TestABoulderWeighsNoMoreThanItsStone(t *testing.T) {
	dense := facts.BoulderDensity.High().X
	outline := []plan.Point{{}, {X: 2}, {X: 2, Y: 1.5}, {Y: 1.5}}
	slices.Reverse(outline) // the other way round it is as large
	for what, c := range map[string]struct {
		in     func(quantity.Mass) hold.In
		volume float64
	}{
		"as high as measured": {func(kg quantity.Mass) hold.In {
			return hold.In{Obstacle: &plan.Obstacle{Anchor: true, Mass: kg, Outline: outline, Height: 1}}
		}, 3},
		"of unknown height": {func(kg quantity.Mass) hold.In {
			return hold.In{Obstacle: &plan.Obstacle{Anchor: true, Mass: kg, Outline: outline}}
		}, 3 * math.Sqrt(3)},
		"without an outline": {func(kg quantity.Mass) hold.In {
			return hold.In{Anchor: &plan.Anchor{Kind: plan.AnchorBoulder, Mass: kg, Height: 0.5}}
		}, 9 * 0.125},
	} {
		for f, can := range map[float64]bool{1: true, 1.001: false} {
			in := c.in(quantity.Mass(2 * c.volume * dense * f * (1 - 1e-12)))
			in.Load = east
			assert.Equal(t, can, hold.Anchor(in, nil, nil).Ultimate.Known, "%s, %v", what, f)
		}
	}
}

// The sum of a boulder's hold says of the rise and the fall what counts of them: those
// up and toward the pull, and nothing of those that earn nothing.
func TestABouldersSumSaysItsAngles(t *testing.T) {
	for _, c := range []struct{ rise, slope, wantRise, wantSlope float64 }{{20, 5, 20, 5}, {-20, 5, 0, 5}, {20, -5, 20, 0}} {
		var d part.Derivation
		hold.Boulder(hold.BoulderIn{Thing: "B1", Mass: 6000, Rise: quantity.Degrees(c.rise), Slope: quantity.Degrees(c.slope)}, &d, nil)
		said := map[string]float64{}
		for _, s := range d.Steps {
			for _, o := range s.Operands {
				said[o.Name] = o.X
			}
		}
		assert.InDelta(t, c.wantRise, said["rise"], 1e-12)
		assert.InDelta(t, c.wantSlope, said["slope"], 1e-12)
	}
}
