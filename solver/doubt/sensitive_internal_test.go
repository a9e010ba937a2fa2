package doubt

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twoWays is a pull to 20 N of a part that is sound (0 to 100 N alike: it fails in 0.2) or,
// in 1 of 4, weak (0, 25, 50 N as a triangle: 20²/(50·25) = 0.32; anywhere alike: 0.4),
// beside one that fails in 0.3. It was found that one failed.
func twoWays() *Incident {
	u := func(high float64) Dist { return Dist{uniform, 0, 0, high} }
	return &Incident{
		Parts: []Part{{ID: "a", Sound: u(100), PriorBelow: 0.25, Below: Dist{triangular, 0, 25, 50}}, {ID: "b", Sound: u(20 / 0.3)}},
		Pull: func(_ []float64, p *Pull) {
			p.EndN, p.StallN, p.Factors[0], p.Factors[1] = 20, 20, 1, 1
		},
		Facts: []Fact{{Kind: Ended, Among: []string{"a"}, Trust: Observed}},
	}
}

// first is how likely it is that a fails before b by T = 20: of strength anywhere up to
// high, ∫ (1 - 0.3·t/20) dt/high; of the triangle, ∫ (1 - 0.3·t/20)·t/625 dt.
func first(high float64) float64 { return (20 - 0.3*20/2) / high }

var firstOfTriangle = (20.*20/2 - 0.3/20*20*20*20/3) / 625

// How far the first candidate hangs on the shape of what is below strength and on its
// prior: closed forms.
func TestSensitivityIsExact(t *testing.T) {
	of := func(in *Incident) *Sample {
		s, err := Take(in, 1024, 3, 2)
		require.NoError(t, err)
		return s
	}
	in := twoWays()
	s, other := of(in), of(in.otherShape())
	weak, even, sound := 0.25*firstOfTriangle, 0.25*first(50), 0.75*first(100)
	out := &Reconstruction{Pins: []PinUse{{Fact: 0}}, Answer: s.Answer()}
	out.sensitive(s, other)
	top := out.Answer.Candidates[0]
	require.False(t, top.Below, "sound: %v of %v", sound, sound+weak)
	got := map[string]float64{}
	for _, x := range out.Sensitive {
		got[x.What] = x.Given.Value
	}
	assert.InDelta(t, sound/(sound+weak), top.Posterior.Value, 0.002)
	assert.InDelta(t, sound/(sound+even), got["other-shape"], 0.002)
	odds := func(p float64) float64 { return (1 - p) * first(100) / ((1-p)*first(100) + p*firstOfTriangle) }
	assert.InDelta(t, odds(0.75), got["prior-times-3"], 0.002)
	assert.InDelta(t, odds(0.25/3), got["prior-over-3"], 0.002)
	assert.InDelta(t, 0.75*first(100), got["without-pin"], 0.002)
	half := first(100) / (first(100) + firstOfTriangle)
	assert.InDelta(t, half, out.HalfPrior, 0.003)
	assert.InDelta(t, 0.5, s.Given(s.Is(top), Both(s.Weight(), s.reprior(0, out.HalfPrior))).Value, 1e-9)
	doubted := 0.99 * sound / (0.99*(sound+weak) + 0.01*(1-sound-weak))
	assert.InDelta(t, doubted, got["observed-99"], 0.002)
}

// A weak part that is the first candidate: where its prior would have to be, and none
// where nothing brings it there.
func TestHalfPriorOfAWeakPart(t *testing.T) {
	in := twoWays()
	in.Parts[0].PriorBelow = 0.6
	s, err := Take(in, 1024, 3, 2)
	require.NoError(t, err)
	assert.InDelta(t, first(100)/(first(100)+firstOfTriangle), s.halfPrior(0, s.Is(Candidate{Part: "a", Below: true})), 0.003)
	assert.True(t, math.IsNaN(s.halfPrior(0, s.Is(Candidate{Part: "b"}))), "b is ruled out whatever the prior")
	in.Parts[0].Below = Sure(20)
	assert.Nil(t, in.otherShape(), "what does not scatter has no other shape")
}
