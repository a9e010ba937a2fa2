package main

import (
	"math"
	"strings"

	"kedge/solver/doubt"
	"kedge/solver/quantity"
)

// pins writes what was seen and told, and what became of it.
func (a *rebuilt) pins(b *strings.Builder) {
	w, f := a.w, a.found
	title(b, w.Label("recon-facts"))
	for i := range f.Pins {
		u := &f.Pins[i]
		b.WriteString("  " + w.Pin(u.Pin, a.names) + "\n")
		switch {
		case u.Why != "":
			b.WriteString("     " + w.Label(u.Why) + "\n")
		case u.Fact < len(f.Answer.Fits):
			others := f.Answer.Fits[u.Fact].GivenOthers.Value
			if math.IsNaN(others) {
				b.WriteString("     " + w.Label("pin-fits-none") + "\n")
				continue
			}
			b.WriteString("     " + w.Label("pin-fits", textValue("others", w.Frequency(others))) + "\n")
		}
	}
}

// leastShown is the chance given the facts below which a candidate is not listed.
const leastShown = 0.005

// candidates writes what may have failed, what that hangs on, and the line tension.
func (a *rebuilt) candidates(b *strings.Builder) {
	w, f := a.w, a.found
	title(b, w.Label("recon-candidates"))
	var t table
	t.add(w.Label("column-candidate"), w.Label("column-ratio"), w.Label("column-prior"), w.Label("column-posterior"))
	for i := range f.Answer.Candidates {
		c := &f.Answer.Candidates[i]
		if c.Posterior.Value < leastShown && i > 0 {
			continue
		}
		ratio := unknownCell
		if f.Ratios[i].Known {
			ratio = w.Likelihood(f.Ratios[i].Ratio)
		}
		t.add(w.Candidate(c, a.names), ratio, w.Frequency(c.Prior.Value), a.within(c.Posterior))
	}
	t.write(b, "  ")
	b.WriteString("  " + w.Label("recon-none", textValue("none", w.Frequency(f.NonePrior))) + "\n")
	b.WriteString("  " + w.Label("recon-none-jerk", textValue("jerk", w.Frequency(f.JerkPrior))) + "\n")
	force := func(k int) string { return w.Load(quantity.Force(f.Answer.BandN[k])) }
	b.WriteString("  " + w.Label("recon-tension", textValue("low", force(0)), textValue("mid", force(1)), textValue("high", force(2))) + "\n")
	title(b, w.Label("recon-sensitive"))
	for _, s := range f.Sensitive {
		pin := ""
		if s.Pin >= 0 {
			pin = string(f.Pins[s.Pin].Pin.ID)
		}
		b.WriteString("  " + w.Label("sensitive-"+s.What, textValue("pin", pin)) + ": " + w.Frequency(s.Given.Value) + "\n")
	}
	if !math.IsNaN(f.HalfPrior) {
		b.WriteString("  " + w.Label("recon-half", textValue("part", w.Part(f.Answer.Candidates[0].Part, a.names)), textValue("chance", w.Frequency(f.HalfPrior))) + "\n")
	}
}

// within is a chance with the interval that holds it as far as sampling goes.
func (a *rebuilt) within(e doubt.Estimate) string {
	low, high := e.Interval()
	return a.w.Label("recon-within", textValue("x", a.w.Frequency(e.Value)), textValue("low", a.w.Frequency(max(0, low))), textValue("high", a.w.Frequency(min(1, high))))
}

// changes writes what would have lowered the chance.
func (a *rebuilt) changes(b *strings.Builder) {
	w, f := a.w, a.found
	title(b, w.Label("recon-changes"))
	if len(f.Changes) == 0 {
		b.WriteString("  " + w.Label("recon-no-changes") + "\n")
		return
	}
	var t table
	t.add(w.Label("column-change"), w.Label("column-before-after"), w.Label("column-still"))
	for i := range f.Changes {
		c := &f.Changes[i]
		if c.Err != nil {
			t.add(c.Name, w.Label("recon-change-failed", textValue("cause", w.Cause(c.Err))))
			continue
		}
		still := unknownCell
		if f.Answer.Verdict != doubt.TooFew {
			still = w.Frequency(c.StillFails.Value)
		}
		t.add(c.Name, w.Label("recon-from-to", textValue("before", w.Frequency(c.Before.Value)), textValue("after", w.Frequency(c.After.Value))), still)
	}
	t.write(b, "  ")
}

// assumed writes all that was drawn, and what was held likely before.
func (a *rebuilt) assumed(b *strings.Builder) {
	w, f := a.w, a.found
	title(b, w.Label("recon-assumed"))
	var t, priors table
	t.add(w.Label("column-assumed"), w.Label("column-scatter"), w.Label("column-founded"))
	typed := false
	for i := range f.Assumed {
		typed = typed || f.Assumed[i].Typed
		t.add(w.Assumption(&f.Assumed[i], a.names))
	}
	t.write(b, "  ")
	if !typed {
		b.WriteString("  " + w.Label("recon-no-other-doubt") + "\n")
	}
	title(b, w.Label("recon-priors"))
	for i := range f.Priors {
		priors.add(w.Prior(&f.Priors[i], a.names))
	}
	priors.write(b, "  ")
}
