package board

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// clip is what was copied: a plan in which the things stand, and which of them
// are meant. Later edits do not reach it.
type clip struct {
	plan *plan.Plan
	rig  plan.ID
	ids  []plan.ID
}

// pasteM is the step, east and south of the original in metres, by which a copy
// is put down where nothing of its kind stands yet.
const pasteM = 1

func (b *Board) copy() {
	b.clip = &clip{b.plan, b.rig, b.Selection()}
	b.say(b.label("copied", part.Count("count", len(b.selection))))
}

func (b *Board) cut() {
	if b.keepsWhole() {
		return
	}
	b.copy()
	o := deleting(b.scene, b.selection)
	if o.plan != nil {
		o.name = b.label("edit-cut")
	}
	b.commit(o)
}

func (b *Board) paste() { b.commit(copiesOf(b.scene, b.clip, b.label("edit-paste"))) }
func (b *Board) duplicate() {
	b.commit(copiesOf(b.scene, &clip{b.plan, b.rig, b.Selection()}, b.label("edit-duplicate")))
}

// copies is the edit that adds copies of things, by as many steps off as leave
// none upon another. A part of the rig is hooked to the copy of what it was
// hooked to, never to what the original is hooked to: that would change what is
// computed where nobody sees it. See [pasting].
func copiesOf(sc *scene, c *clip, name string) outcome {
	d := sc.draft(true)
	r, _ := c.plan.Rig(c.rig)
	x := plan.NewIndex(c.plan, r)
	p := &pasting{sc: sc, d: d, x: x, ids: c.ids, fresh: map[plan.ID]plan.ID{}, byM: stepsOff(d, x, c.ids) * pasteM}
	made := p.site()
	if r != nil {
		made = append(made, p.parts()...)
	}
	left := p.leftText(sc.words.Names(c.plan, c.rig))
	if len(made) == 0 && left != "" {
		return outcome{report: left}
	}
	if len(made) == 0 && slices.ContainsFunc(c.ids, func(id plan.ID) bool { return x.Pin(id) != nil }) {
		return outcome{report: sc.label("pins-not-copied")}
	}
	if len(made) == 0 {
		return outcome{report: sc.label("nothing-copied")}
	}
	o := outcome{plan: d.Plan, name: name, selected: made}
	next := plan.KeepNames(sc.plan, d.Plan)
	names := sc.words.Names(next, d.Laid.ID)
	what := make([]string, len(made))
	for i, id := range made {
		what[i] = names(id)
	}
	o.report = sc.label("added", part.Text("what", fewOf(sc, what)))
	for _, more := range []string{p.hungText(), left} {
		if more != "" {
			o.report += " · " + more
		}
	}
	return o
}

// renew is a head for a copy: its own name and number stay with the original.
func renew(h plan.Head, id plan.ID) plan.Head {
	h.ID, h.Name, h.Number, h.Locked, h.Hidden = id, "", 0, false, false
	h.Presets, h.Doubts = slices.Clone(h.Presets), slices.Clone(h.Doubts)
	return h
}

// site copies the things of the site.
func (w *pasting) site() []plan.ID {
	d, x := w.d, w.x
	var made []plan.ID
	give := func(old plan.ID, prefix string) plan.ID {
		id := plan.NewID(d.Plan, prefix)
		w.fresh[old] = id
		made = append(made, id)
		return id
	}
	s := &d.Site
	for _, id := range w.ids {
		slot := x.Find(id)
		from := &x.Plan.Site
		switch slot.Kind {
		case plan.ThingVehicle:
			v := from.Vehicles[slot.Pos]
			v.Head = renew(v.Head, give(id, plan.PrefixVehicle))
			s.Vehicles = append(s.Vehicles, v)
		case plan.ThingAnchor:
			a := from.Anchors[slot.Pos]
			prefix := plan.PrefixAnchor
			if a.Kind == plan.AnchorTree {
				prefix = plan.PrefixTree
			}
			a.Head = renew(a.Head, give(id, prefix))
			s.Anchors = append(s.Anchors, a)
		case plan.ThingObstacle:
			o := from.Obstacles[slot.Pos]
			o.Head = renew(o.Head, give(id, plan.PrefixObstacle))
			s.Obstacles = append(s.Obstacles, o)
		case plan.ThingPerson:
			q := from.People[slot.Pos]
			q.Head, q.Vehicle = renew(q.Head, give(id, plan.PrefixPerson)), ""
			s.People = append(s.People, q)
		case plan.ThingNote:
			n := from.Notes[slot.Pos]
			n.Head = renew(n.Head, give(id, plan.PrefixNote))
			s.Notes = append(s.Notes, n)
		case plan.ThingMeasure:
			m := from.Measures[slot.Pos]
			m.Head = renew(m.Head, give(id, plan.PrefixMeasure))
			s.Measures = append(s.Measures, m)
		}
	}
	carry(d, made, w.off, 0)
	return made
}
