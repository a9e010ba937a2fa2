package sheet

import (
	"context"
	"fmt"
	"hash/fnv"
	"image"
	"slices"

	"kedge/canvas/draw"
	"kedge/canvas/exercise"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// Make draws the sheets of a plan that the options ask for. Errors are
// [ErrOption], [ErrEmpty], [ErrTooLarge], [ErrLogo] or [ErrQuestion] with a
// sentence; there is then no booklet.
func Make(p *plan.Plan, o Options) (*Booklet, error) {
	return MakeContext(context.Background(), p, o)
}

// MakeContext is [Make] that stops between two pages when ctx is done, with
// its error.
func MakeContext(ctx context.Context, p *plan.Plan, o Options) (*Booklet, error) {
	return made(ctx, p, o, false)
}

func made(ctx context.Context, p *plan.Plan, o Options, scout bool) (*Booklet, error) {
	o, err := o.settled(p)
	if err != nil {
		return nil, err
	}
	logo, err := readLogo(o.Logo, o.Words)
	if err != nil {
		return nil, err
	}
	b := &Booklet{o: o, author: p.TitleInfo.Author, language: o.Words.Lang()}
	b.Title = p.Title
	if b.Title == "" {
		b.Title = o.Words.Label("sheet-untitled")
	}
	m := &maker{ctx: ctx, o: o, w: o.Words, b: b, logo: logo, scout: scout}
	if err := m.use(p, o.Rig); err != nil {
		return nil, err
	}
	b.subject = m.planned() + ". " + m.basis()
	for _, k := range o.Sheets {
		if pages := kinds[slices.Index(Kinds(), k)].pages; pages != nil {
			whole := m.a
			if k.asDrawn() {
				m.a = m.asDrawn()
			}
			if err := m.closely(pages); err != nil {
				return nil, err
			}
			m.a = whole
			if !m.several(k.forTeacher(), 0) && !m.keyed(k) {
				if err := m.back(k); err != nil {
					return nil, err
				}
			}
		}
	}
	if err := m.exercises(p); err != nil {
		return nil, err
	}
	m.ended()
	m.b.Pages = packed(m.b.Pages)
	m.finish()
	for _, g := range b.Pages {
		if err := g.marks.Err(); err != nil {
			return nil, fmt.Errorf("sheet: page %q: %w", g.Name, err)
		}
	}
	return b, nil
}

// leastFilled is how much of a page a sheet's last one fills at least, if closer
// lines spare that page.
const leastFilled = 0.2

// closely draws a sheet; anew with closer lines if that spares a page with little on
// it.
func (m *maker) closely(pages func(*maker) error) error {
	before := m.b.Pages
	if err := pages(m); err != nil {
		return err
	}
	m.ended()
	after, last := m.b.Pages, m.last
	n := len(after)
	if n < len(before)+2 || after[n-1].Filled() >= leastFilled {
		return nil
	}
	m.b.Pages, m.last, m.tight = slices.Clip(before), nil, true
	defer func() { m.tight = false }()
	if err := pages(m); err != nil {
		return err
	}
	if len(m.b.Pages) >= n {
		m.b.Pages, m.last = after, last
	}
	return nil
}

// maker draws the pages of one booklet.
type maker struct {
	ctx  context.Context
	o    Options
	w    *words.Words
	b    *Booklet
	logo image.Image

	p       *plan.Plan
	file    *plan.Plan // as it was handed in
	rig     plan.ID
	r       *plan.Rig          // never nil
	a       *solver.Assessment // of the whole pull, unless the page is of the rig as drawn
	whole   *travel.Answer     // nil: a variant of an exercise, of which the drawn moment alone is answered
	names   words.Names        // things and parts
	hash    string             // of the plan, short
	variant int
	student string
	work    *exercise.Exercise // of the plan in use; nil until it is asked for

	traced     draw.Labels // keeps the picture to trace between drawings
	progressed int         // pages, to who follows the progress
	last       *flow       // of the sheet drawn last
	tight      bool        // rows of tables lie close
	scout      bool        // only the scale is wanted: no picture to trace
}

// use takes another plan or rig for the pages to come, with the answer for its
// whole pull. The error is the context's.
func (m *maker) use(p *plan.Plan, rig plan.ID) error {
	pull, err := travel.Assess(m.ctx, p, rig, nil)
	if err != nil {
		return err
	}
	m.take(p, rig, pull.Assessment)
	m.whole = pull
	return nil
}

// take takes another plan or rig for the pages to come, drawn where it is drawn,
// with an answer for it.
func (m *maker) take(p *plan.Plan, rig plan.ID, a *solver.Assessment) {
	m.p, m.rig, m.r, m.work, m.whole = travel.Drawn(p, rig), rig, &plan.Rig{}, nil, nil
	if r, ok := m.p.Rig(rig); ok {
		m.r = r
	}
	m.a = a
	m.names = m.w.Naming(a, m.w.Names(p, rig))
	m.hash, m.file = planHash(p), p
}

// asDrawn is the answer for the moment that is drawn alone.
func (m *maker) asDrawn() *solver.Assessment {
	if m.whole == nil {
		return m.a
	}
	return m.whole.Moments[0].Assessment
}

// covers says which moments of the pull a sheet's figures are for.
func (m *maker) covers(k Kind) string {
	switch {
	case !k.figures():
		return ""
	case k.asDrawn():
		return m.label("as-drawn")
	case m.whole == nil || !(m.whole.EndM > 0):
		return m.w.Label("pull-as-drawn")
	}
	return m.w.Label("pull-followed", part.Length("end", m.whole.EndM), part.Length("long", m.whole.LongM))
}

// planHash tells plans apart on paper: four hexadecimal digits of the FNV-1a
// hash of its file.
func planHash(p *plan.Plan) string {
	data, err := plan.FormatPlan(p)
	if err != nil {
		return "????"
	}
	h := fnv.New32a()
	_, _ = h.Write(data)
	return fmt.Sprintf("%04x", h.Sum32()&0xffff)
}

// label is a fixed text of the sheets.
func (m *maker) label(id string, values ...part.Value) string {
	return m.w.Label("sheet-"+id, values...)
}

// kindName is what a kind of sheet is called.
func (m *maker) kindName(k Kind) string { return m.label("kind-" + string(k)) }

// planned says what the figures were planned on; on anything but the high
// resistance it is the chip.
func (m *maker) planned() string {
	if chip := m.w.Chip(m.a); chip != "" {
		return chip
	}
	return capital(m.w.PlannedOn(m.a))
}

// basis says on what basis the shares are counted.
func (m *maker) basis() string {
	return m.label("basis", part.Text("basis", m.w.Label("basis-"+m.a.Basis())))
}

// page begins a page.
func (m *maker) page(k Kind, name string) (*Page, error) {
	if err := m.ctx.Err(); err != nil {
		return nil, err
	}
	g := &Page{Kind: k, Name: name, W: m.o.Paper.W, H: m.o.Paper.H, Variant: m.variant, Key: k.forTeacher()}
	if m.o.Landscape {
		g.W, g.H = g.H, g.W
	}
	g.marks.Hi.X, g.marks.Hi.Y = g.W, g.H
	g.full = m.several(g.Key, g.Variant) && !slices.ContainsFunc(m.b.Pages, func(q *Page) bool { return !q.Key && q.Variant == 0 })
	g.block = blockText{planned: m.planned(), basis: m.basis(), hash: m.hash, chip: m.w.Chip(m.a) != ""}
	g.body = m.bodyOf(g)
	g.taken(g.body.y)
	m.b.Pages = append(m.b.Pages, g)
	if m.o.Progress != nil && len(m.b.Pages) > m.progressed {
		m.progressed = len(m.b.Pages)
		m.o.Progress(len(m.b.Pages), max(len(m.b.Pages), len(m.o.Sheets)*max(1, m.o.Variants)))
	}
	return g, nil
}

// finish draws what needs to know how many pages there are.
func (m *maker) finish() {
	type of struct { // what is numbered by itself: a variant's exercise, its key
		key     bool
		variant int
	}
	all, n := map[of]int{}, map[of]int{}
	for _, g := range m.b.Pages {
		all[of{g.Key, g.Variant}]++
	}
	for _, g := range m.b.Pages {
		k := of{g.Key, g.Variant}
		n[k]++
		m.number(g, n[k], all[k])
	}
}
