package exercise

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// straightTo is a straight pull whose way out lies 20° off its line and whose
// point is meant to take 20° off it.
func straightTo(t *testing.T) *Model {
	t.Helper()
	p := openPlan(t, "straight")
	p.Site.Obstacles = nil
	p.Site.Ground.Slope = plan.Known(quantity.Degrees(0))
	v := &p.Site.Vehicles[0]
	if v.Stuck == nil {
		v = &p.Site.Vehicles[1]
	}
	way, ok := v.WayOut()
	require.True(t, ok)
	v.Stuck.Way, v.Stuck.WayBearing = plan.WayFree, plan.Known((way + 20).Normal())
	for i := range v.Recovery {
		v.Recovery[i].Axis = plan.Known(v.Recovery[i].Axis.Or(0) + 20)
	}
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return Of(p, "R1", w)
}

// Each reading has its share of a tolerance, added as squares. At a scale of
// nearly 1 : 0 a ruler reads without error, and two ends of one line are read 2°
// off each, which turns the line by as much.
func TestEachReadingHasItsShareOfATolerance(t *testing.T) {
	m := straightTo(t)
	casualty := m.a.Casualty
	length := func(a *solver.Assessment) (float64, bool) {
		s := a.Stretches[0]
		return s.B.Sub(s.A).Norm(), true
	}
	offWay := func(a *solver.Assessment) (float64, bool) { // T·cos φ goes along the way
		return math.Acos(float64(a.Move.Along)/float64(a.Move.Tension)) * 180 / math.Pi, a.Move.Known
	}
	offPoint := func(a *solver.Assessment) (float64, bool) {
		for i := range a.Parts {
			if p := &a.Parts[i]; p.Thing == casualty && p.Move.Axis.Norm() > 0 {
				return float64(p.Move.Off), true
			}
		}
		return 0, false
	}
	const ruler = 1e-9
	assert.InDelta(t, math.Sqrt2, m.tolerance(length, 1000, "", false), 0.03, "a metre in the place of either end")
	assert.InDelta(t, math.Sqrt(12), m.tolerance(offWay, ruler, "", false), 0.05, "2° of the line at either end, 2° of the way")
	assert.InDelta(t, math.Sqrt(8), m.tolerance(offPoint, ruler, "", false), 0.1, "2° of the line at either end")
	assert.InDelta(t, math.Sqrt(12), m.tolerance(offPoint, ruler, casualty, false), 0.3, "and 2° of the vehicle, with which its point goes round a little")
}

// A varied mass is a number of tens of kilograms.
func TestVariedMassesAreRound(t *testing.T) {
	p := openPlan(t, "straight")
	random := rand.New(rand.NewPCG(1, 2))
	changed := 0
	for range 20 {
		q := Varied(p, "R1", Vary{MassShare: 0.2}, random)
		for i := range q.Site.Vehicles {
			v := &q.Site.Vehicles[i]
			if v.Stuck == nil {
				continue
			}
			assert.Zero(t, math.Mod(float64(v.Mass), 10), v.Mass)
			if v.Mass != p.Site.Vehicles[i].Mass {
				changed++
			}
		}
	}
	assert.Greater(t, changed, 10)
}

// Of the parts used most, those count too whose share is within a twentieth
// of the highest, and no other.
func TestCloseAnswersCountFromATwentieth(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := Of(p, "R1", w)
	x, err := m.Work([]Question{{Kind: AskWeakest}}, nil, 100)
	require.NoError(t, err)
	a := x.Asked[0]
	between := 0
	for i := range m.a.Parts {
		q := &m.a.Parts[i]
		if name, share := m.w.PartName(q, m.names), q.Used; share < 0.95*a.X {
			assert.NotContains(t, a.Also, name)
			if share >= 0.5*a.X {
				between++
			}
		}
	}
	assert.Positive(t, between)
}
