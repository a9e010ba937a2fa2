package travel

import (
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// ending is what ends a pull at a moment, as findings of one id; none: it goes on. A
// rig that is refused ends it, a line that has become too short, a body that swings
// into something, and blocks that meet.
func (f *follower) ending(m *solver.Moment) []part.Finding {
	id := ""
	switch {
	case m.Status != part.Within:
		id = m.Why
	case f.lacksLine(m):
		id = "line-short"
	default:
		if swung := f.swungInto(m); swung != nil {
			return swung
		}
		return f.blocksMeet(m)
	}
	var out []part.Finding
	for _, g := range m.Findings {
		if g.ID == id {
			g.Travel = m.AtM
			out = append(out, g)
		}
	}
	if out == nil {
		out = append(out, part.Finding{ID: id, Level: part.Danger, Things: []plan.ID{f.rig}, Travel: m.AtM})
	}
	return out
}

// swungInto finds what the casualty's body has come to lie in sideways, as its tail
// does in a bend: it moves out of it again, but did not lie in it as drawn.
func (f *follower) swungInto(m *solver.Moment) (found []part.Finding) {
	for _, id := range m.Leaves {
		if !slices.Contains(f.out.Moments[0].Leaves, id) {
			found = append(found, part.Finding{ID: "casualty-meets", Level: part.Danger, Things: []plan.ID{m.Casualty, id}, Travel: m.AtM, Values: []part.Value{
				part.Length("after", m.AtM)}})
		}
	}
	return found
}

// lacksLine reports whether a line is too short that was not so as drawn.
func (f *follower) lacksLine(m *solver.Moment) bool {
	was := map[plan.ID]bool{}
	for _, l := range f.out.Moments[0].Lines {
		was[l.Line] = l.Missing > 0
	}
	for _, l := range m.Lines {
		if l.Missing > 0 && !was[l.Line] {
			return true
		}
	}
	return false
}

// blocksMeet finds two blocks that have come together, sheave to sheave: between them
// a line has no more than what their sheaves take, as far as these are known.
func (f *follower) blocksMeet(m *solver.Moment) []part.Finding {
	r, ok := f.p.Rig(f.rig)
	if !ok {
		return nil
	}
	radius := func(id plan.ID) float64 {
		for i := range r.Blocks {
			if r.Blocks[i].ID == id {
				return float64(r.Blocks[i].Sheave) / 2
			}
		}
		return 0
	}
	for i := range m.Stretches {
		s := &m.Stretches[i]
		if least := radius(s.PortA.Thing) + radius(s.PortB.Thing); least > 0 && float64(s.Length) <= least {
			return []part.Finding{{ID: "blocks-touch", Level: part.Danger, Things: []plan.ID{s.PortA.Thing, s.PortB.Thing}, Travel: m.AtM}}
		}
	}
	return nil
}
