package solver_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// held is a pull down a slope: the truck tied back by a line and by a strap with
// shackle and tree strap, the casualty held back by a line over a friction
// device.
func held(t testing.TB) *plan.Plan { return seeded.Read(t, os.DirFS("../testdata"), "held.kedge") }

// Of the measured 9 kN the casualty rolls with 9 + W·sin 9°, since its weight of
// 2450 kg pulls with it; breaking loose takes half as much again of that, as the
// plan says: 1.5 (9 + W·sin 9°) − W·sin 9°. Every part of the pull and of the
// tie-backs has its load times that over 9, those of the hold-back the same as
// before: it is loaded by the casualty, not by the winch.
func TestPartsHaveTheLoadToBreakLoose(t *testing.T) {
	a := solver.Assess(held(t), "R1")
	require.True(t, a.Looser())
	require.InEpsilon(t, 9e3, float64(a.Move.Tension), 1e-3, "at the same height in line with the way out: the resistance itself")
	weight := 2450 * 9.80665 * math.Sin(9*math.Pi/180)
	loosen := (1.5*(9e3+weight) - weight) / 9e3
	assert.InEpsilon(t, loosen, float64(a.Loosen.Tension/a.Move.Tension), 1e-6)
	for i := range a.Parts {
		p := &a.Parts[i]
		times := loosen
		if slices.Contains(ofHoldBack, p.ID) {
			times = 1
		}
		assert.InEpsilon(t, times, float64(p.Loosen.Force/p.Move.Force), 1e-6, p.ID)
		assert.Equal(t, times != 1, p.Looser(), p.ID)
		assert.InEpsilon(t, times*p.Used, p.Most(), 1e-6, p.ID)
	}
	worst := &a.Parts[a.Worst]
	for i := range a.Parts {
		assert.LessOrEqual(t, a.Parts[i].Most(), worst.Most(), a.Parts[i].ID)
	}
}

// ofHoldBack are the parts that the hold-back alone loads.
var ofHoldBack = []string{"L3/1", "L3/start", "L3/end", "V1/rear", "T1"}

// A sum says the load to break loose where it is another, and ends in its share.
func TestSumSaysTheLoadToBreakLoose(t *testing.T) {
	p := held(t)
	a := solver.Assess(p, "R1")
	formulas := func(id string) (all []string, steps []part.Step, last part.Step) {
		derivation, err := solver.Explain(p, "R1", id)
		require.NoError(t, err)
		for _, s := range derivation.Steps {
			all = append(all, s.Formula)
		}
		return all, derivation.Steps, derivation.Steps[len(derivation.Steps)-1]
	}
	all, steps, last := formulas("L1/1")
	line, _ := a.Part("L1/1")
	for from, l := range map[string]part.Load{"to-move": line.Move, "to-break-loose": line.Loosen} { // straight from the winch: the line's own tension
		i := slices.Index(all, from)
		require.GreaterOrEqual(t, i, 0)
		assert.InDelta(t, float64(l.Force), steps[i].Result.X, 1e-6)
	}
	assert.Equal(t, "used-to-break-loose", last.Formula)
	assert.Equal(t, line.Most(), last.Result.X)
	assert.Equal(t, float64(line.Loosen.Force), last.Operands[0].X)
	all, _, last = formulas("L3/1")
	assert.NotContains(t, all, "to-break-loose")
	assert.NotContains(t, all, "to-move", "no winch loads a hold-back")
	assert.Contains(t, all, "hold-back-load")
	assert.Equal(t, "used", last.Formula)
}

// What a hold-back alone loads gives at no line tension; everything else that
// may give has its place in the order.
func TestNothingHeldBackIsInTheOrder(t *testing.T) {
	a := solver.Assess(held(t), "R1")
	var in []string
	for _, f := range a.Order {
		in = append(in, a.Parts[f.Part].ID)
	}
	for i := range a.Parts {
		p := &a.Parts[i]
		assert.Equal(t, p.Ultimate.Known && !slices.Contains(ofHoldBack, p.ID), slices.Contains(in, p.ID), p.ID)
	}
}

// A point that the pull and the hold-back share keeps its place.
func TestPointOfPullAndHoldBackIsInTheOrder(t *testing.T) {
	p := held(t)
	p.Rigs[0].Lines[2].Path[0].Point = "front"
	a := solver.Assess(p, "R1")
	assert.True(t, slices.ContainsFunc(a.Order, func(f solver.Failing) bool { return a.Parts[f.Part].ID == "V1/front" }))
}

// Every line is listed with what of it is out: the far line is laid round a
// trunk of 0.48 m, 7.9 m east and 0.2 m south of its point, which is 0.6 m high.
func TestLinesThatHoldAreListed(t *testing.T) {
	a := solver.Assess(held(t), "R1")
	out := map[plan.ID]solver.LineUse{}
	for _, l := range a.Lines {
		out[l.Line] = l
	}
	require.Len(t, out, 3)
	assert.InDelta(t, math.Sqrt(7.9*7.9+0.2*0.2+0.6*0.6)-0.24, float64(out["L3"].Out), 0.01)
	assert.InDelta(t, 7.7, float64(out["L3"].Has), 0)
	for _, id := range []string{"L2/1", "S2", "S3", "S1"} {
		p, ok := a.Part(id)
		require.True(t, ok, id)
		assert.Equal(t, plan.UseTieBack, p.Use, id)
	}
	p, _ := a.Part("L3/1")
	assert.Equal(t, plan.UseHoldBack, p.Use)
	p, _ = a.Part("L1/1")
	assert.Empty(t, p.Use)
}

// A winch breaks nothing that it does not load: half of what the hold-back line
// breaks at is no matter of its stall.
func TestStallSaysNothingOfAHoldBack(t *testing.T) {
	p := held(t)
	p.Rigs[0].Lines[2].Rating.Force = 6e3 // the line carries 5.3 kN
	a := solver.Assess(p, "R1")
	line, _ := a.Part("L3/1")
	require.Equal(t, part.Over, line.Status)
	for _, f := range a.Findings {
		if f.ID == "stall-near" || f.ID == "stall-breaks" {
			assert.NotContains(t, f.Parts, "L3/1")
		}
	}
}

// What ends on nothing lies where it is drawn, and what hangs free at what it
// hangs on: nothing lies at the origin of the plan.
func TestRestraintsLieWhereTheyAreDrawn(t *testing.T) {
	tree, drawn := plan.Point{X: 24, Y: 19.5}, plan.Point{X: 40, Y: 3}
	rear := func(p *plan.Plan) plan.Point {
		v := p.Site.Vehicles[1]
		return v.Place(v.RecoveryPoint("rear").Ahead, 0)
	}
	line := func(r *plan.Rig, path ...plan.Port) {
		r.Lines = append(r.Lines, plan.Line{Head: plan.Head{ID: "L9"}, Path: path, Length: 9, Use: plan.UseTieBack})
	}
	loose := plan.Shackle{Head: plan.Head{ID: "K9"}, At: drawn}
	truck := plan.Port{Thing: "V2", Point: "rear"}
	for _, c := range []struct {
		name   string
		change func(r *plan.Rig)
		want   func(p *plan.Plan) [][2]plan.Point // ends of the stretches of L9, then of S9
	}{
		{"a strap on a tree, its end free", func(r *plan.Rig) {
			r.Slings = append(r.Slings, plan.Sling{Head: plan.Head{ID: "S9"}, On: plan.Port{Thing: "T1"}, Length: 3, Use: plan.UseTieBack})
		}, func(*plan.Plan) [][2]plan.Point { return [][2]plan.Point{{tree, tree}} }},
		{"a line to a shackle that joins nothing", func(r *plan.Rig) {
			r.Shackles = append(r.Shackles, loose)
			line(r, truck, plan.Port{Thing: "K9"})
		}, func(p *plan.Plan) [][2]plan.Point { return [][2]plan.Point{{rear(p), drawn}} }},
		{"a strap behind a strap, its end free", func(r *plan.Rig) {
			r.Shackles = append(r.Shackles, loose)
			r.Slings = append(r.Slings, plan.Sling{Head: plan.Head{ID: "S9"}, On: plan.Port{Thing: "K9"}, Length: 3, Use: plan.UseTieBack})
		}, func(*plan.Plan) [][2]plan.Point { return [][2]plan.Point{{drawn, drawn}} }},
		{"a line round a corner", func(r *plan.Rig) {
			line(r, truck, plan.Port{Thing: "T1"}, plan.Port{Thing: "T2"})
		}, func(p *plan.Plan) [][2]plan.Point {
			return [][2]plan.Point{{rear(p), tree}, {tree, {X: 12, Y: 21.5}}}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := example(t, "straight")
			c.change(&p.Rigs[0])
			a := solver.Assess(p, "R1")
			var got [][2]plan.Point
			flat := func(v r3.Vector) plan.Point { return plan.Point{X: v.X, Y: v.Y} }
			for _, s := range a.Stretches {
				if s.Line == "L9" {
					got = append(got, [2]plan.Point{flat(s.A), flat(s.B)})
				}
			}
			for _, s := range a.Slings {
				if s.Sling == "S9" {
					got = append(got, [2]plan.Point{flat(s.Centre), flat(s.Apex)})
				}
			}
			want := c.want(p)
			require.Len(t, got, len(want))
			for i := range want {
				for e := range want[i] {
					assert.InDelta(t, want[i][e].X, got[i][e].X, 1e-9)
					assert.InDelta(t, want[i][e].Y, got[i][e].Y, 1e-9)
				}
			}
		})
	}
}
