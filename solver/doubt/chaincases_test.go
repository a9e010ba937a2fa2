package doubt_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
)

// link is a part of a chain.
type link struct {
	Multiplier             float64
	Strength, Sound, Below *dist
	PriorBelow             float64 `json:"prior_below"`
}

// links are the parts of a chain, in the order of their names, and the tension at which
// a first pull stalls, if there was one.
func links(t *testing.T, c *refCase) (parts []doubt.Part, factors []float64, stall *dist) {
	for _, id := range slices.Sorted(maps.Keys(c.Inputs)) {
		if id == "stall_tension" {
			stall = new(in[dist](t, c, id))
			continue
		}
		var l link
		require.NoError(t, json.Unmarshal(c.Inputs[id], &l), id)
		p := doubt.Part{ID: id, PriorBelow: l.PriorBelow}
		if l.Sound == nil {
			l.Sound = l.Strength
		}
		p.Sound = l.Sound.of(t, newtons)
		if l.Below != nil {
			p.Below = l.Below.of(t, newtons)
		}
		parts, factors = append(parts, p), append(factors, l.Multiplier)
	}
	return parts, factors, stall
}

// chain answers all that the files ask of chains: by name, so that a file may ask any
// of it of any chain.
func chain(t *testing.T, c *refCase, seed uint64) map[string]float64 {
	parts, factors, stall := links(t, c)
	incident := &doubt.Incident{Parts: parts, Inputs: map[string]doubt.Dist{}}
	if stall != nil {
		incident.Inputs["stall"], incident.Reads = stall.of(t, newtons), []string{"stall"}
	}
	incident.Pull = func(x []float64, p *doubt.Pull) {
		p.EndN = math.Inf(1)
		copy(p.Factors, factors)
		if len(x) > 0 {
			p.EndN, p.StallN = x[0], x[0]
		}
	}
	got := map[string]float64{}
	a := &asker{t: t, got: got, parts: parts}
	a.prior(take(t, incident, seed))
	for _, e := range c.Evidence {
		with := *incident
		for _, f := range e.Facts {
			with.Facts = append(with.Facts, f.of(t))
		}
		s := take(t, &with, seed)
		if c.Kind == "impossible" {
			a.status(c, &with, s)
		}
		a.given(e, s)
	}
	return got
}

// asker collects what is asked of chains.
type asker struct {
	t     *testing.T
	got   map[string]float64
	parts []doubt.Part
}

func tension(x *doubt.Trial) float64 { return x.TensionN / newtons }

// prior is what is asked before any fact.
func (a *asker) prior(s *doubt.Sample) {
	for _, p := range a.parts {
		a.got["P("+p.ID+" first)"] = s.Mean(s.Later(p.ID)).Value
		if p.PriorBelow > 0 {
			a.got["P("+p.ID+" first | below)"] = s.Given(s.Later(p.ID), s.Below(p.ID)).Value
			a.got["P("+p.ID+" first | sound)"] = s.Given(s.Later(p.ID), doubt.Not(s.Below(p.ID))).Value
		}
	}
	a.moments(s, doubt.One, "mean T_first", "sd T_first")
	for _, q := range []float64{0.05, 0.5, 0.95} {
		a.got[fmt.Sprintf("q%v T_first", q)] = s.Bands(doubt.One, q)[0] / newtons
	}
}

func (a *asker) moments(s *doubt.Sample, w doubt.Of, mean, sd string) {
	m := s.Given(tension, w).Value
	a.got[mean] = m
	a.got[sd] = math.Sqrt(s.Given(func(x *doubt.Trial) float64 { return (tension(x) - m) * (tension(x) - m) }, w).Value)
}

// given is what is asked of a set of facts, under every name that the files have for it.
func (a *asker) given(e evidence, s *doubt.Sample) {
	w := s.Weight()
	answer := s.Answer()
	said := sayFacts(e.Facts)
	put := func(value float64, names ...string) {
		for _, n := range names {
			if _, ok := a.got[n]; !ok {
				a.got[n] = value
			}
		}
	}
	put(s.Mean(w).Value, "evidence weight | "+e.Set, "P("+said+")", "P(evidence)", "evidence weight")
	put(answer.Outright.Value*20000, "expected agreeing samples of 20000")
	put(answer.Effective, "effective share of samples | "+e.Set)
	a.moments(s, w, "mean T | "+said, "sd T | "+said)
	put(a.got["mean T | "+said], "mean T | evidence")
	put(a.got["sd T | "+said], "sd T | evidence")
	for _, p := range a.parts {
		first := s.First(p.ID)
		put(s.Given(first, w).Value, "P("+p.ID+" first) | "+e.Set, "posterior "+p.ID+" first",
			fmt.Sprintf("P(%s first | told, trust %v)", p.ID, e.Facts[0].Trust))
		put(s.Given(s.Later(p.ID), w).Value, "P("+p.ID+" first in a later pull)")
		if !(p.PriorBelow > 0) {
			continue
		}
		below := s.Below(p.ID)
		put(s.Given(below, w).Value, "posterior below | "+e.Set, "posterior below | "+said, "posterior below")
		put(s.Given(w, below).Value, "P(evidence | below)")
		put(s.Given(w, doubt.Not(below)).Value, "P(evidence | sound)")
		put(s.Given(doubt.Both(first, below), w).Value, "posterior "+p.ID+" first, below")
		put(s.Given(doubt.Both(first, doubt.Not(below)), w).Value, "posterior "+p.ID+" first, sound")
		if r, err := s.RatioBelow(p.ID); err == nil && r.Bound == 0 {
			put(r.Value, "likelihood ratio below : sound")
			assert.True(a.t, r.Low <= r.Value && r.Value <= r.High)
		}
	}
}

// sayFacts is what the files call a set of facts.
func sayFacts(facts []fact) string {
	var said []string
	plain := true
	for _, f := range facts {
		switch f.Fact {
		case "failed_first":
			said = append(said, f.Part+" first")
		case "held":
			said = append(said, "and "+f.Part+" held")
		case "tension_between":
			said, plain = append(said, fmt.Sprintf("T in %v..%v", f.Low, f.High)), false
		default:
			said = append(said, f.Fact)
		}
	}
	if plain {
		return strings.Join(said, " ")
	}
	return strings.Join(said, ", ")
}

// status compares what a case of rare facts says with the verdict: too few agree, and
// then there is no answer but why.
func (a *asker) status(c *refCase, in *doubt.Incident, s *doubt.Sample) {
	answer := s.Answer()
	switch c.Expected.Status {
	case "too_few_agree":
		assert.Equal(a.t, doubt.TooFew, answer.Verdict)
		assert.Empty(a.t, answer.Candidates)
		assert.GreaterOrEqual(a.t, answer.Worst, 0)
	case "ok":
		assert.Equal(a.t, doubt.Answered, answer.Verdict)
	case "too_few_agree_or_refined":
		assert.NotEqual(a.t, doubt.Answered, answer.Verdict)
	default:
		a.t.Errorf("status %q", c.Expected.Status)
	}
}
