package board

import (
	"math"

	"kedge/canvas/form"
	"kedge/solver/plan"
)

// press begins the gesture of the tool that is armed.
func (b *Board) press(p pointer, clicks int) {
	switch b.tool {
	case ToolSelect:
		if clicks >= 2 && b.giveBack(p) {
			return
		}
		b.gesture = b.pressed(p)
	case ToolObstacle:
		if clicks >= 2 && len(b.points()) > 0 {
			b.closeOutline()
			return
		}
		if pts := b.points(); len(pts) > 0 { // dragged, the edge ends where it is let go
			b.gesture = &gesture{from: p, tap: func(b *Board) { b.addCorner(p) }, outcome: b.nextCorner, missed: (*Board).addCorner, fix: fixable{fixLength, pts[len(pts)-1]}}
			return
		}
		middle, _ := snap(b.scene, p, nil, trail{})
		b.gesture = &gesture{from: p, tap: func(b *Board) { b.addCorner(p) }, fix: fixable{fixAcross, middle},
			outcome: func(q pointer) outcome { return roundObstacle(b.scene, p, q) }}
	case ToolMeasure:
		if clicks >= 2 && len(b.points()) > 0 {
			b.endMeasure()
			return
		}
		if pts := b.points(); len(pts) > 0 {
			b.gesture = &gesture{from: p, tap: func(b *Board) { b.addMeasure(p) }, outcome: b.nextMeasure, missed: (*Board).addMeasure, fix: fixable{fixLength, pts[len(pts)-1]}}
			return
		}
		from := measureAt(b.scene, p, nil).at
		b.gesture = &gesture{from: p, tap: func(b *Board) { b.addMeasure(p) }, fix: fixable{fixLength, from},
			outcome: func(q pointer) outcome { return measured(b.scene, from, q) }}
	case ToolLine:
		b.pressLine(p, clicks)
	case ToolPictureMove, ToolPictureScale, ToolPictureTurn:
		b.pressPicture(p)
	case ToolGround:
		b.gesture = &gesture{from: p, tap: func(b *Board) { b.selectGround() }, outcome: func(q pointer) outcome { return downhill(b.scene, p, q) }}
	case ToolSling:
		b.gesture = &gesture{from: p, tap: func(b *Board) { b.slingClick(p) }, outcome: b.placeSling}
	default:
		b.gesture = &gesture{from: p, outcome: b.aiming, tap: func(b *Board) {
			o := b.aiming(p)
			b.commit(o)
			if o.plan == nil && o.prompt != "" {
				b.say(o.prompt)
			}
		}}
	}
}

// pressLine begins a drag from a hook-on point, or goes on with the line that
// is being clicked together.
func (b *Board) pressLine(p pointer, clicks int) {
	if clicks >= 2 && len(b.path()) >= 2 {
		b.endLine()
		return
	}
	g := &gesture{from: p, tap: func(b *Board) { b.addToLine(p) }}
	path := b.path()
	if len(path) == 0 {
		s, ok := spotAt(b.scene, p, nil)
		if !ok {
			b.say(b.label("prompt-line"))
			return
		}
		path = []plan.Port{s.port}
	}
	if s, ok := b.spotOf(path[len(path)-1]); ok {
		g.fix = fixable{fixLength, s.at}
	}
	g.outcome = func(q pointer) outcome { return b.leading(q, path) }
	g.missed = func(b *Board, _ pointer) { // let go over empty ground: the next press goes on
		b.pending = &pending{path: path}
		b.say(b.label("loose-end"))
	}
	b.gesture = g
}

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
		b.pending = nil
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
	switch b.tool {
	case ToolLine, ToolObstacle, ToolMeasure, ToolSling:
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

// selectGround selects the ground, so that Details shows it, and asks for its
// slope.
func (b *Board) selectGround() {
	b.Select(form.ThingGround)
	b.ask(form.ThingGround)
}

// downhill is what a drag with the ground tool does: it sets where the ground
// falls to.
func downhill(sc *scene, from, p pointer) outcome {
	d := sc.draft(false)
	to := bearing(from.at, p.at)
	if !p.mods.Alt {
		to = roundedBearing(to)
	}
	g := d.Site.Ground
	g.Downhill = plan.Known(to)
	d.Site.Ground = g
	o := outcome{plan: d.Plan, name: sc.label("edit-downhill"), selected: []plan.ID{form.ThingGround}, rubber: []plan.Point{from.at, p.at}, preview: true}
	if g.Slope.Or(0) == 0 {
		o.then = func(b *Board) { b.ask(form.ThingGround) }
	}
	return o
}
