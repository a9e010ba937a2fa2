package draw_test

import (
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/draw"
)

func TestContrast(t *testing.T) {
	white, black := color.NRGBA{R: 255, G: 255, B: 255, A: 255}, color.NRGBA{A: 255}
	assert.InDelta(t, 21, draw.Contrast(white, black), 1e-9) // WCAG 2.1: from 1 to 21
	assert.InDelta(t, 1, draw.Contrast(white, white), 1e-9)
	grey := color.NRGBA{R: 0x76, G: 0x76, B: 0x76, A: 255}
	assert.InDelta(t, 4.54, draw.Contrast(white, grey), 0.005) // #767676: the well-known lightest grey for text on white
}

var looks = map[string]draw.Look{"light": {}, "dark": {Dark: true}, "field": {Field: true}, "print": {Print: true}, "print in colour": {Print: true, Color: true}, "dark sheet": {Dark: true, Print: true}}

func TestEveryPairOfColoursHasItsContrast(t *testing.T) {
	for name, look := range looks {
		c := draw.Palette(look)
		for _, p := range c.Pairs() {
			assert.GreaterOrEqual(t, draw.Contrast(p.A, p.B), p.Least, "%s: %s, %v on %v", name, p.What, p.A, p.B)
		}
	}
}

func TestSignalColoursAreThoseOfTheStandard(t *testing.T) {
	hex := func(c color.NRGBA) uint32 { return uint32(c.R)<<16 | uint32(c.G)<<8 | uint32(c.B) }
	l, d := draw.Palette(draw.Look{}), draw.Palette(draw.Look{Dark: true})
	p := draw.Palette(draw.Look{Print: true, Color: true})
	assert.Equal(t, []uint32{0x9B2423, 0xD05D29, 0xF9A800, 0x005387}, []uint32{hex(p.Danger), hex(p.Warning), hex(p.Caution), hex(p.Notice)})
	// ISO 3864-4, and its lighter ones for dark.
	assert.Equal(t, []uint32{0x9B2423, 0xD05D29, 0xF9A800, 0x005387}, []uint32{hex(l.Danger), hex(l.Warning), hex(l.Caution), hex(l.Notice)})
	assert.Equal(t, []uint32{0xF2706B, 0xF08A4B, 0xFFC233, 0x6DB3E8}, []uint32{hex(d.Danger), hex(d.Warning), hex(d.Caution), hex(d.Notice)})
	assert.Equal(t, uint32(0x14181B), hex(d.Paper))
	assert.Equal(t, uint32(0xE9ECEA), hex(d.Ink))
}

func TestThingsHaveNoSignalColour(t *testing.T) {
	for name, look := range looks {
		if look.Print && !look.Color {
			continue // black and white only
		}
		c := draw.Palette(look)
		signal := []color.NRGBA{c.Danger, c.Warning, c.Caution, c.Notice}
		for _, thing := range []color.NRGBA{c.Paper, c.Ink, c.Quiet, c.Body, c.Glass, c.Wood, c.Stone, c.Water, c.Core, c.Pick} {
			assert.NotContains(t, signal, thing, name)
		}
	}
}

func TestPrintIsBlackAndWhite(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1000, 700)
	s.Look.Print = true
	r := record(t, s, draw.Draw)
	for i := range r.Marks {
		m := &r.Marks[i]
		for _, c := range []color.NRGBA{m.Style.Fill, m.Style.Stroke, m.Type.Colour} {
			assert.True(t, c.R == c.G && c.G == c.B, "%v", c)
		}
	}
}
