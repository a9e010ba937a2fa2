package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// elasticRedirect is case parallel_slings_stiffness of the reference file with
// the two slings as one: symmetric legs of half spread 3 m, sling 1 MN/m.
func elasticRedirect(tension float64) statics.Rig {
	return statics.Rig{Points: []statics.Point{fixed(0, 3), free(17.8, 0), onBody(0, -3), fixed(20, 0)},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines: []statics.Line{{Path: []int{0, 1, 2}, Drum: true, TensionN: tension,
			Sheaves: []statics.Sheave{{Eta: 1}}}},
		Slings: []statics.Sling{{A: 3, B: 1, LengthM: 2, StiffnessNPerM: 1e6}}}
}

// The tension that gives a pull in an elastic rig, against the equation of the
// case written out and halved: x = 2 T cos a(x) / k, pull = T cos a(x).
func TestRequiredPullElastic(t *testing.T) {
	want := func(resistance float64) float64 {
		// the sling carries 2 R whatever the angle, so x = 2 R / k is known
		x := 2 * resistance / 1e6
		b := 18 - x
		return resistance / (b / math.Hypot(b, 3))
	}
	r := elasticRedirect(40000)
	var s statics.Solver
	var out statics.Result
	for _, resistance := range []float64{300, 30000, 39451.05, 500000} {
		st := s.RequiredPull(&r, 0, resistance, &out)
		require.Equal(t, statics.Converged, st)
		near(t, want(resistance), out.Lines[0].TensionN, 1e-7*want(resistance), "tension for %v", resistance)
		near(t, resistance, out.Bodies[0].PullN, 1e-7*resistance, "pull")
		near(t, out.Lines[0].TensionN, out.Scale*40000, 1e-6, "scale")
	}
}

// A weighted block in three dimensions: the pull found is met again.
func TestRequiredPullWeighted(t *testing.T) {
	r := statics.Rig{Points: []statics.Point{{Pos: r3.Vector{Y: 6, Z: 1}}, {Kind: statics.Free, Pos: r3.Vector{X: 18, Z: 1}},
		{Kind: statics.OnBody, Pos: r3.Vector{Y: -6, Z: 1}}, {Pos: r3.Vector{X: 20, Z: 1}}},
		Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
		Lines:  []statics.Line{{Path: []int{0, 1, 2}, Drum: true, TensionN: 1000, Sheaves: []statics.Sheave{byWrap(0.9)}}},
		Slings: []statics.Sling{{A: 3, B: 1, LengthM: 2}},
		Loads:  []statics.PointLoad{{Point: 1, ForceN: r3.Vector{Z: -300}}}}
	var s statics.Solver
	var out statics.Result
	last := 0.0
	for _, resistance := range []float64{500, 5000, 50000} {
		require.True(t, s.RequiredPull(&r, 0, resistance, &out).HasForces())
		near(t, resistance, out.Bodies[0].PullN, 1e-7*resistance, "pull")
		require.Empty(t, sound(&r, &out))
		assert.Greater(t, out.Lines[0].TensionN, last)
		last = out.Lines[0].TensionN
	}
}

// The tension given is far too low for the weight, which runs away; the one
// looked for is found all the same, and it is that of a better first guess.
func TestRequiredPullFromPoorGuess(t *testing.T) {
	rig := func(tension float64) statics.Rig {
		return statics.Rig{Points: []statics.Point{{Pos: r3.Vector{X: 20, Z: 3}}, {Kind: statics.Free, Pos: r3.Vector{X: 10, Z: 2.5}},
			{Kind: statics.OnBody, Pos: r3.Vector{Z: 3}}},
			Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
			Lines: []statics.Line{{Path: []int{0, 1, 2}, Drum: true, TensionN: tension,
				Sheaves: []statics.Sheave{{Eta: 1}}}},
			Loads: []statics.PointLoad{{Point: 1, ForceN: r3.Vector{Z: -2000}}}}
	}
	var s statics.Solver
	var out statics.Result
	poor, good := rig(100), rig(10000)
	require.Equal(t, statics.Runaway, s.Solve(&poor, &out))
	// closed form: pull T cos b = 8000 with 2 T sin b = 2000
	want := math.Hypot(8000, 1000)
	for _, r := range []*statics.Rig{&poor, &good} {
		st := s.RequiredPull(r, 0, 8000, &out)
		require.True(t, st.HasForces(), "%v", st)
		near(t, want, out.Lines[0].TensionN, 1e-6*want, "tension")
	}
}

// Two winches straight to the casualty, one beside the other: by hand.
func TestSeveralWinches(t *testing.T) {
	rig := func(t1, t2 float64, steady bool) statics.Rig {
		return statics.Rig{Points: []statics.Point{fixed(20, 0), fixed(20, 0), onBody(0, 0)},
			Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
			Lines: []statics.Line{{Path: []int{0, 2}, Drum: true, TensionN: t1},
				{Path: []int{1, 2}, Drum: true, TensionN: t2, Steady: steady}}}
	}
	out := solved(t, rig(3000, 1000, false))
	near(t, 4000, out.Bodies[0].PullN, 1e-6, "pull")
	near(t, 1, out.Advantage.ByForce, 1e-12, "by force")
	near(t, 1, out.Advantage.ByMotion, 1e-9, "by motion")
	near(t, 1, out.Advantage.Efficiency, 1e-9, "efficiency")
	near(t, 1, out.Lines[1].HaulPerMetre, 1e-9, "haul of the second")

	var s statics.Solver
	r := rig(3000, 1000, false) // fixed ratio three to one
	require.Equal(t, statics.Converged, s.RequiredPull(&r, 0, 8000, &out))
	near(t, 6000, out.Lines[0].TensionN, 1e-6, "first")
	near(t, 2000, out.Lines[1].TensionN, 1e-6, "second")
	r = rig(3000, 1000, true) // second keeps its tension
	require.Equal(t, statics.Converged, s.RequiredPull(&r, 0, 8000, &out))
	near(t, 7000, out.Lines[0].TensionN, 1e-3, "first")
	near(t, 1000, out.Lines[1].TensionN, 1e-9, "second, steady")
}

func TestNoPull(t *testing.T) {
	var s statics.Solver
	var out statics.Result
	r := redirect(60, constant(0.9))
	m := &r.Bodies[0].Motion
	m.X, m.Y = -m.X, -m.Y // the line holds it back
	assert.Equal(t, statics.NoPull, s.RequiredPull(&r, 0, 1000, &out))
	withheld(t, &out)
	*m = r3.Vector{}
	assert.Equal(t, statics.NoPull, s.RequiredPull(&r, 0, 1000, &out))
	withheld(t, &out)
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		assert.Equal(t, statics.BadInput, s.RequiredPull(&r, 0, bad, &out))
		withheld(t, &out)
	}
	assert.Equal(t, statics.BadInput, s.RequiredPull(&r, 3, 1000, &out))
	withheld(t, &out)
}

// A winch that holds is a length line: its tension comes out, by hand. The
// second winch line stands in line with the first over a free shackle.
func TestHoldingWinch(t *testing.T) {
	r := statics.Rig{Points: []statics.Point{fixed(0, 0), free(10, 0), fixed(20, 1)},
		Lines: []statics.Line{{Path: []int{0, 1}, Drum: true, TensionN: 5000},
			{Path: []int{2, 1}, LengthM: 9}}}
	out := solved(t, r)
	near(t, 5000, out.Lines[1].TensionN, 1e-4, "holding winch")
	near(t, 9, out.Lines[1].LengthM, 1e-8, "length")
}
