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
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Files that are taken in, by their extensions.
var (
	pictureFiles = []string{".png", ".jpg", ".jpeg"}
	surveyFiles  = []string{".gpx", ".geojson", ".json", ".csv", ".txt", ".tsv"}
)

func isOneOf(path string, extensions []string) bool {
	return slices.Contains(extensions, strings.ToLower(filepath.Ext(path)))
}

// more are those of pictures to trace, surveys and the comparison.
func (ct *commandTable) more() []command {
	return []command{
		{id: "place-picture", label: "do-place-picture", do: ct.w.pictures.ask},
		{id: "attach-photo", label: "do-attach-photo", do: ct.w.pictures.askPhoto},
		{id: "place-survey", label: "do-place-survey", do: ct.w.reading.ask},
		{id: "compare", label: "do-compare", shortcut: "F4", do: ct.w.compare.toggle},
	}
}

// tracing are the menus of the picture to trace and of the survey.
func (ms *menus) tracing() []*fyne.MenuItem {
	sub := func(label string, ids ...string) *fyne.MenuItem {
		var items []*fyne.MenuItem
		for _, id := range ids {
			if i := ms.item(id); i != nil {
				items = append(items, i)
			}
		}
		return submenu(ms.w.label(label), items, "")
	}
	return []*fyne.MenuItem{
		fyne.NewMenuItemSeparator(),
		sub("picture-menu", "place-picture", "picture.scale", "picture.points", "picture.turn", "picture.move", "picture.select", "picture.remove"),
		sub("survey-menu", "place-survey", "survey.select", "survey.remove"),
	}
}

// takeDropped takes in a picture or survey that was dropped on the window; false
// if it is neither.
func (w *Window) takeDropped(path string) bool {
	switch {
	case isOneOf(path, pictureFiles):
		w.pictures.place(path)
	case isOneOf(path, surveyFiles):
		w.reading.read(path)
	default:
		return false
	}
	return true
}

// leave ends what Escape ends before it reaches the board; false if there is
// nothing of the kind.
func (w *Window) leave() bool {
	switch {
	case w.long.stop():
	case w.compare.now != nil:
		w.compare.close()
	case w.reading.now != nil:
		w.reading.close()
	default:
		return false
	}
	return true
}

// ask asks for a picture to trace.
func (ps *pictures) ask() {
	ps.w.chooseFile(ps.w.label("picture-open-title"), ps.w.label("do-place-it"), "", pictureFiles, ps.place)
}

// askPhoto asks for a picture that shows the piece of evidence that is selected.
func (ps *pictures) askPhoto() {
	sel := ps.w.board.Selection()
	if len(sel) == 1 {
		if _, pin := plan.RefPin(sel[0]); pin {
			ps.w.chooseFile(ps.w.label("photo-title"), ps.w.label("do-attach-it"), "", pictureFiles, func(path string) { ps.attach(sel[0], path) })
			return
		}
	}
	ps.w.say(ps.w.label("photo-no-pin"))
}

// attach reads a picture on the worker and attaches it to a piece of evidence.
func (ps *pictures) attach(pin plan.ID, path string) {
	ps.take(path, ps.w.store.ReadPhoto, func(name string, pic store.Picture, note string) {
		if board.AttachPhoto(ps.w.board, pin, plan.Photo{Type: pic.Type, Bytes: pic.Bytes, File: name, Original: pic.Original}, note) == nil {
			ps.w.said = ""
		}
	})
}

// ask asks for a file of measured places.
func (rp *readingPanel) ask() {
	rp.w.chooseFile(rp.w.label("survey-open-title"), rp.w.label("do-read-it"), "", surveyFiles, rp.read)
}

// place reads a picture on the worker and places it on the board.
func (ps *pictures) place(path string) {
	ps.w.compare.close()
	ps.take(path, ps.w.store.ReadPicture, func(name string, pic store.Picture, note string) {
		said := ps.w.label("picture-placed", part.Text("name", name))
		if note != "" {
			said += " " + note
		}
		if ps.w.board.PlacePicture(plan.Underlay{Type: pic.Type, Bytes: pic.Bytes, File: name, Original: pic.Original}, said) == nil {
			ps.w.said = "" // the board says more
			ps.w.focusBoard()
		}
	})
}

// take reads a picture on the worker, and has it put into the plan that is still on the board.
func (ps *pictures) take(path string, read func(path string) (store.Picture, error), put func(name string, pic store.Picture, note string)) {
	name, doc := filepath.Base(path), ps.w.file.session
	ps.w.say(ps.w.label("picture-reading", part.Text("name", name)))
	ps.w.worker.Do("take", func() func() {
		pic, err := read(path)
		return func() {
			note := ""
			switch {
			case ps.w.file.session != doc: // another plan is on the board by now
				return
			case err != nil:
				ps.w.say(ps.w.words().Refusal(err))
				return
			case pic.Note != nil:
				note = ps.w.words().Refusal(pic.Note)
			}
			put(name, pic, note)
			ps.w.refresh()
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
func (dp *detailsPanel) traceActions() traceActions {
	var t traceActions
	sel := dp.w.board.Selection()
	if len(sel) != 1 {
		return t
	}
	var ids []string
	switch sel[0] {
	case form.ThingUnderlay:
		ids = []string{"picture.scale", "picture.points", "picture.turn", "picture.move", "picture.remove"}
		if u := dp.w.board.Picture(); u != nil {
			t.fades, t.fade = true, u.Fade
			if len(u.Points) > 0 { // it lies by them alone
				ids = []string{"picture.points", "picture.remove"}
			}
		}
	case form.ThingSurvey:
		ids = []string{"place-survey", "survey.remove"}
	default:
		if _, pin := plan.RefPin(sel[0]); pin {
			ids = []string{"attach-photo"}
		}
	}
	for _, id := range ids {
		if c, ok := dp.w.commands.find(id); ok {
			t.commands = append(t.commands, c)
		}
	}
	return t
}

func (dp *detailsPanel) drawTraceActions(d *panel.Drawing, t *traceActions) {
	if len(t.commands) == 0 {
		return
	}
	d.Choices(func(put func(id, word string, on bool, press func())) {
		for _, c := range t.commands {
			put(c.id, c.label, false, func() {
				dp.w.commands.run(c.id)
				if dp.w.choosing == nil { // the next clicks are for the board
					dp.w.focusBoard()
				}
			})
		}
	})
	if !t.fades {
		return
	}
	word := dp.w.label("picture-fade")
	d.Text(d.Px(14), d.Y+d.ButtonHigh()/2, word, d.Mid(), 0)
	x := d.Px(24) + panel.Width(word, d.Mid())
	for _, f := range board.PictureFades() {
		x += d.Button(x, d.Y, "fade "+itoa(int(f*100)), dp.w.words().Share(f), t.fade == f, func() { dp.w.board.FadePicture(f) }, "") + d.Px(6)
	}
	d.Y += d.ButtonHigh() + d.Px(8)
}
