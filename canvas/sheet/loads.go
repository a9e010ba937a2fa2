package sheet

import (
	"slices"
	"strings"

	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// noFigure stands where there is none; the state beside it says why.
const noFigure = words.NoFigure

// shortTable is the table of loads without basis and state in words, a line a
// part: the dress of the rows says the state, the title block the basis.
func (m *maker) shortTable() *table {
	t := m.w.Loads(m.a, m.names, words.ColumnUsed)
	t.Columns = slices.DeleteFunc(t.Columns, func(c words.LoadColumn) bool { return c == words.ColumnBasis || c == words.ColumnStatus })
	return m.loadsIn(t, 1)
}

// loadTable is the table of loads and limits. With the column of places along the way
// or that to break loose there is no room for the basis in one of its own: it stands
// behind the part; with the first none for the state in words, which the dress of the
// rows says too.
func (m *maker) loadTable() *table {
	t := m.w.Loads(m.a, m.names, words.ColumnUsed)
	whole := slices.Contains(t.Columns, words.ColumnAt)
	if whole {
		t.Columns = slices.DeleteFunc(t.Columns, func(c words.LoadColumn) bool { return c == words.ColumnStatus })
	}
	if whole || m.a.Looser() {
		t.Columns = slices.DeleteFunc(t.Columns, func(c words.LoadColumn) bool { return c == words.ColumnBasis })
		for _, r := range t.Rows {
			if basis := r.Cells[words.ColumnBasis]; basis != "" {
				r.Cells[words.ColumnPart] += " · " + basis
			}
		}
	}
	return m.loadsIn(t, 2)
}

// loadsIn is the table of loads on paper: the names of the parts, and the basis
// if it has a column, take what room is left in that share.
func (m *maker) loadsIn(loads words.LoadTable, flex float64) *table {
	t := &table{}
	for _, c := range loads.Columns {
		col := column{head: m.w.Label("column-" + string(c)), right: !c.Text()}
		if c == words.ColumnPart || c == words.ColumnBasis {
			col.flex = flex
		}
		t.cols = append(t.cols, col)
	}
	for _, l := range loads.Rows {
		r := row{dress: true, state: l.Part.Status}
		for _, c := range loads.Columns {
			r.cells = append(r.cells, l.Cells[c])
		}
		t.rows = append(t.rows, r)
	}
	return t
}

func (m *maker) loadsTitle() string {
	return m.w.Label("loads-in", part.Text("unit", m.w.System().Force().String()))
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
		{m.w.Label("title-failure"), words.FailureBases(m.w, m.a.Parts, m.names)},
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
	m, t := f.m, letters(textEm, true)
	lines := clipped(strings.TrimSuffix(m.w.VerdictLine(m.a, m.names), " ▸"), t, f.w(), mostBoxed)
	return f.styled(strings.Join(lines, " "), 0, t)
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
		out = append(out, w.Label("resistance-known", part.Text("range", w.Range(r.Range, r.PlanOn)), part.Text("low", w.Word(r.LowRule)), part.Text("high", w.Word(r.HighRule))))
	}
	if b := r.Breakaway; b.Known {
		out = append(out, w.Label("resistance-breakaway", part.Force("low", b.Low), part.Force("high", b.High)))
	}
	return append(out, w.Label("pulls", part.Text("move", m.pull(m.a.Move)), part.Text("loosen", m.pull(m.a.Loosen)), part.Text("stall", m.pull(m.a.Stall))))
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
		s := m.w.Label(id, part.Text("line", m.thing(l.Line)), part.Length("out", l.Out), part.Length("has", l.Has))
		if l.Layer > 0 {
			s += ", " + m.w.Label("line-layer", part.Count("layer", l.Layer))
		}
		if l.Missing > 0 {
			s += ", " + m.w.Label("line-missing", part.Length("missing", l.Missing))
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
		out = append(out, m.w.Label(id, part.Text("part", m.w.PartName(&m.a.Parts[x.Part], m.names)), part.Number("tension", part.UnitLimit, x.Tension)))
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
