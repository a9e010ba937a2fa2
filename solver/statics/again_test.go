package statics_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// A solver that keeps answers as one that does not, to the last bit: at another pull,
// of another rig between, and of the first one with any of its figures changed.
func TestKeptAnswersAreTheSame(t *testing.T) {
	var kept statics.Solver
	kept.Keep()
	ask := func(r statics.Rig, pullN float64) {
		var s statics.Solver
		var want, got statics.Result
		st := s.RequiredPull(&r, 0, pullN, &want)
		require.Equal(t, st, kept.RequiredPull(&r, 0, pullN, &got))
		require.Equal(t, fmt.Sprintf("%+v", want), fmt.Sprintf("%+v", got)) // no number equals none
	}
	for _, name := range benchNames {
		for _, change := range []func(r *statics.Rig){
			func(*statics.Rig) {},
			func(r *statics.Rig) { r.Points[0].Pos.X += 0.1 },
			func(r *statics.Rig) { r.Slings[0].LengthM *= 1.1 },
			func(r *statics.Rig) { r.Lines[0].Sheaves[0].Eta *= 0.99 },
			func(r *statics.Rig) { r.Lines[0].TensionN *= 2 },
			func(r *statics.Rig) { r.Bodies[0].Motion.Y += 0.1 },
			func(r *statics.Rig) { *r = elastic(*r) },
		} {
			r := benchRig(name)
			ask(r, 20e3)
			ask(r, 31e3)
			change(&r)
			ask(r, 31e3)
			ask(r, 7e3)
		}
		ask(benchRig(name), 7e3)
		r := benchRig(name)
		var out statics.Result
		kept.Solve(&r, &out) // it settles anew: what was kept is none
		ask(r, 9e3)
	}
}
