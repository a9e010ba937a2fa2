package plan_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// onWay is a casualty that looks north at the origin, its rear axle 1.4 m behind
// its middle, with a way of its own.
func onWay(k plan.Stuck) *plan.Plan {
	p := plan.New()
	p.Site.Vehicles = []plan.Vehicle{{Head: plan.Head{ID: "V1"}, Length: 4.6, Width: 1.8, Wheelbase: 2.6, FrontOverhang: 0.9, Stuck: &k}}
	return p
}

// The rear axle starts at (0, −1.2): 2.3 − 0.9 − 2.6. It goes 10 m north to the
// bend and 10 m east; the arc of 6 m touches both legs 6 m from the corner, so it
// is 4 m straight, 6·π/2 round, 4 m and more straight. (closed form)
func TestWayRoundACorner(t *testing.T) {
	const start, arc = -1.2, 6 * math.Pi / 2
	v := onWay(plan.Stuck{Bends: []plan.Point{{X: 0, Y: start + 10}, {X: 10, Y: start + 10}}}).Casualty()
	w, ok := v.WayLine()
	require.True(t, ok)
	assert.InDeltaSlice(t, []float64{4, 4 + arc}, w.Knots(), 1e-12)
	steered, tightest := w.Steered(20)
	assert.True(t, steered)
	assert.InDelta(t, 6, tightest, 1e-12)
	steered, _ = w.Steered(4)
	assert.False(t, steered, "it has come to the bend, and not into it")
	h := math.Sqrt2 / 2
	for _, c := range []struct{ s, x, y, bearing float64 }{ // of the rear axle
		{0, 0, start, 0}, {4, 0, start + 4, 0},
		{4 + arc/2, 6 - 6*h, start + 4 + 6*h, 45},
		{4 + arc, 6, start + 10, 90}, {4 + arc + 7, 13, start + 10, 90},
	} {
		on := w.At(c.s)
		moved := *v
		moved.At, moved.Bearing = on.At, on.Bearing
		rear := moved.Place(-1.2, 0)
		assert.InDelta(t, c.x, rear.X, 1e-12, "%g", c.s)
		assert.InDelta(t, c.y, rear.Y, 1e-12, "%g", c.s)
		assert.InDelta(t, c.bearing, float64(on.Bearing), 1e-12, "%g", c.s)
		assert.InDelta(t, c.bearing, float64(on.Way), 1e-12, "%g", c.s)
	}
}

// Legs of 4 m between bends leave 2 m for half of each arc: a right angle is
// rounded with 2 m there. (closed form: radius = room / tan 45°)
func TestBendsNearEachOtherAreTight(t *testing.T) {
	v := onWay(plan.Stuck{TurnRadius: 5, Bends: []plan.Point{{X: 0, Y: 8.8}, {X: 4, Y: 8.8}, {X: 4, Y: 20}}}).Casualty()
	w, _ := v.WayLine()
	_, tightest := w.Steered(20)
	assert.InDelta(t, 2, tightest, 1e-12)
}

// The rear axle rolls without slip: it moves along the bearing of the nose, or
// against it in reverse, everywhere, and a metre a metre of way.
func TestTheRearAxleDoesNotSlip(t *testing.T) {
	bends := []plan.Point{{X: 0, Y: 9}, {X: 12, Y: 15}, {X: 14, Y: 30}}
	for way, sign := range map[string]float64{plan.WayForward: 1, plan.WayReverse: -1} {
		k := plan.Stuck{Way: way, TurnRadius: 4, Bends: bends}
		p := onWay(k)
		if sign < 0 {
			p.Site.Vehicles[0].Bearing = 180
		}
		v := p.Casualty()
		w, _ := v.WayLine()
		rear := func(s float64) plan.Point {
			on := w.At(s)
			m := *v
			m.At, m.Bearing = on.At, on.Bearing
			return m.Place(-1.2, 0)
		}
		const h = 1e-5
		for s := 0.3; s < 25; s += 0.37 {
			a, b := rear(s-h), rear(s+h)
			e, n := plan.Heading(w.At(s).Bearing)
			assert.InDelta(t, 1, a.Dist(b)/(2*h), 1e-6, "%s at %g", way, s)
			assert.InDelta(t, sign, ((b.X-a.X)*e+(b.Y-a.Y)*n)/(2*h), 1e-6, "%s at %g", way, s)
		}
	}
}

// On a free way the vehicle keeps its bearing and its middle follows the bends.
func TestAFreeWayKeepsTheBearing(t *testing.T) {
	v := onWay(plan.Stuck{Way: plan.WayFree, Bends: []plan.Point{{X: 10}, {X: 10, Y: 10}}}).Casualty()
	w, _ := v.WayLine()
	on := w.At(2)
	assert.InDelta(t, 2, on.At.X, 1e-12)
	assert.InDelta(t, 0, on.At.Y, 1e-12)
	assert.Zero(t, on.Bearing)
	assert.InDelta(t, 90, float64(on.Way), 1e-12)
}

// Going on from a place on the way is the same as going there at once.
func TestAdvancedTwice(t *testing.T) {
	k := plan.Stuck{WayLength: 22, TurnRadius: 4, Bends: []plan.Point{{X: 0, Y: 9}, {X: 12, Y: 15}}}
	for _, first := range []quantity.Length{1, 3, 14} { // before the round piece and behind it: what is left of one is rounded anew
		at, then := advanced(onWay(k), 17).Casualty(), advanced(advanced(onWay(k), first), 17-first).Casualty()
		assert.InDelta(t, at.At.X, then.At.X, 1e-9, "%v", first)
		assert.InDelta(t, at.At.Y, then.At.Y, 1e-9, "%v", first)
		assert.InDelta(t, float64(at.Bearing), float64(then.Bearing), 1e-9, "%v", first)
		assert.InDelta(t, 5, float64(then.Stuck.WayLength), 1e-12)
		a, _ := at.WayOut()
		b, _ := then.WayOut()
		assert.InDelta(t, float64(a), float64(b), 1e-9, "%v", first)
	}
}

// Out of the hole after 2 m, on the track after 5 m.
func TestStagesOfTheWay(t *testing.T) {
	k := plan.Stuck{WayLength: 9, Depth: plan.DepthChassis, Sinkage: 0.4, Surface: "peat",
		Stages: []plan.Stage{{After: 2, Depth: plan.DepthNone}, {After: 5, Surface: "gravel"}}}
	p := onWay(k)
	at := func(s quantity.Length) *plan.Stuck { return advanced(p, s).Casualty().Stuck }
	assert.Equal(t, plan.DepthChassis, at(1.9).Depth)
	assert.EqualValues(t, 0.4, at(1.9).Sinkage)
	assert.Equal(t, plan.DepthNone, at(2).Depth, "the value at a step is the one after it")
	assert.Zero(t, at(2).Sinkage, "ruts measured in the hole say nothing of the ground before it")
	assert.Equal(t, "peat", at(4.9).Surface)
	assert.Equal(t, "gravel", at(5).Surface)
	assert.Equal(t, plan.DepthNone, advanced(advanced(p, 1), 1).Casualty().Stuck.Depth, "counted on from where it is")
	assert.Equal(t, k.Stages, p.Casualty().Stuck.Stages, "the plan itself is not changed")
}

// Stages count by where they begin, not by where they are listed; what a load cell
// has measured where it lay is not asked of what it comes to lie in.
func TestStagesInAnyOrder(t *testing.T) {
	k := plan.Stuck{WayLength: 9, Depth: plan.DepthHub, Measured: 2000,
		Stages: []plan.Stage{{After: 5, Depth: plan.DepthBody}, {After: 2, Depth: plan.DepthNone}, {After: 1}}}
	p := onWay(k)
	at := func(s quantity.Length) *plan.Stuck { return advanced(p, s).Casualty().Stuck }
	assert.Equal(t, plan.DepthHub, at(1.9).Depth)
	assert.EqualValues(t, 2000, at(1.9).Measured)
	assert.Equal(t, plan.DepthNone, at(3).Depth)
	assert.Equal(t, plan.DepthBody, at(6).Depth)
	assert.Zero(t, at(3).Measured)
	assert.Equal(t, k.Stages, p.Casualty().Stuck.Stages, "the plan itself is not changed")
}

// What is left of a way of 7 to 9 m after 3 m is 4 to 6 m.
func TestTheDoubtOfAWayIsOfWhatIsLeft(t *testing.T) {
	p := onWay(plan.Stuck{WayLength: 8})
	v := *p.Casualty()
	v.Doubts = []plan.Doubt{{Member: "casualty.way_length_m", Low: 7, High: 9}}
	q := plan.WithVehicle(p, slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil }), v)
	then := advanced(q, 3).Casualty()
	low, high := plan.Range(&then.Head, "casualty.way_length_m", float64(then.Stuck.WayLength))
	assert.InDelta(t, 4, low, 1e-12)
	assert.InDelta(t, 6, high, 1e-12)
	assert.EqualValues(t, 9, q.Casualty().Doubts[0].High, "the plan itself is not changed")
}

// Nothing that is no way moves anything.
func TestNoWayNoMotion(t *testing.T) {
	p := onWay(plan.Stuck{Way: plan.WayFree})
	assert.Same(t, p, advanced(p, 3))
	p = onWay(plan.Stuck{Way: "sideways", Bends: []plan.Point{{X: 10}}})
	assert.Same(t, p, advanced(p, 3))
	p = onWay(plan.Stuck{})
	assert.Same(t, p, advanced(p, 0))
	assert.Same(t, p, advanced(p, quantity.Length(math.NaN())))
}

// advanced is p with its first casualty so far along its way.
func advanced(p *plan.Plan, s quantity.Length) *plan.Plan {
	if v := p.Casualty(); v != nil {
		return plan.AdvancedOf(p, v.ID, s)
	}
	return p
}

// How well a place is known goes with what is moved, along the way too.
func TestPlaceDoubtGoesAlong(t *testing.T) {
	p := onWay(plan.Stuck{WayLength: 9})
	v := &p.Site.Vehicles[0]
	v.Mass = 2000
	v.Doubts = append([]plan.Doubt{{Member: "mass_kg", Low: 1900, High: 2100}}, (&plan.Head{}).WithPlaceDoubt(v.At, 0.5)...)
	on := advanced(p, 4).Casualty()
	require.NotEqual(t, v.At, on.At)
	east, north := on.PlaceDoubt()
	assert.InDelta(t, 0.5, float64(east), 1e-9)
	assert.InDelta(t, 0.5, float64(north), 1e-9)
	assert.InDelta(t, on.At.X, (on.Doubts[1].Low+on.Doubts[1].High)/2, 1e-9)
	assert.InDelta(t, on.At.Y, (on.Doubts[2].Low+on.Doubts[2].High)/2, 1e-9)
	assert.Equal(t, plan.Doubt{Member: "mass_kg", Low: 1900, High: 2100}, on.Doubts[0])
	assert.Len(t, on.WithPlaceDoubt(on.At, 0), 1)
}
