package board

import (
	"slices"

	"kedge/solver/plan"
)

// A handle of an exit path is taken by a click on it, or with E and Tab while its
// casualty is selected: arrows then move it, Delete takes a bend out.

// takeWay takes a handle of the path of the casualty that is selected alone.
func (b *Board) takeWay(h wayHandle) {
	b.onWay = &h
	b.changed()
}

// wayTaken is the handle that is taken, as it is now; false: none is.
func (b *Board) wayTaken() (*wayDrawn, wayHandle, bool) {
	if b.onWay == nil || b.Tool() != ToolSelect {
		return nil, wayHandle{}, false
	}
	w := wayPicked(b.scene)
	if w == nil {
		return nil, wayHandle{}, false
	}
	for _, h := range w.handles(b.scene) {
		if h.kind == b.onWay.kind && h.n == b.onWay.n {
			return w, h, true
		}
	}
	return nil, wayHandle{}, false
}

// startWay takes the end of the path; false if no casualty with one is selected alone.
func (b *Board) startWay() bool {
	w := wayPicked(b.scene)
	if w == nil {
		return false
	}
	b.cancel()
	b.cross, b.pointer.on = nil, false
	list := w.handles(b.scene)
	b.takeWay(list[len(list)-1])
	return true
}

// stepWay takes the next handle of the path, false if none is taken.
func (b *Board) stepWay(back bool) bool {
	w, h, ok := b.wayTaken()
	if !ok {
		return false
	}
	list := w.handles(b.scene)
	i := slices.Index(list, h)
	b.takeWay(list[stepIn(i, len(list), back)])
	return true
}

// nudgeWay moves the handle that is taken by an arrow key. Of a straight path along its
// wheels the arrows change the length: right and up make it longer.
func (b *Board) nudgeWay(dx, dy float64) bool {
	w, h, ok := b.wayTaken()
	if !ok || b.gesture != nil || b.cross != nil {
		return false
	}
	if h.kind == wayEnd && !w.bent && w.steered {
		dx, dy = (dx+dy)*w.ahead.X, (dx+dy)*w.ahead.Y
	}
	o := wayMoved(b.scene, w.v.ID, h, pointer{at: h.at.Plus(dx, dy), keys: true, on: true})
	b.run(o)
	return true
}

// deleteWay takes out the bend that is taken; false if no handle is.
func (b *Board) deleteWay() bool {
	w, h, ok := b.wayTaken()
	switch {
	case !ok:
		return false
	case h.kind != wayBend:
		b.say(b.label("exit-no-bend"))
	default:
		o := unbent(b.scene, w, h.n)
		o.then = func(b *Board) { b.takeWay(wayHandle{kind: wayEnd, n: len(w.corners) - 2}) }
		b.commit(o)
	}
	return true
}

// wayHandlePrompt says what the keys do with the handle that is taken.
func wayHandlePrompt(sc *scene, h wayHandle) string {
	return sc.label(map[wayKind]string{wayBend: "prompt-exit-bend", wayLeg: "prompt-exit-leg", wayEnd: "prompt-exit-end"}[h.kind])
}

// OnHandle reports whether a press at a place takes hold of the path of the casualty
// that is selected, whatever else is shown there.
func (b *Board) OnHandle(at plan.Point) bool {
	if b.Tool() != ToolSelect || b.ways != nil {
		return false
	}
	_, ok := wayHandleAt(b.scene, at)
	return ok
}
