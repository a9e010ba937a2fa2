package main

import (
	"context"
	"io"
	"runtime"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

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
		Use:  "reconstruct",
		Args: onePlan(1),
		RunE: telling(out, status, func(file string) (string, int, error) {
			ctx, stop := untilInterrupted()
			defer stop()
			return reconstruct(ctx, file, in, o)
		}),
	}
	c.Flags().StringVar(&o.rig, "rig", "", "the rig of that `NAME` or id (default: the first with evidence)")
	c.Flags().StringArrayVar(&o.changes, "change", nil, "")
	c.Flags().Uint64Var(&o.seed, "seed", report.Seed, "")
	c.Flags().StringVar(&o.seal.file, "seal", "", "write a sealed copy to that `FILE.sealed`: plan, figures, pictures, hashes")
	c.Flags().StringArrayVar(&o.seal.pictures, "picture", nil, "")
	c.Flags().StringVar(&o.seal.after, "after", "", "the sealed copy `FILE` that this one follows")
	c.Flags().StringVar(&o.seal.why, "why", "", "`WHY` something was changed since")
	toldIn(c, &o.units, &o.lang)
	c.Flags().BoolVar(&o.json, "json", false, "")
	return c
}

// reconstruct is the whole verb: the text to print and the exit status.
func reconstruct(ctx context.Context, file string, in io.Reader, o reconstructOptions) (text string, status int, err error) {
	if err := o.seal.fault(); err != nil {
		return "", 0, err
	}
	w, p, err := readIn(file, in, o.lang, o.units)
	if err != nil {
		return "", 0, err
	}
	rig, err := rigWithEvidence(p, o.rig)
	if err != nil {
		return "", 0, err
	}
	var changes []doubt.Change
	for _, text := range o.changes {
		c, err := changeOf(p, rig, text)
		if err != nil {
			return "", 0, err
		}
		changes = append(changes, c)
	}
	with, err := o.seal.read(in)
	if err != nil {
		return "", 0, err
	}
	found, err := report.New(w, p, rig, doubt.Request{Context: ctx, Per: report.PerSet, Seed: o.seed, Workers: runtime.NumCPU(), Changes: changes})
	if err != nil || ctx.Err() != nil {
		return "", 0, givenUp()
	}
	a := &rebuilt{found, w}
	if o.seal.file != "" {
		if err := a.seal(p, with, o.seal); err != nil {
			return "", 0, err
		}
	}
	if o.json {
		text, err = a.json()
		return text, a.Exit(), err
	}
	return a.text(), a.Exit(), nil
}

// rigWithEvidence is the rig that is meant: the named one, else the first of which
// something was seen.
func rigWithEvidence(p *plan.Plan, name string) (plan.ID, error) {
	rigs, err := chosenRigs(p, name)
	if err != nil {
		return "", err
	}
	for _, id := range rigs {
		if r, ok := p.Rig(id); ok && r.Incident.Seen() {
			return id, nil
		}
	}
	return "", wrongUse(noEvidence.At(""))
}

// changeOf reads THING.MEMBER=FIGURE; the ground is the thing ground.
func changeOf(p *plan.Plan, rig plan.ID, text string) (doubt.Change, error) {
	what, figure, ok := strings.Cut(text, "=")
	thing, member, dotted := strings.Cut(what, ".")
	x, err := strconv.ParseFloat(figure, 64)
	if !ok || !dotted || err != nil {
		return doubt.Change{}, wrongUse(badChange.At("", text))
	}
	q, ok := report.With(p, rig, plan.ID(thing), member, x)
	if !ok && thing == "ground" {
		q, ok = report.With(p, rig, "", member, x)
	}
	if !ok {
		return doubt.Change{}, wrongUse(badChange.At("", text))
	}
	return doubt.Change{Name: text, Plan: q}, nil
}

// rebuilt is what was found, to be written.
type rebuilt struct {
	*report.Report
	w *words.Words
}

// json is the answer as figures.
func (a *rebuilt) json() (string, error) { return asText(a.JSON()) }

// text is the answer in words.
func (a *rebuilt) text() string {
	var b strings.Builder
	w := a.w
	if a.Found == nil {
		writeCautions(&b, w, a.NoAnswer())
		return quantity.PlainSpaces(b.String())
	}
	b.WriteString(a.Head() + "\n")
	writeCautions(&b, w, a.Cautions()...)
	b.WriteString(a.How() + "\n")
	sections := []report.Section{a.Evidence()}
	if a.Answered() {
		sections = append(sections, a.Candidates(), a.Sensitivity())
	}
	writeSections(&b, indent, append(sections, a.Changes(), a.Assumptions(), a.Priors())...)
	b.WriteString("\n" + w.Label("recon-limits") + "\n" + handbook(w) + "\n")
	return quantity.PlainSpaces(b.String())
}
