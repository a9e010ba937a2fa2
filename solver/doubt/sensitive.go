package doubt

import (
	"cmp"
	"math"
	"slices"
)

// Sensitivity is the first candidate's chance, given the facts, under another assumption.
type Sensitivity struct {
	What  string // word id: "prior-times-3", "prior-over-3", "other-shape", "without-pin", "observed-99"
	Pin   int    // of "without-pin": index into Pins
	Given Estimate
}

// sensitive asks a sample how far its first candidate hangs on what is assumed, and other,
// nil if there is none, how far on the shape of what is below strength.
func (out *Reconstruction) sensitive(s, other *Sample) {
	w, top := s.Weight(), out.Answer.Candidates[0]
	is := s.Is(top)
	add := func(what string, pin int, given Estimate) {
		out.Sensitive = append(out.Sensitive, Sensitivity{what, pin, given})
	}
	out.HalfPrior = math.NaN()
	if k := s.part(top.Part); k < len(s.Parts) && s.Parts[k].PriorBelow > 0 {
		p := s.Parts[k].PriorBelow
		add("prior-times-3", -1, s.Given(is, Both(w, s.reprior(k, min(3*p, mostWeak)))))
		add("prior-over-3", -1, s.Given(is, Both(w, s.reprior(k, p/3))))
		out.HalfPrior = s.halfPrior(k, is)
	}
	if other != nil {
		add("other-shape", -1, other.Given(other.Is(top), other.Weight()))
	}
	for i, u := range out.Pins {
		if u.Why == "" {
			add("without-pin", i, s.Given(is, s.weigh(u.Fact)))
		}
	}
	add("observed-99", -1, s.Given(is, s.doubting(0.99)))
	slices.SortStableFunc(out.Sensitive, func(a, b Sensitivity) int { return cmp.Or(cmp.Compare(a.What, b.What), a.Pin-b.Pin) })
}

// reprior is by how much a trial weighs more or less if a part is below strength with
// another chance.
func (s *Sample) reprior(part int, chance float64) Of {
	p := s.Parts[part].PriorBelow
	return func(t *Trial) float64 {
		if t.Below>>part&1 == 1 {
			return chance / p
		}
		return (1 - chance) / (1 - p)
	}
}

// halfPrior is the chance of a part being below strength, before any fact, with which
// what is asked for would be as likely as not; NaN: there is none.
func (s *Sample) halfPrior(part int, is Of) float64 {
	w, below := s.Weight(), s.Below(s.Parts[part].ID)
	lead := Both(w, func(t *Trial) float64 { return 2*is(t) - 1 }) // for it less against it
	weak, sound := s.Given(lead, below).Value, s.Given(lead, Not(below)).Value
	p := sound / (sound - weak) // where p·weak + (1-p)·sound is 0
	if !(p > 0 && p < 1) {
		return math.NaN()
	}
	return p
}

// doubting is the weight with nothing trusted further than most.
func (s *Sample) doubting(most float64) Of {
	q := *s.setup
	q.facts = slices.Clone(s.facts)
	for i := range q.facts {
		f := *q.facts[i].Fact
		f.Trust = min(f.Trust, most)
		q.facts[i].Fact = &f
	}
	return q.weigh(-1)
}

// otherShape is the incident with what is below strength anywhere between its ends alike,
// where it was likeliest somewhere between; nil: none was.
func (in *Incident) otherShape() *Incident {
	q, other := *in, false
	q.Changes, q.More, q.Spare = nil, nil, nil
	even := func(d Dist) Dist {
		if d.kind == triangular && d.Scatters() {
			other = true
			return Dist{uniform, d.a, 0, d.c}
		}
		return d
	}
	q.Parts = slices.Clone(in.Parts)
	for i := range q.Parts {
		p := &q.Parts[i]
		p.Below, p.Weak = even(p.Below), slices.Clone(p.Weak)
		for k := range p.Weak {
			p.Weak[k].Strength = even(p.Weak[k].Strength)
		}
	}
	if !other {
		return nil
	}
	return &q
}
