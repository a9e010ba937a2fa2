package window

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"kedge/solver/part"
	"kedge/solver/quantity"

	"kedge/canvas/board"
	"kedge/canvas/panel"
)

// menuNames are the menus of the bar, by the ids of their words.
var menuNames = [...]string{"file", "edit", "place", "rig", "view", "sheet", "help"}

// menus shows one menu at a time over the window.
type menus struct {
	w     *Window
	popup *popup // shown last; nil: none yet
}

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

// show shows a menu at a place and gives it the keys; what follows goes
// back to the board.
func (ms *menus) show(id string, items []*fyne.MenuItem, at fyne.Position) {
	if ms.popup.menuShown() != "" {
		ms.popup.menu.Hide()
	}
	menu := widget.NewPopUpMenu(fyne.NewMenu("", items...), ms.w.win.Canvas())
	ms.popup = &popup{id: id, menu: menu}
	menu.OnDismiss = func() {
		menu.Hide()
		ms.w.focusBoard()
		ms.w.refresh()
	}
	menu.ShowAtPosition(at)
	ms.w.refresh()
}

// open shows a menu under its word at x of a bar.
func (ms *menus) open(id string, x float32, bar *panel.Pane) {
	at := ms.w.app.Driver().AbsolutePositionForObject(bar)
	ms.show(id, ms.of(id), fyne.NewPos(at.X+x, at.Y+bar.Size().Height))
}

// choice is an entry of a menu that takes a choice; on: it is taken now.
func (ms *menus) choice(name string, on bool, take func()) *fyne.MenuItem {
	i := fyne.NewMenuItem(name, func() { take(); ms.w.refresh() })
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

// of is a menu as it stands now: what cannot be done says why.
func (ms *menus) of(id string) []*fyne.MenuItem {
	var items []*fyne.MenuItem
	add := func(ids ...string) {
		for _, c := range ids {
			if c == "" {
				items = append(items, fyne.NewMenuItemSeparator())
				continue
			}
			if i := ms.item(c); i != nil {
				items = append(items, i)
			}
		}
	}
	switch id {
	case "file":
		add("new")
		items = append(items, submenu(ms.w.label("begin-title"), ms.begins(), ""))
		add("open")
		items = append(items, ms.recent(), ms.examples())
		add("", "save", "save-as", "film", "", "seal", "seal-check", "", "place-picture", "place-survey", "", "quit")
	case "edit":
		add("undo", "redo", "", "cut", "copy", "paste", "duplicate", "delete", "", "select-all", "select-kind", "find", "", "lock", "hide", "show-all", "",
			"align-west", "align-east", "align-north", "align-south", "distribute", "mirror")
	case "place":
		add("tool.select", "", "tool.vehicle", "tool.anchor", "tool.block", "tool.sling", "tool.line", "tool.damper", "",
			"tool.obstacle", "tool.person", "tool.ground", "", "tool.measure", "tool.note", "", "tool.fact", "tool.turn")
		items = append(items, ms.tracing()...)
	case "rig":
		add("rig.new", "rig.duplicate", "rename-rig", "rig.delete", "", "rig.next", "rig.previous", "rig.left", "rig.right", "", "ways", "")
		for _, e := range ms.w.board.Commands() {
			if len(e.ID) > 6 && e.ID[:6] == "start." {
				add(e.ID)
			}
		}
	case "view":
		add("fit", "zoom-in", "zoom-out", "", "stand", "compare", "", "desk", "field", "", "light", "dark", "")
		items = append(items, ms.sizes(), ms.languages())
		add("", "findings", "loads", "details", panelOutcome)
	case "sheet":
		add("print", "", "picture", "picture-part", "", "picture-copy", "picture-copy-part", "picture-copy-svg", "", "sheet-details")
	case "board": // under the pointer
		if len(ms.w.board.Selection()) == 0 {
			add("paste", "select-all", "show-all", "", "fit")
			break
		}
		add("why", "details", "", "cut", "copy", "paste", "duplicate", "delete", "", "select-kind", "lock", "hide", "show-all", "", "picture-copy-part", "", "fit")
	case "help":
		add("lesson", "keys", "cautions", "about")
	case "show":
		items = ms.shown()
	case "units":
		items = ms.units()
	}
	return items
}

// begins are the ways to begin on a bare sheet, each on a new one.
func (ms *menus) begins() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, id := range board.Begins() {
		items = append(items, ms.choice(ms.w.label("do-begin-"+id), false, func() {
			ms.w.file.guard(func() { ms.w.file.empty(); ms.w.commands.run("begin." + id) })
		}))
	}
	return items
}

// item is a command as a menu shows it, nil if there is no such command.
func (ms *menus) item(id string) *fyne.MenuItem {
	c, ok := ms.w.commands.find(id)
	if !ok {
		return nil
	}
	label := c.label
	switch {
	case c.why != "":
		label += "   (" + c.why + ")"
	case c.shortcut != "": // Fyne's own place for it is too pale to read
		label += "   " + ms.keyNames(c.shortcut)
	}
	i := fyne.NewMenuItem(label, func() { ms.w.commands.run(id) })
	i.Disabled, i.Checked = c.why != "", c.on
	return i
}

// keyNames is a shortcut with its keys called as the language calls them.
func (ms *menus) keyNames(shortcut string) string {
	return strings.NewReplacer("Ctrl", ms.w.label("key-ctrl"), "Shift", ms.w.label("key-shift")).Replace(shortcut)
}

func (ms *menus) recent() *fyne.MenuItem {
	list, _ := ms.w.store.Recent() // what cannot be read is not listed
	var items []*fyne.MenuItem
	for _, r := range list {
		name := r.Path
		if r.Title != "" {
			name = r.Title + "   " + r.Path
		}
		m := fyne.NewMenuItem(name, func() { ms.w.file.guard(func() { ms.w.file.open(r.Path) }) })
		if r.Missing {
			m.Label += "   (" + ms.w.label("is-gone") + ")"
			m.Disabled = true
		}
		items = append(items, m)
	}
	return submenu(ms.w.label("do-recent"), items, ms.w.label("no-recent"))
}

func (ms *menus) examples() *fyne.MenuItem {
	var items []*fyne.MenuItem
	last := ""
	for _, name := range exampleNames() {
		if strings.HasPrefix(name, incidentFolder) && !strings.HasPrefix(last, incidentFolder) {
			items = append(items, fyne.NewMenuItemSeparator())
		}
		last = name
		items = append(items, fyne.NewMenuItem(ms.w.exampleTitle(name), func() { ms.w.file.guard(func() { ms.w.file.openExample(name) }) }))
	}
	return submenu(ms.w.label("do-examples"), items, "")
}

// shown switch what is drawn, zones one by one.
func (ms *menus) shown() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	toggle := func(name string, on bool, flip func()) {
		items = append(items, ms.choice(name, on, flip))
	}
	all := len(ms.w.show.HideZones) == 0
	toggle(ms.w.label("show-zones"), all, func() {
		ms.w.show.HideZones = nil
		if all {
			ms.w.show.HideZones = map[string]bool{}
			for _, z := range part.ZoneKinds {
				ms.w.show.HideZones[string(z)] = true
			}
		}
	})
	for _, z := range part.ZoneKinds {
		hidden := ms.w.show.HideZones[string(z)]
		toggle("    "+ms.w.words().Zone(z), !hidden, func() {
			next := map[string]bool{}
			for k, v := range ms.w.show.HideZones {
				next[k] = v
			}
			if hidden {
				delete(next, string(z))
			} else {
				next[string(z)] = true
			}
			ms.w.show.HideZones = next
		})
	}
	toggle(ms.w.label("show-zones-apart"), ms.w.show.ZonesApart, func() {
		ms.w.show.ZonesApart = !ms.w.show.ZonesApart
		ms.w.prefs.ZonesApart = ms.w.show.ZonesApart
		ms.w.keepPreferences()
	})
	items = append(items, fyne.NewMenuItemSeparator())
	toggle(ms.w.label("show-tags"), !ms.w.show.HideTags, func() { ms.w.show.HideTags = !ms.w.show.HideTags })
	toggle(ms.w.label("show-names"), !ms.w.show.HideNames, func() { ms.w.show.HideNames = !ms.w.show.HideNames })
	toggle(ms.w.label("show-grid"), !ms.w.show.HideGrid, func() { ms.w.show.HideGrid = !ms.w.show.HideGrid })
	toggle(ms.w.label("show-underlay"), !ms.w.show.HideUnderlay, func() { ms.w.show.HideUnderlay = !ms.w.show.HideUnderlay })
	toggle(ms.w.label("show-survey"), !ms.w.show.HideSurvey, func() { ms.w.show.HideSurvey = !ms.w.show.HideSurvey })
	return items
}

// units choose the units; the plan stays as it is.
func (ms *menus) units() []*fyne.MenuItem {
	var items []*fyne.MenuItem
	for _, s := range quantity.Systems() {
		items = append(items, ms.choice(s.String(), s == ms.w.words().System(), func() { ms.w.setUnits(s) }))
	}
	return items
}

func (w *Window) setUnits(s quantity.System) {
	w.board.SetWords(w.board.Words().In(s))
	w.prefs.Units, w.units = s.String(), s.String()
	w.keepPreferences()
	w.refresh()
}
