package main

import (
	"errors"
	"io"
	"runtime"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/remedy"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

const reconstructLong = `Reconstruct asks what may have happened in a pull that went wrong. Its plan says how
the rig was, and the rig's "incident" what was seen and told: lettered pins, each
observed, told or assumed, with how far it is trusted; and what was held likely
before. See kedge help doubt for figures with ranges.

The rig is drawn many times with all that is not known exactly: figures typed with a
range, and those that nobody knows, after the handbook's rows, listed with how well
they are founded. Each trial weighs as much as it agrees with the facts. The answer is
how much better the facts fit one candidate than another, with its error; what was
held before; and, last, the chance given these assumptions. "None of these" is always a
candidate. A rut that was measured puts the casualty where it was.

What would have lowered the chance is asked of the same trials with one change: every
remedy of a finding of the rig, and each --change, such as S1.length_m=4 (a thing, its
member as in the file, a figure in the member's unit).

The same plan, seed and version give the same bytes. --seal writes a copy that cannot be
changed unseen, see kedge help verify; a change makes a new copy with --after and --why.

kedge help json tells the members of --json.

Exit status:
0  answered
2  wrong use, or what was asked for is not there: a rig, evidence, a figure to change
3  a file was refused
4  answered with a CAUTION, or too few samples agree for an answer`

// reconstructOptions are the flags of reconstruct.
type reconstructOptions struct {
	rig, units, lang string
	json             bool
	changes          []string
	seed             uint64
	seal             sealOptions
}

func newReconstruct(out io.Writer, in io.Reader, status *int) *cobra.Command {
	var o reconstructOptions
	c := &cobra.Command{
		Use:   "reconstruct PLAN",
		Short: "What may have happened in a pull that went wrong",
		Long:  reconstructLong,
		Args:  onePlan(1),
		RunE:  telling(out, status, func(file string) (string, int, error) { return reconstruct(file, in, o) }),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "the rig of that `NAME` or id (default: the first with evidence)")
	c.Flags().StringArrayVar(&o.changes, "change", nil, "try one change, as `THING.MEMBER=FIGURE`; may be given again")
	c.Flags().Uint64Var(&o.seed, "seed", doubtSeed, "the `NUMBER` that the trials are drawn from")
	c.Flags().StringVar(&o.seal.file, "seal", "", "write a sealed copy to that `FILE.sealed`: plan, figures, pictures, hashes")
	c.Flags().StringArrayVar(&o.seal.pictures, "picture", nil, "seal that picture `FILE` too; may be given again")
	c.Flags().StringVar(&o.seal.after, "after", "", "the sealed copy `FILE` that this one follows")
	c.Flags().StringVar(&o.seal.why, "why", "", "`WHY` something was changed since")
	toldIn(c, &o.units, &o.lang)
	c.Flags().BoolVar(&o.json, "json", false, "answer as JSON, in SI units")
	return c
}

// reconstruct is the whole verb: the text to print and the exit status.
func reconstruct(file string, in io.Reader, o reconstructOptions) (text string, status int, err error) {
	w, p, err := readIn(file, in, o.lang, o.units)
	if err != nil {
		return "", 0, err
	}
	rig, err := rigWithEvidence(p, o.rig)
	if err != nil {
		return "", 0, err
	}
	a, err := rebuild(w, p, rig, o.seed, o.changes)
	if err != nil {
		return "", 0, err
	}
	status = a.status()
	if o.seal.file != "" {
		if err := a.seal(p, in, o.seal, status); err != nil {
			return "", 0, err
		}
	}
	if o.json {
		text, err = a.json(status)
		return text, status, err
	}
	return a.text(), status, nil
}

// rigWithEvidence is the rig that is meant: the named one, else the first of which
// something was seen.
func rigWithEvidence(p *plan.Plan, name string) (plan.ID, error) {
	rigs, err := chosenRigs(p, name)
	if err != nil {
		return "", err
	}
	for _, id := range rigs {
		if r, ok := p.Rig(id); ok && r.Incident != nil && len(r.Incident.Pins) > 0 {
			return id, nil
		}
	}
	return "", wrongUse(noEvidence.At(""))
}

// rebuilt is what was found, to be written; found nil: the rig is not computed.
type rebuilt struct {
	p     *plan.Plan // the casualty where it was
	rig   plan.ID
	atM   float64 // along its way
	w     *words.Words
	names words.Names
	found *doubt.Reconstruction
	why   error
}

// rebuild asks what may have happened with a rig.
func rebuild(w *words.Words, p *plan.Plan, rig plan.ID, seed uint64, changes []string) (*rebuilt, error) {
	a := &rebuilt{p: p, rig: rig, w: w}
	r, _ := p.Rig(rig)
	if m, ok := doubt.RutM(r.Incident); ok && m > 0 {
		a.p, a.atM = travel.At(p, rig, m), m
	}
	answer := solver.Assess(a.p, rig)
	a.names = w.Naming(answer, w.Names(p, rig))
	q := doubt.Request{Per: doubtPerSet, Seed: seed, Workers: runtime.NumCPU()}
	for _, text := range changes {
		c, err := changeOf(a.p, rig, text)
		if err != nil {
			return nil, err
		}
		q.Changes = append(q.Changes, c)
	}
	q.Changes = append(q.Changes, remedied(w, a.p, rig, answer)...)
	a.found, a.why = doubt.Reconstruct(a.p, rig, q)
	return a, nil
}

// changeOf reads THING.MEMBER=FIGURE.
func changeOf(p *plan.Plan, rig plan.ID, text string) (doubt.Change, error) {
	what, figure, ok := strings.Cut(text, "=")
	thing, member, dotted := strings.Cut(what, ".")
	x, err := strconv.ParseFloat(figure, 64)
	if !ok || !dotted || err != nil {
		return doubt.Change{}, wrongUse(badChange.At("", text))
	}
	q, ok := doubt.With(p, rig, plan.ID(thing), member, x)
	if !ok {
		return doubt.Change{}, wrongUse(badChange.At("", text))
	}
	return doubt.Change{Name: text, Plan: q}, nil
}

// mostRemedies is how many remedies are tried.
const mostRemedies = 6

// remedied are the plans that remedies of the rig's findings make of it.
func remedied(w *words.Words, p *plan.Plan, rig plan.ID, a *solver.Assessment) (all []doubt.Change) {
	kit, err := facts.StarterGear()
	if err != nil {
		return nil
	}
	seen := map[string]bool{}
	in := remedy.Given{Plan: p, Rig: rig, Kit: kit, Words: w, Answer: a}
	for i := range a.Findings {
		for _, r := range a.Findings[i].Remedies {
			done, err := remedy.Do(in, r)
			if err != nil || done.Plan == nil || seen[done.Name] || len(all) == mostRemedies {
				continue
			}
			seen[done.Name] = true
			all = append(all, doubt.Change{Name: done.Name, Plan: done.Plan})
		}
	}
	return all
}

// status is whether there is an answer without a caution.
func (a *rebuilt) status() int {
	if a.found == nil || len(a.cautions()) > 0 {
		return statusUnsettled
	}
	return statusDone
}

// cautions are the sentences that stand above the answer.
func (a *rebuilt) cautions() (all []string) {
	w, f := a.w, a.found
	say := func(id string, values ...part.Value) { all = append(all, w.Label(id, values...)) }
	worst := textValue("pin", w.Label("doubt-not-known"))
	for _, u := range f.Pins {
		if u.Why == "" && u.Fact == f.Answer.Worst {
			worst = textValue("pin", w.Pin(u.Pin, a.names))
		}
	}
	switch f.Answer.Verdict {
	case doubt.TooFew:
		say("recon-too-few", worst)
	case doubt.RareFacts:
		say("recon-rare", countValue("n", max(1, 1/f.Answer.Outright.Value)), worst)
	case doubt.FewAgree:
		say("recon-few", countValue("n", f.Answer.OutOf20000), worst)
	}
	for _, c := range f.Contradict {
		say("recon-contradict", textValue("a", w.Pin(f.Pins[c[0]].Pin, a.names)), textValue("b", w.Pin(f.Pins[c[1]].Pin, a.names)))
	}
	var without []string
	for i := range f.Without {
		without = append(without, w.PartName(&f.Without[i], a.names))
	}
	if len(without) > 0 {
		say("recon-without", textValue("list", strings.Join(without, ", ")))
	}
	if len(f.NotDrawn) > 0 {
		var names []string
		for _, d := range f.NotDrawn {
			names = append(names, w.Member(d.Thing, d.Member, a.names))
		}
		say("doubt-not-drawn", textValue("list", strings.Join(names, ", ")))
	}
	if f.Refused > 0 {
		say("recon-refused", textValue("chance", w.Frequency(f.Refused)))
	}
	if !a.weighs() {
		say("recon-idle")
	}
	if f.Answer.LeftOut > 0.01 {
		say("recon-left-out", textValue("chance", w.Frequency(f.Answer.LeftOut)))
	}
	return all
}

// weighs reports whether a piece of evidence weighs anything.
func (a *rebuilt) weighs() bool {
	for _, u := range a.found.Pins {
		if u.Why == "" && u.Trust > plan.TrustAssumed {
			return true
		}
	}
	return false
}

// text is the answer in words.
func (a *rebuilt) text() string {
	var b strings.Builder
	w := a.w
	rig := string(a.rig)
	if i := a.p.RigIndex(a.rig); i >= 0 {
		rig = w.RigName(a.p, i)
	}
	if a.found == nil {
		id := "recon-not-computed"
		if errors.Is(a.why, doubt.ErrTwoLines) {
			id = "recon-two-lines"
		}
		b.WriteString(w.Level(part.Caution) + ": " + w.Label(id, textValue("rig", rig)) + "\n")
		return quantity.PlainSpaces(b.String())
	}
	f := a.found
	b.WriteString(w.Label("recon-of", textValue("rig", rig), countValue("count", float64(f.Trials)), textValue("seed", strconv.FormatUint(f.Seed, 10)),
		lengthValue("s", quantity.Length(a.atM))) + "\n")
	for _, c := range a.cautions() {
		b.WriteString(w.Level(part.Caution) + ": " + c + "\n")
	}
	b.WriteString(w.Label("recon-as-drawn") + "\n")
	a.pins(&b)
	b.WriteString(w.Label("recon-agree", countValue("n", f.Answer.OutOf20000), countValue("ess", f.Answer.ESS)) + "\n")
	if f.Answer.Verdict != doubt.TooFew {
		a.candidates(&b)
	}
	a.changes(&b)
	a.assumed(&b)
	b.WriteString("\n" + w.Label("recon-limits") + "\n" + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}
