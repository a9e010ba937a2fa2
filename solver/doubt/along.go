package doubt

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
)

// Along is what came of the same trials over the whole pull, of the first points of each
// set alone. The casualty goes along its way as the figures of the plan stand. A part that
// passes in one moment has passed; one that is not known in some moment, and passes in no
// other, is not known.
type Along struct {
	Trials int
	ToM    float64     // how far the pull was followed
	Parts  []PartAlong // of all moments, in the order in which they are first loaded
	Fails  Count       // trials in which a part fails before the pull ends or stalls
	FailsM [3]float64  // 5, 50 and 95 % points of where the first does; NaN: none does
}

// PartAlong is what came of one part.
type PartAlong struct {
	Part part.Part // of the figures as they stand, in the first moment that has it
	Passes
	First  Count      // it is the first to fail
	FirstM [3]float64 // 5, 50 and 95 % points of where, along the way; NaN: it never is
}

// Columns of the table of a whole pull: where the first part fails, then those of each,
// of [Passes] and whether it is the first.
const (
	alongFirst   = passesColumns
	alongColumns = alongFirst + 1
)

// alongShare is which share of the points of a set are followed over the pull.
const alongShare = 8

// along draws the pull of a request; [ErrIncident]: with the parts that are loaded only
// farther on, too many figures scatter.
func (s *planSample) along(q Request) (*Along, error) {
	out := &Along{ToM: q.Along[len(q.Along)-1].AtM}
	w := *s
	w.parts = slices.Clone(s.parts)
	for _, at := range q.Along {
		m := s.moment(at.Plan)
		if m.q == nil || q.given() || m.q.Ask(&m.f) != nil {
			continue // each trial finds it refused too
		}
		w.meet(m.f.Parts)
	}
	if w.draw(len(s.parts)); w.dims > MaxDims {
		return nil, ErrIncident
	}
	s.assumed = w.assumed
	q.Per = max(1, q.Per/alongShare)
	t := Draw(w.dims, 1+len(w.parts)*alongColumns, q, func() func(u, y []float64) {
		f := follower{planSample: &w, pull: q.Along, x: make([]float64, len(w.all)), was: make([]float64, len(w.parts)), now: make([]float64, len(w.parts)), row: make([]float64, partColumns)}
		for _, at := range q.Along {
			f.moments = append(f.moments, w.moment(at.Plan))
		}
		return f.try
	})
	out.Trials = Sets * t.Per
	for i := range w.parts {
		c := t.Columns[1+i*alongColumns:]
		out.Parts = append(out.Parts, PartAlong{Part: w.parts[i], Passes: t.passes(c), First: t.count(c[alongFirst]), FirstM: whereOf(t.Columns[0], c[alongFirst])})
	}
	fails := make([]float64, len(t.Columns[0])) // NaN: not known, +Inf: none does
	for i, m := range t.Columns[0] {
		if fails[i] = b2f(!math.IsInf(m, 1)); math.IsNaN(m) {
			fails[i] = m
		}
	}
	out.Fails, out.FailsM = t.count(fails), whereOf(t.Columns[0], fails)
	return out, nil
}

// MayGive reports whether a part of a kind gives, so that it may be the first to fail: a
// winch stalls, and a vehicle slides or tips.
func MayGive(k part.Kind) bool {
	return k != part.KindWinch && k != part.KindSlide && k != part.KindTip
}

// whereOf are the 5, 50 and 95 % points of where along the way the first part fails, m, of
// the trials that a column of 0, 1 and NaN has as 1; NaN: of none.
func whereOf(atM, of []float64) (b [3]float64) {
	var where []float64
	for i, m := range atM {
		if of[i] > 0 {
			where = append(where, m)
		}
	}
	copy(b[:], bands(where, nil, 0.05, 0.5, 0.95))
	return b
}

// follower follows trials along the pull for one goroutine.
type follower struct {
	*planSample
	pull     []WayPoint
	moments  []*drawnMoment
	x        []float64 // the figures of a trial
	was, now []float64 // load over strength of each part in the moment before, and in this
	row      []float64
}

// try is one trial. Between two moments loads go in a straight line: the first place where
// one reaches the strength of its part is where that fails. The pull ends where it stalls.
func (f *follower) try(u, y []float64) {
	fill(y, 0)
	for i := range f.all {
		f.x[i] = f.all[i].Dist.At(u[i])
	}
	y[0] = math.Inf(1)
	ended := false // the first has failed, or it stalled, or what is first is not known
	for k, m := range f.moments {
		a := m.ask(f.x)
		if a == nil {
			f.unknown(y, &ended)
			continue
		}
		stalls := f.look(a, u, y)
		if !ended {
			ended = f.first(k, y) || stalls
		}
		f.was, f.now = f.now, f.was
	}
}

// unknown is a moment of which nothing is known.
func (f *follower) unknown(y []float64, ended *bool) {
	if !*ended {
		f.lost(y)
		*ended = true
	}
	for i := range f.parts {
		for c := range alongFirst {
			if at := &y[1+i*alongColumns+c]; *at == 0 {
				*at = math.NaN()
			}
		}
	}
}

// lost is a trial in which it is not known which part is the first.
func (f *follower) lost(y []float64) {
	y[0] = math.NaN()
	for i := range f.parts {
		y[1+i*alongColumns+alongFirst] = math.NaN()
	}
}

// look adds a moment to what came of each part, and notes how far each is loaded; it
// reports whether the winch stalls there.
func (f *follower) look(a *solver.Figures, u, y []float64) (stalls bool) {
	scale, known := f.scale(a, u)
	fill(f.now, 0) // what is not there is not loaded
	for i := range a.Parts {
		p := &a.Parts[i]
		k := f.at(p.ID, i)
		if k < 0 {
			continue
		}
		fill(f.row, math.NaN())
		load, strength := f.load(p, scale, known), f.strengths[k].of(p, u)
		tryPart(p, load, strength, f.row)
		for c, x := range f.row[colPasses:] {
			if at := &y[1+k*alongColumns+c]; x > 0 || *at == 0 && math.IsNaN(x) {
				*at = x
			}
		}
		if p.Stall.Known {
			load = min(load, float64(p.Stall.Force))
		}
		if MayGive(p.Kind) && !(load <= 0) {
			f.now[k] = load / strength // not known of what fails at a load that nobody knows
		}
	}
	return a.Move.Known && a.Stall.Known && float64(a.Move.Tension)*scale > float64(a.Stall.Tension)
}

// first notes which part fails first on the way to the k-th moment, if one does, and
// reports whether that is settled.
func (f *follower) first(k int, y []float64) bool {
	if anyNaN(f.now) {
		f.lost(y)
		return true
	}
	which, share, most := -1, math.Inf(1), 1.0
	for i, now := range f.now {
		switch {
		case now < 1:
		case k == 0: // it is loaded from nothing: what is nearest to failing is the first
			if now >= most {
				which, share, most = i, 0, now
			}
		default:
			if at := (1 - f.was[i]) / (now - f.was[i]); at < share {
				which, share = i, at
			}
		}
	}
	if which < 0 {
		return false
	}
	y[0] = f.pull[k].AtM
	if k > 0 {
		from := f.pull[k-1].AtM
		y[0] = from + share*(f.pull[k].AtM-from)
	}
	y[1+which*alongColumns+alongFirst] = 1
	return true
}
