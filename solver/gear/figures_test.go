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

// What is said of a sling's strength is the least that its standard asks for: the
// likely figure is no more than the low one (7 times the tag and 1.4 of it in a basket
// to 45°, EN 1492).
func TestLikelyStrengthOfASlingIsItsLeast(t *testing.T) {
	st := gear.Sling(round(web(), plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, 7*1.4*30e3, float64(st.Ultimate.Likely), 1e-6)
}

// A shackle known by its breaking strength loses to a side pull what one with a tag
// does: 70 % are left to 45° (ASME B30.26, from memory).
func TestBreakingStrengthOfAShackleIsLessAside(t *testing.T) {
	s := bow()
	s.Rating = breaking(235)
	c := gear.Shackle(gear.ShackleIn{Shackle: s, Off: 45}, nil, nil)
	inDelta(t, 0.7*235e3, float64(c.Ultimate.Low), 1e-6)
	inDelta(t, 0.7*47e3, float64(c.Limit.Force), 1e-6)
}

// Where nobody said what a block's rating is of, its hanger takes no more than that,
// however little of it the line carries; nor does it take twice a line's rating when
// the line carries more than half of what the hanger does.
func TestHangerTakesNoMoreThanItIsGood(t *testing.T) {
	b := block()
	b.RatingOn = ""
	in := gear.BlockIn{Block: b, Line: hmpe(), Load: 50 * kN, Tension: 25 * kN}
	inDelta(t, 80e3, float64(gear.Block(in, nil, nil).Limit.Force), 1e-6, "80 kN on the line were 160 on the hanger")
	b.RatingOn, in.Tension = plan.RatedLine, 20*kN
	inDelta(t, 160e3, float64(gear.Block(in, nil, nil).Limit.Force), 1e-6, "80 kN on the line were 200 on a hanger good for 160")
}

// The least sheave of a laid or braided rope is six times as thick as it (The
// Complete Rigger's Apprentice, p. 35: 4 to 6 least).
func TestLeastSheaveOfARopeOfFibres(t *testing.T) {
	for sheave, want := range map[quantity.Length]bool{0.0719: true, 0.0721: false} {
		b, l := block(), hmpe()
		b.Sheave, l.Material, l.Diameter = sheave, plan.MaterialPolyester, 0.012
		var found []part.Finding
		gear.Block(gear.BlockIn{Block: b, Line: l, Load: 1000, Tension: 600}, nil, &found)
		_, raised := levelOf(found, "sheave-small")
		assert.Equal(t, want, raised, "%v m", float64(sheave))
		if raised {
			inDelta(t, 6*0.012, valueOf(t, found, "sheave-small", "least"), 1e-12)
		}
	}
}

// A line that leaves a plain drum runs over its flange by half the drum's width and
// by what it leads aside, together: 0.115 m over 10 m are 0.66°, and 1° more is past
// the 1.5° of a plain drum (Wire Rope Users Manual); 2.5° more past 3° (government
// guide).
func TestALeadAsideAddsToTheFleetAngle(t *testing.T) {
	for side, want := range map[float64]part.Level{0.8: 0, 1: part.Caution, -1: part.Caution, 2.3: part.Caution, 2.5: part.Warning} {
		var found []part.Finding
		leadOf(0, side, 10, true)(&found)
		level, _ := levelOf(found, "fleet-angle")
		assert.Equal(t, want, level, "%v°", side)
	}
}

// A choked sling that does not close is short by its length less what the loop needs:
// it is told of a sling that would close.
func TestAChokedSlingThatIsTooShortAsksForWhatCloses(t *testing.T) {
	s := web()
	s.Length = 1
	in := round(s, plan.HitchChoked, 0.24, 1000)
	require.False(t, in.Round.Closes, "half round it is 0.75 m, the whole way 1.51 m")
	var found []part.Finding
	gear.Sling(in, nil, &found)
	needs := quantity.Length(0)
	for i := range found {
		if f := &found[i]; f.ID == "sling-too-short" {
			require.Len(t, f.Remedies, 1)
			needs = quantity.Length(f.Remedies[0].Value.X)
		}
	}
	assert.Greater(t, needs, quantity.Length(1))
	assert.True(t, gear.SlingRound(0.24, needs, plan.HitchChoked).Closes || gear.SlingRound(0.24, needs+0.001, plan.HitchChoked).Closes)
}

// A choke tighter than 120° takes what its band leaves of the choked rating, at both
// ends: 0.74 from 60° to 89° (the handbook's row of choke angles), 0.8 choked (EN 1492).
func TestATightChokeKeepsItsBand(t *testing.T) {
	for choke, want := range map[quantity.Degrees]float64{130: 1, 100: 0.87, 75: 0.74, 45: 0.62} {
		in := round(web(), plan.HitchChoked, 0.1, 1000)
		require.True(t, in.Round.Closes)
		in.Round.Choke = choke
		st := gear.Sling(in, nil, nil)
		inDelta(t, 0.8*want*30e3, float64(st.Limit.Force), 1e-6, "%v°", float64(choke))
		inDelta(t, 7*0.8*want*30e3, float64(st.Ultimate.High), 1e-6)
	}
}

// A rope sling with a tag breaks at its standard's factor times that (5, EN 13414-1, and
// 29 CFR 1918); wire stretches 4 % by then, laid fibre a half (NAVEDTRA 12018).
func TestSoftEndsOfATag(t *testing.T) {
	for material, want := range map[string]float64{plan.MaterialWire: 5 * 50e3 / 0.04, plan.MaterialFibre: 5 * 50e3 * 2} {
		s := &plan.Sling{Material: material, Rating: working(50), Length: 3}
		inDelta(t, want, float64(gear.SoftSling(s)), 1e-6, material)
	}
}

// The half opening of a loop hardly longer than half its trunk: cot h = c where
// L/2r − π = c − arctan c, of which the series runs on with c⁹/9 and c¹¹/11.
func TestHalfOpeningOfALoopHardlyLongerThanItsTrunk(t *testing.T) {
	for _, c := range []float64{0.005, 0.01, 0.0199} {
		k := 0.0
		for n := 15; n >= 3; n -= 2 {
			k += math.Pow(c, float64(n)) / float64(n) * float64((n/2)%2*2-1)
		}
		in := gear.SlingRound(1, quantity.Length(2*(math.Pi+k)), plan.HitchBasket)
		require.True(t, in.Closes)
		inDelta(t, c, 1/math.Tan(in.Half().Radians()), c*1e-8)
	}
}
