package window

import (
	"image/color"

	"kedge/canvas/draw"
)

// shades are the colours of the panels: those of the picture, and the grounds
// round it.
type shades struct {
	draw.Colors
	Bar    color.NRGBA // menu bar, rail, status line
	Ground color.NRGBA // round the sheet
	Panel  color.NRGBA // behind cards and tables
	Card   color.NRGBA // cards, fields, the tab shown
	Edge   color.NRGBA // of cards and fields
	Meter  color.NRGBA // bar of a part within its limit
	Hover  color.NRGBA // over what is pointed at
}

func shadesOf(look draw.Look) shades {
	s := shades{Colors: draw.Palette(look)}
	switch {
	case look.Field:
		s.Bar, s.Ground, s.Panel, s.Card = hex(0xFFFFFF), hex(0xFFFFFF), hex(0xFFFFFF), hex(0xFFFFFF)
		s.Edge, s.Meter, s.Hover = hex(0x33383C), hex(0xD4D8DA), hex(0xE6E6E6)
	case look.Dark:
		s.Bar, s.Ground, s.Panel, s.Card = hex(0x22282D), hex(0x0E1113), hex(0x1A1F23), hex(0x242B30)
		s.Edge, s.Meter, s.Hover = hex(0x7C8683), hex(0x3A444B), hex(0x2F383E)
	default:
		s.Bar, s.Ground, s.Panel, s.Card = hex(0xE6E4D9), hex(0xF1EEE6), hex(0xF7F6F1), hex(0xFFFFFF)
		s.Edge, s.Meter, s.Hover = hex(0x8E8C7F), hex(0xDFE0DC), hex(0xEFEDE4)
	}
	return s
}
