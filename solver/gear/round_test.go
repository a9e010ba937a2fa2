package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func TestSlingRoundBasket(t *testing.T) {
	// Design of the sling rule, r 0.24 m; each also follows from
	// L = 2·√(a²−r²) + 2r·(π − arccos(r/a)) by hand.
	for _, tt := range []struct {
		name   string
		length quantity.Length
		opens  float64
		tol    float64 // the lengths are printed to 1 cm
	}{
		{"3.0 m opens 25.3°", 3.0, 25.3, 0.05},
		{"1.84 m opens 60°", 1.84, 60, 0.5},
		{"1.70 m opens 74°", 1.70, 74, 0.5},
		{"1.53 m opens 120°", 1.53, 120, 3.0}, // 5 mm of length is 3° here: 120° takes 1.534 m
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := gear.SlingRound(0.24, tt.length, plan.HitchBasket)
			require.True(t, r.Closes)
			inDelta(t, tt.opens, float64(r.Opens), tt.tol)
		})
	}
	r := gear.SlingRound(0.24, 3.0, plan.HitchBasket)
	inDelta(t, 1.097, float64(r.Reach), 0.0005) // design: a 1.097
	inDelta(t, 90, float64(r.Half()+r.Tangent), 1e-9, "a leg is tangent to the trunk")
}

func TestSlingRoundChoked(t *testing.T) {
	// A free choke sits at 135° (common practice): the loop then opens 90°,
	// takes 2r(1 + π/2 + π/4), and its choke stands r·√2 from the middle.
	r := gear.SlingRound(0.24, 3.0, plan.HitchChoked)
	require.True(t, r.Closes)
	loop := 2 * 0.24 * (1 + math.Pi/2 + math.Pi/4)
	inDelta(t, 135, float64(r.Choke), 1e-9)
	inDelta(t, 0.24*math.Sqrt2, float64(r.Bight), 1e-12)
	inDelta(t, 0.24*math.Sqrt2+3-loop, float64(r.Reach), 1e-12)

	// Half way between closing (2πr, choke 90°) and hanging freely.
	tight := gear.SlingRound(0.24, 0.24*6.4, plan.HitchChoked)
	require.True(t, tight.Closes)
	assert.Less(t, float64(tight.Choke), 135.0)
	assert.Greater(t, float64(tight.Choke), 90.0)
	assert.Equal(t, tight.Bight, tight.Reach, "nothing is left to stand")
}

func TestSlingRoundRefuses(t *testing.T) {
	nan, inf := quantity.Length(math.NaN()), quantity.Length(math.Inf(1))
	for _, tt := range []struct {
		name           string
		radius, length quantity.Length
		hitch          string
	}{
		{"no radius", 0, 3, plan.HitchBasket},
		{"negative radius", -0.2, 3, plan.HitchBasket},
		{"NaN radius", nan, 3, plan.HitchBasket},
		{"no length", 0.24, 0, plan.HitchBasket},
		{"NaN length", 0.24, nan, plan.HitchChoked},
		{"infinite length", 0.24, inf, plan.HitchBasket},
		{"straight", 0.24, 3, plan.HitchStraight},
	} {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, gear.Round{}, gear.SlingRound(tt.radius, tt.length, tt.hitch))
		})
	}
	// The girth of the trunk is 2π·0.24 = 1.508 m.
	for _, hitch := range []string{plan.HitchBasket, plan.HitchChoked} {
		r := gear.SlingRound(0.24, 1.4, hitch)
		assert.False(t, r.Closes)
		inDelta(t, 2*math.Pi*0.24-1.4, float64(r.Short), 1e-12)
	}
}

func TestSlingLength(t *testing.T) {
	// Design, r 0.24 m: 74° ↔ 1.70, 60° ↔ 1.84, 120° ↔ 1.53 m.
	inDelta(t, 1.70, float64(gear.SlingLength(0.24, 74)), 0.005)
	inDelta(t, 1.84, float64(gear.SlingLength(0.24, 60)), 0.005)
	inDelta(t, 1.53, float64(gear.SlingLength(0.24, 120)), 0.005)
	for _, opens := range []quantity.Degrees{0, -5, 181, quantity.Degrees(math.NaN())} {
		assert.Zero(t, gear.SlingLength(0.24, opens))
	}
	assert.Zero(t, gear.SlingLength(0, 60))
}

func TestSlingRoundAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := quantity.Length(rapid.Float64Range(0.01, 5).Draw(t, "radius"))
		opens := quantity.Degrees(rapid.Float64Range(0.5, 179).Draw(t, "opens"))
		got := gear.SlingRound(r, gear.SlingLength(r, opens), plan.HitchBasket)
		if !got.Closes {
			t.Fatalf("does not close")
		}
		// Near 180° the length hardly changes with the angle: at 179° the last
		// digit of a length of 6.28 r is 1e-8 degrees.
		if d := math.Abs(float64(got.Opens - opens)); !(d < 1e-6) {
			t.Fatalf("opens %v, want %v", got.Opens, opens)
		}
	})
}

func TestShorterSlingNeverLowersLegLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := quantity.Length(rapid.Float64Range(0.05, 1).Draw(t, "radius"))
		long := r * quantity.Length(rapid.Float64Range(6.5, 60).Draw(t, "length"))
		short := long * quantity.Length(rapid.Float64Range(0.3, 1).Draw(t, "share"))
		s := &plan.Sling{Length: long}
		leg := func(l quantity.Length) float64 {
			s.Length = l
			return float64(gear.Sling(gear.SlingIn{Sling: s, Hitch: plan.HitchBasket, OnTrunk: true, Radius: r,
				Round: gear.SlingRound(r, l, plan.HitchBasket), Load: 1000}, nil, nil).Leg)
		}
		if gear.SlingRound(r, short, plan.HitchBasket).Closes && !(leg(short) >= leg(long)) {
			t.Fatalf("leg %v at %v m, %v at %v m", leg(short), short, leg(long), long)
		}
	})
}
