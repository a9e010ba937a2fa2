package pen

import (
	"fmt"
	"slices"
	"sync"

	"github.com/golang/geo/r2"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"kedge/assets"
)

// Symbols are the characters Noto Sans lacks and this package draws, so that
// every pen shows them: triangles, marks, arrows and signs of the trade's
// texts. ∑ ∆ ⋅ are drawn like Σ Δ · of the font.
const Symbols = "▲△▼▽▴▾▸◂▶◀►◄●○◦■□☐−≤≥≠≈√∞∠⟂∥⌀∅→←↑↓↔✕⚠∑∆⋅"

// lookAlikes maps characters the font lacks to one it has of the same shape.
var lookAlikes = [...]struct{ char, like rune }{{'∑', 'Σ'}, {'∆', 'Δ'}, {'⋅', '·'}}

// face is one weight of the embedded font; read-only.
type face struct {
	file    []byte // TrueType, as embedded into PDF
	outline *sfnt.Font
	em      float64
	ascii   [128]faceGlyph
	chars   map[rune]faceGlyph
	ascent  float64 // em fractions, descent positive downwards
	descent float64
	capital float64
}

type faceGlyph struct {
	id      sfnt.GlyphIndex
	advance float64 // em fractions
}

// faceRanges are the characters kept: Latin with its extensions A and B,
// Greek, Cyrillic, punctuation, super- and subscripts, currency, letterlike
// signs and fractions, and the replacement character.
var faceRanges = [...][2]rune{
	{0x20, 0x7E}, {0xA0, 0x24F}, {0x2B0, 0x36F}, {0x370, 0x3FF}, {0x400, 0x52F},
	{0x1E00, 0x1EFF}, {0x2000, 0x20BF}, {0x2100, 0x218F},
}

// faces reads both weights once: a pure function of the embedded files.
var faces = sync.OnceValues(func() (*[2]face, error) {
	var both [2]face
	for i, src := range [2][]byte{assets.FontRegular(), assets.FontBold()} {
		if err := both[i].build(src); err != nil {
			return nil, fmt.Errorf("pen: embedded font %d: %w", i, err)
		}
	}
	return &both, nil
})

func faceOf(bold bool) (*face, error) {
	both, err := faces()
	if err != nil {
		return nil, err
	}
	if bold {
		return &both[1], nil
	}
	return &both[0], nil
}

// faceChars are the characters of [faceRanges].
func faceChars() []rune {
	var all []rune
	for _, r := range faceRanges {
		for c := r[0]; c <= r[1]; c++ {
			all = append(all, c)
		}
	}
	return all
}

func (f *face) build(file []byte) (err error) {
	f.file = file
	if f.outline, err = sfnt.Parse(file); err != nil {
		return err
	}
	f.em = float64(f.outline.UnitsPerEm())
	var buf sfnt.Buffer
	unit := fixed.I(int(f.em)) // one pixel to the font unit
	keep := append(faceChars(), []rune(Symbols)...)
	f.chars = make(map[rune]faceGlyph, len(keep))
	slices.Sort(keep)
	for _, c := range keep {
		like := c
		for _, a := range lookAlikes {
			if a.char == c {
				like = a.like
			}
		}
		id, err := f.outline.GlyphIndex(&buf, like)
		if err != nil || id == 0 {
			continue
		}
		adv, err := f.outline.GlyphAdvance(&buf, id, unit, 0)
		if err != nil {
			return err
		}
		g := faceGlyph{id, float64(adv) / 64 / f.em}
		f.chars[c] = g
		if c < 128 {
			f.ascii[c] = g
		}
	}
	m, err := f.outline.Metrics(&buf, unit, 0)
	if err != nil {
		return err
	}
	f.ascent, f.descent = float64(m.Ascent)/64/f.em, float64(m.Descent)/64/f.em
	f.capital = float64(m.CapHeight) / 64 / f.em
	return nil
}

// missingChar stands for a character the font has no glyph for.
const missingChar = '□'

// shown is the text as every pen draws it: control characters become spaces,
// look-alikes their likeness, characters without a glyph missingChar.
func (f *face) shown(text string) string {
	plain := true
	for _, c := range text {
		if f.shownChar(c) != c {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	out := make([]rune, 0, len(text))
	for _, c := range text {
		out = append(out, f.shownChar(c))
	}
	return string(out)
}

func (f *face) shownChar(c rune) rune {
	if c < 0x20 || c == 0x7F {
		return ' '
	}
	if c < 0x7F {
		return c
	}
	for _, a := range lookAlikes {
		if a.char == c {
			return a.like
		}
	}
	if _, ok := f.chars[c]; ok {
		return c
	}
	return missingChar
}

func (f *face) glyph(c rune) faceGlyph {
	c = f.shownChar(c)
	if c < 128 {
		return f.ascii[c]
	}
	return f.chars[c]
}

// addOutline appends the glyph's outline mapped by m, which takes em fractions
// (y down, baseline at 0) to pen units.
func (f *face) addOutline(dst *Path, buf *sfnt.Buffer, id sfnt.GlyphIndex, m Affine) error {
	segs, err := f.outline.LoadGlyph(buf, id, fixed.I(int(f.em)), nil)
	if err != nil {
		return fmt.Errorf("pen: glyph %d: %w", id, err)
	}
	at := func(p fixed.Point26_6) r2.Point {
		return m.Apply(r2.Point{X: float64(p.X) / 64 / f.em, Y: float64(p.Y) / 64 / f.em})
	}
	for i, s := range segs {
		p := at(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				dst.Close()
			}
			dst.MoveTo(p.X, p.Y)
		case sfnt.SegmentOpLineTo:
			dst.LineTo(p.X, p.Y)
		case sfnt.SegmentOpQuadTo:
			q := at(s.Args[1])
			dst.QuadTo(p.X, p.Y, q.X, q.Y)
		case sfnt.SegmentOpCubeTo:
			q, r := at(s.Args[1]), at(s.Args[2])
			dst.CubeTo(p.X, p.Y, q.X, q.Y, r.X, r.Y)
		}
	}
	if len(segs) > 0 {
		dst.Close()
	}
	return nil
}
