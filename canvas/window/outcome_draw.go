package window

import (
	"image/color"
	"strings"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// snap draws the panel. What is of the plan before is grey.
func (op *outcomePanel) snap() func(*panel.Drawing) {
	o, fresh, w := op.got, op.fresh() != nil, op.w.words()
	title := w.Label("outcome-ahead")
	if op.seen() {
		title = w.Label("outcome-past")
	}
	now := outcomeDrawing{outcomePanel: op, o: o, w: w, picked: -1, row: -1, typed: op.typedOnly, folded: map[string]bool{}}
	if e := op.typing; e != nil {
		now.row, now.fault = e.row, e.fault
	}
	if o != nil {
		for i := range o.sections {
			s := &o.sections[i]
			now.folded[s.id] = s.open == op.turned[s.id]
		}
		for i, c := range o.listed {
			if op.same(&c) {
				now.picked = i
			}
		}
	}
	now.rig, now.written = op.w.board.Rig(), op.written()
	return func(d *panel.Drawing) {
		od := now
		od.d, od.ink = d, d.Shades.Ink
		d.Title(title, "")
		switch {
		case o == nil:
			d.Note(w.Label("outcome-wait"), d.Mid(), 0)
			return
		case !fresh:
			od.ink = d.Shades.Quiet
			d.Note(w.Label("outcome-before"), panel.Bold(d.Small()), 4)
		case o.more:
			d.Note(w.Label("outcome-going"), d.Small(), 4)
		}
		od.draw()
	}
}

// outcomeDrawing is the panel being drawn.
type outcomeDrawing struct {
	*outcomePanel
	d       *panel.Drawing
	o       *outcome
	w       *words.Words
	folded  map[string]bool // sections by their ids
	picked  int             // listed candidate whose moment is drawn; -1: none
	row     int             // prior that is typed; -1: none
	fault   string
	rig     plan.ID
	written []form.Field // what is written of it
	typed   bool         // the switch stands on what was typed alone
	ink     color.NRGBA  // of what is said: grey if it is of the plan before
}

func (od *outcomeDrawing) style(t pen.TextStyle) pen.TextStyle { return panel.Coloured(t, od.ink) }

// draw draws what was found: cautions first, then how well it fits, then its sections.
func (od *outcomeDrawing) draw() {
	d, o, w := od.d, od.o, od.w
	if o.nothing {
		d.Note(w.Label("outcome-nothing"), od.style(d.Mid()), 4)
		d.Note(w.Label("outcome-nothing-do"), d.Small(), 0)
		od.choices()
		return
	}
	for _, s := range o.cautions {
		d.Badge(d.Px(14), d.Y+d.Px(10), part.Caution, w.Level(part.Caution), 0)
		d.Y += d.Px(22)
		d.Note(s, od.style(d.Mid()), 8)
	}
	for i, s := range o.head {
		t := d.Small()
		if i < 2 {
			t = od.style(d.Mid())
		}
		d.Note(s, t, 3)
	}
	if o.report == nil {
		od.choices()
	}
	for i := range o.sections {
		od.section(&o.sections[i])
	}
	if o.report != nil {
		od.drawWritten()
		d.Y += d.Px(6)
		d.Choices(func(put func(id, word string, on bool, press func())) {
			put("report", w.Label("outcome-report"), false, od.openReport)
		})
	}
}

// section draws a section below its title, which folds it.
func (od *outcomeDrawing) section(s *outcomeSection) {
	d, folded := od.d, od.folded[s.id]
	d.Y += d.Px(8)
	sign := "– "
	if folded {
		sign = "+ "
	}
	t := panel.Bold(od.style(d.Mid()))
	top, id := d.Y, "section "+s.id
	lines := panel.Wrap(sign+s.Title, t, d.W-d.Px(28))
	high := float64(len(lines))*panel.LineHigh(t) + d.Px(6)
	if d.Hover == id {
		d.Fill(0, top, d.W, high, d.Shades.Hover)
	}
	d.Para(d.Px(14), top+d.Px(3), d.W-d.Px(28), sign+s.Title, t)
	d.Stroke(d.Px(10), top, d.W-d.Px(10), top, 1, d.Shades.GridBold)
	d.Hit(panel.Hit{ID: id, X0: d.Px(4), Y0: top, X1: d.W - d.Px(4), Y1: top + high, Press: func() { od.turn(s.id) }})
	d.Y = top + high + d.Px(2)
	if folded {
		return
	}
	if s.hint != "" && len(s.Rows) > 1 {
		d.Note(s.hint, d.Small(), 3)
	}
	for i := 1; i < len(s.Rows); i++ {
		if s.id == "priors" {
			od.prior(i-1, s.Rows[i])
			continue
		}
		od.card(s, i)
	}
	for _, l := range s.Lines {
		d.Note(l, od.style(d.Small()), 2)
	}
}

// turn opens or folds a section.
func (op *outcomePanel) turn(id string) {
	if op.turned == nil {
		op.turned = map[string]bool{}
	}
	op.turned[id] = !op.turned[id]
}

// press is what pressing a row of a section does; nil: nothing.
func (od *outcomeDrawing) press(s *outcomeSection, row int) func() {
	switch s.id {
	case "candidates":
		c := od.o.listed[row]
		return func() { od.pick(c) }
	case "along":
		p := od.o.along[row]
		return func() { od.pickAlong(p) }
	case "changes":
		if a := od.o.report; a.Found.Changes[row].Err == nil {
			return func() { od.compareChange(a, row) }
		}
	}
	return nil
}

// card draws a row: what it is of, then each of its cells behind the head of its column.
func (od *outcomeDrawing) card(s *outcomeSection, i int) {
	d, row := od.d, i-1
	x, wide := d.Px(10), d.W-d.Px(22)
	tx, room := x+d.Px(10), wide-d.Px(20)
	head, rest := panel.Bold(od.style(d.Mid())), od.style(d.Small())
	lines := cellLines(s.Rows[0], s.Rows[i])
	on := s.id == "candidates" && row == od.picked
	if on {
		if _, moment := od.o.report.Moment(row); moment != "" {
			lines = append(lines, moment)
		}
	}
	high := d.Px(10) + float64(len(panel.Wrap(s.Rows[i][0], head, room)))*panel.LineHigh(head)
	for _, l := range lines {
		high += float64(len(panel.Wrap(l, rest, room))) * panel.LineHigh(rest)
	}
	id, press := s.id+" "+itoa(row), od.press(s, row)
	edge, thick := d.Shades.Edge, 1.0
	if press != nil && (on || d.Hover == id) {
		edge, thick = d.Shades.Pick, 2
	}
	d.Box(x, d.Y, wide, high, 4, d.Shades.Card, edge, thick)
	y := d.Para(tx, d.Y+d.Px(5), room, s.Rows[i][0], head)
	for _, l := range lines {
		y = d.Para(tx, y, room, l, rest)
	}
	if press != nil {
		d.Hit(panel.Hit{ID: id, X0: x, Y0: d.Y, X1: x + wide, Y1: d.Y + high, Press: press})
	}
	d.Y += high + d.Px(5)
}

// cellLines are the cells of a row but the first, each behind its head.
func cellLines(heads, cells []string) (all []string) {
	for k := 1; k < len(cells); k++ {
		if cells[k] != "" && cells[k] != "–" {
			all = append(all, strings.TrimPrefix(heads[k], "\t")+": "+cells[k])
		}
	}
	return all
}

// prior draws what was held before, in a box to be typed into, and below it whose that is.
func (od *outcomeDrawing) prior(row int, cells []string) {
	d := od.d
	left, high := d.W*0.56, d.Px(24)
	d.Text(d.Px(14), d.Y+high/2, cells[0], od.style(d.Mid()), left-d.Px(20))
	id := priorID(row)
	edge := d.Shades.Edge
	if d.Hover == id {
		edge = d.Shades.Ink
	}
	d.Box(left, d.Y+1, d.W-d.Px(14)-left, high-2, 3, d.Shades.Card, edge, 1)
	d.Text(left+d.Px(8), d.Y+high/2, cells[1], od.style(d.Mid()), d.W-d.Px(26)-left)
	d.Hit(panel.Hit{ID: id, X0: left, Y0: d.Y, X1: d.W - d.Px(14), Y1: d.Y + high, Press: func() { od.edit(row) }})
	d.Y += high
	d.Text(left+d.Px(8), d.Y+d.Px(6), cells[2], d.Small(), d.W-d.Px(22)-left)
	d.Y += d.Px(16)
	if od.row == row && od.fault != "" {
		d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), od.fault, panel.Bold(panel.Coloured(d.Small(), d.Shades.ZoneRedText))) + d.Px(4)
	}
}
