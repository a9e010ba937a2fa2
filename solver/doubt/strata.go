package doubt

import (
	"fmt"
	"sync"
	"sync/atomic"
)

// How an incident is sampled.
const (
	fullStates  = 4   // parts that may be below strength of which every combination is drawn
	leastPerSet = 256 // points of a set for a combination, however rare
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
	LeftOut  float64 // prior of the combinations of states that were not drawn
	Points   int     // trials drawn
	Refined  int     // combinations that had to be refined
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
	var next, refined atomic.Int64
	var broken atomic.Bool
	var all sync.WaitGroup
	for range max(1, workers) {
		all.Go(func() {
			t := s.trier()
			for {
				k := int(next.Add(1)) - 1
				if k >= len(out.strata) {
					return
				}
				c := &out.strata[k]
				points := s.share(c, len(out.strata), per)
				own := mix(seed + mix(s.stateSeed(c.below)))
				t.fill(c, points, own)
				if s.hard != 0 && ess(c.trials, out.outright) < refineBelow {
					refined.Add(1)
					t.refine(c, own)
				}
				for i := range c.trials {
					if c.trials[i].broken {
						broken.Store(true)
					}
				}
			}
		})
	}
	all.Wait()
	if broken.Load() {
		return nil, fmt.Errorf("%w: a figure of a pull is none", ErrIncident)
	}
	for i := range out.strata {
		out.Points += len(out.strata[i].trials)
	}
	out.Refined = int(refined.Load())
	return out, nil
}

func b2f(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// share is how many points of each set a combination is given.
func (s *setup) share(c *stratum, strata, per int) int {
	want := float64(per) * (c.prior + 1/float64(strata)) / 2
	n := leastPerSet
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

// fill draws the first trials of a combination, so many of each set.
func (t *trier) fill(c *stratum, perSet int, seed uint64) {
	c.trials = make([]Trial, 0, Sets*perSet)
	u := make([]float64, perSet*t.dims)
	for set := range Sets {
		points(u, t.dims, 0, set, seed)
		for i := range perSet {
			c.trials = append(c.trials, t.try(c.below, u[i*t.dims:(i+1)*t.dims], Dist.At))
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
