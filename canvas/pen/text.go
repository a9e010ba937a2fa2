package pen

import (
	"image/color"
	"sort"
	"strings"

	"kedge/solver/quantity"

	"golang.org/x/image/font/sfnt"
)

// Anchor says which point of a text's baseline its place is.
type Anchor uint8

const (
	Start Anchor = iota
	Middle
	End
)

// TextStyle is how a line of text is written. The zero value writes nothing.
type TextStyle struct {
	Size   float64 // of the em, pen units
	Bold   bool
	Colour color.NRGBA
	Anchor Anchor
	// RotateDeg turns the text about its place, counter-clockwise as seen.
	RotateDeg float64
	// Halo is an outline in the colour of the paper drawn under the text,
	// reaching HaloWidth beyond the letters; alpha or width 0 is no halo.
	Halo      color.NRGBA
	HaloWidth float64
}

func (t *TextStyle) haloed() bool { return t.Halo.A > 0 && t.HaloWidth > 0 && finite(t.HaloWidth) }

// Fitted is the text, or as much of it as fits into room with … behind.
func Fitted(text string, t *TextStyle, room float64) string {
	fits := func(s string) bool {
		w, _, _ := Measure(s, t)
		return w <= room
	}
	if fits(text) {
		return text
	}
	r := []rune(text)
	cut := func(n int) string { return strings.TrimRight(string(r[:n]), " ,·") + "…" }
	return cut(max(0, sort.Search(len(r)+1, func(n int) bool { return !fits(cut(n)) })-1))
}

// Measure returns the advance width of the text in pen units and how far the
// face reaches above and below the baseline (both positive, the same for every
// text). It is what every pen draws: no kerning, no hinting.
func Measure(text string, t *TextStyle) (width, ascent, descent float64) {
	f, err := faceOf(t.Bold)
	if err != nil {
		return 0, 0, 0
	}
	return f.width(text) * t.Size, f.ascent * t.Size, f.descent * t.Size
}

// CapHeight is the height of a capital letter in pen units: a text is centred
// on y when its baseline is at y + CapHeight/2.
func CapHeight(t *TextStyle) float64 {
	f, err := faceOf(t.Bold)
	if err != nil {
		return 0
	}
	return f.capital * t.Size
}

// width is the sum of the advances in em fractions.
func (f *face) width(text string) (w float64) {
	for _, c := range text {
		w += f.glyph(c).advance
	}
	return w
}

// startShift is where the text starts along its baseline, in em fractions.
func (f *face) startShift(text string, a Anchor) float64 {
	switch a {
	case Middle:
		return -f.width(text) / 2
	case End:
		return -f.width(text)
	}
	return 0
}

// TextPath appends the text's outlines to dst: what Text fills.
func TextPath(dst *Path, x, y float64, text string, t *TextStyle) error {
	f, err := faceOf(t.Bold)
	if err != nil {
		return err
	}
	var buf sfnt.Buffer
	sin, cos := quantity.Degrees(t.RotateDeg).SinCos()
	along := f.startShift(text, t.Anchor)
	for _, c := range text {
		g := f.glyph(c)
		m := Affine{A: cos * t.Size, B: -sin * t.Size, C: sin * t.Size, D: cos * t.Size,
			E: x + cos*along*t.Size, F: y - sin*along*t.Size}
		if err := f.addOutline(dst, &buf, g.id, m); err != nil {
			return err
		}
		along += g.advance
	}
	return nil
}
