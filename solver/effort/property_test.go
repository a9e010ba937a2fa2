package effort_test

import (
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func anyStuck(t *rapid.T) plan.Stuck {
	return plan.Stuck{
		Depth:        rapid.SampledFrom([]string{plan.DepthUnknown, plan.DepthNone, plan.DepthHub, plan.DepthChassis, plan.DepthBody}).Draw(t, "depth"),
		Sinkage:      quantity.Length(rapid.Float64Range(0, 0.3).Draw(t, "sinkage")),
		LockedWheels: rapid.IntRange(0, 4).Draw(t, "locked"),
		BackTheWay:   rapid.Bool().Draw(t, "back"),
		Overturned:   rapid.Bool().Draw(t, "overturned"),
		InWater:      rapid.Bool().Draw(t, "water"),
		WaterSpeed:   plan.Known(quantity.Speed(rapid.Float64Range(0, 2).Draw(t, "speed"))),
		PlanOn:       rapid.SampledFrom([]string{"", plan.PlanHigh, plan.PlanLikely, plan.PlanLow}).Draw(t, "on"),
	}
}

func anyGround(t *rapid.T) plan.Ground {
	return plan.Ground{
		Surface: rapid.SampledFrom([]string{"", "roll.grass", "roll.bog", "roll.hard-road", "roll.earth-firm", "roll.mud"}).Draw(t, "surface"),
		Grip:    rapid.SampledFrom([]string{"", "grip.gravel", "grip.ice", "grip.mud"}).Draw(t, "grip"),
	}
}

func TestRangeIsNeverNarrowerThanPhysicsToHandbook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, g := anyStuck(t), anyGround(t)
		grade := rapid.Float64Range(-30, 30).Draw(t, "grade")
		lateral := rapid.Float64Range(-20, 20).Draw(t, "lateral")
		v := casualty(func(v *plan.Vehicle) { v.Stuck = &s })
		res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &g, GradeDeg: grade, LateralDeg: lateral}, nil, nil)
		if !res.Known {
			t.Fatal("mass, water depth and length are known: it is computed")
		}
		for _, r := range []effort.RuleRange{res.Physics, res.Handbook, res.Common} {
			if r.Known != (r.Why == "") {
				t.Fatalf("a rule set answers or says why not: %+v", r)
			}
			if r.Known && (r.Low < res.Low || r.High > res.High || !(r.Low <= r.Likely && r.Likely <= r.High)) {
				t.Fatalf("%v outside %v", r.Range, res.Range)
			}
		}
		if !(res.Low <= res.Likely && res.Likely <= res.High) || res.Low < 0 || !(res.High > 0 || grade < 0) {
			t.Fatalf("range %v", res.Range)
		}
		if !(res.Planned >= res.Low && res.Planned <= res.High) || !(res.Breakaway.High >= res.High) {
			t.Fatalf("planned %v, breakaway %v, of %v", res.Planned, res.Breakaway, res.Range)
		}
	})
}

func TestNotKnowingNeverNarrowsTheRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, g := anyStuck(t), anyGround(t)
		grade := rapid.Float64Range(0, 30).Draw(t, "grade")
		at := func(s plan.Stuck, g plan.Ground) effort.ResistanceResult {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &s })
			return effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &g, GradeDeg: grade}, nil, nil)
		}
		have := at(s, g)
		for name, less := range map[string]func(*plan.Stuck, *plan.Ground){
			"surface": func(_ *plan.Stuck, g *plan.Ground) { g.Surface = "" },
			"grip":    func(_ *plan.Stuck, g *plan.Ground) { g.Grip = "" },
			"depth":   func(s *plan.Stuck, _ *plan.Ground) { s.Depth, s.Sinkage = plan.DepthUnknown, 0 },
		} {
			s2, g2 := s, g
			less(&s2, &g2)
			if got := at(s2, g2); got.High < have.High*(1-1e-12) {
				t.Fatalf("without %s: high %v, with it %v", name, got.High, have.High)
			}
		}
	})
}

func TestMoreMassNeverLowersTheWeightTerms(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, g := anyStuck(t), anyGround(t)
		grade := rapid.Float64Range(0, 30).Draw(t, "grade")
		more := rapid.Float64Range(0, 3000).Draw(t, "more")
		at := func(kg float64) effort.ResistanceResult {
			v := casualty(func(v *plan.Vehicle) { v.Stuck = &s; v.Load = quantity.Mass(kg) })
			return effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &g, GradeDeg: grade}, nil, nil)
		}
		a, b := at(0), at(more)
		if b.Low < a.Low*(1-1e-12) || b.Likely < a.Likely*(1-1e-12) || b.High < a.High*(1-1e-12) {
			t.Fatalf("%v with %g kg more: %v", a.Range, more, b.Range)
		}
	})
}

func TestDownhillNeverLowersTheHoldBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fall := rapid.Float64Range(0, 40).Draw(t, "fall")
		more := rapid.Float64Range(0, 20).Draw(t, "more")
		back := rapid.Bool().Draw(t, "backwards")
		g := anyGround(t)
		at := func(d float64) effort.FreeResult {
			if back {
				d = -d
			}
			return effort.Free(effort.FreeIn{Vehicle: casualty(nil), Ground: &g, FallAlongDeg: d}, nil, nil)
		}
		a, b := at(fall), at(fall+more)
		if !a.Known || b.HoldBack < a.HoldBack || b.Roll < a.Roll {
			t.Fatalf("%v at %g°, %v at %g°", a, fall, b, fall+more)
		}
	})
}

func TestWaterInTheCasualtyNeverLowersItsHoldBack(t *testing.T) {
	dry := effort.Free(effort.FreeIn{Vehicle: casualty(nil), Ground: &moss, FallAlongDeg: 10}, nil, nil)
	wet := effort.Free(effort.FreeIn{Vehicle: casualty(func(v *plan.Vehicle) { v.Stuck.InWater = true }), Ground: &moss, FallAlongDeg: 10}, nil, nil)
	near(t, 3950./2450, float64(wet.HoldBack/dry.HoldBack), 1e-9, "1.5 t trapped at worst (ours)")
}

// The last line of a sum is the figure shown, bit for bit.
func TestSumsEndInTheFigureShown(t *testing.T) {
	last := func(s *part.Derivation) float64 {
		v, ok := s.Last()
		require.True(t, ok)
		for _, st := range s.Steps {
			assert.NotEmpty(t, st.Formula)
			for _, o := range st.Operands {
				assert.False(t, math.IsNaN(o.X), "%s: %s", st.Formula, o.Name)
				if o.Fact != "" {
					_, ok := facts.Get(facts.ID(o.Fact))
					assert.True(t, ok, "%s: no row %q", st.Formula, o.Fact)
				}
			}
		}
		return v.X
	}
	rapid.Check(t, func(t *rapid.T) {
		s, g := anyStuck(t), anyGround(t)
		v := casualty(func(v *plan.Vehicle) { v.Stuck = &s })
		in := effort.ResistanceIn{Vehicle: v, Ground: &g, GradeDeg: rapid.Float64Range(-10, 20).Draw(t, "grade")}
		var derivation part.Derivation
		got := effort.Resistance(in, &derivation, nil)
		plain := effort.Resistance(in, nil, nil)
		if got != plain || last(&derivation) != float64(plain.Planned) {
			t.Fatalf("with a sum %v, without %v", got, plain)
		}
	})
	var derivation part.Derivation
	h := effort.PullerHold(effort.HoldIn{Vehicle: warden(nil), Ground: &moss, Ends: pullAhead(), TensionN: 3000, TensionKnown: true}, &derivation, nil)
	assert.Equal(t, float64(h.Hold.Low), last(&derivation))
	derivation = part.Derivation{}
	tp := effort.Tipping(effort.TipIn{Vehicle: warden(nil), Move: sided(0.3)}, &derivation, nil)
	assert.Equal(t, float64(tp.Limit), last(&derivation))
	derivation = part.Derivation{}
	f := effort.Free(effort.FreeIn{Vehicle: casualty(nil), Ground: &moss, FallAlongDeg: 12}, &derivation, nil)
	assert.Equal(t, float64(f.HoldBack), last(&derivation))
	derivation = part.Derivation{}
	tb := effort.TieBack(effort.TieBackIn{TensionN: 5000, OffDeg: 20}, &derivation, nil)
	assert.Equal(t, float64(tb.Load), last(&derivation))
	near(t, 5000/math.Cos(math.Pi/9), float64(tb.Load), 1e-6, "the whole line pull over the cosine")
	derivation = part.Derivation{}
	j := effort.Jump(effort.JumpIn{BreakawayN: 9000, MassKg: 2450, LineNPerM: 30_000}, &derivation, nil)
	assert.Equal(t, float64(j.Jump), last(&derivation))
}

func TestATieBackAndChocks(t *testing.T) {
	ids := func(in effort.HoldIn) []part.Finding {
		var found []part.Finding
		effort.PullerHold(in, nil, &found)
		return found
	}
	in := effort.HoldIn{Vehicle: warden(nil), Ground: &moss, Ends: pullAhead(), TensionN: 6000, TensionKnown: true}
	found := ids(in)
	i := slices.IndexFunc(found, func(f part.Finding) bool { return f.ID == "vehicle-slides" })
	require.GreaterOrEqual(t, i, 0)
	// All wheels chocked on gravel hold 0.28·W = 7.1 kN: more than 6, so offered.
	require.Len(t, found[i].Remedies, 2)
	assert.Equal(t, "tie-back", found[i].Remedies[0].Do)
	near(t, 6000, found[i].Remedies[0].Value.X, 0, "the whole line pull, never the shortfall")
	assert.Equal(t, "chock-all", found[i].Remedies[1].Do)
	near(t, 0.28*2600*quantity.Gravity, found[i].Remedies[1].Value.X, 1e-6, "recomputed hold")
	in.TensionN = 9000
	found = ids(in)
	i = slices.IndexFunc(found, func(f part.Finding) bool { return f.ID == "vehicle-slides" })
	require.Len(t, found[i].Remedies, 1, "chocks are offered only if the hold then passes")
	in.TiedBack = true
	assert.Zero(t, idsOf(ids(in))["vehicle-slides"], "the tie-back is assumed to hold it all instead")
	in.TiedBack, in.OwnWinch = false, true
	assert.Empty(t, ids(in), "a casualty that winches itself is meant to move")
}

func TestVehicleAsAnAnchor(t *testing.T) {
	h := effort.PullerHold(effort.HoldIn{Vehicle: warden(nil), Ground: &moss, Ends: pullAhead()}, nil, nil)
	c := h.Capacity(true)
	assert.Equal(t, "hold ÷ 3", c.Limit.Basis)
	near(t, lowHold/3, float64(c.Limit.Force), 1e-6, "a third of the low hold (ours)")
	near(t, lowHold, float64(h.Capacity(false).Limit.Force), 1e-6, "a puller's limit is the low hold")
	var none effort.HoldResult
	assert.False(t, none.Capacity(true).Limit.Known)
}

func TestHoldIsNotComputedFromNoNumbers(t *testing.T) {
	nan := math.NaN()
	for name, in := range map[string]effort.HoldIn{
		"no vehicle": {Ends: pullAhead()},
		"no lines":   {Vehicle: warden(nil)},
		"fall":       {Vehicle: warden(nil), Ends: pullAhead(), FallAheadDeg: nan},
		"force":      {Vehicle: warden(nil), Ends: []effort.LineEnd{{PerTension: r3.Vector{X: nan}}}},
		"mass":       {Vehicle: warden(func(v *plan.Vehicle) { v.Mass = quantity.Mass(nan) }), Ends: pullAhead()},
		"wheelbase":  {Vehicle: warden(func(v *plan.Vehicle) { v.Wheelbase = quantity.Length(math.Inf(1)) }), Ends: pullAhead()},
	} {
		t.Run(name, func(t *testing.T) {
			in.Ground = &moss
			assert.False(t, effort.PullerHold(in, nil, nil).Hold.Known)
		})
	}
	assert.False(t, effort.Free(effort.FreeIn{Vehicle: casualty(nil), FallAlongDeg: nan}, nil, nil).Known)
	assert.False(t, effort.SideSlip(effort.SideSlipIn{Vehicle: casualty(nil), SideN: nan}, nil, nil).Known)
	assert.False(t, effort.TieBack(effort.TieBackIn{TensionN: nan}, nil, nil).Known)
	_, ok := effort.Current(effort.CurrentIn{SpeedMS: nan, LengthM: 1, DepthM: 1}, nil)
	assert.False(t, ok)
}

func TestThePlainPathAllocatesNothing(t *testing.T) {
	v, w := casualty(nil), warden(nil)
	straight, side := pullAhead(), sided(0.1)
	askew := []effort.LineEnd{{PerTension: r3.Vector{X: 0.8, Y: 0.6}, AheadM: 2.55, HeightM: 0.85}}
	var found []part.Finding
	for name, f := range map[string]func(){
		"resistance": func() { effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil) },
		"straight":   func() { effort.PullerHold(effort.HoldIn{Vehicle: w, Ground: &moss, Ends: straight}, nil, &found) },
		"askew":      func() { effort.PullerHold(effort.HoldIn{Vehicle: w, Ground: &moss, Ends: askew}, nil, &found) },
		"tipping":    func() { effort.Tipping(effort.TipIn{Vehicle: w, Move: side, FallLeftDeg: 2}, nil, &found) },
		"stands": func() {
			effort.Stands(effort.StandIn{Vehicle: w, Ground: &moss, FallAheadDeg: 2, FallLeftDeg: 1}, &found)
		},
		"free": func() { effort.Free(effort.FreeIn{Vehicle: v, Ground: &moss}, nil, &found) },
	} {
		assert.Zero(t, testing.AllocsPerRun(20, f), name)
	}
	assert.Empty(t, found)
}

func BenchmarkResistance(b *testing.B) {
	v := casualty(nil)
	b.ReportAllocs()
	for b.Loop() {
		effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: 3}, nil, nil)
	}
}

func BenchmarkPullerHoldStraight(b *testing.B) {
	v, e := warden(nil), pullAhead()
	b.ReportAllocs()
	for b.Loop() {
		effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: e}, nil, nil)
	}
}

func BenchmarkPullerHoldAskew(b *testing.B) {
	v := warden(nil)
	e := []effort.LineEnd{{PerTension: r3.Vector{X: 0.8, Y: 0.6}, AheadM: 2.55, HeightM: 0.85}}
	b.ReportAllocs()
	for b.Loop() {
		effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: e}, nil, nil)
	}
}
