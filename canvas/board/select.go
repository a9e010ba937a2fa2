package board

import (
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
		if at, ok := b.strapHandle(b.selection[0]); ok && dist(at, p.at)*b.view.PerM <= hitPx/2 {
			return b.strapGesture(b.selection[0], p)
		}
		if g := b.endHandle(b.selection[0], p); g != nil {
			return g
		}
		if g := b.cornerHandle(b.selection[0], p); g != nil {
			return g
		}
	}
	if l := b.tagAt(p); l != nil {
		return b.tagGesture(*l, p)
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
		return &gesture{from: p, dragged: []plan.ID{h.id}, tap: func() { b.pick(h.id, p) }, fix: fixable{kind: fixAlong},
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
