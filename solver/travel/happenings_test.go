package travel_test

import (
	"context"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// staged comes out of its hole after 2 m.
func staged(t testing.TB) *plan.Plan {
	return with(examplePlan(t, "doubled"), func(v *plan.Vehicle) {
		v.Stuck.Stages = []plan.Stage{{After: 2, Depth: plan.DepthNone}}
	})
}

// bare has nothing in the way of lines, and a damper that comes to the block.
func bare(t testing.TB, longM quantity.Length) *plan.Plan {
	p := *with(examplePlan(t, "redirect"), func(v *plan.Vehicle) { v.Stuck.WayLength = longM })
	p.Site.Obstacles = nil
	r := p.Rigs[0]
	r.Dampers = slices.Clone(r.Dampers)
	r.Dampers[1].Share = 0.15
	return plan.WithRig(&p, 0, r)
}

// Each event is where Assess, asked a little before and a little after, has one
// side of it and the other.
func TestEventsAreWhereAssessChanges(t *testing.T) {
	const beside = 1e-4
	told := map[travel.EventKind]int{}
	for name, p := range map[string]*plan.Plan{"redirect": bare(t, 9), "doubled": examplePlan(t, "doubled"), "staged": staged(t)} {
		for _, e := range followed(t, p, "R1").Events {
			if told[e.Kind]++; e.Start {
				continue
			}
			was, is := solver.Assess(travel.At(p, "R1", e.AtM-beside), "R1"), solver.Assess(travel.At(p, "R1", e.AtM+beside), "R1")
			before, _ := was.Part(e.Part)
			after, _ := is.Part(e.Part)
			switch e.Kind {
			case travel.OverLimit:
				assert.Less(t, before.Most(), 1.0, "%s: %+v", name, e)
				assert.GreaterOrEqual(t, after.Most(), 1.0, "%s: %+v", name, e)
			case travel.LayerChange:
				assert.Equal(t, e.From, before.Layer, name)
				assert.Equal(t, e.To, after.Layer, name)
			case travel.OffWayBeyond:
				has := func(a *solver.Assessment) bool {
					return a.Why == "off-way-out-refused" || slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
						return f.ID == "off-way-out" && slices.ContainsFunc(f.Values, func(v part.Value) bool { return v.Name == "limit" && v.X >= e.LimitDeg })
					})
				}
				assert.False(t, has(was), "%s: %+v", name, e)
				assert.True(t, has(is), "%s: %+v", name, e)
			}
		}
	}
	for _, kind := range []travel.EventKind{travel.OverLimit, travel.LayerChange, travel.OffWayBeyond, travel.ReachesFairlead, travel.ReachesBlock} {
		assert.Positive(t, told[kind], string(kind))
	}
}

// A damper keeps its distance from the line's far end: it comes to the fairlead when
// that much is left of the whole line, and to the block when that much is left
// behind it (closed form, on lengths of Assess).
func TestThingsOnTheLine(t *testing.T) {
	p := bare(t, 9)
	lengths := func(s float64) (a, b float64) {
		x := solver.Assess(travel.At(p, "R1", s), "R1").Stretches
		return float64(x[0].Length), float64(x[1].Length)
	}
	a0, b0 := lengths(0)
	for _, e := range followed(t, p, "R1").Events {
		a, b := lengths(e.AtM)
		switch {
		case e.Kind == travel.ReachesFairlead && e.Thing == "D1": // a third along the first stretch
			assert.Equal(t, plan.ID("V2"), e.Other)
			assert.InDelta(t, b0+a0*(1-0.33), a+b, 1e-6)
		case e.Kind == travel.ReachesBlock && e.Thing == "D2":
			assert.Equal(t, plan.ID("B1"), e.Other)
			assert.InDelta(t, b0*(1-0.15), b, 1e-6)
		}
	}
}

// Where what it lies in changes there is a step, and the whole has the worse side.
func TestStageIsAStep(t *testing.T) {
	p := staged(t)
	a := followed(t, p, "R1")
	before := solver.Assess(travel.At(p, "R1", 2-1e-6), "R1")
	assert.Less(t, float64(solver.Assess(travel.At(p, "R1", 2), "R1").Move.Tension), float64(before.Move.Tension))
	assert.InEpsilon(t, float64(before.Move.Tension), float64(a.Move.Tension), 1e-6)
}

// The winch's share steps where its line comes on to another layer: a moment stands on
// each side.
func TestBothSidesOfALayerAreMoments(t *testing.T) {
	a := followed(t, examplePlan(t, "doubled"), "R1")
	n := 0
	for _, e := range a.Events {
		if e.Kind != travel.LayerChange {
			continue
		}
		n++
		i := slices.IndexFunc(a.Moments, func(m solver.Moment) bool { return m.AtM >= e.AtM })
		require.Positive(t, i)
		assert.InDelta(t, a.Moments[i-1].AtM, a.Moments[i].AtM, 1e-5)
		was, _ := a.Moments[i-1].Part(e.Part)
		is, _ := a.Moments[i].Part(e.Part)
		assert.Equal(t, e.From, was.Layer)
		assert.Equal(t, e.To, is.Layer)
	}
	assert.Positive(t, n)
}

// What the winch does is what moving the casualty takes and what the sheaves lose, to
// 1e-4: the sum of T dL by Simpson's rule, against R s and the losses. Rates are
// central differences of lengths. On flat ground the height between fairlead and hook
// does no work on a casualty that goes level.
func TestHaulWork(t *testing.T) {
	const n, d, end = 30, 1e-4, 5.5
	for _, name := range []string{"redirect", "doubled"} {
		p := examplePlan(t, name)
		at := func(s float64) *solver.Assessment { return solver.Assess(travel.At(p, "R1", s), "R1") }
		winch, ground, lost := 0.0, 0.0, 0.0
		for i := 0; i <= n; i++ {
			s := 0.1 + end*float64(i)/n
			weight := end / n / 3 * float64(2+2*(i%2))
			if i == 0 || i == n {
				weight = end / n / 3
			}
			m, a, b := at(s), at(s-d), at(s+d)
			over := 0.0 // line over the hauling end of a stretch for a metre of way
			for k := len(m.Stretches) - 1; k >= 0; k-- {
				behind, _ := m.Part(m.Stretches[k].Part)
				over += float64(a.Stretches[k].Length-b.Stretches[k].Length) / (2 * d)
				if k == 0 {
					winch += weight * float64(m.Move.Tension) * over
					break
				}
				before, _ := m.Part(m.Stretches[k-1].Part)
				lost += weight * float64(before.Move.Force-behind.Move.Force) * over
			}
			ground += weight * float64(m.Resistance.Planned)
		}
		assert.InEpsilon(t, winch, ground+lost, 1e-4, name)
	}
}

// Two blocks of a line meet where what lies between them is what their sheaves take.
func TestBlocksMeet(t *testing.T) {
	p := *bare(t, 30)
	r := p.Rigs[0]
	b := r.Blocks[0]
	b.ID, b.Fixed, b.Sheave = "B9", plan.Port{Thing: "V1", Point: "front"}, 0.14
	r.Blocks = append(slices.Clone(r.Blocks), b)
	r.Lines = slices.Clone(r.Lines)
	r.Lines[0].Path = []plan.Port{{Thing: "V2", Point: plan.PortWinch}, {Thing: "B1"}, {Thing: "B9"}, {Thing: "T1"}}
	r.Dampers = nil
	q := with(plan.WithRig(&p, 0, r), func(v *plan.Vehicle) {
		v.Stuck.Way = plan.WayFree
		v.Stuck.WayBearing = plan.Known(quantity.Degrees(math.Atan2(23.75-v.At.X, 18.43-v.At.Y) * 180 / math.Pi))
		v.Bearing, _ = v.Stuck.WayBearing.Get()
	})
	a := followed(t, q, "R1")
	require.Equal(t, part.Within, a.Status, a.Why)
	require.Equal(t, "blocks-touch", a.Stop)
	last := solver.Assess(travel.At(q, "R1", a.EndM), "R1")
	assert.InDelta(t, (0.12+0.14)/2, float64(last.Stretches[1].Length), 1e-3)
	assert.False(t, a.Complete)
}

// Shifted and turned, a plan is pulled alike; so it is with its lists in another order.
func TestPullSymmetry(t *testing.T) {
	want := followed(t, examplePlan(t, "redirect"), "R1")
	for name, p := range map[string]*plan.Plan{
		"shifted":   placed(t, func(q plan.Point) plan.Point { return plan.Point{X: q.X + 300, Y: q.Y - 120} }, 0),
		"turned":    placed(t, func(q plan.Point) plan.Point { return plan.Point{X: q.Y, Y: -q.X} }, 90),
		"reordered": reordered(t),
	} {
		got := followed(t, p, "R1")
		require.Len(t, got.Parts, len(want.Parts), name)
		for i := range want.Parts {
			g, ok := got.Part(want.Parts[i].ID)
			require.True(t, ok, name)
			assert.InEpsilon(t, float64(want.Parts[i].Move.Force), float64(g.Move.Force), 1e-6, "%s: %s", name, g.ID)
			assert.Equal(t, want.Parts[i].Status, g.Status, "%s: %s", name, g.ID)
		}
		require.Len(t, got.Events, len(want.Events), name)
		for i := range want.Events {
			assert.InDelta(t, want.Events[i].AtM, got.Events[i].AtM, 1e-5, name)
		}
	}
}

// placed is the redirect moved over the ground, bearings turned by deg.
func placed(t *testing.T, move func(plan.Point) plan.Point, deg quantity.Degrees) *plan.Plan {
	p := examplePlan(t, "redirect")
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		v.At, v.Bearing = move(v.At), (v.Bearing + deg).Normal()
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
	p := examplePlan(t, "redirect")
	slices.Reverse(p.Site.Vehicles)
	slices.Reverse(p.Site.Anchors)
	slices.Reverse(p.Site.Obstacles)
	slices.Reverse(p.Site.People)
	return p
}

// BenchmarkPull is a pull of 12 m with its events, as far as it goes.
func BenchmarkPull(b *testing.B) {
	doubled := with(examplePlan(b, "doubled"), func(v *plan.Vehicle) { v.Stuck.WayLength = 12 })
	for name, p := range map[string]*plan.Plan{"redirect": bare(b, 12), "doubled": doubled, "sixty": seeded.DrawnOut(b, 12)} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := travel.Assess(context.Background(), p, "R1", nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// gone is a context that ends when it has been asked often enough.
type gone struct {
	context.Context
	left int
}

func (g *gone) Err() error {
	if g.left--; g.left < 0 {
		return context.Canceled
	}
	return nil
}

// A pull that is given up while its events are sought gives no answer either.
func TestCancelledAnywhere(t *testing.T) {
	for asked := range 200 {
		ctx := &gone{context.Background(), asked}
		a, err := travel.Assess(ctx, examplePlan(t, "doubled"), "R1", nil)
		if ctx.left < 0 {
			assert.ErrorIs(t, err, context.Canceled, "asked %d times", asked)
			assert.Nil(t, a)
		} else {
			assert.NoError(t, err)
			assert.NotEmpty(t, a.Events)
		}
	}
}
