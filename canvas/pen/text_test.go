package pen

import (
	"math"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// uiChars are the signs the board's texts use beyond ASCII.
const uiChars = "▲▸▾×°·±÷≤≥µμΩΩ–—…“”‘’½¼¾²³→−√§€äöüßéñøåŁžçΣαβΔдЖя ″′‰†‡•"

func TestEveryTextCharacterHasAGlyph(t *testing.T) {
	for _, bold := range []bool{false, true} {
		f, err := faceOf(bold)
		require.NoError(t, err)
		var buf sfnt.Buffer
		for _, c := range uiChars + Symbols {
			g := f.glyph(c)
			require.NotZero(t, g.id, "%q", c)
			require.Positive(t, g.advance, "%q", c)
			var p Path
			require.NoError(t, f.addOutline(&p, &buf, g.id, Identity()))
			require.Equal(t, unicode.IsSpace(c), p.Empty(), "%q", c)
			if !p.Empty() {
				box := p.Bounds()
				require.False(t, box.IsEmpty())
				// Inside the em's line: the highest accents reach 1.07, the
				// lowest tails 0.3 (head table of the font).
				require.Greater(t, box.Y.Lo, -1.1, "%q", c)
				require.Less(t, box.Y.Hi, 0.4, "%q", c)
				require.Greater(t, box.X.Lo, -0.2, "%q", c)
				require.Less(t, box.X.Hi, g.advance+0.2, "%q", c)
			}
		}
	}
}

// A drawn symbol must be wound like the font's letters, or the two would be
// each other's holes where they touch.
func TestSymbolsAreWoundLikeLetters(t *testing.T) {
	f, err := faceOf(false)
	require.NoError(t, err)
	var buf sfnt.Buffer
	winding := func(c rune) float64 {
		var p Path
		require.NoError(t, f.addOutline(&p, &buf, f.glyph(c).id, ScaleMove(100, 0, 0)))
		var flat flattener
		flat.add(&p, Identity(), 0.1)
		var area float64
		for _, k := range flat.contours {
			pts := flat.pts[k.from:k.to]
			for i, a := range pts {
				b := pts[(i+1)%len(pts)]
				area += (a.X*b.Y - b.X*a.Y) / 2
			}
		}
		return area
	}
	like := math.Signbit(winding('H'))
	for _, c := range Symbols {
		require.Equal(t, like, math.Signbit(winding(c)), "%q", c)
		require.Greater(t, math.Abs(winding(c)), 100.0, "%q", c) // more than a hundredth of an em²
	}
}

func TestAdvancesAreTheFontsOwn(t *testing.T) {
	// Read from the unmodified files by another reader than the cutter.
	for i := range 2 {
		orig, err := sfnt.Parse(source(t, i == 1))
		require.NoError(t, err)
		f, err := faceOf(i == 1)
		require.NoError(t, err)
		var buf sfnt.Buffer
		for c := rune(0x20); c < 0x530; c++ {
			id, err := orig.GlyphIndex(&buf, c)
			require.NoError(t, err)
			if id == 0 || c == 0x7F {
				continue
			}
			adv, err := orig.GlyphAdvance(&buf, id, fixed.I(1000), 0)
			require.NoError(t, err)
			if _, ok := f.chars[c]; ok {
				near(t, float64(adv)/64/1000, f.glyph(c).advance, 1e-9, "%q", c)
			}
		}
	}
}

func TestMeasure(t *testing.T) {
	// Advances in the hmtx table of Noto Sans 2.004: k 534, N 760, space 260
	// (regular), of 1000.
	w, up, down := Measure("k N", &TextStyle{Size: 10})
	near(t, 5.34+2.60+7.60, w, 1e-9)
	// hhea: ascender 1069, descender −293.
	near(t, 10.69, up, 1e-9)
	near(t, 2.93, down, 1e-9)
	// OS/2: sCapHeight 714.
	near(t, 7.14, CapHeight(&TextStyle{Size: 10}), 0.01)
	w, _, _ = Measure("", &TextStyle{Size: 10})
	require.Zero(t, w)
	a, _, _ := Measure("41.8 kN", &TextStyle{Size: 7})
	b, _, _ := Measure("41.8 kN", &TextStyle{Size: 14})
	near(t, 2*a, b, 1e-9)
}

func TestShownText(t *testing.T) {
	f, err := faceOf(false)
	require.NoError(t, err)
	for in, want := range map[string]string{
		"plain":  "plain",
		"a\tb\n": "a b ",
		"∑∆⋅":    "ΣΔ·",
		"世界😀":    "□□□", // no glyph: shown as missing, not left out
		"\xff":   "□",
	} {
		got := f.shown(in)
		if in == "\xff" && got == "\ufffd" {
			continue // the font may have the replacement character
		}
		require.Equal(t, want, got)
	}
	a, _, _ := Measure("世", &TextStyle{Size: 10})
	b, _, _ := Measure("□", &TextStyle{Size: 10})
	require.Equal(t, b, a)
}

// The anchor shifts the ink by the measured width, and turning turns it about
// the text's place.
func TestTextLandsWhereMeasured(t *testing.T) {
	const text = "41.8 kN ▲"
	style := TextStyle{Size: 15, Colour: black}
	width, _, _ := Measure(text, &style)
	centre := func(s TextStyle) (x, y float64) {
		img := drawn(t, 300, 300, 1, func(r *Raster) { r.Text(150, 150, text, &s) })
		return inkCentre(img)
	}
	x0, y0 := centre(style)
	for anchor, shift := range map[Anchor]float64{Middle: width / 2, End: width} {
		s := style
		s.Anchor = anchor
		x, y := centre(s)
		near(t, x0-shift, x, 0.5/haloSteps) // letters stand on a lattice within the pixel
		near(t, y0, y, 0.02)
	}
	for _, deg := range []float64{30, 90, 135, 180, -77} {
		s := style
		s.RotateDeg = deg
		sin, cos := math.Sincos(deg * math.Pi / 180)
		x, y := centre(s)
		dx, dy := x0-150, y0-150
		near(t, 150+dx*cos+dy*sin, x, 0.05)
		near(t, 150-dx*sin+dy*cos, y, 0.05)
	}
	large := style
	large.Size = 60
	small := drawn(t, 300, 300, 4, func(r *Raster) { r.Text(10, 40, "kN", &style) })
	big := drawn(t, 300, 300, 1, func(r *Raster) { r.Text(40, 160, "kN", &large) })
	require.LessOrEqual(t, mostDifferent(small, big), 2)
}

func TestLargeTextIsDrawnAsPaths(t *testing.T) {
	s := TextStyle{Size: maxCachedSizePx, Colour: black}
	a := inked(drawn(t, 500, 400, 1, func(r *Raster) { r.Text(10, 300, "kN", &s) }))
	s.Size *= 1.001 // just beyond the cache: area grows by the square
	b := inked(drawn(t, 500, 400, 1, func(r *Raster) { r.Text(10, 300, "kN", &s) }))
	near(t, a*1.001*1.001, b, a*1e-3)
}

func TestHaloReachesAroundLetters(t *testing.T) {
	// A halo of h round a dot-like stem I: stroke of 2h along its outline.
	plain := TextStyle{Size: 40, Colour: black}
	haloed := plain
	haloed.Halo, haloed.HaloWidth = black, 3
	var p Path
	require.NoError(t, TextPath(&p, 20, 60, "l", &plain))
	box := p.Bounds()
	require.False(t, box.IsEmpty())
	w, h := box.X.Length(), box.Y.Length() // an l is a rectangle
	a := inked(drawn(t, 60, 80, 1, func(r *Raster) { r.Text(20, 60, "l", &plain) }))
	near(t, w*h, a, levelTolerance)
	b := inked(drawn(t, 60, 80, 1, func(r *Raster) { r.Text(20, 60, "l", &haloed) }))
	near(t, w*h+2*3*(w+h)+math.Pi*9, b, strokeTolerance) // grown rectangle with round corners
}

func FuzzCutFont(f *testing.F) {
	small, err := cutFont(source(f, false), []rune("aä½▲"), drawnSymbols(symbolStem)[:2])
	require.NoError(f, err)
	f.Add(uint16(0), byte(0), uint16(0))
	f.Add(uint16(4), byte(255), uint16(100))
	for tag := 12; tag < 172; tag += 16 {
		f.Add(uint16(tag+8), byte(0x7F), uint16(0))
		f.Add(uint16(tag+12), byte(0xFF), uint16(tag))
	}
	f.Fuzz(func(t *testing.T, at uint16, value byte, cut uint16) {
		file := append([]byte(nil), small...)
		file[int(at)%len(file)] = value
		file = file[:len(file)-int(cut)%len(file)]
		out, err := cutFont(file, []rune("aä½"), nil)
		if err != nil {
			require.True(t, strings.HasPrefix(err.Error(), "pen: "), err.Error())
			return
		}
		require.NotEmpty(t, out)
	})
}
