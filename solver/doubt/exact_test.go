package doubt_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
)

// onePart is a part that is sound (7 of 10, strength anywhere up to 100 N), weak (2 of
// 10, up to 50 N) or not seated (1 of 10, comes off below 20 N), in a pull to 40 N, on a
// vehicle that slides anywhere up to 100 N. All of it is closed form: a part that is
// sound fails in 4 of 10, weak in 8 of 10, not seated always.
func onePart() *doubt.Incident {
	return &doubt.Incident{
		Parts: []doubt.Part{
			{ID: "a", Sound: must(doubt.Uniform(0, 100)), PriorBelow: 0.3, Weak: []doubt.Weak{
				{ID: "worn", Prior: 0.2, Strength: must(doubt.Uniform(0, 50))},
				{ID: "off", Prior: 0.1, Strength: must(doubt.Uniform(0, 20)), Unbroken: true}}},
			{ID: "v", Sound: must(doubt.Uniform(0, 100)), Yields: true},
		},
		Pull: func(_ []float64, p *doubt.Pull) {
			p.EndN, p.StallN, p.Factors[0], p.Factors[1] = 40, 40, 1, 1
		},
	}
}

// The exact posterior for each kind of evidence that is a fact: by hand, from the chances
// that onePart tells. The others are none: a resting place (weighs nothing), a rut (sets the
// place), a tag (sets a rating), what was seen before (sets a prior).
func TestExactPosteriorOfEachKindOfEvidence(t *testing.T) {
	breaking := []string{doubt.Sound, "worn"}
	thrown := doubt.Fact{Kind: doubt.FoundAt, Thrown: []string{"a"}, DistanceM: 3, DropM: 4, MassKg: 1}
	type want struct{ sound, worn, off, none float64 }
	for what, tt := range map[string]struct {
		fact   doubt.Fact
		trust  float64
		change func(in *doubt.Incident)
		want   want
	}{
		"nothing":      {doubt.Fact{Kind: doubt.Failed}, 0.5, nil, want{0.28, 0.16, 0.10, 0.46}},
		"found broken": {doubt.Fact{Kind: doubt.Ended, Among: []string{"a"}, Ways: breaking}, 1, nil, want{0.28 / 0.44, 0.16 / 0.44, 0, 0}},
		"found whole":  {doubt.Fact{Kind: doubt.NotEnded, Among: []string{"a"}, Ways: breaking}, 1, nil, want{0, 0, 0.10 / 0.56, 0.46 / 0.56}},
		"found off":    {doubt.Fact{Kind: doubt.Ended, Among: []string{"a"}, Ways: []string{"off"}}, 1, nil, want{0, 0, 1, 0}},
		"broke first":  {doubt.Fact{Kind: doubt.Ended, Among: []string{"a"}}, 1, nil, want{0.28 / 0.54, 0.16 / 0.54, 0.10 / 0.54, 0}},
		"look, told": {doubt.Fact{Kind: doubt.Ended, Among: []string{"a"}, Ways: []string{"worn"}}, 0.8, nil,
			want{0.28 * 0.2 / 0.296, 0.16 * 0.8 / 0.296, 0.10 * 0.2 / 0.296, 0.46 * 0.2 / 0.296}},
		"tension 10 to 30 N": {doubt.Fact{Kind: doubt.TensionBetween, LowN: 10, HighN: 30}, 1, nil, want{0.14 / 0.27, 0.08 / 0.27, 0.05 / 0.27, 0}},
		"stalled":            {doubt.Fact{Kind: doubt.Stalled, LowN: 30, HighN: math.MaxFloat64}, 1, nil, want{0, 0, 0, 1}},
		"skid":               {doubt.Fact{Kind: doubt.Yielded, Part: "v", Share: 1}, 1, nil, want{0.056 / 0.282, 0.032 / 0.282, 0.010 / 0.282, 0.184 / 0.282}},
		"no skid":            {doubt.Fact{Kind: doubt.NotYielded, Part: "v", Share: 1}, 1, nil, want{0.224 / 0.718, 0.128 / 0.718, 0.090 / 0.718, 0.276 / 0.718}},
		// It stirs at half of 60 N: of those that fail from 30 N on, and of all that hold.
		"stirred at half": {doubt.Fact{Kind: doubt.Yielded, Part: "v", Share: 0.5}, 1, func(in *doubt.Incident) { in.Parts[1].Sound = doubt.Sure(60) },
			want{0.07 / 0.57, 0.04 / 0.57, 0, 0.46 / 0.57}},
		// Half its strength is left of an earlier pull that held 10 N: it fails below 80 N of before.
		"held an earlier pull": {doubt.Fact{Kind: doubt.HeldBefore, LowN: 10}, 1, func(in *doubt.Incident) {
			in.Pull = func(_ []float64, p *doubt.Pull) {
				p.EndN, p.StallN, p.Left[0], p.Factors[0], p.Factors[1] = 40, 40, 0.5, 2, 2
			}
		}, want{0.49 / 0.84, 0.16 / 0.84, 0.05 / 0.84, 0.14 / 0.84}},
		// It stalled then anywhere below 40 N: of strength s that held in s/40, of which ∫ to 40 N is 20 N.
		"held to another stall": {doubt.Fact{Kind: doubt.HeldBefore}, 1, func(in *doubt.Incident) {
			in.Inputs, in.Reads = map[string]doubt.Dist{"before": must(doubt.Uniform(0, 40))}, []string{"before"}
			pull := in.Pull
			in.Pull = func(x []float64, p *doubt.Pull) {
				pull(x, p)
				p.BeforeN = x[0]
			}
		}, want{0.14 / 0.705, 0.08 / 0.705, 0.025 / 0.705, 0.46 / 0.705}},
		// 3 m away and 4 m down ask for v² = g(5 - 4) = g: half of the energy gives that of 1 kg from 20 N on.
		"landing mark": {thrown, 1, func(in *doubt.Incident) { in.Flying = doubt.Sure(0.5); storing(in, 9.80665/400) },
			want{0.14 / 0.22, 0.08 / 0.22, 0, 0}},
		// Any share of so much energy: at T it is enough in 1 - 400/T², of which ∫ from 20 to 40 N is 10 N.
		"landing mark, any share": {thrown, 1, func(in *doubt.Incident) { in.Flying = must(doubt.Uniform(0, 1)); storing(in, 9.80665/800) },
			want{0.07 / 0.11, 0.04 / 0.11, 0, 0}},
		// The outer layer, as likely as the inner one, gives 20 N.
		"outer layer": {doubt.Fact{Kind: doubt.OnLayer, Layer: 2}, 1, func(in *doubt.Incident) {
			in.Inputs, in.Reads = map[string]doubt.Dist{"layer": must(doubt.Uniform(0.5, 2.5))}, []string{"layer"}
			in.Pull = func(x []float64, p *doubt.Pull) {
				p.Layer = math.Round(x[0])
				p.EndN, p.Factors[0], p.Factors[1] = 60-20*p.Layer, 1, 1
				p.StallN = p.EndN
			}
		}, want{0.14, 0.08, 0.10, 0.68}},
	} {
		in := onePart()
		if tt.change != nil {
			tt.change(in)
		}
		tt.fact.Trust = tt.trust
		in.Facts = []doubt.Fact{tt.fact}
		s, err := doubt.Take(in, 1024, 11, 2)
		require.NoError(t, err, what)
		for _, c := range s.Answer().Candidates {
			x := map[string]float64{"": tt.want.sound, "worn": tt.want.worn, "off": tt.want.off}[c.Way]
			if c.Part == "" {
				x = tt.want.none
			}
			assert.InDelta(t, x, c.Posterior.Value, 0.004, "%s: %+v", what, c)
		}
	}
}

// storing is what the line stores, J/N².
func storing(in *doubt.Incident, jPerN2 float64) {
	pull := in.Pull
	in.Pull = func(x []float64, p *doubt.Pull) {
		pull(x, p)
		p.JPerN2 = jPerN2
	}
}

// A jerk of twice the tension, held likely in 1 of 4: 0.25·0.8 against 0.75·0.4 once the
// part, always sound, is found broken.
func TestExactPosteriorOfAJerk(t *testing.T) {
	in := onePart()
	in.Parts[0].Weak, in.Parts[0].PriorBelow = nil, 0
	in.Jerk, in.Jerked = doubt.Sure(2), 0.25
	in.Facts = []doubt.Fact{{Kind: doubt.Ended, Among: []string{"a"}, Trust: doubt.Observed}}
	s, err := doubt.Take(in, 1024, 11, 2)
	require.NoError(t, err)
	for _, c := range s.Answer().Candidates {
		if c.Part == "a" {
			assert.InDelta(t, map[bool]float64{true: 0.4, false: 0.6}[c.Jerk], c.Posterior.Value, 0.004)
		}
	}
	r, err := s.Ratio(s.Is(doubt.Candidate{Part: "a", Jerk: true}), s.Is(doubt.Candidate{Part: "a"}))
	require.NoError(t, err)
	assert.InDelta(t, 1, r.Value, 0.01, "once it broke, that says nothing of whether it was jerked: the facts are as likely either way")
}

// A way of being weak that does not add up, one that yields and is asked for, a share of
// nothing: refused.
func TestFactsOfEndsAreChecked(t *testing.T) {
	for what, change := range map[string]func(in *doubt.Incident){
		"ways that do not add up": func(in *doubt.Incident) { in.Parts[0].PriorBelow = 0.5 },
		"nobody":                  func(in *doubt.Incident) { in.Facts = []doubt.Fact{{Kind: doubt.Ended, Trust: 1}} },
		"no such part": func(in *doubt.Incident) {
			in.Facts = []doubt.Fact{{Kind: doubt.NotEnded, Among: []string{"x"}, Trust: 1}}
		},
		"a share of nothing": func(in *doubt.Incident) { in.Facts = []doubt.Fact{{Kind: doubt.Yielded, Part: "v", Trust: 1}} },
	} {
		in := onePart()
		change(in)
		_, err := doubt.Take(in, 64, 1, 1)
		assert.ErrorIs(t, err, doubt.ErrIncident, what)
	}
}

// The load on the part when it fails is its strength, less what an earlier pull took of
// it: of a strength spread alike from 0 to 100 N, all below what the pull reaches, by hand.
func TestTheLoadAtFailureIsTheStrengthLeft(t *testing.T) {
	for what, tt := range map[string]struct{ endN, factor, left, tensionN, loadN float64 }{
		"one strand":                {40, 1, 1, 20, 20},
		"doubled":                   {40, 2, 1, 20, 40},
		"half left of it":           {40, 2, 0.5, 20, 20},
		"doubled, half left of it":  {20, 4, 0.5, 10, 20},
		"three quarters left of it": {30, 4. / 3, 0.75, 15, 15},
	} {
		in := onePart()
		in.Facts = nil
		in.Parts[0].Sound = must(doubt.Uniform(0, 100))
		in.Pull = func(_ []float64, p *doubt.Pull) {
			p.EndN, p.StallN, p.Left[0], p.Factors[0], p.Factors[1] = tt.endN, tt.endN, tt.left, tt.factor, tt.factor
		}
		s, err := doubt.Take(in, 1024, 1, 2)
		require.NoError(t, err)
		fails := s.Is(doubt.Candidate{Part: "a"})
		assert.InDelta(t, tt.tensionN, s.Given(func(t *doubt.Trial) float64 { return t.TensionN }, fails).Value, 0.1, what)
		assert.InDelta(t, tt.loadN, s.Given(func(t *doubt.Trial) float64 { return t.LoadN }, fails).Value, 0.1, what)
	}
}
