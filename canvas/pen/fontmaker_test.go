package pen

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"

	"kedge/assets"
)

// This file makes the faces that are embedded: the ranges of Noto Sans, and the
// symbols it lacks drawn here.

// source is a face of Noto Sans as it came.
func source(t testing.TB, bold bool) []byte {
	t.Helper()
	name := "NotoSans-Regular.ttf"
	if bold {
		name = "NotoSans-Bold.ttf"
	}
	file, err := os.ReadFile(filepath.Join("..", "..", "assets", "fonts", name))
	require.NoError(t, err)
	return file
}

// The embedded faces are those that are made of Noto Sans; -update makes them
// (go run ./cmd/dev fonts).
func TestFontsAreMade(t *testing.T) {
	for _, f := range []struct {
		name string
		bold bool
		stem float64
		has  []byte
	}{{"KedgeSans-Regular.ttf", false, symbolStem, assets.FontRegular()}, {"KedgeSans-Bold.ttf", true, symbolStemFat, assets.FontBold()}} {
		made, err := cutFont(source(t, f.bold), faceChars(), drawnSymbols(f.stem))
		require.NoError(t, err)
		if *update {
			require.NoError(t, os.WriteFile(filepath.Join("..", "..", "assets", "fonts", f.name), made, 0o644))
			continue
		}
		require.True(t, string(made) == string(f.has), "%s is not what is made now: go run ./cmd/dev fonts", f.name)
	}
}

// Proportions of the symbols in font units (1000 to the em, y up), fitted to
// Noto Sans by eye: its capitals are 714 high, its plus is centred at 357.
const (
	symbolAxis    = 357 // height of the middle of plus, minus, equals
	symbolCap     = 714
	symbolStem    = 72  // width of a line in the regular face
	symbolStemFat = 128 // in the bold face
)

// drawnGlyph is a glyph made here. Contours run clockwise (y up) for ink,
// counter-clockwise for holes; all points lie on the outline.
type drawnGlyph struct {
	char     rune
	advance  int
	contours [][]r2.Point
}

// encode writes the glyph as a simple TrueType outline.
func (d drawnGlyph) encode() addedGlyph {
	g := addedGlyph{char: d.char, rawGlyph: rawGlyph{advance: uint16(d.advance)}}
	type xy struct{ x, y int }
	var pts []xy
	var ends []int
	for _, c := range d.contours {
		for _, p := range c {
			pts = append(pts, xy{int(math.Round(p.X)), int(math.Round(p.Y))})
		}
		ends = append(ends, len(pts)-1)
	}
	if len(pts) == 0 {
		return g
	}
	lo, hi := pts[0], pts[0]
	for _, p := range pts {
		lo.x, lo.y = min(lo.x, p.x), min(lo.y, p.y)
		hi.x, hi.y = max(hi.x, p.x), max(hi.y, p.y)
	}
	g.bearing = int16(lo.x)
	word := func(v int) { g.data = be.AppendUint16(g.data, uint16(int16(v))) }
	for _, v := range []int{len(ends), lo.x, lo.y, hi.x, hi.y} {
		word(v)
	}
	for _, e := range ends {
		word(e)
	}
	word(0) // no hinting
	for range pts {
		g.data = append(g.data, 1) // on the outline, both deltas as words
	}
	prev := xy{}
	for _, p := range pts {
		word(p.x - prev.x)
		prev = p
	}
	prev = xy{}
	for _, p := range pts {
		word(p.y - prev.y)
		prev = p
	}
	return g
}

// glyphs gathers what is drawn.
type glyphs []addedGlyph

func (g *glyphs) add(char rune, advance int, contours ...[]r2.Point) {
	*g = append(*g, drawnGlyph{char, advance, contours}.encode())
}

// drawnSymbols makes the glyphs of Symbols for a face whose lines are stem
// wide, the three look-alikes excepted.
func drawnSymbols(stem float64) []addedGlyph {
	var g glyphs
	g.shapes(stem)
	g.signs(stem)
	return g
}

func (g *glyphs) shapes(stem float64) {
	const ax = symbolAxis
	// A hollow triangle's inner edge lies a stem inside on all three sides.
	slant := math.Hypot(350, symbolCap) / 350 // apex inset per stem: 1/sin(half apex angle)
	inHeight := symbolCap - stem - stem*slant
	inHalf := inHeight * 350 / symbolCap
	g.add('▲', 800, up(400, 0, 350, symbolCap))
	g.add('△', 800, up(400, 0, 350, symbolCap), reversed(up(400, stem, inHalf, inHeight)))
	g.add('▼', 800, down(400, symbolCap, 350, symbolCap))
	g.add('▽', 800, down(400, symbolCap, 350, symbolCap), reversed(down(400, symbolCap-stem, inHalf, inHeight)))
	g.add('▴', 600, up(300, ax-190, 230, 380))
	g.add('▾', 600, down(300, ax+190, 230, 380))
	g.add('▸', 520, right(80, ax, 230, 380))
	g.add('◂', 520, left(60, ax, 230, 380))
	for _, c := range "▶►" {
		g.add(c, 760, right(80, ax, 340, 620))
	}
	for _, c := range "◀◄" {
		g.add(c, 760, left(60, ax, 340, 620))
	}
	g.add('●', 760, disc(380, ax, 300))
	g.add('○', 760, disc(380, ax, 300), reversed(disc(380, ax, 300-stem)))
	g.add('◦', 420, disc(210, ax, 140), reversed(disc(210, ax, 140-stem*0.8)))
	g.add('■', 760, box(90, ax-290, 670, ax+290))
	for _, c := range "□☐" {
		g.add(c, 760, box(90, ax-290, 670, ax+290), reversed(box(90+stem, ax-290+stem, 670-stem, ax+290-stem)))
	}
}

func (g *glyphs) signs(stem float64) {
	const ax = symbolAxis
	// Signs, on the plus's width of 572.
	bar := func(y float64) []r2.Point { return box(50, y-stem/2, 522, y+stem/2) }
	g.add('−', 572, bar(ax))
	g.add('≤', 572, thick(stem, r2.Point{X: 510, Y: 640}, r2.Point{X: 70, Y: 420}, r2.Point{X: 510, Y: 200}), bar(stem/2))
	g.add('≥', 572, thick(stem, r2.Point{X: 62, Y: 640}, r2.Point{X: 502, Y: 420}, r2.Point{X: 62, Y: 200}), bar(stem/2))
	g.add('≠', 572, bar(ax+110), bar(ax-110), thick(stem, r2.Point{X: 170, Y: 80}, r2.Point{X: 402, Y: 634}))
	wave := func(y float64) []r2.Point {
		var pts []r2.Point
		for i := range 13 {
			t := float64(i) / 12
			pts = append(pts, r2.Point{X: 50 + 472*t, Y: y + 55*math.Sin(2*math.Pi*t)})
		}
		return thick(stem, pts...)
	}
	g.add('≈', 572, wave(ax+105), wave(ax-105))
	g.add('√', 620, thick(stem, r2.Point{X: 30, Y: 380}, r2.Point{X: 130, Y: 420}, r2.Point{X: 270, Y: 40}, r2.Point{X: 440, Y: 800}, r2.Point{X: 600, Y: 800}))
	g.add('∞', 860,
		disc(245, ax, 185), reversed(disc(245, ax, 185-stem)),
		disc(615, ax, 185), reversed(disc(615, ax, 185-stem)))
	g.add('∠', 640, thick(stem, r2.Point{X: 500, Y: 640}, r2.Point{X: 90, Y: 40}, r2.Point{X: 590, Y: 40}))
	g.add('⟂', 660, box(60, 0, 600, stem), box(330-stem/2, 0, 330+stem/2, symbolCap))
	g.add('∥', 440, box(140-stem/2, -20, 140+stem/2, 734), box(300-stem/2, -20, 300+stem/2, 734))
	for _, c := range "⌀∅" {
		g.add(c, 760, disc(380, ax, 290), reversed(disc(380, ax, 290-stem)),
			thick(stem*0.9, r2.Point{X: 120, Y: 60}, r2.Point{X: 640, Y: 654}))
	}
	g.add('→', 1000, box(60, ax-stem/2, 900, ax+stem/2), thick(stem, r2.Point{X: 680, Y: ax + 240}, r2.Point{X: 910, Y: ax}, r2.Point{X: 680, Y: ax - 240}))
	g.add('←', 1000, box(100, ax-stem/2, 940, ax+stem/2), thick(stem, r2.Point{X: 320, Y: ax - 240}, r2.Point{X: 90, Y: ax}, r2.Point{X: 320, Y: ax + 240}))
	g.add('↔', 1000, box(100, ax-stem/2, 900, ax+stem/2),
		thick(stem, r2.Point{X: 680, Y: ax + 240}, r2.Point{X: 910, Y: ax}, r2.Point{X: 680, Y: ax - 240}),
		thick(stem, r2.Point{X: 320, Y: ax - 240}, r2.Point{X: 90, Y: ax}, r2.Point{X: 320, Y: ax + 240}))
	g.add('↑', 620, box(310-stem/2, -40, 310+stem/2, 740), thick(stem, r2.Point{X: 70, Y: 520}, r2.Point{X: 310, Y: 750}, r2.Point{X: 550, Y: 520}))
	g.add('↓', 620, box(310-stem/2, -20, 310+stem/2, 760), thick(stem, r2.Point{X: 550, Y: 200}, r2.Point{X: 310, Y: -30}, r2.Point{X: 70, Y: 200}))
	g.add('✕', 700, thick(stem, r2.Point{X: 90, Y: 90}, r2.Point{X: 610, Y: 624}), thick(stem, r2.Point{X: 90, Y: 624}, r2.Point{X: 610, Y: 90}))
	sign := math.Min(stem, 84) // a fatter one would close the triangle
	g.add('⚠', 860,
		up(430, 0, 400, 740), reversed(up(430, sign*0.8, 400-sign*1.55, 740-sign*2.5)),
		box(430-sign*0.5, 220, 430+sign*0.5, 450), box(430-sign*0.5, 100, 430+sign*0.5, 100+sign))
}

// Triangles, by where they point.

func up(cx, base, half, height float64) []r2.Point {
	return []r2.Point{{X: cx - half, Y: base}, {X: cx, Y: base + height}, {X: cx + half, Y: base}}
}

func down(cx, top, half, height float64) []r2.Point {
	return []r2.Point{{X: cx - half, Y: top}, {X: cx + half, Y: top}, {X: cx, Y: top - height}}
}

func right(x, cy, half, length float64) []r2.Point {
	return []r2.Point{{X: x, Y: cy - half}, {X: x, Y: cy + half}, {X: x + length, Y: cy}}
}

func left(x, cy, half, length float64) []r2.Point {
	return []r2.Point{{X: x + length, Y: cy - half}, {X: x, Y: cy}, {X: x + length, Y: cy + half}}
}

func reversed(c []r2.Point) []r2.Point {
	r := make([]r2.Point, len(c))
	for i, p := range c {
		r[len(c)-1-i] = p
	}
	return r
}

func box(x0, y0, x1, y1 float64) []r2.Point {
	return []r2.Point{{X: x0, Y: y0}, {X: x0, Y: y1}, {X: x1, Y: y1}, {X: x1, Y: y0}}
}

// disc is a 32-gon of the circle's area; at text sizes the corners are far
// below a pixel.
func disc(cx, cy, r float64) []r2.Point {
	const n = 32
	r *= math.Sqrt(2 * math.Pi / (n * math.Sin(2*math.Pi/n)))
	pts := make([]r2.Point, n)
	for i := range pts {
		s, c := math.Sincos(-2 * math.Pi * float64(i) / n)
		pts[i] = r2.Point{X: cx + r*c, Y: cy + r*s}
	}
	return pts
}

// thick is the outline of a line of the given width through the points, with
// pointed corners and butt ends, clockwise with y up.
func thick(width float64, pts ...r2.Point) []r2.Point {
	n := len(pts)
	normal := func(a, b r2.Point) r2.Point { // to the left of a→b
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		return r2.Point{X: -(b.Y - a.Y) / l, Y: (b.X - a.X) / l}
	}
	var leftSide, rightSide []r2.Point
	for i, p := range pts {
		var o r2.Point
		switch i {
		case 0:
			o = normal(pts[0], pts[1])
		case n - 1:
			o = normal(pts[n-2], pts[n-1])
		default:
			a, b := normal(pts[i-1], p), normal(p, pts[i+1])
			k := 1 + a.X*b.X + a.Y*b.Y
			o = r2.Point{X: (a.X + b.X) / k, Y: (a.Y + b.Y) / k}
		}
		leftSide = append(leftSide, r2.Point{X: p.X + o.X*width/2, Y: p.Y + o.Y*width/2})
		rightSide = append(rightSide, r2.Point{X: p.X - o.X*width/2, Y: p.Y - o.Y*width/2})
	}
	return append(leftSide, reversed(rightSide)...)
}
