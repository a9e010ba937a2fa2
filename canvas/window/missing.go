package window

import (
	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// missing is a member that nobody entered, as it stands in a row of the card of what
// is missing.
type missing struct {
	thing plan.ID
	field form.Field
}

func (m *missing) id() string { return "missing " + string(m.thing) + " " + m.field.Member }

// asked is what a row asks for: a member, or, where the row names none, what a finding does.
type asked struct {
	thing   plan.ID
	member  string
	finding int
}

func askedBy(r words.CardRow) asked {
	if r.Member != "" {
		return asked{r.Thing, r.Member, 0}
	}
	return asked{finding: r.Finding}
}

// missing are the fields of the rows of the cards, each in one row.
func (fp *findingsPanel) missing(cards []words.Card, fs []part.Finding) func(words.CardRow) *missing {
	found := map[form.Focus]bool{}
	of := func(r words.CardRow) *form.Focus {
		f := &fs[r.Finding]
		switch {
		case r.Member != "":
			return fp.w.board.Field(part.TypeMissing(part.Lack{Thing: r.Thing, Member: r.Member}))
		case words.Asks(f) && len(f.Remedies) > 0:
			return fp.w.board.Field(f.Remedies[0])
		}
		return nil
	}
	rows := map[asked]*missing{}
	for _, c := range cards {
		if !c.Asks() {
			continue
		}
		for _, r := range fp.w.words().Card(c, fs, fp.w.names()).Rows {
			at := of(r)
			if at == nil || found[*at] {
				continue
			}
			if f, ok := form.FieldOf(fp.w.board.Plan(), fp.w.board.Rig(), at.Thing, at.Member, fp.w.answer(), fp.w.words()); ok {
				found[*at] = true
				rows[askedBy(r)] = &missing{at.Thing, f}
			}
		}
	}
	return func(r words.CardRow) *missing { return rows[askedBy(r)] }
}

// missingPx is how wide the input of a row is.
const missingPx = 104

// drawMissing is the input of a row, to the left of x1 and below y.
func (fp *findingsPanel) drawMissing(d *panel.Drawing, m *missing, x1, y float64) {
	id := m.id()
	box := panel.Hit{ID: id, X0: x1 - d.Px(missingPx), Y0: y, X1: x1, Y1: y + d.Px(24),
		Press: func() { fp.w.details.editAt(over{fp.pane, id}, m.thing, m.field) }, Over: fp.w.details.help(m.field)}
	edge := d.Shades.Edge
	if d.Hover == id || d.Focus == id {
		edge = d.Shades.Ink
	}
	at := d.Y
	fp.w.details.drawTyped(d, &m.field, "", box, edge)
	d.Y = at
}

// fault is why what was typed into a row is refused, "" if it is not.
func (m *missing) fault(entering fieldAt) string {
	if entering.thing == m.thing && entering.member == m.field.Member {
		return entering.fault
	}
	return ""
}

// rowRoom is the room for the text of a row, beside its input.
func (fp *findingsPanel) rowRoom(d *panel.Drawing, m *missing, room float64) float64 {
	if m == nil {
		return room
	}
	return room - d.Px(missingPx+8)
}
