package board

import (
	"math"
	"strings"
	"unicode"

	"kedge/solver/plan"
)

// Handle takes an event. Places that are not finite are passed over.
func (b *Board) Handle(ev Event) {
	if k, ok := ev.(Key); !ok || !strings.HasPrefix(k.Name, "Arrow") {
		if _, ok := ev.(PointerMove); !ok {
			b.running = ""
		}
	}
	switch e := ev.(type) {
	case PointerMove:
		if ok := b.pointTo(e.X, e.Y, e.Mods); ok {
			b.move()
		}
	case PointerDown:
		if ok := b.pointTo(e.X, e.Y, e.Mods); ok {
			b.begin()
			b.down(e)
		}
	case PointerUp:
		if ok := b.pointTo(e.X, e.Y, e.Mods); ok {
			b.up()
		}
	case PointerLeave:
		b.pointer.on = false
		if b.gesture == nil {
			b.show(outcome{})
		}
	case Wheel:
		if finiteAll(e.X, e.Y, e.DX, e.DY) {
			b.wheel(e)
		}
	case Key:
		b.begin()
		b.key(e)
	case Rune:
		b.begin()
		b.rune(e.R)
	case Command:
		b.begin()
		b.command(e.ID)
	case Resize:
		b.resize(e.W, e.H)
	}
}

func finiteAll(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// begin forgets what was reported of the event before.
func (b *Board) begin() {
	if b.report != "" {
		b.report = ""
		b.changed()
	}
}

// pointTo takes the place of the pointer; the crosshair goes when the pointer
// moves.
func (b *Board) pointTo(x, y float64, m Mods) bool {
	if !finiteAll(x, y) {
		return false
	}
	if b.cross != nil && (x != b.pointer.x || y != b.pointer.y) {
		b.cross = nil
	}
	if math.Hypot(x-b.pointer.x, y-b.pointer.y) > dragPx {
		b.cycle = 0
	}
	b.pointer = pointer{x: x, y: y, at: b.view.ToPlan(x, y), mods: m, on: true}
	return true
}

func (b *Board) move() {
	g := b.gesture
	if g == nil {
		b.hover(b.pointer)
		return
	}
	if math.Hypot(b.pointer.x-g.from.x, b.pointer.y-g.from.y) >= dragPx {
		g.far = true
	}
	switch {
	case g.pan:
		b.pan(b.pointer.x-g.lastX, b.pointer.y-g.lastY)
		g.lastX, g.lastY = b.pointer.x, b.pointer.y
	case g.far:
		b.show(g.outcome(b.pointer))
	}
}

// hover shows what the tool would do at p, without a preview of the plan: until
// a button is pressed nothing is edited.
func (b *Board) hover(p pointer) {
	o := b.aiming(p)
	o.plan, o.preview = nil, false
	b.show(o)
}

// aiming is what the armed tool shows at p.
func (b *Board) aiming(p pointer) outcome {
	switch b.tool {
	case ToolSelect:
		return outcome{}
	case ToolObstacle:
		return b.corner(p)
	case ToolMeasure:
		return b.measuring(p)
	case ToolLine:
		return b.leading(p, b.path())
	case ToolBlock:
		return b.placeBlock(p)
	case ToolSling:
		return b.placeSling(p)
	case ToolGround:
		return outcome{prompt: b.label("prompt-ground-tool")}
	}
	return b.placing(p)
}

func (b *Board) down(e PointerDown) {
	p := b.pointer
	if b.gesture != nil {
		b.cancelGesture()
	}
	switch e.Button {
	case ButtonMiddle:
		b.gesture = &gesture{from: p, pan: true, lastX: p.x, lastY: p.y, tap: func() {}, outcome: func(pointer) outcome { return outcome{} }}
		return
	case ButtonSecond:
		if h, ok := b.hitAt(p.at); ok && b.tool == ToolSelect {
			b.Select(h.id)
		}
		return
	}
	if !b.closeQuestion() {
		return
	}
	if p.mods.Alt && b.tool == ToolSelect {
		b.cycle++
	}
	b.turning = false
	b.press(p, e.Clicks)
}

// press begins the gesture of the tool that is armed.
func (b *Board) press(p pointer, clicks int) {
	switch b.tool {
	case ToolSelect:
		b.gesture = b.pressed(p)
	case ToolObstacle:
		if clicks >= 2 && len(b.points()) > 0 {
			b.closeOutline()
			return
		}
		b.gesture = &gesture{from: p, tap: func() { b.addCorner(p) }, outcome: func(q pointer) outcome {
			if len(b.points()) > 0 {
				return b.corner(q)
			}
			return b.roundObstacle(p, q)
		}}
	case ToolMeasure:
		if clicks >= 2 && len(b.points()) > 0 {
			b.endMeasure()
			return
		}
		from, _ := b.measureAt(p)
		b.gesture = &gesture{from: p, tap: func() { b.addMeasure(p) }, outcome: func(q pointer) outcome {
			to, _ := b.measureAt(q)
			if to == from || len(b.points()) > 0 {
				return outcome{}
			}
			return b.measure([]plan.Point{from, to})
		}}
	case ToolLine:
		b.pressLine(p, clicks)
	case ToolGround:
		b.gesture = &gesture{from: p, tap: func() { b.selectGround() }, outcome: func(q pointer) outcome { return b.downhill(p, q) }}
	case ToolSling:
		b.gesture = &gesture{from: p, tap: func() { b.slingClick(p) }, outcome: b.placeSling}
	default:
		b.gesture = &gesture{from: p, outcome: b.aiming, tap: func() {
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
	g := &gesture{from: p, tap: func() { b.addToLine(p) }}
	path := b.path()
	if len(path) == 0 {
		s, ok := b.spotAt(p, nil)
		if !ok {
			b.say(b.label("prompt-line"))
			return
		}
		path = []plan.Port{s.port}
	}
	g.outcome = func(q pointer) outcome { return b.leading(q, path) }
	g.missed = func() { // let go over empty ground: the next press goes on
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
		g.tap()
		b.hoverAfter()
		return
	}
	o := g.outcome(b.pointer)
	if o.plan == nil && g.missed != nil {
		b.cancelGesture()
		g.missed()
		b.hoverAfter()
		return
	}
	if o.plan != nil {
		b.pending = nil
	}
	b.commit(o)
	b.hoverAfter()
}

// hoverAfter shows the tool at the pointer once a gesture is over.
func (b *Board) hoverAfter() {
	if b.tool != ToolSelect && b.gesture == nil {
		b.hover(b.here())
	}
}

// cancelGesture drops the gesture and its preview; what was collected stays.
func (b *Board) cancelGesture() {
	b.gesture, b.shown, b.out = nil, nil, outcome{}
	b.changed()
}

// here is where the next click counts: the crosshair, or the pointer.
func (b *Board) here() pointer {
	if b.cross == nil {
		return b.pointer
	}
	x, y := b.view.ToPen(*b.cross)
	return pointer{x: x, y: y, at: *b.cross, on: true, keys: true}
}

func (b *Board) wheel(e Wheel) {
	if e.Mods.Shift {
		b.pan(e.DY, e.DX)
		return
	}
	if e.DX != 0 {
		b.pan(e.DX, 0)
	}
	if e.DY != 0 {
		b.zoom(math.Pow(zoomStep, math.Max(-10, math.Min(10, e.DY))), e.X, e.Y)
	}
}

// rune takes a character: it goes to the open question, to the place being
// typed, or arms a tool.
func (b *Board) rune(r rune) {
	if !unicode.IsPrint(r) {
		return
	}
	if b.questionRune(r) || b.typeRune(r) {
		return
	}
	r = unicode.ToLower(r)
	if t, ok := toolOf(r); ok {
		if b.tool == t {
			b.nextKind()
			b.hover(b.here())
			return
		}
		b.arm(t)
		return
	}
	b.letter(r)
}

// arm makes a tool the one that is used. What was collected is dropped.
func (b *Board) arm(t Tool) {
	b.cancel()
	b.question = nil
	if b.tool != t {
		b.kinds = kinds{}
	}
	b.tool, b.cycle = t, 0
	switch t {
	case ToolSelect:
	case ToolGround:
		b.selectGround()
	default:
		b.hover(b.here())
	}
	b.changed()
}

// Arm makes a tool the one that is used.
func (b *Board) Arm(t Tool) {
	b.begin()
	b.arm(t)
}

// selectGround selects the ground, so that Details shows it, and asks for its
// slope.
func (b *Board) selectGround() {
	b.Select(ThingGround)
	b.ask(ThingGround)
}

// downhill is what a drag with the ground tool does: it sets where the ground
// falls to.
func (b *Board) downhill(from, p pointer) outcome {
	d := b.draft(false)
	to := bearing(from.at, p.at)
	if !p.mods.Alt {
		to = roundedBearing(to)
	}
	g := d.Site.Ground
	g.Downhill = to
	d.Site.Ground = g
	o := outcome{plan: d.Plan, name: b.label("edit-downhill"), selected: []plan.ID{ThingGround}, rubber: []plan.Point{from.at, p.at}, preview: true}
	if g.Slope == 0 {
		o.then = func() { b.ask(ThingGround) }
	}
	return o
}
