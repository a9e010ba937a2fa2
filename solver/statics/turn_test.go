package statics_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// A body that turns while it moves takes its points round its reference: with the
// line along unit vector u towards the winch, the point at r from the reference and
// a turn of w a metre, the haul is u·(m + w×r) and the pull along is that times the
// tension (closed form, virtual work).
func TestTurningBody(t *testing.T) {
	const tension, turn = 5000.0, 0.125
	ref, hook, winch := r3.Vector{X: 1, Y: 2}, r3.Vector{X: 4, Y: 3}, r3.Vector{X: 10, Y: 11}
	rig := statics.Rig{
		Points: []statics.Point{{Pos: winch}, {Kind: statics.OnBody, Pos: hook}},
		Bodies: []statics.Body{{RefM: ref, Motion: r3.Vector{X: 3}, TurnPerM: turn}},
		Lines:  []statics.Line{{Path: []int{0, 1}, Drum: true, TensionN: tension}},
	}
	var s statics.Solver
	var out statics.Result
	require.True(t, s.Solve(&rig, &out).HasForces())
	u := r3.Vector{X: 0.6, Y: 0.8} // 6 m and 8 m of 10 m
	haul := u.Dot(r3.Vector{X: 1 - turn*1, Y: turn * 3})
	require.InDelta(t, haul, out.Lines[0].HaulPerMetre, 1e-12)
	require.InDelta(t, tension*haul, out.Bodies[0].PullN, 1e-8)
	rig.Bodies[0].TurnPerM = math.NaN()
	require.Equal(t, statics.BadInput, s.Solve(&rig, &out))
}

// A block on a long sling may lie where its sheave hauls and where it pays out, both in
// agreement with the motion: friction holds it in either place. The search takes the
// way it is told to begin with. That both are answers is checked on the answers: forces
// balance, and the line runs the way the sheave turns.
func TestSheaveStart(t *testing.T) {
	solve := func(start statics.SheaveMotion, endX float64) (statics.Visit, float64) {
		sheave := statics.Sheave{Model: statics.Constant, Eta: 0.9}
		second := sheave
		second.Start = start
		rig := statics.Rig{
			Points: []statics.Point{{Pos: r3.Vector{X: 40, Y: -2}}, {Kind: statics.OnBody, Pos: r3.Vector{X: 2}}, {Kind: statics.Free, Pos: r3.Vector{X: 5.5, Y: -1.5}},
				{Pos: r3.Vector{X: 5.5, Y: -5}}, {Pos: r3.Vector{X: endX, Y: -7}}},
			Bodies: []statics.Body{{Motion: r3.Vector{X: 1}}},
			Lines:  []statics.Line{{Path: []int{0, 1, 2, 4}, Drum: true, TensionN: 1, Sheaves: []statics.Sheave{sheave, second}}},
			Slings: []statics.Sling{{A: 3, B: 2, LengthM: 3.5}},
		}
		var s statics.Solver
		var out statics.Result
		require.Equal(t, statics.Converged, s.Solve(&rig, &out))
		require.Less(t, out.ResidualN, 1e-9)
		v := out.Lines[0].Visits[1]
		require.True(t, v.Determined)
		require.Equal(t, v.Motion == statics.Haul, v.RunPerMetre > 0)
		return v, out.Bodies[0].PullN
	}
	haul, pull := solve(statics.Haul, 13)
	pay, other := solve(statics.Pay, 13)
	require.Equal(t, statics.Haul, haul.Motion)
	require.Equal(t, statics.Pay, pay.Motion)
	require.Greater(t, math.Abs(pull-other), 0.01)
	// Where the line can run one way alone, both ways of beginning find it.
	haul, pull = solve(statics.Haul, -3)
	pay, other = solve(statics.Pay, -3)
	require.Equal(t, haul.Motion, pay.Motion)
	require.InDelta(t, pull, other, 1e-9)
}
