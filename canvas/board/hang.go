package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Hanging by keyboard: H on a block hangs it elsewhere, H again fixes it to a
// point; H on a line, or Enter with the crosshair on the line that is selected,
// bends a stretch of it over something, H again the next stretch; E hangs the end
// of a line elsewhere, E again the other end. Tab goes from point to point,
// arrows move the crosshair, Enter takes it. What is done is what dragging there
// does.

// hanging is what is being hung by keyboard.
type hanging struct {
	id   plan.ID
	kind hangKind
	n    int // the stretch, or the place of the end in the line's path
}

type hangKind int

const (
	hangBlock hangKind = iota // a block on another anchor
	hangFixed                 // a block to a point
	hangBend                  // a stretch over something
	hangEnd                   // an end of a line
)

// startHang begins it for the block or line that is selected alone; begun
// already, it goes on to the next way or stretch.
func (b *Board) startHang() {
	x := b.at()
	if len(b.selection) != 1 {
		b.say(b.label("keys-hang"))
		return
	}
	id := b.selection[0]
	h := hanging{id: id}
	switch l := x.Line(id); {
	case l != nil:
		h.kind, h.n = hangBend, bendStretch(b.scene, id)
		if n := len(l.Path) - 1; b.hang != nil && b.hang.id == id && b.hang.kind == hangBend && n > 0 {
			h.n = (b.hang.n + 1) % n
		} else if s, ok := b.stretchAtCross(id); ok {
			h.n = s
		}
	case x.Block(id) == nil:
		b.say(b.label("keys-hang"))
		return
	case b.hang != nil && b.hang.id == id && b.hang.kind == hangBlock:
		h.kind = hangFixed
	}
	b.beginHang(h)
}

// startEnd begins to hang the far end of the line that is selected alone; begun
// already, the other end.
func (b *Board) startEnd() {
	if b.startWay() {
		return
	}
	l := (*plan.Line)(nil)
	if len(b.selection) == 1 {
		l = b.at().Line(b.selection[0])
	}
	if l == nil || len(l.Path) < 2 {
		b.say(b.label("keys-end"))
		return
	}
	id := l.ID
	h := hanging{id: id, kind: hangEnd, n: len(l.Path) - 1}
	if b.hang != nil && b.hang.id == id && b.hang.kind == hangEnd && b.hang.n > 0 {
		h.n = 0
	}
	b.beginHang(h)
}

// lockedAlone reports whether the one thing selected is locked.
func lockedAlone(sc *scene) bool {
	if len(sc.selection) != 1 {
		return false
	}
	h := headOf(sc.plan, sc.at(), sc.selection[0])
	return h != nil && h.Locked
}

// beginHang shows what is offered, the crosshair at what is hung.
func (b *Board) beginHang(h hanging) {
	if head := headOf(b.plan, b.at(), h.id); head == nil || head.Locked {
		b.say(whyStays(b.scene, h.id))
		return
	}
	b.cancel()
	b.hang = &h
	at := hangsAt(b.scene, h, b.crossStart())
	b.cross, b.crossPort = &at, plan.Port{}
	o := hangAt(b.scene, h, b.here())
	o.plan, o.held, o.preview = nil, nil, false // nothing was moved yet
	b.show(o)
	b.say(b.hang.prompt(b.scene))
}

// hangsAt is where the crosshair stands as hanging begins.
func hangsAt(sc *scene, h hanging, at plan.Point) plan.Point {
	switch h.kind {
	case hangBend:
		if a, c := stretchEnds(sc, h.id, h.n); a != c {
			at = a.Mid(c)
		}
	case hangEnd:
		a, c := stretchEnds(sc, h.id, max(0, h.n-1))
		at = a
		if h.n > 0 {
			at = c
		}
	default:
		if p, ok := sc.settled(h.id); ok {
			at = p
		}
	}
	return rounded(at, fineM/10)
}

// stretchAtCross is the stretch of a line that the crosshair stands on.
func (b *Board) stretchAtCross(id plan.ID) (int, bool) {
	if b.cross == nil {
		return 0, false
	}
	for _, h := range hitsAt(b.scene, *b.cross) {
		if h.id == id && h.kind == plan.ThingLine {
			return h.stretch, true
		}
	}
	return 0, false
}

// bendsAtCross reports whether Enter bends: the crosshair stands on the line that is
// selected alone.
func (b *Board) bendsAtCross() bool {
	if b.Tool() != ToolSelect || b.hang != nil || len(b.selection) != 1 || b.at().Line(b.selection[0]) == nil {
		return false
	}
	_, ok := b.stretchAtCross(b.selection[0])
	return ok
}

// takeHang takes the place of the crosshair; where nothing can be hung it goes
// on and says so.
func (b *Board) takeHang() {
	h := *b.hang
	o := hangAt(b.scene, h, b.here())
	if o.plan == nil {
		b.show(o)
		b.say(o.report)
		return
	}
	b.hang = nil
	b.commit(o)
}

// prompt says what the keys do while something is being hung.
func (h *hanging) prompt(sc *scene) string {
	thing := part.Text("thing", sc.name(h.id))
	switch h.kind {
	case hangFixed:
		return sc.label("prompt-hang-fixed", thing)
	case hangBend:
		n := 1
		if l := sc.at().Line(h.id); l != nil {
			n = len(l.Path) - 1
		}
		return sc.label("prompt-hang-bend", thing, part.Count("n", h.n+1), part.Count("of", n))
	case hangEnd:
		return sc.label("prompt-hang-end", thing)
	}
	return sc.label("prompt-hang", thing)
}

// hangAt is what taking a place does while something is being hung.
func hangAt(sc *scene, h hanging, p pointer) outcome {
	switch h.kind {
	case hangBend:
		return bentOn(sc, h.id, h.n, p)
	case hangEnd:
		return moveEnd(sc, h.id, h.n, p)
	case hangFixed:
		p.mods.Ctrl = true
	}
	return moveBlock(sc, h.id, p)
}

// hangWants tells on which hook-on points something can be hung.
func hangWants(sc *scene, h hanging) func(spot) bool {
	x := sc.at()
	if l := x.Line(h.id); l != nil {
		if h.kind == hangEnd {
			return endWants(l, h.n)
		}
		return bendWants(l)
	}
	if h.kind == hangFixed {
		if k := x.Block(h.id); k != nil {
			return fixWants(k)
		}
	}
	on := plan.Port{}
	if r := x.Rig; r != nil {
		if s := slungBy(r, h.id); s != nil {
			on = s.On
		}
	}
	return func(s spot) bool { return hangable(s) && s.port != on }
}

// fixWants tells to which hook-on points a block can be fixed.
func fixWants(k *plan.Block) func(spot) bool {
	return func(s spot) bool {
		return (s.kind == draw.PortRecovery || s.kind == draw.PortRated) && s.port != k.Fixed
	}
}

// endWants tells to which hook-on points an end of a line can be led.
func endWants(l *plan.Line, end int) func(spot) bool {
	other := 1
	if end > 0 {
		other = end - 1
	}
	return func(s spot) bool {
		return l.Path[other] != s.port && (end == 0 || s.port.Point != plan.PortWinch)
	}
}

// hangable reports whether a sling can go round, or be hooked to, a point of the
// site.
func hangable(s spot) bool {
	return s.site && (s.kind == draw.PortTrunk || s.kind == draw.PortRated || s.kind == draw.PortEye)
}

// bendWants tells over which hook-on points a line can be led.
func bendWants(l *plan.Line) func(spot) bool {
	return func(s spot) bool {
		return !slices.Contains(l.Path, s.port) && s.port.Point != plan.PortWinch && s.port.Point != plan.PortBecket && s.kind != draw.PortSling
	}
}

// bendStretch is the stretch of a line that wants bending first: one that bears
// on something, else the longest.
func bendStretch(sc *scene, id plan.ID) int {
	best, length := 0, -1.0
	a := sc.planAnswer()
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if s.Line != id {
			continue
		}
		if len(s.Contacts) > 0 {
			return s.Index
		}
		if float64(s.Length) > length {
			best, length = s.Index, float64(s.Length)
		}
	}
	return best
}
