package main

import (
	"context"
	"io"
	"regexp"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
	"kedge/solver/travel"
)

// language of the sentences unless another is asked for; JSON has none.
const language = "en"

// checkOptions are the flags of check.
type checkOptions struct {
	rig, why, units, lang, at string
	json                      bool
}

func newCheck(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var o checkOptions
	c := &cobra.Command{
		Use:  "check",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) { return check(file, in, o) }),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "")
	c.Flags().StringVar(&o.why, "why", "", "")
	toldIn(c, &o.units, &o.lang)
	c.Flags().StringVar(&o.at, "at", "", "")
	c.Flags().BoolVar(&o.json, "json", false, "")
	return c
}

// answer is one rig with what was found of it.
type answer struct {
	plan       *plan.Plan
	rig        plan.ID
	name       string
	a          *solver.Assessment
	pull       *travel.Answer // a is of it; nil: of one moment
	names      words.Names
	derivation *part.Derivation // of the part asked for; nil: not asked, or not on this rig
	why        string           // id of that part
}

// check is the whole verb: the text to print and the exit status.
func check(file string, in io.Reader, o checkOptions) (text string, status int, err error) {
	w, p, rigs, err := readRigs(file, in, o.lang, o.units, o.rig)
	if err != nil {
		return "", 0, err
	}
	moment, err := momentOf(o.at, w)
	if err != nil {
		return "", 0, err
	}
	answers := make([]answer, len(rigs))
	verdict := solver.Settled
	for i, id := range rigs {
		answers[i] = answerFor(p, id, moment, w)
		verdict = max(verdict, answers[i].a.Verdict())
	}
	status = exitStatus(verdict)
	if o.why != "" {
		if err := explainPart(p, answers, o.why, w); err != nil {
			return "", 0, err
		}
	}
	if o.json {
		text, err = checkJSON(p, answers, status)
		return text, status, err
	}
	return checkText(answers, w), status, nil
}

// pointIsDecimal finds the three decimals of a lone number with a point, such as the
// travel that answers as JSON say: a point parts no thousands there.
var pointIsDecimal = regexp.MustCompile(`^(\s*\d+\.\d{3})(\D*)$`)

// momentOf is the one moment that is asked about, metres of travel; negative: the
// whole pull.
func momentOf(at string, w *words.Words) (float64, error) {
	if at == "" {
		return -1, nil
	}
	m, err := quantity.ParseLength(pointIsDecimal.ReplaceAllString(at, "${1}0$2"), w.System())
	if err != nil || m < 0 {
		return 0, wrongUse(noTravel.At("", at))
	}
	return float64(m), nil
}

// answerFor answers for the whole pull of a rig, or for one moment of it.
func answerFor(p *plan.Plan, rig plan.ID, moment float64, w *words.Words) answer {
	a := answer{plan: p, rig: rig}
	if moment >= 0 {
		a.plan = travel.At(p, rig, moment)
		a.a = solver.Assess(a.plan, rig)
	} else if pull, err := travel.Assess(context.Background(), p, rig, nil); err == nil {
		a.a, a.pull = pull.Assessment, pull
	}
	a.name, a.names = w.Rig(p, rig), w.Naming(a.a, w.Names(p, rig))
	return a
}

// explainPart adds the sum of a part, given by its id or its name, to the
// answers that have it.
func explainPart(p *plan.Plan, answers []answer, wanted string, w *words.Words) error {
	found := false
	var there []string
	for i := range answers {
		ans := &answers[i]
		id, all := partID(ans, wanted, w)
		for _, name := range all {
			if !slices.Contains(there, name) {
				there = append(there, name)
			}
		}
		if id == "" {
			continue
		}
		derivation, err := solver.Explain(ans.where(id), ans.rig, id)
		if err != nil {
			continue
		}
		ans.derivation, ans.why, found = derivation, id, true
	}
	switch {
	case found:
		return nil
	case len(there) == 0:
		return wrongUse(nothingRigged.At("", wanted))
	}
	return wrongUse(noPart.At("", wanted, strings.Join(there, "; ")))
}

// where is the plan as it is where a part is worst.
func (ans *answer) where(part string) *plan.Plan {
	if p, ok := ans.a.Part(part); ok && ans.pull != nil {
		return travel.At(ans.plan, ans.rig, p.AtM)
	}
	return ans.plan
}

// partID is the id of the part that is meant, empty for none, and the names of
// all there are.
func partID(ans *answer, wanted string, w *words.Words) (id string, all []string) {
	if wanted == solver.ResistancePart {
		return wanted, nil
	}
	for i := range ans.a.Parts {
		p := &ans.a.Parts[i]
		name := w.PartName(p, ans.names)
		all = append(all, name+" ("+p.ID+")")
		if p.ID == wanted || id == "" && strings.EqualFold(quantity.PlainSpaces(name), wanted) {
			id = p.ID
		}
	}
	return id, all
}

// readIn is a plan that was read, and the texts its answer is told in.
func readIn(file string, in io.Reader, lang, units string) (*words.Words, *plan.Plan, error) {
	w, err := wordsIn(lang, units)
	if err != nil {
		return nil, nil, err
	}
	p, err := readPlan(file, in)
	return w, p, err
}

// wordsIn are the texts of a language, with figures in those units.
func wordsIn(lang, units string) (*words.Words, error) {
	sys, err := systemOf(units)
	if err != nil {
		return nil, err
	}
	if have := words.Languages(); !slices.Contains(have, lang) {
		return nil, wrongUse(noLanguage.At("", lang, refusal.Either(have)))
	}
	return words.New(lang, sys)
}

// systemOf is the choice of units that goes with a unit of force.
func systemOf(units string) (quantity.System, error) {
	for _, sys := range []quantity.System{quantity.Metric, quantity.KgfMetric, quantity.Imperial} {
		if strings.EqualFold(sys.Force().String(), units) {
			return sys, nil
		}
	}
	return 0, wrongUse(noUnits.At("", units))
}
