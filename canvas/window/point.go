package window

import (
	"image/color"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/solver/travel"
)

// sumPanel shows the sum of what is pointed at.
type sumPanel struct {
	w    *Window
	pane *panel.Pane
}

// part is the part whose sum is shown while it is pointed at; empty:
// none.
func (sp *sumPanel) part() string {
	if sp.w.view.down != 0 || sp.w.board.Tool() != board.ToolSelect || sp.w.menus.popup.menuShown() != "" {
		return ""
	}
	id := sp.w.pointed.part
	if id == "" {
		id = sp.w.board.HoverPart()
	}
	if sp.w.whys.open[partRow(id)] {
		return ""
	}
	if _, ok := sp.w.answer().Part(id); !ok {
		return ""
	}
	return id
}

// snap draws the sum of the part that is pointed at.
func (sp *sumPanel) snap() func(*panel.Drawing) {
	id := sp.part()
	if id == "" {
		return func(*panel.Drawing) {}
	}
	p, rig, a, ws, names := sp.w.board.Shown(), sp.w.board.Rig(), sp.w.answer(), sp.w.words(), sp.w.names()
	most := float64(sp.w.view.Size().Height)
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, 4000, d.Shades.Card)
		derivation, err := travel.Explain(a, p, rig, id)
		if err != nil {
			return
		}
		naming := ws.Naming(a, names)
		title := id
		if q, ok := a.Part(id); ok {
			title = ws.PartName(q, naming)
		}
		d.Y = d.Px(6)
		d.Y = d.Para(d.Px(10), d.Y, d.W-d.Px(20), title+"   "+sp.w.label("pin-hint"), panel.Bold(d.Mid())) + 2
		for _, l := range lastOf(d, ws.Derivation(derivation, naming), most-d.Px(scaleHigh+8)) {
			d.Y = d.Para(d.Px(10)+d.Indent(l), d.Y, d.W-d.Px(20)-d.Indent(l), l, panel.Coloured(d.Small(), d.Shades.Ink)) + 1
		}
		d.Box(0.75, 0.75, d.W-1.5, d.Y+d.Px(8)-1.5, 2, color.NRGBA{}, d.Shades.Ink, 1.2)
	}
}

// lastOf are the last lines of a sum that have room above most: they lead to
// the figure. Pinned, all of them are there.
func lastOf(d *panel.Drawing, lines []string, most float64) []string {
	t := d.Small()
	high := d.Y + panel.LineHigh(t) // and what is left out
	for i := len(lines) - 1; i >= 0; i-- {
		high += float64(len(panel.Wrap(lines[i], t, d.W-d.Px(20)-d.Indent(lines[i]))))*panel.LineHigh(t) + 1
		if high > most && i < len(lines)-1 {
			return append([]string{"…"}, lines[i+1:]...)
		}
	}
	return lines
}
