package board

import (
	"math"
	"slices"

	"kedge/solver/plan"
)

// pick selects the thing that was clicked; Shift adds or takes away, Alt takes
// the next of those that lie over one another.
func (b *Board) pick(id plan.ID, from pointer) {
	if !from.mods.Shift {
		b.Select(id)
		return
	}
	if i := slices.Index(b.selection, id); i >= 0 {
		b.Select(slices.Delete(b.Selection(), i, i+1)...)
		return
	}
	b.Select(append(b.Selection(), id)...)
}

// pressed is a press of the first button with the select tool.
func (b *Board) pressed(p pointer) *gesture {
	if v, ok := b.turnable(); ok && dist(b.turnHandle(v), p.at)*b.view.PerM <= hitPx/2 {
		return b.turnGesture(v, p)
	}
	if len(b.selection) == 1 {
		if g := b.endHandle(b.selection[0], p); g != nil {
			return g
		}
		if g := b.cornerHandle(b.selection[0], p); g != nil {
			return g
		}
	}
	h, ok := b.hitAt(p.at)
	if !ok {
		return b.framing(p)
	}
	if headOf(b.plan, b.at(), h.id).Locked {
		return b.staying(h.id, p)
	}
	switch h.kind {
	case plan.ThingLine:
		return b.bending(h, p)
	case plan.ThingBlock:
		return b.dragBlock(h.id, p)
	case plan.ThingDamper:
		return &gesture{from: p, dragged: []plan.ID{h.id}, tap: func() { b.pick(h.id, p) },
			outcome: func(q pointer) outcome { return b.slideDamper(h.id, q) }}
	}
	ids := []plan.ID{h.id}
	if slices.Contains(b.selection, h.id) {
		ids = b.Selection()
	}
	if g := b.moving(ids, h.id, p); g != nil && !p.mods.Shift {
		return g
	}
	return b.staying(h.id, p)
}

// staying is the gesture on a thing that a drag does not move: it says why.
func (b *Board) staying(id plan.ID, p pointer) *gesture {
	return &gesture{from: p, tap: func() { b.pick(id, p) }, outcome: func(pointer) outcome {
		return outcome{selected: []plan.ID{id}, report: b.whyStays(id)}
	}}
}

// whyStays says why a thing that was dragged did not move.
func (b *Board) whyStays(id plan.ID) string {
	if h := headOf(b.plan, b.at(), id); h != nil && h.Locked {
		return b.label("locked", text("thing", b.name(id)))
	}
	return b.label("lies-by-forces", text("thing", b.name(id)))
}

// endHandle is the gesture of the end of a selected line under the pointer.
func (b *Board) endHandle(id plan.ID, p pointer) *gesture {
	l := b.at().Line(id)
	if l == nil || len(l.Path) < 2 || l.Locked {
		return nil
	}
	a, _ := b.stretchEnds(id, 0)
	_, c := b.stretchEnds(id, len(l.Path)-2)
	reach := hitPx / 2 / b.view.PerM
	switch {
	case dist(c, p.at) <= reach:
		return b.rehang(id, len(l.Path)-1, p)
	case dist(a, p.at) <= reach:
		return b.rehang(id, 0, p)
	}
	return nil
}

// slideDamper is what letting go of a damper at p does.
func (b *Board) slideDamper(id plan.ID, p pointer) outcome {
	o := outcome{selected: []plan.ID{id}}
	h, ok := b.lineAt(p.at)
	if !ok {
		o.report = b.label("prompt-damper-tool")
		return o
	}
	d := b.draft(true)
	for i := range d.rig.Dampers {
		if k := &d.rig.Dampers[i]; k.ID == id {
			k.Line, k.Stretch, k.Share = h.id, h.stretch, stepped(h.share, 0.01)
		}
	}
	o.plan, o.name, o.preview = d.Plan, b.label("edit-move", text("thing", b.name(id))), true
	return o
}

// framing is the gesture that selects with a frame: what lies wholly inside.
func (b *Board) framing(from pointer) *gesture {
	return &gesture{from: from, frame: true,
		tap: func() {
			if !from.mods.Shift {
				b.Select()
			}
		},
		outcome: func(p pointer) outcome {
			ids := b.framed(from.at, p.at)
			if from.mods.Shift {
				ids = append(b.Selection(), ids...)
			}
			if ids == nil {
				ids = []plan.ID{}
			}
			return outcome{selected: ids}
		}}
}

// framed are the things that lie wholly in a frame.
func (b *Board) framed(a, c plan.Point) []plan.ID {
	lowX, highX, lowY, highY := math.Min(a.X, c.X), math.Max(a.X, c.X), math.Min(a.Y, c.Y), math.Max(a.Y, c.Y)
	var ids []plan.ID
	b.everything(func(id plan.ID, _ plan.ThingKind, pts []plan.Point) {
		for _, p := range pts {
			if p.X < lowX || p.X > highX || p.Y < lowY || p.Y > highY {
				return
			}
		}
		if len(pts) > 0 {
			ids = append(ids, id)
		}
	})
	return ids
}

// everything visits all things that are shown, with the points that span them,
// in file order.
func (b *Board) everything(visit func(id plan.ID, kind plan.ThingKind, pts []plan.Point)) {
	s := &b.plan.Site
	shown := func(h *plan.Head, kind plan.ThingKind, pts ...plan.Point) {
		if !h.Hidden {
			visit(h.ID, kind, pts)
		}
	}
	for i := range s.Vehicles {
		c := s.Vehicles[i].Corners()
		shown(&s.Vehicles[i].Head, plan.ThingVehicle, c[:]...)
	}
	for i := range s.Anchors {
		shown(&s.Anchors[i].Head, plan.ThingAnchor, s.Anchors[i].At)
	}
	for i := range s.Obstacles {
		shown(&s.Obstacles[i].Head, plan.ThingObstacle, s.Obstacles[i].Outline...)
	}
	for i := range s.People {
		shown(&s.People[i].Head, plan.ThingPerson, s.People[i].At)
	}
	for i := range s.Notes {
		shown(&s.Notes[i].Head, plan.ThingNote, s.Notes[i].At)
	}
	for i := range s.Measures {
		shown(&s.Measures[i].Head, plan.ThingMeasure, s.Measures[i].Points...)
	}
	r := b.at().Rig
	if r == nil {
		return
	}
	a := b.planAnswer()
	for i := range r.Lines {
		var pts []plan.Point
		for j := range a.Stretches {
			if t := &a.Stretches[j]; t.Line == r.Lines[i].ID {
				pts = append(pts, flat(t.A), flat(t.B))
			}
		}
		shown(&r.Lines[i].Head, plan.ThingLine, pts...)
	}
	for i := range r.Blocks {
		at, _ := b.settled(r.Blocks[i].ID)
		shown(&r.Blocks[i].Head, plan.ThingBlock, at)
	}
	for i := range r.Slings {
		for j := range a.Slings {
			if t := &a.Slings[j]; t.Sling == r.Slings[i].ID {
				shown(&r.Slings[i].Head, plan.ThingSling, flat(t.Centre), flat(t.Apex))
			}
		}
	}
	for i := range r.Shackles {
		if at, ok := nodeAt(a, r.Shackles[i].ID); ok {
			shown(&r.Shackles[i].Head, plan.ThingShackle, at)
		}
	}
	for i := range r.Dampers {
		if at, ok := b.damperPlace(&r.Dampers[i]); ok {
			shown(&r.Dampers[i].Head, plan.ThingDamper, at)
		}
	}
}

// selectAll selects everything shown; selectKind all of the kinds selected.
func (b *Board) selectAll(kinds map[plan.ThingKind]bool) {
	var ids []plan.ID
	b.everything(func(id plan.ID, k plan.ThingKind, _ []plan.Point) {
		if kinds == nil || kinds[k] {
			ids = append(ids, id)
		}
	})
	b.Select(ids...)
}

func (b *Board) selectKind() {
	kinds := map[plan.ThingKind]bool{}
	for _, id := range b.selection {
		kinds[b.at().Kind(id)] = true
	}
	if len(kinds) > 0 {
		b.selectAll(kinds)
	}
}

// walk selects the next thing, west to east, south before north where two
// stand in line; back goes the other way.
func (b *Board) walk(back bool) {
	type place struct {
		id plan.ID
		at plan.Point
	}
	var list []place
	b.everything(func(id plan.ID, _ plan.ThingKind, pts []plan.Point) {
		if len(pts) > 0 {
			list = append(list, place{id, plan.Centroid(pts)})
		}
	})
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(p, q place) int {
		switch {
		case p.at.X < q.at.X, p.at.X == q.at.X && p.at.Y < q.at.Y:
			return -1
		case p.at == q.at:
			return 0
		}
		return 1
	})
	i := -1
	if len(b.selection) > 0 {
		i = slices.IndexFunc(list, func(p place) bool { return p.id == b.selection[len(b.selection)-1] })
	}
	switch {
	case back && i <= 0:
		i = len(list) - 1
	case back:
		i--
	default:
		i = (i + 1) % len(list)
	}
	b.Select(list[i].id)
}
