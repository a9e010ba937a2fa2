package window

import (
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
)

const (
	verdictRowsHigh = 28 + 2*verdictRow // of the verdict in rows
	verdictRow      = 16
	verdictWide     = 920 // under which its cells are rows: the first would have no room for a sentence (ours)
)

// verdictIn is how high the verdict is at that width, and that its cells are rows where there
// is no room for them beside each other; k is the scale of the text.
func verdictIn(wide, k float32) (rows bool, high float32) {
	if wide < verdictWide*k {
		return true, verdictRowsHigh * k
	}
	return false, verdictHigh * k
}

// snapVerdict draws the verdict: always there, three cells in one order, none cut short
// without saying so.
func (fr *frame) snapVerdict() func(*panel.Drawing) {
	a, names, ws := fr.w.answer(), fr.w.names(), fr.w.words()
	preview, hidden := fr.w.board.Shown() != fr.w.board.Plan(), fr.w.hiddenZones()
	fresh := fr.w.findings.said
	return func(d *panel.Drawing) {
		level, has, said, more := ws.Verdict(a, names)
		cells := ws.Cells(a, names)
		d.Fill(0, 0, d.W, d.H, d.Shades.Ground)
		edge := d.Shades.Edge
		if has {
			edge, _ = d.Shades.Level(level)
		}
		d.Box(0.75, 0.75, d.W-1.5, d.H-2.5, 2, d.Shades.Card, edge, 1.5)
		x, mid := d.Px(8), d.H/2
		rows, _ := verdictIn(float32(d.W), float32(d.Scale))
		if rows {
			mid = d.Px(14)
		}
		if has {
			x += d.Badge(x, mid, level, ws.Level(level), d.Px(82)) + d.Px(10)
		}
		rightEnd := d.W - d.Px(10)
		if more > 0 {
			m := fr.w.label("more", part.Count("count", more))
			d.Right(rightEnd, mid, m, d.Mid())
			rightEnd -= panel.Width(m, d.Mid()) + d.Px(12)
		}
		if chip := ws.Chip(a); chip != "" {
			rightEnd -= d.Chip(rightEnd, mid, chip) + d.Px(8)
		}
		if fresh {
			rightEnd -= d.Chip(rightEnd, mid, fr.w.label("new-danger")) + d.Px(8)
		}
		if hidden > 0 { // a zone that is not drawn must not look like no zone
			rightEnd -= d.Chip(rightEnd, mid, fr.w.label("zones-hidden", part.Count("count", hidden))) + d.Px(8)
		}
		if preview {
			p := fr.w.label("preview")
			d.Right(rightEnd, mid, p, panel.Coloured(d.Mid(), d.Shades.Pick))
			rightEnd -= panel.Width(p, d.Mid()) + d.Px(10)
		}
		if rows {
			fr.drawCellRows(d, cells)
		} else {
			rightEnd = fr.drawCells(d, cells, rightEnd, (rightEnd-x)*0.6)
		}
		d.Sentence(x, mid, rightEnd-x, said)
		d.Hit(panel.Hit{ID: "more", X0: 0, Y0: 0, X1: d.W, Y1: d.H, Press: func() {
			fr.w.shell.showPanel("findings")
			fr.w.findings.goFresh()
		}})
	}
}

// cell is what stands in a cell of the verdict: its name and what it says.
type cell struct{ name, said string }

func (fr *frame) cells(c words.Cells) (first [2]cell, people cell) {
	return [2]cell{{fr.w.label("cell-first"), c.First}, {fr.w.label("cell-breaks"), c.Breaks}}, cell{fr.w.label("cell-people"), c.People}
}

// drawCells draws the second and third cell beside the first, up to right and no wider than
// most, and tells where the first ends.
func (fr *frame) drawCells(d *panel.Drawing, c words.Cells, right, most float64) float64 {
	first, people := fr.cells(c)
	name, said := d.Small(), panel.Bold(panel.Coloured(d.Small(), d.Shades.Ink))
	line := func(x, y float64, text string, s pen.TextStyle, room float64) {
		d.Text(x, y, panel.Cut(text, s, room), s, 0)
	}
	up, down := d.H/2-d.Px(8), d.H/2+d.Px(8)

	wide := min(max(panel.Width(people.name, name), panel.Width(people.said, said)), most*0.35)
	x := right - wide
	line(x, up, people.name, name, wide)
	line(x, down, people.said, said, wide)
	x -= d.Px(10)
	d.Stroke(x, d.Px(5), x, d.H-d.Px(6), 1, d.Shades.Edge)

	names := max(panel.Width(first[0].name, name), panel.Width(first[1].name, name)) + d.Px(6)
	wide = min(names+max(panel.Width(first[0].said, said), panel.Width(first[1].said, said)), most*0.65)
	x -= d.Px(10) + wide
	for i, y := range []float64{up, down} {
		d.Text(x, y, first[i].name, name, 0)
		line(x+names, y, first[i].said, said, wide-names)
	}
	x -= d.Px(10)
	d.Stroke(x, d.Px(5), x, d.H-d.Px(6), 1, d.Shades.Edge)
	return x - d.Px(10)
}

// drawCellRows draws the second and third cell below the first: what goes and what breaks
// first share a row where it is wide enough.
func (fr *frame) drawCellRows(d *panel.Drawing, c words.Cells) {
	first, people := fr.cells(c)
	name, said := d.Small(), panel.Bold(panel.Coloured(d.Small(), d.Shades.Ink))
	x, right := d.Px(10), d.W-d.Px(10)
	y := d.Px(28 + verdictRow/2 - 1)
	put := func(x float64, c cell, right float64) float64 {
		d.Text(x, y, c.name, name, 0)
		x += panel.Width(c.name, name) + d.Px(6)
		d.Text(x, y, panel.Cut(c.said, said, right-x), said, 0)
		return x + panel.Width(c.said, said) + d.Px(14)
	}
	half := (x + right) / 2
	d.Stroke(x, y-d.Px(verdictRow/2), right, y-d.Px(verdictRow/2), 1, d.Shades.Edge)
	next := put(x, first[0], half-d.Px(8))
	put(min(next, half), first[1], right)
	y += d.Px(verdictRow)
	put(x, people, right)
}
