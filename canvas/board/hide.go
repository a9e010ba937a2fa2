package board

import (
	"kedge/solver/plan"
)

// Locked things stay where they are; hidden ones are not drawn and not met by
// the pointer, but they count: loads and zones are what they were.

// marked locks or hides what is selected; if all of it is locked, it is
// unlocked.
func marked(sc *scene, what string) outcome {
	x := sc.at()
	all := true
	for _, id := range sc.selection {
		if h := headOf(sc.plan, x, id); h != nil {
			all = all && (what == "lock" && h.Locked || what == "hide" && h.Hidden)
		}
	}
	d := sc.draft(false)
	y := d.Index()
	for _, id := range sc.selection {
		h := headOf(d.Plan, y, id)
		switch {
		case h == nil:
		case what == "lock":
			h.Locked = !all
		default:
			h.Hidden = !all
		}
	}
	name := "edit-" + what
	if all {
		name = "edit-un" + what
	}
	o := outcome{plan: d.Plan, name: sc.label(name)}
	if what == "hide" && !all {
		o.selected = []plan.ID{}
		o.report = sc.label("hidden-now", text("things", joined(sc, sc.names(hiddenIn(d.Plan, d.Laid)))))
	}
	return o
}

// Hidden are the things that are not drawn, of the site and of the rig shown, in
// file order; nil if there are none.
func (b *Board) Hidden() []plan.ID { return hiddenIn(b.plan, b.at().Rig) }

func hiddenIn(p *plan.Plan, r *plan.Rig) []plan.ID {
	x := plan.NewIndex(p, r)
	var ids []plan.ID
	for _, id := range thingIDs(p, r) {
		if h := headOf(p, x, id); h != nil && h.Hidden {
			ids = append(ids, id)
		}
	}
	return ids
}

// names are what things are called.
func (sc *scene) names(ids []plan.ID) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = sc.name(id)
	}
	return list
}

// Reveal draws hidden things again, as one undo step, and selects them. Things
// that are not hidden are passed over.
func (b *Board) Reveal(ids ...plan.ID) {
	b.begin()
	b.commit(revealed(b.scene, ids))
}

func (b *Board) showAll() outcome { return revealed(b.scene, b.Hidden()) }

func revealed(sc *scene, ids []plan.ID) outcome {
	d := sc.draft(false)
	x := d.Index()
	var shown []plan.ID
	for _, id := range ids {
		if h := headOf(d.Plan, x, id); h != nil && h.Hidden {
			h.Hidden = false
			shown = append(shown, id)
		}
	}
	if len(shown) == 0 {
		return outcome{report: sc.label("nothing-hidden")}
	}
	return outcome{plan: d.Plan, name: sc.label("edit-unhide"), selected: shown}
}

// thingIDs are the ids of the things of the site and of a rig, in file order.
func thingIDs(p *plan.Plan, r *plan.Rig) []plan.ID {
	var ids []plan.ID
	s := &p.Site
	for i := range s.Vehicles {
		ids = append(ids, s.Vehicles[i].ID)
	}
	for i := range s.Anchors {
		ids = append(ids, s.Anchors[i].ID)
	}
	for i := range s.Obstacles {
		ids = append(ids, s.Obstacles[i].ID)
	}
	for i := range s.People {
		ids = append(ids, s.People[i].ID)
	}
	for i := range s.Notes {
		ids = append(ids, s.Notes[i].ID)
	}
	for i := range s.Measures {
		ids = append(ids, s.Measures[i].ID)
	}
	if r == nil {
		return ids
	}
	return append(ids, rigIDs(r)...)
}

// rigIDs are the ids of the things of a rig, in file order.
func rigIDs(r *plan.Rig) []plan.ID {
	var ids []plan.ID
	for i := range r.Lines {
		ids = append(ids, r.Lines[i].ID)
	}
	for i := range r.Blocks {
		ids = append(ids, r.Blocks[i].ID)
	}
	for i := range r.Slings {
		ids = append(ids, r.Slings[i].ID)
	}
	for i := range r.Shackles {
		ids = append(ids, r.Shackles[i].ID)
	}
	for i := range r.Dampers {
		ids = append(ids, r.Dampers[i].ID)
	}
	return ids
}
