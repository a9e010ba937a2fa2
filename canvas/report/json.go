package report

import (
	"kedge/solver/doubt"
	"kedge/solver/quantity"
)

// The names that a JSON answer of a reconstruction says it is of.
const (
	jsonFormat  = "kedge-reconstruct"
	jsonVersion = 1
)

// Answer is what a reconstruction found, as figures.
type Answer struct {
	Head
	Exit        int             `json:"exit"`
	Rig         string          `json:"rig"`
	Computed    bool            `json:"computed"`
	Along       Number          `json:"along_m"`
	Followed    Number          `json:"followed_to_m"`
	Seed        uint64          `json:"seed"`
	Trials      int             `json:"trials"`
	Verdict     string          `json:"verdict"`
	Agree       *estimateJSON   `json:"agree_outright"`
	OutOf20000  *Number         `json:"agree_of_20000"`
	Effective   *Number         `json:"effective_number"`
	Worst       *string         `json:"fits_worst"`
	NonePrior   Number          `json:"none_prior"`
	JerkPrior   Number          `json:"jerk_prior"`
	Cautions    []string        `json:"cautions"`
	Pins        []pinJSON       `json:"pins"`
	Candidates  []candidateJSON `json:"candidates"`
	Tension     *Band           `json:"tension_n"`
	Changes     []changeJSON    `json:"changes"`
	Sensitivity []sensitiveJSON `json:"sensitivity"`
	HalfPrior   *Number         `json:"half_prior"`
	Assumed     []Assumed       `json:"assumed"`
	Priors      []priorJSON     `json:"priors"`
	NotDrawn    []Doubtful      `json:"not_drawn"`
	Picture     *Picture        `json:"picture"`
}

type estimateJSON struct {
	Value Number `json:"value"`
	Error Number `json:"error"`
}

type pinJSON struct {
	ID     string  `json:"id"`
	Kind   string  `json:"kind"`
	About  string  `json:"about"`
	Trust  Number  `json:"trust"`
	Why    string  `json:"weighs_nothing"`
	Others *Number `json:"given_the_others"`
}

type candidateJSON struct {
	Part      string       `json:"part"`
	State     string       `json:"state"`
	Text      string       `json:"text"`
	Ratio     *ratioJSON   `json:"first_over_this"`
	Prior     estimateJSON `json:"prior"`
	Posterior estimateJSON `json:"given_these_assumptions"`
	Place     *Band        `json:"place_m"`
	Load      *Band        `json:"load_n"`
}

type ratioJSON struct {
	Value *Number `json:"value"`
	Low   *Number `json:"low"`
	High  *Number `json:"high"`
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

// Assumed is a figure that is drawn, and how it scatters.
type Assumed struct {
	What    string   `json:"what"`
	Thing   string   `json:"thing"`
	Member  string   `json:"member"`
	Kind    string   `json:"scatter"`
	Figures []Number `json:"figures"`
	Typed   bool     `json:"typed"`
	Fact    string   `json:"fact"`
}

type priorJSON struct {
	Part   string `json:"part"`
	State  string `json:"state"`
	Chance Number `json:"chance"`
	Fact   string `json:"fact"`
}

// verdictWords are the verdicts of an answer in JSON.
var verdictWords = map[doubt.Verdict]string{doubt.Answered: "answered", doubt.FewAgree: "few agree", doubt.RareFacts: "rare facts", doubt.TooFew: "too few agree"}

// Unsettled is the status that a command ends with whose answer is none, or has a caution.
const Unsettled = 4

// Exit is the status that `kedge doubt` and `kedge reconstruct` end with: 0 if the answer
// stands without a caution.
func Exit(settled bool) int {
	if settled {
		return 0
	}
	return Unsettled
}

// Exit is the status that `kedge reconstruct` ends with.
func (a *Report) Exit() int { return Exit(a.Settled()) }

// JSON is the answer as figures, as `kedge reconstruct --json` prints it: indented, members
// in a fixed order.
func (a *Report) JSON() ([]byte, error) {
	top := Answer{Head: HeadOf(jsonFormat, jsonVersion), Exit: a.Exit(), Rig: string(a.Rig), Along: Number(a.AtM), Cautions: []string{},
		Pins: []pinJSON{}, Candidates: []candidateJSON{}, Changes: []changeJSON{}, Sensitivity: []sensitiveJSON{}, Assumed: []Assumed{}, Priors: []priorJSON{}, NotDrawn: []Doubtful{}, Picture: PictureOf(a.Plan)}
	f := a.Found
	if f == nil {
		return Encoded(top)
	}
	n := f.Answer
	top.Followed = Number(f.ToM)
	top.Computed, top.Seed, top.Trials, top.Verdict = true, f.Seed, f.Trials, verdictWords[n.Verdict]
	switch {
	case len(f.Blocked) > 0:
		top.Verdict = "not known of what failed"
	case f.Elsewhere():
		top.Verdict = "not known where"
	}
	top.NonePrior, top.JerkPrior = Number(f.NonePrior), Number(f.JerkPrior)
	top.Agree, top.OutOf20000, top.Effective = estimateOf(n.Outright), Known(n.OutOf20000, true), Known(n.ESS, true)
	top.Cautions = Each(a.Cautions(), func(s *string) string { return quantity.PlainSpaces(*s) })
	top.Pins = Each(f.Pins, func(u *doubt.PinUse) pinJSON {
		p := pinJSON{ID: string(u.Pin.ID), Kind: u.Pin.Kind, About: string(u.Pin.Thing), Trust: Number(u.Trust), Why: u.Why}
		if u.Why == "" {
			if u.Fact == n.Worst {
				top.Worst = &p.ID
			}
			if u.Fact < len(n.Fits) {
				p.Others = Known(n.Fits[u.Fact].GivenOthers.Value, true)
			}
		}
		return p
	})
	if f.Answered() {
		a.answerJSON(&top)
	}
	top.Changes = Each(f.Changes, func(c *doubt.NamedChange) changeJSON { return changeOfJSON(c, f.Answered()) })
	top.Assumed = Each(f.Assumed, AssumedOf)
	top.Priors = Each(f.Priors, func(p *doubt.PriorOf) priorJSON { return priorJSON{p.Part, p.Way, Number(p.Chance), string(p.Fact)} })
	top.NotDrawn = Each(f.NotDrawn, DoubtfulOf)
	return Encoded(top)
}

// answerJSON writes what is said only where enough trials agree.
func (a *Report) answerJSON(top *Answer) {
	f, n := a.Found, a.Found.Answer
	for i := range n.Candidates {
		c := &n.Candidates[i]
		if c.Prior.Value == 0 {
			continue
		}
		j := candidateJSON{Part: c.Part, State: stateOf(c), Text: quantity.PlainSpaces(a.w.Candidate(c, a.Names)), Prior: *estimateOf(c.Prior), Posterior: *estimateOf(c.Posterior)}
		if m := &f.Moments[i]; c.Part != "" {
			j.Load = BandOf(m.LoadN)
			if a.followed() {
				j.Place = BandOf(m.AtM)
			}
		}
		if r := f.Ratios[i]; r.Known {
			j.Ratio = &ratioJSON{Known(r.Ratio.Value, true), Known(r.Ratio.Low, r.Ratio.Bound == 0), Known(r.Ratio.High, r.Ratio.Bound == 0),
				map[int]string{0: "", 1: "more than", -1: "less than"}[r.Ratio.Bound]}
		}
		top.Candidates = append(top.Candidates, j)
	}
	top.Tension, top.HalfPrior = BandOf(n.BandN), Known(f.HalfPrior, true)
	top.Sensitivity = Each(f.Sensitive, func(s *doubt.Sensitivity) sensitiveJSON {
		pin := ""
		if s.Pin >= 0 {
			pin = string(f.Pins[s.Pin].Pin.ID)
		}
		return sensitiveJSON{s.What, pin, *estimateOf(s.Given)}
	})
}

func estimateOf(e doubt.Estimate) *estimateJSON {
	return &estimateJSON{Number(e.Value), Number(e.Error)}
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
	out := changeJSON{Name: quantity.PlainSpaces(c.Name), Computed: c.Err == nil}
	if c.Err != nil {
		return out
	}
	out.Before, out.After, out.Less = estimateOf(c.Before), estimateOf(c.After), estimateOf(c.Less)
	if answered {
		out.StillFails = estimateOf(c.StillFails)
	}
	return out
}

// AssumedOf is a figure that is drawn in the form of an answer.
func AssumedOf(x *doubt.Assumption) Assumed {
	kind, figures := x.Dist.Words()
	thing := string(x.Thing)
	if x.Part != "" {
		thing = x.Part
	}
	return Assumed{x.What, thing, x.Member, kind, Each(figures, func(v *float64) Number { return Number(*v) }), x.Typed, string(x.Fact)}
}
