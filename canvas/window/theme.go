package window

import (
	"image/color"
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"kedge/assets"
	"kedge/canvas/store"
)

// look of Fyne's own widgets, the colours of the panels.
type fyneTheme struct {
	shades shades
	k      float32
}

var (
	faceRegular = fyne.NewStaticResource("NotoSans-Regular.ttf", assets.FontRegular())
	faceBold    = fyne.NewStaticResource("NotoSans-Bold.ttf", assets.FontBold())
)

// Color implements fyne.Theme.
func (t *fyneTheme) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	s := &t.shades
	switch name {
	case theme.ColorNameBackground:
		return s.Ground
	case theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameInputBackground:
		return s.Card
	case theme.ColorNameButton:
		return s.Panel
	case theme.ColorNameForeground:
		return s.Ink
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return s.Quiet
	case theme.ColorNamePrimary, theme.ColorNameInputBorder:
		return s.Pick
	case theme.ColorNameHover:
		return s.Hover
	case theme.ColorNameFocus, theme.ColorNameSelection:
		c := s.Pick
		c.A = 0x50
		return c
	case theme.ColorNameSeparator:
		return s.GridBold
	}
	return theme.DefaultTheme().Color(name, v)
}

// Font implements fyne.Theme.
func (t *fyneTheme) Font(s fyne.TextStyle) fyne.Resource {
	if s.Symbol || s.Monospace {
		return theme.DefaultTheme().Font(s)
	}
	if s.Bold {
		return faceBold
	}
	return faceRegular
}

// Icon implements fyne.Theme.
func (t *fyneTheme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size implements fyne.Theme.
func (t *fyneTheme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return midPx * t.k
	case theme.SizeNameInnerPadding:
		return 5 * t.k
	case theme.SizeNamePadding:
		return 4
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameInlineIcon:
		return 16 * t.k
	}
	return theme.DefaultTheme().Size(n)
}

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
	w.shades = shadesOf(w.look())
	w.app.Settings().SetTheme(&fyneTheme{shades: w.shades, k: float32(w.textScale())})
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
		w.complain(store.Sentence(err))
	}
}
