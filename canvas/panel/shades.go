package panel

import (
	"image/color"

	"kedge/canvas/draw"
)

// Shades are the colours of the panels: those of the picture, and the grounds
// round it.
type Shades struct {
	draw.Colors
	Bar    color.NRGBA // menu bar, rail, status line
	Ground color.NRGBA // round the sheet
	Panel  color.NRGBA // behind cards and tables
	Card   color.NRGBA // cards, fields, the tab shown
	Edge   color.NRGBA // of cards and fields
	Meter  color.NRGBA // bar of a part within its limit
	Hover  color.NRGBA // over what is pointed at
}

// ShadesOf are the colours of a look.
func ShadesOf(look draw.Look) Shades {
	s := Shades{Colors: draw.Palette(look)}
	switch {
	case look.Field:
		s.Bar, s.Ground, s.Panel, s.Card = Hex(0xFFFFFF), Hex(0xFFFFFF), Hex(0xFFFFFF), Hex(0xFFFFFF)
		s.Edge, s.Meter, s.Hover = Hex(0x33383C), Hex(0xD4D8DA), Hex(0xE6E6E6)
	case look.Dark:
		s.Bar, s.Ground, s.Panel, s.Card = Hex(0x22282D), Hex(0x0E1113), Hex(0x1A1F23), Hex(0x242B30)
		s.Edge, s.Meter, s.Hover = Hex(0x7C8683), Hex(0x3A444B), Hex(0x2F383E)
	default:
		s.Bar, s.Ground, s.Panel, s.Card = Hex(0xE6E4D9), Hex(0xF1EEE6), Hex(0xF7F6F1), Hex(0xFFFFFF)
		s.Edge, s.Meter, s.Hover = Hex(0x8E8C7F), Hex(0xDFE0DC), Hex(0xEFEDE4)
	}
	return s
}
