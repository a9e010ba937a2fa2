package window

import (
	"strings"

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

// over is where a field is drawn: what is pressed there, in which pane.
type over struct {
	pane *panel.Pane
	id   string
}

// fieldEntry is the entry laid over a field, of Details or of a card.
type fieldEntry struct {
	*panel.Entry
	over
	w     *Window
	where fieldAt
	was   string
}

func (e *fieldEntry) at() fieldAt {
	if e == nil {
		return fieldAt{}
	}
	return e.where
}

// openEntry lays an entry over a field and gives it the keys.
func (dp *detailsPanel) openEntry(at over, thing plan.ID, f form.Field) {
	dp.closeEntry()
	hint := f.Unit
	if f.Member == memberName {
		hint = dp.called(thing, dp.w.names())
	}
	e := &fieldEntry{over: at, w: dp.w, where: fieldAt{thing: thing, member: f.Member}, was: f.Value}
	e.Entry = dp.w.newEntry(hint, e.typed)
	e.MultiLine = f.Kind == form.KindLines
	e.SetText(f.Value)
	e.OnSubmitted = func(string) { dp.submitEntry(false) }
	dp.entry = e
	dp.w.lay(e.Entry, at, dp.dropEntry) // gone: another thing is shown by now
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// newEntry is an entry to be laid over a field: nothing in it is scrolled or wrapped.
func (w *Window) newEntry(hint string, keys func(fyne.KeyName) bool) *panel.Entry {
	e := panel.NewEntry(hint, keys)
	e.Scroll, e.Wrapping, e.Shortcuts = fyne.ScrollNone, fyne.TextWrapOff, w.commands.shortcut
	return e
}

// lay lays an entry over what is pressed there, and gives it the keys.
func (w *Window) lay(e *panel.Entry, at over, gone func()) {
	at.pane.Lay(e, at.id, gone)
	w.win.Canvas().Focus(e)
}

// submitEntry takes what was typed; a refused text stays, with the reason
// below it. next: go on to the next field.
func (dp *detailsPanel) submitEntry(next bool) {
	e := dp.entry
	if e == nil {
		return
	}
	if e.Text != e.was && !dp.set(e.where.thing, e.where.member, e.Text) {
		e.where.fault = dp.w.board.Prompt()
		dp.w.refresh()
		return
	}
	follows := ""
	if e.pane.Focus = e.id; next && e.pane.Step(1) {
		follows, e.pane.Focus = e.pane.Focus, e.id // the row may be gone once it is answered
	}
	dp.dropEntry()
	dp.w.win.Canvas().Focus(e.pane)
	dp.w.refresh()
	if i := e.pane.Find(follows); follows != "" && i >= 0 {
		if e.pane.Focus = follows; !strings.HasPrefix(follows, foldRow) {
			e.pane.Press(i)
		}
	}
}

// closeEntry takes what was typed when something else is pressed; a refused
// text is dropped, and the status line has said why.
func (dp *detailsPanel) closeEntry() {
	dp.w.outcome.closeEntry()
	if e := dp.entry; e != nil {
		if e.Text != e.was {
			dp.set(e.where.thing, e.where.member, e.Text)
		}
		dp.dropEntry()
	}
}

func (dp *detailsPanel) dropEntry() {
	if dp.entry == nil {
		return
	}
	at := dp.entry.pane
	dp.entry = nil
	at.Lift()
	dp.w.focusBoard()
}

// typed does what a key does beside typing.
func (e *fieldEntry) typed(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		e.w.details.dropEntry()
		e.w.refresh()
	case fyne.KeyTab:
		e.w.details.submitEntry(true)
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF6:
		e.w.details.submitEntry(false)
		e.w.commands.namedKey(k)
	default:
		return false
	}
	return true
}
