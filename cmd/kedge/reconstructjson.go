package main

import (
	"math"

	"kedge/solver/doubt"
)

// The names that a JSON answer of reconstruct says it is of.
const (
	reconstructFormat  = "kedge-reconstruct"
	reconstructVersion = 1
)

type reconstructDoc struct {
	docHead
	Exit        int             `json:"exit"`
	Rig         string          `json:"rig"`
	Computed    bool            `json:"computed"`
	Along       number          `json:"along_m"`
	Seed        uint64          `json:"seed"`
	Trials      int             `json:"trials"`
	Verdict     string          `json:"verdict"`
	Agree       *estimateJSON   `json:"agree_outright"`
	OutOf20000  *number         `json:"agree_of_20000"`
	Effective   *number         `json:"effective_number"`
	Worst       *string         `json:"fits_worst"`
	NonePrior   number          `json:"none_prior"`
	JerkPrior   number          `json:"jerk_prior"`
	Cautions    []string        `json:"cautions"`
	Pins        []pinJSON       `json:"pins"`
	Candidates  []candidateJSON `json:"candidates"`
	Tension     *bandJSON       `json:"tension_n"`
	Changes     []changeJSON    `json:"changes"`
	Sensitivity []sensitiveJSON `json:"sensitivity"`
	HalfPrior   *number         `json:"half_prior"`
	Assumed     []assumedJSON   `json:"assumed"`
	Priors      []priorJSON     `json:"priors"`
	NotDrawn    []doubtfulJSON  `json:"not_drawn"`
}

type estimateJSON struct {
	Value number `json:"value"`
	Error number `json:"error"`
}

type pinJSON struct {
	ID     string  `json:"id"`
	Kind   string  `json:"kind"`
	About  string  `json:"about"`
	Trust  number  `json:"trust"`
	Why    string  `json:"weighs_nothing"`
	Others *number `json:"given_the_others"`
}

type candidateJSON struct {
	Part      string       `json:"part"`
	State     string       `json:"state"`
	Text      string       `json:"text"`
	Ratio     *ratioJSON   `json:"first_over_this"`
	Prior     estimateJSON `json:"prior"`
	Posterior estimateJSON `json:"given_these_assumptions"`
}

type ratioJSON struct {
	Value *number `json:"value"`
	Low   *number `json:"low"`
	High  *number `json:"high"`
	Bound string  `json:"bound"`
}

type changeJSON struct {
	Name       string        `json:"name"`
	Computed   bool          `json:"computed"`
	Before     *estimateJSON `json:"before"`
	After      *estimateJSON `json:"after"`
	Less       *estimateJSON `json:"less"`
	StillFails *estimateJSON `json:"still_fails"`
}

type sensitiveJSON struct {
	What  string       `json:"what"`
	Pin   string       `json:"pin"`
	Given estimateJSON `json:"given_these_assumptions"`
}

type assumedJSON struct {
	What    string   `json:"what"`
	Thing   string   `json:"thing"`
	Member  string   `json:"member"`
	Kind    string   `json:"scatter"`
	Figures []number `json:"figures"`
	Typed   bool     `json:"typed"`
	Fact    string   `json:"fact"`
}

type priorJSON struct {
	Part   string `json:"part"`
	State  string `json:"state"`
	Chance number `json:"chance"`
	Fact   string `json:"fact"`
}

// verdictWords are the verdicts of an answer in JSON.
var verdictWords = map[doubt.Verdict]string{doubt.Answered: "answered", doubt.FewAgree: "few agree", doubt.RareFacts: "rare facts", doubt.TooFew: "too few agree"}

func (a *rebuilt) json(status int) (string, error) {
	top := reconstructDoc{docHead: headOf(reconstructFormat, reconstructVersion), Exit: status, Rig: string(a.Rig), Along: number(a.AtM), Cautions: []string{},
		Pins: []pinJSON{}, Candidates: []candidateJSON{}, Changes: []changeJSON{}, Sensitivity: []sensitiveJSON{}, Assumed: []assumedJSON{}, Priors: []priorJSON{}, NotDrawn: []doubtfulJSON{}}
	f := a.Found
	if f == nil {
		return encoded(top)
	}
	n := f.Answer
	top.Computed, top.Seed, top.Trials, top.Verdict = true, f.Seed, f.Trials, verdictWords[n.Verdict]
	if len(f.Blocked) > 0 {
		top.Verdict = "not known of what failed"
	}
	top.NonePrior, top.JerkPrior = number(f.NonePrior), number(f.JerkPrior)
	top.Agree, top.OutOf20000, top.Effective = estimateOf(n.Outright), known(n.OutOf20000, true), known(n.ESS, true)
	if all := a.Cautions(); all != nil {
		top.Cautions = each(all, func(s *string) string { return plainName(*s) })
	}
	top.Pins = each(f.Pins, func(u *doubt.PinUse) pinJSON {
		p := pinJSON{ID: string(u.Pin.ID), Kind: u.Pin.Kind, About: string(u.Pin.Thing), Trust: number(u.Trust), Why: u.Why}
		if u.Why == "" {
			if u.Fact == n.Worst {
				top.Worst = &p.ID
			}
			if u.Fact < len(n.Fits) {
				p.Others = known(n.Fits[u.Fact].GivenOthers.Value, true)
			}
		}
		return p
	})
	if f.Answered() {
		a.answerJSON(&top)
	}
	top.Changes = each(f.Changes, func(c *doubt.NamedChange) changeJSON { return changeOfJSON(c, f.Answered()) })
	top.Assumed = each(f.Assumed, assumedOf)
	top.Priors = each(f.Priors, func(p *doubt.PriorOf) priorJSON { return priorJSON{p.Part, p.Way, number(p.Chance), string(p.Fact)} })
	top.NotDrawn = each(f.NotDrawn, doubtfulOf)
	return encoded(top)
}

// answerJSON writes what is said only where enough trials agree.
func (a *rebuilt) answerJSON(top *reconstructDoc) {
	f, n := a.Found, a.Found.Answer
	for i := range n.Candidates {
		c := &n.Candidates[i]
		if c.Prior.Value == 0 {
			continue
		}
		j := candidateJSON{Part: c.Part, State: stateOf(c), Text: plainName(a.w.Candidate(c, a.Names)), Prior: *estimateOf(c.Prior), Posterior: *estimateOf(c.Posterior)}
		if r := f.Ratios[i]; r.Known {
			j.Ratio = &ratioJSON{known(r.Ratio.Value, true), known(r.Ratio.Low, r.Ratio.Bound == 0), known(r.Ratio.High, r.Ratio.Bound == 0),
				map[int]string{0: "", 1: "more than", -1: "less than"}[r.Ratio.Bound]}
		}
		top.Candidates = append(top.Candidates, j)
	}
	top.Tension, top.HalfPrior = bandOf(n.BandN), known(f.HalfPrior, !math.IsNaN(f.HalfPrior))
	top.Sensitivity = each(f.Sensitive, func(s *doubt.Sensitivity) sensitiveJSON {
		pin := ""
		if s.Pin >= 0 {
			pin = string(f.Pins[s.Pin].Pin.ID)
		}
		return sensitiveJSON{s.What, pin, *estimateOf(s.Given)}
	})
}

func estimateOf(e doubt.Estimate) *estimateJSON {
	return &estimateJSON{number(e.Value), number(e.Error)}
}

// stateOf is the state of a candidate: "sound", "jerk", a weakness, or "none failed".
func stateOf(c *doubt.Candidate) string {
	switch {
	case c.Part == "":
		return "none failed"
	case c.Below:
		return c.Way
	case c.Jerk:
		return "jerk"
	}
	return doubt.Sound
}

func changeOfJSON(c *doubt.NamedChange, answered bool) changeJSON {
	out := changeJSON{Name: plainName(c.Name), Computed: c.Err == nil}
	if c.Err != nil {
		return out
	}
	out.Before, out.After, out.Less = estimateOf(c.Before), estimateOf(c.After), estimateOf(c.Less)
	if answered {
		out.StillFails = estimateOf(c.StillFails)
	}
	return out
}

func assumedOf(x *doubt.Assumption) assumedJSON {
	kind, figures := x.Dist.Words()
	thing := string(x.Thing)
	if x.Part != "" {
		thing = x.Part
	}
	return assumedJSON{x.What, thing, x.Member, kind, each(figures, func(v *float64) number { return number(*v) }), x.Typed, string(x.Fact)}
}
