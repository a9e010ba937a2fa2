package board

import (
	"slices"

	"kedge/solver/plan"
)

// clip is what was copied: a plan in which the things stand, and which of them
// are meant. Later edits do not reach it.
type clip struct {
	plan *plan.Plan
	rig  plan.ID
	ids  []plan.ID
}

// pasteM is how far east and south of the original a copy is put down, in
// metres.
const pasteM = 1

func (b *Board) copy() {
	b.clip = &clip{b.plan, b.rig, b.Selection()}
	b.say(b.label("copied", count("count", len(b.selection))))
}

func (b *Board) cut() {
	b.copy()
	o := b.deleting(b.selection)
	if o.plan != nil {
		o.name = b.label("edit-cut")
	}
	b.commit(o)
}

func (b *Board) paste() { b.commit(b.copies(b.clip, b.label("edit-paste"))) }
func (b *Board) duplicate() {
	b.commit(b.copies(&clip{b.plan, b.rig, b.Selection()}, b.label("edit-duplicate")))
}

// copies is the edit that adds copies of things. What a copied part of a rig
// was hooked to is the copy of it, if that was copied too; else it stays hooked
// to the same thing, as long as that stands on the site; else it is loose.
func (b *Board) copies(c *clip, name string) outcome {
	d := b.draft(true)
	r, _ := c.plan.Rig(c.rig)
	x := plan.NewIndex(c.plan, r)
	fresh := map[plan.ID]plan.ID{}
	site := d.copySite(x, c.ids, fresh)
	if r != nil {
		site = append(site, d.copyRig(x, c.ids, fresh)...)
	}
	if len(site) == 0 {
		return outcome{report: b.label("nothing-copied")}
	}
	return outcome{plan: d.Plan, name: name, selected: site}
}

// renew is a head for a copy: its own name and number stay with the original.
func renew(h plan.Head, id plan.ID) plan.Head {
	h.ID, h.Name, h.Number, h.Locked, h.Hidden = id, "", 0, false, false
	h.Presets, h.Doubts = slices.Clone(h.Presets), slices.Clone(h.Doubts)
	return h
}

func (d draft) copySite(x *plan.Index, ids []plan.ID, fresh map[plan.ID]plan.ID) []plan.ID {
	var made []plan.ID
	give := func(old plan.ID, prefix string) plan.ID {
		id := plan.NewID(d.Plan, prefix)
		fresh[old] = id
		made = append(made, id)
		return id
	}
	move := func(p plan.Point) plan.Point { return rounded(plus(p, pasteM, -pasteM), fineM/10) }
	all := func(pts []plan.Point) []plan.Point {
		out := slices.Clone(pts)
		for i := range out {
			out[i] = move(out[i])
		}
		return out
	}
	s := &d.Site
	for _, id := range ids {
		slot := x.Find(id)
		from := &x.Plan.Site
		switch slot.Kind {
		case plan.ThingVehicle:
			v := from.Vehicles[slot.Pos]
			v.Head, v.At = renew(v.Head, give(id, plan.PrefixVehicle)), move(v.At)
			s.Vehicles = append(s.Vehicles, v)
		case plan.ThingAnchor:
			a := from.Anchors[slot.Pos]
			prefix := plan.PrefixAnchor
			if a.Kind == plan.AnchorTree {
				prefix = plan.PrefixTree
			}
			a.Head, a.At = renew(a.Head, give(id, prefix)), move(a.At)
			s.Anchors = append(s.Anchors, a)
		case plan.ThingObstacle:
			o := from.Obstacles[slot.Pos]
			o.Head, o.Outline = renew(o.Head, give(id, plan.PrefixObstacle)), all(o.Outline)
			s.Obstacles = append(s.Obstacles, o)
		case plan.ThingPerson:
			q := from.People[slot.Pos]
			q.Head, q.At, q.Vehicle = renew(q.Head, give(id, plan.PrefixPerson)), move(q.At), ""
			s.People = append(s.People, q)
		case plan.ThingNote:
			n := from.Notes[slot.Pos]
			n.Head, n.At = renew(n.Head, give(id, plan.PrefixNote)), move(n.At)
			s.Notes = append(s.Notes, n)
		case plan.ThingMeasure:
			m := from.Measures[slot.Pos]
			m.Head, m.Points = renew(m.Head, give(id, plan.PrefixMeasure)), all(m.Points)
			s.Measures = append(s.Measures, m)
		}
	}
	return made
}

func (d draft) copyRig(x *plan.Index, ids []plan.ID, fresh map[plan.ID]plan.ID) []plan.ID {
	var made []plan.ID
	// Ids first, so that parts may name one another.
	for _, id := range ids {
		prefix := map[plan.ThingKind]string{plan.ThingLine: plan.PrefixLine, plan.ThingBlock: plan.PrefixBlock,
			plan.ThingSling: plan.PrefixSling, plan.ThingShackle: plan.PrefixShackle, plan.ThingDamper: plan.PrefixDamper}[x.Kind(id)]
		if prefix == "" {
			continue
		}
		n := plan.NewID(d.Plan, prefix)
		switch x.Kind(id) { // take the id before the next is asked for
		case plan.ThingLine:
			d.rig.Lines = append(d.rig.Lines, plan.Line{Head: plan.Head{ID: n}})
		case plan.ThingBlock:
			d.rig.Blocks = append(d.rig.Blocks, plan.Block{Head: plan.Head{ID: n}})
		case plan.ThingSling:
			d.rig.Slings = append(d.rig.Slings, plan.Sling{Head: plan.Head{ID: n}})
		case plan.ThingShackle:
			d.rig.Shackles = append(d.rig.Shackles, plan.Shackle{Head: plan.Head{ID: n}})
		case plan.ThingDamper:
			d.rig.Dampers = append(d.rig.Dampers, plan.Damper{Head: plan.Head{ID: n}})
		}
		fresh[id] = n
	}
	here := d.index()
	port := func(p plan.Port) plan.Port {
		if n, ok := fresh[p.Thing]; ok {
			return plan.Port{Thing: n, Point: p.Point}
		}
		if here.Kind(p.Thing) == plan.NoThing {
			return plan.Port{}
		}
		return p
	}
	gone := map[plan.ID]bool{}
	for _, id := range ids {
		n, ok := fresh[id]
		slot := x.Find(id)
		if !ok || slot.Kind < plan.ThingLine || slot.Kind > plan.ThingDamper {
			continue
		}
		at := here.Find(n).Pos
		switch slot.Kind {
		case plan.ThingLine:
			l := x.Rig.Lines[slot.Pos]
			l.Head = renew(l.Head, n)
			path := l.Path
			l.Path = nil
			for _, p := range path {
				if q := port(p); !q.IsZero() {
					l.Path = append(l.Path, q)
				}
			}
			gone[n] = len(l.Path) < 2
			d.rig.Lines[at] = l
		case plan.ThingBlock:
			k := x.Rig.Blocks[slot.Pos]
			k.Head, k.Fixed, k.At = renew(k.Head, n), port(k.Fixed), rounded(plus(k.At, pasteM, -pasteM), fineM/10)
			d.rig.Blocks[at] = k
		case plan.ThingSling:
			s := x.Rig.Slings[slot.Pos]
			s.Head, s.On, s.Holds = renew(s.Head, n), port(s.On), port(s.Holds)
			d.rig.Slings[at] = s
		case plan.ThingShackle:
			k := x.Rig.Shackles[slot.Pos]
			k.Head, k.At = renew(k.Head, n), rounded(plus(k.At, pasteM, -pasteM), fineM/10)
			joins := k.Joins
			k.Joins = nil
			for _, p := range joins {
				if q := port(p); !q.IsZero() {
					k.Joins = append(k.Joins, q)
				}
			}
			if len(k.Joins) == 1 {
				k.Joins = nil
			}
			d.rig.Shackles[at] = k
		case plan.ThingDamper:
			k := x.Rig.Dampers[slot.Pos]
			k.Head = renew(k.Head, n)
			if q := port(plan.Port{Thing: k.Line}); !q.IsZero() {
				k.Line = q.Thing
			}
			d.rig.Dampers[at] = k
		}
		made = append(made, n)
	}
	d.rig.Lines = slices.DeleteFunc(d.rig.Lines, func(l plan.Line) bool { return gone[l.ID] })
	d.rig.Dampers = slices.DeleteFunc(d.rig.Dampers, func(k plan.Damper) bool {
		_, ok := d.rig.Line(k.Line)
		return !ok
	})
	return slices.DeleteFunc(made, func(id plan.ID) bool { return d.index().Kind(id) == plan.NoThing })
}
