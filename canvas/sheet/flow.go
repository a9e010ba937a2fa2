package sheet

import "kedge/canvas/pen"

// flow sets matter from the top of a page to its end and goes on to the next.
type flow struct {
	m    *maker
	kind Kind
	name string
	g    *Page
	y    float64       // where the next thing begins
	more int           // pages begun after the first
	each func(g *Page) // run on every page after the first
}

// flow begins a sheet of text.
func (m *maker) flow(k Kind, name string) (*flow, error) {
	f := &flow{m: m, kind: k, name: name}
	return f, f.next()
}

// next begins a page, with its heading.
func (f *flow) next() error {
	name := f.name
	if f.more > 0 {
		name = f.m.label("continued", text("name", f.name))
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
	f.g, f.y = g, g.body.y
	f.more++
	f.heading(name)
	return nil
}

// headingRoom is the height of a page's heading, mm.
const headingRoom = 8.0

// heading is the head of a page: what it is, and of which rig.
func (f *flow) heading(name string) {
	b := f.g.body
	t := letters(titleEm, true)
	right := f.m.rigName()
	if f.g.Key && f.m.student != "" {
		right += " · " + f.m.student
	}
	rw := 0.0
	if right != "" {
		rt := letters(headEm, false)
		rt.Anchor = pen.End
		right = fitted(right, rt, b.w*0.4)
		rw = width(right, rt) + 4
		write(&f.g.marks, b.x+b.w, f.y+3, right, rt)
	}
	write(&f.g.marks, b.x, f.y+3, fitted(name, t, b.w-rw), t)
	f.y += headingRoom
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
	write(&f.g.marks, f.g.body.x, f.y+headLead/2, s, letters(headEm, true))
	f.y += headLead
	return nil
}

// para sets a paragraph; lines after the first are set in as far as the first,
// by in mm.
func (f *flow) para(s string, in float64) error { return f.styled(s, in, letters(textEm, false)) }

func (f *flow) styled(s string, in float64, t *pen.TextStyle) error {
	for _, line := range wrap(s, t, f.g.body.w-in) {
		if err := f.room(lead); err != nil {
			return err
		}
		write(&f.g.marks, f.g.body.x+in, f.y+lead/2, line, t)
		f.y += lead
	}
	return nil
}

// item is a paragraph behind a mark.
func (f *flow) item(mark, s string, in float64) error {
	t := letters(textEm, false)
	lines := wrap(s, t, f.g.body.w-in)
	if err := f.room(float64(min(len(lines), 3)) * lead); err != nil {
		return err
	}
	write(&f.g.marks, f.g.body.x, f.y+lead/2, mark, t)
	return f.para(s, in)
}

// items are paragraphs behind marks.
func (f *flow) items(mark string, lines []string) error {
	for _, s := range lines {
		if err := f.item(mark, s, 4); err != nil {
			return err
		}
	}
	return nil
}

func (f *flow) gap(h float64) { f.y += h }
