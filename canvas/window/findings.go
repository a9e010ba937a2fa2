package window

import (
	"fmt"
	"slices"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/remedy"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// findingsPanel lists the findings.
type findingsPanel struct {
	w        *Window
	pane     *panel.Pane
	filter   filter
	dangers  map[string]bool // findings of that level shown last, by their keys; nil: none were shown yet
	fresh    string          // key of one that came and has not been in sight yet
	said     bool            // at the verdict, that there is one
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
	if len(fp.w.board.Selection()) == 0 { // about nothing there is nothing to list
		fp.filter.selected = false
	}
	title, none := fp.w.label("title-findings"), fp.w.label("verdict-nothing")
	if len(a.Parts) > 0 {
		none = fp.w.label("verdict-none")
	}
	flagged := fp.w.overlay().Flagged
	can := fp.cannot(fs)
	selection := fp.w.board.Selection()
	about := func(id plan.ID) bool { return slices.Contains(selection, id) }
	cards := words.Cards(fs)
	listed, whole := make([]words.Card, len(cards)), 0 // by number; of a card in part, the rows that are shown
	now, missing, entering, why := fp.filter, fp.missing(cards, fs), fp.w.details.entry.at(), fp.w.whys.findings(fs)
	for i, c := range cards {
		listed[i] = c
		listed[i].Of = nil
		for _, k := range c.Of {
			if now.shows(c.Level, &fs[k], about) {
				listed[i].Of = append(listed[i].Of, k)
			}
		}
		if len(listed[i].Of) == len(c.Of) {
			whole++
		}
	}
	return func(d *panel.Drawing) {
		naming := ws.Naming(a, names)
		fp.drawAbout(d, now.selected, fmt.Sprint(len(cards)), len(selection) > 0)
		d.Title(title, fmt.Sprint(len(cards)))
		fp.drawFilter(d, now, cards, whole)
		if len(fs) == 0 {
			d.Note(none, d.Mid(), 0)
			return
		}
		for i, c := range listed {
			if len(c.Of) > 0 {
				(&cardDrawing{fp, d, ws, c, fs, naming, flagged, can, missing, entering, why}).draw(i + 1)
			}
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

// drawn looks for dangers that were not there before. They never move what is being read:
// the verdict says that there is one, as long as it is out of sight.
func (fp *findingsPanel) drawn() {
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
	if fp.dangers != nil && first != "" && fp.fresh == "" {
		fp.fresh = first
	}
	fp.dangers = now
	fp.look()
}

// look forgets the new danger once it is in sight, or there no more.
func (fp *findingsPanel) look() {
	i := fp.pane.Find("finding " + fp.fresh)
	if now := fp.fresh != "" && i >= 0 && !fp.pane.InSight(i); now != fp.said {
		fp.said = now
		fp.w.frame.verdict.Update()
	}
	if !fp.said {
		fp.fresh = ""
	}
}

// goFresh brings the new danger into sight.
func (fp *findingsPanel) goFresh() {
	if i := fp.pane.Find("finding " + fp.fresh); fp.said && i >= 0 {
		fp.pane.RevealHit(i)
		fp.look()
	}
}

func remedyKey(r part.Remedy) string { return fmt.Sprint(r.Do, " ", r.Thing, " ", r.Value) }

// drawButtons draws the buttons of a card in one row, as far as there is room.
func drawButtons(d *panel.Drawing, buttons []cardButton, x, y, room float64, can map[string]string) {
	bx := x
	for _, b := range buttons {
		if bx+d.ButtonWide(b.word) > x+room+d.Px(4) && bx > x {
			break
		}
		bx += d.Button(bx, y, b.id, b.word, false, b.press, can[b.remedy]) + d.Px(6)
	}
}

// hit is where a finding is pressed and pointed at.
func (fp *findingsPanel) hit(d *panel.Drawing, f part.Finding, x, y, wide, high float64) {
	d.Hit(panel.Hit{ID: findingRow(&f), X0: x, Y0: y, X1: x + wide, Y1: y + high,
		Press: func() { fp.w.whys.toggle(findingRow(&f)); fp.goTo(f) },
		Over:  func(in bool) { fp.point(f.Key(), in) }})
}

// cardButton is a button of a card.
type cardButton struct {
	id, word, remedy string
	press            func()
}

// cardButtons are those of a card: where the worst is along the way, and each
// remedy of its findings once, of several findings with what it is done to.
func (fp *findingsPanel) cardButtons(c words.Card, fs []part.Finding, names func(plan.ID) string) []cardButton {
	var all []cardButton
	seen := map[string]bool{}
	for k, i := range c.Of {
		f := &fs[i]
		id, travel := "finding "+f.Key(), f.Travel
		if k == 0 && travel > 0 {
			all = append(all, cardButton{id + "/there", fp.w.label("do-go-there"), "", func() { fp.w.travel.show(travel) }})
		}
		for _, r := range f.Remedies {
			key, word := remedyKey(r), fp.w.words().Remedy(r.Do)
			if seen[key] || c.Asks() && remedy.Typed(r) { // a row of its own asks for it
				continue
			}
			seen[key] = true
			if len(c.Of) > 1 && r.Thing != "" {
				word += ": " + names(r.Thing)
			}
			all = append(all, cardButton{id + "/" + r.Do, word, key, func() { fp.remedy(r) }})
		}
	}
	return all
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
	dp.unfold(f.Thing, f.Member)
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
	if m, ok := form.FieldOf(dp.w.board.Plan(), dp.w.board.Rig(), f.Thing, f.Member, dp.w.answer(), dp.w.words()); ok {
		dp.pane.RevealHit(dp.pane.Find("field " + f.Member))
		dp.edit(f.Thing, m)
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
