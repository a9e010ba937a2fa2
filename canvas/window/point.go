package window

import (
	"image/color"

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
	most := float64(w.view.Size().Height)
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
		for _, l := range k.lastOf(ws.Sum(sum, naming), most-k.px(scaleHigh+8)) {
			k.y = k.para(k.px(10)+k.indent(l), k.y, k.w-k.px(20)-k.indent(l), l, in(k.small(), k.c.Ink)) + 1
		}
		k.box(0.75, 0.75, k.w-1.5, k.y+k.px(8)-1.5, 2, color.NRGBA{}, k.c.Ink, 1.2)
	}
}

// lastOf are the last lines of a sum that have room above most: they lead to
// the figure. Pinned, all of them are there.
func (k *ink) lastOf(lines []string, most float64) []string {
	t := k.small()
	high := k.y + line(t) // and what is left out
	for i := len(lines) - 1; i >= 0; i-- {
		high += float64(len(wrap(lines[i], t, k.w-k.px(20)-k.indent(lines[i]))))*line(t) + 1
		if high > most && i < len(lines)-1 {
			return append([]string{"…"}, lines[i+1:]...)
		}
	}
	return lines
}
