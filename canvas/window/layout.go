package window

import (
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
	detailsMost = 0.45 // of the height of the side
	waysMost    = 0.62 // of the same
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
	w    *Window
	size fyne.Size
}

// MinSize implements fyne.Layout. A window may be made smaller than all of
// Kedge likes: the board then gets what is left.
func (s *shell) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(480, 320) }

// Layout implements fyne.Layout.
func (s *shell) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	s.size = size
	s.w.arrange()
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
		{&w.rail, "rail", fixed, false, w.snapRail},
		{&w.tabs, "tabs", fixed, false, w.snapTabs},
		{&w.verdict, "verdict", fixed, false, w.snapVerdict},
		{&w.heads, "heads", fixed, true, w.snapHeads},
		{&w.edge, "edge", fixed, false, w.snapEdge},
		{&w.ways.pane, "ways", scrolls, true, w.snapWays},
		{&w.findings, "findings", scrolls, true, w.snapFindings},
		{&w.loads, "loads", scrolls, true, w.snapLoads},
		{&w.details, "details", scrolls, true, w.snapDetails},
		{&w.menu, "menu", fixed, false, w.snapMenu},
		{&w.sheets, "sheets", scrolls, true, w.snapSheets},
		{&w.paper, "paper", grows, true, w.snapPaper},
		{&w.sheet, "sheet", fixed, true, w.snapPage},
		{&w.compare, "compare", scrolls, false, w.snapCompare},
		{&w.status, "status", fixed, false, w.snapStatus},
		{&w.asks, "asks", fixed, false, w.snapAsks},
		{&w.why, "sum", grows, false, w.snapSum},
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
	w.side = canvas.NewRectangle(w.shades.Panel)
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
	w.walked = slices.Index(w.panes, w.status)
	for _, p := range [...]*panel.Pane{w.sheets, w.paper, w.sheet} {
		p.Keys, p.Escape = w.turnPage, w.endPrint
	}
	w.paper.OnTall, w.why.OnTall = w.arrange, w.arrange
	w.why.Most = func() float64 { return max(1, float64(w.shell.size.Height)/sumHigh) }
	w.details.Drawn, w.findings.Drawn = w.openWaiting, w.showDanger
	w.compare.Escape = w.endCompare
	w.buildWays()
	for i, name := range [...]string{dividerSide, dividerDetails, dividerFindings} {
		w.dividers[i] = w.newDivider(name)
		over = append(over, w.dividers[i])
	}
	w.commands = append(w.commandList(), w.moreCommands()...)
	w.shell = &shell{w: w}
	w.root = container.New(w.shell, slices.Concat(under, []fyne.CanvasObject{w.side}, over)...)
	w.win.SetContent(w.root)
	w.canvasShortcuts()
}

// narrow tells how the right side is arranged.
func (w *Window) narrow() (tabbed, edge bool) {
	k := float32(w.textScale())
	width := w.shell.size.Width
	least := boardLeastW * max(1, (1+k)/2) // larger text leaves no room for tabs and verdict over a narrow board
	edge = width < edgeUnder || width-(sideNarrow+railWide)*k < least
	return width < tabsUnder*k || edge, edge
}

// iconsOnly reports whether the rail has no words.
func (w *Window) iconsOnly() bool { return w.shell.size.Height < iconsUnder*float32(w.textScale()) }

// arrange puts every region in its place. A panel that grows while it is put
// asks for it again.
func (w *Window) arrange() {
	if w.arranging {
		w.rearrange = true
		return
	}
	w.arranging = true
	for range arrangeMost {
		w.rearrange = false
		w.arrangeOnce()
		if !w.rearrange {
			break
		}
	}
	w.arranging = false
}

// arrangeMost bounds how often panels may ask for another arrangement. (ours:
// width decides height, so the second already fits)
const arrangeMost = 4

func (w *Window) arrangeOnce() {
	size := w.shell.size
	if size.Width < 2 || size.Height < 2 {
		return
	}
	k := float32(w.textScale())
	tabbed, edge := w.narrow()
	if edge && !w.edged {
		w.open = false // a window made narrow keeps its board and its verdict in sight
	}
	w.edged = edge
	W, H := size.Width, size.Height
	bg := w.root.Objects[0].(*canvas.Rectangle)
	if bg.FillColor != w.shades.Ground {
		bg.FillColor = w.shades.Ground
		bg.Refresh()
	}
	put(bg, 0, 0, W, H)
	put(w.menu, 0, 0, W, menuHigh*k)
	put(w.status, 0, H-statusHigh*k, W, statusHigh*k)
	top, bottom := menuHigh*k, H-statusHigh*k
	rail := float32(railWide) * k
	if w.iconsOnly() {
		rail = railNarrow * k
	}
	if w.print != nil {
		w.arrangePrint(top, bottom, W)
		return
	}
	hide(w.sheets.Scroll, w.paper, w.sheet)
	put(w.rail, 0, top, rail, bottom-top)

	side := w.sideWidth()
	if tabbed {
		side = sideNarrow * k
	}
	right := W - side
	if edge {
		put(w.edge, W-edgeWide*k, top, edgeWide*k, bottom-top)
		right = W - edgeWide*k
	} else {
		w.edge.Hide()
	}
	const gap = 8
	put(w.tabs, rail, top, right-rail, tabsHigh*k)
	y := top + tabsHigh*k
	put(w.verdict, rail+gap, y, right-rail-2*gap, verdictHigh*k)
	y += verdictHigh * k
	seen := right // to where the board is seen
	if w.ways.shown && edge && w.open {
		if room := right - rail - 2*gap - boardLeastW; room >= waysLeast*k { // beside it: what is looked at is not covered
			side = min(side, room)
			seen = right - side
		}
	}
	put(w.view, rail+gap, y, seen-rail-2*gap, bottom-y-gap)
	w.arrangeCompare(rail+gap, y, right-rail-2*gap, bottom-y-gap)
	if w.board.Question() != nil {
		q := w.askSize()
		put(w.asks, rail+gap+12, bottom-gap-scaleHigh*k-q.Height, min(q.Width, right-rail-2*gap-24), q.Height)
	} else {
		w.asks.Hide()
	}

	if w.pointedPart() != "" {
		wide := min(sumWide*k, right-rail-2*gap-24)
		x, foot := right-gap-12-wide, float32(12)
		if w.view.over && w.view.pointer.X > w.view.Size().Width/2 { // not over what is pointed at
			x, foot = rail+gap+12, scaleHigh*k
		}
		put(w.why, x, max(bottom-gap-foot-w.why.Tall, y), wide, max(w.why.Tall, 2))
	} else {
		w.why.Hide()
	}

	x := W - side
	if edge {
		x = right - side
	}
	if w.side.FillColor != w.shades.Panel {
		w.side.FillColor = w.shades.Panel
		w.side.Refresh()
	}
	if edge { // open over the board, below the verdict: that is never covered
		top = y
	}
	if edge && !w.open {
		w.side.Hide()
	} else {
		put(w.side, x, top, side, bottom-top)
	}
	switch {
	case edge && !w.open:
		hide(w.heads, w.details.Scroll, w.findings.Scroll, w.loads.Scroll, w.ways.pane.Scroll)
	case tabbed && w.ways.shown:
		hide(w.heads, w.details.Scroll, w.findings.Scroll, w.loads.Scroll)
		put(w.ways.pane.Scroll, x, top, side, bottom-top)
	case tabbed:
		w.ways.pane.Scroll.Hide()
		put(w.heads, x, top, side, headsHigh*k)
		y := top + headsHigh*k
		for name, s := range map[string]*container.Scroll{"findings": w.findings.Scroll, "loads": w.loads.Scroll, "details": w.details.Scroll} {
			if name == w.choice {
				put(s, x, y, side, bottom-y)
			} else {
				s.Hide()
			}
		}
	default:
		w.heads.Hide()
		w.stack(x, top, side, bottom-top)
	}
	if tabbed {
		hide(w.dividers[0], w.dividers[1], w.dividers[2])
	} else {
		put(w.dividers[0], x-panel.Grip/2, top, panel.Grip, bottom-top)
	}
	w.unpoint()
}

// arrangePrint puts the page in the place of everything between menu and
// status line.
func (w *Window) arrangePrint(top, bottom, wide float32) {
	k := float32(w.textScale())
	hide(w.view, w.dividers[0], w.dividers[1], w.dividers[2])
	for _, p := range w.panes {
		if p != w.menu && p != w.status && p != w.sheets && p != w.paper && p != w.sheet {
			p.Outer().Hide()
		}
	}
	list := min(sheetsWide*k, wide*0.4)
	put(w.side, 0, top, list, bottom-top)
	put(w.sheets.Scroll, 0, top, list, bottom-top)
	bar := max(w.paper.Tall, tabsHigh*k)
	put(w.paper, list, top, wide-list, bar)
	put(w.sheet, list, top+bar, wide-list, bottom-top-bar)
}

// unpoint forgets what was pointed at in panels that are not shown any more.
func (w *Window) unpoint() {
	for _, p := range [...]*panel.Pane{w.findings, w.loads} {
		if p.Hover != "" && !p.Shown() {
			if i := p.Find(p.Hover); i >= 0 && p.Hits[i].Over != nil {
				p.Hits[i].Over(false)
			}
			p.Hover = ""
		}
	}
}

// stack shares the side among its panels: Details on top while something is
// selected, then Findings, then Loads.
func (w *Window) stack(x, y, side, high float32) {
	details, findings := w.dividers[1], w.dividers[2]
	details.Hide()
	findings.Hide()
	if w.ways.shown { // over Details and Findings, the loads of what is looked at below
		w.details.Scroll.Hide()
		h := min(max(w.ways.pane.Tall, 60), high*waysMost)
		put(w.ways.pane.Scroll, x, y, side, h)
		below, other := w.loads.Scroll, w.findings.Scroll
		if w.ways.below == "findings" {
			below, other = other, below
		}
		other.Hide()
		put(below, x, y+h, side, high-h)
		return
	}
	w.ways.pane.Scroll.Hide()
	if w.hasDetails() {
		d := w.split(dividerDetails, high, min(max(w.details.Tall, 60), high*detailsMost))
		if w.reading != nil { // a file that is looked at takes the whole side
			d = high
		} else {
			put(details, x, y+d-panel.Grip/2, side, panel.Grip)
		}
		put(w.details.Scroll, x, y, side, d)
		y, high = y+d, high-d
	} else {
		w.details.Scroll.Hide()
	}
	f, l := max(w.findings.Tall, 40), max(w.loads.Tall, 40)
	switch {
	case f+l <= high, f <= high/2:
	case l <= high/2:
		f = high - l
	default:
		f = high / 2
	}
	f = w.split(dividerFindings, high, f)
	put(w.findings.Scroll, x, y, side, f)
	put(w.loads.Scroll, x, y+f, side, high-f)
	if high > 0 {
		put(findings, x, y+f-panel.Grip/2, side, panel.Grip)
	}
}
