package doubt

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// tally is what came of the trials of one kind: by each set what facts leave of them and
// how likely they are before any fact, and how many were drawn.
type tally struct {
	over, prior [Sets]float64
	drawn       float64
}

// kind is the tally of a kind of trials.
func (s *Sample) kind(is, weight Of) tally {
	return tally{over: s.totals(Both(is, weight)), prior: s.totals(is), drawn: s.trials(is)}
}

// tallied is a candidate with its tally.
type tallied struct {
	Candidate
	tally
}

// tallies are the parts that may fail first in each of their states, and that none does,
// the likeliest first, by what a weight leaves of them. A trial is of one: all are counted
// in one go.
func (s *Sample) tallies(weight Of) []tallied {
	all, cells := s.cells()
	over, prior := make([]float64, len(all)), make([]float64, len(all))
	for k := range s.strata {
		c := &s.strata[k]
		per := len(c.trials) / Sets
		for set := range Sets {
			fill(over, 0)
			fill(prior, 0)
			for i := set * per; i < (set+1)*per; i++ {
				t := &c.trials[i]
				at := s.cell(cells, t)
				if all[at].drawn++; t.weight > 0 {
					over[at] += t.weight * weight(t)
					prior[at] += t.weight
				}
			}
			for i := range all {
				all[i].over[set] += c.prior * over[i] / float64(per)
				all[i].prior[set] += c.prior * prior[i] / float64(per)
			}
		}
	}
	under := s.totals(weight)
	for i := range all {
		c := &all[i]
		c.Prior, c.Posterior = Estimate{Value: mean(c.prior[:]), Error: spread(&c.prior)}, quotient(&c.over, &under)
	}
	slices.SortFunc(all, func(a, b tallied) int {
		return cmp.Or(cmp.Compare(b.Posterior.Value, a.Posterior.Value), cmp.Compare(a.Part, b.Part), cmp.Compare(b2f(a.Below), b2f(b.Below)), cmp.Compare(a.Way, b.Way), cmp.Compare(b2f(a.Jerk), b2f(b.Jerk)))
	})
	return all
}

// cells are the candidates in the order of the parts: first none, then of each part, from
// where from says on, sound, jerked if the line may have been, and each way of being weak.
func (s *Sample) cells() (all []tallied, from []int) {
	add := func(c Candidate) { all = append(all, tallied{Candidate: c}) }
	add(Candidate{})
	for i := range s.Parts {
		part := &s.Parts[i]
		if from = append(from, len(all)); part.Yields {
			continue
		}
		add(Candidate{Part: part.ID})
		if s.jerks() {
			add(Candidate{Part: part.ID, Jerk: true})
		}
		for _, w := range part.Weak {
			add(Candidate{Part: part.ID, Below: true, Way: w.ID})
		}
		if part.PriorBelow > 0 && len(part.Weak) == 0 {
			add(Candidate{Part: part.ID, Below: true})
		}
	}
	return all, from
}

// cell is of which of the cells a trial is.
func (s *Sample) cell(from []int, t *Trial) int {
	switch {
	case !t.Fails():
		return 0
	case t.Below>>t.First&1 == 1:
		return from[t.First] + 1 + int(b2f(s.jerks())) + max(0, t.Way-1)
	case t.Below>>jerk&1 == 1 && !t.Calm:
		return from[t.First] + 1
	}
	return from[t.First]
}

// candidates are those of the tallies.
func (s *Sample) candidates(weight Of) (all []Candidate) {
	for _, t := range s.tallies(weight) {
		all = append(all, t.Candidate)
	}
	return all
}

// ratio is how many times as likely the trials of one tally make the facts as those of
// another.
func (a *tally) ratio(b *tally) (Ratio, error) {
	va, vb := mean(a.over[:])/mean(a.prior[:]), mean(b.over[:])/mean(b.prior[:])
	switch {
	case math.IsNaN(va) || math.IsNaN(vb) || va == 0 && vb == 0:
		return Ratio{}, fmt.Errorf("%w: no trial agrees", ErrIncident)
	case vb == 0:
		v := va * b.drawn / 3 // 0 of n: below 3/n with a sureness of 95 %
		return Ratio{Value: v, Low: v, High: math.Inf(1), Bound: 1}, nil
	case va == 0:
		v := 3 / a.drawn / vb
		return Ratio{Value: v, High: v, Bound: -1}, nil
	}
	prior := mean(b.prior[:]) / mean(a.prior[:])
	e := jackknife(&a.over, &b.over, func(a, b float64) float64 { return math.Log(a / b * prior) })
	low, high := e.Interval()
	return Ratio{Value: math.Exp(e.Value), Low: math.Exp(low), High: math.Exp(high)}, nil
}
