package effort_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// leftward is a side force to the left at a height, with what it lifts at a
// place left of the middle.
func leftward(n, heightM, upN, leftM float64) []effort.Pull {
	return []effort.Pull{{Force: r3.Vector{Y: n, Z: upN}, HeightM: heightM, LeftM: leftM}}
}

func TestTipping(t *testing.T) {
	v := warden(nil) // 2 600 kg, track 1.6, centre of gravity 0.75 up
	w := 2600 * quantity.Gravity
	s, c := math.Sin(5*math.Pi/180), math.Cos(5*math.Pi/180)
	in := effort.TipIn{Vehicle: v, Move: leftward(5000, 0.85, 1000, 0), FallLeftDeg: 5}
	res := effort.Tipping(in, nil, nil)
	require.True(t, res.Known)
	// Closed form: F·h + W·sin β·h_cg over (W·cos β − V)·t/2.
	near(t, (5000*0.85+w*s*0.75)/((w*c-1000)*0.8), res.Share, 1e-9, "share")
	near(t, w*s*0.75/(w*c*0.8), res.Rest, 1e-9, "without a line")
	in.Sunk = true
	near(t, (5000*0.85+w*s*0.75)/((w*c-1000)*0.64), effort.Tipping(in, nil, nil).Share, 1e-9, "0.8 of the half track with a wheel sunk (ours)")
	lifted := effort.Tipping(effort.TipIn{Vehicle: v, Move: leftward(1, 1, 1e6, 0)}, nil, nil)
	assert.True(t, math.IsInf(lifted.Share, 1))
	v.Track = 0
	assert.False(t, effort.Tipping(in, nil, nil).Known)
}

// A line lifts at its own lever: hooked on over the wheel line that it tips
// about it takes nothing off, over the other one twice as much as in the middle.
func TestALineLiftsAtItsOwnLever(t *testing.T) {
	w := 2600 * quantity.Gravity
	for _, c := range []struct{ leftM, lever float64 }{{0.8, 0}, {0, 0.8}, {-0.8, 1.6}, {1.0, -0.2}} {
		res := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: leftward(5000, 0.85, 2000, c.leftM)}, nil, nil)
		near(t, 5000*0.85/(w*0.8-2000*c.lever), res.Share, 1e-9, "share")
		// At the limit the line lifts 0.4 of what it pulls sideways there too.
		near(t, 0.5*w*0.8/(0.85+0.5*0.4*c.lever), float64(res.Limit), 1e-6, "half of what rights it")
	}
}

// Pulled uphill it may still tip downhill, over the other wheels.
func TestTippingAboutBothWheelLines(t *testing.T) {
	w := 2600 * quantity.Gravity
	s, c := math.Sin(10*math.Pi/180), math.Cos(10*math.Pi/180)
	up := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: leftward(1000, 0.85, 0, 0), FallLeftDeg: -10}, nil, nil)
	near(t, (w*s*0.75-1000*0.85)/(w*c*0.8), up.Share, 1e-9, "the slope is the worse side")
	down := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: leftward(-1000, 0.85, 0, 0), FallLeftDeg: -10}, nil, nil)
	near(t, (w*s*0.75+1000*0.85)/(w*c*0.8), down.Share, 1e-9, "both the same way")
	// What tips it first as the line pulls harder: over the uphill wheels.
	near(t, (0.5*w*c*0.8+w*s*0.75)/0.85, float64(up.Limit), 1e-6, "uphill the slope helps")
	near(t, (0.5*w*c*0.8-w*s*0.75)/0.85, float64(down.Limit), 1e-6, "downhill it does not")
}

// By hand: 1 600 kg, track 1.62 m, centre of gravity 0.95 m up, 13° across, line
// at 0.6 m. Righting 15.691·cos 13°·0.81 = 12.384 kN·m, slope 15.691·sin 13°·0.95
// = 3.353 kN·m: (0.5·12.384 − 3.353)/0.6 = 4.73 kN. Scaling the slope with the
// line gave 7.42 kN at 14.3 kN of side force.
func TestTheSlopesOwnMomentIsNotScaled(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.Mass, v.Track, v.CGHeight = 1600, 1.62, 0.95 })
	for _, n := range []float64{10, 4730, 14_300} {
		res := effort.Tipping(effort.TipIn{Vehicle: v, Move: leftward(n, 0.6, 0, 0), FallLeftDeg: 13}, nil, nil)
		near(t, 4730, float64(res.Limit), 5, "half of what rights it")
		near(t, 2*4730+3353/0.6, float64(res.Ultimate), 10, "all of it: (12.384 − 3.353)/0.6")
	}
	near(t, 1, effort.Tipping(effort.TipIn{Vehicle: v, Move: leftward(15_052, 0.6, 0, 0), FallLeftDeg: 13}, nil, nil).Share, 1e-3, "tips there")
}

func TestPastItsShareWithoutAnyLine(t *testing.T) {
	var found []part.Finding
	in := effort.TipIn{Vehicle: warden(nil), Move: leftward(100, 0.85, 0, 0), FallLeftDeg: tipDeg(0.6)}
	res := effort.Tipping(in, nil, &found)
	assert.Negative(t, float64(res.Limit))
	assert.Positive(t, float64(res.Ultimate))
	assert.Equal(t, map[string]int{"tips-by-itself": 1}, idsOf(found))
}

func TestForcesThatAreNone(t *testing.T) {
	ahead := func(side float64) []effort.Pull {
		return []effort.Pull{{Force: r3.Vector{X: 20_000, Y: side}, HeightM: 0.85}}
	}
	none := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: ahead(0.019), FallLeftDeg: 5}, nil, nil)
	assert.False(t, none.Sided, "under a millionth of the largest")
	some := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: ahead(0.021), FallLeftDeg: 5}, nil, nil)
	assert.True(t, some.Sided)
	var found []part.Finding
	idle := effort.Tipping(effort.TipIn{Vehicle: warden(func(v *plan.Vehicle) { v.Track, v.Mass = 0, 0 }), Move: ahead(0)}, nil, &found)
	assert.True(t, idle.Known, "on the level, pulled ahead: nothing tips it sideways, whatever it measures")
	assert.Empty(t, found)
}

// The limit is where the share is what it stands for, whatever the lines.
func TestTheLimitIsWhereTheWarningBegins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Float64Range(-20_000, 20_000).Draw(t, "side")
		up := rapid.Float64Range(-5000, 5000).Draw(t, "up")
		left := rapid.Float64Range(-1, 1).Draw(t, "left")
		h := rapid.Float64Range(0.2, 1.2).Draw(t, "height")
		fall := rapid.Float64Range(-15, 15).Draw(t, "fall")
		if math.Abs(side) < 1 {
			return
		}
		at := func(k float64) effort.TipResult {
			return effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: leftward(k*side, h, k*up, left), FallLeftDeg: fall, FallAheadDeg: 3}, nil, nil)
		}
		a := at(1)
		for want, n := range map[float64]float64{0.5: float64(a.Limit), 1: float64(a.Ultimate)} {
			if n > 0 && n < 1e6 {
				below, above := at(n/math.Abs(side)*(1-1e-6)).Share, at(n/math.Abs(side)*(1+1e-6)).Share
				if !(below <= want && want <= above) {
					t.Fatalf("share %v just under its force, %v just over it: want %v between", below, above, want)
				}
			}
		}
	})
}

// What nobody measured decides nothing, unless the vehicle's roof does.
func TestHeightsNobodyMeasured(t *testing.T) {
	lacks := []part.Lack{{Thing: "warden", Member: "recovery_points.front.height_m"}}
	for _, c := range []struct {
		name   string
		change func(*plan.Vehicle)
		move   []effort.Pull
		want   string // member that is lacking; empty: decided
	}{
		// Share at the roof of 1.9 m: 4 000·1.9 over 0.8·W = 0.37; 6 000 gives 0.56.
		{"point, even at the roof", nil, []effort.Pull{{Force: r3.Vector{Y: 4000}, HeightUnknown: true}}, ""},
		{"point, not at the roof", nil, []effort.Pull{{Force: r3.Vector{Y: 6000}, HeightUnknown: true}}, "recovery_points.front.height_m"},
		{"point, no roof known", func(v *plan.Vehicle) { v.Height = 0 }, []effort.Pull{{Force: r3.Vector{Y: 4000}, HeightUnknown: true}}, "recovery_points.front.height_m"},
		// 10° across: 0.176·1.9/0.8 = 0.42 at the roof; 13° gives 0.55, and 0.28 at 0.96 m.
		{"centre of gravity, even at the roof", func(v *plan.Vehicle) { v.CGHeight = 0 }, leftward(10, 0.5, 0, 0), ""},
		{"centre of gravity, not at the roof", func(v *plan.Vehicle) { v.CGHeight = 0 }, leftward(10, 0.5, 0, 0), "cg_height_m"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := effort.TipIn{Vehicle: warden(c.change), Move: c.move}
			if c.move[0].HeightUnknown {
				in.HeightLacks = lacks
			}
			if in.Vehicle.CGHeight == 0 {
				in.FallLeftDeg = 10
				if c.want != "" {
					in.FallLeftDeg = 13
				}
			}
			var found []part.Finding
			effort.Tipping(in, nil, &found)
			if c.want == "" {
				assert.Empty(t, found)
				return
			}
			require.Len(t, found, 1)
			assert.Equal(t, part.NotDecidedID, found[0].ID)
			assert.Equal(t, []part.Lack{{Thing: "warden", Member: c.want, Rule: "tips-sideways"}}, found[0].Lacks)
		})
	}
}

// The greatest share at any pull is told for each wheel line: to move it is pulled over
// its left wheels, to break loose over its right ones. What it carries weighs as it does.
func TestTheGreatestShareAboutEachWheelLine(t *testing.T) {
	w := 2600 * quantity.Gravity
	for _, v := range []*plan.Vehicle{warden(nil), warden(func(v *plan.Vehicle) { v.Mass, v.Load = 2000, 600 })} {
		in := effort.TipIn{Vehicle: v, Move: leftward(2000, 1, 0, 0), Loosen: leftward(-3000, 1, 0, 0), Stall: leftward(1000, 1, 0, 0)}
		res := effort.Tipping(in, nil, nil)
		near(t, 2000/(w*0.8), res.About[0], 1e-9, "over its left wheels")
		near(t, 3000/(w*0.8), res.About[1], 1e-9, "over its right wheels")
		near(t, 2000/(w*0.8), res.Share, 1e-9, "to move")
		near(t, 3000/(w*0.8), res.Loosen, 1e-9, "to break loose")
		near(t, 1000/(w*0.8), res.Stall, 1e-9, "at stall")
	}
}

// A centre of gravity that nobody measured lies at the greater of 0.95 m and 0.6 of the
// track (ours): W·sin β·h over W·cos β·t/2.
func TestTippingByAHeightNobodyMeasured(t *testing.T) {
	for track, h := range map[quantity.Length]float64{1.2: 0.95, 1.5: 0.95, 2: 1.2} {
		v := warden(func(v *plan.Vehicle) { v.CGHeight, v.Track = 0, track })
		res := effort.Tipping(effort.TipIn{Vehicle: v, FallLeftDeg: 7}, nil, nil)
		near(t, math.Tan(7*math.Pi/180)*h/(float64(track)/2), res.Rest, 1e-9, "by itself")
		assert.True(t, res.Preset)
	}
}

// On ground so steep that a vehicle is past half of tipping by itself, what is left for
// a line is less than nothing: what lacks, over the height at which it pulls, of which a
// line on the ground has a millimetre. (closed form)
func TestTheLimitPastIt(t *testing.T) {
	w := 2600 * quantity.Gravity
	sin, cos := math.Sincos(30 * math.Pi / 180)
	for height, arm := range map[float64]float64{0.85: 0.85, 0: 0.001} {
		res := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: leftward(1000, height, 0, 0), FallLeftDeg: 30}, nil, nil)
		near(t, (0.5*w*cos*0.8-w*sin*0.75)/arm, float64(res.Limit), 1e-6*w/arm, "limit")
	}
}

// Of a vehicle that tips when it is moved nothing more is said at stall; what is said is
// its share, and of one that nothing rights 99.99, which is a number. (by hand)
func TestTippingSaysItsShareOnce(t *testing.T) {
	side := func(share float64) []effort.Pull { return leftward(share*2600*quantity.Gravity*0.8, 1, 0, 0) }
	for _, c := range []struct {
		move, stall []effort.Pull
		id          string
		share       float64
	}{
		{side(0.3), side(1.2), "tips-at-stall", 1.2},
		{side(0.8), side(1.2), "tips-sideways", 0.8},
		{side(0.6), side(0.7), "tips-sideways", 0.6},
		{side(0.3), side(0.9), "tips-at-stall", 0.9},
		{leftward(1, 1, 1e6, 0), nil, "tips-sideways", 99.99},
	} {
		var found []part.Finding
		effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: c.move, Stall: c.stall}, nil, &found)
		require.Len(t, found, 1, "%v", idsOf(found))
		assert.Equal(t, c.id, found[0].ID)
		near(t, c.share, figure(t, found[0], "share"), 1e-9, c.id)
	}
}

// The sum of a vehicle that is pulled across ends in the side force at which it is half
// tipped, whatever slope, lift and height there are.
func TestTheSumOfTippingEndsInItsLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		within := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		in := effort.TipIn{Vehicle: warden(nil), FallLeftDeg: rapid.SampledFrom([]float64{0, 4, -12, 35}).Draw(t, "left"), FallAheadDeg: rapid.SampledFrom([]float64{0, 8}).Draw(t, "ahead"),
			Move: leftward(within("side", 500, 9000), within("height", 0, 2), rapid.SampledFrom([]float64{0, 2000, -2000, 9000}).Draw(t, "up"), within("at", -0.7, 0.7))}
		var d part.Derivation
		res := effort.Tipping(in, &d, nil)
		if !res.Sided || effort.Unbounded(res.Limit) {
			return
		}
		last, ok := d.Last()
		if !ok || last.X != float64(res.Limit) {
			t.Fatalf("ends in %v, the limit is %v", last, res.Limit)
		}
	})
}
