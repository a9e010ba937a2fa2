package sheet

import (
	"kedge/solver/part"
)

// findingTable lists the findings as kedge check does; with what alone, without
// what to do about them.
func (m *maker) findingTable(whatAlone bool) *table {
	w := m.w
	t := &table{cols: []column{{head: m.label("column-number"), right: true}, {head: m.label("column-level")}, {head: w.Label("title-findings"), flex: 1}}}
	if !whatAlone {
		t.cols = append(t.cols, column{head: m.label("column-do"), flex: 1})
	}
	for i, f := range m.a.Findings {
		n := ""
		if f.Level >= part.Warning {
			n = itoa(i + 1)
		}
		what, do := w.Finding(f, m.names)
		if f.Travel > 0 {
			what += " (" + w.Label("at-travel", number("travel", part.UnitLength, f.Travel)) + ")"
		}
		r := row{cells: []string{n, w.Level(f.Level), what}}
		if !whatAlone {
			r.cells = append(r.cells, do)
		}
		if f.Level == part.Danger {
			r.dress, r.state = true, part.Over
		} else if f.Level == part.Warning {
			r.dress, r.state = true, part.Near
		}
		t.rows = append(t.rows, r)
	}
	return t
}

// findingsSheet lists findings, people, cautions and what was not looked at,
// all in full.
func (m *maker) findingsSheet() error {
	f, err := m.flow(Findings, m.kindName(Findings))
	if err != nil {
		return err
	}
	if err := f.verdict(); err != nil {
		return err
	}
	f.gap(2)
	if len(m.a.Findings) > 0 {
		if err := f.table(m.findingTable(false)); err != nil {
			return err
		}
	}
	people := make([]string, 0, len(m.a.People))
	for _, q := range m.a.People {
		s := m.w.Person(q, m.names)
		if out := m.w.WayOut(q); out != "" {
			s += " · " + out
		}
		people = append(people, s)
	}
	if len(people) == 0 {
		people = append(people, m.w.Label("no-people"))
	}
	for _, block := range []struct {
		title string
		lines []string
	}{
		{m.w.Label("title-people"), people},
		{m.w.Label("title-cautions"), m.w.Cautions()},
		{m.w.Label("title-not-checked"), m.w.NotChecked()},
	} {
		if err := f.title(block.title); err != nil {
			return err
		}
		for _, s := range block.lines {
			if err := f.item("–", s, 4); err != nil {
				return err
			}
		}
	}
	return nil
}
