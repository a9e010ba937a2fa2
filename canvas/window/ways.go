package window

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"kedge/canvas/board"
	"kedge/canvas/words"
	"kedge/solver/layout"
	"kedge/solver/part"
)

// waysPanel lists the ways round beside the sheet, over Findings and Details,
// while the board shows them.
type waysPanel struct {
	pane  *pane
	view  *container.Scroll
	shown bool
	open  bool   // whether a panel lay open over the board before
	at    int    // way brought into sight last
	below string // panel that stays in sight below the list: "loads" or "findings"
}

// buildWays makes the panel.
func (w *Window) buildWays() {
	w.ways.pane = newPane(w.host, "ways", true, w.snapWays)
	w.ways.view = scrolled(w.ways.pane)
	w.ways.pane.keys = func(k fyne.KeyName) bool {
		switch k {
		case fyne.KeyUp, fyne.KeyDown, fyne.KeyHome, fyne.KeyEnd, fyne.KeyEscape:
			w.board.Handle(board.Key{Name: keyNames[k]})
			_, at := w.board.Ways()
			w.ways.pane.focus = wayID(at)
			w.refresh()
			return true
		case fyne.KeyReturn, fyne.KeyEnter:
			if _, at := w.board.Ways(); at >= 0 && w.ways.pane.focus == wayID(at) {
				w.board.TakeWay()
				w.focusBoard()
				w.refresh()
				return true
			}
		}
		return false
	}
	w.ways.pane.drawnNow = w.revealWay
}

// watchWays opens and closes the panel as the board shows ways or leaves them.
func (w *Window) watchWays() {
	found, _ := w.board.Ways()
	if open := found != nil; open != w.ways.shown {
		w.ways.shown = open
		if open {
			w.closeEntry()
			w.ways.open, w.open, w.ways.at, w.ways.below = w.open, true, -1, "loads"
			w.ways.view.ScrollToTop()
		} else {
			w.open = w.ways.open
			if w.win.Canvas().Focused() == fyne.Focusable(w.ways.pane) {
				w.focusBoard()
			}
		}
	}
}

// leaveWays has the board show the plan as it is, before something is done that
// is about the plan.
func (w *Window) leaveWays(command string) {
	if !w.ways.shown {
		return
	}
	switch command {
	case "ways", "fit", "zoom-in", "zoom-out", "desk", "field", "light", "dark", "keys", "cautions", "about", "findings", "loads", "details":
	default:
		w.board.Handle(board.Key{Name: "Escape"})
		w.watchWays()
	}
}

// besideWays brings a panel to sight below the list of ways: what is found of the
// way looked at, or its loads. False if there is no room for both: then the ways
// are left.
func (w *Window) besideWays(id string) bool {
	if !w.ways.shown {
		return false
	}
	if tabbed, _ := w.narrow(); tabbed || id == "details" {
		w.leaveWays(id + " alone")
		return false
	}
	w.ways.below = id
	return true
}

// revealWay scrolls to the way looked at.
func (w *Window) revealWay() {
	_, at := w.board.Ways()
	if at == w.ways.at {
		return
	}
	if i := w.ways.pane.find(wayID(at)); i >= 0 {
		w.ways.at = at
		h := &w.ways.pane.hits[i]
		w.ways.pane.reveal(float32(h.y0), float32(h.y1))
	}
}

func wayID(i int) string { return fmt.Sprint("way ", i) }

// snapWays draws the list: the ways, the best first, then what is left out and
// why.
func (w *Window) snapWays() func(*ink) {
	found, at := w.board.Ways()
	if found == nil {
		return func(*ink) {}
	}
	ws, p := w.words(), w.board.Plan()
	names := ws.Names(p, "")
	return func(k *ink) {
		k.title(ws.Label("ways-title"), fmt.Sprint(len(found.Ways)))
		x, room := k.px(14), k.w-k.px(28)
		if s := ws.NoWay(found); s != "" {
			k.y = k.para(x, k.y, room, s, k.mid()) + k.px(6)
		} else {
			k.y = k.para(x, k.y, room, ws.Label("ways-hint"), k.small()) + k.px(6)
		}
		for i := range found.Ways {
			k.way(w, ws, i, &found.Ways[i], ws.WayLasts(&found.Ways[i], found.WayOut, names), names, i == at)
		}
		if len(found.Left) > 0 {
			k.title(ws.Label("ways-left"), "")
		}
		for i := range found.Left {
			l := &found.Left[i]
			k.y = k.para(x, k.y, room, ws.Way(l.Kind, l.Over, l.End, names), bold(k.mid()))
			k.y = k.para(x, k.y, room, ws.WhyNoWay(l, names), in(k.small(), k.c.Ink)) + k.px(6)
		}
		for _, s := range ws.WaysRest(found) {
			k.y = k.para(x, k.y, room, s, k.small()) + k.px(4)
		}
		k.button(x, k.y+k.px(2), "close-ways", ws.Label("ways-close"), false, func() { w.board.Handle(board.Key{Name: "Escape"}) }, "")
		k.y += k.buttonHigh() + k.px(8)
	}
}

// way draws one way as a card; the one looked at has the button that takes it.
func (k *ink) way(w *Window, ws *words.Words, i int, way *layout.Way, lasts string, names words.Names, on bool) {
	x, wide := k.px(10), k.w-k.px(22)
	tx, room := x+k.px(10), wide-k.px(20)
	head, rest := bold(k.mid()), in(k.small(), k.c.Ink)
	name := fmt.Sprintf("%d  %s", i+1, ws.Way(way.Kind, way.Over, way.End, names))
	lines := []string{wayLoad(ws, way), wayWorst(ws, way)}
	if lasts != "" {
		lines = append(lines, lasts)
	}
	found := ws.WayFindings(way.Found)
	badge, level, has := k.px(82), part.Notice, false
	for l := part.Danger; l >= part.Notice && !has; l-- {
		level, has = l, way.Found[l] > 0
	}
	foundX, foundRoom := tx, room
	if has {
		foundX, foundRoom = tx+badge+k.px(12), room-badge-k.px(12)
	}
	high := k.px(12) + float64(len(wrap(name, head, room)))*line(head)
	for _, s := range lines {
		high += float64(len(wrap(s, rest, room))) * line(rest)
	}
	foundHigh := max(float64(len(wrap(found, rest, foundRoom)))*line(rest), line(rest)+k.px(6))
	high += foundHigh + k.px(4)
	button := 0.0
	if on {
		button = k.buttonHigh() + k.px(6)
	}
	y, id := k.y, wayID(i)
	edge, thick := k.c.Edge, 1.0
	if on || k.hover == id {
		edge, thick = k.c.Pick, 2
	}
	k.box(x, y, wide, high+button, 4, k.c.Card, edge, thick)
	k.hit(hit{id: id, x0: x, y0: y, x1: x + wide, y1: y + high + button, press: func() { w.board.LookAtWay(i) }})
	ty := k.para(tx, y+k.px(6), room, name, head)
	for _, s := range lines {
		ty = k.para(tx, ty, room, s, rest)
	}
	ty += k.px(4)
	if has {
		k.badge(tx, ty+foundHigh/2, level, ws.Level(level), badge)
	}
	k.para(foundX, ty+(foundHigh-float64(len(wrap(found, rest, foundRoom)))*line(rest))/2, foundRoom, found, rest)
	if on {
		k.button(tx, ty+foundHigh+k.px(4), "take-way", ws.Label("ways-take"), true, func() { w.board.TakeWay(); w.focusBoard() }, "")
	}
	k.y = y + high + button + k.px(6)
}

// wayLoad is what a way asks of winch and line.
func wayLoad(ws *words.Words, way *layout.Way) string {
	s := ws.Label("way-force-unknown")
	if pull, known := way.Tension(); known {
		s = ws.Label("way-force", text("force", ws.Load(pull)))
	}
	return s + " · " + ws.Label("way-line", part.Value{Name: "length", Unit: part.UnitLength, X: float64(way.Line)})
}

// wayWorst is the part of a way with the highest used share, and how many have
// none: any of those may be the worst.
func wayWorst(ws *words.Words, way *layout.Way) string {
	s := ws.Label("way-worst-none")
	if p, ok := way.Worst(); ok {
		naming := ws.Naming(way.Answer, ws.Names(way.Plan, way.Rig))
		s = ws.Label("way-worst", text("used", ws.UsedOf(p)), text("part", ws.PartName(p, naming)))
	}
	if way.Unrated > 0 {
		s += " · " + ws.Label("way-unrated", count(way.Unrated))
	}
	return s
}
