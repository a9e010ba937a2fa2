package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// A line led past the casualty to a winch behind it: as the body moves away
// from the block the line pays out, so the tension beyond is T/eta. By hand.
func TestPayingOutIsFound(t *testing.T) {
	r := redirect(60, constant(0.9))
	m := &r.Bodies[0].Motion
	m.X, m.Y = -m.X, -m.Y
	out := solved(t, r)
	v := out.Lines[0].Visits[0]
	assert.Equal(t, statics.Pay, v.Motion)
	assert.True(t, v.Determined)
	near(t, 1000/0.9, out.Lines[0].Stretches[1].TensionN, 1e-6, "tension beyond")
	near(t, -1, v.RunPerMetre, 1e-8, "run")
	near(t, -1, out.Lines[0].HaulPerMetre, 1e-8, "haul")
	assert.True(t, out.Has(statics.PullsBackwards, 0))
}

// The body moves square to the second leg: nothing runs, so the ratio is not
// determined and the answer says so.
func TestStandingSheaveIsUndetermined(t *testing.T) {
	r := redirect(60, constant(0.9))
	m := r.Bodies[0].Motion
	r.Bodies[0].Motion = r3.Vector{X: -m.Y, Y: m.X}
	out := solved(t, r)
	v := out.Lines[0].Visits[0]
	assert.Equal(t, statics.Stick, v.Motion)
	assert.False(t, v.Determined)
	near(t, 0.9, v.RatioLow, 1e-12, "low")
	near(t, 1/0.9, v.RatioHigh, 1e-12, "high")
	assert.True(t, out.Has(statics.UndeterminedSheave, 0))
}

func TestNoMotionIsUndetermined(t *testing.T) {
	r := redirect(60, byWrap(0.9))
	r.Bodies[0].Motion = r3.Vector{}
	out := solved(t, r)
	v := out.Lines[0].Visits[0]
	assert.Equal(t, statics.Stick, v.Motion)
	assert.False(t, v.Determined)
	assert.Less(t, v.RatioLow, 1.0)
	assert.Greater(t, v.RatioHigh, 1.0)
	assert.True(t, math.IsNaN(out.Advantage.ByForce))
	assert.True(t, math.IsNaN(out.Lines[0].HaulPerMetre))
	assert.True(t, math.IsNaN(v.RunPerMetre))
}

// An equalising bridle at rest: legs alike, the interval reported.
func TestEqualisingBridleAtRest(t *testing.T) {
	out := solved(t, statics.Rig{Points: []statics.Point{onBody(0, -0.7), onBody(0, 0.7), free(2.4, -0.4), fixed(25, -6.5)},
		Bodies: []statics.Body{{RefM: r3.Vector{X: -2}, Motion: r3.Vector{X: 1}}},
		Lines: []statics.Line{{Path: []int{3, 2}, Drum: true, TensionN: 40000},
			{Path: []int{0, 2, 1}, Sheaves: []statics.Sheave{constant(0.9)}, LengthM: 5}}})
	v := out.Lines[1].Visits[0]
	assert.Equal(t, statics.Stick, v.Motion)
	assert.False(t, v.Determined)
	near(t, 1, v.Ratio, 0, "ratio")
	near(t, 0.9, v.RatioLow, 1e-12, "low")
	near(t, 1/0.9, v.RatioHigh, 1e-12, "high")
	// case bridle_equalising of the reference file, where the ring has no friction
	near(t, 20778.2625657751, out.Lines[1].Stretches[0].TensionN, 0.004, "leg")
	near(t, 20778.2625657751, out.Lines[1].Stretches[1].TensionN, 0.004, "leg")
}

// In a stream of random rigs some sheaves pay and some stick, and every answer
// is consistent (checked by sound: within the friction, run and state agree).
func TestDirectionsInRandomRigs(t *testing.T) {
	var s statics.Solver
	var out statics.Result
	count := map[statics.SheaveMotion]int{}
	stuck, unsettled := 0, 0
	for seed := uint64(0); seed < 6000; seed++ {
		r := crossing(seed)
		if !s.Solve(&r, &out).HasForces() {
			continue
		}
		require.Empty(t, sound(&r, &out), "seed %d", seed)
		for _, l := range out.Lines {
			for _, v := range l.Visits {
				count[v.Motion]++
				if v.Motion == statics.Stick && v.Determined {
					stuck++
					require.Less(t, math.Abs(v.RunPerMetre), 1e-6, "seed %d: a stuck sheave runs", seed)
					require.GreaterOrEqual(t, v.Ratio, v.RatioLow-1e-6, "seed %d", seed)
					require.LessOrEqual(t, v.Ratio, v.RatioHigh+1e-6, "seed %d", seed)
				}
			}
		}
		for _, f := range out.Flags {
			if f.Kind == statics.UnsettledSheave {
				unsettled++
			}
		}
	}
	t.Logf("%v, stuck for certain %d, unsettled %d", count, stuck, unsettled)
	assert.Greater(t, count[statics.Haul], 1000)
	assert.Greater(t, count[statics.Pay], 100)
	assert.Greater(t, stuck, 10)
	assert.Less(t, unsettled, 10)
}

// crossing makes rigs whose legs nearly cancel: the body moves anywhere, lines
// double back over free blocks tied by length lines.
func crossing(seed uint64) statics.Rig {
	g := newGen(seed)
	g.minM = 4
	a := g.Float64() * 2 * math.Pi
	g.r.Bodies = []statics.Body{{Motion: r3.Vector{X: math.Cos(a), Y: math.Sin(a)}}}
	k := g.point(statics.OnBody, g.station())
	k2 := g.point(statics.OnBody, g.station())
	w, f1, f2 := g.point(statics.Fixed, g.station()), g.point(statics.Fixed, g.station()), g.point(statics.Fixed, g.station())
	p := g.point(statics.Free, g.station())
	eta := func() statics.Sheave { return constant(g.between(0.75, 0.97)) }
	g.r.Lines = []statics.Line{
		{Path: []int{w, p, f1}, Sheaves: []statics.Sheave{eta()}, Drum: true, TensionN: 2e4},
		{Path: []int{p, k, f2, k2}, Sheaves: []statics.Sheave{eta(), eta()}},
	}
	if g.IntN(2) == 0 {
		g.r.Lines[0].Path = []int{w, p, k2}
	}
	return g.r
}
