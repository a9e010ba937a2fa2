package board

import (
	"math"
)

// up ends the gesture: taken where the pointer is, or, if it never moved, what
// a click does.
func (b *Board) up() {
	g := b.gesture
	if g == nil {
		return
	}
	if !g.far && math.Hypot(b.pointer.x-g.from.x, b.pointer.y-g.from.y) >= dragPx {
		g.far = true
	}
	if !g.far && g.tap != nil {
		b.cancelGesture()
		g.tap(b)
		b.hoverAfter()
		return
	}
	b.release(g, b.pointer)
	b.hoverAfter()
}

// release lets go of a gesture at p.
func (b *Board) release(g *gesture, p pointer) {
	o := b.letGo(g, p)
	if p = b.aimed(p); o.plan == nil && g.missed != nil && (p.fix == nil || p.fix.why == "") {
		b.cancelGesture()
		g.missed(b, p)
		return
	}
	if o.plan != nil {
		b.tool.its().drop()
	}
	b.commit(o)
}

// hoverAfter shows the tool at the pointer once a gesture is over, if it goes on
// with what was collected. Tools that place show the next ghost when the
// pointer moves on, not over the thing just placed.
func (b *Board) hoverAfter() {
	if b.gesture != nil {
		return
	}
	if b.tool.its().goesOn {
		b.hover(b.here())
	}
}

// cancelGesture drops the gesture and its preview; what was collected stays.
func (b *Board) cancelGesture() {
	b.gesture, b.shown, b.figure, b.out = nil, nil, "", outcome{}
	b.changed()
}

// here is where the next click counts: the crosshair, or the pointer.
func (b *Board) here() pointer {
	if b.cross == nil {
		return b.pointer
	}
	x, y := b.view.ToPen(*b.cross)
	return pointer{x: x, y: y, at: *b.cross, on: true, keys: true, port: b.crossPort}
}
