package sheet

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Measures of an exercise, mm.
const (
	blankW    = 25.0
	blankH    = 8.0
	askLead   = 9.6
	gridMM    = 5.0
	leastWork = 30.0
	workOf    = 45.0 // room to work a question asks for
	askRoomX  = 7.0  // round the drawing: its labels find room inside
	askRoomY  = 6.0
	nameRoom  = lead + 2
)

// studied is the answer as an exercise shows it: no findings, no zones, no
// limits or states, and no figures but those that are given or asked for. A
// winch's figure stands at its line's first stretch, if it is asked for.
func (x *exercise) studied(a *solver.Assessment) *solver.Assessment {
	c := *plain(a)
	c.Parts = nil
	winch := false
	for i := range a.Parts {
		winch = winch || a.Parts[i].Kind == part.KindWinch && x.blank[a.Parts[i].ID]
	}
	for i := range a.Parts {
		p := a.Parts[i]
		switch {
		case x.hidden[p.ID], !slices.Contains(onDrawing, p.Kind) && !x.blank[p.ID],
			p.Kind == part.KindWinch && !x.blank[p.ID],
			p.Kind == part.KindStretch && p.Index == 0 && winch:
			continue
		}
		switch p.Status {
		case part.Near, part.Over, part.NoLimit, part.Undecided: // the state is an answer too
			p.Status = part.Within
		}
		p.Limit, p.Ultimate = part.Limit{}, part.Range{}
		p.Move.Side = 0
		p.Loosen = p.Move // what is asked is the pull to move
		c.Parts = append(c.Parts, p)
	}
	c.Worst, c.First, c.Order = -1, -1, nil // they point into the parts
	return &c
}

// show is what the drawing of an exercise shows; on a key all figures
// asked for stand in their places.
func (x *exercise) show(a *solver.Assessment, key bool) draw.Show {
	s := draw.Show{HideGrid: true, HideZones: everyZone(), Blank: map[string]bool{}, Figures: map[string]bool{}}
	for i := range a.Parts {
		id := a.Parts[i].ID
		s.Figures[id] = x.blank[id]
		if !key {
			s.Blank[id+"/angle"] = true
		}
		if x.hidden[id] || x.blank[id] && !key {
			s.Blank[id] = true
		}
	}
	return s
}

// exercisePages draws the exercise of the plan in use, or its key with the same
// layout.
func (m *maker) exercisePages(k Kind) error {
	l, err := m.layExercise()
	if err != nil {
		return err
	}
	f, err := m.flow(k, m.kindName(k))
	if err != nil {
		return err
	}
	if k != Key { // its band stands there, the name beside its heading
		m.nameLine(f)
	}
	e, err := m.exerciseExtent()
	if err != nil {
		return err
	}
	x, whole, p := l.x, m.a, m.p
	m.p = crowd(p)
	m.a = x.studied(whole)
	m.picture(f.g, f.g.body.x, f.y, f.g.body.w, l.h, x.n, e.middle(), x.show(whole, k == Key))
	m.a, m.p = whole, p
	f.y += l.h + 2
	if !l.known {
		if err := f.next(); err != nil {
			return err
		}
	}
	if err := m.knownPart(f, x); err != nil {
		return err
	}
	if k != Key || l.asking { // else the answers stand with their sums
		if l.known && !l.asking {
			if err := f.next(); err != nil {
				return err
			}
		}
		if err := m.askPart(f, x, k); err != nil {
			return err
		}
	}
	for _, rig := range x.other {
		if err := m.otherRig(f, x, k, rig); err != nil {
			return err
		}
	}
	if k == Key {
		return m.keySums(x)
	}
	return nil
}

// nameLine is where the student signs.
func (m *maker) nameLine(f *flow) {
	t := letters(textEm, false)
	name := m.label("student", text("name", "______________________"))
	if m.student != "" {
		name = m.label("student", text("name", m.student))
	}
	write(&f.g.marks, f.g.body.x, f.y+lead/2, name, t)
	right := *t
	right.Anchor = pen.End
	write(&f.g.marks, f.g.body.x+f.g.body.w, f.y+lead/2, m.label("student-date"), &right)
	f.y += nameRoom
}

// knownPart sets what is known.
func (m *maker) knownPart(f *flow, x *exercise) error {
	if err := f.title(m.label("known")); err != nil {
		return err
	}
	for _, s := range x.known {
		if err := f.para(s, 0); err != nil {
			return err
		}
	}
	f.gap(2)
	return nil
}

// askPart sets the questions, one a line, and room to work.
func (m *maker) askPart(f *flow, x *exercise, k Kind) error {
	for i := range x.asked {
		if x.asked[i].drawn {
			continue // it is on the drawing
		}
		if err := f.room(askLead); err != nil {
			return err
		}
		m.askLine(f.g, f.g.body.x, f.y, f.g.body.w, i, x, k)
		f.y += askLead
	}
	if k == Key {
		return nil
	}
	return m.workRoom(f, x)
}

// workRoom is the room to work, on a page of its own where little is left.
func (m *maker) workRoom(f *flow, x *exercise) error {
	if f.left() < leastWork+lead {
		if err := f.next(); err != nil {
			return err
		}
	}
	write(&f.g.marks, f.g.body.x, f.y+lead/2, m.label("working"), letters(textEm, true))
	f.y += lead
	m.squares(f.g, f.g.body.x, f.y, f.g.body.w, min(f.left(), float64(len(x.asked))*workOf))
	f.y = f.g.body.bottom()
	return nil
}

// askLine is one question with its blank, or with the answer in it.
func (m *maker) askLine(g *Page, x, y, w float64, i int, ex *exercise, k Kind) {
	a := &ex.asked[i]
	t := letters(textEm, false)
	mid := y + askLead/2
	blank := blankW
	if a.unit == "" {
		blank = 2 * blankW
	}
	unitW := width(" "+a.unit, t)
	room := w - blank - unitW - 3
	head := itoa(i+1) + ". " + a.text
	lines := wrap(head, t, room)
	if len(lines) > 2 {
		lines = append(lines[:1], fitted(lines[1]+" …", t, room))
	}
	far := 0.0
	for j, s := range lines {
		write(&g.marks, x, mid+(float64(j)-float64(len(lines)-1)/2)*lead*0.92, s, t)
		far = max(far, width(s, t))
	}
	bx := x + far + 2
	style := &pen.Style{Stroke: ink, Width: lineRule}
	if k != Key {
		boxed(&g.marks, bx, mid-blankH/2, blank, blankH, style)
		write(&g.marks, bx+blank+1, mid, a.unit, t)
		return
	}
	answer := letters(textEm, true)
	s := a.answer
	if a.unit != "" {
		s = m.label("answer-range", text("answer", a.answer), text("from", m.bound(a, -1)), text("to", m.bound(a, 1)))
	} else if a.accept != "" {
		s = m.label("answer-also", text("answer", a.answer), text("also", a.accept))
	}
	write(&g.marks, bx, mid, fitted(s, answer, x+w-bx), answer)
}

// bound is an end of what counts as right.
func (m *maker) bound(a *asked, sign float64) string {
	v := a.x + sign*a.tol
	if a.unit == "°" {
		return m.w.Angle(quantity.Degrees(max(v, 0)))
	}
	as := quantity.AsLoad
	if sign < 0 {
		as = quantity.AsLimit
	}
	return quantity.FormatForce(quantity.Force(max(v, 0)), m.w.System(), as).String()
}

// squares is squared paper to work on.
func (m *maker) squares(g *Page, x, y, w, h float64) {
	cols, rows := math.Floor(w/gridMM), math.Floor(h/gridMM)
	if cols < 1 || rows < 1 {
		return
	}
	var q pen.Path
	for i := 0.0; i <= cols; i++ {
		q.Line(x+i*gridMM, y, x+i*gridMM, y+rows*gridMM)
	}
	for j := 0.0; j <= rows; j++ {
		q.Line(x, y+j*gridMM, x+cols*gridMM, y+j*gridMM)
	}
	g.marks.Path(&q, &pen.Style{Stroke: faint, Width: lineHair})
}

// otherRig draws the rig that a what-if asks about, at the same scale.
func (m *maker) otherRig(f *flow, x *exercise, k Kind, rig plan.ID) error {
	if err := f.next(); err != nil {
		return err
	}
	i := m.p.RigIndex(rig)
	if err := f.title(m.label("other-rig", text("rig", m.w.RigName(m.p, i)))); err != nil {
		return err
	}
	a, id, names := m.a, m.rig, m.names
	defer func() { m.a, m.rig, m.names = a, id, names }()
	m.a, m.rig = solver.Assess(m.p, rig), rig
	m.names = m.w.Naming(m.a, m.w.Names(m.p, rig))
	e, err := m.exerciseExtent()
	if err != nil {
		return err
	}
	whole := m.a
	show := draw.Show{HideGrid: true, HideZones: everyZone(), Blank: map[string]bool{}}
	m.a = plain(whole)
	if k != Key {
		kept := m.a.Parts
		m.a.Parts = nil
		for j := range kept {
			show.Blank[kept[j].ID], show.Blank[kept[j].ID+"/angle"] = true, true
			if slices.ContainsFunc(x.asked, func(q asked) bool { return q.Kind == AskWhatIf && q.Rig == rig && q.Part == kept[j].ID }) {
				m.a.Parts = append(m.a.Parts, kept[j])
			}
		}
		m.a.Worst, m.a.First, m.a.Order = -1, -1, nil
	}
	m.picture(f.g, f.g.body.x, f.y, f.g.body.w, f.left(), x.n, e.middle(), show)
	f.y = f.g.body.bottom()
	return nil
}
