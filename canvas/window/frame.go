package window

import (
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// snapMenu draws the menu bar, with the plan's name at its right.
func (w *Window) snapMenu() func(*ink) {
	var names []string
	for _, m := range menuNames {
		names = append(names, w.label("menu-"+m))
	}
	state := w.file.state()
	open := w.popup.menuShown()
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Bar)
		x, t := k.px(4), k.mid()
		for i, n := range names {
			id := menuNames[i]
			wide := width(n, t) + k.px(20)
			if k.hover == id || open == id {
				k.box(x, k.px(3), wide, k.h-k.px(6), 3, k.c.Hover, color.NRGBA{}, 0)
			}
			k.text(x+k.px(10), k.h/2, n, t, 0)
			at := x
			k.hit(hit{id: id, x0: x, y0: 0, x1: x + wide, y1: k.h, press: func() { w.openMenu(id, float32(at), w.menu) }})
			x += wide
		}
		room := k.w - x - k.px(30)
		k.right(k.w-k.px(14), k.h/2, cut(state, in(t, k.c.Quiet), room), in(t, k.c.Quiet))
	}
}

// tabTexts is what a rig's tab says: its name, and the worst of everything in
// it.
func (w *Window) tabTexts(t *board.Tab) (name, worst string) {
	name, worst = t.Name, strings.TrimPrefix(strings.TrimPrefix(t.Text, t.Name), " · ")
	dangers := 0
	for i := range t.Answer.Findings {
		if t.Answer.Findings[i].Level == part.Danger {
			dangers++
		}
	}
	switch {
	case dangers == 1:
		worst += " · " + w.label("one-danger")
	case dangers > 1:
		worst += " · " + w.label("dangers", count(dangers))
	}
	return name, worst
}

func count(n int) part.Value {
	return part.Value{Name: "count", Unit: part.UnitCount, X: float64(n)}
}

func (w *Window) snapTabs() func(*ink) {
	list := w.board.Tabs()
	showWord, units := w.label("show"), w.label("units", text("units", w.words().System().String()))
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Ground)
		t, b := k.mid(), bold(k.mid())
		rightEnd := k.w - k.px(8)
		for _, m := range [...]struct{ id, word string }{{"units", units}, {"show", showWord}} {
			wide := width(m.word, t) + k.px(18)
			rightEnd -= wide
			x := rightEnd
			if k.hover == m.id {
				k.box(x, k.px(6), wide, k.h-k.px(12), 3, k.c.Hover, color.NRGBA{}, 0)
			}
			k.text(x+k.px(9), k.h/2, m.word, t, 0)
			k.hit(hit{id: m.id, x0: x, y0: 0, x1: x + wide, y1: k.h, press: func() { w.openMenu(m.id, float32(x), w.tabs) }})
		}
		room := rightEnd - k.px(50)
		x := k.px(8)
		var texts [][2]string
		total := 0.0
		for i := range list {
			n, s := w.tabTexts(&list[i])
			texts = append(texts, [2]string{n, s})
			total += width(n, t) + width(s, b) + k.px(44)
		}
		squeeze := 1.0
		if total > room && total > 0 {
			squeeze = room / total
		}
		for i, s := range texts {
			id, on := list[i].Rig, list[i].Shown
			wide := (width(s[0], t)+width(s[1], b)+k.px(44))*squeeze - k.px(6)
			fill, edge := mix(k.c.Ground, k.c.Bar, 0.9), color.NRGBA{}
			if on {
				fill, edge = k.c.Card, k.c.Edge
			} else if k.hover == "rig "+string(id) {
				fill = k.c.Hover
			}
			k.box(x, k.px(4), wide, k.h-k.px(8), 5, fill, edge, 1)
			inner := wide - k.px(24)
			second := cut(s[1], b, inner-min(width(s[0], t), inner*0.4)-k.px(6))
			k.text(x+k.px(12), k.h/2, s[0], t, max(inner-width(second, b)-k.px(6), 10))
			k.right(x+wide-k.px(12), k.h/2, second, b)
			k.hit(hit{id: "rig " + string(id), x0: x, y0: 0, x1: x + wide, y1: k.h,
				press:  func() { w.pressTab(id) },
				second: func() { w.showRig(id); w.openMenu("rig", float32(x), w.tabs) }})
			x += wide + k.px(6)
		}
		if k.hover == "new-rig" {
			k.box(x, k.px(6), k.px(30), k.h-k.px(12), 3, k.c.Hover, color.NRGBA{}, 0)
		}
		k.middle(x+k.px(15), k.h/2, "+", bold(k.big()))
		k.hit(hit{id: "new-rig", x0: x, y0: 0, x1: x + k.px(30), y1: k.h, press: func() { w.run("rig.new") }})
	}
}

// showRig shows another rig of the plan.
func (w *Window) showRig(id plan.ID) {
	w.pinned = ""
	w.endCompare()
	w.leaveWays("rig")
	w.board.ShowRig(id)
}

// snapVerdict draws the verdict line: always there, never cut short without
// saying so.
func (w *Window) snapVerdict() func(*ink) {
	a, names, ws := w.answer(), w.names(), w.words()
	preview, hidden := w.board.Shown() != w.board.Plan(), w.hiddenZones()
	return func(k *ink) {
		level, has, verdict, more := ws.Verdict(a, names)
		k.fill(0, 0, k.w, k.h, k.c.Ground)
		edge := k.c.Edge
		if has {
			edge, _ = k.c.Level(level)
		}
		k.box(0.75, 0.75, k.w-1.5, k.h-2.5, 2, k.c.Card, edge, 1.5)
		x := k.px(8)
		if has {
			x += k.badge(x, k.h/2, level, ws.Level(level), k.px(82)) + k.px(10)
		}
		rightEnd := k.w - k.px(10)
		if more > 0 {
			m := w.label("more", count(more))
			k.right(rightEnd, k.h/2, m, k.mid())
			wide := width(m, k.mid())
			rightEnd -= wide + k.px(12)
		}
		if chip := ws.Chip(a); chip != "" {
			rightEnd -= k.chip(rightEnd, k.h/2, chip) + k.px(8)
		}
		if hidden > 0 { // a zone that is not drawn must not look like no zone
			rightEnd -= k.chip(rightEnd, k.h/2, w.label("zones-hidden", count(hidden))) + k.px(8)
		}
		if preview {
			p := w.label("preview")
			k.right(rightEnd, k.h/2, p, in(k.mid(), k.c.Pick))
			rightEnd -= width(p, k.mid()) + k.px(10)
		}
		k.sentence(x, k.h/2, rightEnd-x, verdict)
		k.hit(hit{id: "more", x0: 0, y0: 0, x1: k.w, y1: k.h, press: func() { w.showPanel("findings") }})
	}
}

// hiddenZones are how many kinds of zone the answer has that are not drawn.
func (w *Window) hiddenZones() int {
	seen := map[string]bool{}
	for _, z := range w.answer().Zones {
		if w.show.HideZones[string(z.Kind)] {
			seen[string(z.Kind)] = true
		}
	}
	return len(seen)
}

// snapStatus draws the status line: the next possible step, the line out, and
// the caution that never goes.
func (w *Window) snapStatus() func(*ink) {
	said := w.said
	if said == "" {
		said = w.board.Prompt()
		if w.print != nil { // the board is not there to be clicked
			said = w.label("print-prompt")
		} else if w.prefs.Units == "" && len(w.board.Plan().Site.Vehicles) == 0 && w.board.Tool() == board.ToolSelect { // a first start asks here, not in a box
			said += "  ·  " + w.label("prompt-units", text("units", w.words().System().String()))
		}
	}
	a, ws, names := w.answer(), w.words(), w.names()
	aid, fault, going := w.label("aid"), w.fault, w.shownLong()
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Bar)
		t, s := k.mid(), k.small()
		if going != nil && fault == "" {
			k.longSaid(w, going.said, math.Float64frombits(going.share.Load()))
			return
		}
		if fault != "" {
			k.fault(fault, w.label("aid-short"))
			return
		}
		rightEnd := k.w - k.px(12)
		room := k.w - k.px(24)
		if wide := width(aid, s); wide < room*0.5 {
			k.right(rightEnd, k.h/2, aid, s)
			rightEnd -= wide + k.px(16)
		} else {
			short := w.label("aid-short")
			k.right(rightEnd, k.h/2, short, s)
			rightEnd -= width(short, s) + k.px(12)
		}
		lines := lineUses(ws, a, names, w)
		all := said
		if lines != "" {
			if all != "" {
				all += "  ·  "
			}
			all += lines
		}
		if width(all, t) > rightEnd-k.px(12) {
			all = said
		}
		k.text(k.px(12), k.h/2, all, t, rightEnd-k.px(12))
	}
}

// fault is what went wrong, on two lines if it needs them.
func (k *ink) fault(said, aid string) {
	t, s := bold(in(k.mid(), k.c.ZoneRedText)), k.small()
	k.right(k.w-k.px(12), k.h/2, aid, s)
	k.triangle(k.px(16), k.h/2, k.px(12), k.c.ZoneRedText, color.NRGBA{})
	x := k.px(28)
	room := k.w - k.px(24) - width(aid, s) - x
	if width(said, t) <= room {
		k.text(x, k.h/2, said, t, 0)
		return
	}
	t.Size = s.Size * 0.95
	lines := wrap(said, t, room)
	k.text(x, k.h/2-t.Size*0.6, lines[0], t, room)
	k.text(x, k.h/2+t.Size*0.6, strings.Join(lines[1:], " "), t, room)
}

// snapHeads draws the tabs of the side where there is room for one panel.
func (w *Window) snapHeads() func(*ink) {
	n := len(w.answer().Findings)
	choice, names := w.choice, w.panelNames(n)
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Ground)
		wide := k.w / float64(len(names))
		for i, id := range panelOrder {
			x := wide * float64(i)
			fill := k.c.Bar
			t := k.mid()
			if id == choice {
				fill, t = k.c.Panel, bold(t)
			} else if k.hover == id {
				fill = k.c.Hover
			}
			k.fill(x, 0, wide-1, k.h, fill)
			k.middle(x+wide/2, k.h/2, cut(names[i], t, wide-k.px(8)), t)
			if id == choice {
				k.fill(x, k.h-3, wide-1, 3, k.c.Ink)
			}
			k.hit(hit{id: id, x0: x, y0: 0, x1: x + wide, y1: k.h, press: func() { w.showPanel(id) }})
		}
	}
}

var panelOrder = [...]string{"findings", "loads", "details"}

func (w *Window) panelNames(findings int) []string {
	return []string{w.label("head-findings", count(findings)), w.label("title-loads"), w.label("title-details")}
}

// snapEdge draws the edge that is left of the side in a narrow window.
func (w *Window) snapEdge() func(*ink) {
	a := w.answer()
	choice, open, names := w.choice, w.open, w.panelNames(len(a.Findings))
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Bar)
		y := k.px(6)
		for i, id := range panelOrder {
			h := k.px(54)
			fill := color.NRGBA{}
			if open && id == choice {
				fill = k.c.Card
			} else if k.hover == id {
				fill = k.c.Hover
			}
			k.box(k.px(4), y, k.w-k.px(8), h, 4, fill, color.NRGBA{}, 0)
			word, count, _ := strings.Cut(names[i], " ")
			k.middle(k.w/2, y+k.px(17), cut(word, k.small(), k.w-k.px(10)), in(k.small(), k.c.Ink))
			if id == "loads" && a.Worst >= 0 && a.Worst < len(a.Parts) {
				count = w.words().UsedOf(&a.Parts[a.Worst])
			}
			if id == "findings" && len(a.Findings) > 0 {
				fill, on := k.c.Level(a.Findings[0].Level)
				t := bold(in(k.mid(), on))
				k.box(k.w/2-k.px(17), y+k.px(27), k.px(34), k.px(20), 3, fill, color.NRGBA{}, 0)
				k.middle(k.w/2, y+k.px(37), count, t)
			} else {
				k.middle(k.w/2, y+k.px(37), count, bold(k.mid()))
			}
			k.hit(hit{id: id, x0: 0, y0: y, x1: k.w, y1: y + h, press: func() {
				if w.open && w.choice == id && !w.ways.shown {
					w.open = false
				} else {
					w.showPanel(id)
				}
			}})
			y += h + k.px(6)
		}
	}
}

// showPanel brings a panel of the side to sight and gives it the keys.
func (w *Window) showPanel(id string) {
	if !w.besideWays(id) {
		w.choice, w.open = id, true
	}
	w.arrange()
	p := map[string]*pane{"findings": w.findings, "loads": w.loads, "details": w.details}[id]
	if p != nil && w.shown(p) {
		w.win.Canvas().Focus(p)
	}
}

// leavePanel gives the keys back to the board and closes a panel that lies over
// it.
func (w *Window) leavePanel() {
	if _, edge := w.narrow(); edge {
		w.open = false
	}
	w.focusBoard()
	w.refresh()
}

// askSize is the room the open question takes.
func (w *Window) askSize() fyne.Size {
	k := w.textScale()
	return fyne.NewSize(float32(430*k), float32(62*k))
}

// snapAsks draws the open question over the board.
func (w *Window) snapAsks() func(*ink) {
	q := w.board.Question()
	if q == nil {
		return func(*ink) {}
	}
	hint := w.label("ask-hint")
	if c := q.Choices(); len(c) > 0 {
		hint = strings.Join(c, " · ")
	}
	return func(k *ink) {
		k.fill(0, 0, k.w, k.h, k.c.Card)
		k.box(1, 1, k.w-2, k.h-2, 3, k.c.Card, k.c.Pick, 2)
		t := bold(k.mid())
		k.text(k.px(12), k.px(18), q.Label, t, k.w-k.px(24))
		y, high := k.px(42), k.px(24)
		edge := k.c.Edge
		if q.In {
			edge = k.c.Pick
		}
		k.box(k.px(12), y-high/2, k.px(130), high, 3, k.c.Paper, edge, 1.2)
		typed := k.big()
		k.text(k.px(18), y, q.Text, typed, 0)
		if q.In {
			x := k.px(20) + width(q.Text, typed)
			k.stroke(x, y-k.px(8), x, y+k.px(8), 1.4, k.c.Pick)
		}
		note, style := hint, k.small()
		if q.Error != "" {
			note, style = q.Error, bold(in(k.small(), k.c.ZoneRedText))
		}
		lines := wrap(note, style, k.w-k.px(164))
		if len(lines) == 1 {
			k.text(k.px(152), y, note, style, 0)
		} else {
			k.text(k.px(152), y-line(style)/2, lines[0], style, 0)
			k.text(k.px(152), y+line(style)/2, strings.Join(lines[1:], " "), style, k.w-k.px(164))
		}
		k.hit(hit{id: "ask", idle: true, x0: 0, y0: 0, x1: k.w, y1: k.h, press: func() { w.focusBoard() }})
	}
}
