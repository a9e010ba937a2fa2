package travel

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sort"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Options of a pull. The zero value is the careful one.
type Options struct {
	StepM float64 // between the places of its grid; 0: 0.25 m
	// LoadsAlone leaves out what needs [solver.Assess] at every place of the grid:
	// what lines bear on, what the casualty meets, findings. Then no part is said to
	// be within its limit.
	LoadsAlone bool
	Progress   func(doneM, endM float64) // told now and then; nil: nobody
}

// mostSteps is how many steps a grid has at most.
const mostSteps = 4000

// Pull follows a rig along the casualty's whole way out. It gives an error if the
// plan has no such rig or ctx ends; everything else that keeps a pull from its end is
// in its Stop, and moment 0 is answered all the same.
func Pull(ctx context.Context, p *plan.Plan, rig plan.ID, o Options) (*Haul, error) {
	if p.RigIndex(rig) < 0 {
		return nil, fmt.Errorf("travel: there is no rig %q", rig)
	}
	if o.Progress == nil {
		o.Progress = func(float64, float64) {}
	}
	h := &Haul{Rig: rig, Start: solver.Assess(p, rig)}
	h.Findings = h.Start.Findings
	if h.Stop = h.begin(p); h.Stop != nil {
		h.asDrawn()
		return h, ctx.Err()
	}
	q := newAsker(p, rig, h.Start)
	at := h.grid(&p.Site.Vehicles[q.v], q.way, o.StepM)
	h.UntilM = h.EndM
	if !o.LoadsAlone {
		h.Judged = true
		j := &judge{p: p, rig: rig}
		until, stop, err := j.walk(ctx, at, h.Start, q, func(doneM float64) { o.Progress(doneM/2, h.EndM) })
		if err != nil {
			return nil, err
		}
		h.UntilM, h.Stop = until, stop
		h.Findings = j.found()
	}
	if !(h.UntilM > 0) {
		h.asDrawn()
		return h, nil
	}
	f := &follower{h: h, q: q}
	if err := f.follow(ctx, o); err != nil {
		return nil, err
	}
	return h, nil
}

// begin says what keeps the pull from beginning, and finds how far it is to go.
func (h *Haul) begin(p *plan.Plan) *Stop {
	h.Casualty = h.Start.Casualty
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	if i < 0 || h.Casualty == "" {
		return &Stop{Reason: NoCasualty}
	}
	v := &p.Site.Vehicles[i]
	about := []plan.ID{v.ID}
	if v.ID != h.Casualty {
		return &Stop{Reason: NotSolved, Why: "several-casualties", Things: about}
	}
	if _, known := v.WayLine(); !known {
		return &Stop{Reason: NoWay, Things: about}
	}
	if h.EndM = float64(v.Stuck.WayLength); !(h.EndM > 0) || math.IsInf(h.EndM, 0) {
		h.EndM = 0
		return &Stop{Reason: NoLength, Things: about}
	}
	j := &judge{p: p, rig: h.Rig}
	return j.stops(h.Start, 0)
}

// asDrawn answers for moment 0 alone.
func (h *Haul) asDrawn() {
	for i := range h.Start.Parts {
		p := &h.Start.Parts[i]
		w := Worst{ID: p.ID, Part: *p, Share: share(p), LoadN: load(p), Status: p.Status}
		h.Parts = append(h.Parts, w)
	}
	h.unfinished()
}

// unfinished takes back of every part that it is within or near its limit on a way
// that was not computed to its end, or not judged.
func (h *Haul) unfinished() {
	if h.Stop == nil && h.Judged {
		return
	}
	for i := range h.Parts {
		if w := &h.Parts[i]; rank(w.Status) >= rank(part.Near) {
			w.Status, w.StatusM = part.NotComputed, h.UntilM
		}
	}
}

// grid are the places that are looked at: evenly spaced, where straight pieces of the
// way meet round ones, and where the casualty comes to lie in something else.
func (h *Haul) grid(v *plan.Vehicle, way *plan.WayLine, gridM float64) []float64 {
	if !(gridM > 0) {
		gridM = stepM
	}
	n := int(math.Ceil(math.Min(h.EndM/gridM, mostSteps) - 1e-9))
	var at []float64
	for i := 0; i <= n; i++ {
		at = append(at, h.EndM*float64(i)/float64(max(n, 1)))
	}
	for _, x := range slices.Concat(way.Knots(), stagesOf(v)) {
		if x > 0 && x < h.EndM {
			at = append(at, x)
		}
	}
	sort.Float64s(at)
	return slices.Compact(at)
}

// follower follows the figures of a pull as far as it goes.
type follower struct {
	h *Haul
	q *asker
	*scan
}

func (f *follower) follow(ctx context.Context, o Options) error {
	h := f.h
	gridM := o.StepM
	if !(gridM > 0) {
		gridM = stepM
	}
	gridM = math.Max(gridM, h.EndM/mostSteps)
	f.scan = newScan(f.q, h.UntilM, gridM, func() bool { return ctx.Err() != nil },
		func(v []float64) bool { return v[askState] != v[askState] })
	if err := ctx.Err(); err != nil {
		return err
	}
	f.refused()
	for _, x := range stagesOf(&f.q.p.Site.Vehicles[f.q.v]) {
		f.cut(x, 0)
	}
	for _, x := range f.q.way.Knots() {
		f.cut(x, 0)
	}
	f.states()
	f.limits()
	f.angles()
	f.onLines()
	o.Progress(h.UntilM, h.EndM)
	if err := ctx.Err(); err != nil {
		return err
	}
	f.worst()
	h.Moments = f.q.moments
	slices.SortStableFunc(h.Moments, func(a, b Moment) int { return cmp.Compare(a.AtM, b.AtM) })
	h.Moments = slices.CompactFunc(h.Moments, func(a, b Moment) bool { return a.AtM == b.AtM })
	for i := range h.Moments {
		m := &h.Moments[i]
		for len(m.Shares) < len(h.Parts) {
			m.Shares = append(m.Shares, math.NaN())
		}
	}
	slices.SortStableFunc(h.Events, func(a, b Happening) int { return cmp.Compare(a.AtM, b.AtM) })
	return nil
}

// refused ends the pull before the first place of the grid at which the rig is
// refused, if there is one.
func (f *follower) refused() {
	last := len(f.nodes) - 1
	if v := f.nodes[last].v; v[askState] == v[askState] {
		return
	}
	if last == 0 { // Assess has answered there
		f.h.UntilM, f.h.Stop = 0, &Stop{Reason: NotSolved, Why: f.q.why()}
		return
	}
	goes, ends := f.nodes[last-1].sM, f.nodes[last].sM
	f.q.ask(ends)
	why := f.q.why()
	for ends-goes > stopM {
		if mid := goes + (ends-goes)/2; f.q.ask(mid) {
			goes = mid
		} else {
			ends, why = mid, f.q.why()
		}
	}
	f.h.UntilM, f.h.Stop = goes, &Stop{Reason: reasonOf(why), AtM: ends, Why: why}
	f.nodes[last] = f.node(goes)
}

// worst finds where most is asked of every part.
func (f *follower) worst() {
	for i := range f.q.parts {
		w := f.q.seen[i]
		p := f.peak(shareOf(i))
		if !p.known {
			p = f.peak(loadOf(i))
		}
		if p.known {
			w.AtM, w.Left = p.sM, p.left
			if f.q.ask(p.foundM) {
				if at := f.q.part(i); at != nil {
					w.Part = *at
					w.Part.Values = slices.Clone(at.Values)
					w.Share, w.LoadN = share(at), load(at)
				}
			}
		}
		f.h.Parts = append(f.h.Parts, w)
	}
	f.h.unfinished()
}
