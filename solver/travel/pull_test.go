package travel_test

import (
	"context"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

func example(t testing.TB, name string) *plan.Plan {
	t.Helper()
	data, err := fs.ReadFile(assets.Plans(), name+".kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(data)
	require.NoError(t, err)
	return p
}

// with is the plan with its casualty changed.
func with(p *plan.Plan, change func(v *plan.Vehicle, k *plan.Stuck)) *plan.Plan {
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := p.Site.Vehicles[i]
	k := *v.Stuck
	v.Stuck = &k
	change(&v, &k)
	return plan.WithVehicle(p, i, v)
}

// staged comes out of its hole after 2 m and is driven round a bend.
func staged(t testing.TB) *plan.Plan {
	return with(example(t, "doubled"), func(v *plan.Vehicle, k *plan.Stuck) {
		k.Bends = []plan.Point{{X: v.At.X + 3, Y: v.At.Y}, {X: v.At.X + 9, Y: v.At.Y + 2}}
		k.TurnRadius = 6
		k.Stages = []plan.Stage{{After: 2, Depth: plan.DepthNone}}
	})
}

func pull(t testing.TB, p *plan.Plan, o travel.Options) *travel.Haul {
	t.Helper()
	h, err := travel.Pull(context.Background(), p, p.Rigs[0].ID, o)
	require.NoError(t, err)
	return h
}

// Every moment of a pull is, to the bit, what Assess answers for the plan with the
// casualty there.
func TestMomentsAreAssess(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"redirect": example(t, "redirect"), "doubled": example(t, "doubled"), "staged": staged(t)} {
		h := pull(t, p, travel.Options{StepM: 0.5})
		require.Nil(t, h.Stop, name)
		require.Equal(t, h.EndM, h.UntilM)
		for i := range h.Moments {
			m := &h.Moments[i]
			a := solver.Assess(plan.Advanced(p, quantity.Length(m.AtM)), h.Rig)
			require.Equal(t, a.Move, m.Move, "%s at %g m", name, m.AtM)
			require.Equal(t, a.Loosen, m.Loosen, "%s at %g m", name, m.AtM)
			require.Equal(t, a.Stall, m.Stall, "%s at %g m", name, m.AtM)
			for k := range h.Parts {
				q, ok := a.Part(h.Parts[k].ID)
				if ok && q.Known() && q.Status != part.Refused {
					require.Equal(t, q.Most(), m.Shares[k], "%s: %s at %g m", name, q.ID, m.AtM)
				}
			}
		}
	}
}

// No place of the way asks more of a part than where it is said that most is asked,
// and nothing is better than its worst state.
func TestWorst(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"redirect": example(t, "redirect"), "doubled": example(t, "doubled"), "staged": staged(t)} {
		h := pull(t, p, travel.Options{})
		for sM := 0.0; sM <= h.EndM; sM += 0.0737 {
			a := solver.Assess(plan.Advanced(p, quantity.Length(sM)), h.Rig)
			for k := range h.Parts {
				w := &h.Parts[k]
				q, ok := a.Part(w.ID)
				if !ok {
					continue
				}
				if q.Known() {
					require.LessOrEqual(t, q.Most(), w.Share*(1+1e-9), "%s: %s at %g m", name, w.ID, sM)
				}
				if w.Status == part.Within {
					require.Equal(t, part.Within, q.Status, "%s: %s at %g m", name, w.ID, sM)
				}
			}
		}
		coarse := pull(t, p, travel.Options{StepM: 0.5})
		for k := range h.Parts {
			if w := &h.Parts[k]; w.Share == w.Share && w.Part.Limit.Known {
				assert.InEpsilon(t, w.Share, coarse.Parts[k].Share, 1e-3, "%s: %s with half the steps", name, w.ID)
			}
		}
	}
}

// What the winch does is what moving the casualty takes and what the sheaves lose, to
// 1e-4: the sum of T dL by Simpson's rule, against R s and the losses. On flat ground
// the height between fairlead and hook does no work on a casualty that goes level.
func TestHaulWork(t *testing.T) {
	for _, name := range []string{"redirect", "doubled"} {
		p := example(t, name)
		const n = 240
		winch, ground, lost := 0.0, 0.0, 0.0
		h := float64(6) / n
		at := func(sM float64) *solver.Assessment {
			return solver.Assess(plan.Advanced(p, quantity.Length(sM)), p.Rigs[0].ID)
		}
		rates := func(sM float64) (work, along, loss float64) {
			const d = 1e-4
			m := at(sM)
			a, b := at(math.Max(sM-d, 0)), at(sM+d)
			over := 0.0 // line over the next stretch's hauling end for a metre of way, from the far end
			for k := len(m.Stretches) - 1; k >= 0; k-- {
				tension, _ := m.Part(m.Stretches[k].Part)
				over += float64(a.Stretches[k].Length-b.Stretches[k].Length) / (sM + d - math.Max(sM-d, 0))
				if k > 0 {
					before, _ := m.Part(m.Stretches[k-1].Part)
					loss += float64(before.Move.Force-tension.Move.Force) * over
				} else {
					work = float64(m.Move.Tension) * over
				}
			}
			return work, float64(m.Resistance.Planned), loss
		}
		for i := 0; i <= n; i += 8 {
			weight := 8 * h / 3
			switch {
			case i == 0 || i == n:
			case i/8%2 == 1:
				weight *= 4
			default:
				weight *= 2
			}
			w, g, l := rates(float64(i) * h)
			winch, ground, lost = winch+weight*w, ground+weight*g, lost+weight*l
		}
		assert.InEpsilon(t, winch, ground+lost, 1e-4, name)
		assert.InEpsilon(t, 6*24026.0, ground, 1e-3, name) // R is the same all along: as drawn
	}
}

// What keeps a pull from its end is said, moment 0 answered, and no part called within
// its limit on a way that was not computed.
func TestStops(t *testing.T) {
	redirect := example(t, "redirect")
	rock := func(v *plan.Vehicle) []plan.Obstacle {
		x := v.At.X + float64(v.Length)/2 + 2
		return []plan.Obstacle{{Head: plan.Head{ID: "O9"}, Kind: plan.ObstacleBoulder, Height: 1.5, Outline: []plan.Point{{X: x, Y: v.At.Y + 0.5}, {X: x + 1, Y: v.At.Y + 0.5}, {X: x + 1, Y: v.At.Y + 1.5}, {X: x, Y: v.At.Y + 1.5}}}}
	}
	inWay := *example(t, "doubled")
	for i := range inWay.Site.Vehicles {
		if v := &inWay.Site.Vehicles[i]; v.Stuck != nil {
			inWay.Site.Obstacles = rock(v)
		}
	}
	bare := *redirect
	bare.Site.Obstacles = nil
	short := *redirect
	short.Rigs = slices.Clone(redirect.Rigs)
	short.Rigs[0].Lines = slices.Clone(redirect.Rigs[0].Lines)
	short.Rigs[0].Lines[0].Length = 12
	for name, c := range map[string]struct {
		p      *plan.Plan
		reason travel.StopReason
		low    float64
		high   float64
	}{
		"no casualty": {with(redirect, func(v *plan.Vehicle, k *plan.Stuck) { v.Stuck = nil }), travel.NoCasualty, 0, 0},
		"no way":      {with(redirect, func(v *plan.Vehicle, k *plan.Stuck) { k.Way = plan.WayFree }), travel.NoWay, 0, 0},
		"no length":   {with(redirect, func(v *plan.Vehicle, k *plan.Stuck) { k.WayLength = 0 }), travel.NoLength, 0, 0},
		"short line":  {&short, travel.LineIsOut, 0, 0},
		"abeam":       {with(&bare, func(v *plan.Vehicle, k *plan.Stuck) { k.WayLength = 30 }), travel.LineAbeam, 7, 20},
		"in the way":  {&inWay, travel.CasualtyMeets, 1.99, 2.01},
		"bears":       {example(t, "straight"), travel.LineBears, 0, 0},
	} {
		h := pull(t, c.p, travel.Options{})
		if !assert.NotNil(t, h.Stop, name) {
			continue
		}
		assert.Equal(t, c.reason, h.Stop.Reason, "%s: %+v", name, h.Stop)
		assert.GreaterOrEqual(t, h.Stop.AtM, c.low, name)
		assert.LessOrEqual(t, h.Stop.AtM, c.high, name)
		assert.Equal(t, part.Within != h.Start.Status || len(h.Start.Parts) > 0, true, name)
		assert.Len(t, h.Parts, len(h.Start.Parts), name)
		for _, w := range h.Parts {
			assert.NotContains(t, []part.Status{part.Within, part.Near, part.Slack}, w.Status, "%s: %s", name, w.ID)
		}
		for _, m := range h.Moments {
			assert.LessOrEqual(t, m.AtM, h.UntilM, name)
		}
	}
}

// Loads alone say of no part that it is within its limit, and the same of its load.
func TestLoadsAlone(t *testing.T) {
	whole, loads := pull(t, staged(t), travel.Options{}), pull(t, staged(t), travel.Options{LoadsAlone: true})
	require.Len(t, loads.Parts, len(whole.Parts))
	for i := range loads.Parts {
		assert.Equal(t, whole.Parts[i].AtM, loads.Parts[i].AtM)
		assert.Equal(t, whole.Parts[i].LoadN, loads.Parts[i].LoadN)
		assert.NotContains(t, []part.Status{part.Within, part.Near}, loads.Parts[i].Status)
	}
	assert.Equal(t, whole.Events, loads.Events)
}

// What it lies in changes at 2 m: less is asked beyond, and the most just before.
func TestStageIsAStep(t *testing.T) {
	h := pull(t, staged(t), travel.Options{})
	before, after := math.NaN(), math.NaN()
	for i := 1; i < len(h.Moments); i++ {
		if h.Moments[i].AtM == 2 {
			before, after = float64(h.Moments[i-1].Move.Tension), float64(h.Moments[i].Move.Tension)
		}
	}
	assert.Less(t, after, before)
	for _, w := range h.Parts {
		if w.Part.Kind == part.KindStretch {
			assert.Equal(t, 2.0, w.AtM, w.ID)
			assert.True(t, w.Left, w.ID)
		}
	}
}

// Shifted and turned, a plan is pulled alike; so it is with its lists in another
// order.
func TestPullSymmetry(t *testing.T) {
	want := pull(t, example(t, "redirect"), travel.Options{})
	for name, p := range map[string]*plan.Plan{
		"shifted":   placed(t, func(q plan.Point) plan.Point { return plan.Point{X: q.X + 300, Y: q.Y - 120} }, 0),
		"turned":    placed(t, func(q plan.Point) plan.Point { return plan.Point{X: q.Y, Y: -q.X} }, 90),
		"reordered": reordered(t),
	} {
		got := pull(t, p, travel.Options{})
		require.Len(t, got.Parts, len(want.Parts), name)
		for i := range want.Parts {
			w, g := &want.Parts[i], got.Parts[slices.IndexFunc(got.Parts, func(g travel.Worst) bool { return g.ID == want.Parts[i].ID })]
			assert.InEpsilon(t, w.LoadN, g.LoadN, 1e-6, "%s: %s", name, w.ID)
			assert.Equal(t, w.Status, g.Status, "%s: %s", name, w.ID)
		}
		require.Len(t, got.Events, len(want.Events), name)
		for i := range want.Events {
			assert.InDelta(t, want.Events[i].AtM, got.Events[i].AtM, 1e-5, name)
		}
	}
}

// placed is the redirect moved over the ground, bearings turned by deg.
func placed(t *testing.T, move func(plan.Point) plan.Point, deg quantity.Degrees) *plan.Plan {
	p := example(t, "redirect")
	turn := func(b *quantity.Degrees) { *b = (*b + deg).Normal() }
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		v.At = move(v.At)
		turn(&v.Bearing)
	}
	for i := range p.Site.Anchors {
		p.Site.Anchors[i].At = move(p.Site.Anchors[i].At)
	}
	for i := range p.Site.People {
		p.Site.People[i].At = move(p.Site.People[i].At)
	}
	for i := range p.Site.Obstacles {
		for k := range p.Site.Obstacles[i].Outline {
			p.Site.Obstacles[i].Outline[k] = move(p.Site.Obstacles[i].Outline[k])
		}
	}
	for i := range p.Rigs[0].Blocks {
		p.Rigs[0].Blocks[i].At = move(p.Rigs[0].Blocks[i].At)
	}
	return p
}

func reordered(t *testing.T) *plan.Plan {
	p := example(t, "redirect")
	slices.Reverse(p.Site.Vehicles)
	slices.Reverse(p.Site.Anchors)
	slices.Reverse(p.Site.Obstacles)
	slices.Reverse(p.Site.People)
	return p
}

func TestPullIsCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	last, told := 0.0, 0
	_, err := travel.Pull(ctx, example(t, "redirect"), "R1", travel.Options{Progress: func(doneM, endM float64) {
		assert.GreaterOrEqual(t, doneM, last)
		assert.LessOrEqual(t, doneM, endM)
		if last, told = doneM, told+1; told == 5 {
			cancel()
		}
	}})
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, 5, told)
	_, err = travel.Pull(context.Background(), example(t, "redirect"), "R7", travel.Options{})
	require.ErrorContains(t, err, "R7")
}
