package window

import (
	"image/color"
	"strings"

	"kedge/canvas/board"
	"kedge/solver"
)

// pointedPart is the part whose sum is shown while it is pointed at; empty:
// none.
func (w *Window) pointedPart() string {
	if w.view.down != 0 || w.board.Tool() != board.ToolSelect || w.popup.menuShown() != "" {
		return ""
	}
	id := w.pointed.part
	if id == "" {
		id = w.board.HoverPart()
	}
	if id == w.pinned {
		return ""
	}
	if _, ok := w.answer().Part(id); !ok {
		return ""
	}
	return id
}

// snapSum draws the sum of the part that is pointed at.
func (w *Window) snapSum() func(*ink) {
	id := w.pointedPart()
	if id == "" {
		return func(*ink) {}
	}
	p, rig, a, ws, names := w.board.Shown(), w.board.Rig(), w.answer(), w.words(), w.names()
	return func(k *ink) {
		k.fill(0, 0, k.w, 4000, k.c.Card)
		sum, err := solver.Explain(p, rig, id)
		if err != nil {
			return
		}
		naming := ws.Naming(a, names)
		title := id
		if q, ok := a.Part(id); ok {
			title = ws.PartName(q, naming)
		}
		k.y = k.px(6)
		k.y = k.para(k.px(10), k.y, k.w-k.px(20), title+"   "+w.label("pin-hint"), bold(k.mid())) + 2
		for _, l := range ws.Sum(sum, naming) {
			indent := float64(len(l)-len(strings.TrimLeft(l, " "))) * k.px(4)
			k.y = k.para(k.px(10)+indent, k.y, k.w-k.px(20)-indent, l, in(k.small(), k.c.Ink)) + 1
		}
		k.box(0.75, 0.75, k.w-1.5, k.y+k.px(8)-1.5, 2, color.NRGBA{}, k.c.Ink, 1.2)
	}
}
