package draw

import (
	"image/color"

	"kedge/solver/part"
)

// Colors are all colours of a picture under one look. Signal colours stand for
// levels and for nothing else: in light they are those of ISO 3864, in dark
// lighter ones of the same names.
type Colors struct {
	Paper, Ink, Quiet  color.NRGBA // ground, text and outlines, secondary text
	GridFine, GridBold color.NRGBA
	Body, Glass        color.NRGBA // of vehicles
	Wood, Stone        color.NRGBA // cut trunks, boulders
	Water              color.NRGBA // faint fill of other obstacles
	Core               color.NRGBA // of a line within its limit, between ink edges
	Pick               color.NRGBA // selection, guides, what is under construction; no signal colour

	Danger, Warning, Caution, Notice         color.NRGBA
	OnDanger, OnWarning, OnCaution, OnNotice color.NRGBA // text on them
	NearCore, OverCore, OverMark             color.NRGBA // of lines near and over their limit
	ZoneRed, ZoneOrange                      color.NRGBA // edges and hatches of zones
	ZoneRedText, ZoneOrangeText              color.NRGBA // their words on paper
}

// Level is the colour of a level, and of text on it.
func (c *Colors) Level(l part.Level) (fill, text color.NRGBA) {
	switch l {
	case part.Notice:
		return c.Notice, c.OnNotice
	case part.Caution:
		return c.Caution, c.OnCaution
	case part.Warning:
		return c.Warning, c.OnWarning
	}
	return c.Danger, c.OnDanger
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// Palette is the colours of a look. Print wins over Field, Field over Dark.
func Palette(l Look) Colors {
	switch {
	case l.Print && l.Color:
		return printedColors()
	case l.Print:
		return printColors()
	case l.Field:
		c := lightColors()
		c.Paper, c.Ink, c.Quiet = rgb(0xFFFFFF), rgb(0x000000), rgb(0x33383C)
		c.Body, c.Glass, c.Stone, c.Water, c.Wood = c.Paper, c.Paper, c.Paper, c.Paper, c.Paper
		c.Core = rgb(0xB4BBC0)
		return c
	case l.Dark:
		return darkColors()
	}
	return lightColors()
}

func lightColors() Colors {
	white, black := rgb(0xFFFFFF), rgb(0x000000)
	return Colors{
		Paper: rgb(0xFBFAF6), Ink: rgb(0x20262B), Quiet: rgb(0x5C5C54),
		GridFine: rgb(0xF1EEE6), GridBold: rgb(0xE0DCCF),
		Body: white, Glass: rgb(0xDDE3E6), Wood: rgb(0xE2D9C4), Stone: rgb(0xE9E6DB), Water: rgb(0xEFEDE6),
		Core: rgb(0xC9CDD0), Pick: rgb(0x6A3F9E),
		Danger: rgb(0x9B2423), Warning: rgb(0xD05D29), Caution: rgb(0xF9A800), Notice: rgb(0x005387),
		OnDanger: white, OnWarning: black, OnCaution: black, OnNotice: white,
		NearCore: rgb(0xF9A800), OverCore: rgb(0x9B2423), OverMark: white,
		ZoneRed: rgb(0x9B2423), ZoneOrange: rgb(0xD05D29),
		ZoneRedText: rgb(0x9B2423), ZoneOrangeText: rgb(0x8F3D16),
	}
}

func darkColors() Colors {
	paper := rgb(0x14181B)
	red, orange, yellow, blue := rgb(0xF2706B), rgb(0xF08A4B), rgb(0xFFC233), rgb(0x6DB3E8)
	return Colors{
		Paper: paper, Ink: rgb(0xE9ECEA), Quiet: rgb(0xA9B0AE),
		GridFine: rgb(0x1B2024), GridBold: rgb(0x2A3137),
		Body: rgb(0x262D32), Glass: rgb(0x46525A), Wood: rgb(0x4A4335), Stone: rgb(0x2B2F2E), Water: rgb(0x1C2226),
		Core: rgb(0x566067), Pick: rgb(0xC3A6F5),
		Danger: red, Warning: orange, Caution: yellow, Notice: blue,
		OnDanger: paper, OnWarning: paper, OnCaution: paper, OnNotice: paper,
		NearCore: yellow, OverCore: red, OverMark: paper,
		ZoneRed: red, ZoneOrange: orange, ZoneRedText: red, ZoneOrangeText: orange,
	}
}

// printColors copy in black and white: level and state are told by pattern,
// word and triangle.
func printColors() Colors {
	white, black, grey := rgb(0xFFFFFF), rgb(0x000000), rgb(0x3C3C3C)
	return Colors{
		Paper: white, Ink: black, Quiet: grey,
		GridFine: rgb(0xEDEDED), GridBold: rgb(0xD8D8D8),
		Body: white, Glass: rgb(0xE4E4E4), Wood: white, Stone: white, Water: white,
		Core: rgb(0xC8C8C8), Pick: black,
		Danger: black, Warning: white, Caution: white, Notice: white,
		OnDanger: white, OnWarning: black, OnCaution: black, OnNotice: black,
		NearCore: white, OverCore: black, OverMark: white,
		ZoneRed: black, ZoneOrange: black, ZoneRedText: black, ZoneOrangeText: black,
	}
}

// printedColors are those of a sheet in colour: the signal colours on white paper, all
// else as in black and white.
func printedColors() Colors {
	c, l := printColors(), lightColors()
	c.Danger, c.Warning, c.Caution, c.Notice = l.Danger, l.Warning, l.Caution, l.Notice
	c.OnDanger, c.OnWarning, c.OnCaution, c.OnNotice = l.OnDanger, l.OnWarning, l.OnCaution, l.OnNotice
	c.NearCore, c.OverCore, c.OverMark = l.NearCore, l.OverCore, l.OverMark
	c.ZoneRed, c.ZoneOrange, c.ZoneRedText, c.ZoneOrangeText = l.ZoneRed, l.ZoneOrange, l.ZoneRedText, l.ZoneOrangeText
	return c
}

// inkOn is ink or paper, whichever is darker: on the bright signal colours
// light ink would not be seen.
func (c *Colors) inkOn(on color.NRGBA) color.NRGBA {
	if Contrast(c.Ink, on) >= Contrast(c.Paper, on) {
		return c.Ink
	}
	return c.Paper
}
