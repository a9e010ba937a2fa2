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
func (dp *detailsPanel) openEntry(thing plan.ID, f form.Field) {
	dp.closeEntry()
	hint := f.Unit
	if f.Member == memberName {
		hint = dp.called(thing, dp.w.names())
	}
	e := &fieldEntry{w: dp.w, where: fieldAt{thing: thing, member: f.Member}, was: f.Value, lines: f.Kind == form.KindLines}
	e.Entry = panel.NewEntry(hint, e.typed)
	e.MultiLine = e.lines
	e.Wrapping = fyne.TextWrapOff
	e.Scroll = fyne.ScrollNone
	e.Shortcuts = dp.w.commands.shortcut
	e.SetText(f.Value)
	e.OnSubmitted = func(string) { dp.submitEntry(false) }
	dp.entry = e
	dp.pane.Extra = []fyne.CanvasObject{e.Entry}
	dp.pane.Placed = dp.placeEntry
	dp.placeEntry()
	dp.pane.Refresh()
	dp.w.win.Canvas().Focus(e.Entry)
	e.TypedShortcut(&fyne.ShortcutSelectAll{})
}

// placeEntry keeps the entry over its field.
func (dp *detailsPanel) placeEntry() {
	e := dp.entry
	if e == nil {
		return
	}
	i := dp.pane.Find("field " + e.where.member)
	if i < 0 { // another thing is shown by now
		dp.dropEntry()
		return
	}
	h := dp.pane.Hits[i]
	high := float32(h.Y1 - h.Y0)
	if e.lines {
		high = e.MinSize().Height
	}
	e.Move(fyne.NewPos(float32(h.X0), float32(h.Y0)))
	e.Resize(fyne.NewSize(float32(h.X1-h.X0), high))
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
	id := "field " + e.where.member
	dp.dropEntry()
	dp.pane.Focus = id
	dp.w.win.Canvas().Focus(dp.pane)
	dp.w.refresh()
	if next && dp.pane.Step(1) {
		dp.pane.Press(dp.pane.Find(dp.pane.Focus))
	}
}

// closeEntry takes what was typed when something else is pressed; a refused
// text is dropped, and the status line has said why.
func (dp *detailsPanel) closeEntry() {
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
	dp.entry, dp.pane.Extra, dp.pane.Placed = nil, nil, nil
	dp.pane.Refresh()
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
