package exercise

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

func openPlan(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

// What is printed of a block is what the solver computes with: the tensions on
// its two sides. At a half turn (0° between the stretches) it keeps what its
// tag says, at no turn all.
func TestWhatABlockKeepsIsTheSolvers(t *testing.T) {
	assert.InDelta(t, 0.96, keeps(0.96, 0), 1e-9)
	assert.InDelta(t, 1, keeps(0.96, 180), 1e-6)
	for _, name := range []string{"redirect", "doubled"} {
		p := openPlan(t, name)
		a := solver.Assess(p, p.Rigs[0].ID)
		near, ok := a.Part("L1/1")
		require.True(t, ok)
		far, ok := a.Part("L1/2")
		require.True(t, ok)
		b, ok := a.Part("B1")
		require.True(t, ok)
		want := float64(far.Move.Force / near.Move.Force)
		got := keeps(gear.SheaveEfficiency(&p.Rigs[0].Blocks[0]), float64(b.Angle))
		if !(math.Abs(want-got) <= 1e-6) {
			t.Errorf("%s: the solver keeps %v, the page says %v", name, want, got)
		}
	}
}

// An exercise shows no state: it would tell the answer. Of what carries load each
// part looks within its limit.
func TestExercisesShowNoState(t *testing.T) {
	x := Exercise{}
	for _, s := range []part.Status{part.Near, part.Over, part.NoLimit, part.Undecided} {
		a := solver.Assessment{Parts: []part.Part{{ID: "B1", Kind: part.KindBlock, Move: part.Load{Known: true, Force: 1000}, Status: s}}}
		c := x.Studied(&a)
		require.Len(t, c.Parts, 1)
		assert.Equal(t, part.Within, c.Parts[0].Status, "%v", s)
	}
}

// The tolerance of an angle is the protractor's two degrees and more; of a load
// it grows with the scale's number.
func TestToleranceIsCarriedThroughTheSolver(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := Of(p, "R1", w)
	angle := func(a *solver.Assessment) (float64, bool) { q, ok := a.Part("B1"); return anglePart(q, ok) }
	fine, coarse := m.tolerance(angle, 100, "", true), m.tolerance(angle, 500, "", true)
	assert.Greater(t, fine, protractorDeg)
	assert.Greater(t, coarse, fine)
	assert.Less(t, coarse, 6.0)
	load := m.tolerance(loadOf("B1"), 200, "", false)
	assert.Greater(t, load, 300.0, "2° of 87° alone are 0.7 kN, √(29.4² + 28.5² + 2·29.4·28.5·cos θ) differentiated")
	assert.Less(t, load, 4000.0)
	none := m.tolerance(loadOf("no such part"), 200, "", false)
	assert.Zero(t, none)
}

func TestParseQuestion(t *testing.T) {
	for s, want := range map[string]Question{
		"angle:B1": {Kind: AskAngle, Part: "B1"}, "load:L1/1": {Kind: AskLoad, Part: "L1/1"},
		"weakest": {Kind: AskWeakest}, "first": {Kind: AskFirst},
		"what-if:R2:L2/1": {Kind: AskWhatIf, Rig: "R2", Part: "L2/1"},
		"worst-at:B1":     {Kind: AskWorstAt, Part: "B1"}, "happens": {Kind: AskHappens},
	} {
		got, err := ParseQuestion(s)
		require.NoError(t, err, s)
		assert.Equal(t, want, got)
	}
	for _, s := range []string{"", "angle", "load:", "weakest:B1", "worst-at", "happens:B1", "what-if:R2", "what-if::B1", "riddle:B1"} {
		_, err := ParseQuestion(s)
		assert.ErrorIs(t, err, ErrOption, s)
	}
}

func TestParseVary(t *testing.T) {
	v, err := ParseVary("mass=20%, place=1.5, trunks=0.1, turn=4, slings=2/3.5")
	require.NoError(t, err)
	assert.Equal(t, Vary{MassShare: 0.2, PlaceM: 1.5, Trunks: 0.1, TurnDeg: 4, Lengths: []quantity.Length{2, 3.5}}, v)
	for _, s := range []string{"mass=10%,mass=20%", "", "mass", "mass=x", "mass=NaN", "mass=90%", "place=9", "turn=90", "slings=0", "slings=2/x", "colour=1", "mass=0"} {
		_, err := ParseVary(s)
		assert.ErrorIs(t, err, ErrOption, s)
	}
}
