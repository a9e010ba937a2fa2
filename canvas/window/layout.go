package window

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"

	"kedge/canvas/panel"
)

// Widths and heights of the regions at desk, logical pixels. (ours)
const (
	menuHigh    = 28
	tabsHigh    = 40
	verdictHigh = 36
	statusHigh  = 28
	railWide    = 70
	railNarrow  = 44
	sideWide    = 396
	sideNarrow  = 340
	edgeWide    = 76
	headsHigh   = 34
	sumWide     = 400
	sheetsWide  = 270
	sumHigh     = 480  // of the window, in which a sum of usual length fits below the verdict
	scaleHigh   = 52   // at the foot of the board, kept free for the scale bar
	detailsPart = 0.28 // of the height of the side: the fields that matter of a thing
	listPart    = 0.55 // Findings, of what Details leaves
	waysMost    = 0.62 // of the same, at most
	waysLeast   = 300  // width
)

// Sizes of the window at which it is arranged otherwise. (ours)
const (
	tabsUnder  = 1200
	edgeUnder  = 1100
	iconsUnder = 760
)

// Least the board keeps for itself. (ours)
const (
	boardLeastW = 560
	boardLeastH = 380
)

// shell lays the regions out.
type shell struct {
	w        *Window
	size     fyne.Size
	side     *canvas.Rectangle // behind the panels of the side
	dividers [3]*panel.Divider
	choice   string // panel shown where there is room for one
	open     bool   // that panel is open over the board
	edged    bool   // the right side was only an edge when it was last arranged

	arranging, rearrange bool
}

// MinSize implements fyne.Layout. A window may be made smaller than all of
// Kedge likes: the board then gets what is left.
func (sh *shell) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 320) }

// Layout implements fyne.Layout.
func (sh *shell) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	sh.size = size
	sh.arrange()
}

func put(o fyne.CanvasObject, x, y, w, h float32) {
	if w < 1 || h < 1 {
		o.Hide()
		return
	}
	if !o.Visible() {
		o.Show()
	}
	if p := fyne.NewPos(x, y); o.Position() != p {
		o.Move(p)
	}
	if z := fyne.NewSize(w, h); o.Size() != z {
		o.Resize(z)
	}
}

// How high a pane is: as its place, as what is in it, or so in a scroll.
const (
	fixed = iota
	grows
	scrolls
)

// paneRow is a pane of the window, as the table of panes has it.
type paneRow struct {
	pane **panel.Pane
	name string
	kind int
	side bool // it lies on the ground of the side
	snap func() func(*panel.Drawing)
}

// paneTable are the panes in the order in which F6 walks them; from the status
// line on they are not walked.
func (w *Window) paneTable() []paneRow {
	return []paneRow{
		{&w.frame.rail, "rail", fixed, false, w.frame.snapRail},
		{&w.frame.tabs, "tabs", fixed, false, w.frame.snapTabs},
		{&w.frame.verdict, "verdict", fixed, false, w.frame.snapVerdict},
		{&w.frame.heads, "heads", fixed, true, w.frame.snapHeads},
		{&w.frame.edge, "edge", fixed, false, w.frame.snapEdge},
		{&w.ways.pane, "ways", scrolls, true, w.ways.snap},
		{&w.findings.pane, "findings", scrolls, true, w.findings.snap},
		{&w.loads.pane, "loads", scrolls, true, w.loads.snap},
		{&w.details.pane, "details", scrolls, true, w.details.snap},
		{&w.outcome.pane, panelOutcome, scrolls, true, w.outcome.snap},
		{&w.travel.pane, "travel", fixed, false, w.travel.snap},
		{&w.frame.menu, "menu", fixed, false, w.frame.snapMenu},
		{&w.printer.list, "sheets", scrolls, true, w.printer.snapList},
		{&w.printer.paper, "paper", grows, true, w.printer.snapPaper},
		{&w.printer.page, "sheet", fixed, true, w.printer.snapPage},
		{&w.begin.pane, "begin", fixed, false, w.begin.snap},
		{&w.lesson.pane, "lesson", grows, false, w.lesson.snap},
		{&w.compare.pane, "compare", scrolls, false, w.compare.snap},
		{&w.frame.status, "status", fixed, false, w.frame.snapStatus},
		{&w.frame.asks, "asks", fixed, false, w.frame.snapAsks},
		{&w.why.pane, "sum", grows, false, w.why.snap},
	}
}

func hide(all ...fyne.CanvasObject) {
	for _, o := range all {
		o.Hide()
	}
}

// build makes all regions.
func (w *Window) build() {
	w.view = newBoardView(w)
	w.shell.side = canvas.NewRectangle(w.shades.Panel)
	under, over := []fyne.CanvasObject{canvas.NewRectangle(w.shades.Ground), w.view}, []fyne.CanvasObject{}
	for _, t := range w.paneTable() {
		p := panel.NewPane(w.host, t.name, t.kind != fixed, t.snap)
		if t.kind == scrolls {
			panel.Scrolled(p)
		}
		*t.pane = p
		w.panes = append(w.panes, p)
		if t.side {
			over = append(over, p.Outer())
		} else {
			under = append(under, p.Outer())
		}
	}
	w.walked = slices.Index(w.panes, w.frame.status)
	for _, p := range [...]*panel.Pane{w.printer.list, w.printer.paper, w.printer.page} {
		p.Keys, p.Escape = w.printer.turn, w.printer.close
	}
	w.printer.paper.OnTall, w.why.pane.OnTall, w.lesson.pane.OnTall = w.shell.arrange, w.shell.arrange, w.shell.arrange
	w.why.pane.Most = func() float64 { return max(1, float64(w.shell.size.Height)/sumHigh) }
	w.details.pane.Drawn, w.findings.pane.Drawn, w.loads.pane.Drawn = w.details.openWaiting, w.findings.drawn, w.loads.showRow
	w.findings.pane.Read, w.findings.pane.Scroll.OnScrolled = true, func(fyne.Position) { w.findings.look() }
	w.compare.pane.Escape = w.compare.close
	w.ways.build()
	w.travel.build()
	for i, name := range [...]string{dividerSide, dividerDetails, dividerFindings} {
		w.shell.dividers[i] = w.shell.newDivider(name)
		over = append(over, w.shell.dividers[i])
	}
	w.commands.own = append(w.commands.list(), w.commands.more()...)
	w.root = container.New(&w.shell, slices.Concat(under, []fyne.CanvasObject{w.shell.side}, over)...)
	w.win.SetContent(w.root)
	w.commands.canvasShortcuts()
}

// narrow tells how the right side is arranged.
func (sh *shell) narrow() (tabbed, edge bool) {
	k := float32(sh.w.textScale())
	width := sh.w.shell.size.Width
	least := boardLeastW * max(1, (1+k)/2) // larger text leaves no room for tabs and verdict over a narrow board
	edge = width < edgeUnder || width-(sideNarrow+railWide)*k < least
	return width < tabsUnder*k || edge, edge
}

// iconsOnly reports whether the rail has no words.
func (sh *shell) iconsOnly() bool {
	return sh.w.shell.size.Height < iconsUnder*float32(sh.w.textScale())
}

// arrange puts every region in its place. A panel that grows while it is put
// asks for it again.
func (sh *shell) arrange() {
	if sh.arranging {
		sh.rearrange = true
		return
	}
	sh.arranging = true
	for range arrangeMost {
		sh.rearrange = false
		sh.arrangeOnce()
		if !sh.rearrange {
			break
		}
	}
	sh.arranging = false
}

// arrangeMost bounds how often panels may ask for another arrangement. (ours:
// width decides height, so the second already fits)
const arrangeMost = 4

func (sh *shell) arrangeOnce() {
	if sh.size.Width < 2 || sh.size.Height < 2 {
		return
	}
	w, k := sh.w, float32(sh.w.textScale())
	W, H := sh.size.Width, sh.size.Height
	tabbed, edge := sh.narrow()
	if edge && !sh.edged {
		sh.open = false // a window made narrow keeps its board and its verdict in sight
	}
	sh.edged = edge
	bg := w.root.Objects[0].(*canvas.Rectangle)
	tint(bg, w.shades.Ground)
	tint(sh.side, w.shades.Panel)
	put(bg, 0, 0, W, H)
	top, bottom := menuHigh*k, H-statusHigh*k
	put(w.frame.menu, 0, 0, W, top)
	put(w.frame.status, 0, bottom, W, statusHigh*k)
	if w.printer.now != nil {
		sh.arrangePrint(top, bottom, W)
		return
	}
	hide(w.printer.list.Scroll, w.printer.paper, w.printer.page)
	rail := float32(railWide) * k
	if sh.iconsOnly() {
		rail = railNarrow * k
	}
	put(w.frame.rail, 0, top, rail, bottom-top)
	side := sh.sideWidth()
	if tabbed {
		side = sideNarrow * k
	}
	right := W - side
	if edge {
		right = W - edgeWide*k
		put(w.frame.edge, right, top, edgeWide*k, bottom-top)
	} else {
		w.frame.edge.Hide()
	}
	_, verdict := verdictIn(right-rail-2*gap, k)
	under := top + tabsHigh*k + verdict
	put(w.frame.tabs, rail, top, right-rail, tabsHigh*k)
	put(w.frame.verdict, rail+gap, top+tabsHigh*k, right-rail-2*gap, verdict)
	seen := right                                                                                           // to where the board is seen
	if room := right - rail - 2*gap - boardLeastW; w.ways.shown && edge && sh.open && room >= waysLeast*k { // beside it: what is looked at is not covered
		side = min(side, room)
		seen = right - side
	}
	sh.arrangeBoard(rail+gap, w.lesson.arrange(rail+gap, under, seen-rail-2*gap), right-rail-2*gap, seen-rail-2*gap, bottom)
	x := W - side
	if edge { // open over the board, below the verdict: that is never covered
		x, top = right-side, under
	}
	sh.arrangeSide(x, top, side, bottom-top, tabbed, edge)
	sh.unpoint()
}

// arrangeBoard puts the board, wide as it is seen, with the strip of the pull below it and
// what lies over it in all its room, down to bottom.
func (sh *shell) arrangeBoard(x, y, room, wide, bottom float32) {
	w, foot := sh.w, bottom
	if w.travel.visible() {
		foot -= stripHigh * float32(w.textScale())
	}
	put(w.travel.pane, x, foot, wide, bottom-foot)
	put(w.view, x, y, wide, foot-y-gap)
	sh.arrangeOver(x, y, room, foot-y-gap)
}

// gap is what is left free round the board, logical pixels. (ours)
const gap = 8

func tint(r *canvas.Rectangle, c color.Color) {
	if r.FillColor != c {
		r.FillColor = c
		r.Refresh()
	}
}

// arrangeOver puts what lies over the board: the rigs side by side, the open
// question, and the sum of what is pointed at.
func (sh *shell) arrangeOver(x, y, wide, high float32) {
	w, k, bottom := sh.w, float32(sh.w.textScale()), y+high
	w.compare.arrange(x, y, wide, high)
	w.begin.arrange(x, y, wide, high)
	if w.board.Question() != nil {
		q := sh.askSize()
		put(w.frame.asks, x+12, bottom-scaleHigh*k-q.Height, min(q.Width, wide-24), q.Height)
	} else {
		w.frame.asks.Hide()
	}
	sum := w.why.pane
	if w.why.part() == "" {
		sum.Hide()
		return
	}
	broad := min(sumWide*k, wide-24)
	left, foot := x+wide-12-broad, float32(12)
	if w.view.over && w.view.pointer.X > w.view.Size().Width/2 { // not over what is pointed at
		left, foot = x+12, scaleHigh*k
	}
	put(sum, left, max(bottom-foot-sum.Tall, y), broad, max(sum.Tall, 2))
}

// arrangeSide puts the panels of the side: one above another, one at a time
// behind tabs, or none where only an edge is left of it.
func (sh *shell) arrangeSide(x, y, wide, high float32, tabbed, edge bool) {
	w := sh.w
	details, findings, loads, ways, outcome := w.details.pane.Scroll, w.findings.pane.Scroll, w.loads.pane.Scroll, w.ways.pane.Scroll, w.outcome.pane.Scroll
	if tabbed {
		hide(sh.dividers[0], sh.dividers[1], sh.dividers[2])
	} else {
		put(sh.dividers[0], x-panel.Grip/2, y, panel.Grip, high)
	}
	if edge && !sh.open {
		hide(sh.side, w.frame.heads, details, findings, loads, ways, outcome)
		return
	}
	put(sh.side, x, y, wide, high)
	if len(w.frame.tabsOfSide()) > 0 && !w.ways.shown {
		heads := headsHigh * float32(w.textScale())
		put(w.frame.heads, x, y, wide, heads)
		y, high = y+heads, high-heads
	} else {
		w.frame.heads.Hide()
	}
	switch {
	case tabbed && w.ways.shown:
		hide(details, findings, loads, outcome)
		put(ways, x, y, wide, high)
	case !w.ways.shown && (tabbed || sh.choice == panelOutcome):
		hide(ways, sh.dividers[1], sh.dividers[2])
		for id, p := range sh.panels() {
			if id == sh.choice {
				put(p.Scroll, x, y, wide, high)
			} else {
				p.Scroll.Hide()
			}
		}
	default:
		outcome.Hide()
		sh.stack(x, y, wide, high)
	}
}

// arrangePrint puts the page in the place of everything between menu and
// status line.
func (sh *shell) arrangePrint(top, bottom, wide float32) {
	k := float32(sh.w.textScale())
	hide(sh.w.view, sh.dividers[0], sh.dividers[1], sh.dividers[2])
	for _, p := range sh.w.panes {
		if p != sh.w.lesson.pane && p != sh.w.frame.menu && p != sh.w.frame.status && p != sh.w.printer.list && p != sh.w.printer.paper && p != sh.w.printer.page {
			p.Outer().Hide()
		}
	}
	top = sh.w.lesson.arrange(0, top, wide)
	list := min(sheetsWide*k, wide*0.4)
	put(sh.side, 0, top, list, bottom-top)
	put(sh.w.printer.list.Scroll, 0, top, list, bottom-top)
	bar := max(sh.w.printer.paper.Tall, tabsHigh*k)
	put(sh.w.printer.paper, list, top, wide-list, bar)
	put(sh.w.printer.page, list, top+bar, wide-list, bottom-top-bar)
}

// unpoint forgets what was pointed at in panels that are not shown any more.
func (sh *shell) unpoint() {
	for _, p := range [...]*panel.Pane{sh.w.findings.pane, sh.w.loads.pane} {
		if p.Hover != "" && !p.Shown() {
			if i := p.Find(p.Hover); i >= 0 && p.Hits[i].Over != nil {
				p.Hits[i].Over(false)
			}
			p.Hover = ""
		}
	}
}

// stack shares the side among its panels, Findings above Loads above Details. Each keeps
// its place and height, whatever is in it: they are the person's to change.
func (sh *shell) stack(x, y, side, high float32) {
	w := sh.w
	details, findings := sh.dividers[1], sh.dividers[2]
	switch {
	case w.ways.shown: // over Details and Findings, the loads of what is looked at below
		hide(details, findings, w.details.pane.Scroll)
		h := min(max(w.ways.pane.Tall, 60), high*waysMost)
		put(w.ways.pane.Scroll, x, y, side, h)
		below, other := w.loads.pane.Scroll, w.findings.pane.Scroll
		if w.ways.below == "findings" {
			below, other = other, below
		}
		other.Hide()
		put(below, x, y+h, side, high-h)
		return
	case w.reading.now != nil: // a file that is looked at takes the whole side
		hide(details, findings, w.ways.pane.Scroll, w.findings.pane.Scroll, w.loads.pane.Scroll)
		put(w.details.pane.Scroll, x, y, side, high)
		return
	}
	w.ways.pane.Scroll.Hide()
	d := sh.split(dividerDetails, high, high*detailsPart)
	f := sh.split(dividerFindings, high-d, (high-d)*listPart)
	put(w.findings.pane.Scroll, x, y, side, f)
	put(w.loads.pane.Scroll, x, y+f, side, high-d-f)
	put(w.details.pane.Scroll, x, y+high-d, side, d)
	put(findings, x, y+f-panel.Grip/2, side, panel.Grip)
	put(details, x, y+high-d-panel.Grip/2, side, panel.Grip)
}
