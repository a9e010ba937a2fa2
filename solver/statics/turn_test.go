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
