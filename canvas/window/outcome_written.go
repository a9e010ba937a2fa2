package window

import (
	"strings"

	"kedge/canvas/form"
	"kedge/canvas/panel"
)

// writtenMembers are what somebody writes of an incident beside its evidence, in the order
// of the report.
var writtenMembers = []string{"incident/account", "incident/custody", "incident/opinion"}

// written are the fields of what is written of an incident; none of a rig of which nothing
// was seen.
func (op *outcomePanel) written() (list []form.Field) {
	p, rig := op.w.board.Plan(), op.w.board.Rig()
	for _, member := range writtenMembers {
		if f, ok := form.FieldOf(p, rig, rig, member, nil, op.w.words()); ok {
			list = append(list, f)
		}
	}
	return list
}

// drawWritten draws what is written of an incident, each text in a box to be typed into.
func (od *outcomeDrawing) drawWritten() {
	d := od.d
	for _, f := range od.written {
		d.Y += d.Px(8)
		d.Note(f.Label, panel.Bold(d.Mid()), 2)
		text, style := strings.TrimSpace(f.Value), d.Small()
		if text == "" {
			text, style = f.Help, panel.Coloured(style, d.Shades.Quiet)
		}
		x, room, top := d.Px(14), d.W-d.Px(28), d.Y
		var lines []string
		for _, l := range strings.Split(text, "\n") {
			lines = append(lines, panel.Wrap(l, style, room-d.Px(16))...)
		}
		high := max(d.Px(24), float64(len(lines))*panel.LineHigh(style)+d.Px(8))
		id, edge := "written "+f.Member, d.Shades.Edge
		if d.Hover == id {
			edge = d.Shades.Ink
		}
		d.Box(x, top, room, high, 3, d.Shades.Card, edge, 1)
		for i, l := range lines {
			d.Text(x+d.Px(8), top+d.Px(4)+(float64(i)+0.5)*panel.LineHigh(style), l, style, 0)
		}
		d.Hit(panel.Hit{ID: id, X0: x, Y0: top, X1: x + room, Y1: top + high, Press: func() { od.outcomePanel.w.details.editAt(over{od.pane, id}, od.rig, f) }})
		d.Y = top + high
	}
}
