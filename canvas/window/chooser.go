package window

import (
	"path/filepath"
	"strings"

	"kedge/canvas/panel"
)

// chooseFile asks for a file with one of some extensions, none: for a plan.
func (w *Window) chooseFile(title, verb, name string, extensions []string, done func(path string)) {
	lists := func(name string) bool { return isOneOf(name, extensions) }
	if extensions == nil {
		lists = func(name string) bool { return strings.EqualFold(filepath.Ext(name), extension) }
	}
	w.choosing = panel.ChooseFile(w.host, w.win.Canvas(), panel.FileChoice{
		Title: title, Verb: verb, Name: name, Folder: w.file.folder(), Lists: lists, Fault: w.words().Refusal, Done: done,
		Words:  panel.FileWords{Hint: w.label("file-name"), NameFirst: w.label("name-first"), Cancel: w.label("do-cancel"), Up: w.label("folder-up")},
		Closed: func() { w.choosing = nil; w.focusBoard() },
	})
}
