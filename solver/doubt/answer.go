package doubt

import (
	"math"
)

// Verdict is whether the facts and the assumptions fit well enough for an answer.
type Verdict int

// The verdicts, from the best down.
const (
	Answered   Verdict = iota
	FewAgree           // few trials agree: an answer, with the fact that fits worst
	RareFacts          // the facts fit about one trial in ten thousand or fewer: it rests on the tails assumed
	TooFew             // too few agree: no answer
	outOf      = 20000 // trials that a count of agreeing ones is said of
	enoughOut  = 100
	enoughESS  = 200
	rareChance = 1e-4
	noChance   = 1e-6
)

// Answer is what facts say of an incident. With [TooFew] nothing is said but why.
type Answer struct {
	Verdict    Verdict
	Outright   Estimate // chance of a trial that agrees with every observed fact
	OutOf20000 float64  // the same as a count
	ESS        float64  // effective number of those trials
	Worst      int      // index of the observed fact that fits the others worst; -1: none is observed
	LeftOut    float64  // prior of combinations of states that were not drawn

	Weight     Estimate    // mean weight of the facts
	Effective  float64     // effective share of trials drawn by prior
	Candidates []Candidate // the likeliest first
	TensionN   Estimate    // mean line tension at failure, or at the end
	BandN      [3]float64  // the 5, 50 and 95 % points of it
	Fits       []Fit       // fact by fact
	Changes    []Changed   // by the changes of the incident

	tallies []tallied // of the candidates
}

// Candidate is a part that may have failed first, in one of its states.
type Candidate struct {
	Part      string // empty: none failed
	Below     bool
	Way       string   // id of the way it is below strength; empty: it has but one, or is sound
	Jerk      bool     // sound, and the line was jerked
	Prior     Estimate // chance before any fact
	Posterior Estimate // chance given the facts and all assumptions
}

// Fit is how a fact fits the others.
type Fit struct {
	OfAll       Estimate // chance of it before any fact
	GivenOthers Estimate // chance of it in trials that agree outright with all others; NaN: none does
}

// Changed is what one thing done otherwise would have changed.
type Changed struct {
	Before, After, Less Estimate // chance that a part fails, before any fact, and how much it is lowered
	StillFails          Estimate // of the pulls that agree with the facts, the share that fails with the change too
}

// Answer is what the facts say.
func (s *Sample) Answer() Answer {
	a := Answer{Outright: s.Mean(s.outright), Worst: s.worst(), LeftOut: max(0, s.LeftOut)}
	a.OutOf20000 = a.Outright.Value * outOf
	a.ESS, _ = s.effective(s.outright)
	a.Verdict = verdict(a.Outright, a.OutOf20000, a.ESS)
	if a.Verdict == TooFew {
		return a
	}
	w := s.Weight()
	a.Weight = s.Mean(w)
	_, a.Effective = s.effective(w)
	a.tallies = s.tallies(w)
	for i := range a.tallies {
		a.Candidates = append(a.Candidates, a.tallies[i].Candidate)
	}
	tension := func(t *Trial) float64 { return t.TensionN }
	a.TensionN = s.Given(tension, w)
	copy(a.BandN[:], s.Bands(w, 0.05, 0.5, 0.95))
	all := uint64(1)<<len(s.facts) - 1
	for i := range s.facts {
		holds := func(t *Trial) float64 { return float64(t.agree >> i & 1) }
		a.Fits = append(a.Fits, Fit{s.Mean(holds), s.Given(holds, agreeing(all&^(1<<i)))})
	}
	for i := range s.Incident.Changes {
		a.Changes = append(a.Changes, s.changes(i, w))
	}
	return a
}

// changes are what a change of the incident does, by what a weight leaves.
func (s *Sample) changes(i int, weight Of) Changed {
	fails, changed := func(t *Trial) float64 { return b2f(t.Fails()) }, func(t *Trial) float64 { return float64(t.changed >> i & 1) }
	all := *s
	if s.Slow { // of what was sought it is known of those alone that agree
		all.strata = s.drawn
	}
	return Changed{Before: all.Mean(fails), After: all.Mean(changed),
		Less:       all.Mean(func(t *Trial) float64 { return fails(t) - changed(t) }),
		StillFails: s.Given(changed, weight)}
}

// verdict hangs on how likely the observed facts are, not on the effective number of
// trials alone: refining makes any contradiction look well sampled.
func verdict(outright Estimate, out, ess float64) Verdict {
	switch {
	case ess < enoughESS || outright.Value < noChance:
		return TooFew
	case outright.Value < rareChance:
		return RareFacts
	case out < enoughOut:
		return FewAgree
	}
	return Answered
}

// worst is the observed fact with the least chance given the other observed ones. Where
// nothing agrees with the others it is not known of one; of none known, it is the one with
// the least chance by itself.
func (s *Sample) worst() int {
	least := func(chance func(i int) float64) (worst int) {
		worst = -1
		lowest := math.Inf(1)
		for i := range s.facts {
			if s.hard>>i&1 == 0 {
				continue
			}
			if c := chance(i); c < lowest {
				worst, lowest = i, c
			}
		}
		return worst
	}
	worst := least(func(i int) float64 {
		return s.Given(agreeing(1<<i), agreeing(s.hard&^(1<<i))).Value
	})
	if worst < 0 {
		worst = least(func(i int) float64 { return s.Mean(agreeing(1 << i)).Value })
	}
	return worst
}
