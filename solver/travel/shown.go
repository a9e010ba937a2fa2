package travel

import (
	"context"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Of is [Assess] of a pull that nobody gives up.
func Of(p *plan.Plan, rig plan.ID) *Answer {
	a, _ := Assess(context.Background(), p, rig, nil) // the one error there is, is the context's
	return a
}

// Whole is [Of] without its moments.
func Whole(p *plan.Plan, rig plan.ID) *solver.Assessment { return Of(p, rig).Assessment }

// Trace tells where a rig's casualty is, metres along the way that it takes: as drawn, or
// where its lines drag it; beyond what is known of that, where that ends; where
// nobody says where to, as drawn. false: the plan has none.
func Trace(p *plan.Plan, rig plan.ID) (at func(sM float64) plan.Point, ok bool) {
	m := newMover(p, rig)
	if m.v < 0 {
		return nil, false
	}
	v := &m.p.Site.Vehicles[m.v]
	w, known := v.WayLine()
	return func(sM float64) plan.Point {
		switch {
		case !known || !(sM > 0):
			return v.At
		case m.drag != nil:
			p, _ := m.where(sM)
			return plan.Point{X: p.ref.X, Y: p.ref.Y}
		}
		return w.At(sM).At
	}, true
}

// Shown is one moment of the pull, s metres along, as a picture shows it: the plan
// with the casualty there, and the answer for the whole pull with lines, blocks and
// slings as they lie there. Dampers and joins keep their distance from the far end
// of their line; one that has reached the winch is taken off it. A place beyond what
// was followed shows the last that was. now is the answer for that moment alone, nil if
// there is no other.
func (a *Answer) Shown(p *plan.Plan, rig plan.ID, s float64) (shown *plan.Plan, whole, now *solver.Assessment) {
	s = a.within(s)
	if s == 0 {
		if len(a.Moments) > 1 {
			now = a.Moments[0].Assessment
		}
		return Drawn(p, rig), a.Assessment, now
	}
	at := At(p, rig, s)
	m := solver.Assess(at, rig)
	out := *a.Assessment
	out.Stretches, out.Nodes, out.Slings = m.Stretches, m.Nodes, m.Slings
	return carried(at, rig, a.Stretches, m.Stretches), &out, m
}

// carried is a plan with the dampers and joins of a rig where the line has taken them
// between two pictures of its stretches.
func carried(p *plan.Plan, rig plan.ID, before, after []part.Stretch) *plan.Plan {
	r, ok := p.Rig(rig)
	if !ok || len(r.Dampers) == 0 && !slices.ContainsFunc(r.Lines, func(l plan.Line) bool { return len(l.Joins) > 0 }) {
		return p
	}
	d := plan.Edit(p, rig)
	kept := d.Laid.Dampers[:0]
	for _, k := range d.Laid.Dampers {
		was, now := lengthsOf(before, k.Line), lengthsOf(after, k.Line)
		if len(was) != len(now) || k.Stretch < 0 || k.Stretch >= len(was) {
			kept = append(kept, k)
			continue
		}
		from := sum(now) - sum(was) + sum(was[:k.Stretch]) + k.Share*was[k.Stretch] // from the winch
		if from < 0 {
			continue
		}
		for k.Stretch = 0; k.Stretch < len(now)-1 && from > now[k.Stretch]; k.Stretch++ {
			from -= now[k.Stretch]
		}
		if now[k.Stretch] > 0 {
			k.Share = min(1, from/now[k.Stretch])
		}
		kept = append(kept, k)
	}
	d.Laid.Dampers = kept
	for i := range d.Laid.Lines {
		l := &d.Laid.Lines[i]
		in := quantity.Length(sum(lengthsOf(before, l.ID)) - sum(lengthsOf(after, l.ID)))
		l.Joins = slices.DeleteFunc(slices.Clone(l.Joins), func(j plan.Join) bool { return j.At < in })
		for k := range l.Joins {
			l.Joins[k].At -= in
		}
	}
	return d.Plan
}

// lengthsOf are the lengths of the stretches of a line, metres, from its hauling end.
func lengthsOf(stretches []part.Stretch, line plan.ID) (out []float64) {
	for i := range stretches {
		if s := &stretches[i]; s.Line == line {
			out = append(out, float64(s.Length))
		}
	}
	return out
}

func sum(list []float64) (all float64) {
	for _, x := range list {
		all += x
	}
	return all
}

// within is s within what was followed.
func (a *Answer) within(s float64) float64 { return min(max(s, 0), a.EndM) }

// Explain is [solver.Explain] of a part where an answer for the whole pull says it is
// worst, so that the sum ends in the figure shown.
func Explain(a *solver.Assessment, p *plan.Plan, rig plan.ID, id string) (*part.Derivation, error) {
	s := 0.0
	if q, ok := a.Part(id); ok {
		s = q.AtM
	}
	return solver.Explain(At(p, rig, s), rig, id)
}
