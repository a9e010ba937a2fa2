package doubt_test

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
)

// refIncident is an incident of the second format.
type refIncident struct {
	ID     string
	Inputs map[string]dist
	Parts  []struct {
		ID           string
		Sound, Below *dist
		PriorBelow   float64 `json:"prior_below"`
	}
	Formula struct {
		Rig         string
		TEnd        string `json:"T_end"`
		Multipliers map[string]string
		Change      string
	}
	EA       float64 `json:"EA_kN"`
	Facts    []fact
	Expected struct {
		Order []struct {
			Part, State string
			Posterior   float64
			Error       float64 `json:"monte_carlo_error"`
		}
		Ratio *struct {
			Of    string
			Value float64
		} `json:"likelihood_ratio"`
		Weight      float64 `json:"evidence_weight"`
		WeightError float64 `json:"evidence_weight_error"`
		Agree       float64 `json:"agree_outright_of_20000"`
		Effective   float64 `json:"effective_share"`
		Tension     float64 `json:"mean_tension_at_failure_kN"`
		TensionErr  float64 `json:"mean_tension_error"`
		Change      struct {
			Before float64 `json:"chance_of_any_failure_before"`
			After  float64
			Still  float64 `json:"of_the_pulls_that_agree_still_fail"`
			Error  float64
		}
		Fits []struct {
			Without map[string]float64 `json:"posterior_without_it"`
			OfAll   float64            `json:"share_of_all"`
			Others  float64            `json:"chance_given_the_other_facts"`
		} `json:"fit_of_facts"`
	}
}

// number finds the figures that a text says in a pattern.
func number(t *testing.T, pattern, text string) []float64 {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	var out []float64
	for _, s := range m[1:] {
		x, err := strconv.ParseFloat(s, 64)
		require.NoError(t, err, text)
		out = append(out, x)
	}
	return out
}

const (
	figure = `(-?[\d.]*\d)`
	place  = `\(` + figure + `, ` + figure + `\)`
)

// product reads a multiplier: figures, c (load of the block over the tension) and rho
// side by side, the last of those joined by =.
func product(t *testing.T, text string) func(c, rho float64) float64 {
	t.Helper()
	if _, after, ok := strings.Cut(text, "="); ok {
		text = after
	}
	text, _, _ = strings.Cut(text, ",")
	k, cs, rhos := 1.0, 0, 0
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '*' }) {
		switch w {
		case "c":
			cs++
		case "rho":
			rhos++
		default:
			x, err := strconv.ParseFloat(w, 64)
			require.NoError(t, err, "multiplier %q", text)
			k *= x
		}
	}
	return func(c, rho float64) float64 { return k * math.Pow(c, float64(cs)) * math.Pow(rho, float64(rhos)) }
}

// geometry reads the rig of the incident: the load of the block, the pull along the way
// out and Σk²L, for a place of the casualty and a ratio of the sheave.
func geometry(t *testing.T, text string) func(ex, ey, rho float64) (c, pull, length float64) {
	t.Helper()
	dx, dy := 1.0, 0.0
	if d := number(t, `d = `+figure+` deg`, text); d != nil {
		dx, dy = math.Cos(d[0]*math.Pi/180), math.Sin(d[0]*math.Pi/180)
	}
	w, b := number(t, `W `+place, text), number(t, `B `+place, text)
	require.NotNil(t, w, text)
	if b == nil {
		require.Contains(t, text, "straight line")
		return func(ex, ey, rho float64) (float64, float64, float64) {
			l := math.Hypot(w[0]-ex, w[1]-ey)
			return 1, ((w[0]-ex)*dx + (w[1]-ey)*dy) / l, l
		}
	}
	one := math.Hypot(w[0]-b[0], w[1]-b[1])
	return func(ex, ey, rho float64) (float64, float64, float64) {
		two := math.Hypot(ex-b[0], ey-b[1])
		ux, uy := (ex-b[0])/two, (ey-b[1])/two
		cos := ((w[0]-b[0])*ux + (w[1]-b[1])*uy) / one
		return math.Sqrt(1 + rho*rho + 2*rho*cos), rho * -(ux*dx + uy*dy), one + rho*rho*two
	}
}

// incident is the case as the program has it.
func (c *refIncident) incident(t *testing.T) *doubt.Incident {
	out := &doubt.Incident{Inputs: map[string]doubt.Dist{}}
	index := map[string]int{}
	for id, d := range c.Inputs {
		scale := 1.0
		if id == "R" {
			scale = newtons
		}
		if id != "eff" {
			index[id] = len(out.Reads)
			out.Reads = append(out.Reads, id)
		}
		out.Inputs[id] = d.of(t, scale)
	}
	out.Flying = out.Inputs["eff"]
	for _, p := range c.Parts {
		q := doubt.Part{ID: p.ID, Sound: p.Sound.of(t, newtons), PriorBelow: p.PriorBelow}
		if p.Below != nil {
			q.Below = p.Below.of(t, newtons)
		}
		out.Parts = append(out.Parts, q)
	}
	for _, f := range c.Facts {
		out.Facts = append(out.Facts, f.of(t))
	}
	at := func(x []float64, id string, without float64) float64 {
		if k, ok := index[id]; ok {
			return x[k]
		}
		return without
	}
	first := number(t, `min\(R / pull, s \* `+figure+` kN\)`, c.Formula.TEnd)
	require.NotNil(t, first, c.Formula.TEnd)
	rig := geometry(t, c.Formula.Rig)
	var factors []func(c, rho float64) float64
	for _, p := range c.Parts {
		factors = append(factors, product(t, c.Formula.Multipliers[p.ID]))
	}
	out.Pull = func(x []float64, p *doubt.Pull) {
		rho := at(x, "rho", 1)
		block, pull, length := rig(at(x, "ex", 0), at(x, "ey", 0), rho)
		p.StallN = at(x, "s", 1) * first[0] * newtons
		p.EndN = min(at(x, "R", 0)/pull, p.StallN)
		p.JPerN2 = length / (2 * c.EA * newtons)
		for i, f := range factors {
			p.Factors[i] = f(block, rho)
		}
	}
	out.Changes = append(out.Changes, c.change(t, out.Pull, at, rig))
	return out
}

// change is the rig with what the case does otherwise.
func (c *refIncident) change(t *testing.T, pull func([]float64, *doubt.Pull), at func([]float64, string, float64) float64,
	rig func(ex, ey, rho float64) (float64, float64, float64)) func([]float64, *doubt.Pull) {
	text := c.Formula.Change
	limit := number(t, `limiter set to `+figure+` kN`, text)
	doubled := number(t, `pull x `+figure, text)
	see := regexp.MustCompile(`([a-z, ]+) sees? ` + figure + ` T`).FindStringSubmatch(text)
	other := map[int]func(c, rho float64) float64{}
	for i, p := range c.Parts {
		if m := regexp.MustCompile(`after the change[^:]*: ([^)]*)\)`).FindStringSubmatch(c.Formula.Multipliers[p.ID]); m != nil {
			other[i] = product(t, m[1])
		}
	}
	require.True(t, limit != nil || doubled != nil || len(other) > 0, "change not understood: %q", text)
	return func(x []float64, p *doubt.Pull) {
		pull(x, p)
		if limit != nil {
			p.EndN = min(p.EndN, limit[0]*newtons)
		}
		rho := at(x, "rho", 1)
		block, along, _ := rig(at(x, "ex", 0), at(x, "ey", 0), rho)
		for i, f := range other {
			p.Factors[i] = f(block, rho)
		}
		if doubled == nil {
			return
		}
		p.EndN = min(at(x, "R", 0)/along/doubled[0], p.StallN)
		for i, q := range c.Parts {
			if see != nil && strings.Contains(see[1], q.ID) {
				p.Factors[i] *= doubled[0]
			}
		}
	}
}

// runIncident runs an incident with every seed.
func runIncident(t *testing.T, raw json.RawMessage) {
	var c refIncident
	require.NoError(t, json.Unmarshal(raw, &c))
	for _, seed := range seeds() {
		s := take(t, c.incident(t), seed)
		a := s.Answer()
		require.NotEqual(t, doubt.TooFew, a.Verdict)
		assert.GreaterOrEqual(t, a.ESS, 400.0)
		name := func(what string) string { return fmt.Sprintf("%s, seed %d", what, seed) }
		near := func(what string, want float64, got doubt.Estimate, theirs float64) {
			t.Helper()
			assert.InDelta(t, want, got.Value, 4*got.Error+3*theirs+digits(want), name(what))
		}
		c.order(t, a, name)
		near("weight", c.Expected.Weight, a.Weight, c.Expected.WeightError)
		near("agree outright", c.Expected.Agree/20000, s.Mean(s.Agrees()), math.Sqrt(c.Expected.Agree/20000/1e7))
		assert.InDelta(t, c.Expected.Effective, a.Effective, 0.01*c.Expected.Effective, name("effective share"))
		near("tension", c.Expected.Tension, doubt.Estimate{Value: a.TensionN.Value / newtons, Error: a.TensionN.Error / newtons}, c.Expected.TensionErr)
		near("before", c.Expected.Change.Before, a.Changes[0].Before, c.Expected.Change.Error+2e-4)
		near("after", c.Expected.Change.After, a.Changes[0].After, c.Expected.Change.Error+1e-4)
		near("still", c.Expected.Change.Still, a.Changes[0].StillFails, c.Expected.Change.Error)
		for i, f := range c.Expected.Fits {
			near("of all", f.OfAll, a.Fits[i].OfAll, 2e-4)
			near("given the others", f.Others, a.Fits[i].GivenOthers, 2e-4)
			without := s.Without(i)
			for key, want := range f.Without {
				got := posterior(t, without, key) // the files leave out that none failed
				got.Value /= 1 - posterior(t, without, " sound").Value
				near("without fact: "+key, want, got, 2e-4)
			}
		}
		if r := c.Expected.Ratio; r != nil {
			got, err := s.RatioBelow(strings.Fields(r.Of)[0])
			require.NoError(t, err)
			se := math.Log(got.High/got.Low) / 2 / 2.13
			assert.InDelta(t, math.Log(r.Value), math.Log(got.Value), 4*se+1e-3, name("likelihood ratio"))
			assert.Less(t, se, 0.05, "the ratio is known to a few hundredths")
		}
	}
}

// digits is half of the last of four digits of a figure.
func digits(x float64) float64 {
	if x == 0 {
		return 1e-4
	}
	return 0.6 * math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-3)
}

// posterior is that of the candidate "part state".
func posterior(t *testing.T, all []doubt.Candidate, key string) doubt.Estimate {
	t.Helper()
	for _, x := range all {
		if key == x.Part+" "+stateOf(x) {
			return x.Posterior
		}
	}
	t.Errorf("no candidate %q", key)
	return doubt.Estimate{}
}

func stateOf(x doubt.Candidate) string {
	if x.Below {
		return "below"
	}
	return "sound"
}

// order compares the candidates: their order above 0.02, and how likely they are.
func (c *refIncident) order(t *testing.T, a doubt.Answer, name func(string) string) {
	for i, want := range c.Expected.Order {
		p := want.Posterior
		key := want.Part + " " + want.State
		got := posterior(t, a.Candidates, key)
		assert.InDelta(t, p, got.Value, 3*math.Sqrt(p*(1-p)/a.ESS)+3*want.Error+1e-6, name(key))
		assert.InDelta(t, p, got.Value, 4*got.Error+3*want.Error+1e-6, name(key))
		if p > 0.02 {
			assert.Equal(t, key, a.Candidates[i].Part+" "+stateOf(a.Candidates[i]), name("order"))
		}
	}
}
