package window

import (
	"fmt"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/layout"
	"kedge/solver/part"
)

// waysPanel lists the ways round beside the sheet, over Findings and Details,
// while the board shows them.
type waysPanel struct {
	w     *Window
	pane  *panel.Pane
	shown bool
	open  bool   // whether a panel lay open over the board before
	at    int    // way brought into sight last
	below string // panel that stays in sight below the list: "loads" or "findings"
}

// build gives the keys of the panel to the board.
func (wp *waysPanel) build() {
	wp.pane.Keys = func(k fyne.KeyName) bool {
		switch k {
		case fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyEscape:
			wp.w.board.Handle(board.Key{Name: keyNames[k]})
			_, at := wp.w.board.Ways()
			wp.pane.Focus = wayID(at)
			wp.w.refresh()
			return true
		case fyne.KeyReturn, fyne.KeyEnter:
			if _, at := wp.w.board.Ways(); at >= 0 && wp.pane.Focus == wayID(at) {
				wp.w.board.TakeWay()
				wp.w.focusBoard()
				wp.w.refresh()
				return true
			}
		}
		return false
	}
	wp.pane.Drawn = wp.reveal
}

// watch opens and closes the panel as the board shows ways or leaves them.
func (wp *waysPanel) watch() {
	found, _ := wp.w.board.Ways()
	if open := found != nil; open != wp.shown {
		wp.shown = open
		if open {
			wp.w.details.closeEntry()
			wp.open, wp.w.shell.open, wp.at, wp.below = wp.w.shell.open, true, -1, "loads"
			wp.pane.Scroll.ScrollToTop()
		} else {
			wp.w.shell.open = wp.open
			if wp.w.win.Canvas().Focused() == fyne.Focusable(wp.pane) {
				wp.w.focusBoard()
			}
		}
	}
}

// leave has the board show the plan as it is, before something is done that
// is about the plan.
func (wp *waysPanel) leave(command string) {
	if !wp.shown {
		return
	}
	switch command {
	case "ways", "fit", "zoom-in", "zoom-out", "desk", "field", "light", "dark", "keys", "cautions", "about", "findings", "loads", "details":
	default:
		wp.w.board.Handle(board.Key{Name: "Escape"})
		wp.watch()
	}
}

// beside brings a panel to sight below the list of ways: what is found of the
// way looked at, or its loads. False if there is no room for both: then the ways
// are left.
func (wp *waysPanel) beside(id string) bool {
	if !wp.shown {
		return false
	}
	if tabbed, _ := wp.w.shell.narrow(); tabbed || id == "details" || id == panelOutcome {
		wp.leave(id + " alone")
		return false
	}
	wp.below = id
	return true
}

// reveal scrolls to the way looked at.
func (wp *waysPanel) reveal() {
	_, at := wp.w.board.Ways()
	if at == wp.at {
		return
	}
	if i := wp.pane.Find(wayID(at)); i >= 0 {
		wp.at = at
		wp.pane.RevealHit(i)
	}
}

func wayID(i int) string { return fmt.Sprint("way ", i) }

// snap draws the list: the ways, the best first, then what is left out and
// why.
func (wp *waysPanel) snap() func(*panel.Drawing) {
	found, at := wp.w.board.Ways()
	if found == nil {
		return func(*panel.Drawing) {}
	}
	ws, p := wp.w.words(), wp.w.board.Plan()
	names := ws.Names(p, "")
	return func(d *panel.Drawing) {
		d.Title(ws.Label("ways-title"), fmt.Sprint(len(found.Ways)))
		x, room := d.Px(14), d.W-d.Px(28)
		if s := ws.NoWay(found); s != "" {
			d.Y = d.Para(x, d.Y, room, s, d.Mid()) + d.Px(6)
		} else {
			d.Y = d.Para(x, d.Y, room, ws.Label("ways-hint"), d.Small()) + d.Px(6)
		}
		for i := range found.Ways {
			wp.drawWay(d, ws, i, &found.Ways[i], ws.WayLasts(&found.Ways[i], found.WayOut, names), names, i == at)
		}
		if len(found.Left) > 0 {
			d.Title(ws.Label("ways-left"), "")
		}
		for i := range found.Left {
			l := &found.Left[i]
			d.Y = d.Para(x, d.Y, room, ws.Way(l.Kind, l.Over, l.End, names), panel.Bold(d.Mid()))
			d.Y = d.Para(x, d.Y, room, ws.WhyNoWay(l, names), panel.Coloured(d.Small(), d.Shades.Ink)) + d.Px(6)
		}
		for _, s := range ws.WaysRest(found) {
			d.Y = d.Para(x, d.Y, room, s, d.Small()) + d.Px(4)
		}
		d.Button(x, d.Y+d.Px(2), "close-ways", ws.Label("ways-close"), false, func() { wp.w.board.Handle(board.Key{Name: "Escape"}) }, "")
		d.Y += d.ButtonHigh() + d.Px(8)
	}
}

// drawWay draws one way as a card; the one looked at has the button that takes it.
func (wp *waysPanel) drawWay(d *panel.Drawing, ws *words.Words, i int, way *layout.Way, lasts string, names words.Names, on bool) {
	x, wide := d.Px(10), d.W-d.Px(22)
	tx, room := x+d.Px(10), wide-d.Px(20)
	head, rest := panel.Bold(d.Mid()), panel.Coloured(d.Small(), d.Shades.Ink)
	name := fmt.Sprintf("%d  %s", i+1, ws.Way(way.Kind, way.Over, way.End, names))
	lines := []string{wayLoad(ws, way), wayWorst(ws, way)}
	if lasts != "" {
		lines = append(lines, lasts)
	}
	found := ws.WayFindings(way.Found)
	badge, level, has := d.Px(82), part.Notice, false
	for l := part.Danger; l >= part.Notice && !has; l-- {
		level, has = l, way.Found[l] > 0
	}
	foundX, foundRoom := tx, room
	if has {
		foundX, foundRoom = tx+badge+d.Px(12), room-badge-d.Px(12)
	}
	high := d.Px(12) + float64(len(panel.Wrap(name, head, room)))*panel.LineHigh(head)
	for _, s := range lines {
		high += float64(len(panel.Wrap(s, rest, room))) * panel.LineHigh(rest)
	}
	foundHigh := max(float64(len(panel.Wrap(found, rest, foundRoom)))*panel.LineHigh(rest), panel.LineHigh(rest)+d.Px(6))
	high += foundHigh + d.Px(4)
	button := 0.0
	if on {
		button = d.ButtonHigh() + d.Px(6)
	}
	y, id := d.Y, wayID(i)
	edge, thick := d.Shades.Edge, 1.0
	if on || d.Hover == id {
		edge, thick = d.Shades.Pick, 2
	}
	d.Box(x, y, wide, high+button, 4, d.Shades.Card, edge, thick)
	d.Hit(panel.Hit{ID: id, X0: x, Y0: y, X1: x + wide, Y1: y + high + button, Press: func() { wp.w.board.LookAtWay(i) }})
	ty := d.Para(tx, y+d.Px(6), room, name, head)
	for _, s := range lines {
		ty = d.Para(tx, ty, room, s, rest)
	}
	ty += d.Px(4)
	if has {
		d.Badge(tx, ty+foundHigh/2, level, ws.Level(level), badge)
	}
	d.Para(foundX, ty+(foundHigh-float64(len(panel.Wrap(found, rest, foundRoom)))*panel.LineHigh(rest))/2, foundRoom, found, rest)
	if on {
		d.Button(tx, ty+foundHigh+d.Px(4), "take-way", ws.Label("ways-take"), true, func() { wp.w.board.TakeWay(); wp.w.focusBoard() }, "")
	}
	d.Y = y + high + button + d.Px(6)
}

// wayLoad is what a way asks of winch and line.
func wayLoad(ws *words.Words, way *layout.Way) string {
	s := ws.Label("way-force-unknown")
	if pull, known := way.Tension(); known {
		s = ws.Label("way-force", part.Text("force", ws.Load(pull)))
	}
	return s + " · " + ws.Label("way-line", part.Length("length", way.Line))
}

// wayWorst is the part of a way with the highest used share, and how many have
// none: any of those may be the worst.
func wayWorst(ws *words.Words, way *layout.Way) string {
	s := ws.Label("way-worst-none")
	if p, ok := way.Worst(); ok {
		naming := ws.Naming(way.Answer, ws.Names(way.Plan, way.Rig))
		s = ws.Label("way-worst", part.Text("used", ws.UsedOf(p)), part.Text("part", ws.PartName(p, naming)))
	}
	if way.Unrated > 0 {
		s += " · " + ws.Label("way-unrated", part.Count("count", way.Unrated))
	}
	return s
}
