package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Entry is a text that is typed. Undo, copy and their kin are its own.
type Entry struct {
	widget.Entry
	Keys      func(fyne.KeyName) bool // takes a key before the entry does; false: it is the entry's
	Shortcuts func(fyne.Shortcut)     // does what is not the entry's own; nil: that waits
}

// NewEntry is an entry that says hint while nothing is in it.
func NewEntry(hint string, keys func(fyne.KeyName) bool) *Entry {
	e := &Entry{Keys: keys}
	e.ExtendBaseWidget(e)
	e.SetPlaceHolder(hint)
	return e
}

// Lay lays an entry over a hit and keeps it there, as high as its lines; gone is called when
// that hit is drawn no more.
func (p *Pane) Lay(e *Entry, id string, gone func()) {
	p.Extra, p.Placed = []fyne.CanvasObject{e}, func() {
		i := p.Find(id)
		if i < 0 {
			gone()
			return
		}
		h := p.Hits[i]
		high := float32(h.Y1 - h.Y0)
		if e.MultiLine {
			high = e.MinSize().Height
		}
		e.Move(fyne.NewPos(float32(h.X0), float32(h.Y0)))
		e.Resize(fyne.NewSize(float32(h.X1-h.X0), high))
	}
	p.Placed()
	p.Refresh()
}

// Lift takes away what was laid over the pane.
func (p *Pane) Lift() {
	p.Extra, p.Placed = nil, nil
	p.Refresh()
}

// TypedKey implements fyne.Focusable.
func (e *Entry) TypedKey(k *fyne.KeyEvent) {
	if !e.Keys(k.Name) {
		e.Entry.TypedKey(k)
	}
}

// AcceptsTab implements fyne.Tabbable.
func (e *Entry) AcceptsTab() bool { return true }

// TypedShortcut implements fyne.Shortcutable.
func (e *Entry) TypedShortcut(s fyne.Shortcut) {
	if _, other := s.(*desktop.CustomShortcut); !other {
		e.Entry.TypedShortcut(s)
	} else if e.Shortcuts != nil {
		e.Shortcuts(s)
	}
}
