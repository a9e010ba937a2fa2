package window

import (
	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
)

// Dividers by the name they are kept under in the preferences: between board
// and side, below Details, below Findings. The share of each is that of the
// first of the two panels, but for the side its own.
const (
	dividerSide     = "side"
	dividerDetails  = "details"
	dividerFindings = "findings"
)

// Least a panel of the side is high, and the side is wide, at desk. (ours)
const (
	panelLeast = 70
	sideLeast  = 300
)

// newDivider is the divider of a name.
func (w *Window) newDivider(name string) *panel.Divider {
	d := panel.NewDivider(w.host, name == dividerSide)
	d.Drag = func(to fyne.Position) { w.dragDivider(name, to) }
	d.LetGo = w.keepPreferences
	d.Reset = func() {
		w.setShare(name, 0)
		w.keepPreferences()
		w.refresh()
	}
	return d
}

// share is what was chosen for a divider, 0 if nothing was.
func (w *Window) share(name string) float32 { return float32(w.prefs.Panels[name]) }

// setShare keeps a choice; 0 takes it back.
func (w *Window) setShare(name string, share float32) {
	next := map[string]float64{}
	for k, v := range w.prefs.Panels {
		next[k] = v
	}
	delete(next, name)
	if share > 0 {
		next[name] = float64(min(share, 1))
	}
	w.prefs.Panels = next
}

// dragDivider gives the panels beside a divider the room it is dragged to.
func (w *Window) dragDivider(name string, at fyne.Position) {
	size, k := w.shell.size, float32(w.textScale())
	switch name {
	case dividerSide:
		w.setShare(name, max(size.Width-at.X, sideLeast*k)/size.Width)
	case dividerDetails:
		top := w.details.Scroll.Position().Y
		if high := w.details.Scroll.Size().Height + w.findings.Scroll.Size().Height + w.loads.Scroll.Size().Height; high > 0 {
			w.setShare(name, max(at.Y-top, panelLeast*k)/high)
		}
	case dividerFindings:
		top := w.findings.Scroll.Position().Y
		if high := w.findings.Scroll.Size().Height + w.loads.Scroll.Size().Height; high > 0 {
			w.setShare(name, max(at.Y-top, panelLeast*k)/high)
		}
	}
	w.refresh()
}

// sideWidth is how wide the side is in a window that has room for all of it.
func (w *Window) sideWidth() float32 {
	k := float32(w.textScale())
	side := sideWide * k
	if s := w.share(dividerSide); s > 0 {
		side = s * w.shell.size.Width
	}
	most := w.shell.size.Width - railWide*k - boardLeastW
	return max(min(side, most), sideLeast*k)
}

// split is how much of the room of two panels the first takes, as was chosen
// or, where nothing was, as it would by itself.
func (w *Window) split(name string, high, byItself float32) float32 {
	if s := w.share(name); s > 0 {
		byItself = s * high
	}
	least := min(panelLeast*float32(w.textScale()), high/3)
	return max(min(byItself, high-least), least)
}
