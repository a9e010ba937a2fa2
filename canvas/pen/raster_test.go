package pen

import (
	"image"
	"image/color"
	"math"
	"runtime"
	"slices"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// levelTolerance is what rounding to 256 levels leaves of an area in pixels:
// half a level for each of some 300 border pixels, of one sign at worst.
const levelTolerance = 0.5 * 300 / 255

// areaTolerance adds what chords cut off curves: two thirds of flatTolerance
// over up to 400 pixels of curve.
const areaTolerance = levelTolerance + 2.0/3*flatTolerance*400

func TestFillCoversExactArea(t *testing.T) {
	for _, c := range []struct {
		name string
		want float64 // closed form, in the comment
		make func(p *Path)
	}{
		{"rectangle between pixels", 40.25 * 20.5, func(p *Path) { p.Rect(10.4, 20.7, 40.25, 20.5) }},
		{"rectangle thinner than a pixel", 80 * 0.3, func(p *Path) { p.Rect(10, 20.5, 80, 0.3) }},
		{"circle πr²", math.Pi * 37 * 37, func(p *Path) { p.Circle(50.3, 50.6, 37) }},
		{"ring π(R²−r²), inner circle reversed", math.Pi * (40*40 - 20*20), func(p *Path) {
			p.Circle(50, 50, 40)
			p.MoveTo(70, 50)
			p.Arc(50, 50, 20, 0, 360)
			p.Close()
		}},
		{"same direction twice counts once", math.Pi * 40 * 40, func(p *Path) {
			p.Circle(50, 50, 40)
			p.Circle(50, 50, 20)
		}},
		{"rounded rectangle wh − (4−π)r²", 80*60 - (4-math.Pi)*15*15, func(p *Path) { p.RoundRect(10.5, 20.25, 80, 60, 15) }},
		{"sector ½r²·φ", 0.5 * 40 * 40 * math.Pi / 3, func(p *Path) {
			p.MoveTo(50, 50)
			p.Arc(50, 50, 40, 30, 60)
			p.Close()
		}},
		{"triangle ½|a×b|", 0.5 * 60 * 50, func(p *Path) { p.Polygon(r2.Point{X: 20, Y: 70}, r2.Point{X: 80, Y: 70}, r2.Point{X: 33.3, Y: 20}) }},
		{"parabola segment ⅔·base·height", 2.0 / 3 * 80 * 30, func(p *Path) {
			p.MoveTo(10, 80)
			p.QuadTo(50, 20, 90, 80) // control at twice the height of 30
			p.Close()
		}},
		{"open contour is closed", 30 * 30, func(p *Path) {
			p.Polyline(r2.Point{X: 10, Y: 10}, r2.Point{X: 40, Y: 10}, r2.Point{X: 40, Y: 40}, r2.Point{X: 10, Y: 40})
		}},
		{"half left of the picture", 30 * 40, func(p *Path) { p.Rect(-30, 20, 60, 40) }},
		{"from far left to far right", 100 * 40, func(p *Path) { p.Rect(-1e6, 20, 2e6, 40) }},
		{"a slant through both sides", 100 * 50, func(p *Path) {
			p.Polygon(r2.Point{X: -100, Y: -100}, r2.Point{X: 200, Y: 200}, r2.Point{X: 200, Y: 1000}, r2.Point{X: -100, Y: 1000})
		}},
		{"outside", 0, func(p *Path) { p.Rect(200, 200, 50, 50) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			var p Path
			c.make(&p)
			tolerance := levelTolerance
			if slices.ContainsFunc(p.verbs, func(v Verb) bool { return v == QuadVerb || v == CubeVerb }) {
				tolerance = areaTolerance
			}
			near(t, c.want, inked(filled(t, 100, 100, &p)), tolerance)
		})
	}
}

// strokeTolerance adds what the stroker's rounding to 1/256 pixel makes over up
// to 400 pixels of outline.
const strokeTolerance = areaTolerance + 400.0/256

func TestStrokeCoversExactArea(t *testing.T) {
	line := func(p *Path) { p.Line(20, 50, 80, 50) }
	slant := func(p *Path) { p.Line(20, 20, 80, 65) } // 75 long
	corner := func(p *Path) { p.Polyline(r2.Point{X: 20, Y: 80}, r2.Point{X: 20, Y: 20}, r2.Point{X: 80, Y: 20}) }
	for _, c := range []struct {
		name  string
		want  float64 // closed form
		style Style
		make  func(p *Path)
	}{
		{"butt: length·width", 60 * 6, Style{Width: 6}, line},
		{"round: + πr²", 60*6 + math.Pi*9, Style{Width: 6, Cap: RoundCap}, line},
		{"square: + width²", 60*6 + 36, Style{Width: 6, Cap: SquareCap}, line},
		{"slanted", 75 * 6, Style{Width: 6}, slant},
		{"slanted hairline", 75 * 1, Style{Width: 1}, slant},
		{"mitred right angle: 2·60·w + w²/4 − w²/4", 2 * 60 * 8, Style{Width: 8}, corner},
		{"bevelled: − w²/8", 2*60*8 - 8, Style{Width: 8, Join: BevelJoin}, corner},
		{"rounded: − (4−π)r²/4", 2*60*8 - (4-math.Pi)*16/4, Style{Width: 8, Join: RoundJoin}, corner},
		{"ring 2πr·w", 2 * math.Pi * 30 * 5, Style{Width: 5}, func(p *Path) { p.Circle(50, 50, 30) }},
		{"closed square 4·60·w", 4 * 60 * 6, Style{Width: 6}, func(p *Path) { p.Rect(20, 20, 60, 60) }},
		{"dot πr²", math.Pi * 100, Style{Width: 20, Cap: RoundCap}, func(p *Path) { p.Line(50, 50, 50, 50) }},
		{"dot without caps", 0, Style{Width: 20}, func(p *Path) { p.Line(50, 50, 50, 50) }},
		{"dashes: 20+20 of 60", 40 * 6, Style{Width: 6, Dash: []float64{20, 20}}, line},
		{"dashes from 10 on: 10+20", 30 * 6, Style{Width: 6, Dash: []float64{20, 20}, DashOffset: 10}, line},
		{"dashes from −10 on: 20+10", 30 * 6, Style{Width: 6, Dash: []float64{20, 20}, DashOffset: -10}, line},
		{"odd pattern twice over: 10+10+10 of 60", 30 * 6, Style{Width: 6, Dash: []float64{10}}, line},
		{"three lengths twice over: on 20, off 5, on 15, off 20", 35 * 6, Style{Width: 6, Dash: []float64{20, 5, 15}}, line},
		{"dashes round a corner: 12 of 20 over 120", 72 * 8, Style{Width: 8, Dash: []float64{12, 8}}, corner},
		{"pattern without length is solid", 60 * 6, Style{Width: 6, Dash: []float64{0, 0}}, line},
		{"wider than the picture: its lower edge is at 50", 100 * 50, Style{Width: 3000}, func(p *Path) { p.Line(-5000, -1450, 5000, -1450) }},
		{"wide corner: inner corner at (60, 70)", 100*100 - 40*30, Style{Width: 2000, Join: RoundJoin},
			func(p *Path) {
				p.Polyline(r2.Point{X: -940, Y: 9000}, r2.Point{X: -940, Y: -930}, r2.Point{X: 9000, Y: -930})
			}},
		{"no width, no line", 0, Style{}, line},
	} {
		t.Run(c.name, func(t *testing.T) {
			var p Path
			c.make(&p)
			c.style.Stroke = black
			img := drawn(t, 100, 100, 1, func(r *Raster) { r.Path(&p, &c.style) })
			near(t, c.want, inked(img), strokeTolerance)
		})
	}
}

// A dash pattern's place must not depend on how much of the line is outside.
func TestFarCoordinatesGiveTheSamePixels(t *testing.T) {
	// Unit vector 3-4-5, so that far points are exact multiples.
	along := func(d float64) r2.Point { return r2.Point{X: 20 + 0.8*d, Y: 15 + 0.6*d} }
	for _, c := range []struct {
		name      string
		near, far []r2.Point
		style     Style
	}{
		{"line to 10⁷", []r2.Point{along(0), along(1000)}, []r2.Point{along(0), along(1e7)}, Style{Width: 3}},
		{"line from −10⁷ to 10⁷", []r2.Point{along(-1000), along(1000)}, []r2.Point{along(-1e7), along(1e7)}, Style{Width: 3, Cap: RoundCap}},
		// 10⁷ and 1040 are multiples of the period 16.
		{"dashes from −10⁷", []r2.Point{along(-1040), along(1000)}, []r2.Point{along(-1e7), along(1000)}, Style{Width: 3, Dash: []float64{10, 6}}},
		{"dashes past a corner at 10⁷", []r2.Point{{X: -1040, Y: 40}, {X: 400, Y: 40}}, []r2.Point{{X: -1e7, Y: 1e7 + 40}, {X: -1e7, Y: 40}, {X: 400, Y: 40}}, Style{Width: 3, Dash: []float64{10, 6}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.style.Stroke = black
			draw := func(pts []r2.Point) *image.RGBA {
				var p Path
				p.Polyline(pts...)
				return drawn(t, 200, 150, 1, func(r *Raster) { r.Path(&p, &c.style) })
			}
			a, b := draw(c.near), draw(c.far)
			require.Greater(t, inked(a), 300.0)
			// 1/256 pixel of rounding at either end moves a level or two.
			require.LessOrEqual(t, mostDifferent(a, b), 3)
		})
	}
	t.Run("fill to 10⁷", func(t *testing.T) {
		shape := func(far float64) *image.RGBA {
			var p Path
			p.Polygon(r2.Point{X: 20, Y: 30}, r2.Point{X: 20 + far, Y: 30}, r2.Point{X: 20 + far, Y: 30 + far}) // below the diagonal from (20, 30)
			return filled(t, 200, 150, &p)
		}
		a := shape(1000)
		require.LessOrEqual(t, mostDifferent(a, shape(1e7)), 1)
		require.Greater(t, inked(a), 1000.0)
	})
}

func TestConvexPolygonsCoverTheirArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		cx, cy := rapid.Float64Range(40, 60).Draw(t, "x"), rapid.Float64Range(40, 60).Draw(t, "y")
		r := rapid.Float64Range(1, 39).Draw(t, "r")
		turn := rapid.Float64Range(0, 7).Draw(t, "turn")
		var p Path
		for i := range n {
			s, c := math.Sincos(turn + 2*math.Pi*float64(i)/float64(n))
			if i == 0 {
				p.MoveTo(cx+r*c, cy+r*s)
			} else {
				p.LineTo(cx+r*c, cy+r*s)
			}
		}
		p.Close()
		img := drawn(t, 100, 100, 1, func(q *Raster) { q.Path(&p, &Style{Fill: black}) })
		// Regular polygon: ½·n·r²·sin(2π/n).
		near(t, 0.5*float64(n)*r*r*math.Sin(2*math.Pi/float64(n)), inked(img), levelTolerance)
	})
}

func TestPictureDoesNotDependOnWorkers(t *testing.T) {
	draw := func(procs int) *image.RGBA {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(procs))
		return drawn(t, 700, 450, 0.5, func(r *Raster) { trialScene(r, 1400, 900); gallery(r) })
	}
	one := draw(1)
	require.Equal(t, one.Pix, draw(2).Pix)
	require.Equal(t, one.Pix, draw(5).Pix)
}

func TestClips(t *testing.T) {
	everything := func(r *Raster) {
		var p Path
		p.Rect(-10, -10, 200, 200)
		r.Path(&p, &Style{Fill: black})
	}
	circle := func(x, y, radius float64) *Path {
		var p Path
		p.Circle(x, y, radius)
		return &p
	}
	for _, c := range []struct {
		name string
		want float64
		draw func(r *Raster)
	}{
		{"circle πr²", math.Pi * 900, func(r *Raster) { r.PushClip(circle(50, 50, 30)); everything(r) }},
		{"rectangle on whole pixels", 30 * 20, func(r *Raster) { ClipRect(r, 10.2, 20.3, 30, 20); everything(r) }},
		{"half circle in a rectangle", math.Pi * 900 / 2, func(r *Raster) {
			ClipRect(r, 50, 0, 50, 100)
			r.PushClip(circle(50, 50, 30))
			everything(r)
		}},
		{"circle in a circle", math.Pi * 400, func(r *Raster) {
			r.PushClip(circle(50, 50, 30))
			r.PushClip(circle(50, 50, 20))
			everything(r)
		}},
		{"popped", 100 * 100, func(r *Raster) { r.PushClip(circle(50, 50, 30)); r.PopClip(); everything(r) }},
		{"empty", 0, func(r *Raster) { r.PushClip(&Path{}); everything(r) }},
		{"outside", 0, func(r *Raster) { ClipRect(r, 300, 300, 10, 10); everything(r) }},
		{"kept across a flush", math.Pi * 900, func(r *Raster) {
			r.PushClip(circle(20, 20, 10))
			r.PopClip()
			ClipRect(r, 0, 0, 90, 90)
			r.PushClip(circle(50, 50, 30))
			var p Path
			p.Rect(45, 45, 5, 5)
			r.Path(&p, &Style{Fill: black})
			require.NoError(t, r.Flush())
			everything(r)
		}},
		{"kept across new paper", math.Pi * 900, func(r *Raster) {
			r.PushClip(circle(50, 50, 30))
			everything(r)
			r.Paper(paper)
			everything(r)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			near(t, c.want, inked(drawn(t, 100, 100, 1, c.draw)), areaTolerance)
		})
	}
}

func TestColourOverColour(t *testing.T) {
	var p Path
	p.Rect(0, 0, 10, 10)
	// Half red over half blue over white, by the source-over rule; a level of
	// rounding each step.
	img := drawn(t, 10, 10, 1, func(r *Raster) {
		r.Path(&p, &Style{Fill: color.NRGBA{B: 255, A: 128}})
		r.Path(&p, &Style{Fill: color.NRGBA{R: 255, A: 128}})
	})
	k := 128.0 / 255
	got := img.RGBAAt(5, 5)
	near(t, 255*(k+(1-k)*(1-k)), float64(got.R), 2)
	near(t, 255*(1-k)*(1-k), float64(got.G), 2)
	near(t, 255*(1-k), float64(got.B), 2)
	require.EqualValues(t, 255, got.A)
}

// A run of pixels takes a colour as each of them by itself does: source plus what the
// source leaves, 255 − a of 255, of what lies below, to the nearest.
func TestGlazeOverARun(t *testing.T) {
	seed := uint32(1)
	next := func(n uint32) uint32 {
		seed = seed*1664525 + 1013904223
		return (seed >> 8) % n
	}
	for run := range 2000 {
		g := premultiply(color.NRGBA{uint8(next(256)), uint8(next(256)), uint8(next(256)), uint8(next(256))}).times(next(256))
		pix := make([]uint8, 4*(run%7))
		var want []uint8
		for i := range pix {
			pix[i] = uint8(next(256))
			switch {
			case run%3 == 0 && i >= 8: // ground of one colour, or of two
				pix[i] = pix[i-8]
			case i%4 == 3:
				pix[i] = 255
			}
			source := g.lanes >> (16 * (i % 4)) & 0xFFFF
			want = append(want, uint8(source+(uint64(pix[i])*g.rest*2+255)/510))
		}
		g.overAll(pix)
		require.Equal(t, len(want), len(pix))
		for i := range want {
			require.Equal(t, want[i], pix[i], "run %d, byte %d of %d", run, i, len(pix))
		}
	}
}

func TestImageLandsInItsBox(t *testing.T) {
	big := image.NewRGBA(image.Rect(0, 0, 400, 400)) // shrunk: averaged
	for i := 3; i < len(big.Pix); i += 4 {
		big.Pix[i] = 255
	}
	small := image.NewRGBA(image.Rect(5, 5, 9, 9)) // enlarged, origin not zero
	copy(small.Pix, big.Pix)
	for _, img := range []image.Image{big, small} {
		out := drawn(t, 100, 100, 1, func(r *Raster) { ImageBox(r, img, 20.5, 30, 40, 30, 0, 1) })
		near(t, 40*30, inked(out), areaTolerance)
		x, y := inkCentre(out)
		near(t, 40.5, x, 0.01)
		near(t, 45, y, 0.01)
		half := drawn(t, 100, 100, 1, func(r *Raster) { ImageBox(r, img, 20, 30, 40, 30, 30, 0.5) })
		near(t, 40*30*0.5, inked(half), 5) // 128 levels of 1200 pixels, each rounded
	}
	turned := image.NewRGBA(image.Rect(0, 0, 2, 1)) // left black, right white
	turned.Pix[3], turned.Pix[4], turned.Pix[5], turned.Pix[6], turned.Pix[7] = 255, 255, 255, 255, 255
	out := drawn(t, 100, 100, 1, func(r *Raster) { ImageBox(r, turned, 30, 40, 40, 20, 90, 1) })
	_, y := inkCentre(out)
	require.Greater(t, y, 50.0) // counter-clockwise by 90°: what was left is below
}
