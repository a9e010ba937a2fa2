package effort_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/effort"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// gripRows have a single figure or a low end that a case asks for.
var gripRows = map[float64]string{0.35: "grip.book.gravel", 0.5: "grip.book.asphalt-wet", 0.65: "grip.book.asphalt-dry", 0.2: "grip.book.grass-wet"}

func TestRearBrakeUnderFrontWinch(t *testing.T) {
	// By hand: 2 600 kg, wb 2.8, b 1.3, h 0.85 → 3.7 / 5.1 / 6.4 kN.
	c := published(t, "trade.toml", "trade.rear-brake")
	var got []float64
	for _, mu := range c.Ins(t, "mu") {
		id := gripRows[mu]
		if mu == 0.65 {
			id = "grip.earth-firm" // its high end is 0.65
		}
		v := warden(func(v *plan.Vehicle) { v.Grip = id; v.BrakeForce = 50_000 })
		ends := pullAhead()
		ends[0].HeightM = c.In(t, "height_m")
		res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: ends}, nil, nil)
		require.True(t, res.Hold.Known)
		x := res.Hold.Likely // the low end is 0.8 of a textbook's average
		if mu == 0.65 {
			x = res.Hold.High
		}
		got = append(got, float64(x)/1000)
	}
	c.Check(t, "slide_kn", got...)
}

func TestParkingBrakeHoldsAFifthUnlessKnown(t *testing.T) {
	w := 2600 * quantity.Gravity
	v := warden(func(v *plan.Vehicle) { v.Grip = "grip.book.concrete-dry" })
	res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead()}, nil, nil)
	// min(μ·N of its axle, 0.2·W): FMVSS 135, from memory. Grip alone at the high end.
	near(t, 0.2*w, float64(res.Hold.Low), 1e-6*w, "the law's fifth: 0.8·0.75 would grip more")
	near(t, 0.75*w*1.3/(2.8+0.75*0.85), float64(res.Hold.High), 1e-6*w, "grip alone")
	v.BrakeForce = 4000
	res = effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: pullAhead()}, nil, nil)
	near(t, 4000, float64(res.Hold.High), 1e-6*w, "a known brake holds what it holds, at every end")
}

func TestPublishedHoldOfAVehicle(t *testing.T) {
	all := func(mass float64, grip string) *plan.Vehicle {
		return warden(func(v *plan.Vehicle) { v.Mass = quantity.Mass(mass); v.Chocks = plan.ChocksAll; v.Grip = grip })
	}
	// The documents compute with the average; the low end counts 0.8 of it (ours).
	likely := func(v *plan.Vehicle, e effort.LineEnd) float64 {
		h := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil).Hold
		near(t, 0.8, float64(h.Low/h.Likely), 0.03, "low end, the line's own lift aside")
		return float64(h.Likely) / 1000
	}
	c := published(t, "anchors.toml", "anchors.v1")
	c.Check(t, "hold_kn", likely(all(c.In(t, "mass_kg"), "grip.gravel"), pullAhead()[0]))
	c = published(t, "anchors.toml", "anchors.v2")
	c.Check(t, "hold_kn", likely(all(c.In(t, "mass_kg"), "grip.grass-wet"), pullAhead()[0]))
	c = published(t, "anchors.toml", "anchors.v5")
	b := c.In(t, "rise_deg") * math.Pi / 180
	c.Check(t, "hold_kn", likely(all(c.In(t, "mass_kg"), "grip.gravel"), effort.LineEnd{PerTension: r3.Vector{X: math.Cos(b), Z: math.Sin(b)}, AheadM: 2.55, HeightM: 0.5}))
}

// The axle loads of a vehicle with a line ahead, in the plane of the pull; the
// far one unloads. Closed form, balance of moments and of forces across the
// ground:
//
//	N_far  = (W·cos β·b_near − W·sin a·h_cg − H·h + V·e)/wb
//	N_near = W·cos β − V − N_far
func TestAxleLoadsBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rise := rapid.Float64Range(-20, 30).Draw(t, "rise") * math.Pi / 180
		ten := rapid.Float64Range(0, 20_000).Draw(t, "tension")
		fall := rapid.Float64Range(-15, 15).Draw(t, "fall")
		h := rapid.Float64Range(0.2, 1.5).Draw(t, "height")
		v := warden(func(v *plan.Vehicle) { v.Grip = "grip.gravel" })
		e := effort.LineEnd{PerTension: r3.Vector{X: math.Cos(rise), Z: math.Sin(rise)}, AheadM: 2.55, HeightM: h}
		res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}, FallAheadDeg: fall, TensionN: ten, TensionKnown: true}, nil, nil)
		w := 2600 * quantity.Gravity
		if !res.Loads {
			t.Fatal("not computed")
		}
		flat := w * math.Cos(fall*math.Pi/180)
		up := ten * math.Sin(rise)
		far := (flat*1.3 - w*math.Sin(fall*math.Pi/180)*0.75 - ten*math.Cos(rise)*h + up*0.9) / 2.8
		near(t, flat-up-far, float64(res.Front), 1e-6*w, "front")
		near(t, far, float64(res.Rear), 1e-6*w, "rear")
	})
}

func TestHoldThroughTheLimitSurfaceMeetsTheClosedForms(t *testing.T) {
	w := 2600 * quantity.Gravity
	v := warden(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll; v.Grip = "grip.book.gravel"; v.CGBehindFront = 1.4 })
	// All locked, pull through the middle at any angle: μ·W (the limit surface with c = μ).
	for _, deg := range []float64{10, 45, 90, 135, -60} {
		a := deg * math.Pi / 180
		// At ground height, so that no load shifts, and in line with the middle.
		e := effort.LineEnd{PerTension: r3.Vector{X: math.Cos(a), Y: math.Sin(a)}}
		// The footprint's middle is 0.25 m behind that of the axles here.
		e.AheadM = 2.55 - 0.9 - 1.4
		res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil)
		require.True(t, res.Hold.Known)
		near(t, 0.35*w, float64(res.Hold.Likely), 1e-6*w, "μ·W")
	}
	// Off the nose sideways it turns long before it slides.
	e := effort.LineEnd{PerTension: r3.Vector{Y: 1}, AheadM: 2.55}
	res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil)
	assert.True(t, res.Turns)
	assert.Less(t, float64(res.Hold.Likely), 0.35*w/1.5)
	// A hair off straight is all but the closed form.
	v = warden(func(v *plan.Vehicle) { v.Grip = "grip.book.gravel"; v.BrakeForce = 50_000 })
	a := 0.02 * math.Pi / 180
	e = effort.LineEnd{PerTension: r3.Vector{X: math.Cos(a), Y: math.Sin(a)}, AheadM: 2.55, HeightM: 0.85}
	res = effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil)
	near(t, 0.35*w*1.3/(2.8+0.35*0.85), float64(res.Hold.Likely), 2e-3*w, "the closed form")
	// Brake's own strength, a hair off straight.
	v = warden(func(v *plan.Vehicle) { v.Grip = "grip.book.concrete-dry"; v.BrakeForce = 4000 })
	res = effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil)
	near(t, 4000, float64(res.Hold.Likely), 30, "the known brake")
}

// With one contact the least tension is where the ray leaves the friction
// circle: checked against a scan of the twist by brute force.
func TestHoldAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(-180, 180).Draw(t, "deg")
		ahead := rapid.Float64Range(-2.5, 2.5).Draw(t, "ahead")
		left := rapid.Float64Range(-0.9, 0.9).Draw(t, "left")
		fall := rapid.Float64Range(-3, 3).Draw(t, "fall")
		h := rapid.Float64Range(0, 1).Draw(t, "height")
		v := warden(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll; v.Grip = "grip.book.gravel" })
		a := deg * math.Pi / 180
		e := effort.LineEnd{PerTension: r3.Vector{X: math.Cos(a), Y: math.Sin(a)}, AheadM: ahead, LeftM: left, HeightM: h}
		res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}, FallLeftDeg: fall}, nil, nil)
		if !res.Hold.Known {
			t.Fatal("not computed")
		}
		T := float64(res.Hold.Low) // 0.8 of gravel's average 0.35 (ours)
		w := 2600 * quantity.Gravity
		s, c := math.Sin(fall*math.Pi/180), math.Cos(fall*math.Pi/180)
		xf, xr, xc := 2.55-0.9, 2.55-0.9-2.8, 2.55-0.9-1.3
		dissipation := func(T float64, vx, vy, om float64) float64 {
			nf := w*c*(xc-xr)/2.8 + T*math.Cos(a)*h/2.8
			nr := w*c - nf
			var d float64
			for _, y := range [][3]float64{{xf, 0.8, nf / 2}, {xf, -0.8, nf / 2}, {xr, 0.8, nr / 2}, {xr, -0.8, nr / 2}} {
				d += 0.28 * y[2] * math.Hypot(vx-om*y[1], vy+om*y[0])
			}
			return d - (T*math.Cos(a)*vx + (T*math.Sin(a)+w*s)*vy + (T*(ahead*math.Sin(a)-left*math.Cos(a))+w*s*xc)*om)
		}
		worst := math.Inf(1)
		for i := range 90 {
			for j := range 45 {
				p, q := float64(i)*math.Pi/45, float64(j)*math.Pi/44-math.Pi/2
				worst = min(worst, dissipation(T*0.99, math.Cos(p)*math.Cos(q), math.Sin(p)*math.Cos(q), math.Sin(q)))
			}
		}
		if worst < -1e-9*w {
			t.Fatalf("moves already at 99 %% of %g N", T)
		}
		worst = math.Inf(1)
		for i := range 180 {
			for j := range 60 {
				p, q := float64(i)*math.Pi/90, float64(j)*math.Pi/59-math.Pi/2
				worst = min(worst, dissipation(T*1.02, math.Cos(p)*math.Cos(q), math.Sin(p)*math.Cos(q), math.Sin(q)))
			}
		}
		if worst > 0 {
			t.Fatalf("still holds at 102 %% of %g N", T)
		}
	})
}

func TestARearBrakedPullersHoldFallsWithLineHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0.1, 1.5).Draw(t, "height")
		more := rapid.Float64Range(0.01, 0.5).Draw(t, "more")
		side := rapid.Float64Range(-30, 30).Draw(t, "side") * math.Pi / 180
		v := warden(func(v *plan.Vehicle) { v.Grip = "grip.gravel"; v.BrakeForce = 50_000 })
		at := func(h float64) part.Range {
			e := effort.LineEnd{PerTension: r3.Vector{X: math.Cos(side), Y: math.Sin(side)}, AheadM: 2.55, HeightM: h}
			return effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{e}}, nil, nil).Hold
		}
		a, b := at(h), at(h+more)
		if !a.Known || !b.Known || b.Low > a.Low*(1+1e-6) {
			t.Fatalf("%v at %g m, %v at %g m", a, h, b, h+more)
		}
	})
}

func TestMoreGripOrBrakeNeverHoldsLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(-90, 90).Draw(t, "deg") * math.Pi / 180
		brake := rapid.SampledFrom([]string{plan.BrakeUnknown, plan.BrakeNone, plan.BrakeRear, plan.BrakeFront, plan.BrakeAll}).Draw(t, "brake")
		chocks := rapid.SampledFrom([]string{plan.ChocksNone, plan.ChocksFront, plan.ChocksRear}).Draw(t, "chocks")
		v := warden(func(v *plan.Vehicle) { v.Grip = "grip.gravel"; v.Brake, v.Chocks = brake, chocks })
		e := []effort.LineEnd{{PerTension: r3.Vector{X: math.Cos(deg), Y: math.Sin(deg)}, AheadM: 2.55, HeightM: 0.8}}
		r := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: e, TensionN: 1e6, TensionKnown: true}, nil, &[]part.Finding{})
		if brake == plan.BrakeUnknown && !r.Hold.Known {
			return // nobody knows of anything that holds it along
		}
		if !r.Hold.Known || r.Hold.Low > r.Hold.Likely || r.Hold.Likely > r.Hold.High {
			t.Fatalf("range %v", r.Hold)
		}
		u := *v
		u.Chocks = plan.ChocksAll
		all := effort.PullerHold(effort.HoldIn{Vehicle: &u, Ends: e}, nil, nil)
		if all.Hold.Low < r.Hold.Low*(1-1e-6) {
			t.Fatalf("chocks on all wheels hold %v, without %v", all.Hold, r.Hold)
		}
		near(t, float64(all.Hold.Low), float64(r.Chocked), 1e-3+1e-6*float64(r.Chocked), "what chocks are offered for is what they then hold")
	})
}

func TestSelfRecovery(t *testing.T) {
	v := casualty(nil)
	// The anchor carries (1+ρ)·T; a roller block 0.962 at a half turn.
	res := effort.SelfRecovery(effort.SelfIn{Vehicle: v, TensionN: 20_000, Ratio: 0.962, Dead: plan.Port{Thing: "casualty", Point: "front"}, DeadKind: plan.PointRated}, nil, nil)
	near(t, 1.962*20_000, float64(res.Anchor), 1e-6, "folded back")
	near(t, float64(res.Straight), float64(res.Anchor), 1e-6, "folded back")
	open := effort.SelfRecovery(effort.SelfIn{Vehicle: v, TensionN: 20_000, Ratio: 1, OpensDeg: 60}, nil, nil)
	near(t, 2*20_000*math.Cos(math.Pi/6), float64(open.Anchor), 1e-6, "2·T·cos(opens/2)")
}

func TestOffTheWayOut(t *testing.T) {
	res := effort.OffWay(effort.OffWayIn{OffDeg: 32, PullN: 24_000, PullKnown: true}, nil, nil)
	near(t, 24_000*math.Sin(32*math.Pi/180), float64(res.Side), 1e-9*24_000, "side force")
	assert.False(t, res.Refused)
	assert.True(t, effort.OffWay(effort.OffWayIn{OffDeg: 60.001}, nil, nil).Refused)
	assert.False(t, effort.OffWay(effort.OffWayIn{OffDeg: 60}, nil, nil).Refused, "over 60, not at 60")
	assert.True(t, effort.OffWay(effort.OffWayIn{OffDeg: math.NaN()}, nil, nil).Refused)
}

// A line straight down presses a braked vehicle on the ground and drags it
// nowhere: no tension moves it. (closed form: nothing against grip)
func TestWhatIsPulledDownHasNoHold(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.FootBrake = true })
	down := effort.LineEnd{PerTension: r3.Vector{Z: -1}}
	res := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{down}}, nil, nil)
	require.True(t, res.Hold.Known)
	require.True(t, effort.Unbounded(res.Hold.Low))
	down.PerTension = r3.Vector{X: 1}
	res = effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{down}}, nil, nil)
	require.True(t, res.Hold.Known)
	require.False(t, effort.Unbounded(res.Hold.High))
}

// A line 65° downward drags a vehicle, all wheels braked, with T·(cos α − μ·sin α) = μ·W:
// on gravel at the likely grip of 0.35; at the high one of 0.55 no tension does, and no
// higher end than the likely one is told. (closed form)
func TestAnEndThatNoLineReachesIsNotTold(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.FootBrake, v.Grip = true, "grip.gravel" })
	sin, cos := math.Sincos(65 * math.Pi / 180)
	down := effort.LineEnd{PerTension: r3.Vector{X: cos, Z: -sin}}
	hold := effort.PullerHold(effort.HoldIn{Vehicle: v, Ends: []effort.LineEnd{down}}, nil, nil).Hold
	require.True(t, hold.Known)
	want := 0.35 * 2600 * quantity.Gravity / (cos - 0.35*sin)
	near(t, want, float64(hold.Likely), 1e-6*want, "likely")
	near(t, want, float64(hold.High), 1e-6*want, "high")
}
