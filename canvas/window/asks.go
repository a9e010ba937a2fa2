package window

import (
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
)

// askSize is the room the open question takes.
func (sh *shell) askSize() fyne.Size {
	k := sh.w.textScale()
	if q := sh.w.board.Question(); q != nil && q.Numbered() != nil {
		rows := 1 + numberedAt(q.Numbered(), askWide*k, k, nil)
		return fyne.NewSize(float32(askWide*k), float32((numberedTop+float64(rows)*numberedHigh+6)*k))
	}
	return fyne.NewSize(float32(askWide*k), float32(62*k))
}

// What an open question takes, logical pixels at desk size. (ours)
const (
	askWide      = 430
	numberedTop  = 32 // above the first row of answers
	numberedHigh = 27 // of a row
)

// numberedAt lays the numbered answers of a question in rows as wide as the panel, k
// times desk size, and tells the last row, from 0.
func numberedAt(answers []string, wide, k float64, put func(i int, text string, x float64, row int)) int {
	style := panel.Bold(pen.TextStyle{Size: 11 * k})
	x, row := 12*k, 0
	for i, a := range answers {
		text := itoa(i+1) + "  " + a
		w := panel.Width(text, style) + 24*k
		if x+w > wide-8*k && x > 12*k {
			x, row = 12*k, row+1
		}
		if put != nil {
			put(i, text, x, row)
		}
		x += w
	}
	return row
}

// drawNumbered draws the answers that a digit, or a press, takes.
func (fr *frame) drawNumbered(d *panel.Drawing, answers []string) {
	numberedAt(answers, d.W, d.Scale, func(i int, text string, x float64, row int) {
		d.Button(x, d.Px(numberedTop+float64(row)*numberedHigh), "answer "+itoa(i), text, false, func() {
			fr.w.board.Choose(i)
			fr.w.focusBoard()
		}, "")
	})
}

// snapAsks draws the open question over the board.
func (fr *frame) snapAsks() func(*panel.Drawing) {
	q := fr.w.board.Question()
	if q == nil {
		return func(*panel.Drawing) {}
	}
	hint := fr.w.label("ask-hint")
	if c := q.Choices(); len(c) > 0 {
		hint = strings.Join(c, " · ")
	}
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Card)
		d.Box(1, 1, d.W-2, d.H-2, 3, d.Shades.Card, d.Shades.Pick, 2)
		t := panel.Bold(d.Mid())
		d.Text(d.Px(12), d.Px(18), q.Label, t, d.W-d.Px(24))
		d.Hit(panel.Hit{ID: "ask", Idle: true, X0: 0, Y0: 0, X1: d.W, Y1: d.H, Press: func() { fr.w.focusBoard() }})
		if answers := q.Numbered(); answers != nil {
			fr.drawNumbered(d, answers)
			return
		}
		y, high := d.Px(42), d.Px(24)
		edge := d.Shades.Edge
		if q.In {
			edge = d.Shades.Pick
		}
		d.Box(d.Px(12), y-high/2, d.Px(130), high, 3, d.Shades.Paper, edge, 1.2)
		typed := d.Big()
		if q.Marked {
			d.Fill(d.Px(16), y-d.Px(9), panel.Width(q.Text, typed)+d.Px(4), d.Px(18), d.Shades.Meter)
		}
		d.Text(d.Px(18), y, q.Text, typed, 0)
		if q.In {
			x := d.Px(20) + panel.Width(q.Text, typed)
			d.Stroke(x, y-d.Px(8), x, y+d.Px(8), 1.4, d.Shades.Pick)
		}
		note, style := hint, d.Small()
		if q.Error != "" {
			note, style = q.Error, panel.Bold(panel.Coloured(d.Small(), d.Shades.ZoneRedText))
		}
		lines := panel.Wrap(note, style, d.W-d.Px(164))
		if len(lines) == 1 {
			d.Text(d.Px(152), y, note, style, 0)
		} else {
			d.Text(d.Px(152), y-panel.LineHigh(style)/2, lines[0], style, 0)
			d.Text(d.Px(152), y+panel.LineHigh(style)/2, strings.Join(lines[1:], " "), style, d.W-d.Px(164))
		}
	}
}
