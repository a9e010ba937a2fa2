package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Overlay is what the board adds to the picture of [Board.Shown].
func (b *Board) Overlay() *draw.Overlay {
	if b.ways != nil {
		return b.wayOverlay()
	}
	o := b.out
	v := &draw.Overlay{
		Ghost: o.ghost, Ports: o.ports, Rubber: o.rubber, RubberRefused: o.refused, RubberFrom: o.from,
		Guides: o.guides, Texts: o.texts, Arcs: o.arcs, Moved: o.moved, Preview: o.preview && b.shown != nil,
		Handles: slices.Clone(o.handles), Flagged: b.flagged, Way: o.way, Places: o.places, Dim: o.dim,
	}
	x := b.at()
	for _, id := range b.selection {
		if x.Kind(id) != plan.NoThing {
			v.Selected = append(v.Selected, id)
		}
	}
	switch g := b.gesture; {
	case g == nil:
		b.hovered(v)
		b.handles(v)
	case g.frame && g.far:
		v.Frame = &[2]plan.Point{g.from.at, b.here().at}
	case g.far:
		v.Dragged = g.dragged
	}
	if b.cross != nil {
		at := *b.cross
		v.Cross = &at
		if b.typed == "" {
			v.Texts = append(slices.Clone(v.Texts), draw.FreeText{At: at, Text: placeText(b.scene, at), Grey: true})
		}
	}
	b.overPicture(v)
	if b.gesture == nil && b.Tool() == ToolSelect && nothingStands(b.scene) {
		v.Texts = append(v.Texts, draw.FreeText{At: b.view.Middle, Text: b.label("prompt-empty"), Grey: true})
	}
	return v
}

// nothingStands reports whether nothing stands on the sheet.
func nothingStands(sc *scene) bool {
	sc.spots()
	return sc.found.none
}

// hovered marks what is under the pointer with the select tool.
func (b *Board) hovered(v *draw.Overlay) {
	if b.Tool() != ToolSelect || !b.pointer.on || b.cross != nil {
		return
	}
	if l := tagAt(b.scene, b.pointer); l != nil {
		v.HoverPart = l.Part
		if things := tagThings(b.scene, l); len(things) > 0 {
			v.Hover = things[0]
		}
		if f := tagFinding(b.scene, l); f != nil && v.Flagged == "" {
			v.Flagged = f.Key()
		}
		return
	}
	if h, ok := hitAt(b.scene, b.pointer.at); ok {
		v.Hover, v.HoverPart = h.id, h.part
	}
}

// handles are what can be taken hold of at the thing that is selected.
func (b *Board) handles(v *draw.Overlay) {
	if b.Tool() != ToolSelect || len(b.selection) != 1 {
		return
	}
	hot := func(at plan.Point) bool {
		return b.pointer.on && at.Dist(b.pointer.at)*b.view.PerM <= hitPx/2
	}
	if t, ok := turnableVehicle(b.scene); ok {
		at := turnHandle(b.scene, t)
		v.Handles = append(v.Handles, draw.Handle{At: at, Kind: "turn", Hot: hot(at) || b.turning})
	}
	if w := wayPicked(b.scene); w != nil {
		_, taken, _ := b.wayTaken()
		for _, h := range w.handles(b.scene) {
			v.Handles = append(v.Handles, draw.Handle{At: h.at, Kind: h.kind.handleKind(), Hot: hot(h.at) || h == taken})
		}
		v.Way = wayLines(b.scene, w)
	}
	if at, _, ok := rimHandle(b.scene, b.selection[0]); ok {
		v.Handles = append(v.Handles, draw.Handle{At: at, Kind: "end", Hot: hot(at)})
	}
	if at, ok := strapHandle(b.scene, b.selection[0]); ok {
		v.Handles = append(v.Handles, draw.Handle{At: at, Kind: "strap", Hot: hot(at)})
	}
	for _, c := range cornersOf(b.scene, b.selection[0]) {
		v.Handles = append(v.Handles, draw.Handle{At: c, Kind: "corner", Hot: hot(c)})
	}
	if l := b.at().Line(b.selection[0]); l != nil && len(l.Path) >= 2 && !l.Locked {
		a, _ := stretchEnds(b.scene, l.ID, 0)
		_, c := stretchEnds(b.scene, l.ID, len(l.Path)-2)
		v.Handles = append(v.Handles, draw.Handle{At: a, Kind: "end", Hot: hot(a)}, draw.Handle{At: c, Kind: "end", Hot: hot(c)})
	}
}

// Flag points at a finding by its key, as a card under the pointer does; empty
// at none.
func (b *Board) Flag(key string) {
	if b.flagged != key {
		b.flagged = key
		b.changed()
	}
}

// HoverPart is the part of the answer under the pointer, for its sum; empty if
// there is none.
func (b *Board) HoverPart() string {
	if b.gesture != nil || !b.pointer.on || b.ways != nil {
		return ""
	}
	if l := tagAt(b.scene, b.pointer); l != nil && b.Tool() == ToolSelect {
		return l.Part
	}
	if h, ok := hitAt(b.scene, b.pointer.at); ok {
		return h.part
	}
	return ""
}

// PartOf is the part of the answer that explains a selected thing best: the part
// itself, else the first that belongs to it; empty if none does.
func (b *Board) PartOf(id plan.ID) string {
	a := b.Answer()
	if p, ok := a.Part(string(id)); ok {
		return p.ID
	}
	for i := range a.Parts {
		if a.Parts[i].Thing == id {
			return a.Parts[i].ID
		}
	}
	return ""
}

// Prompt is the status line: what was just done or refused, else the open
// question, else what the tool would do next.
func (b *Board) Prompt() string {
	switch {
	case b.report != "":
		return b.report
	case b.ways != nil:
		return wayPrompt(b.scene)
	case b.figure != "" && (b.gesture != nil || b.tool.its().collecting()):
		if x := b.out.prompt; x != "" && b.out.report == x { // why not
			return x
		}
		return b.label("prompt-fixed", part.Text("typed", b.figure))
	case b.typed != "":
		return b.label("prompt-place", part.Text("typed", b.typed))
	case b.out.prompt != "" && (b.gesture != nil && b.gesture.far || b.question == nil):
		return b.out.prompt
	case b.gesture != nil && b.cross != nil:
		return b.label("prompt-grabbed")
	case b.question != nil && b.question.Error != "":
		return b.question.Error
	case b.question != nil:
		return b.question.Label
	case b.hang != nil:
		return b.hang.prompt(b.scene)
	case b.turning:
		return b.label("prompt-turn")
	}
	if _, h, ok := b.wayTaken(); ok {
		return wayHandlePrompt(b.scene, h)
	}
	return b.tool.prompt(b.scene)
}

// idlePrompt is what could be done next with nothing armed.
func idlePrompt(sc *scene) string {
	if nothingStands(sc) {
		return sc.label("prompt-empty")
	}
	x := sc.at()
	if len(sc.selection) == 1 {
		switch id := sc.selection[0]; {
		case x.Line(id) != nil && lineBears(sc, id):
			return sc.label("prompt-drag-on")
		case x.Line(id) != nil:
			return sc.label("prompt-bend")
		case damperOf(sc, id) != nil:
			return sc.label("prompt-damper", part.Text("keys", "{ }"))
		case canSlide(sc):
			return sc.label("prompt-strap")
		case wayPicked(sc) != nil:
			return sc.label("prompt-exit")
		case x.Block(id) != nil:
			return sc.label("prompt-block", part.Text("thing", sc.name(id)))
		case x.Pin(id) != nil:
			m, _ := sc.markOf(id)
			return pinLine(sc, &m)
		}
	}
	return sc.label("prompt-select")
}

// lineBears reports whether the answer refuses a line because it bears on something.
func lineBears(sc *scene, line plan.ID) bool {
	a := sc.planAnswer()
	return slices.ContainsFunc(a.Stretches, func(s part.Stretch) bool { return s.Line == line && len(s.Contacts) > 0 })
}
