package window

import (
	"image/color"
	"math"
	"strings"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// frame is what stands round board and side.
type frame struct {
	w                         *Window
	menu, tabs, verdict, rail *panel.Pane
	status, asks, edge, heads *panel.Pane
	lastTab                   tabPress
}

// snapMenu draws the menu bar, with the plan's name at its right.
func (fr *frame) snapMenu() func(*panel.Drawing) {
	var names []string
	for _, m := range menuNames {
		names = append(names, fr.w.label("menu-"+m))
	}
	state := fr.w.file.state()
	open := fr.w.menus.popup.menuShown()
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Bar)
		x, t := d.Px(4), d.Mid()
		for i, n := range names {
			id := menuNames[i]
			wide := panel.Width(n, t) + d.Px(20)
			if d.Hover == id || open == id {
				d.Box(x, d.Px(3), wide, d.H-d.Px(6), 3, d.Shades.Hover, color.NRGBA{}, 0)
			}
			d.Text(x+d.Px(10), d.H/2, n, t, 0)
			at := x
			d.Hit(panel.Hit{ID: id, X0: x, Y0: 0, X1: x + wide, Y1: d.H, Press: func() { fr.w.menus.open(id, float32(at), fr.menu) }})
			x += wide
		}
		room := d.W - x - d.Px(30)
		d.Right(d.W-d.Px(14), d.H/2, panel.Cut(state, panel.Coloured(t, d.Shades.Quiet), room), panel.Coloured(t, d.Shades.Quiet))
	}
}

// tabTexts is what a rig's tab says: its name, and the worst of everything in
// it.
func (fr *frame) tabTexts(t *board.Tab) (name, worst string) {
	name, worst = t.Name, strings.TrimPrefix(strings.TrimPrefix(t.Text, t.Name), " · ")
	dangers := words.CountLevels(t.Answer.Findings)[part.Danger]
	switch {
	case dangers == 1:
		worst += " · " + fr.w.label("one-danger")
	case dangers > 1:
		worst += " · " + fr.w.label("dangers", part.Count("count", dangers))
	}
	return name, worst
}

func (fr *frame) snapTabs() func(*panel.Drawing) {
	list := fr.w.board.Tabs()
	showWord, units := fr.w.label("show"), fr.w.label("units", part.Text("units", fr.w.words().System().String()))
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Ground)
		t, b := d.Mid(), panel.Bold(d.Mid())
		rightEnd := d.W - d.Px(8)
		for _, m := range [...]struct{ id, word string }{{"units", units}, {"show", showWord}} {
			wide := panel.Width(m.word, t) + d.Px(18)
			rightEnd -= wide
			x := rightEnd
			if d.Hover == m.id {
				d.Box(x, d.Px(6), wide, d.H-d.Px(12), 3, d.Shades.Hover, color.NRGBA{}, 0)
			}
			d.Text(x+d.Px(9), d.H/2, m.word, t, 0)
			d.Hit(panel.Hit{ID: m.id, X0: x, Y0: 0, X1: x + wide, Y1: d.H, Press: func() { fr.w.menus.open(m.id, float32(x), fr.tabs) }})
		}
		room := rightEnd - d.Px(50)
		x := d.Px(8)
		var texts [][2]string
		total := 0.0
		for i := range list {
			n, s := fr.tabTexts(&list[i])
			texts = append(texts, [2]string{n, s})
			total += panel.Width(n, t) + panel.Width(s, b) + d.Px(44)
		}
		squeeze := 1.0
		if total > room && total > 0 {
			squeeze = room / total
		}
		for i, s := range texts {
			id, on := list[i].Rig, list[i].Shown
			wide := (panel.Width(s[0], t)+panel.Width(s[1], b)+d.Px(44))*squeeze - d.Px(6)
			fill, edge := panel.Mix(d.Shades.Ground, d.Shades.Bar, 0.9), color.NRGBA{}
			if on {
				fill, edge = d.Shades.Card, d.Shades.Edge
			} else if d.Hover == "rig "+string(id) {
				fill = d.Shades.Hover
			}
			d.Box(x, d.Px(4), wide, d.H-d.Px(8), 5, fill, edge, 1)
			inner := wide - d.Px(24)
			second := panel.Cut(s[1], b, inner-min(panel.Width(s[0], t), inner*0.4)-d.Px(6))
			d.Text(x+d.Px(12), d.H/2, s[0], t, max(inner-panel.Width(second, b)-d.Px(6), 10))
			d.Right(x+wide-d.Px(12), d.H/2, second, b)
			d.Hit(panel.Hit{ID: "rig " + string(id), X0: x, Y0: 0, X1: x + wide, Y1: d.H,
				Press:  func() { fr.pressTab(id) },
				Second: func() { fr.w.showRig(id); fr.w.menus.open("rig", float32(x), fr.tabs) }})
			x += wide + d.Px(6)
		}
		if d.Hover == "new-rig" {
			d.Box(x, d.Px(6), d.Px(30), d.H-d.Px(12), 3, d.Shades.Hover, color.NRGBA{}, 0)
		}
		d.Middle(x+d.Px(15), d.H/2, "+", panel.Bold(d.Big()))
		d.Hit(panel.Hit{ID: "new-rig", X0: x, Y0: 0, X1: x + d.Px(30), Y1: d.H, Press: func() { fr.w.commands.run("rig.new") }})
	}
}

// showRig shows another rig of the plan.
func (w *Window) showRig(id plan.ID) {
	w.whys.forget()
	w.compare.close()
	w.ways.leave("rig")
	w.board.ShowRig(id)
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
func (fr *frame) snapStatus() func(*panel.Drawing) {
	said := fr.w.said
	if said == "" {
		said = fr.w.board.Prompt()
		if fr.w.printer.now != nil { // the board is not there to be clicked
			said = fr.w.label("print-prompt")
		} else if fr.w.prefs.Units == "" && len(fr.w.board.Plan().Site.Vehicles) == 0 && fr.w.board.Tool() == board.ToolSelect { // a first start asks here, not in a box
			said += "  ·  " + fr.w.label("prompt-units", part.Text("units", fr.w.words().System().String()))
		}
	}
	a, ws, names := fr.w.answer(), fr.w.words(), fr.w.names()
	aid, fault, going := fr.w.label("aid"), fr.w.fault, fr.w.long.shown()
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Bar)
		t, s := d.Mid(), d.Small()
		if going != nil && fault == "" {
			fr.w.long.drawProgress(d, going.said, math.Float64frombits(going.share.Load()))
			return
		}
		if fault != "" {
			drawFault(d, fault, fr.w.label("aid-short"))
			return
		}
		rightEnd := d.W - d.Px(12)
		room := d.W - d.Px(24)
		if wide := panel.Width(aid, s); wide < room*0.5 {
			d.Right(rightEnd, d.H/2, aid, s)
			rightEnd -= wide + d.Px(16)
		} else {
			short := fr.w.label("aid-short")
			d.Right(rightEnd, d.H/2, short, s)
			rightEnd -= panel.Width(short, s) + d.Px(12)
		}
		lines := fr.lineUses(ws, a, names)
		all := said
		if lines != "" {
			if all != "" {
				all += "  ·  "
			}
			all += lines
		}
		if panel.Width(all, t) > rightEnd-d.Px(12) {
			all = said
		}
		d.Text(d.Px(12), d.H/2, all, t, rightEnd-d.Px(12))
	}
}

// drawFault is what went wrong, on two lines if it needs them.
func drawFault(d *panel.Drawing, said, aid string) {
	t, s := panel.Bold(panel.Coloured(d.Mid(), d.Shades.ZoneRedText)), d.Small()
	d.Right(d.W-d.Px(12), d.H/2, aid, s)
	d.Triangle(d.Px(16), d.H/2, d.Px(12), d.Shades.ZoneRedText, color.NRGBA{})
	x := d.Px(28)
	room := d.W - d.Px(24) - panel.Width(aid, s) - x
	if panel.Width(said, t) <= room {
		d.Text(x, d.H/2, said, t, 0)
		return
	}
	t.Size = s.Size * 0.95
	lines := panel.Wrap(said, t, room)
	d.Text(x, d.H/2-t.Size*0.6, lines[0], t, room)
	d.Text(x, d.H/2+t.Size*0.6, strings.Join(lines[1:], " "), t, room)
}

// snapHeads draws the tabs of the side where there is room for one panel.
func (fr *frame) snapHeads() func(*panel.Drawing) {
	choice, all, names := fr.w.shell.choice, fr.tabsOfSide(), fr.panelNames(len(words.Cards(fr.w.answer().Findings)))
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Ground)
		wide := d.W / float64(max(1, len(all)))
		for i, id := range all {
			x := wide * float64(i)
			fill := d.Shades.Bar
			t := d.Mid()
			on := id == choice || id == panelUsual && choice != panelOutcome
			if on {
				fill, t = d.Shades.Panel, panel.Bold(t)
			} else if d.Hover == id {
				fill = d.Shades.Hover
			}
			d.Fill(x, 0, wide-1, d.H, fill)
			d.Middle(x+wide/2, d.H/2, panel.Cut(names[id], t, wide-d.Px(8)), t)
			if on {
				d.Fill(x, d.H-3, wide-1, 3, d.Shades.Ink)
			}
			d.Hit(panel.Hit{ID: id, X0: x, Y0: 0, X1: x + wide, Y1: d.H, Press: func() { fr.w.shell.showPanel(id) }})
		}
	}
}

// Panels of the side by their ids; panelUsual are those that lie one above another where
// there is room.
const (
	panelOutcome = "outcome"
	panelUsual   = "usual"
)

// panelsOfSide are the panels that are shown one at a time where there is no room for
// more.
func (fr *frame) panelsOfSide() []string {
	all := []string{"findings", "loads", "details"}
	if fr.w.shell.choice == panelOutcome || fr.w.outcome.offered() {
		all = append(all, panelOutcome)
	}
	return all
}

// tabsOfSide are the tabs of the side; none: all lie one above another.
func (fr *frame) tabsOfSide() []string {
	all := fr.panelsOfSide()
	if tabbed, _ := fr.w.shell.narrow(); tabbed {
		return all
	}
	if all[len(all)-1] == panelOutcome {
		return []string{panelUsual, panelOutcome}
	}
	return nil
}

func (fr *frame) panelNames(findings int) map[string]string {
	return map[string]string{"findings": fr.w.label("head-findings", part.Count("count", findings)), "loads": fr.w.label("title-loads"), "details": fr.w.label("title-details"),
		panelOutcome: fr.w.label("head-outcome"), panelUsual: fr.w.label("head-usual")}
}

// snapEdge draws the edge that is left of the side in a narrow window.
func (fr *frame) snapEdge() func(*panel.Drawing) {
	a := fr.w.answer()
	choice, open, all, names := fr.w.shell.choice, fr.w.shell.open, fr.panelsOfSide(), fr.panelNames(len(words.Cards(a.Findings)))
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Bar)
		y := d.Px(6)
		for _, id := range all {
			h := d.Px(54)
			fill := color.NRGBA{}
			if open && id == choice {
				fill = d.Shades.Card
			} else if d.Hover == id {
				fill = d.Shades.Hover
			}
			d.Box(d.Px(4), y, d.W-d.Px(8), h, 4, fill, color.NRGBA{}, 0)
			word, count, _ := strings.Cut(names[id], " ")
			d.Middle(d.W/2, y+d.Px(17), panel.Cut(word, d.Small(), d.W-d.Px(10)), panel.Coloured(d.Small(), d.Shades.Ink))
			if id == "loads" && a.Worst >= 0 && a.Worst < len(a.Parts) {
				count = fr.w.words().UsedOf(&a.Parts[a.Worst])
			}
			if id == "findings" && len(a.Findings) > 0 {
				fill, on := d.Shades.Level(a.Findings[0].Level)
				t := panel.Bold(panel.Coloured(d.Mid(), on))
				d.Box(d.W/2-d.Px(17), y+d.Px(27), d.Px(34), d.Px(20), 3, fill, color.NRGBA{}, 0)
				d.Middle(d.W/2, y+d.Px(37), count, t)
			} else {
				d.Middle(d.W/2, y+d.Px(37), count, panel.Bold(d.Mid()))
			}
			d.Hit(panel.Hit{ID: id, X0: 0, Y0: y, X1: d.W, Y1: y + h, Press: func() {
				if fr.w.shell.open && fr.w.shell.choice == id && !fr.w.ways.shown {
					fr.w.shell.open = false
				} else {
					fr.w.shell.showPanel(id)
				}
			}})
			y += h + d.Px(6)
		}
	}
}

// showPanel brings a panel of the side to sight and gives it the keys.
func (sh *shell) showPanel(id string) {
	if id == panelUsual {
		id = "findings"
	}
	if !sh.w.ways.beside(id) {
		sh.choice, sh.open = id, true
	}
	sh.arrange()
	if p := sh.panels()[id]; p != nil && p.Shown() {
		sh.w.win.Canvas().Focus(p)
	}
}

// panels are the panels of the side by their ids.
func (sh *shell) panels() map[string]*panel.Pane {
	return map[string]*panel.Pane{"findings": sh.w.findings.pane, "loads": sh.w.loads.pane, "details": sh.w.details.pane, panelOutcome: sh.w.outcome.pane}
}

// leavePanel gives the keys back to the board and closes a panel that lies over
// it.
func (sh *shell) leavePanel() {
	if _, edge := sh.narrow(); edge {
		sh.open = false
	}
	sh.w.focusBoard()
	sh.w.refresh()
}
