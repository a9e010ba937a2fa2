package doubt

import (
	"fmt"
	"math/bits"
	"slices"
	"sync"
	"sync/atomic"
)

// How an incident is sampled.
const (
	fullStates  = 4    // parts that may be below strength of which every combination is drawn
	leastPerSet = 256  // points of a set for a combination, however rare
	slowFewer   = 8    // by how many times fewer they are, and those that must agree, where the rig itself is asked each time (ours)
	slowRound   = 4    // by how many times fewer a round of those is that are sought (ours)
	lookEvery   = 64   // trials between two looks at whether all is given up; it is looked before each where the rig itself is asked
	smallShare  = 0.01 // of all that agrees, below which a state alone is not looked for in pairs
)

// stratum is one combination of states and the trials drawn of it.
type stratum struct {
	below  uint64
	prior  float64
	trials []Trial // those of the sets follow one another
}

// Sample is an incident drawn so often that it can be asked.
type Sample struct {
	*setup
	strata   []stratum
	drawn    []stratum // the same before any was refined
	amiss    uint64    // bit i: a figure of change i is none in some trial
	LeftOut  float64   // prior of the combinations of states that were not drawn
	Points   int       // trials drawn
	Refined  int       // combinations that had to be refined
	outright Of
}

// Take draws an incident: per × 16 points, a power of two of them to a set, are shared
// out over the combinations of states, half by prior and half alike. Combinations in
// which too few agree with the observed facts are refined. The same incident and seed
// give the same bits, for any number of workers.
func Take(in *Incident, per int, seed uint64, workers int) (*Sample, error) {
	s, err := ready(in)
	if err != nil {
		return nil, err
	}
	out := &Sample{setup: s}
	out.outright = agreeing(s.hard)
	out.strata, out.LeftOut = s.combinations()
	s.each(len(out.strata), workers, func(t *trier, k int) {
		c := &out.strata[k]
		t.fill(c, s.share(c, len(out.strata), per), s.seedOf(c, seed))
	})
	out.drawn = slices.Clone(out.strata)
	for _, again := range []func() []int{out.starved, out.pairsOf} {
		if out.given() {
			break
		}
		those := again()
		out.Refined += len(those)
		_, held := out.held()
		least := negligible * max(held, noChance)
		s.each(len(those), workers, func(t *trier, k int) {
			c := &out.strata[those[k]]
			t.refine(c, s.seedOf(c, seed), !out.drawnAll(), least/c.prior)
		})
	}
	if out.given() {
		return nil, out.Context.Err()
	}
	for i := range out.strata {
		c := &out.strata[i]
		for k := range c.trials {
			if out.amiss |= c.trials[k].amiss; c.trials[k].broken {
				return nil, fmt.Errorf("%w: a figure of a pull is none", ErrIncident)
			}
		}
		out.Points += len(c.trials)
	}
	return out, nil
}

// each does something for every one of n, each worker with a trier of its own.
func (s *setup) each(n, workers int, do func(t *trier, k int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range max(1, min(workers, n)) {
		all.Go(func() {
			for t := s.trier(); ; {
				k := int(next.Add(1)) - 1
				if k >= n || s.given() {
					return
				}
				do(t, k)
			}
		})
	}
	all.Wait()
}

// seedOf is the seed of a combination.
func (s *setup) seedOf(c *stratum, seed uint64) uint64 { return mix(seed + mix(s.stateSeed(c.below))) }

// starved are the combinations in which too few trials agree with what was observed.
// Where not every combination is drawn they are those of at most one state that is not
// as it should be: what two do together is sought in when it is known which matter.
func (s *Sample) starved() (again []int) {
	for i := range s.strata {
		if s.hard != 0 && (s.drawnAll() || bits.OnesCount64(s.strata[i].below) <= 1) && s.starves(&s.strata[i]) {
			again = append(again, i)
		}
	}
	return again
}

// starves reports whether too few trials of a combination agree with what was observed,
// of one in which any may.
func (s *Sample) starves(c *stratum) bool {
	for i := range s.facts {
		if f := &s.facts[i]; s.hard>>i&1 == 1 && f.Kind == Ended && !f.mayEnd(s.Parts, c.below) {
			return false
		}
	}
	return ess(c.trials, s.outright) < s.refineBelow()
}

// pairsOf are, where not every combination is drawn, the pairs in which too few agree
// and of which one state alone holds some of all that agrees.
func (s *Sample) pairsOf() (again []int) {
	if s.hard == 0 || s.drawnAll() {
		return nil
	}
	held, total := s.held()
	matters := uint64(0)
	for i := range s.strata {
		if b := s.strata[i].below; bits.OnesCount64(b) == 1 && held[i] >= smallShare*total {
			matters |= b
		}
	}
	for i := range s.strata {
		c := &s.strata[i]
		if bits.OnesCount64(c.below) == 2 && c.below&matters != 0 && s.starves(c) {
			again = append(again, i)
		}
	}
	return again
}

// held is how likely it is that what was observed comes of each combination, and of any.
func (s *Sample) held() (held []float64, total float64) {
	held = make([]float64, len(s.strata))
	for i := range s.strata {
		c := &s.strata[i]
		for k := range c.trials {
			held[i] += c.trials[k].weight * s.outright(&c.trials[k])
		}
		held[i] *= c.prior / float64(len(c.trials))
		total += held[i]
	}
	return held, total
}

// drawnAll reports whether every combination of states is drawn, or as few of them.
func (s *Sample) drawnAll() bool { return len(s.strata) <= 1<<fullStates }

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// share is how many points of each set a combination is given.
func (s *setup) share(c *stratum, strata, per int) int {
	want := float64(per) * (c.prior + 1/float64(strata)) / 2
	n := leastPerSet / s.fewer
	for float64(n) < want {
		n *= 2
	}
	return n
}

// stateSeed hangs on which parts are below strength by their ids, not by their order.
func (s *setup) stateSeed(below uint64) (h uint64) {
	for i := range s.Parts {
		if below>>i&1 == 1 {
			one := uint64(14695981039346656037)
			for _, b := range []byte(s.Parts[i].ID) {
				one = (one ^ uint64(b)) * 1099511628211
			}
			h += mix(one)
		}
	}
	if below>>jerk&1 == 1 {
		h += mix(jerk)
	}
	return h
}

// combinations are those of the states of the parts that may be below strength: all of
// them if few may, else none, one and two below, and the prior of the rest.
func (s *setup) combinations() (all []stratum, left float64) {
	var may []int
	for _, i := range s.byID {
		if s.Parts[i].PriorBelow > 0 {
			may = append(may, i)
		}
	}
	if s.Jerked > 0 {
		may = append(may, jerk)
	}
	add := func(below uint64) {
		prior := 1.0
		for _, i := range may {
			if below>>i&1 == 1 {
				prior *= s.prior(i)
			} else {
				prior *= 1 - s.prior(i)
			}
		}
		all = append(all, stratum{below: below, prior: prior})
	}
	if len(may) <= fullStates {
		for k := range 1 << len(may) {
			below := uint64(0)
			for j, i := range may {
				below |= uint64(k>>j&1) << i
			}
			add(below)
		}
		return all, 0
	}
	add(0)
	for j, a := range may {
		add(1 << a)
		for _, b := range may[:j] {
			add(1<<a | 1<<b)
		}
	}
	left = 1
	for i := range all {
		left -= all[i].prior
	}
	return all, left
}

// prior is how likely a state is before any fact: that a part is below strength, or a
// jerk.
func (s *setup) prior(state int) float64 {
	if state == jerk {
		return s.Jerked
	}
	return s.Parts[state].PriorBelow
}

// looks reports whether it is time to look at whether all is given up.
func (s *setup) looks(i int) bool { return s.Slow || i%lookEvery == 0 }

// fill draws the first trials of a combination, so many of each set.
func (t *trier) fill(c *stratum, perSet int, seed uint64) {
	c.trials = make([]Trial, 0, Sets*perSet)
	u := make([]float64, perSet*t.row)
	for set := range Sets {
		points(u, t.row, 0, set, seed)
		for i := range perSet {
			if t.looks(i) && t.given() {
				return
			}
			c.trials = append(c.trials, t.try(c.below, u[i*t.row:(i+1)*t.row], Dist.At))
		}
	}
}

// ess is the effective number of trials under a weight: (Σw)²/Σw².
func ess(trials []Trial, weight Of) float64 {
	sum, squares := 0.0, 0.0
	for i := range trials {
		w := trials[i].weight * weight(&trials[i])
		sum, squares = sum+w, squares+w*w
	}
	if sum == 0 {
		return 0
	}
	return sum * sum / squares
}
