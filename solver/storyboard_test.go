package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// example reads one of the example plans.
func example(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

// within fails unless got is a number within one part in a hundred of want: the
// tolerance the reference figures state (plan view, no sheave radius).
func within(t *testing.T, want, got float64, what string) {
	t.Helper()
	require.Falsef(t, math.IsNaN(got) || math.IsInf(got, 0), "%s is not a number", what)
	require.InEpsilonf(t, want, got, 0.01, "%s", what)
}

func levels(a *solver.Assessment) map[string]part.Level {
	out := map[string]part.Level{}
	for _, f := range a.Findings {
		out[f.ID] = f.Level
	}
	return out
}

// The straight pull of the design's storyboard: chord 21.87 m, contact 4.74 m
// from 9.1 to 13.8 m from the winch, and nothing computed of it.
// Source: the storyboard's independent reference figures.
func TestStraightBearsOnBoulder(t *testing.T) {
	a := solver.Assess(example(t, "straight"), "R1")
	require.Len(t, a.Stretches, 1)
	s := a.Stretches[0]
	within(t, 21.87, float64(s.Length), "length")
	require.Len(t, s.Contacts, 1)
	within(t, 4.74, float64(s.Contacts[0].Length), "contact")
	within(t, 9.1, float64(s.Contacts[0].From), "from")
	within(t, 13.8, float64(s.Contacts[0].To), "to")
	require.Equal(t, part.Danger, levels(a)["line-bears"])
	require.False(t, a.Complete)
	require.False(t, a.Move.Known)
	require.NotEmpty(t, a.Parts)
	for _, p := range a.Parts {
		require.Equal(t, part.Refused, p.Status, p.ID)
		require.False(t, p.Move.Known, p.ID)
		require.False(t, p.Stall.Known, p.ID)
	}
}

// The redirect of the storyboard: block (23.75, 18.43), angle 87.4°, stretches
// 18.54 and 12.48 m, winch line over casualty's line 1.030, block load over
// casualty's line 1.468, legs 25.3°, clearance to the boulder 3.19 m.
// Source: the storyboard's independent reference figures.
func TestRedirectRoundBoulder(t *testing.T) {
	a := solver.Assess(example(t, "redirect"), "R1")
	require.Equal(t, part.Within, a.Status)
	var node part.Node
	for _, n := range a.Nodes {
		if n.Thing == "B1" {
			node = n
		}
	}
	within(t, 23.75, node.At.X, "block x")
	within(t, 18.43, node.At.Y, "block y")
	within(t, 87.4, float64(node.Angle), "angle")
	within(t, 12.48, float64(a.Stretches[0].Length), "stretch from the winch")
	within(t, 18.54, float64(a.Stretches[1].Length), "stretch to the casualty")
	within(t, 3.19, float64(a.Stretches[1].Clear), "clearance")
	winch, ok := a.Part("L1/1")
	require.True(t, ok)
	casualty, ok := a.Part("L1/2")
	require.True(t, ok)
	block, ok := a.Part("B1")
	require.True(t, ok)
	sling, ok := a.Part("S1")
	require.True(t, ok)
	within(t, 1.030, float64(winch.Move.Force/casualty.Move.Force), "winch line over casualty's line")
	within(t, 1.468, float64(block.Move.Force/casualty.Move.Force), "block load over casualty's line")
	within(t, 25.3, float64(sling.Angle), "legs")
	// The pull along the way out is the planned resistance: 1 W by the handbook
	// at hub depth, 2450 kg · 9.80665 (army recovery manuals, from memory).
	within(t, 2450*9.80665, float64(a.Move.Along), "pull along the way out")
}

// A doubled line back to the casualty: the anchor carries (1+ρ) of the winch
// line, ρ 0.96 at almost a half turn. Source: closed form of the spread
// purchase, statics.
func TestDoubledSelfRecovery(t *testing.T) {
	a := solver.Assess(example(t, "doubled"), "R1")
	require.Equal(t, part.Within, a.Status)
	tree, ok := a.Part("T1")
	require.True(t, ok)
	within(t, 1.96, float64(tree.Move.Force/a.Move.Tension), "anchor over winch line")
	within(t, 2, a.MotionRatio, "line hauled per metre")
	_, slides := levels(a)["vehicle-slides"]
	require.False(t, slides, "that the casualty slides is the purpose of the pull")
}
