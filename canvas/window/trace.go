package window

import (
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/canvas/store"
)

// more is what the window holds for pictures to trace, surveys and the
// comparison of rigs.
type more struct {
	reading   *reading    // file of measured places that is looked at; nil: none
	comparing *comparison // rigs side by side; nil: not shown
	compare   *panel.Pane
	lastTab   tabPress
	ways      waysPanel
}

// Files that are taken in, by their extensions.
var (
	pictureFiles = []string{".png", ".jpg", ".jpeg"}
	surveyFiles  = []string{".gpx", ".geojson", ".json", ".csv", ".txt", ".tsv"}
)

func isOneOf(path string, extensions []string) bool {
	return slices.Contains(extensions, strings.ToLower(filepath.Ext(path)))
}

// moreCommands are those of pictures to trace, surveys and the comparison.
func (w *Window) moreCommands() []command {
	return []command{
		{id: "place-picture", label: "do-place-picture", do: w.askPicture},
		{id: "place-survey", label: "do-place-survey", do: w.askSurvey},
		{id: "compare", label: "do-compare", shortcut: "F4", do: w.toggleCompare},
	}
}

// traceMenus are the menus of the picture to trace and of the survey.
func (w *Window) traceMenus() []*fyne.MenuItem {
	sub := func(label string, ids ...string) *fyne.MenuItem {
		var items []*fyne.MenuItem
		for _, id := range ids {
			if i := w.menuItem(id); i != nil {
				items = append(items, i)
			}
		}
		return submenu(w.label(label), items, "")
	}
	return []*fyne.MenuItem{
		fyne.NewMenuItemSeparator(),
		sub("picture-menu", "place-picture", "picture.scale", "picture.turn", "picture.move", "picture.select", "picture.remove"),
		sub("survey-menu", "place-survey", "survey.select", "survey.remove"),
	}
}

// takeDropped takes in a picture or survey that was dropped on the window; false
// if it is neither.
func (w *Window) takeDropped(path string) bool {
	switch {
	case isOneOf(path, pictureFiles):
		w.placePicture(path)
	case isOneOf(path, surveyFiles):
		w.readSurvey(path)
	default:
		return false
	}
	return true
}

// leave ends what Escape ends before it reaches the board; false if there is
// nothing of the kind.
func (w *Window) leave() bool {
	switch {
	case w.stopLong():
	case w.comparing != nil:
		w.endCompare()
	case w.reading != nil:
		w.endReading()
	default:
		return false
	}
	return true
}

// askPicture asks for a picture to trace.
func (w *Window) askPicture() {
	w.chooseFile(w.label("picture-open-title"), w.label("do-place-it"), "", pictureFiles, w.placePicture)
}

// askSurvey asks for a file of measured places.
func (w *Window) askSurvey() {
	w.chooseFile(w.label("survey-open-title"), w.label("do-read-it"), "", surveyFiles, w.readSurvey)
}

// placePicture reads a picture on the worker and places it on the board.
func (w *Window) placePicture(path string) {
	name, doc := filepath.Base(path), w.file.session
	w.endCompare()
	w.say(w.label("picture-reading", text("name", name)))
	w.worker.Do("take", func() func() {
		pic, err := w.store.ReadPicture(path)
		return func() {
			switch {
			case w.file.session != doc: // another plan is on the board by now
				return
			case err != nil:
				w.say(store.Sentence(err))
				return
			}
			note := w.label("picture-placed", text("name", name))
			if pic.Note != "" {
				note += " " + pic.Note
			}
			if w.board.PlacePicture(pic.Type, pic.Bytes, note) == nil {
				w.said = "" // the board says more
				w.focusBoard()
			}
			w.refresh()
		}
	})
}

// traceActions are what can be done with the picture to trace or the survey,
// shown below the head of Details.
type traceActions struct {
	commands []command
	fades    bool    // how far it is faded can be chosen
	fade     float64 // of the picture
}

// traceActions are those of what is selected.
func (w *Window) traceActions() traceActions {
	var t traceActions
	sel := w.board.Selection()
	if len(sel) != 1 {
		return t
	}
	var ids []string
	switch sel[0] {
	case form.ThingUnderlay:
		ids = []string{"picture.scale", "picture.turn", "picture.move", "picture.remove"}
		if u := w.board.Picture(); u != nil {
			t.fades, t.fade = true, u.Fade
		}
	case form.ThingSurvey:
		ids = []string{"place-survey", "survey.remove"}
	}
	for _, id := range ids {
		if c, ok := w.find(id); ok {
			t.commands = append(t.commands, c)
		}
	}
	return t
}

func drawTraceActions(d *panel.Drawing, w *Window, t *traceActions) {
	if len(t.commands) == 0 {
		return
	}
	d.Choices(func(put func(id, word string, on bool, press func())) {
		for _, c := range t.commands {
			put(c.id, c.label, false, func() {
				w.run(c.id)
				if w.choosing == nil { // the next clicks are for the board
					w.focusBoard()
				}
			})
		}
	})
	if !t.fades {
		return
	}
	word := w.label("picture-fade")
	d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, word, d.Mid(), 0)
	x := d.Px(24) + panel.Width(word, d.Mid())
	for _, f := range board.PictureFades() {
		x += d.Button(x, d.Y, "fade "+itoa(int(f*100)), w.words().Share(f), t.fade == f, func() { w.board.FadePicture(f) }, "") + d.Px(6)
	}
	d.Y += d.ButtonHigh() + d.Px(8)
}
