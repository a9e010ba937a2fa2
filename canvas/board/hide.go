package board

import (
	"kedge/solver/part"
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
		o.report = sc.label("hidden-now", part.Text("things", joined(sc, sc.names(hiddenIn(d.Plan, d.Laid)))))
	}
	return o
}

// Hidden are the things that are not drawn, of the site and of the rig shown, in
// file order; nil if there are none.
func (b *Board) Hidden() []plan.ID { return hiddenIn(b.plan, b.at().Rig) }

func hiddenIn(p *plan.Plan, r *plan.Rig) []plan.ID {
	var ids []plan.ID
	plan.EachHead(p, r, func(h *plan.Head) {
		if h.Hidden {
			ids = append(ids, h.ID)
		}
	})
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
	plan.EachHead(p, r, func(h *plan.Head) { ids = append(ids, h.ID) })
	return ids
}

// partsOf is how many parts a rig has.
func partsOf(r *plan.Rig) int {
	return len(r.Lines) + len(r.Blocks) + len(r.Slings) + len(r.Shackles) + len(r.Dampers)
}
