package travel

import (
	"cmp"
	"context"
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Answer is what the whole pull asks of a rig: [solver.Worst] of its moments.
type Answer struct {
	*solver.Assessment
	Moments []solver.Moment // in the order of the travel; the first is as drawn
	LongM   float64         // how far the casualty has to go; 0: nobody says
	EndM    float64         // how far the pull was followed
	Stop    string          // id of the finding that ends it before LongM; empty: none
	Events  []Happening     // by place
	Rerigs  []Rerig         // where to stop and rig anew, by place
}

const (
	apartM    = 0.25  // between two moments at most (ours: a line swings by some degrees)
	mostSteps = 240   // a long pull is followed in longer steps (ours)
	stopM     = 1e-4  // how well the place where a pull stops is found
	sharpM    = 0.002 // nearer to a place that was looked at a part's worst is not sought
	kneeM     = 1e-6  // how far before a step of what resists the pull is looked at
)

// Assess follows the pull of a rig from where it is drawn to the end of the
// casualty's way out, or to where it cannot go on. A rig without a known way, or
// one that is refused as drawn, has the one moment. done, if it is not nil, is told
// the share followed so far. The error is the context's.
func Assess(ctx context.Context, p *plan.Plan, rig plan.ID, done func(share float64)) (*Answer, error) {
	f := &follower{ctx: ctx, mover: newMover(p, rig), done: done, out: &Answer{}}
	if err := f.follow(); err != nil {
		return nil, err
	}
	return f.out, f.asDrawn()
}

// Drawn is p with the rig shown where it is drawn.
func Drawn(p *plan.Plan, rig plan.ID) *plan.Plan { return shown(p, rig, 0) }

// At is p with the casualty s metres along its way, drawn there.
func At(p *plan.Plan, rig plan.ID, s float64) *plan.Plan { return newMover(p, rig).at(s) }

// shown is p with the rig shown at some travel.
func shown(p *plan.Plan, rig plan.ID, s quantity.Length) *plan.Plan {
	i := p.RigIndex(rig)
	if i < 0 || p.Rigs[i].Travel == s {
		return p
	}
	r := p.Rigs[i]
	r.Travel = s
	return plan.WithRig(p, i, r)
}

// follower is one call's work.
type follower struct {
	*mover
	ctx  context.Context
	done func(float64)
	out  *Answer
	ends []part.Finding // why it cannot go on, of the place where it cannot
	lost bool           // how it is dragged on is not known
	off  askew
}

func (f *follower) look(s float64) solver.Moment {
	return solver.Moment{AtM: s, Assessment: solver.Assess(f.at(s), f.rig)}
}

func (f *follower) follow() error {
	o := f.out
	first := f.look(0)
	o.Moments = []solver.Moment{first}
	places := f.places(first.Assessment)
	if err := f.walk(places); err != nil {
		return err
	}
	if err := f.happen(); err != nil {
		return err
	}
	if err := f.sharpen(); err != nil {
		return err
	}
	o.Assessment = solver.Worst(o.Moments)
	if err := f.stays(); err != nil {
		return err
	}
	f.conclude(first.Casualty)
	return nil
}

// places are where the pull is looked at, after the first; none if it cannot be
// followed.
func (f *follower) places(first *solver.Assessment) []float64 {
	v := solver.CasualtyOf(f.p, f.rig)
	if v == nil || first.Status != part.Within {
		return nil
	}
	w, known := v.WayLine()
	_, long := plan.Range(&v.Head, "casualty.way_length_m", float64(v.Stuck.WayLength))
	if !known || !(long > 0) {
		return nil
	}
	f.out.LongM = long
	cuts := append([]float64{long}, w.Knots()...)
	if f.drag != nil {
		cuts = []float64{kneeM, long}
	}
	for _, g := range v.Stuck.Stages {
		cuts = append(cuts, float64(g.After)-kneeM, float64(g.After))
	}
	if f.drag == nil {
		cuts = append(cuts, swingsInto(f.p, v, w, long)...)
	}
	n := min(mostSteps, int(math.Ceil(long/apartM)))
	for i := 1; i < n; i++ {
		cuts = append(cuts, long*float64(i)/float64(n))
	}
	slices.Sort(cuts)
	cuts = slices.DeleteFunc(cuts, func(s float64) bool { return !(s > 0) || s > long })
	return f.reached(slices.Compact(cuts))
}

// walk looks at the places in turn until the pull stops.
func (f *follower) walk(places []float64) error {
	o := f.out
	stop := math.Inf(1)
	if f.drag == nil { // it does not go the way that is drawn
		stop, _ = o.Moments[0].Meets()
	}
	for i, s := range places {
		if err := f.ctx.Err(); err != nil {
			return err
		}
		if f.done != nil {
			f.done(float64(i) / float64(len(places)))
		}
		if s >= stop {
			if last := o.Moments[len(o.Moments)-1].AtM; stop > last+stopM {
				m := f.look(stop)
				if f.ending(&m) != nil {
					f.halt(last, m)
					return nil
				}
				o.Moments = append(o.Moments, m)
			}
			o.EndM, o.Stop = stop, "casualty-meets"
			return nil
		}
		m := f.look(s)
		if f.ending(&m) != nil {
			f.halt(o.Moments[len(o.Moments)-1].AtM, m)
			return nil
		}
		o.Moments, o.EndM = append(o.Moments, m), s
		meets, _ := m.Meets()
		stop = min(stop, meets)
	}
	if f.lost {
		f.ends = f.losing()
		o.Stop = f.ends[0].ID
	}
	return nil
}

// halt ends the pull between the last place that was computed and one that is
// refused: at the last that is not.
func (f *follower) halt(good float64, bad solver.Moment) {
	o, last := f.out, good
	var m solver.Moment
	for bad.AtM-good > stopM {
		mid := f.look((good + bad.AtM) / 2)
		if f.ending(&mid) == nil {
			good, m = mid.AtM, mid
		} else {
			bad = mid
		}
	}
	f.ends = f.ending(&bad)
	o.EndM, o.Stop = good, f.ends[0].ID
	if good > last {
		o.Moments = append(o.Moments, m)
	}
}

// sharpen adds moments where the shares of parts are greatest between two that were
// looked at: at the top of the parabola through the three about each part's
// greatest. It misses by the third power of the step.
func (f *follower) sharpen() error {
	o := f.out
	grid := o.Moments
	var tops []float64
	for i := range grid[0].Parts {
		if s, between := top(grid, grid[0].Parts[i].ID); between && !slices.ContainsFunc(tops, func(t float64) bool { return math.Abs(t-s) < sharpM }) {
			tops = append(tops, s)
		}
	}
	return f.lookAt(tops)
}

// lookAt adds moments at more places, in any order.
func (f *follower) lookAt(places []float64) error {
	o := f.out
	for _, s := range places {
		if err := f.ctx.Err(); err != nil {
			return err
		}
		if m := f.look(s); m.Status == part.Within {
			o.Moments = append(o.Moments[:len(o.Moments):len(o.Moments)], m)
		}
	}
	slices.SortStableFunc(o.Moments, func(a, b solver.Moment) int { return cmp.Compare(a.AtM, b.AtM) })
	return nil
}

// top is where a part's share is greatest if that is between two moments.
func top(grid []solver.Moment, id string) (s float64, between bool) {
	k, most := 0, 0.0
	for i := range grid {
		if u := share(grid[i], id); u > most {
			k, most = i, u
		}
	}
	if k == 0 || k == len(grid)-1 {
		return 0, false
	}
	a, b, c := grid[k-1], grid[k], grid[k+1]
	left, right := (b.AtM - a.AtM), (c.AtM - b.AtM)
	rise, fall := (most-share(a, id))/left, (share(c, id)-most)/right
	if !(rise > fall) {
		return 0, false
	}
	s = (a.AtM+b.AtM)/2 + (left+right)/2*rise/(rise-fall)
	return s, math.Abs(s-b.AtM) >= sharpM && s > a.AtM && s < c.AtM
}

// share is a part's share of its limit at a moment; 0: it has none.
func share(m solver.Moment, id string) float64 {
	if p, ok := m.Part(id); ok {
		return p.Most()
	}
	return 0
}

// conclude says how far the pull was followed if that is not to its end, and what
// is missing to follow it.
func (f *follower) conclude(casualty plan.ID) {
	o := f.out
	all := append(slices.Clone(o.Findings), f.ends...)
	switch v := solver.CasualtyOf(f.p, f.rig); {
	case o.Stop != "":
		all = append(all, part.Finding{ID: "pull-stops", Level: part.Warning, Things: []plan.ID{casualty}, Travel: o.EndM, Values: []part.Value{
			part.Length("end", o.EndM), part.Length("long", o.LongM)}})
		o.Complete = false
	case v == nil || o.Status != part.Within || o.LongM > 0:
	default:
		member := "casualty.way_length_m"
		if _, known := v.WayOut(); !known && v.Stuck.Way == plan.WayFree {
			member = "casualty.way_bearing_deg"
		}
		part.NotDecided(&all, "pull-stops", v.ID, part.Lack{Thing: v.ID, Member: member})
		o.Complete = false
	}
	o.Rerigs = f.rerigs()
	all = f.wayFindings(all)
	o.Findings = o.Sorted(all)
}
