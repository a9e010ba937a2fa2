package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// Each row of README section 10: a status and the things at fault, never forces
// that look right.
func TestDegenerateRigs(t *testing.T) {
	frictionless := []statics.Sheave{{Eta: 1}}
	drum := func(path ...int) statics.Line {
		l := statics.Line{Path: path, Drum: true, TensionN: 4e4}
		for range path[2:] {
			l.Sheaves = append(l.Sheaves, frictionless[0])
		}
		return l
	}
	for _, c := range []struct {
		name   string
		rig    statics.Rig
		status statics.Status
		flags  []statics.Flag // kind and A (and B where not 0) that must be there
	}{
		{"zero deflection", statics.Rig{Points: []statics.Point{fixed(0, 0), free(10, 0), fixed(20, 0), fixed(10, 1)},
			Lines: []statics.Line{drum(0, 1, 2)}, Slings: []statics.Sling{{A: 3, B: 1, LengthM: 2}}},
			statics.Slack, []statics.Flag{{Kind: statics.SlackSling, A: 0}, {Kind: statics.FloatingPoint, A: 1}}},
		{"two-blocked", statics.Rig{Points: []statics.Point{fixed(0, 0), free(5, 1), fixed(20, 0)},
			Lines: []statics.Line{drum(0, 1)}, Slings: []statics.Sling{{A: 2, B: 1, LengthM: 30}}},
			statics.TwoBlocked, []statics.Flag{{Kind: statics.BlocksTouch, A: 0, B: 1}}},
		{"zero-length drawn stretch", statics.Rig{Points: []statics.Point{fixed(0, 0), fixed(0, 0), fixed(20, 0)},
			Lines: []statics.Line{drum(0, 1, 2)}},
			statics.TwoBlocked, []statics.Flag{{Kind: statics.BlocksTouch, A: 0, B: 1}}},
		{"slings too short", statics.Rig{Points: []statics.Point{fixed(0, -0.7), fixed(0, 0.7), free(0.3, 0), fixed(20, 0)},
			Lines: []statics.Line{drum(3, 2)}, Slings: []statics.Sling{{A: 0, B: 2, LengthM: 0.5}, {A: 1, B: 2, LengthM: 0.6}}},
			statics.Infeasible, []statics.Flag{{Kind: statics.ShortSling, A: 0}, {Kind: statics.ShortSling, A: 1}}},
		{"line too short", statics.Rig{Points: []statics.Point{fixed(0, 0), free(10, 3), fixed(20, 0)},
			Lines: []statics.Line{{Path: []int{0, 1, 2}, Sheaves: frictionless, LengthM: 15}}},
			statics.Infeasible, []statics.Flag{{Kind: statics.ShortLine, A: 0}}},
		{"loose end", statics.Rig{Points: []statics.Point{fixed(0, 0), fixed(20, 0), free(5, 5), free(6, 6)},
			Lines: []statics.Line{drum(0, 1)}, Slings: []statics.Sling{{A: 2, B: 3}}},
			statics.LooseEnd, []statics.Flag{{Kind: statics.LoosePoint, A: 2}, {Kind: statics.LoosePoint, A: 3}}},
		{"point tied to nothing", statics.Rig{Points: []statics.Point{fixed(0, 0), fixed(20, 0), free(5, 5)},
			Lines: []statics.Line{drum(0, 1)}},
			statics.LooseEnd, []statics.Flag{{Kind: statics.LoosePoint, A: 2}}},
		{"hanging point", statics.Rig{Points: []statics.Point{fixed(0, 0), fixed(20, 0), free(5, 5)},
			Lines: []statics.Line{drum(0, 1)}, Slings: []statics.Sling{{A: 0, B: 2, LengthM: 10}}},
			statics.Slack, []statics.Flag{{Kind: statics.HangingPoint, A: 2}, {Kind: statics.SlackSling, A: 0}}},
		{"redundant rigid slings", statics.Rig{Points: []statics.Point{fixed(0, 0), free(18, 1), fixed(0, 9), fixed(20, 3)},
			Lines: []statics.Line{drum(0, 1, 2)}, Slings: []statics.Sling{{A: 3, B: 1, LengthM: 2}, {A: 1, B: 3, LengthM: 2}}},
			statics.Converged, []statics.Flag{{Kind: statics.SharedSlings, A: 0, B: 1}}},
		{"three rigid slings in one plane", statics.Rig{Points: []statics.Point{fixed(-3, -2), free(0, 0), fixed(-3.5, 0), fixed(-3, 2), fixed(20, 0)},
			Lines: []statics.Line{drum(4, 1)}, Slings: []statics.Sling{{A: 0, B: 1}, {A: 2, B: 1}, {A: 1, B: 3}}},
			statics.Converged, []statics.Flag{{Kind: statics.SharedSlings, A: 1, B: 2}}},
		{"two rigid slings in one straight line", statics.Rig{Points: []statics.Point{fixed(-3, 0), free(0, 0), fixed(-5, 0), fixed(20, 0)},
			Lines: []statics.Line{drum(3, 1)}, Slings: []statics.Sling{{A: 0, B: 1}, {A: 2, B: 1}}},
			statics.Converged, []statics.Flag{{Kind: statics.SharedSlings, A: 0, B: 1}}},
		{"load outpulls the lines", statics.Rig{Points: []statics.Point{fixed(-10, 0), free(0, 0), fixed(10, 0)},
			Lines: []statics.Line{drum(0, 1, 2)}, Loads: []statics.PointLoad{{Point: 1, ForceN: r3.Vector{Z: -9e4}}}},
			statics.Runaway, []statics.Flag{{Kind: statics.RunawayPoint, A: 1}}},
		{"tail pulls backwards", statics.Rig{Points: []statics.Point{fixed(20, 0), onBody(0, 0), fixed(-15, 3)},
			Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
			Lines:  []statics.Line{drum(0, 1), drum(2, 1)}},
			statics.Converged, []statics.Flag{{Kind: statics.PullsBackwards, A: 1, B: 1}}},
		{"becket on its own block", statics.Rig{Points: []statics.Point{fixed(0, 0), fixed(9, 0)},
			Lines: []statics.Line{drum(0, 1, 1)}}, statics.BadInput, []statics.Flag{{Kind: statics.Fault, A: 0, B: 2}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var s statics.Solver
			var out statics.Result
			st := s.Solve(&c.rig, &out)
			assert.Equal(t, c.status, st, "flags %v", out.Flags)
			checkAnswer(t, &c.rig, &out, st)
			for _, want := range c.flags {
				found := false
				for _, f := range out.Flags {
					found = found || f.Kind == want.Kind && f.A == want.A && (want.B == 0 || f.B == want.B)
				}
				assert.True(t, found, "want flag %v in %v", want, out.Flags)
			}
			// Warm after failure is the same again.
			assert.Equal(t, c.status, s.Warm(&c.rig, &out))
		})
	}
}

// The missing length of a bridle whose legs do not meet: by hand, 1.4 - 1.1 m
// shared alike when no line pulls it sideways.
func TestMissingLength(t *testing.T) {
	r := statics.Rig{Points: []statics.Point{fixed(0, -0.7), fixed(0, 0.7), free(0.3, 0), fixed(20, 0)},
		Lines:  []statics.Line{{Path: []int{3, 2}, Drum: true, TensionN: 4e4}},
		Slings: []statics.Sling{{A: 0, B: 2, LengthM: 0.5}, {A: 1, B: 2, LengthM: 0.6}}}
	var s statics.Solver
	var out statics.Result
	require.Equal(t, statics.Infeasible, s.Solve(&r, &out))
	for _, f := range out.Flags {
		near(t, 0.15, f.Value, 1e-5, "missing length of %d", f.A)
	}
	require.Len(t, out.Flags, 2)
}

func TestZeroValues(t *testing.T) {
	var out statics.Result
	assert.Equal(t, statics.NotComputed, out.Status)
	assert.False(t, out.Status.HasForces())
	var s statics.Solver
	assert.Equal(t, statics.Converged, s.Solve(&statics.Rig{}, &out), "nothing is in balance")
}

func TestBadInput(t *testing.T) {
	good := func() statics.Rig {
		r := benchRig("redirect")
		r.Loads = []statics.PointLoad{{Point: 1}}
		return r
	}
	g := good()
	require.NoError(t, g.Validate())
	bad := []float64{math.NaN(), math.Inf(1), math.Inf(-1)}
	edits := map[string]func(r *statics.Rig, x float64){
		"point 1: place":   func(r *statics.Rig, x float64) { r.Points[1].Pos.X = x },
		"body 0":           func(r *statics.Rig, x float64) { r.Bodies[0].RefM.Y = x },
		"line 0: tension":  func(r *statics.Rig, x float64) { r.Lines[0].TensionN = x },
		"line 0: length":   func(r *statics.Rig, x float64) { r.Lines[0].LengthM = x },
		"line 0: compl":    func(r *statics.Rig, x float64) { r.Lines[0].ComplianceMPerN = x },
		"line 0: sheave 0": func(r *statics.Rig, x float64) { r.Lines[0].Sheaves[0].Eta = x },
		"sling 0: length":  func(r *statics.Rig, x float64) { r.Slings[0].LengthM = x },
		"load 0":           func(r *statics.Rig, x float64) { r.Loads[0].ForceN.X = x },
		"sling 0: stiff": func(r *statics.Rig, x float64) {
			if math.IsInf(x, 1) {
				x = -1 // +Inf is a sling that does not stretch
			}
			r.Slings[0].StiffnessNPerM = x
		},
		"line 0: path entry 1 is": func(r *statics.Rig, _ float64) { r.Lines[0].Path[1] = 99 },
		"same point":              func(r *statics.Rig, _ float64) { r.Lines[0].Path[1] = 0 },
		"line 0: need one sheave": func(r *statics.Rig, _ float64) { r.Lines[0].Sheaves = nil },
		"fewer than two":          func(r *statics.Rig, _ float64) { r.Lines[0].Path = []int{1} },
		"sling 0: needs":          func(r *statics.Rig, _ float64) { r.Slings[0].B = r.Slings[0].A },
		"point 2: no such body":   func(r *statics.Rig, _ float64) { r.Points[2].Body = 7 },
		"point 2: unknown":        func(r *statics.Rig, _ float64) { r.Points[2].Kind = 9 },
	}
	for want, edit := range edits {
		for _, x := range bad {
			r := copyRig(good())
			edit(&r, x)
			err := r.Validate()
			require.ErrorIs(t, err, statics.ErrRig, "%s %v", want, x)
			assert.ErrorContains(t, err, want)
			var s statics.Solver
			var out statics.Result
			assert.Equal(t, statics.BadInput, s.Solve(&r, &out))
			assert.True(t, len(out.Flags) == 1 && out.Flags[0].Kind == statics.Fault)
			withheld(t, &out)
		}
	}
}

// The rig is not changed by solving, and a result used again says the same.
// The first that is not there is none either: of points, bodies and efficiencies.
func TestBadInputAtItsBounds(t *testing.T) {
	good := benchRig("redirect")
	good.Loads = []statics.PointLoad{{Point: 1}}
	points, bodies := len(good.Points), len(good.Bodies)
	for want, edit := range map[string]func(r *statics.Rig){
		"line 0: path entry 1 is no point":                     func(r *statics.Rig) { r.Lines[0].Path[1] = points },
		"line 0: path entries 0 and 1 are the same point":      func(r *statics.Rig) { r.Lines[0].Path[1] = r.Lines[0].Path[0] },
		"point 2: no such body":                                func(r *statics.Rig) { r.Points[2].Body = bodies },
		"line 0: sheave 0: efficiency not in (0, 1]":           func(r *statics.Rig) { r.Lines[0].Sheaves[0].Eta = 0 },
		"load 0: needs a free point":                           func(r *statics.Rig) { r.Loads[0].Point = points },
		"sling 0: needs two different points":                  func(r *statics.Rig) { r.Slings[0].A = points },
		"line 0: tension is negative or not finite":            func(r *statics.Rig) { r.Lines[0].TensionN = -1e-9 },
		"sling 0: length is negative, not finite, or zero as ": func(r *statics.Rig) { r.Slings[0].LengthM = -1e-9 },
	} {
		r := copyRig(good)
		r.Loads = []statics.PointLoad{{Point: 1}}
		edit(&r)
		assert.ErrorContains(t, r.Validate(), want)
	}
	r := copyRig(good)
	r.Lines[0].Sheaves[0].Eta, r.Lines[0].TensionN, r.Slings[0].LengthM = 1, 0, 0
	assert.NoError(t, r.Validate())
}

func TestResultIsReused(t *testing.T) {
	var s statics.Solver
	var used statics.Result
	for seed := uint64(0); seed < 300; seed++ {
		r := realistic(seed, seed&1 == 0)
		before := copyRig(r)
		s.Solve(&r, &used)
		require.Equal(t, before, copyRig(r))
		var clean statics.Solver
		var fresh statics.Result
		clean.Solve(&r, &fresh)
		require.Equal(t, fresh.Status, used.Status)
		require.Equal(t, fresh.Points, used.Points, "seed %d", seed)
		require.Equal(t, len(fresh.Slings), len(used.Slings), "seed %d", seed)
		for i := range fresh.Slings {
			require.Equal(t, fresh.Slings[i], used.Slings[i], "seed %d", seed)
		}
	}
}

func TestNoAllocations(t *testing.T) {
	for _, name := range benchNames {
		r := benchRig(name)
		var s statics.Solver
		var out statics.Result
		require.Equal(t, statics.Converged, s.Solve(&r, &out), name)
		assert.Zero(t, testing.AllocsPerRun(20, func() { s.Solve(&r, &out) }), "cold %s", name)
		assert.Zero(t, testing.AllocsPerRun(20, func() { s.Warm(&r, &out) }), "warm %s", name)
	}
}
