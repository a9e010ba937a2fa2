package sheet

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/travel"
)

// Of a sheet of the whole pull. (ours)
const (
	mostFrames  = 5    // what has room on a page and is told apart
	pullCaption = 3    // lines under a frame
	curveHeight = 48.0 // of the curve, mm
	tableSteps  = 8    // rows between start and end, besides what happens
	frameRoom   = 3.0  // round what is drawn, mm
	frameFoot   = 10.0 // below it, for the bar of the scale
	apartShare  = 0.02 // of the way: places nearer to one another are one
)

// place is a moment of the pull on its sheet.
type place struct {
	atM   float64
	a     *solver.Assessment
	tells []*travel.Happening
}

// at is the moment at a place of the travel.
func (m *maker) at(atM float64) place {
	for i := range m.whole.Moments {
		if o := &m.whole.Moments[i]; o.AtM == atM {
			return place{atM: atM, a: o.Assessment}
		}
	}
	return place{atM: atM, a: solver.Assess(travel.At(m.p, m.rig, atM), m.rig)}
}

// worstAt is where the pull's worst part is worst, metres of travel.
func (m *maker) worstAt() (atM float64, known bool) {
	if i := m.a.Worst; i >= 0 && i < len(m.a.Parts) {
		return m.a.Parts[i].AtM, true
	}
	return 0, false
}

// apart is how far two places of the sheet lie from one another at least, metres.
func (m *maker) apart() float64 { return apartShare * m.whole.EndM }

// happens are what happens on the way after its start: what is over a limit first, each
// in the order of the travel.
func (m *maker) happens() []*travel.Happening {
	var all []*travel.Happening
	for i := range m.whole.Events {
		if e := &m.whole.Events[i]; !e.Start {
			all = append(all, e)
		}
	}
	urgent := func(e *travel.Happening) int {
		if e.Kind == travel.OverLimit {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(all, func(a, b *travel.Happening) int { return cmp.Compare(urgent(a), urgent(b)) })
	return all
}

// pullFrames are the places that are drawn: start, end and worst, and as many of what
// happens as have room.
func (m *maker) pullFrames() []place {
	var at []float64
	add := func(atM float64) {
		near := func(s float64) bool { return math.Abs(s-atM) < m.apart() }
		if len(at) < mostFrames && !slices.ContainsFunc(at, near) {
			at = append(at, atM)
		}
	}
	add(0)
	add(m.whole.EndM)
	if s, known := m.worstAt(); known {
		add(s)
	}
	for _, e := range m.happens() {
		add(e.AtM)
	}
	slices.Sort(at)
	return m.told(at, m.apart())
}

// told are places with what happens within a distance of each; what is near to several
// is told at the nearest.
func (m *maker) told(at []float64, within float64) []place {
	all := make([]place, len(at))
	for i, s := range at {
		all[i] = m.at(s)
	}
	for i := range m.whole.Events {
		e := &m.whole.Events[i]
		k, d := -1, within
		for j := range all {
			if x := math.Abs(all[j].atM - e.AtM); x <= d && (k < 0 || x < d) {
				k, d = j, x
			}
		}
		if k >= 0 {
			all[k].tells = append(all[k].tells, e)
		}
	}
	return all
}

// worst is the worst part of a moment with its share.
func (m *maker) worst(a *solver.Assessment) (name, used string) {
	if a.Worst < 0 || a.Worst >= len(a.Parts) {
		return m.label("pull-no-limit"), noFigure
	}
	p := &a.Parts[a.Worst]
	return m.w.PartName(p, m.names), m.w.UsedOf(p)
}

// caption says of a place how far it is, what the line pulls and which part is worst,
// and of what happens there as much as has room on w mm: the table has all.
func (m *maker) caption(p place, w float64) string {
	name, used := m.worst(p.a)
	id := "pull-caption"
	if used == noFigure {
		id = "pull-caption-bare"
	}
	s := m.label(id, part.Length("at", p.atM), part.Text("tension", m.pull(p.a.Move)), part.Text("part", name), part.Text("used", used))
	for _, e := range p.tells {
		if e.Start {
			continue
		}
		more := s + " · " + m.w.Happening(e, m.names)
		if len(wrap(more, letters(textEm, false), w-captionIn)) > pullCaption {
			break
		}
		s = more
	}
	return s
}

// pullSheet draws the whole pull: moments of it, its curve, a table, what stops it.
func (m *maker) pullSheet() error {
	f, err := m.flow(Pull, m.kindName(Pull))
	if err != nil {
		return err
	}
	if err := f.verdict(); err != nil {
		return err
	}
	f.gap(1.5)
	if m.whole != nil && m.whole.EndM > 0 {
		if err := m.pullPictures(f); err != nil {
			return err
		}
		if err := f.room(curveHeight); err != nil {
			return err
		}
		b := f.g.body
		draw.DrawCurve(&f.g.marks, r2.RectFromPoints(r2.Point{X: b.x, Y: f.y}, r2.Point{X: b.x + b.w, Y: f.y + curveHeight}),
			&draw.Curve{Pull: m.whole, Words: m.w, Names: m.names, ShownM: -1, Text: textEm, Ink: ink, Quiet: grey, Paper: paper})
		f.y += curveHeight + 2
		if err := f.table(m.pullTable()); err != nil {
			return err
		}
	} else if err := f.para(m.w.Label("pull-as-drawn"), 0); err != nil {
		return err
	}
	return m.pullEnds(f)
}

// pullPictures draws the frames, all of one scale.
func (m *maker) pullPictures(f *flow) error {
	frames := m.pullFrames()
	whole, answer := m.p, m.a
	defer func() { m.p, m.a = whole, answer }()
	e := extent{r2.EmptyRect()}
	for _, c := range frames {
		e.Rect = e.AddRect(draw.Bounds(travel.At(whole, m.rig, c.atM), c.a))
	}
	across, down := 2, 3
	if m.o.Landscape {
		across, down = 3, 2
	}
	const gap = 4.0
	w := (f.w() - float64(across-1)*gap) / float64(across)
	h := (f.left() - float64(down-1)*gap) / float64(down)
	ph := h - pullCaption*lead - 3
	n := mmPerM * max(e.w()/(w-2*frameRoom), e.h()/(ph-frameRoom-frameFoot))
	middle := e.middle()
	middle.Y -= (frameFoot - frameRoom) / 2 * n / mmPerM
	top := f.y
	for i, c := range frames {
		x, y := f.x()+float64(i%across)*(w+gap), top+float64(i/across)*(h+gap)
		m.p, m.a = travel.At(whole, m.rig, c.atM), plain(c.a)
		m.picture(f.g, x, y, w, ph, n, middle, draw.Show{HideGrid: true, HideTags: true, HideNames: true, HideZones: everyZone()})
		frameCaption(f.g, x, y+ph+2, w, itoa(i+1), m.caption(c, w), pullCaption)
	}
	f.g.Scale = 0 // they are as large as can be, with a bar; nobody measures on them
	f.y = top + math.Ceil(float64(len(frames))/float64(across))*(h+gap)
	return nil
}

// pullTable tells the pull at even steps, where it is worst and where anything happens.
func (m *maker) pullTable() *table {
	t := &table{cols: []column{{head: m.w.Label("column-at"), right: true}, {head: m.label("column-tension"), right: true}, {head: m.label("column-worst"), flex: 2},
		{head: m.w.Label("column-used"), right: true}, {head: m.label("column-layer"), right: true}, {head: m.label("column-happens"), flex: 2}}}
	at := []float64{0, m.whole.EndM}
	if s, known := m.worstAt(); known {
		at = append(at, s)
	}
	for _, e := range m.happens() {
		at = append(at, e.AtM)
	}
	for i := 1; i < tableSteps; i++ {
		s := m.whole.EndM * float64(i) / tableSteps
		if !slices.ContainsFunc(at, func(x float64) bool { return math.Abs(x-s) < m.apart() }) {
			at = append(at, s)
		}
	}
	slices.Sort(at)
	for _, p := range m.told(slices.Compact(at), 0) {
		name, used := m.worst(p.a)
		r := row{cells: []string{m.w.Value(part.Length("", p.atM), nil), m.pull(p.a.Move), name, used, layers(p.a), ""}, dress: true}
		if i := p.a.Worst; i >= 0 && i < len(p.a.Parts) {
			r.state = p.a.Parts[i].Status
		}
		t.rows = append(t.rows, r)
		for k, e := range p.tells { // one a row, the first beside the figures
			if k > 0 {
				t.rows = append(t.rows, row{cells: make([]string, len(t.cols))})
			}
			t.rows[len(t.rows)-1].cells[len(t.cols)-1] = m.w.Happening(e, m.names)
		}
	}
	return t
}

// layers are those on which the lines lie on their drums.
func layers(a *solver.Assessment) string {
	var all []string
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Kind == part.KindWinch && p.Layer > 0 {
			all = append(all, itoa(p.Layer))
		}
	}
	if len(all) == 0 {
		return noFigure
	}
	return strings.Join(all, ", ")
}

// pullEnds says what stops the pull, and what of it is not computed.
func (m *maker) pullEnds(f *flow) error {
	var stops, open []string
	for i := range m.a.Findings {
		g := &m.a.Findings[i]
		what, _ := m.w.Finding(*g, m.names)
		switch {
		case g.ID == "pull-stops" || m.whole != nil && m.whole.Stop != "" && g.ID == m.whole.Stop:
			stops = append(stops, what)
		case g.ID == part.NotDecidedID:
			open = append(open, what)
		}
	}
	var anew []string
	if m.whole != nil {
		for i := range m.whole.Rerigs {
			anew = append(anew, m.w.Rerig(&m.whole.Rerigs[i], m.names))
		}
	}
	var bare []string
	for i := range m.a.Parts {
		if p := &m.a.Parts[i]; !p.Known() && p.Status != part.Slack {
			bare = append(bare, m.w.PartName(p, m.names))
		}
	}
	if len(bare) > 0 {
		open = append(open, m.label("pull-bare", part.Text("parts", m.w.List(bare))))
	}
	for _, block := range []struct {
		title string
		lines []string
	}{{m.label("pull-stops"), stops}, {m.w.Label("title-rerig"), anew}, {m.label("pull-open"), open}} {
		if len(block.lines) == 0 {
			continue
		}
		if err := f.title(block.title); err != nil {
			return err
		}
		if err := f.items("–", block.lines); err != nil {
			return err
		}
	}
	return nil
}
