package window

import (
	"fmt"
	"slices"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// snapFindings draws the findings as cards.
func (w *Window) snapFindings() func(*ink) {
	a, ws, names := w.answer(), w.words(), w.names()
	fs := a.Findings
	title, none := w.label("title-findings"), w.label("verdict-nothing")
	if len(a.Parts) > 0 {
		none = w.label("verdict-none")
	}
	flagged := w.overlay().Flagged
	can := w.cannot(fs)
	selection := w.board.Selection()
	about := func(id plan.ID) bool { return slices.Contains(selection, id) }
	var listed []int
	now := w.sift
	for i := range fs {
		if w.sift.shows(&fs[i], about) {
			listed = append(listed, i)
		}
	}
	return func(k *ink) {
		naming := ws.Naming(a, names)
		k.title(title, fmt.Sprint(len(fs)))
		k.siftButtons(w, now, fs, len(listed), len(selection) > 0)
		if len(fs) == 0 {
			k.y = k.para(k.px(14), k.y, k.w-k.px(28), none, k.mid())
			return
		}
		for _, i := range listed {
			k.finding(w, i, &fs[i], naming, flagged == fs[i].Key(), can)
		}
	}
}

// cannot is why remedies cannot be done, by their keys; empty: they can. It is
// asked of the plan as it is, so while that stays nothing is asked twice.
func (w *Window) cannot(fs []part.Finding) map[string]string {
	m := &w.remedies
	if p, rig, ws := w.board.Plan(), w.board.Rig(), w.words(); m.why == nil || m.plan != p || m.rig != rig || m.words != ws {
		m.plan, m.rig, m.words, m.why = p, rig, ws, map[string]string{}
	}
	now := make(map[string]string) // the drawing's own: it is read on the worker
	for i := range fs {
		for _, r := range fs[i].Remedies {
			key := remedyKey(r)
			why, known := m.why[key]
			if !known {
				_, why = w.board.CanDo(r)
				m.why[key] = why
			}
			if why != "" {
				now[key] = why
			}
		}
	}
	return now
}

// showDanger scrolls to the first danger that was not there before.
func (w *Window) showDanger() {
	if !w.shown(w.findings) {
		return
	}
	now := map[string]bool{}
	first := ""
	for i := range w.answer().Findings {
		f := &w.answer().Findings[i]
		if f.Level != part.Danger {
			continue
		}
		key := f.Key()
		if now[key] = true; !w.dangers[key] && first == "" {
			first = key
		}
	}
	i := w.findings.find("finding " + first)
	if first != "" && i < 0 { // it is not drawn yet, or left out: a new danger never is
		if w.sift.on() {
			w.sift = sift{}
			w.findings.update()
		}
		return
	}
	w.dangers = now
	if first != "" {
		h := &w.findings.hits[i]
		w.findings.reveal(float32(h.y0), float32(h.y1))
	}
}

func remedyKey(r part.Remedy) string { return fmt.Sprint(r.Do, " ", r.Thing, " ", r.Value) }

// finding draws one card.
func (k *ink) finding(w *Window, i int, f *part.Finding, names func(plan.ID) string, on bool, can map[string]string) {
	ws := w.words()
	what, do := ws.Finding(*f, names)
	x, wide := k.px(10), k.w-k.px(22)
	badge := k.px(82)
	for _, l := range siftLevels {
		badge = max(badge, width(ws.Level(l), bold(k.small()))+k.px(30))
	}
	tx := x + badge + k.px(14)
	room := x + wide - tx - k.px(8)
	head, rest := in(k.mid(), k.c.Ink), k.small()
	if f.Level == part.Danger {
		head.Bold = true
	}
	said := fmt.Sprintf("%d · %s", i+1, what)
	lines, dos := wrap(said, head, room), wrap(do, rest, room)
	if do == "" {
		dos = nil
	}
	high := float64(len(lines))*line(head) + float64(len(dos))*line(rest) + k.px(10)
	buttons := 0.0
	if len(f.Remedies) > 0 {
		buttons = k.buttonHigh() + k.px(5)
	}
	y := k.y
	id := "finding " + f.Key()
	edge, thick := k.c.Edge, 1.0
	if on || k.hover == id {
		edge, thick = k.c.Pick, 2
	}
	k.box(x, y, wide, high+buttons, 4, k.c.Card, edge, thick)
	k.badge(x+k.px(6), y+k.px(6)+line(head)/2, f.Level, ws.Level(f.Level), badge)
	finding := *f
	k.hit(hit{id: id, x0: x, y0: y, x1: x + wide, y1: y + high + buttons,
		press: func() { w.goTo(finding) },
		over:  func(in bool) { w.pointFinding(finding.Key(), in) }})
	ty := y + k.px(5)
	for _, l := range lines {
		k.text(tx, ty+line(head)/2, l, head, 0)
		ty += line(head)
	}
	for _, l := range dos {
		k.text(tx, ty+line(rest)/2, l, rest, 0)
		ty += line(rest)
	}
	bx := tx
	for _, r := range f.Remedies {
		word := ws.Remedy(r.Do)
		if bx+width(word, bold(k.small()))+k.px(18) > x+wide-k.px(4) && bx > tx {
			break
		}
		bx += k.button(bx, ty+k.px(3), id+"/"+r.Do, word, false, func() { w.remedy(r) }, can[remedyKey(r)]) + k.px(6)
	}
	k.y = y + high + buttons + k.px(6)
}

// remedy does what a finding's button says, as one undo step.
func (w *Window) remedy(r part.Remedy) {
	field, err := w.board.Do(r)
	if err != nil {
		if w.board.Prompt() == "" {
			w.say(err.Error())
		}
		return
	}
	if field != nil { // it asks for something to be typed
		w.typeInto(field)
		return
	}
	w.focusBoard()
}

// typeInto opens a field of Details.
func (w *Window) typeInto(f *form.Focus) {
	w.board.Select(f.Thing)
	if tabbed, _ := w.narrow(); tabbed {
		w.choice, w.open = "details", true
	}
	w.refresh()
	w.waiting = f
	w.openWaiting()
}

// openWaiting opens the field that waits for Details to be drawn.
func (w *Window) openWaiting() {
	f := w.waiting
	if f == nil || w.details.find("field "+f.Member) < 0 {
		return
	}
	w.waiting = nil
	for _, m := range form.Fields(w.board.Plan(), w.board.Rig(), f.Thing, w.answer(), w.words()) {
		if m.Member == f.Member {
			i := w.details.find("field " + f.Member)
			w.details.reveal(float32(w.details.hits[i].y0), float32(w.details.hits[i].y1))
			w.edit(f.Thing, m)
			return
		}
	}
}

// pointFinding shows a finding's parts in the picture while it is pointed at.
func (w *Window) pointFinding(key string, in bool) {
	if in {
		w.pointed.finding = key
	} else if w.pointed.finding == key {
		w.pointed.finding = ""
	}
}

// goTo selects what a finding is about and brings it into sight.
func (w *Window) goTo(f part.Finding) {
	w.pointed.finding = f.Key()
	w.board.Select(f.Things...)
	for _, id := range f.Things {
		if w.reveal(id) {
			break
		}
	}
}

// reveal moves the picture so that a thing is seen; false if it has no place.
func (w *Window) reveal(id plan.ID) bool {
	at, ok := w.placeOf(id)
	if !ok {
		return false
	}
	v := w.board.View()
	x, y := v.ToPen(at)
	if x < 40 || y < 40 || x > v.W-40 || y > v.H-40 {
		v.Middle = at
		w.board.SetView(v)
	}
	return true
}

func (w *Window) placeOf(id plan.ID) (plan.Point, bool) {
	p := w.board.Plan()
	if v, ok := p.Vehicle(id); ok {
		return v.At, true
	}
	if a, ok := p.Anchor(id); ok {
		return a.At, true
	}
	if o, ok := p.Obstacle(id); ok {
		return plan.Centroid(o.Outline), true
	}
	if x, ok := p.Person(id); ok {
		return x.At, true
	}
	for _, n := range w.answer().Nodes {
		if n.Thing == id {
			return plan.Point{X: n.At[0], Y: n.At[1]}, true
		}
	}
	for _, s := range w.answer().Stretches {
		if s.Line == id {
			return plan.Point{X: (s.A[0] + s.B[0]) / 2, Y: (s.A[1] + s.B[1]) / 2}, true
		}
	}
	return plan.Point{}, false
}
