package sheet

import (
	"slices"

	"kedge/canvas/pen"
	"kedge/solver/part"
)

// column is one column of a table.
type column struct {
	head  string
	right bool    // figures stand at the right
	flex  float64 // how much of a shortage or surplus it takes; 0: none
}

// row is one row of a table.
type row struct {
	cells []string
	state part.Status // dresses the row by its state; NotComputed: plain
	dress bool
	bold  bool
}

// table is rows under heads, as wide as the page.
type table struct {
	cols  []column
	rows  []row
	wide  []float64
	in    float64 // from the left edge of the page's matter, mm
	most  float64 // width it may take at most, mm; 0: the page's
	snug  bool    // no wider than its matter
	tight bool    // lines as close as notes'
}

// spacing is that of the lines of a row, and what is free over and under them.
func (t *table) spacing() (line, pad float64) {
	if t.tight {
		return noteLead, tightPad
	}
	return lead, rowPad
}

const (
	cellPad  = 1.5
	rowPad   = 0.9 // above and below a row's letters
	tightPad = 0.6
	barRoom  = 2.2 // for the mark of a state at the left edge

	// mostLines is how many lines a row has at most: it stands on one page, however
	// long a name. (A4 on its long side has room for thirty)
	mostLines = 24

	// mostSurplus is how much wider than its matter a table may be: figures far
	// from what they belong to are read in the wrong row. (ours)
	mostSurplus = 40.0
)

func (t *table) add(cells ...string) { t.rows = append(t.rows, row{cells: cells}) }

// needs are the widths that every column would like, and the least it can do
// with.
func (t *table) needs() (need, least []float64) {
	bold := letters(textEm, true)
	n := len(t.cols)
	need, least = make([]float64, n), make([]float64, n)
	for i, c := range t.cols {
		need[i], least[i] = width(c.head, bold), widestWord(c.head, bold)
		for _, r := range t.rows {
			st := r.style()
			need[i] = max(need[i], width(r.cells[i], st))
			least[i] = max(least[i], widestWord(r.cells[i], st))
		}
		if c.flex == 0 {
			least[i] = need[i]
			if c.head != "" { // a head may break where figures must not
				body := 0.0
				for _, r := range t.rows {
					body = max(body, width(r.cells[i], r.style()))
				}
				least[i] = max(body, widestWord(c.head, bold))
			}
		}
		need[i] += 2 * cellPad
		least[i] += 2 * cellPad
	}
	return need, least
}

// measure gives every column its width: its widest word at least, the rest by
// need.
func (t *table) measure(w float64) {
	n := len(t.cols)
	need, least := t.needs()
	free := w - barRoom
	sum := func(a []float64) (s float64) {
		for _, x := range a {
			s += x
		}
		return s
	}
	t.wide = append([]float64(nil), need...)
	if over := sum(need) - free; over > 0 {
		slack := make([]float64, n)
		for i := range slack {
			slack[i] = need[i] - least[i]
		}
		if total := sum(slack); total > 0 {
			for i := range t.wide {
				t.wide[i] -= slack[i] * min(1, over/total)
			}
		}
		if sum(t.wide) > free { // words must be cut: those of the widest columns
			most := levelled(t.wide, free)
			for i := range t.wide {
				t.wide[i] = min(t.wide[i], most)
			}
		}
		return
	}
	if t.snug {
		return
	}
	surplus, flex := min(free-sum(need), mostSurplus), 0.0
	for _, c := range t.cols {
		flex += c.flex
	}
	for i, c := range t.cols {
		if flex > 0 {
			t.wide[i] += surplus * c.flex / flex
		}
	}
}

// levelled is how wide the widest of some columns may be, so that together they
// are as wide as total; no column narrower than that gives anything away.
func levelled(wide []float64, total float64) float64 {
	wide = slices.Sorted(slices.Values(wide))
	for i, x := range wide {
		if share := total / float64(len(wide)-i); x > share {
			return share
		}
		total -= x
	}
	return wide[len(wide)-1]
}

// width is that of the table as measured.
func (t *table) width() float64 {
	w := barRoom
	for _, x := range t.wide {
		w += x
	}
	return w
}

func widestWord(s string, t *pen.TextStyle) float64 {
	most, word := 0.0, 0
	for i, c := range s + " " {
		if c == ' ' {
			most = max(most, width((s + " ")[word:i], t))
			word = i + 1
		}
	}
	return most
}

// lines are the broken texts of a row and its height.
func (t *table) lines(r row, st *pen.TextStyle) (cells [][]string, h float64) {
	n := 1
	for i, s := range r.cells {
		c := wrap(s, st, t.wide[i]-2*cellPad+0.01)
		if len(c) > mostLines {
			c = c[:mostLines]
			c[mostLines-1] += "…"
		}
		cells = append(cells, c)
		n = max(n, len(c))
	}
	line, pad := t.spacing()
	return cells, float64(n)*line + 2*pad
}

func (t *table) headRow() row {
	r := row{bold: true}
	for _, c := range t.cols {
		r.cells = append(r.cells, c.head)
	}
	return r
}

// height is how tall the whole table is on a page of width w.
func (t *table) height(w float64) float64 {
	t.measure(w)
	_, h := t.lines(t.headRow(), letters(textEm, true))
	for _, r := range t.rows {
		_, x := t.lines(r, r.style())
		h += x
	}
	return h
}

func (r row) style() *pen.TextStyle {
	return letters(textEm, r.bold || r.dress && r.state == part.Over)
}

// table sets a table; its head is repeated on every page.
func (f *flow) table(t *table) error {
	t.tight = t.tight || f.m.tight
	room := f.w() - t.in
	if t.most > 0 {
		room = min(room, t.most)
	}
	t.measure(room)
	head := t.headRow()
	_, hh := t.lines(head, letters(textEm, true))
	drawHead := func() {
		f.row(t, head, letters(textEm, true), hh)
		rule(&f.g.marks, f.x()+t.in, f.y, f.x()+t.in+t.width(), f.y, lineRule)
	}
	first := hh
	if len(t.rows) > 0 {
		_, x := t.lines(t.rows[0], t.rows[0].style())
		first += x
	}
	if err := f.room(first); err != nil {
		return err
	}
	drawHead()
	for _, r := range t.rows {
		_, h := t.lines(r, r.style())
		if f.y+h > f.g.body.bottom()+0.01 {
			if err := f.next(); err != nil {
				return err
			}
			drawHead()
		}
		f.row(t, r, r.style(), h)
		rule(&f.g.marks, f.x()+t.in, f.y, f.x()+t.in+t.width(), f.y, lineHair)
	}
	return nil
}

// row draws one row: over its limit white on black, near it with a bar, without
// a limit with dots, not computed with dashes. (ours)
func (f *flow) row(t *table, r row, st *pen.TextStyle, h float64) {
	p, x, y := &f.g.marks, f.x()+t.in, f.y
	w := t.width()
	style := *st
	if r.dress {
		switch r.state {
		case part.Over:
			boxed(p, x, y, w, h, &pen.Style{Fill: ink})
			style.Colour = paper
		case part.Near:
			boxed(p, x, y, barRoom-0.8, h, &pen.Style{Fill: ink})
		case part.NoLimit, part.Undecided:
			write(p, x+0.2, y+h/2, "?", letters(textEm, true))
		case part.Refused, part.NotComputed, part.NotUnderstood:
			boxed(p, x+0.4, y+0.5, w-0.8, h-1, &pen.Style{Stroke: ink, Width: lineRule, Dash: []float64{2, 1.2}})
		}
	}
	cells, _ := t.lines(r, &style)
	cx := x + barRoom
	line, pad := t.spacing()
	for i, lines := range cells {
		s := style
		tx := cx + cellPad
		if t.cols[i].right {
			s.Anchor = pen.End
			tx = cx + t.wide[i] - cellPad
		}
		for k, words := range lines {
			write(p, tx, y+pad+(float64(k)+0.5)*line, words, &s)
		}
		cx += t.wide[i]
	}
	f.y += h
}
