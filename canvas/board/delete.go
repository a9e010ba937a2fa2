package board

import (
	"slices"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// deleting is the edit that takes things out of the plan. A block is taken out
// of the lines over it, together with the sling and shackle it hangs from; of
// an anchor or vehicle what hung on it stays behind, loose; a line with fewer
// than two points left goes, with the dampers on it. What went, what went with
// it and what is loose now is said.
func deleting(sc *scene, ids []plan.ID) outcome {
	gone := map[plan.ID]bool{}
	x := sc.at()
	for _, id := range ids {
		if h := headOf(sc.plan, x, id); h != nil && !h.Locked || x.Pin(id) != nil {
			gone[id] = true
		}
	}
	if len(ids) == 1 && ids[0] == form.ThingUnderlay {
		return removingPicture(sc)
	}
	if len(ids) == 1 && ids[0] == form.ThingSurvey {
		return removingSurvey(sc)
	}
	if len(gone) == 0 {
		return outcome{report: sc.label("nothing-to-delete")}
	}
	name := sc.label("edit-delete-many", part.Count("count", len(gone)))
	if len(ids) == 1 {
		name = sc.label("edit-delete", part.Text("thing", sc.name(ids[0])))
	}
	if x.Rig != nil {
		for i := range x.Rig.Slings { // what a deleted block hung from
			if s := &x.Rig.Slings[i]; gone[s.Holds.Thing] && x.Kind(s.Holds.Thing) == plan.ThingBlock {
				gone[s.ID] = true
			}
		}
	}
	next := removed(withoutPins(sc, sc.plan, gone), sc.rig, gone)
	return outcome{name: name, plan: next, selected: []plan.ID{}, report: wentText(sc, next, ids)}
}

// removed is p without the things gone: those of the site for all rigs, those of
// a rig from that rig alone, since a copy of a rig keeps the ids of its parts.
// Nothing left names one of them.
func removed(p *plan.Plan, rig plan.ID, gone map[plan.ID]bool) *plan.Plan {
	q := *p
	s := &q.Site
	site := map[plan.ID]bool{}
	x := plan.NewIndex(p, nil)
	for id := range gone {
		if x.Kind(id) != plan.NoThing {
			site[id] = true
		}
	}
	s.Vehicles = filtered(s.Vehicles, func(v *plan.Vehicle) bool { return !site[v.ID] })
	s.Anchors = filtered(s.Anchors, func(a *plan.Anchor) bool { return !site[a.ID] })
	s.Obstacles = filtered(s.Obstacles, func(o *plan.Obstacle) bool { return !site[o.ID] })
	s.People = filtered(s.People, func(x *plan.Person) bool { return !site[x.ID] })
	s.Notes = filtered(s.Notes, func(n *plan.Note) bool { return !site[n.ID] })
	s.Measures = filtered(s.Measures, func(m *plan.Measure) bool { return !site[m.ID] })
	for i := range s.People { // they stand where the vehicle stood
		if x := &s.People[i]; site[x.Vehicle] {
			if v, ok := p.Vehicle(x.Vehicle); ok {
				x.At = v.At
			}
			x.Vehicle = ""
		}
	}
	q.Rigs = slices.Clone(p.Rigs)
	for i := range q.Rigs {
		from := site
		if q.Rigs[i].ID == rig {
			from = gone
		}
		if len(from) > 0 {
			removedInRig(&q, &q.Rigs[i], from)
		}
	}
	return &q
}

// filtered is a copy of the list with what keep accepts; an empty list is nil, as
// one that never had anything is.
func filtered[T any](list []T, keep func(*T) bool) []T {
	var out []T
	for i := range list {
		if keep(&list[i]) {
			out = append(out, list[i])
		}
	}
	return out
}

func removedInRig(p *plan.Plan, r *plan.Rig, gone map[plan.ID]bool) {
	has := func(port plan.Port) bool { return gone[port.Thing] }
	r.Blocks = filtered(r.Blocks, func(k *plan.Block) bool { return !gone[k.ID] })
	r.Slings = filtered(r.Slings, func(s *plan.Sling) bool { return !gone[s.ID] })
	for i := range r.Blocks {
		if has(r.Blocks[i].Fixed) {
			r.Blocks[i].Fixed = plan.Port{}
		}
	}
	for i := range r.Slings {
		s := &r.Slings[i]
		if has(s.On) {
			s.On = plan.Port{}
		}
		if has(s.Holds) {
			s.Holds = plan.Port{}
		}
	}
	r.Shackles = filtered(r.Shackles, func(k *plan.Shackle) bool { return !gone[k.ID] && !slices.ContainsFunc(k.Joins, has) })
	r.Dampers = filtered(r.Dampers, func(k *plan.Damper) bool { return !gone[k.ID] })
	d := plan.Draft{Plan: p, Laid: r}
	r.Lines = filtered(r.Lines, func(*plan.Line) bool { return true })
	for i := range r.Lines {
		l := &r.Lines[i]
		for k := len(l.Path) - 1; k >= 0; k-- {
			if has(l.Path[k]) {
				d.Unthread(l.ID, k)
			}
		}
	}
	r.Lines = filtered(r.Lines, func(l *plan.Line) bool { return !gone[l.ID] && len(l.Path) >= 2 })
	r.Dampers = filtered(r.Dampers, func(k *plan.Damper) bool {
		_, ok := r.Line(k.Line)
		return ok
	})
}
