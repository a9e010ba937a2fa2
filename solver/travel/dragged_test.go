package travel_test

import (
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/statics"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

// deep is an example whose casualty lies on its belly.
func deep(t testing.TB, name string) *plan.Plan {
	return with(examplePlan(t, name), func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthChassis })
}

// direct is one line from a winch 30 m off at (0, 0) to a casualty that lies with its
// nose turned from the line by an angle, on the level, on its belly, with an anchor-fast
// winch vehicle, 8 m to go.
func directPlan(t testing.TB, turnedDeg quantity.Degrees) *plan.Plan {
	p := *examplePlan(t, "straight")
	p.Site.Anchors, p.Site.Obstacles, p.Site.People = nil, nil, nil
	p.Site.Vehicles = slices.Clone(p.Site.Vehicles)
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		v.Unshare()
		if v.Stuck == nil {
			v.At, v.Bearing = plan.Point{X: -float64(v.Winch.Ahead)}, 90
			continue
		}
		v.Bearing = 270 + turnedDeg
		v.Stuck.Depth, v.Stuck.WayLength, v.Stuck.Way = plan.DepthChassis, 8, plan.WayForward
		v.At = plan.Point{}
		front := v.Place(v.Recovery[0].Ahead, 0)
		v.At = plan.Point{X: 30 - front.X, Y: -front.Y}
	}
	return &p
}

func stuckIn(p *plan.Plan) *plan.Vehicle { return p.Casualty() }

// A casualty whose wheels do not turn goes where a rig of numbers with the same four
// contacts goes: the limit surface of the statics against the one that a plan's pull is
// followed with, and one program's geometry against the other's.
func TestADraggedCasualtyGoesWhereItsContactsGive(t *testing.T) {
	p := directPlan(t, 25)
	v := stuckIn(p)
	a := followed(t, p, "R1")
	require.InDelta(t, 8, a.EndM, 1e-9, "%v", a.Stop)
	front, rear, _ := v.Axles()
	share := 0.5
	if v.CGBehindFront > 0 {
		share = 1 - float64(v.CGBehindFront/v.Wheelbase)
	}
	var tyres []statics.Tyre
	for _, side := range [...]float64{1, -1} {
		for _, x := range [...]struct{ at, n float64 }{{float64(front), share}, {float64(rear), 1 - share}} {
			tyres = append(tyres, statics.Tyre{XM: x.at, YM: side * float64(v.Track) / 2, LoadN: x.n, Along: 1, Across: 1})
		}
	}
	q := v.Recovery[0]
	hook := v.Place(q.Ahead, 0)
	w := p.Site.Vehicles[slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Winch != nil })].Winch
	c := &travel.Course{
		Rig: statics.Rig{
			Points: []statics.Point{{Kind: statics.Fixed, Pos: r3.Vector{Z: float64(w.Height)}}, {Kind: statics.OnBody, Pos: r3.Vector{X: hook.X, Y: hook.Y, Z: float64(q.Height)}}},
			Lines:  []statics.Line{{Path: []int{0, 1}, Drum: true}},
			Bodies: make([]statics.Body, 1),
		},
		Motion: travel.Motion{Kind: travel.Free, Ref: r3.Vector{X: v.At.X, Y: v.At.Y}, HeadingRad: (90 - v.Bearing).Radians(), Contacts: tyres},
		EndM:   8,
		Drum:   direct(8, 1).Drum,
	}
	at := []float64{0.1, 1, 2.6, 5, 8}
	for i, row := range rowsAt(t, c, at...) {
		is := stuckIn(travel.At(p, "R1", at[i]))
		assert.InDelta(t, row.Ref.X, is.At.X, 1e-6, "at %g m", at[i])
		assert.InDelta(t, row.Ref.Y, is.At.Y, 1e-6, "at %g m", at[i])
		assert.InDelta(t, 0, math.Remainder(row.HeadingDeg-float64(90-is.Bearing), 360), 1e-4, "at %g m", at[i])
	}
}

// Pulled along its middle to the west on ground that falls to the north, and somewhat to
// the west or east, a dragged casualty starts to slide north by what of its weight pulls
// it there over what the ground resists: R = the measured pull and what the slope gives
// along the way. (closed form, to the first order of the slope)
func TestADragOnASlopeStartsAside(t *testing.T) {
	const measured = 15000.0
	for _, downhill := range []quantity.Degrees{0, 340, 20} {
		p := directPlan(t, 0)
		p.Site.Ground.Slope, p.Site.Ground.Downhill = plan.Known(quantity.Degrees(1)), plan.Known(downhill)
		p = with(p, func(v *plan.Vehicle) { v.Stuck.Measured, v.Stuck.Breakaway = measured, 1 })
		v, is := stuckIn(p), stuckIn(travel.At(p, "R1", 0.001))
		north, east := math.Cos(downhill.Radians()), math.Sin(downhill.Radians())
		w := float64((v.Mass + v.Load).Weight()) * math.Sin(math.Pi/180)
		assert.InEpsilon(t, w*north/(measured-w*east), (is.At.Y-v.At.Y)/0.001, 0.002, "%v", float64(downhill))
		assert.Less(t, is.At.X, v.At.X)
	}
}

// What lies off its drawn way at the end is said, and how far: by the places that the
// plans at the end have. Pulled along its middle nothing drags it aside.
func TestADraggedCasualtyLeavesItsWay(t *testing.T) {
	p := directPlan(t, 25)
	a := followed(t, p, "R1")
	f := finding(a, "way-dragged")
	require.NotNil(t, f)
	v, is := stuckIn(p), stuckIn(travel.At(p, "R1", 8))
	e, n := plan.Heading(v.Bearing)
	assert.InDelta(t, math.Hypot(v.At.X+8*e-is.At.X, v.At.Y+8*n-is.At.Y), f.Values[1].X, 1e-6)
	assert.InDelta(t, float64(v.Bearing-is.Bearing), f.Values[2].X, 1e-6)
	assert.Nil(t, finding(followed(t, directPlan(t, 0), "R1"), "way-dragged"))
	little := finding(followed(t, directPlan(t, 0.9), "R1"), "way-dragged")
	require.NotNil(t, little)
	assert.Greater(t, little.Values[1].X, 0.1, "it comes aside by more than that")
	assert.Less(t, little.Values[2].X, 1.0, "and turns by less")
	assert.Nil(t, finding(followed(t, directPlan(t, 0.7), "R1"), "way-dragged"), "less than either")
	assert.Nil(t, finding(followed(t, with(p, func(v *plan.Vehicle) { v.Stuck.Depth = plan.DepthHub }), "R1"), "way-dragged"), "it rolls")

	rough := with(p, func(v *plan.Vehicle) { v.Wheelbase = 0 })
	b := followed(t, rough, "R1")
	assert.Equal(t, "drag-not-computed", b.Stop)
	assert.Zero(t, b.EndM)
	assert.False(t, b.Complete)
	assert.True(t, slices.ContainsFunc(b.Findings, func(f part.Finding) bool {
		return slices.Contains(f.Lacks, part.Lack{Thing: v.ID, Member: "wheelbase_m", Rule: "drag-not-computed"})
	}))
}

// Along the way that it is dragged the whole is no milder than any moment of it, the
// way is one way however it is come by, and what a part is at its worst is what the
// plan drawn there gives.
func TestTheWholeOfADragIsNoMilder(t *testing.T) {
	for _, name := range []string{"redirect", "doubled"} {
		p := deep(t, name)
		a := followed(t, p, "R1")
		require.Positive(t, a.EndM, name)
		for i := range 12 {
			s := a.EndM * math.Mod(float64(i)*0.381966, 1)
			m := solver.Assess(travel.At(p, "R1", s), "R1")
			for k := range m.Parts {
				w, ok := a.Part(m.Parts[k].ID)
				require.True(t, ok)
				assert.LessOrEqual(t, part.WorstFirst(w, &m.Parts[k]), 0, "%s of %s at %g m", w.ID, name, s)
			}
			for k := range m.People {
				for _, kind := range m.People[k].Inside {
					assert.Contains(t, a.People[k].Inside, kind)
				}
			}
			corners := stuckIn(travel.At(p, "R1", s)).Corners()
			for _, c := range corners {
				assert.True(t, covered(a.Zones, part.ZoneCasualty, c), "%s at %g m", name, s)
			}
		}
		for i := range a.Parts {
			q, ok := solver.Assess(travel.At(p, "R1", a.Parts[i].AtM), "R1").Part(a.Parts[i].ID)
			require.True(t, ok)
			assert.Equal(t, q.Move, a.Parts[i].Move, q.ID)
		}
	}
}

// What stands where it is dragged ends the pull, though the drawn way does not touch it:
// where its body comes to lie on it. What the drawn way alone touches ends nothing.
func TestADragEndsAtWhatItMeets(t *testing.T) {
	p := directPlan(t, 25)
	free := stuckIn(travel.At(p, "R1", 6))
	ahead := free.Place(free.Length/2+0.4, free.Width/2)
	q := block(p, ahead)
	a := followed(t, q, "R1")
	require.Equal(t, "casualty-meets", a.Stop)
	assert.Less(t, a.EndM, 8.0)
	post := q.Site.Obstacles[len(q.Site.Obstacles)-1].Outline
	meets := func(s float64) bool {
		c := stuckIn(travel.At(q, "R1", s)).Corners()
		return terrain.Overlap(c[:], post)
	}
	assert.False(t, meets(a.EndM-0.02))
	assert.True(t, meets(a.EndM+0.3))
}

// What stands on its drawn way alone is said, and does not end the pull.
func TestADragPassesWhatStandsOnItsDrawnWay(t *testing.T) {
	p := directPlan(t, 25)
	v := *stuckIn(p)
	e, n := plan.Heading(v.Bearing)
	v.At = plan.Point{X: v.At.X + 7.5*e, Y: v.At.Y + 7.5*n}
	q := block(p, v.Place(v.Length/2, v.Width/4)) // where its nose would come to
	a := followed(t, q, "R1")
	assert.Empty(t, a.Stop)
	assert.InDelta(t, 8, a.EndM, 1e-9)
	assert.NotNil(t, finding(a, "casualty-meets"))
}

// Who stands where a line may recoil to on the drawn way alone is told of it.
func TestWhoTheDrawnWayAloneReachesIsTold(t *testing.T) {
	p := directPlan(t, 25)
	a, drawn := followed(t, p, "R1"), solver.Assess(plan.AdvancedOf(p, stuckIn(p).ID, 8), "R1")
	for x := 0.0; x < 40; x++ {
		for y := -20.0; y < 20; y++ {
			at := plan.Point{X: x, Y: y}
			if !covered(drawn.Zones, part.ZoneRecoil, at) || covered(a.Zones, part.ZoneRecoil, at) || covered(a.Zones, part.ZoneCasualty, at) {
				continue
			}
			q := *p
			q.Site.People = []plan.Person{{Head: plan.Head{ID: "P7"}, Role: plan.RoleSpotter, At: at}}
			assert.True(t, slices.ContainsFunc(followed(t, &q, "R1").Findings, func(f part.Finding) bool {
				return f.Level == part.Danger && f.Things[0] == "P7"
			}), "%v", at)
			return
		}
	}
	t.Error("nobody is reached on the drawn way alone")
}

// Out of its hole it rolls on as it points.
func TestOutOfItsHoleItRollsAsItPoints(t *testing.T) {
	p := with(directPlan(t, 25), func(v *plan.Vehicle) { v.Stuck.Stages = []plan.Stage{{After: 3, Depth: plan.DepthNone}} })
	out, later := stuckIn(travel.At(p, "R1", 3.5)), stuckIn(travel.At(p, "R1", 5.5))
	assert.InDelta(t, float64(out.Bearing), float64(later.Bearing), 1e-9)
	e, n := plan.Heading(out.Bearing)
	assert.InDelta(t, out.At.X+2*e, later.At.X, 1e-9)
	assert.InDelta(t, out.At.Y+2*n, later.At.Y, 1e-9)
}

// Where the drawn way would load something more than where it is dragged, that is said
// with the greater share. Drawn 40° off the line it is pulled askew all along; dragged
// it comes into line.
func TestTheWorseOfBothWaysIsSaid(t *testing.T) {
	p := directPlan(t, 40)
	a := followed(t, p, "R1")
	f := finding(a, "way-drawn-worse")
	require.NotNil(t, f)
	require.Len(t, f.Parts, 1)
	drawn := func(s float64) *solver.Assessment {
		return solver.Assess(plan.AdvancedOf(p, stuckIn(p).ID, quantity.Length(s)), "R1")
	}
	q, ok := drawn(f.Travel).Part(f.Parts[0])
	require.True(t, ok)
	assert.InDelta(t, q.Most(), f.Values[0].X, 1e-12)
	assert.Equal(t, q.Most() > 1, f.Level == part.Danger)
	is, _ := a.Part(f.Parts[0])
	assert.Greater(t, q.Most(), is.Most())
	for s := 0.25; s < 8; s += 0.5 {
		for _, q := range drawn(s).Parts {
			if is, ok := a.Part(q.ID); ok && q.Known() && is.Known() && (q.Status == part.Near || q.Status == part.Over) && q.Most() > is.Most() {
				assert.LessOrEqual(t, q.Most(), f.Values[0].X*(1+1e-6), "%s at %g m", q.ID, s)
			}
		}
	}
	assert.Nil(t, finding(followed(t, directPlan(t, 0), "R1"), "way-drawn-worse"))
	over := finding(followed(t, deep(t, "redirect"), "R1"), "way-drawn-worse")
	require.NotNil(t, over)
	assert.Greater(t, over.Values[0].X, 1.0)
	assert.Equal(t, part.Danger, over.Level)
}
