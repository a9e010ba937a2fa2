package board

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// selectTool selects what is clicked and drags what is pressed.
type selectTool struct{ common }

func (t *selectTool) start(*Board) {}

func (t *selectTool) prompt(sc *scene) string { return idlePrompt(sc) }

// press takes hold of what is under the pointer.
func (t *selectTool) press(b *Board, p pointer, clicks int) *gesture {
	if clicks >= 2 && giveBack(b, p) {
		return nil
	}
	if g := handleGesture(b.scene, p); g != nil {
		return g
	}
	if l := tagAt(b.scene, p); l != nil {
		return tagGesture(b.scene, *l, p)
	}
	h, ok := hitAt(b.scene, p.at)
	if leg, on := legAt(b.scene, p.at); on && (!ok || h.kind == plan.ThingObstacle) {
		return wayGesture(b.scene, leg, p)
	}
	if !ok {
		return framing(b, p)
	}
	if h.kind == plan.ThingPin && !(slices.Contains(b.selection, h.id) && len(b.selection) > 1) && !p.mods.Shift {
		return pinGesture(b.scene, h.id, p)
	}
	if x := headOf(b.plan, b.at(), h.id); x != nil && x.Locked {
		return stayGesture(b.scene, h.id, p)
	}
	switch h.kind {
	case plan.ThingLine:
		return bendGesture(b.scene, h, p)
	case plan.ThingBlock:
		return dragBlock(b.scene, h.id, p)
	case plan.ThingDamper:
		return &gesture{from: p, dragged: []plan.ID{h.id}, tap: func(b *Board) { pick(b, h.id, p) }, fix: fixable{kind: fixAlong},
			outcome: func(q pointer) outcome { return slideDamper(b.scene, h.id, q) }}
	}
	ids := []plan.ID{h.id}
	if slices.Contains(b.selection, h.id) {
		ids = b.Selection()
	}
	if g := moveGesture(b.scene, ids, h.id, p); g != nil && !p.mods.Shift {
		return g
	}
	return stayGesture(b.scene, h.id, p)
}

// handleGesture is the gesture of the handle under the pointer, of what is selected
// alone; nil: there is none.
func handleGesture(sc *scene, p pointer) *gesture {
	if len(sc.selection) != 1 {
		return nil
	}
	id := sc.selection[0]
	reach := hitPx / 2 / sc.view.PerM
	h, onWay := wayHandleAt(sc, p.at)
	if v, ok := turnableVehicle(sc); ok {
		if d := turnHandle(sc, v).Dist(p.at); d <= reach && !(onWay && h.at.Dist(p.at) < d) {
			return turnGesture(sc, v, p)
		}
	}
	if onWay {
		return wayGesture(sc, h, p)
	}
	if at, _, ok := rimHandle(sc, id); ok && at.Dist(p.at) <= reach {
		return rimGesture(sc, id, p)
	}
	if at, ok := strapHandle(sc, id); ok && at.Dist(p.at) <= reach {
		return strapGesture(sc, id, p)
	}
	if g := endHandle(sc, id, p); g != nil {
		return g
	}
	return cornerHandle(sc, id, p)
}

// pick selects the thing that was clicked; Shift adds or takes away, Alt takes
// the next of those that lie over one another.
func pick(b *Board, id plan.ID, from pointer) {
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

// stayGesture is the gesture on a thing that a drag does not move: it says why.
func stayGesture(sc *scene, id plan.ID, p pointer) *gesture {
	return &gesture{from: p, tap: func(b *Board) { pick(b, id, p) }, outcome: func(pointer) outcome {
		return outcome{selected: []plan.ID{id}, report: whyStays(sc, id)}
	}}
}

// whyStays says why a thing that was dragged did not move.
func whyStays(sc *scene, id plan.ID) string {
	if h := headOf(sc.plan, sc.at(), id); h != nil && h.Locked {
		return sc.label("locked", part.Text("thing", sc.name(id)))
	}
	return sc.label("lies-by-forces", part.Text("thing", sc.name(id)))
}

// endHandle is the gesture of the end of a selected line under the pointer.
func endHandle(sc *scene, id plan.ID, p pointer) *gesture {
	l := sc.at().Line(id)
	if l == nil || len(l.Path) < 2 || l.Locked {
		return nil
	}
	a, _ := stretchEnds(sc, id, 0)
	_, c := stretchEnds(sc, id, len(l.Path)-2)
	reach := hitPx / 2 / sc.view.PerM
	switch {
	case c.Dist(p.at) <= reach:
		return endGesture(sc, id, len(l.Path)-1, p)
	case a.Dist(p.at) <= reach:
		return endGesture(sc, id, 0, p)
	}
	return nil
}
