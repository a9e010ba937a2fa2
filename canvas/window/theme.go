package window

import (
	"kedge/canvas/panel"
	"kedge/canvas/store"
	"os"

	"fyne.io/fyne/v2/theme"
)

// pickTheme sets light or dark: FYNE_THEME goes before what was chosen, that
// before what the desktop says.
func (w *Window) pickTheme() {
	switch os.Getenv("FYNE_THEME") {
	case "light":
		w.dark = false
	case "dark":
		w.dark = true
	default:
		switch w.prefs.Theme {
		case store.ThemeLight:
			w.dark = false
		case store.ThemeDark:
			w.dark = true
		default:
			w.dark = w.app.Settings().ThemeVariant() == theme.VariantDark
		}
	}
	w.applyTheme()
}

func (w *Window) applyTheme() {
	w.shades = panel.ShadesOf(w.look())
	w.app.Settings().SetTheme(&panel.Theme{Shades: w.shades, Text: float32(w.textScale())})
}

// setLook chooses light or dark, desk or field, for good.
func (w *Window) setLook(dark, field bool) {
	w.dark, w.field = dark, field
	w.prefs.Theme, w.prefs.TextSize = store.ThemeLight, store.TextDesk
	if dark {
		w.prefs.Theme = store.ThemeDark
	}
	if field {
		w.prefs.TextSize = store.TextField
	}
	w.keepPreferences()
	w.restyle()
}

// restyle draws everything anew in another look or size of text. The board
// shows the same place at the same scale: its room alone has changed.
func (w *Window) restyle() {
	was := w.board.View()
	w.applyTheme()
	w.refresh()
	v := w.board.View()
	if v.Middle != was.Middle || v.PerM != was.PerM {
		v.Middle, v.PerM = was.Middle, was.PerM
		w.board.SetView(v)
		w.refresh()
	}
}

func (w *Window) keepPreferences() {
	if err := w.store.SavePreferences(w.prefs); err != nil {
		w.refused(err)
	}
}
