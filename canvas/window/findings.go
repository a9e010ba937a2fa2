package window

import (
	"fmt"
	"slices"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// snapFindings draws the findings as cards.
func (w *Window) snapFindings() func(*panel.Drawing) {
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
	return func(d *panel.Drawing) {
		naming := ws.Naming(a, names)
		d.Title(title, fmt.Sprint(len(fs)))
		drawFilter(d, w, now, fs, len(listed), len(selection) > 0)
		if len(fs) == 0 {
			d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), none, d.Mid())
			return
		}
		for _, i := range listed {
			drawFinding(d, w, i, &fs[i], naming, flagged == fs[i].Key(), can)
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
	if !w.findings.Shown() {
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
	i := w.findings.Find("finding " + first)
	if first != "" && i < 0 { // it is not drawn yet, or left out: a new danger never is
		if w.sift.on() {
			w.sift = filter{}
			w.findings.Update()
		}
		return
	}
	w.dangers = now
	if first != "" {
		w.findings.RevealHit(i)
	}
}

func remedyKey(r part.Remedy) string { return fmt.Sprint(r.Do, " ", r.Thing, " ", r.Value) }

// drawFinding draws one card.
func drawFinding(d *panel.Drawing, w *Window, i int, f *part.Finding, names func(plan.ID) string, on bool, can map[string]string) {
	ws := w.words()
	what, do := ws.Finding(*f, names)
	x, wide := d.Px(10), d.W-d.Px(22)
	badge := d.Px(82)
	for _, l := range filterLevels {
		badge = max(badge, panel.Width(ws.Level(l), panel.Bold(d.Small()))+d.Px(30))
	}
	tx := x + badge + d.Px(14)
	room := x + wide - tx - d.Px(8)
	head, rest := panel.Coloured(d.Mid(), d.Shades.Ink), d.Small()
	if f.Level == part.Danger {
		head.Bold = true
	}
	said := fmt.Sprintf("%d · %s", i+1, what)
	lines, dos := panel.Wrap(said, head, room), panel.Wrap(do, rest, room)
	if do == "" {
		dos = nil
	}
	high := float64(len(lines))*panel.LineHigh(head) + float64(len(dos))*panel.LineHigh(rest) + d.Px(10)
	buttons := 0.0
	if len(f.Remedies) > 0 {
		buttons = d.ButtonHigh() + d.Px(5)
	}
	y := d.Y
	id := "finding " + f.Key()
	edge, thick := d.Shades.Edge, 1.0
	if on || d.Hover == id {
		edge, thick = d.Shades.Pick, 2
	}
	d.Box(x, y, wide, high+buttons, 4, d.Shades.Card, edge, thick)
	d.Badge(x+d.Px(6), y+d.Px(6)+panel.LineHigh(head)/2, f.Level, ws.Level(f.Level), badge)
	finding := *f
	d.Hit(panel.Hit{ID: id, X0: x, Y0: y, X1: x + wide, Y1: y + high + buttons,
		Press: func() { w.goTo(finding) },
		Over:  func(in bool) { w.pointFinding(finding.Key(), in) }})
	ty := y + d.Px(5)
	for _, l := range lines {
		d.Text(tx, ty+panel.LineHigh(head)/2, l, head, 0)
		ty += panel.LineHigh(head)
	}
	for _, l := range dos {
		d.Text(tx, ty+panel.LineHigh(rest)/2, l, rest, 0)
		ty += panel.LineHigh(rest)
	}
	bx := tx
	for _, r := range f.Remedies {
		word := ws.Remedy(r.Do)
		if bx+panel.Width(word, panel.Bold(d.Small()))+d.Px(18) > x+wide-d.Px(4) && bx > tx {
			break
		}
		bx += d.Button(bx, ty+d.Px(3), id+"/"+r.Do, word, false, func() { w.remedy(r) }, can[remedyKey(r)]) + d.Px(6)
	}
	d.Y = y + high + buttons + d.Px(6)
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
	if f == nil || w.details.Find("field "+f.Member) < 0 {
		return
	}
	w.waiting = nil
	for _, m := range form.Fields(w.board.Plan(), w.board.Rig(), f.Thing, w.answer(), w.words()) {
		if m.Member == f.Member {
			w.details.RevealHit(w.details.Find("field " + f.Member))
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
