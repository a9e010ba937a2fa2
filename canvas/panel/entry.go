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
