package sheet

import (
	"math"

	"kedge/canvas/draw"
)

// lying is how the overview's tables lie on a page.
type lying int

const (
	noTable    lying = iota
	loadsAlone       // the table of loads
	listAlone        // the list of findings
	oneByOne         // loads, findings under them
	sideBySide       // two columns: loads, findings under them and beside
)

// Between two columns, and the least width of the second, mm. (ours)
const (
	besideGap   = 6.0
	leastBeside = 95.0
)

// summary is what an overview says beside its drawing.
type summary struct {
	m              *maker
	loads, finding *table
}

func (m *maker) summary() summary {
	s := summary{m, m.shortTable(), m.findingList()}
	s.loads.tight, s.finding.tight = true, true
	return s
}

func (s summary) loadsAndFindings() bool { return len(s.loads.rows) > 0 && len(s.finding.rows) > 0 }

// heights are those of both tables, with head and gap, on a width; zero for
// one that is empty.
func (s summary) heights(w float64) (loads, finding float64) {
	if len(s.loads.rows) > 0 {
		loads = s.loads.height(w) + headLead + 2
	}
	if len(s.finding.rows) > 0 {
		finding = s.finding.height(w) + 3
	}
	return loads, finding
}

// height is how much of a page w wide the tables take, infinite where they
// cannot lie so.
func (s summary) height(l lying, w float64) float64 {
	switch l {
	case noTable:
		return 0
	case sideBySide:
		_, h := s.split(w)
		return h
	}
	loads, finding := s.heights(w)
	switch l {
	case loadsAlone:
		return loads
	case listAlone:
		return finding
	}
	return loads + finding
}

// snugWidth is the width of the loads with no room to spare.
func (s summary) snugWidth(w float64) float64 {
	s.loads.snug = true
	s.loads.measure(w)
	s.loads.snug = false
	return s.loads.width()
}

// split is how many of the findings stand under the loads in the first of two
// columns so that both are as short as can be, and how high they then are;
// infinite where there are no two columns.
func (s summary) split(w float64) (under int, h float64) {
	left := s.snugWidth(w)
	right := w - left - besideGap
	if !s.loadsAndFindings() || right < leastBeside {
		return 0, math.Inf(1)
	}
	loads := s.loads.height(left) + headLead + 2
	h = math.Inf(1)
	for k := range s.finding.rows {
		first, second := s.part(0, k, 0), s.part(k, len(s.finding.rows), 0)
		a := loads
		if k > 0 {
			a += 3 + first.height(left)
		}
		if both := max(a, second.height(right)+3); both < h {
			under, h = k, both
		}
	}
	return under, h
}

// part is the table of some of the findings, so far in.
func (s summary) part(from, to int, in float64) *table {
	t := *s.finding
	t.rows, t.in = t.rows[from:to], in
	return &t
}

// rest is how what is left over lies on further pages of room h, and how many
// they are.
func (s summary) rest(first lying, w, h float64) (l lying, pages int) {
	switch first {
	case oneByOne, sideBySide:
		return noTable, 0
	case loadsAlone:
		l = listAlone
	default:
		l = oneByOne
		if s.height(l, w) > h && s.height(sideBySide, w) <= h {
			l = sideBySide
		}
	}
	return l, int(math.Ceil(s.height(l, w) / h))
}

// set sets the tables from where the flow is.
func (s summary) set(f *flow, l lying) error {
	if l == sideBySide {
		return s.setBeside(f)
	}
	if l != listAlone && l != noTable && len(s.loads.rows) > 0 {
		if err := f.title(s.m.loadsTitle()); err != nil {
			return err
		}
		if err := f.table(s.loads); err != nil {
			return err
		}
	}
	if l != loadsAlone && l != noTable && len(s.finding.rows) > 0 {
		f.gap(3)
		return f.table(s.finding)
	}
	return nil
}

func (s summary) setBeside(f *flow) error {
	w := f.w()
	under, h := s.split(w)
	if err := f.room(h); err != nil {
		return err
	}
	top, left := f.y, s.snugWidth(w)
	s.loads.snug = true
	defer func() { s.loads.snug = false }()
	if err := f.title(s.m.loadsTitle()); err != nil {
		return err
	}
	if err := f.table(s.loads); err != nil {
		return err
	}
	if under > 0 {
		f.gap(3)
		first := s.part(0, under, 0)
		first.most = left
		if err := f.table(first); err != nil {
			return err
		}
	}
	end := f.y
	f.y = top + 3
	if err := f.table(s.part(under, len(s.finding.rows), left+besideGap)); err != nil {
		return err
	}
	f.y = max(f.y, end)
	return nil
}

// overview is the diagram with loads and findings on as few pages as there can
// be, and at the largest scale on so few. The drawing gives up one step of
// scale for that, no more.
func (m *maker) overview() error {
	e, err := m.extent()
	if err != nil {
		return err
	}
	f, err := m.flow(Overview, m.kindName(Overview))
	if err != nil {
		return err
	}
	if err := f.verdict(); err != nil {
		return err
	}
	f.gap(1.5)
	w, free, s := f.w(), f.left(), m.summary()
	best, ok := e.fit(w, free)
	if !ok && m.o.Scale == 0 {
		return m.tooLarge(e)
	}
	page := f.g.body.h - headingRoom - float64(len(m.coversLines(Overview, w)))*noteLead
	first, n, h := noTable, m.o.Scale, free
	fits := false
	rest, least := s.rest(noTable, w, page)
	if n == 0 {
		n, fits = best, true
	} else {
		fits = e.lies(n, w, free)
	}
	for _, l := range []lying{oneByOne, sideBySide, loadsAlone} {
		room := free - s.height(l, w)
		scale, ok := m.scaleBeside(e, w, room, best)
		if !ok {
			continue
		}
		after, pages := s.rest(l, w, page)
		better := pages < least || pages == least && (scale < n || scale == n && (first == noTable || after == noTable && room > h))
		if better {
			first, rest, least, n, h = l, after, pages, scale, room
		}
	}
	if fits {
		m.picture(f.g, f.x(), f.y, w, h, n, e.middle(), draw.Show{HideGrid: true})
		f.y += h
	} else {
		if err := m.tiles(f, e, n, e.paperW(n), e.paperH(n), draw.Show{HideGrid: true}); err != nil {
			return err
		}
		f.y = f.g.body.bottom()
	}
	if err := s.set(f, first); err != nil {
		return err
	}
	if rest == noTable || s.height(rest, w) == 0 {
		return nil
	}
	if err := f.next(); err != nil {
		return err
	}
	return s.set(f, rest)
}

// scaleBeside is the scale of the drawing in a box that leaves room for tables:
// that asked for, or one that is at most a step smaller than the best.
func (m *maker) scaleBeside(e extent, w, room, best float64) (n float64, ok bool) {
	if n := m.o.Scale; n != 0 {
		return n, e.lies(n, w, room)
	}
	n, ok = e.fit(w, room)
	return n, ok && room >= roomyBox && n <= best*oneStep
}

// oneStep is the most by which the scales of ISO 5455 differ from one to the
// next: the drawing gives up one step for the tables, no more. (ours)
const oneStep = 2.5

// roomyBox is the least height of the overview's drawing beside tables, mm:
// below it labels have no room. (ours)
const roomyBox = 85.0
