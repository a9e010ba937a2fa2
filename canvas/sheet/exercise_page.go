package sheet

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/canvas/exercise"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
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

// showExercise is what the drawing of an exercise shows; on a key all figures
// asked for stand in their places.
func showExercise(x *exercise.Exercise, a *solver.Assessment, key bool) draw.Show {
	s := draw.Show{HideGrid: true, HideZones: everyZone(), Blank: map[string]bool{}, Figures: map[string]bool{}}
	for i := range a.Parts {
		id := a.Parts[i].ID
		s.Figures[id] = x.Blank[id]
		if !key {
			s.Blank[id+"/angle"] = true
		}
		if x.Hidden[id] || x.Blank[id] && !key {
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
	m.p = alone(p)
	m.a = x.Studied(whole)
	m.picture(f.g, f.x(), f.y, f.w(), l.h, x.N, e.middle(), showExercise(x, whole, k == Key))
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
	for _, rig := range x.Other {
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
	name := m.label("student", part.Text("name", "______________________"))
	if m.student != "" {
		name = m.label("student", part.Text("name", m.student))
	}
	write(&f.g.marks, f.x(), f.y+lead/2, name, t)
	right := *t
	right.Anchor = pen.End
	write(&f.g.marks, f.x()+f.w(), f.y+lead/2, m.label("student-date"), &right)
	f.y += nameRoom
}

// knownPart sets what is known.
func (m *maker) knownPart(f *flow, x *exercise.Exercise) error {
	if err := f.title(m.label("known")); err != nil {
		return err
	}
	for _, s := range x.Known {
		if err := f.para(s, 0); err != nil {
			return err
		}
	}
	f.gap(2)
	return nil
}

// askPart sets the questions, one a line, and room to work.
func (m *maker) askPart(f *flow, x *exercise.Exercise, k Kind) error {
	for i := range x.Asked {
		if x.Asked[i].Drawn {
			continue // it is on the drawing
		}
		if err := f.room(askLead); err != nil {
			return err
		}
		m.askLine(f.g, f.x(), f.y, f.w(), i, x, k)
		f.y += askLead
	}
	if k == Key {
		return nil
	}
	return m.workRoom(f, x)
}

// workRoom is the room to work, on a page of its own where little is left.
func (m *maker) workRoom(f *flow, x *exercise.Exercise) error {
	if f.left() < leastWork+lead {
		if err := f.next(); err != nil {
			return err
		}
	}
	write(&f.g.marks, f.x(), f.y+lead/2, m.label("working"), letters(textEm, true))
	f.y += lead
	m.squares(f.g, f.x(), f.y, f.w(), min(f.left(), float64(len(x.Asked))*workOf))
	f.y = f.g.body.bottom()
	return nil
}

// askLine is one question with its blank, or with the answer in it.
func (m *maker) askLine(g *Page, x, y, w float64, i int, ex *exercise.Exercise, k Kind) {
	a := &ex.Asked[i]
	t := letters(textEm, false)
	mid := y + askLead/2
	blank := blankW
	if a.Unit == "" {
		blank = 2 * blankW
	}
	unitW := width(" "+a.Unit, t)
	room := w - blank - unitW - 3
	head := itoa(i+1) + ". " + a.Text
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
		write(&g.marks, bx+blank+1, mid, a.Unit, t)
		return
	}
	answer := letters(textEm, true)
	write(&g.marks, bx, mid, fitted(a.Right(m.w), answer, x+w-bx), answer)
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
func (m *maker) otherRig(f *flow, x *exercise.Exercise, k Kind, rig plan.ID) error {
	if err := f.next(); err != nil {
		return err
	}
	i := m.p.RigIndex(rig)
	if err := f.title(m.label("other-rig", part.Text("rig", m.w.RigName(m.p, i)))); err != nil {
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
			if slices.ContainsFunc(x.Asked, func(q exercise.Asked) bool {
				return q.Kind == exercise.AskWhatIf && q.Rig == rig && q.Part == kept[j].ID
			}) {
				m.a.Parts = append(m.a.Parts, kept[j])
			}
		}
		m.a.Worst, m.a.First, m.a.Order = -1, -1, nil
	}
	m.picture(f.g, f.x(), f.y, f.w(), f.left(), x.N, e.middle(), show)
	f.y = f.g.body.bottom()
	return nil
}
