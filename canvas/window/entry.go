package window

import (
	"fyne.io/fyne/v2"

	"kedge/canvas/form"
	"kedge/canvas/panel"
	"kedge/solver/plan"
)

// fieldAt is the field that is being typed into, and why the last text was
// refused.
type fieldAt struct {
	thing         plan.ID
	member, fault string
}

// fieldEntry is the entry laid over a field of Details.
type fieldEntry struct {
	*panel.Entry
	w     *Window
	where fieldAt
	was   string
	lines bool
}

func (e *fieldEntry) at() fieldAt {
	if e == nil {
		return fieldAt{}
	}
	return e.where
}

// openEntry lays an entry over a field and gives it the keys.
func (w *Window) openEntry(thing plan.ID, f form.Field) {
	w.closeEntry()
	hint := f.Unit
	if f.Member == memberName {
		hint = w.called(thing, w.names())
	}
	e := &fieldEntry{w: w, where: fieldAt{thing: thing, member: f.Member}, was: f.Value, lines: f.Kind == form.KindLines}
	e.Entry = panel.NewEntry(hint, e.typed)
	e.MultiLine = e.lines
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.Shortcuts = w.shortcut
	e.SetText(f.Value)
	e.OnSubmitted = func(string) { w.submitEntry(false) }
	w.entry = e
	w.details.Extra = []fyne.CanvasObject{e.Entry}
	w.details.Placed = w.placeEntry
	w.placeEntry()
	w.details.Refresh()
	w.win.Canvas().Focus(e.Entry)
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// placeEntry keeps the entry over its field.
func (w *Window) placeEntry() {
	e := w.entry
	if e == nil {
		return
	}
	i := w.details.Find("field " + e.where.member)
	if i < 0 { // another thing is shown by now
		w.dropEntry()
		return
	}
	h := w.details.Hits[i]
	high := float32(h.Y1 - h.Y0)
	if e.lines {
		high = e.MinSize().Height
	}
	e.Move(fyne.NewPos(float32(h.X0), float32(h.Y0)))
	e.Resize(fyne.NewSize(float32(h.X1-h.X0), high))
}

// submitEntry takes what was typed; a refused text stays, with the reason
// below it. next: go on to the next field.
func (w *Window) submitEntry(next bool) {
	e := w.entry
	if e == nil {
		return
	}
	if e.Text != e.was && !w.set(e.where.thing, e.where.member, e.Text) {
		e.where.fault = w.board.Prompt()
		w.refresh()
		return
	}
	id := "field " + e.where.member
	w.dropEntry()
	w.details.Focus = id
	w.win.Canvas().Focus(w.details)
	w.refresh()
	if next && w.details.Step(1) {
		w.details.Press(w.details.Find(w.details.Focus))
	}
}

// closeEntry takes what was typed when something else is pressed; a refused
// text is dropped, and the status line has said why.
func (w *Window) closeEntry() {
	if e := w.entry; e != nil {
		if e.Text != e.was {
			w.set(e.where.thing, e.where.member, e.Text)
		}
		w.dropEntry()
	}
}

func (w *Window) dropEntry() {
	if w.entry == nil {
		return
	}
	w.entry, w.details.Extra, w.details.Placed = nil, nil, nil
	w.details.Refresh()
	w.focusBoard()
}

// typed does what a key does beside typing.
func (e *fieldEntry) typed(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		e.w.dropEntry()
		e.w.refresh()
	case fyne.KeyTab:
		e.w.submitEntry(true)
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF6:
		e.w.submitEntry(false)
		e.w.namedKey(k)
	default:
		return false
	}
	return true
}
