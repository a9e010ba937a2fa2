package board

import (
	"math"
	"strings"
	"unicode"
)

// Handle takes an event. Places that are not finite are passed over.
func (b *Board) Handle(ev Event) {
	if k, ok := ev.(Key); !ok || !strings.HasPrefix(k.Name, "Arrow") {
		if !steps(ev) {
			b.running = ""
		}
	}
	if b.ways != nil {
		if _, moves := ev.(PointerMove); !moves {
			b.begin()
		}
		if b.atWays(ev) {
			return
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
		b.show(b.letGo(g, b.pointer))
	}
}

// hover shows what the tool would do at p, without a preview of the plan: until
// a button is pressed nothing is edited.
func (b *Board) hover(p pointer) {
	p = b.aimed(p)
	if p.fix != nil && p.fix.why != "" {
		b.show(unfixed(p, b.figure))
		return
	}
	o := b.tool.aim(b.scene, p)
	o.plan, o.held, o.preview = nil, nil, false
	b.show(o)
}

func (b *Board) down(e PointerDown) {
	p := b.aimed(b.pointer)
	if b.gesture != nil {
		b.cancelGesture()
	}
	switch e.Button {
	case ButtonMiddle:
		b.gesture = &gesture{from: p, pan: true, lastX: p.x, lastY: p.y, tap: func(*Board) {}, outcome: func(pointer) outcome { return outcome{} }}
		return
	case ButtonSecond:
		if h, ok := hitAt(b.scene, p.at); ok && b.Tool() == ToolSelect {
			b.Select(h.id)
		}
		return
	}
	if !b.closeQuestion() || b.question != nil { // refused, or the answer asked on
		return
	}
	if p.fix != nil && p.fix.why != "" {
		b.say(p.fix.why)
		return
	}
	if p.mods.Alt {
		b.cycle++
	}
	b.turning, b.hang = false, nil
	b.gesture = b.tool.press(b, p, e.Clicks)
}

func (b *Board) wheel(e Wheel) {
	if e.Mods.Alt && e.DY != 0 && stepStrap(b, math.Copysign(math.Min(10, math.Max(1, math.Round(math.Abs(e.DY)))), e.DY)) {
		return
	}
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
	if b.questionRune(r) || b.fixRune(r) || b.typeRune(r) {
		return
	}
	r = unicode.ToLower(r)
	if t, ok := toolOf(r); ok {
		if b.Tool() == t {
			b.tool.again(b.scene)
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
	if b.Tool() != t {
		b.tool = newTool(t)
	}
	b.cycle = 0
	b.tool.start(b)
	b.changed()
}

// Arm makes a tool the one that is used.
func (b *Board) Arm(t Tool) {
	b.begin()
	b.arm(t)
}
