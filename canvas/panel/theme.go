package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"kedge/assets"
)

// Theme gives Fyne's own widgets the colours, letters and sizes of the panels.
type Theme struct {
	Shades Shades
	Text   float32 // scale of text and what goes with it
}

var (
	faceRegular = fyne.NewStaticResource("KedgeSans-Regular.ttf", assets.FontRegular())
	faceBold    = fyne.NewStaticResource("KedgeSans-Bold.ttf", assets.FontBold())
)

// Color implements fyne.Theme.
func (t *Theme) Color(name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	s := &t.Shades
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
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	if s.Symbol || s.Monospace {
		return theme.DefaultTheme().Font(s)
	}
	if s.Bold {
		return faceBold
	}
	return faceRegular
}

// Icon implements fyne.Theme.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(n) }

// Size implements fyne.Theme.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return midPx * t.Text
	case theme.SizeNameInnerPadding:
		return 5 * t.Text
	case theme.SizeNamePadding:
		return 4
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameInlineIcon:
		return 16 * t.Text
	}
	return theme.DefaultTheme().Size(n)
}
