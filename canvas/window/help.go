package window

import (
	"strings"

	"kedge/assets"
	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/words"
	"kedge/solver/part"
)

// keyGroups are the keys by what they are for, in the order they are shown.
var keyGroups = [...]string{"keys-tools", "keys-board", "keys-line", "keys-picture", "keys-window"}

// showKeys lists the keys, a row each.
func (w *Window) showKeys() {
	var rows []string
	for _, group := range keyGroups {
		rows = append(rows, w.label(group)+panel.Column)
		if group == "keys-tools" {
			for _, t := range board.Tools() {
				if letter := toolLetter(t); letter != "" {
					rows = append(rows, strings.ToUpper(letter)+panel.Column+w.label("tool-"+toolName(t)))
				}
			}
		}
		for i := 1; w.words().HasLabel(group + "-" + itoa(i)); i++ {
			key, does, _ := strings.Cut(w.label(group+"-"+itoa(i)), ": ")
			rows = append(rows, key+panel.Column+does)
		}
	}
	for _, c := range w.commands.own {
		if strings.HasPrefix(c.shortcut, "Ctrl") {
			rows = append(rows, w.menus.keyNames(c.shortcut)+panel.Column+w.label(c.label))
		}
	}
	for _, e := range w.board.Commands() {
		if strings.HasPrefix(e.Shortcut, "Ctrl") {
			rows = append(rows, w.menus.keyNames(e.Shortcut)+panel.Column+e.Label)
		}
	}
	w.page(w.label("do-keys"), rows, []panel.Answer{{Word: w.label("do-close")}})
}

// showCautions shows what the program never answers for.
func (w *Window) showCautions() {
	lines := append(w.words().Cautions(), words.ZoneNotes(w.words())...)
	lines = append(lines, "", w.label("title-not-checked")+":")
	for _, n := range w.words().NotChecked() {
		lines = append(lines, "– "+n)
	}
	w.page(w.label("title-cautions"), lines, []panel.Answer{{Word: w.label("do-close")}})
}

// showAbout says what Kedge is.
func (w *Window) showAbout() {
	w.page(w.label("about-title"), []string{w.label("about-1"), w.label("aid"), w.label("about-font"), w.label("about-modules", part.Text("modules", modulesNamed()))}, []panel.Answer{{Word: w.label("do-close")}})
}

// modulesNamed are the modules in the program, each with its licence.
func modulesNamed() string {
	list, _ := assets.Licences()
	var all []string
	for _, line := range strings.Split(list, "\n")[1:] {
		if f := strings.SplitN(line, " ", 3); len(f) == 3 {
			all = append(all, f[0]+" ("+f[2]+")")
		}
	}
	return strings.Join(all, " · ")
}

// renameRig opens the name of the rig in Details.
func (w *Window) renameRig() {
	rig := w.board.Rig()
	w.details.typeInto(&form.Focus{Thing: rig, Member: "name"})
}
