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

// commandList are the window's own commands; the board has its own.
func (w *Window) commandList() []command {
	own := func(id, label, shortcut string, do func()) command {
		return command{id: id, label: label, shortcut: shortcut, do: do}
	}
	return []command{
		own("new", "do-new", "Ctrl+N", func() { w.guard(w.newPlan) }),
		own("open", "do-open", "Ctrl+O", func() { w.guard(w.askOpen) }),
		own("save", "do-save", "Ctrl+S", func() { w.save(nil) }),
		own("save-as", "do-save-as", "Ctrl+Shift+S", func() { w.saveAs(nil) }),
		own("quit", "do-quit", "Ctrl+Q", w.quit),
		own("rename-rig", "do-rename-rig", "", w.renameRig),
		own("desk", "do-desk", "", func() { w.setLook(w.dark, false) }),
		own("field", "do-field", "F2", func() { w.setLook(w.dark, !w.field) }),
		own("light", "do-light", "", func() { w.setLook(false, w.field) }),
		own("dark", "do-dark", "", func() { w.setLook(true, w.field) }),
		own("findings", "title-findings", "", func() { w.showPanel("findings") }),
		own("loads", "title-loads", "", func() { w.showPanel("loads") }),
		own("details", "title-details", "", func() { w.showPanel("details") }),
		own("why", "do-why", "", func() { w.explainHere() }),
		own("print", "do-print-sheet", "Ctrl+P", w.printSheet),
		own("picture", "do-picture", "", func() { w.savePicture(false) }),
		own("picture-part", "do-picture-part", "", func() { w.savePicture(true) }),
		own("picture-copy", "do-picture-copy", "Ctrl+Shift+C", func() { w.copyPicture(false, false) }),
		own("picture-copy-part", "do-picture-copy-part", "", func() { w.copyPicture(true, false) }),
		own("picture-copy-svg", "do-picture-copy-svg", "", func() { w.copyPicture(len(w.board.Selection()) > 0, true) }),
		own("sheet-details", "do-sheet-details", "", func() { w.board.Select(form.ThingSheet); w.showPanel("details") }),
		own("keys", "do-keys", "F1", w.showKeys),
		own("cautions", "title-cautions", "", w.showCautions),
		own("about", "do-about", "", w.showAbout),
	}
}

// find is a command by its id, as it stands now.
func (w *Window) find(id string) (command, bool) {
	for _, c := range w.commands {
		if c.id == id {
			c.label = w.label(c.label)
			switch id {
			case "why":
				if s := w.board.Selection(); len(s) == 0 || w.board.PartOf(s[0]) == "" {
					c.why = w.label("nothing-to-explain")
				}
			case "picture-part":
				c.why = w.nothingSelected()
			case "picture-copy":
				c.why = w.noClipboard()
			case "picture-copy-part":
				c.why = cmp.Or(w.nothingSelected(), w.noClipboard())
			case "desk":
				c.on = !w.field
			case "field":
				c.on = w.field
			case "light":
				c.on = !w.dark
			case "dark":
				c.on = w.dark
			}
			return c, true
		}
	}
	for _, e := range w.board.Commands() {
		if e.ID == id {
			label := e.Label
			switch {
			case id == "undo" && w.board.UndoName() != "":
				label += ": " + w.board.UndoName()
			case id == "redo" && w.board.RedoName() != "":
				label += ": " + w.board.RedoName()
			}
			return command{id: id, label: label, shortcut: e.Shortcut, why: e.Why, on: strings.HasPrefix(id, "tool.") && id == "tool."+toolName(w.board.Tool()),
				do: func() { w.board.Handle(board.Command{ID: id}) }}, true
		}
	}
	return command{}, false
}

// nothingSelected says why nothing can be done with the selection; empty: it
// can.
func (w *Window) nothingSelected() string {
	if len(w.board.Selection()) == 0 {
		return w.label("nothing-selected")
	}
	return ""
}

// run does a command, or says why it cannot be done.
func (w *Window) run(id string) {
	c, ok := w.find(id)
	if ok {
		w.leaveWays(id)
	}
	switch {
	case !ok:
		return
	case c.why != "":
		w.say(c.why)
	default:
		c.do()
	}
	w.refresh()
}

// byShortcut is the command of a shortcut as shown, "Ctrl+S".
func (w *Window) byShortcut(s string) (string, bool) {
	if s == "Ctrl+Y" {
		return "redo", true
	}
	for _, c := range w.commands {
		if c.shortcut == s {
			return c.id, true
		}
	}
	for _, e := range w.board.Commands() {
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
func (w *Window) shortcut(s fyne.Shortcut) {
	said, key, mods := shortcutText(s)
	if said == "" || w.busy() {
		return
	}
	w.acted()
	if said == "Ctrl+=" || said == "Ctrl+Shift+=" {
		said = "Ctrl++"
	}
	if id, ok := w.byShortcut(said); ok {
		w.closeEntry()
		w.run(id)
		return
	}
	if w.win.Canvas().Focused() == fyne.Focusable(w.view) {
		w.view.handle(board.Key{Name: key, Mods: mods})
	}
}

// canvasShortcuts has all shortcuts work while nothing has the keys.
func (w *Window) canvasShortcuts() {
	c := w.win.Canvas()
	c.AddShortcut(&fyne.ShortcutUndo{}, w.shortcut)
	c.AddShortcut(&fyne.ShortcutRedo{}, w.shortcut)
	for _, id := range [...]fyne.KeyName{fyne.KeyN, fyne.KeyO, fyne.KeyS, fyne.KeyQ, fyne.KeyP, fyne.KeyC, fyne.KeyD, fyne.KeyTab, fyne.Key0} {
		for _, m := range [...]fyne.KeyModifier{fyne.KeyModifierControl, fyne.KeyModifierControl | fyne.KeyModifierShift} {
			c.AddShortcut(&desktop.CustomShortcut{KeyName: id, Modifier: m}, w.shortcut)
		}
	}
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if !w.namedKey(e.Name) {
			w.focusBoard()
			w.view.TypedKey(e)
		}
	})
	c.SetOnTypedRune(func(r rune) { w.focusBoard(); w.view.TypedRune(r) })
}

// namedKey does what a key does wherever the focus is; false if it is for
// whoever has it.
func (w *Window) namedKey(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyF1:
		w.run("keys")
	case fyne.KeyF2:
		w.run("field")
	case fyne.KeyF4:
		w.run("compare")
	case fyne.KeyEscape:
		return w.leave()
	case fyne.KeyF6:
		by := 1
		if panel.ShiftHeld() {
			by = -1
		}
		w.nextRegion(by)
	case fyne.KeyF10:
		w.menu.Focus = "file"
		w.win.Canvas().Focus(w.menu)
	default:
		return false
	}
	return true
}
