package window

import (
	"cmp"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/canvas/panel"
)

// command is what a menu entry or shortcut does.
type command struct {
	id, label, shortcut string
	why                 string // why it cannot be done now
	on                  bool   // it is ticked
	do                  func()
}

// commandTable is everything that menus and shortcuts do.
type commandTable struct {
	w   *Window
	own []command // the window's; the board has its own
}

// list are the window's own commands; the board has its own.
func (ct *commandTable) list() []command {
	own := func(id, label, shortcut string, do func()) command {
		return command{id: id, label: label, shortcut: shortcut, do: do}
	}
	return []command{
		own("new", "do-new", "Ctrl+N", func() { ct.w.begin.off = false; ct.w.file.guard(ct.w.file.empty) }),
		own("open", "do-open", "Ctrl+O", func() { ct.w.file.guard(ct.w.file.askOpen) }),
		own("save", "do-save", "Ctrl+S", func() { ct.w.file.save(nil) }),
		own("save-as", "do-save-as", "Ctrl+Shift+S", func() { ct.w.file.saveAs(nil) }),
		own("seal", "do-seal", "", ct.w.outcome.askSeal),
		own("seal-check", "do-seal-check", "", ct.w.outcome.askCheck),
		own("quit", "do-quit", "Ctrl+Q", ct.w.quit),
		own("find", "do-find", "Ctrl+F", ct.w.find),
		own("rename-rig", "do-rename-rig", "", ct.w.renameRig),
		own("desk", "do-desk", "", func() { ct.w.setLook(ct.w.dark, false) }),
		own("field", "do-field", "F2", func() { ct.w.setLook(ct.w.dark, !ct.w.field) }),
		own("light", "do-light", "", func() { ct.w.setLook(false, ct.w.field) }),
		own("dark", "do-dark", "", func() { ct.w.setLook(true, ct.w.field) }),
		own("findings", "title-findings", "", func() { ct.w.shell.showPanel("findings") }),
		own("loads", "title-loads", "", func() { ct.w.shell.showPanel("loads") }),
		own("details", "title-details", "", func() { ct.w.shell.showPanel("details") }),
		own(panelOutcome, "do-outcome", "F7", func() { ct.w.shell.showPanel(panelOutcome) }),
		own("why", "do-why", "", func() { ct.w.whys.here() }),
		own("print", "do-print-sheet", "Ctrl+P", ct.w.printer.toggle),
		own("picture", "do-picture", "", func() { ct.w.pictures.save(false) }),
		own("picture-part", "do-picture-part", "", func() { ct.w.pictures.save(true) }),
		own("film", "do-film", "", func() { ct.w.pictures.film() }),
		own("picture-copy", "do-picture-copy", "Ctrl+Shift+C", func() { ct.w.pictures.copy(false, false) }),
		own("picture-copy-part", "do-picture-copy-part", "", func() { ct.w.pictures.copy(true, false) }),
		own("picture-copy-svg", "do-picture-copy-svg", "", func() { ct.w.pictures.copy(len(ct.w.board.Selection()) > 0, true) }),
		own("sheet-details", "do-sheet-details", "", func() { ct.w.board.Select(form.ThingSheet); ct.w.shell.showPanel("details") }),
		own("keys", "do-keys", "F1", ct.w.showKeys),
		own("lesson", "do-lesson", "", ct.w.lesson.begin),
		own("cautions", "title-cautions", "", ct.w.showCautions),
		own("about", "do-about", "", ct.w.showAbout),
	}
}

// find is a command by its id, as it stands now.
func (ct *commandTable) find(id string) (command, bool) {
	for _, c := range ct.own {
		if c.id == id {
			c.label = ct.w.label(c.label)
			switch id {
			case "why":
				if s := ct.w.board.Selection(); len(s) == 0 || ct.w.board.PartOf(s[0]) == "" {
					c.why = ct.w.label("nothing-to-explain")
				}
			case "picture-part":
				c.why = ct.nothingSelected()
			case "seal":
				if !ct.w.outcome.seen() {
					c.why = ct.w.label("seal-nothing")
				}
			case "film":
				c.why = ct.w.pictures.noFilm()
			case "picture-copy":
				c.why = ct.w.pictures.noClipboard()
			case "picture-copy-part":
				c.why = cmp.Or(ct.nothingSelected(), ct.w.pictures.noClipboard())
			case "desk":
				c.on = !ct.w.field
			case "field":
				c.on = ct.w.field
			case "light":
				c.on = !ct.w.dark
			case "dark":
				c.on = ct.w.dark
			}
			return c, true
		}
	}
	for _, e := range ct.w.board.Commands() {
		if e.ID == id {
			label := e.Label
			switch {
			case id == "undo" && ct.w.board.UndoName() != "":
				label += ": " + ct.w.board.UndoName()
			case id == "redo" && ct.w.board.RedoName() != "":
				label += ": " + ct.w.board.RedoName()
			}
			return command{id: id, label: label, shortcut: e.Shortcut, why: e.Why, on: strings.HasPrefix(id, "tool.") && id == "tool."+toolName(ct.w.board.Tool()),
				do: func() { ct.w.board.Handle(board.Command{ID: id}) }}, true
		}
	}
	return command{}, false
}

// nothingSelected says why nothing can be done with the selection; empty: it
// can.
func (ct *commandTable) nothingSelected() string {
	if len(ct.w.board.Selection()) == 0 {
		return ct.w.label("nothing-selected")
	}
	return ""
}

// run does a command, or says why it cannot be done.
func (ct *commandTable) run(id string) {
	c, ok := ct.find(id)
	if ok {
		ct.w.ways.leave(id)
	}
	switch {
	case !ok:
		return
	case c.why != "":
		ct.w.say(c.why)
	default:
		c.do()
	}
	ct.w.refresh()
}

// byShortcut is the command of a shortcut as shown, "Ctrl+S".
func (ct *commandTable) byShortcut(s string) (string, bool) {
	if s == "Ctrl+Y" {
		return "redo", true
	}
	for _, c := range ct.own {
		if c.shortcut == s {
			return c.id, true
		}
	}
	for _, e := range ct.w.board.Commands() {
		if e.Shortcut == s {
			return e.ID, true
		}
	}
	return "", false
}

// shortcutText is a driver's shortcut as menus show it.
func shortcutText(s fyne.Shortcut) (text, key string, mods board.Mods) {
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		return "Ctrl+Z", "Z", board.Mods{Ctrl: true}
	case *fyne.ShortcutRedo:
		return "Ctrl+Y", "Y", board.Mods{Ctrl: true}
	case *fyne.ShortcutCopy:
		return "Ctrl+C", "C", board.Mods{Ctrl: true}
	case *fyne.ShortcutPaste:
		return "Ctrl+V", "V", board.Mods{Ctrl: true}
	case *fyne.ShortcutCut:
		return "Ctrl+X", "X", board.Mods{Ctrl: true}
	case *fyne.ShortcutSelectAll:
		return "Ctrl+A", "A", board.Mods{Ctrl: true}
	case *desktop.CustomShortcut:
		mods = modsOf(s.Modifier)
		key = string(s.KeyName)
		if n, ok := keyNames[s.KeyName]; ok {
			key = n
		}
		if mods.Ctrl {
			text += "Ctrl+"
		}
		if mods.Shift {
			text += "Shift+"
		}
		if mods.Alt {
			text += "Alt+"
		}
		return text + key, key, mods
	}
	return "", "", mods
}

// shortcut runs what a shortcut stands for; a key held with Ctrl that is no
// command goes to the board: arrows step further with it.
func (ct *commandTable) shortcut(s fyne.Shortcut) {
	said, key, mods := shortcutText(s)
	if said == "" || ct.w.busy() {
		return
	}
	ct.w.acted()
	if said == "Ctrl+=" || said == "Ctrl+Shift+=" {
		said = "Ctrl++"
	}
	if id, ok := ct.byShortcut(said); ok {
		ct.w.details.closeEntry()
		ct.run(id)
		return
	}
	if ct.w.win.Canvas().Focused() == fyne.Focusable(ct.w.view) {
		ct.w.view.handle(board.Key{Name: key, Mods: mods})
	}
}

// canvasShortcuts has all shortcuts work while nothing has the keys.
func (ct *commandTable) canvasShortcuts() {
	c := ct.w.win.Canvas()
	c.AddShortcut(&fyne.ShortcutUndo{}, ct.shortcut)
	c.AddShortcut(&fyne.ShortcutRedo{}, ct.shortcut)
	for _, id := range [...]fyne.KeyName{fyne.KeyN, fyne.KeyO, fyne.KeyS, fyne.KeyQ, fyne.KeyP, fyne.KeyC, fyne.KeyD, fyne.KeyF, fyne.KeyTab, fyne.Key0} {
		for _, m := range [...]fyne.KeyModifier{fyne.KeyModifierControl, fyne.KeyModifierControl | fyne.KeyModifierShift} {
			c.AddShortcut(&desktop.CustomShortcut{KeyName: id, Modifier: m}, ct.shortcut)
		}
	}
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if !ct.namedKey(e.Name) {
			ct.w.focusBoard()
			ct.w.view.TypedKey(e)
		}
	})
	c.SetOnTypedRune(func(r rune) { ct.w.focusBoard(); ct.w.view.TypedRune(r) })
}

// namedKey does what a key does wherever the focus is; false if it is for
// whoever has it.
func (ct *commandTable) namedKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1:
		ct.run("keys")
	case fyne.KeyF2:
		ct.run("field")
	case fyne.KeyF4:
		ct.run("compare")
	case fyne.KeyF7:
		ct.run(panelOutcome)
	case fyne.KeyEscape:
		return ct.w.leave()
	case fyne.KeyF6:
		by := 1
		if panel.ShiftHeld() {
			by = -1
		}
		ct.w.nextRegion(by)
	case fyne.KeyF10:
		ct.w.frame.menu.Focus = "file"
		ct.w.win.Canvas().Focus(ct.w.frame.menu)
	default:
		return false
	}
	return true
}
