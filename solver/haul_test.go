package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// A winch hauls as much line as the casualty goes times what of it comes in a metre: on
// a doubled line the cosines of both stretches at the casualty. What it takes is that
// length over its speed.
func TestWinchRunsForTheLineThatComesIn(t *testing.T) {
	p := example(t, "doubled")
	a := solver.Assess(p, p.Rigs[0].ID)
	v := solver.CasualtyOf(p, p.Rigs[0].ID)
	way, ok := v.WayOut()
	require.True(t, ok)
	e, n := plan.Heading(way)
	perM := 0.0
	for i := range a.Stretches {
		d := a.Stretches[i].B.Sub(a.Stretches[i].A)
		perM += math.Abs(d.X*e+d.Y*n) / math.Hypot(d.X, d.Y)
	}
	require.InDelta(t, perM, a.MotionRatio, 1e-3)
	require.Greater(t, perM, 1.5)
	for i := range a.Parts {
		q := &a.Parts[i]
		if q.Kind != part.KindWinch {
			continue
		}
		got := map[string]float64{}
		for _, x := range q.Values {
			got[x.Name] = x.X
		}
		require.Positive(t, got["speed"])
		assert.InDelta(t, float64(v.Stuck.WayLength)*perM/got["speed"], got["time"], 1e-3*got["time"])
		return
	}
	t.Fatal("no winch")
}

// A line that runs through a bare shackle turns there by the angle between the way it
// comes and the way it goes on, and keeps e^(−½·turn) of its tension (friction 0.5,
// the high end: ours).
func TestTurnOfALineOverABareShackle(t *testing.T) {
	p := basePlan()
	onRing(true)(p)
	a := solver.Assess(p, "R1")
	require.Len(t, a.Stretches, 2)
	one, two := a.Stretches[0].B.Sub(a.Stretches[0].A), a.Stretches[1].B.Sub(a.Stretches[1].A)
	turn := math.Acos(one.Dot(two) / one.Norm() / two.Norm())
	require.Greater(t, turn, 0.5)
	for i := range a.Findings {
		if f := &a.Findings[i]; f.ID == "line-chafes" {
			assert.InDelta(t, turn*180/math.Pi, f.Values[0].X, 1e-6)
			assert.InDelta(t, math.Exp(-0.5*turn), f.Values[1].X, 1e-9)
			return
		}
	}
	t.Fatal("nothing chafes")
}

// The sum of every load says how it came about, from the tensions of the lines: none
// falls back on the shares of the whole balance, nor says nothing of it.
func TestSumsSayHowLoadsCameAbout(t *testing.T) {
	plans := map[string]*plan.Plan{"two winches": changed(twoWinches), "two slings": changed(second(2)), "a bare shackle": changed(onRing(true))}
	for _, name := range []string{"redirect", "doubled", "straight"} {
		plans[name] = example(t, name)
	}
	for name, p := range plans {
		for _, r := range p.Rigs {
			for _, q := range solver.Assess(p, r.ID).Parts {
				if !q.Move.Known || q.Status == part.Slack || q.Kind == part.KindTip {
					continue
				}
				d, err := solver.Explain(p, r.ID, q.ID)
				require.NoError(t, err)
				said := false
				for _, s := range d.Steps {
					assert.NotEqual(t, "load-of-balance", s.Formula, "%s: %s of %s", name, q.ID, r.ID)
					said = said || s.Result.Unit == part.UnitForce && math.Abs(s.Result.X/float64(q.Move.Force)-1) < 1e-9
				}
				assert.True(t, said, "%s: %s of %s", name, q.ID, r.ID)
			}
		}
	}
}

func changed(by change) *plan.Plan {
	p := basePlan()
	by(p)
	return p
}
