package sheet

import (
	"strings"

	"kedge/canvas/words"
	"kedge/solver/part"
)

// findingTable lists the findings as kedge check does, with what to do about
// them.
func (m *maker) findingTable() *table {
	w := m.w
	t := &table{cols: []column{{head: m.label("column-number"), right: true}, {head: m.label("column-level")}, {head: w.Label("title-findings"), flex: 1},
		{head: m.label("column-do"), flex: 1}}}
	for i, c := range words.Cards(m.a.Findings) {
		t.rows = append(t.rows, m.cardRow(i+1, c, true))
	}
	return t
}

// mostJoined is how many letters of cautions stand in one row: more go into
// another, so that a row never grows taller than a page. (ours)
const mostJoined = 500

// findingList is every finding in little room: dangers and warnings a row each,
// without what to do, cautions and notices one after the other.
func (m *maker) findingList() *table {
	t := &table{cols: []column{{head: m.label("column-number"), right: true}, {head: m.label("column-level")}, {head: m.w.Label("title-findings"), flex: 1}}}
	last := part.Danger
	for i, c := range words.Cards(m.a.Findings) {
		r := m.cardRow(i+1, c, false)
		if n := len(t.rows); n > 0 && c.Level < part.Warning && c.Level == last && len(t.rows[n-1].cells[2])+len(r.cells[2]) < mostJoined {
			t.rows[n-1].cells[2] += " " + r.cells[2]
			continue
		}
		last = c.Level
		t.rows = append(t.rows, r)
	}
	return t
}

// cardRow is a card with its number, if its flags have one.
func (m *maker) cardRow(number int, c words.Card, do bool) row {
	n := ""
	if c.Level >= part.Warning {
		n = itoa(number)
	}
	card := m.w.Card(c, m.a.Findings, m.names)
	r := row{cells: []string{n, m.w.Level(c.Level), card.Line()}}
	if do {
		r.cells = append(r.cells, strings.Join(card.Dos, " "))
	}
	switch c.Level {
	case part.Danger:
		r.dress, r.state = true, part.Over
	case part.Warning:
		r.dress, r.state = true, part.Near
	}
	return r
}

// findingsSheet lists findings and people, all in full.
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
		if err := f.table(m.findingTable()); err != nil {
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
	if err := f.title(m.w.Label("title-people")); err != nil {
		return err
	}
	return f.items("–", people)
}
