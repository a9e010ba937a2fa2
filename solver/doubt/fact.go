package doubt

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// FactKind is what a fact says.
type FactKind int

// What a fact may say of the pull.
const (
	FailedFirst    FactKind = iota // Part failed, and before any other
	NotFirst                       // Part was not the first to fail
	Failed                         // some part failed
	HeldAll                        // no part failed
	TensionBetween                 // a part failed at a line tension from LowN to HighN
	Stalled                        // no part failed and the winch stalled from LowN to HighN
	Ended                          // one of Among failed first, sound or in one of Ways
	NotEnded                       // none of Among failed first in one of Ways
	Yielded                        // the load of Part reached Share of its strength
	NotYielded                     // it did not
	OnLayer                        // the line came off Layer of the drum
	HeldBefore                     // an earlier pull of LowN, or up to stall if that is 0, was held by all parts
	FoundAt                        // what a failure of one of Thrown frees first struck the ground DistanceM away
	CameTo                         // of a pull that is followed: a part failed, or the pull was over, from LowM to HighM along the way
)

// How much a fact is trusted: the chance that it is right whichever way the truth lies.
// At one half it weighs nothing.
const (
	Observed = 1.0
	Told     = 0.8
	Assumed  = 0.5
)

// Fact is something known, told or assumed of the pull.
type Fact struct {
	Kind        FactKind
	Part        string
	Among       []string
	Ways        []string // ids of [Weak], [Sound]; empty: any
	Share       float64
	Layer       int
	LowN, HighN float64
	LowM, HighM float64
	Thrown      []string // parts whose failure frees the thing that was thrown
	DistanceM   float64  // along the ground to its first mark
	DropM       float64  // by which that lies below where it started
	MassKg      float64
	Trust       float64 // from 0.5 to 1
	Source      string  // what one source told counts as one fact, with the weakest trust among it; empty: of its own
}

// Sound is the way of a part that is not below strength, for [Fact].Ways.
const Sound = "sound"

// readyFact is a fact with its parts as indices.
type readyFact struct {
	*Fact
	part      int
	thrown    []int
	among     []int
	ways      []uint64 // of each of among: bit 0: sound; bit i: the i-th way of being weak
	speedMPS2 float64  // square of the least speed that reaches the mark
}

const gravity = 9.80665 // m/s², standard

// LeastSpeed is the least speed in m/s at which a thing reaches a first mark so far
// away and so far down, without drag: v² = g(√(R²+h²) − h). It says nothing of a place
// where a thing came to rest.
func LeastSpeed(distanceM, dropM float64) float64 {
	return math.Sqrt(gravity * (math.Hypot(distanceM, dropM) - dropM))
}

// readFacts finds the parts that facts are about, and which are observed.
func (s *setup) readFacts() error {
	index := func(id string) int { return slices.IndexFunc(s.Parts, func(p Part) bool { return p.ID == id }) }
	for i := range s.Incident.Facts {
		f := readyFact{Fact: &s.Incident.Facts[i], part: -1}
		bad := !(f.Trust >= Assumed && f.Trust <= Observed)
		switch f.Kind {
		case FailedFirst, NotFirst:
			f.part = index(f.Part)
			bad = bad || f.part < 0
		case TensionBetween, Stalled:
			bad = bad || !(f.LowN <= f.HighN)
		case Yielded, NotYielded:
			f.part = index(f.Part)
			bad = bad || f.part < 0 || !(f.Share > 0)
		case Ended, NotEnded:
			bad = !f.readAmong(s, index) || bad
		case FoundAt:
			bad = bad || !(f.DistanceM >= 0 && f.MassKg > 0) || len(f.Thrown) == 0
			for _, id := range f.Thrown {
				k := index(id)
				f.thrown, bad = append(f.thrown, k), bad || k < 0
			}
			v := LeastSpeed(f.DistanceM, f.DropM)
			f.speedMPS2 = v * v
		case CameTo:
			bad = bad || !(f.LowM <= f.HighM) || len(s.WayM) == 0
		}
		if bad {
			return fmt.Errorf("%w: fact %d", ErrIncident, i+1)
		}
		s.facts = append(s.facts, f)
	}
	for i, f := range s.facts {
		if f.Trust == Observed {
			s.hard |= 1 << i
		}
	}
	return nil
}

// miss is by how much a pull misses what the fact says, over a size of its own; 0 or
// less: it agrees.
func (f *readyFact) miss(p *Pull) float64 {
	least, fails := p.leastN(), p.fails()
	switch f.Kind {
	case FailedFirst:
		if fails && p.first == f.part {
			return 0
		}
		return max(over(p.worstN[f.part], min(p.other(f.part), p.EndN)), tiny)
	case NotFirst:
		if fails && p.first == f.part {
			return max(over(min(p.other(f.part), p.EndN), least), tiny)
		}
		return 0
	case Failed:
		return p.missFailure()
	case HeldAll:
		if fails {
			return max(over(p.EndN, least), tiny)
		}
		return 0
	case TensionBetween:
		return max(p.missFailure(), f.outside(least))
	case Stalled:
		miss := max(f.outside(p.StallN), over(p.StallN, p.EndN)) // it came to that
		if fails {
			miss = max(miss, over(p.EndN, least), tiny)
		}
		return miss
	case Ended, NotEnded:
		return f.missEnd(p)
	case Yielded:
		return over(f.Share*p.worstN[f.part], min(least, p.EndN))
	case NotYielded:
		if t := f.Share * p.worstN[f.part]; !(t > min(least, p.EndN)) {
			return max(over(min(least, p.EndN), t), tiny)
		}
		return 0
	case OnLayer:
		return math.Abs(p.Layer - float64(f.Layer))
	case HeldBefore:
		held := f.LowN
		if held == 0 {
			if held = p.BeforeN; held == 0 {
				held = p.StallN
			}
		}
		return over(held, p.leastBefore())
	case FoundAt:
		return f.missThrown(p)
	case CameTo:
		return max(0, f.LowM-p.cameM, p.cameM-f.HighM)
	}
	return math.Inf(1)
}

// missThrown is miss of a thing that was found: something must have failed that frees
// it, with energy enough. A bound and no more: it may have had more.
func (f *readyFact) missThrown(p *Pull) float64 {
	miss, t := p.missFailure(), p.leastN()
	if !slices.Contains(f.thrown, p.first) {
		t = math.Inf(1)
		for _, k := range f.thrown {
			t = min(t, p.worstN[k])
		}
		miss = max(over(t, p.leastN()), tiny)
	}
	speed2 := 2 * p.flying * p.JPerN2 * t * t / f.MassKg
	if speed2 < f.speedMPS2 {
		miss = max(miss, 1-math.Sqrt(speed2/f.speedMPS2), tiny)
	}
	return miss
}

// tiny is a miss that is none to speak of, but one.
const tiny = 1e-300

// fails reports whether a part fails.
func (p *Pull) fails() bool {
	least := p.leastN()
	return least <= p.EndN && !math.IsInf(least, 1)
}

// missFailure is by how much no part fails.
func (p *Pull) missFailure() float64 {
	if p.fails() {
		return 0
	}
	return max(over(p.leastN(), p.EndN), tiny)
}

// over is by how much a exceeds b, as a share of b; never 0 if it does.
func over(a, b float64) float64 {
	if !(a > b) {
		return 0
	}
	return max(min(a/b-1, math.MaxFloat64), tiny)
}

// outside is how far a tension lies outside the fact's, over their distance.
func (f *readyFact) outside(t float64) float64 {
	d := max(f.LowN-t, t-f.HighN)
	if !(d > 0) {
		return 0
	}
	return max(d/max(f.HighN-f.LowN, f.HighN*1e-3), tiny)
}

// leastN is the least tension at which a part fails; +Inf if none can.
func (p *Pull) leastN() float64 {
	if p.first < 0 {
		return math.Inf(1)
	}
	return p.worstN[p.first]
}

// other is the least tension at which another part fails.
func (p *Pull) other(part int) float64 {
	t := math.Inf(1)
	for i, w := range p.worstN {
		if i != part && p.yields>>i&1 == 0 {
			t = min(t, w)
		}
	}
	return t
}

// weigh is what facts say of trials that agree with those of agree: the product of the
// trust of each that holds and of 1 - trust of each that does not. What one source told
// is one fact; what was observed is so whoever tells something else too. without leaves a fact out; -1: none.
func (s *setup) weigh(without int) Of {
	type said struct {
		facts uint64
		trust float64
	}
	var all []said
	at := map[string]int{}
	for i, f := range s.facts {
		if i == without {
			continue
		}
		k, ok := at[f.Source]
		if observed := f.Trust == Observed; observed || f.Source == "" || !ok {
			k = len(all)
			all = append(all, said{trust: f.Trust})
			if !observed {
				at[f.Source] = k
			}
		}
		all[k].facts |= 1 << i
		all[k].trust = min(all[k].trust, f.Trust)
	}
	slices.SortStableFunc(all, func(a, b said) int { return cmp.Compare(a.trust, b.trust) })
	return func(t *Trial) float64 { // the same bits for facts in another order
		w := 1.0
		for _, f := range all {
			if t.agree&f.facts == f.facts {
				w *= f.trust
			}
		}
		for _, f := range all {
			if t.agree&f.facts != f.facts {
				w *= 1 - f.trust
			}
		}
		return w
	}
}

// readAmong finds the parts and ways that the fact is about; false: there is none of
// that name.
func (f *readyFact) readAmong(s *setup, index func(id string) int) bool {
	for _, id := range f.Among {
		k := index(id)
		if k < 0 {
			return false
		}
		mask := uint64(0)
		for i, w := range s.Parts[k].Weak {
			if slices.Contains(f.Ways, w.ID) {
				mask |= 2 << i
			}
		}
		if slices.Contains(f.Ways, Sound) {
			mask |= 1
		}
		if len(f.Ways) == 0 {
			mask = math.MaxUint64
		}
		f.among, f.ways = append(f.among, k), append(f.ways, mask)
	}
	return len(f.among) > 0
}

// missEnd is miss of what is said of the part that failed first and its state.
func (f *readyFact) missEnd(p *Pull) float64 {
	k := slices.Index(f.among, p.first)
	is := k >= 0 && p.fails() && f.ways[k]>>p.state(p.first)&1 == 1
	if f.Kind == NotEnded {
		if !is {
			return 0
		}
		return max(over(min(p.other(p.first), p.EndN), p.leastN()), tiny)
	}
	if is {
		return 0
	}
	miss := math.Inf(1)
	for j, part := range f.among {
		if f.ways[j]>>p.state(part)&1 == 1 {
			miss = min(miss, max(over(p.worstN[part], min(p.other(part), p.EndN)), tiny))
		}
	}
	return miss
}

// mayEnd reports whether, with these parts below strength, one that the fact is about may
// be in a state that it names.
func (f *readyFact) mayEnd(parts []Part, below uint64) bool {
	for j, k := range f.among {
		states := uint64(1)
		if below>>k&1 == 1 {
			states = 1<<(max(1, len(parts[k].Weak))+1) - 2 // from the first way of being weak on
		}
		if f.ways[j]&states != 0 {
			return true
		}
	}
	return false
}

// leastBefore is leastN as it was before an earlier pull took of the strengths.
func (p *Pull) leastBefore() float64 {
	if p.heldN > 0 {
		return p.heldN
	}
	least := math.Inf(1)
	for i, w := range p.worstN {
		if p.yields>>i&1 == 0 {
			least = min(least, w/p.Left[i])
		}
	}
	return least
}

// state is 0 for a part that is sound, else 1 and on for the way it is weak.
func (p *Pull) state(part int) int {
	if p.below>>part&1 == 0 {
		return 0
	}
	return p.ways[part] + 1
}
