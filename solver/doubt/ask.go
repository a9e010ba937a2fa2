package doubt

import (
	"fmt"
	"math"
	"slices"
)

// Of is a value or a weight of a trial.
type Of func(t *Trial) float64

// One is the weight of a trial before any fact.
func One(*Trial) float64 { return 1 }

// Weight is what all facts say of a trial: the product of the trust of each that holds
// and of 1 - trust of each that does not.
func (s *Sample) Weight() Of { return s.weigh(-1) }

// Without is what all facts but one say of the candidates.
func (s *Sample) Without(fact int) []Candidate { return s.candidates(s.weigh(fact)) }

// Agrees is 1 for trials that agree outright with all facts, however far they are
// trusted.
func (s *Sample) Agrees() Of { return agreeing(1<<len(s.facts) - 1) }

// agreeing is 1 for trials that agree with these facts.
func agreeing(facts uint64) Of {
	return func(t *Trial) float64 { return b2f(t.agree&facts == facts) }
}

// First is 1 for trials in which a part fails first.
func (s *Sample) First(id string) Of {
	k := s.part(id)
	return func(t *Trial) float64 { return b2f(t.First == k) }
}

// Later is 1 for trials in which a part would fail first in a later pull that rises
// without end.
func (s *Sample) Later(id string) Of {
	k := s.part(id)
	return func(t *Trial) float64 { return b2f(t.Later == k) }
}

// Below is 1 for trials in which a part is below strength.
func (s *Sample) Below(id string) Of {
	k := s.part(id)
	return func(t *Trial) float64 { return float64(t.Below >> k & 1) }
}

// Is is 1 for trials in which a candidate is what happened.
func (s *Sample) Is(c Candidate) Of {
	if c.Part == "" {
		return func(t *Trial) float64 { return b2f(!t.Fails()) }
	}
	k, way := s.part(c.Part), 0
	if c.Way != "" {
		way = 1 + slices.IndexFunc(s.Parts[k].Weak, func(w Weak) bool { return w.ID == c.Way })
	}
	return func(t *Trial) float64 {
		below, jerked := t.Below>>k&1 == 1, t.Below>>jerk&1 == 1 && !t.Calm
		return b2f(t.First == k && below == c.Below && (way == 0 || t.Way == way) && (below || !s.jerks() || jerked == c.Jerk))
	}
}

// jerks reports whether the line may have been jerked.
func (s *Sample) jerks() bool { return s.Jerked > 0 }

// part is the index of a part, 63 and so none of a trial's if there is none.
func (s *Sample) part(id string) int {
	for i := range s.Parts {
		if s.Parts[i].ID == id {
			return i
		}
	}
	return 63
}

// Both is the product of some.
func Both(all ...Of) Of {
	return func(t *Trial) float64 {
		x := 1.0
		for _, f := range all {
			if x *= f(t); x == 0 {
				return 0
			}
		}
		return x
	}
}

// Not is 1 less f.
func Not(f Of) Of { return func(t *Trial) float64 { return 1 - f(t) } }

// totals is the expectation of v by each set. Who gave up has none, and must not tell it.
func (s *Sample) totals(v Of) (sets [Sets]float64) {
	if s.given() {
		return sets
	}
	for k := range s.strata {
		c := &s.strata[k]
		per := len(c.trials) / Sets
		for set := range sets {
			sum := 0.0
			for i := set * per; i < (set+1)*per; i++ {
				if t := &c.trials[i]; t.weight > 0 {
					sum += t.weight * v(t)
				}
			}
			sets[set] += c.prior * sum / float64(per)
		}
	}
	return sets
}

// Mean is the mean of a value over all trials.
func (s *Sample) Mean(v Of) Estimate {
	sets := s.totals(v)
	return Estimate{Value: mean(sets[:]), Error: spread(&sets)}
}

// Given is the mean of a value over trials that weigh each so much; NaN if none does.
func (s *Sample) Given(v, weight Of) Estimate {
	over, under := s.totals(Both(weight, v)), s.totals(weight)
	return quotient(&over, &under)
}

func quotient(over, under *[Sets]float64) Estimate {
	return jackknife(over, under, func(a, b float64) float64 { return a / b })
}

// jackknife is a figure made of two totals, its error from leaving out one set after
// another.
func jackknife(over, under *[Sets]float64, of func(a, b float64) float64) Estimate {
	a, b := 0.0, 0.0
	for k := range over {
		a, b = a+over[k], b+under[k]
	}
	var left [Sets]float64
	for k := range left {
		left[k] = of(a-over[k], b-under[k])
	}
	return Estimate{Value: of(a, b), Error: math.Sqrt(variance(left[:]) * (Sets - 1))}
}

// Bands are the line tensions, at failure or at the end, that these shares of the
// weight lie below, N.
func (s *Sample) Bands(weight Of, shares ...float64) []float64 {
	return s.bandsOf(func(t *Trial) float64 { return t.TensionN }, weight, shares...)
}

// bandsOf are what these shares of the weight of a value lie below.
func (s *Sample) bandsOf(value, weight Of, shares ...float64) []float64 {
	var x, w []float64
	for k := range s.strata {
		c := &s.strata[k]
		for i := range c.trials {
			t := &c.trials[i]
			if one := c.prior / float64(len(c.trials)) * t.weight * weight(t); one > 0 {
				x, w = append(x, value(t)), append(w, one)
			}
		}
	}
	return bands(x, w, shares...)
}

// effective is the effective number of trials that a weight leaves, and its share of
// all if trials were drawn by prior alone.
func (s *Sample) effective(weight Of) (trials, share float64) {
	sum, squares, drawn := 0.0, 0.0, 0.0
	for k := range s.strata {
		c := &s.strata[k]
		one := c.prior / float64(len(c.trials))
		for i := range c.trials {
			if t := &c.trials[i]; t.weight > 0 {
				w := weight(t)
				x := one * t.weight * w
				sum, squares, drawn = sum+x, squares+x*w, drawn+x*x
			}
		}
	}
	if sum == 0 {
		return 0, 0
	}
	return sum * sum / drawn, sum * sum / squares
}

// Ratio is how many times as likely one hypothesis makes the facts as another, with
// the interval that holds it with a sureness of 95 % as far as sampling goes. It is not
// how likely either is.
type Ratio struct {
	Value, Low, High float64
	Bound            int // 1: no more is known than that it exceeds Value; -1: that it is below; 0: neither
}

// RatioBelow is that of a part being below strength to it being sound.
func (s *Sample) RatioBelow(id string) (Ratio, error) {
	k := s.part(id)
	if k == 63 || !(s.Parts[k].PriorBelow > 0) {
		return Ratio{}, fmt.Errorf("%w: part %q has one state", ErrIncident, id)
	}
	below := s.Below(id)
	return s.Ratio(below, Not(below))
}

// Ratio is how many times as likely the trials of one kind make the facts as those of
// another.
func (s *Sample) Ratio(first, second Of) (Ratio, error) {
	weight := s.Weight()
	a, b := s.kind(first, weight), s.kind(second, weight)
	return a.ratio(&b)
}

// trials is how many were drawn of a kind.
func (s *Sample) trials(kind Of) float64 {
	n := 0.0
	for i := range s.strata {
		for k := range s.strata[i].trials {
			n += kind(&s.strata[i].trials[k])
		}
	}
	return n
}
