package sheet

import (
	"kedge/canvas/pen"
	"kedge/solver/part"
)

// flow sets matter from the top of a page to its end and goes on to the next; in
// two columns, down the first and then down the second.
type flow struct {
	m    *maker
	kind Kind
	name string
	g    *Page
	y    float64       // where the next thing begins
	cols int           // columns of the page
	col  int           // the one in use, from 0
	bare bool          // nothing is said of moments below its heading
	more int           // pages begun after the first
	each func(g *Page) // run on every page after the first
}

// flow begins a sheet.
func (m *maker) flow(k Kind, name string) (*flow, error) {
	return m.begin(&flow{m: m, kind: k, name: name, cols: 1})
}

// columns begins a sheet of short lines: in two columns where the page is wide
// enough.
func (m *maker) columns(k Kind, name string) (*flow, error) {
	return m.begin(m.columned(&flow{m: m, kind: k, name: name}))
}

func (m *maker) columned(f *flow) *flow {
	f.cols = 1
	if m.bodyOf(&Page{W: m.pageW(), H: m.pageH()}).w >= 2*leastColumn+columnGap {
		f.cols = 2
	}
	return f
}

func (m *maker) begin(f *flow) (*flow, error) {
	m.ended()
	m.last = f
	return f, f.next()
}

// ended notes how far the sheet drawn last fills its page.
func (m *maker) ended() {
	if m.last != nil {
		m.last.end()
	}
}

// Of columns, mm. (ours)
const (
	leastColumn = 110.0
	columnGap   = 6.0
)

// lead is from line to line of text, mm.
func (f *flow) lead() float64 {
	if f.m.tight {
		return noteLead
	}
	return lead
}

// x and w are where the flow's column begins and how wide it is.
func (f *flow) x() float64 { return f.g.body.x + float64(f.col)*(f.w()+columnGap) }

func (f *flow) w() float64 {
	if f.cols == 1 {
		return f.g.body.w
	}
	return (f.g.body.w - columnGap) / 2
}

// end notes how far the column in use is filled.
func (f *flow) end() {
	if f.g == nil {
		return
	}
	f.g.ends[f.col] = max(f.g.ends[f.col], f.y)
	if f.cols == 1 {
		f.g.ends[1] = max(f.g.ends[1], f.y)
	}
}

// next begins a column, or a page with its heading.
func (f *flow) next() error {
	f.end()
	if f.g != nil && f.col+1 < f.cols {
		f.col++
		f.y = f.g.body.y
		return nil
	}
	name := f.name
	if f.more > 0 {
		name = f.m.label("continued", part.Text("name", f.name))
	}
	g, err := f.m.page(f.kind, name)
	if err != nil {
		return err
	}
	if f.more > 0 {
		g.Level = 1
		g.Scale = 0
		if f.each != nil {
			f.each(g)
		}
	}
	f.g, f.y, f.col = g, g.body.y, 0
	g.cols = f.cols
	f.more++
	f.heading(name)
	return nil
}

// headingRoom is the height of a page's heading, mm.
const headingRoom = 8.0

// heading is the head of a page: what it is, of which rig, and of which moments of
// the pull.
func (f *flow) heading(name string) {
	t := letters(titleEm, true)
	right := f.m.w.Rig(f.m.p, f.m.rig)
	if f.g.Key && f.m.student != "" {
		right += " · " + f.m.student
	}
	rw := 0.0
	if right != "" {
		rt := letters(headEm, false)
		rt.Anchor = pen.End
		right = fitted(right, rt, f.w()*0.4)
		rw = width(right, rt) + 4
		write(&f.g.marks, f.x()+f.w(), f.y+3, right, rt)
	}
	write(&f.g.marks, f.x(), f.y+3, fitted(name, t, f.w()-rw), t)
	f.y += headingRoom
	if f.bare {
		return
	}
	for _, line := range f.m.coversLines(f.kind, f.w()) {
		write(&f.g.marks, f.x(), f.y+noteLead/2, line, letters(textEm, false))
		f.y += noteLead
	}
}

// coversLines say below the heading of a sheet which moments its figures are for.
func (m *maker) coversLines(k Kind, w float64) []string {
	s := m.covers(k)
	if s == "" {
		return nil
	}
	return wrap(s, letters(textEm, false), w)
}

// room sees to it that h mm are free, on a new page if they are not.
func (f *flow) room(h float64) error {
	if f.y+h <= f.g.body.bottom()+0.01 {
		return nil
	}
	return f.next()
}

// left is how much of the page is free.
func (f *flow) left() float64 { return f.g.body.bottom() - f.y }

// title is a heading inside a page, kept together with what follows.
func (f *flow) title(s string) error {
	if err := f.room(headLead + 2 + 2*lead); err != nil {
		return err
	}
	f.y += 2
	write(&f.g.marks, f.x(), f.y+headLead/2, s, letters(headEm, true))
	f.y += headLead
	return nil
}

// para sets a paragraph; lines after the first are set in as far as the first,
// by in mm.
func (f *flow) para(s string, in float64) error { return f.styled(s, in, letters(textEm, false)) }

func (f *flow) styled(s string, in float64, t *pen.TextStyle) error {
	for _, line := range wrap(s, t, f.w()-in) {
		if err := f.room(f.lead()); err != nil {
			return err
		}
		write(&f.g.marks, f.x()+in, f.y+f.lead()/2, line, t)
		f.y += f.lead()
	}
	return nil
}

// item is a paragraph behind a mark.
func (f *flow) item(mark, s string, in float64) error {
	t := letters(textEm, false)
	lines := wrap(s, t, f.w()-in)
	if err := f.room(float64(min(len(lines), 3)) * f.lead()); err != nil {
		return err
	}
	write(&f.g.marks, f.x(), f.y+f.lead()/2, mark, t)
	return f.para(s, in)
}

// items are paragraphs behind marks.
func (f *flow) items(mark string, lines []string) error {
	for _, s := range lines {
		if err := f.item(mark, s, itemIn); err != nil {
			return err
		}
	}
	return nil
}

// itemIn is how far an item stands behind its mark, mm.
const itemIn = 4.0

func (f *flow) gap(h float64) { f.y += h }
