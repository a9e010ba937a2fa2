package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"kedge/solver/part"
	"kedge/solver/quantity"

	"kedge/canvas/panel"
)

// menuNames are the menus of the bar, by the ids of their words.
var menuNames = [...]string{"file", "edit", "place", "rig", "view", "sheet", "help"}

// popup is a menu that is shown over the window.
type popup struct {
	id   string
	menu *widget.PopUpMenu
}

func (p *popup) menuShown() string {
	if p == nil || p.menu == nil || !p.menu.Visible() {
		return ""
	}
	return p.id
}

// showMenu shows a menu at a place and gives it the keys; what follows goes
// back to the board.
func (w *Window) showMenu(id string, items []*fyne.MenuItem, at fyne.Position) {
	if w.popup.menuShown() != "" {
		w.popup.menu.Hide()
	}
	menu := widget.NewPopUpMenu(fyne.NewMenu("", items...), w.win.Canvas())
	w.popup = &popup{id: id, menu: menu}
	menu.OnDismiss = func() {
		menu.Hide()
		w.focusBoard()
		w.refresh()
	}
	menu.ShowAtPosition(at)
	w.refresh()
}

// openMenu shows a menu under its word at x of a bar.
func (w *Window) openMenu(id string, x float32, bar *panel.Pane) {
	at := w.app.Driver().AbsolutePositionForObject(bar)
	w.showMenu(id, w.menuOf(id), fyne.NewPos(at.X+x, at.Y+bar.Size().Height))
}

// choiceItem is an entry of a menu that takes a choice; on: it is taken now.
func (w *Window) choiceItem(name string, on bool, take func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(name, func() { take(); w.refresh() })
	i.Checked = on
	return i
}

// submenu is an entry of a menu that opens another, or says why there is none.
func submenu(name string, items []*fyne.MenuItem, none string) *fyne.MenuItem {
	i := fyne.NewMenuItem(name, nil)
	if len(items) == 0 {
		i.Label += "   (" + none + ")"
		i.Disabled = true
		return i
	}
	i.ChildMenu = fyne.NewMenu("", items...)
	return i
}

// menuOf is a menu as it stands now: what cannot be done says why.
func (w *Window) menuOf(id string) []*fyne.MenuItem {
	var items []*fyne.MenuItem
	add := func(ids ...string) {
		for _, c := range ids {
			if c == "" {
				items = append(items, fyne.NewMenuItemSeparator())
				continue
			}
			if i := w.menuItem(c); i != nil {
				items = append(items, i)
			}
		}
	}
	switch id {
	case "file":
		add("new", "open")
		items = append(items, w.recentMenu(), w.exampleMenu())
		add("", "save", "save-as", "", "place-picture", "place-survey", "", "quit")
	case "edit":
		add("undo", "redo", "", "cut", "copy", "paste", "duplicate", "delete", "", "select-all", "select-kind", "", "lock", "hide", "show-all", "",
			"align-west", "align-east", "align-north", "align-south", "distribute", "mirror")
	case "place":
		add("tool.select", "", "tool.vehicle", "tool.anchor", "tool.block", "tool.sling", "tool.line", "tool.damper", "",
			"tool.obstacle", "tool.person", "tool.ground", "", "tool.measure", "tool.note")
		items = append(items, w.traceMenus()...)
	case "rig":
		add("rig.new", "rig.duplicate", "rename-rig", "rig.delete", "", "rig.next", "rig.previous", "rig.left", "rig.right", "", "ways", "")
		for _, e := range w.board.Commands() {
			if len(e.ID) > 6 && e.ID[:6] == "start." {
				add(e.ID)
			}
		}
	case "view":
		add("fit", "zoom-in", "zoom-out", "", "compare", "", "desk", "field", "", "light", "dark", "")
		items = append(items, w.sizeMenu(), w.languageMenu())
		add("", "findings", "loads", "details")
	case "sheet":
		add("print", "", "picture", "picture-part", "", "picture-copy", "picture-copy-part", "picture-copy-svg", "", "sheet-details")
	case "board": // under the pointer
		if len(w.board.Selection()) == 0 {
			add("paste", "select-all", "show-all", "", "fit")
			break
		}
		add("why", "details", "", "cut", "copy", "paste", "duplicate", "delete", "", "select-kind", "lock", "hide", "show-all", "", "picture-copy-part", "", "fit")
	case "help":
		add("keys", "cautions", "about")
	case "show":
		items = w.showItems()
	case "units":
		items = w.unitItems()
	}
	return items
}

// menuItem is a command as a menu shows it, nil if there is no such command.
func (w *Window) menuItem(id string) *fyne.MenuItem {
	c, ok := w.find(id)
	if !ok {
		return nil
	}
	label := c.label
	switch {
	case c.why != "":
		label += "   (" + c.why + ")"
	case c.shortcut != "": // Fyne's own place for it is too pale to read
		label += "   " + w.keyNames(c.shortcut)
	}
	i := fyne.NewMenuItem(label, func() { w.run(id) })
	i.Disabled, i.Checked = c.why != "", c.on
	return i
}

// keyNames is a shortcut with its keys called as the language calls them.
func (w *Window) keyNames(shortcut string) string {
	return strings.NewReplacer("Ctrl", w.label("key-ctrl"), "Shift", w.label("key-shift")).Replace(shortcut)
}

func (w *Window) recentMenu() *fyne.MenuItem {
	list, _ := w.store.Recent() // what cannot be read is not listed
	var items []*fyne.MenuItem
	for _, r := range list {
		name := r.Path
		if r.Title != "" {
			name = r.Title + "   " + r.Path
		}
		m := fyne.NewMenuItem(name, func() { w.guard(func() { w.openFile(r.Path) }) })
		if r.Missing {
			m.Label += "   (" + w.label("is-gone") + ")"
			m.Disabled = true
		}
		items = append(items, m)
	}
	return submenu(w.label("do-recent"), items, w.label("no-recent"))
}

func (w *Window) exampleMenu() *fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, name := range exampleNames() {
		items = append(items, fyne.NewMenuItem(name, func() { w.guard(func() { w.openExample(name) }) }))
	}
	return submenu(w.label("do-examples"), items, "")
}

// showItems switch what is drawn, zones one by one.
func (w *Window) showItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	toggle := func(name string, on bool, flip func()) {
		items = append(items, w.choiceItem(name, on, flip))
	}
	all := len(w.show.HideZones) == 0
	toggle(w.label("show-zones"), all, func() {
		w.show.HideZones = nil
		if all {
			w.show.HideZones = map[string]bool{}
			for _, z := range part.ZoneKinds {
				w.show.HideZones[string(z)] = true
			}
		}
	})
	for _, z := range part.ZoneKinds {
		hidden := w.show.HideZones[string(z)]
		toggle("    "+w.words().Zone(z), !hidden, func() {
			next := map[string]bool{}
			for k, v := range w.show.HideZones {
				next[k] = v
			}
			if hidden {
				delete(next, string(z))
			} else {
				next[string(z)] = true
			}
			w.show.HideZones = next
		})
	}
	items = append(items, fyne.NewMenuItemSeparator())
	toggle(w.label("show-tags"), !w.show.HideTags, func() { w.show.HideTags = !w.show.HideTags })
	toggle(w.label("show-names"), !w.show.HideNames, func() { w.show.HideNames = !w.show.HideNames })
	toggle(w.label("show-grid"), !w.show.HideGrid, func() { w.show.HideGrid = !w.show.HideGrid })
	toggle(w.label("show-underlay"), !w.show.HideUnderlay, func() { w.show.HideUnderlay = !w.show.HideUnderlay })
	toggle(w.label("show-survey"), !w.show.HideSurvey, func() { w.show.HideSurvey = !w.show.HideSurvey })
	return items
}

// unitItems choose the units; the plan stays as it is.
func (w *Window) unitItems() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, s := range quantity.Systems() {
		items = append(items, w.choiceItem(s.String(), s == w.words().System(), func() { w.setUnits(s) }))
	}
	return items
}

func (w *Window) setUnits(s quantity.System) {
	w.board.SetWords(w.board.Words().In(s))
	w.prefs.Units, w.units = s.String(), s.String()
	w.keepPreferences()
	w.refresh()
}
