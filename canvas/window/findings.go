package window

import (
	"fmt"
	"slices"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// findingsPanel lists the findings.
type findingsPanel struct {
	w        *Window
	pane     *panel.Pane
	filter   filter
	dangers  map[string]bool // findings of that level shown last, by their keys
	remedies struct {        // why they cannot be done, as far as it was asked
		plan  *plan.Plan
		rig   plan.ID
		words *words.Words
		why   map[string]string
	}
}

// snap draws the findings as cards.
func (fp *findingsPanel) snap() func(*panel.Drawing) {
	a, ws, names := fp.w.answer(), fp.w.words(), fp.w.names()
	fs := a.Findings
	title, none := fp.w.label("title-findings"), fp.w.label("verdict-nothing")
	if len(a.Parts) > 0 {
		none = fp.w.label("verdict-none")
	}
	flagged := fp.w.overlay().Flagged
	can := fp.cannot(fs)
	selection := fp.w.board.Selection()
	about := func(id plan.ID) bool { return slices.Contains(selection, id) }
	var listed []int
	now := fp.filter
	for i := range fs {
		if fp.filter.shows(&fs[i], about) {
			listed = append(listed, i)
		}
	}
	return func(d *panel.Drawing) {
		naming := ws.Naming(a, names)
		d.Title(title, fmt.Sprint(len(fs)))
		fp.drawFilter(d, now, fs, len(listed), len(selection) > 0)
		if len(fs) == 0 {
			d.Note(none, d.Mid(), 0)
			return
		}
		for _, i := range listed {
			fp.drawFinding(d, i, &fs[i], naming, flagged == fs[i].Key(), can)
		}
	}
}

// cannot is why remedies cannot be done, by their keys; empty: they can. It is
// asked of the plan as it is, so while that stays nothing is asked twice.
func (fp *findingsPanel) cannot(fs []part.Finding) map[string]string {
	m := &fp.remedies
	if p, rig, ws := fp.w.board.Plan(), fp.w.board.Rig(), fp.w.words(); m.why == nil || m.plan != p || m.rig != rig || m.words != ws {
		m.plan, m.rig, m.words, m.why = p, rig, ws, map[string]string{}
	}
	now := make(map[string]string) // the drawing's own: it is read on the worker
	for i := range fs {
		for _, r := range fs[i].Remedies {
			key := remedyKey(r)
			why, known := m.why[key]
			if !known {
				_, why = fp.w.board.CanDo(r)
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
func (fp *findingsPanel) showDanger() {
	if !fp.pane.Shown() {
		return
	}
	now := map[string]bool{}
	first := ""
	for i := range fp.w.answer().Findings {
		f := &fp.w.answer().Findings[i]
		if f.Level != part.Danger {
			continue
		}
		key := f.Key()
		if now[key] = true; !fp.dangers[key] && first == "" {
			first = key
		}
	}
	i := fp.pane.Find("finding " + first)
	if first != "" && i < 0 { // it is not drawn yet, or left out: a new danger never is
		if fp.filter.on() {
			fp.filter = filter{}
			fp.pane.Update()
		}
		return
	}
	fp.dangers = now
	if first != "" {
		fp.pane.RevealHit(i)
	}
}

func remedyKey(r part.Remedy) string { return fmt.Sprint(r.Do, " ", r.Thing, " ", r.Value) }

// drawFinding draws one card.
func (fp *findingsPanel) drawFinding(d *panel.Drawing, i int, f *part.Finding, names func(plan.ID) string, on bool, can map[string]string) {
	ws := fp.w.words()
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
	if len(f.Remedies) > 0 || f.Travel > 0 {
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
		Press: func() { fp.goTo(finding) },
		Over:  func(in bool) { fp.point(finding.Key(), in) }})
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
	if f.Travel > 0 {
		bx += d.Button(bx, ty+d.Px(3), id+"/there", fp.w.label("do-go-there"), false, func() { fp.w.travel.show(finding.Travel) }, "") + d.Px(6)
	}
	for _, r := range f.Remedies {
		word := ws.Remedy(r.Do)
		if bx+d.ButtonWide(word) > x+wide-d.Px(4) && bx > tx {
			break
		}
		bx += d.Button(bx, ty+d.Px(3), id+"/"+r.Do, word, false, func() { fp.remedy(r) }, can[remedyKey(r)]) + d.Px(6)
	}
	d.Y = y + high + buttons + d.Px(6)
}

// remedy does what a finding's button says, as one undo step.
func (fp *findingsPanel) remedy(r part.Remedy) {
	field, err := fp.w.board.Do(r)
	if err != nil {
		if fp.w.board.Prompt() == "" {
			fp.w.say(fp.w.words().Refusal(err))
		}
		return
	}
	if field != nil { // it asks for something to be typed
		fp.w.details.typeInto(field)
		return
	}
	fp.w.focusBoard()
}

// typeInto opens a field of Details.
func (dp *detailsPanel) typeInto(f *form.Focus) {
	dp.w.board.Select(f.Thing)
	if tabbed, _ := dp.w.shell.narrow(); tabbed {
		dp.w.shell.choice, dp.w.shell.open = "details", true
	}
	dp.w.refresh()
	dp.waiting = f
	dp.openWaiting()
}

// openWaiting opens the field that waits for Details to be drawn.
func (dp *detailsPanel) openWaiting() {
	f := dp.waiting
	if f == nil || dp.pane.Find("field "+f.Member) < 0 {
		return
	}
	dp.waiting = nil
	for _, m := range form.Fields(dp.w.board.Plan(), dp.w.board.Rig(), f.Thing, dp.w.answer(), dp.w.words()) {
		if m.Member == f.Member {
			dp.pane.RevealHit(dp.pane.Find("field " + f.Member))
			dp.edit(f.Thing, m)
			return
		}
	}
}

// point shows a finding's parts in the picture while it is pointed at.
func (fp *findingsPanel) point(key string, in bool) {
	if in {
		fp.w.pointed.finding = key
	} else if fp.w.pointed.finding == key {
		fp.w.pointed.finding = ""
	}
}

// goTo selects what a finding is about and brings it into sight.
func (fp *findingsPanel) goTo(f part.Finding) {
	fp.w.pointed.finding = f.Key()
	fp.w.board.Select(f.Things...)
	for _, id := range f.Things {
		if fp.w.reveal(id) {
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
			return plan.Point{X: n.At.X, Y: n.At.Y}, true
		}
	}
	for _, s := range w.answer().Stretches {
		if s.Line == id {
			return plan.Point{X: (s.A.X + s.B.X) / 2, Y: (s.A.Y + s.B.Y) / 2}, true
		}
	}
	return plan.Point{}, false
}
