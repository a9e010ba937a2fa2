package board

import (
	"slices"

	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// key takes a named key.
func (b *Board) key(e Key) {
	if e.Mods.Ctrl {
		if id, ok := shortcut(e); ok {
			b.command(id)
			return
		}
	}
	if b.questionKey(e.Name) {
		return
	}
	if b.turning && e.Name != "Escape" && e.Name != "Enter" && b.turnBy(e.Name, e.Mods) {
		return
	}
	if dx, dy, ok := arrowWay(b.scene, e.Name, e.Mods); ok {
		if b.nudgeWay(dx, dy) {
			return
		}
		if b.Tool() == ToolSelect && b.gesture == nil && b.nudges() && b.cross == nil {
			b.nudge(dx, dy)
			return
		}
		b.crossTo(b.crossStart().Plus(dx, dy))
		return
	}
	switch e.Name {
	case "Escape":
		b.escape()
	case "Enter", "Return":
		b.enter(e.Mods)
	case "Tab":
		b.tab(e.Mods.Shift)
	case "Backspace":
		b.backspace()
	case "Delete":
		b.command("delete")
	}
}

// escape cancels, then goes to Select, then selects nothing.
func (b *Board) escape() {
	switch {
	case b.unfix(true):
	case b.cancel():
	case b.Tool() != ToolSelect:
		waiting := b.Tool() == ToolPicturePoints && len(b.collected()) > 0
		if b.arm(ToolSelect); waiting {
			b.say(b.label("picture-points-kept", part.Count("number", len(b.collected())), part.Count("least", plan.LeastPicturePoints)))
		}
	case b.cross != nil:
		b.cross = nil
	default:
		b.Select()
	}
	b.changed()
}

// backspace takes back the last character typed, the last corner or point
// collected, or deletes what is selected.
func (b *Board) backspace() {
	switch {
	case b.unfix(false):
		return
	case b.typed != "":
		t := []rune(b.typed)
		b.typed = string(t[:len(t)-1])
	case b.gesture != nil: // one too many while a number is typed takes nothing away
	case collectedBack(b):
	case b.tool.its().collecting():
		b.tool.its().back()
	case b.Tool() == ToolSelect:
		b.command("delete")
		return
	}
	if b.Tool() != ToolSelect && b.gesture == nil {
		b.hover(b.here())
	}
	b.changed()
}

// enter takes what is typed, ends what is being collected, or clicks at the
// crosshair.
func (b *Board) enter(m Mods) {
	switch {
	case b.typed != "":
		b.jump()
	case b.turning:
		b.turning = false
	case b.onWay != nil && b.gesture == nil && b.cross == nil:
		b.onWay = nil
	case b.hang != nil:
		b.takeHang()
	case b.gesture != nil:
		b.release(b.gesture, b.here())
	case b.figure != "":
		b.click(m)
	case b.cross == nil || b.enterEnds():
		b.tool.end(b)
	case !m.Shift && b.bendsAtCross():
		b.startHang()
	default:
		b.click(m)
	}
	b.changed()
}

// enterEnds reports whether Enter at the crosshair ends what is collected: it stands
// where the last one was added.
func (b *Board) enterEnds() bool {
	at := *b.cross
	c := b.tool.its()
	if pts := c.points; len(pts) > 0 {
		return pts[len(pts)-1] == at
	}
	if path := c.path; len(path) > 0 {
		if !b.crossPort.IsZero() {
			return path[len(path)-1] == b.crossPort
		}
		s, ok := b.spotOf(path[len(path)-1])
		return ok && rounded(s.at, fineM/10) == at
	}
	return false
}

// click presses and lets go at the crosshair; with Shift it adds to what is
// selected, or takes away.
func (b *Board) click(m Mods) {
	p := b.aimed(b.here())
	p.mods.Shift = m.Shift
	if p.fix != nil && p.fix.why != "" {
		b.say(p.fix.why)
		return
	}
	b.cancelGesture()
	b.gesture = b.tool.press(b, p, 1)
	g := b.gesture
	if g == nil {
		return
	}
	b.gesture = nil
	if g.tap != nil {
		g.tap(b)
	} else {
		b.commit(g.outcome(p))
	}
	b.hoverAfter()
}

// letter takes a letter that arms no tool.
func (b *Board) letter(r rune) {
	switch r {
	case ' ':
		b.grab()
	case 'r':
		if _, ok := turnableVehicle(b.scene); ok {
			b.turning = true
			b.say(b.label("prompt-turn"))
		} else if lockedAlone(b.scene) {
			b.say(whyStays(b.scene, b.selection[0]))
		} else {
			b.say(b.label("keys-turn"))
		}
	case '[', ']':
		b.stepSling(r == ']')
	case '{':
		b.command("strap-down")
	case '}':
		b.command("strap-up")
	case 'h':
		b.startHang()
	case 'e':
		b.startEnd()
	case 'w':
		b.command("ways")
	case 'u':
		b.nextUnits()
	case '+', '=':
		b.command("zoom-in")
	}
}

// grab takes hold at the crosshair of what a press of the pointer would: arrows
// then drag it, a number typed fixes it, Enter lets go, Esc leaves it.
func (b *Board) grab() {
	switch {
	case b.gesture != nil:
		b.release(b.gesture, b.here())
		b.hoverAfter()
		return
	case b.cross == nil:
		b.say(b.label("prompt-grab"))
		return
	}
	b.turning, b.hang = false, nil
	b.gesture = b.tool.press(b, b.here(), 1)
	if b.gesture != nil {
		b.say(b.label("prompt-grabbed"))
	}
}

// nextUnits shows the next of the usual systems of units.
func (b *Board) nextUnits() {
	usual := []quantity.System{quantity.Metric, quantity.Imperial, quantity.KgfMetric}
	i := slices.Index(usual, b.words.System())
	b.SetWords(b.words.In(usual[(i+1)%len(usual)]))
	b.say(b.label("prompt-units", part.Text("units", b.words.System().String())))
}

// stepSling gives the sling of the selected block, or the sling selected, the
// next length of the kit.
func (b *Board) stepSling(longer bool) {
	x := b.at()
	if len(b.selection) != 1 {
		b.say(b.label("no-sling-picked"))
		return
	}
	id := b.selection[0]
	s := x.Sling(id)
	if s == nil && x.Rig != nil && x.Block(id) != nil {
		s = slungBy(x.Rig, id)
	}
	if s == nil {
		b.say(b.label("no-sling"))
		return
	}
	next := quantity.Length(0)
	for _, l := range layout.KitLengths() {
		if longer && l > s.Length && next == 0 || !longer && l < s.Length {
			next = l
		}
	}
	if next == 0 {
		b.say(b.label("no-other-length"))
		return
	}
	b.commit(outcome{plan: withSling(b.scene, s.ID, next), name: b.label("edit-sling-length", part.Text("thing", b.name(s.ID))), selected: []plan.ID{id},
		report: kitText(b.scene, next)})
}
