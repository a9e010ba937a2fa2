package sheet

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// noFigure stands where there is none; the state beside it says why.
const noFigure = "–"

func (m *maker) loadFigure(l part.Load) string {
	if !l.Known {
		return noFigure
	}
	return quantity.FormatForce(l.Force, m.w.System(), quantity.AsLoad).Number
}

func (m *maker) limitFigure(l part.Limit) string {
	if !l.Known {
		return m.w.Label("no-rating")
	}
	return quantity.FormatForce(l.Force, m.w.System(), quantity.AsLimit).Number
}

func (m *maker) limitBasis(l part.Limit) string {
	if !l.Known {
		return ""
	}
	return m.w.Basis(l.Basis) + m.w.LimitMark(l)
}

// shortTable is the table of loads without basis and state in words, a line a
// part: the dress of the rows says the state, the title block the basis.
func (m *maker) shortTable() *table {
	cols := m.loadColumns()
	cols[0].flex = 1
	return m.loadsIn(slices.DeleteFunc(cols, func(c loadColumn) bool { return c.word == "basis" || c.word == "status" }))
}

// loadTable is the table of loads and limits. With a column more there is no
// room for the basis in one of its own: it stands behind the part.
func (m *maker) loadTable() *table {
	cols := m.loadColumns()
	if m.a.Looser() {
		cols = slices.DeleteFunc(cols, func(c loadColumn) bool { return c.word == "basis" })
		name := cols[0].of
		cols[0].of = func(p *part.Part) string {
			if basis := m.limitBasis(p.Limit); basis != "" {
				return name(p) + " · " + basis
			}
			return name(p)
		}
	}
	return m.loadsIn(cols)
}

// loadColumn is a column of the table of loads: its word and what stands in it.
type loadColumn struct {
	word  string
	flex  float64
	right bool
	of    func(p *part.Part) string
}

// loadColumns are all there are; the pull that breaks loose has one where it
// asks more than that to move.
func (m *maker) loadColumns() []loadColumn {
	cols := []loadColumn{
		{"part", 2, false, func(p *part.Part) string { return m.w.PartName(p, m.names) }},
		{"move", 0, true, func(p *part.Part) string { return m.loadFigure(p.Move) }},
		{"loosen", 0, true, func(p *part.Part) string { return m.loadFigure(p.Loosen) }},
		{"stall", 0, true, func(p *part.Part) string { return m.loadFigure(p.Stall) }},
		{"limit", 0, true, func(p *part.Part) string { return m.limitFigure(p.Limit) }},
		{"basis", 2, false, func(p *part.Part) string { return m.limitBasis(p.Limit) }},
		{"used", 0, true, func(p *part.Part) string {
			if !p.Known() {
				return noFigure
			}
			return m.w.UsedOf(p)
		}},
		{"failure", 0, true, func(p *part.Part) string {
			if share, ok := p.ToFailure(p.Planned()); ok {
				return m.w.Share(share)
			}
			return noFigure
		}},
		{"status", 0, false, m.w.StatusOf},
	}
	if !m.a.Looser() {
		cols = slices.DeleteFunc(cols, func(c loadColumn) bool { return c.word == "loosen" })
	}
	return cols
}

func (m *maker) loadsIn(cols []loadColumn) *table {
	t := &table{}
	for _, c := range cols {
		t.cols = append(t.cols, column{head: m.w.Label("column-" + c.word), flex: c.flex, right: c.right})
	}
	for _, p := range m.a.PartsBy(part.WorstFirst) {
		r := row{dress: true, state: p.Status}
		for _, c := range cols {
			r.cells = append(r.cells, c.of(p))
		}
		t.rows = append(t.rows, r)
	}
	return t
}

func (m *maker) loadsTitle() string {
	return m.w.Label("loads-in", text("unit", m.w.System().Force().String()))
}

// loadsSheet is the table of loads, the resistance, the lines and the order in
// which parts give.
func (m *maker) loadsSheet() error {
	f, err := m.flow(Loads, m.kindName(Loads))
	if err != nil {
		return err
	}
	if err := f.verdict(); err != nil {
		return err
	}
	if len(m.a.Parts) > 0 {
		if err := f.title(m.loadsTitle()); err != nil {
			return err
		}
		if err := f.table(m.loadTable()); err != nil {
			return err
		}
	}
	for _, block := range []struct {
		title string
		lines []string
	}{
		{m.w.Label("title-resistance"), m.resistanceLines()},
		{m.w.Label("title-lines"), m.lineLines()},
		{m.w.Label("title-order"), m.orderLines()},
	} {
		if len(block.lines) == 0 {
			continue
		}
		if err := f.title(block.title); err != nil {
			return err
		}
		for _, s := range block.lines {
			if err := f.para(s, 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// verdict is the line of the most severe finding, under the heading of a page.
func (f *flow) verdict() error {
	m := f.m
	return f.styled(strings.TrimSuffix(m.w.VerdictLine(m.a, m.names), " ▸"), 0, letters(textEm, true))
}

func (m *maker) resistanceLines() []string {
	r := &m.a.Resistance
	if m.a.Casualty == "" {
		return nil
	}
	w := m.w
	var out []string
	if !r.Known {
		out = append(out, w.Label("not-computed"))
	} else {
		out = append(out, w.Label("resistance-known", text("range", w.Range(r.Range, r.PlanOn)), text("low", w.Word(r.LowRule)), text("high", w.Word(r.HighRule))))
	}
	if b := r.Breakaway; b.Known {
		out = append(out, w.Label("resistance-breakaway", number("low", part.UnitForce, float64(b.Low)), number("high", part.UnitForce, float64(b.High))))
	}
	return append(out, w.Label("pulls", text("move", m.pull(m.a.Move)), text("loosen", m.pull(m.a.Loosen)), text("stall", m.pull(m.a.Stall))))
}

// pull is the tension of the winch line at one of the pulls.
func (m *maker) pull(p solver.Pull) string {
	if !p.Known {
		return m.w.Label("not-computed")
	}
	return m.w.Load(p.Tension)
}

func (m *maker) lineLines() []string {
	var out []string
	for _, l := range m.a.Lines {
		id := "line-use"
		if l.Has <= 0 {
			id = "line-use-unknown"
		}
		s := m.w.Label(id, text("line", m.thing(l.Line)), number("out", part.UnitLength, float64(l.Out)), number("has", part.UnitLength, float64(l.Has)))
		if l.Layer > 0 {
			s += ", " + m.w.Label("line-layer", count("layer", l.Layer))
		}
		if l.Missing > 0 {
			s += ", " + m.w.Label("line-missing", number("missing", part.UnitLength, float64(l.Missing)))
		}
		out = append(out, s)
	}
	return out
}

// orderLines say what gives first.
func (m *maker) orderLines() []string {
	if len(m.a.Parts) == 0 {
		return nil
	}
	var out []string
	for _, x := range m.a.Order {
		if x.Part < 0 || x.Part >= len(m.a.Parts) {
			continue
		}
		id := "gives-at"
		if x.Beyond {
			id = "gives-beyond"
		}
		out = append(out, m.w.Label(id, text("part", m.w.PartName(&m.a.Parts[x.Part], m.names)), number("tension", part.UnitLimit, float64(x.Tension))))
	}
	if len(out) == 0 {
		out = append(out, m.w.Label("nothing-known-gives"))
	}
	return out
}

// thing is the name of a thing or part.
func (m *maker) thing(id plan.ID) string {
	return m.w.Value(part.Value{Unit: part.UnitThing, Text: string(id)}, m.names)
}
