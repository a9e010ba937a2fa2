package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A wire sling choked round a trunk of 14.3 of its diameters keeps its choked
// share of what the bend leaves it: 0.75 (BC crane-safety body) of 1 − 0.5/√(D/d)
// (IMCA M 179).
func TestChokedWireRoundAThinTrunk(t *testing.T) {
	s := web()
	s.Material, s.Width = plan.MaterialWire, 0.014
	st := gear.Sling(round(s, plan.HitchChoked, 0.1, 1000), nil, nil)
	require.True(t, st.Limit.Known)
	inDelta(t, 30e3*0.75*(1-0.5/math.Sqrt(0.2/0.014)), float64(st.Limit.Force), 1e-6)
	inDelta(t, 5*float64(st.Limit.Force), float64(st.Ultimate.Low), 1e-6, "5 × tag, EN 13414-1, as rigged")
	inDelta(t, 5*float64(st.Limit.Force), float64(st.Ultimate.High), 1e-6, "one leg stands: nothing to share")
}

// What a tag says of the breaking strength is lessened by the same losses as the
// tag: twice 40 kN, used 0.85 [ours], a splice 0.9 (OCIMF).
func TestUltimateOfATagHasItsLosses(t *testing.T) {
	l := hmpe()
	l.Rating, l.Condition = working(40), plan.ConditionUsed
	c := gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, End: true}, nil, nil)
	inDelta(t, 40e3*0.85*0.9, float64(c.Limit.Force), 1e-6)
	inDelta(t, 2*40e3*0.85*0.9, float64(c.Ultimate.Low), 1e-6)
	inDelta(t, 2*40e3*0.85*0.9, float64(c.Ultimate.High), 1e-6)
	// Real strength of new rope over its minimum, 1.05 to 1.15 [ours].
	l.Rating = breaking(80)
	c = gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, End: true}, nil, nil)
	inDelta(t, 80e3*0.85*0.9, float64(c.Ultimate.Low), 1e-6)
	inDelta(t, 1.1*80e3*0.85*0.9, float64(c.Ultimate.Likely), 1e-6)
	inDelta(t, 1.15*80e3*0.85*0.9, float64(c.Ultimate.High), 1e-6)
}

// A wire basket is bent by the trunk, at the low end of what it gives and at the high
// end alike: 1 − 0.5/√(D/d) of a band's (the handbook's rule for wire over a pin).
func TestBothEndsOfAWireBasketAreBent(t *testing.T) {
	band, wire := web(), web()
	wire.Material, wire.Width = plan.MaterialWire, 0.014
	of := func(s *plan.Sling) gear.SlingState {
		return gear.Sling(round(s, plan.HitchBasket, 0.1, 1000), nil, nil)
	}
	bend := 1 - 0.5/math.Sqrt(0.2/0.014)
	inDelta(t, bend*float64(of(band).Limit.Force), float64(of(wire).Limit.Force), 1e-6)
	b, w := of(band).Ultimate, of(wire).Ultimate
	inDelta(t, float64(b.High/b.Low), float64(w.High/w.Low), 1e-9)
	require.Greater(t, w.High, w.Low)
}

// A basket whose legs share evenly gives at twice a leg's share of the pull, or at
// what the standard allows, whichever is more: its high end.
func TestHighEndOfABasket(t *testing.T) {
	s := web()
	st := gear.Sling(round(s, plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, 7*1.4*30e3, float64(st.Ultimate.Low), 1e-6, "EN 1492, to 45°")
	inDelta(t, 7*2*math.Cos(st12(t))*30e3, float64(st.Ultimate.High), 1, "2·cos h")
	s.Length = 200 // legs almost parallel
	st = gear.Sling(round(s, plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, 7*2*30e3, float64(st.Ultimate.High), 1e-6, "2.0 to 6°, EN 1492")
	assert.Less(t, st.Ultimate.Low, st.Ultimate.High)
}

// st12 is half the opening of 3 m round 0.24 m: 25.3°/2, design figure.
func st12(t *testing.T) float64 {
	half := gear.SlingRound(0.24, 3, plan.HitchBasket).Half()
	inDelta(t, 25.3/2, float64(half), 0.05)
	return half.Radians()
}

// A motor's heat goes with the square of its current: at half of rated pull a
// minute becomes four. At 0.1 m/s without load and 0.015 at rated pull the
// typical curve (ours) gives 0.035 m/s at half of it: 8.4 m take 240 s.
func TestDutyGoesWithTheSquareOfThePull(t *testing.T) {
	w := winch()
	w.NoLoadSpeed, w.LoadSpeed = 0.1, 0.015
	for haul, want := range map[float64]bool{8.39: false, 8.41: true} {
		var found []part.Finding
		r := gear.Running(gear.RunIn{Vehicle: "V1", Winch: w, Line: hmpe(), Layer: 1, Tension: 21 * kN, Haul: quantity.Length(haul)}, nil, &found)
		require.True(t, r.Known)
		inDelta(t, haul/0.035, float64(r.Time), 1e-6)
		_, raised := levelOf(found, "winch-duty")
		assert.Equal(t, want, raised, "%v m", haul)
		if raised {
			inDelta(t, 240, valueOf(t, found, "winch-duty", "most"), 1e-9)
		}
	}
}

// On its second layer a drum of 64 mm with 10 mm line hauls faster by 94/74, at a
// torque that is as much higher.
func TestSpeedOnALayer(t *testing.T) {
	w := winch()
	w.NoLoadSpeed, w.LoadSpeed = 0.1, 0.015
	in := gear.RunIn{Vehicle: "V1", Winch: w, Line: hmpe(), Layer: 2, Tension: 21 * kN * 74 / 94, Haul: 1}
	inDelta(t, 0.035*94/74, float64(gear.Running(in, nil, nil).Speed), 1e-9)
	in.Layer, in.Tension = 1, 21*kN
	inDelta(t, 0.035, float64(gear.Running(in, nil, nil).Speed), 1e-9)
}

// The steps of a basket's sum are the two checks: F/cos h shared 45 : 55, and the
// standard's band; each times what the bend leaves.
func TestStepsOfABasket(t *testing.T) {
	s := web()
	s.Material, s.Width = plan.MaterialWire, 0.028 // D/d 17.1
	in := round(s, plan.HitchBasket, 0.24, 36.9*kN)
	var derivation part.Derivation
	limit := gear.Sling(in, &derivation, nil).Limit
	half, bend := in.Round.Half().Radians(), 1-0.5/math.Sqrt(0.48/0.028)
	want := map[string]float64{
		"leg": 0.55 * 36.9e3 / math.Cos(half), "by-standard": 1.4 * 30e3 * bend,
		"by-leg": math.Cos(half) / 0.55 * 30e3 * bend, "limit": 1.4 * 30e3 * bend, "straight": 30e3,
	}
	seen := map[string]int{}
	for _, step := range derivation.Steps {
		values := []part.Value{step.Result}
		for _, o := range step.Operands {
			values = append(values, o.Value)
		}
		for _, v := range values {
			if x, ok := want[v.Name]; ok {
				seen[v.Name]++
				inDelta(t, x, v.X, 1e-6, "%s of %s", v.Name, step.Formula)
			}
		}
	}
	assert.Equal(t, map[string]int{"leg": 1, "by-standard": 2, "by-leg": 2, "limit": 1, "straight": 3}, seen)
	inDelta(t, want["limit"], float64(limit.Force), 1e-6)
}

// What rests on a figure nobody read is marked.
func TestPresetsOfAWinch(t *testing.T) {
	for member, want := range map[string]bool{"line_pull_n": true, "drum_diameter_m": true, "limiter_n": false} {
		w := winch()
		w.Presets = []string{member}
		assert.Equal(t, want, gear.Winch(gear.WinchIn{Winch: w, Line: hmpe(), Path: 20}, nil, nil).Limit.Preset, member)
	}
}

// A finding about a line in a block names both, the block first.
func TestFindingsNameBothThings(t *testing.T) {
	var found []part.Finding
	b := block()
	b.LineMax, b.Rating = 0.009, working(30)
	gear.Block(gear.BlockIn{Block: b, Line: hmpe(), Load: 1000, Tension: 600}, nil, &found)
	require.Len(t, found, 1)
	assert.Equal(t, []plan.ID{"B1", "L1"}, found[0].Things)
}
