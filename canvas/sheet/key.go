package sheet

import (
	"kedge/canvas/exercise"
	"kedge/solver/part"
)

// keySums is the part of a key that says how every answer came about, what counts as
// right, and what usual wrong answers mean.
func (m *maker) keySums(x *exercise.Exercise) error {
	f, err := m.flow(Key, m.label("key-sums"))
	if err != nil {
		return err
	}
	f.g.Level = 1
	if err := f.para(m.label("key-how", part.Text("scale", scaleText(x.N))), 0); err != nil {
		return err
	}
	for i := range x.Asked {
		a := &x.Asked[i]
		if err := f.title(itoa(i+1) + ". " + a.Text); err != nil {
			return err
		}
		if err := f.styled(a.Right(m.w), 0, letters(textEm, true)); err != nil {
			return err
		}
		if err := f.items("·", a.Sums); err != nil {
			return err
		}
		if len(a.Wrong) == 0 {
			continue
		}
		if err := f.para(capital(m.label("column-mistake"))+":", 0); err != nil {
			return err
		}
		if err := f.items("–", a.Wrong); err != nil {
			return err
		}
	}
	if len(x.Gives) > 0 {
		if err := f.title(m.label("gives-away")); err != nil {
			return err
		}
		for _, g := range x.Gives {
			p, _ := m.a.Part(g.Part)
			q, _ := m.a.Part(g.Blank)
			if err := f.item("·", m.label("gives-away-line", part.Text("part", m.w.PartName(p, m.names)), part.Text("blank", m.w.PartName(q, m.names))), 4); err != nil {
				return err
			}
		}
	}
	return nil
}

// mistakes lists what usual mistakes give, so that a wrong answer tells what
// was not understood.
func (m *maker) mistakes() error {
	l, err := m.layExercise()
	if err != nil {
		return err
	}
	x := l.x
	f, err := m.flow(Errors, m.kindName(Errors))
	if err != nil {
		return err
	}
	t := &table{cols: []column{{head: m.label("column-number"), right: true}, {head: m.label("column-question"), flex: 1}, {head: m.label("column-right")}, {head: m.label("column-mistake"), flex: 2}}}
	for i := range x.Asked {
		a := &x.Asked[i]
		for j, s := range a.Wrong {
			head := []string{"", "", ""}
			if j == 0 {
				head = []string{itoa(i + 1), a.Text, a.Answer}
			}
			t.add(head[0], head[1], head[2], s)
		}
	}
	if len(t.rows) == 0 {
		return f.para(m.label("no-mistakes"), 0)
	}
	return f.table(t)
}

func (m *maker) pageW() float64 {
	if m.o.Landscape {
		return m.o.Paper.H
	}
	return m.o.Paper.W
}

func (m *maker) pageH() float64 {
	if m.o.Landscape {
		return m.o.Paper.W
	}
	return m.o.Paper.H
}
