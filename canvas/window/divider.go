package window

import (
	"fyne.io/fyne/v2"

	"kedge/canvas/panel"
)

// Dividers by the name they are kept under in the preferences: between board
// and side, above Details, below Findings. What is kept is the share that the side has of
// the window, Details of the side, and Findings of what the two above Details have.
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
func (sh *shell) newDivider(name string) *panel.Divider {
	d := panel.NewDivider(sh.w.host, name == dividerSide)
	d.Drag = func(to fyne.Position) { sh.dragDivider(name, to) }
	d.LetGo = sh.w.keepPreferences
	d.Reset = func() {
		sh.setShare(name, 0)
		sh.w.keepPreferences()
		sh.w.refresh()
	}
	return d
}

// share is what was chosen for a divider, 0 if nothing was.
func (sh *shell) share(name string) float32 { return float32(sh.w.prefs.Panels[name]) }

// setShare keeps a choice; 0 takes it back.
func (sh *shell) setShare(name string, share float32) {
	next := map[string]float64{}
	for k, v := range sh.w.prefs.Panels {
		next[k] = v
	}
	delete(next, name)
	if share > 0 {
		next[name] = float64(min(share, 1))
	}
	sh.w.prefs.Panels = next
}

// dragDivider gives the panels beside a divider the room it is dragged to.
func (sh *shell) dragDivider(name string, at fyne.Position) {
	size, k := sh.w.shell.size, float32(sh.w.textScale())
	switch name {
	case dividerSide:
		sh.setShare(name, max(size.Width-at.X, sideLeast*k)/size.Width)
	case dividerDetails:
		foot := sh.side.Position().Y + sh.side.Size().Height
		if high := sh.side.Size().Height; high > 0 {
			sh.setShare(name, max(foot-at.Y, panelLeast*k)/high)
		}
	case dividerFindings:
		top := sh.w.findings.pane.Scroll.Position().Y
		if high := sh.w.findings.pane.Scroll.Size().Height + sh.w.loads.pane.Scroll.Size().Height; high > 0 {
			sh.setShare(name, max(at.Y-top, panelLeast*k)/high)
		}
	}
	sh.w.refresh()
}

// sideWidth is how wide the side is in a window that has room for all of it.
func (sh *shell) sideWidth() float32 {
	k := float32(sh.w.textScale())
	side := sideWide * k
	if s := sh.share(dividerSide); s > 0 {
		side = s * sh.w.shell.size.Width
	}
	most := sh.w.shell.size.Width - railWide*k - boardLeastW
	return max(min(side, most), sideLeast*k)
}

// split is how much of a room a panel takes, as was chosen or, where nothing was, as it
// would by itself; the rest keeps the least there is.
func (sh *shell) split(name string, high, byItself float32) float32 {
	if s := sh.share(name); s > 0 {
		byItself = s * high
	}
	least := min(panelLeast*float32(sh.w.textScale()), high/3)
	return max(min(byItself, high-least), least)
}
