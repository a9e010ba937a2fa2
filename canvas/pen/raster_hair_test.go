package pen

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// coverOf is the share of a pixel that a butt-ended line covers, counted over
// 32×32 places of it: the reference is the definition.
func coverOf(x, y int, a, b r2.Point, width float64) float64 {
	const n = 32
	l := math.Hypot(b.X-a.X, b.Y-a.Y)
	ux, uy := (b.X-a.X)/l, (b.Y-a.Y)/l
	in := 0
	for j := range n {
		for i := range n {
			px, py := float64(x)+(float64(i)+0.5)/n-a.X, float64(y)+(float64(j)+0.5)/n-a.Y
			if s := px*ux + py*uy; s >= 0 && s <= l && math.Abs(px*uy-py*ux) <= width/2 {
				in++
			}
		}
	}
	return float64(in) / (n * n)
}

// Along a line a pixel is covered as by definition, to the two shades that the
// table and the count of places leave; about its ends the ink is the same in
// all.
func TestLinesApartCoverWhatTheyShould(t *testing.T) {
	const size = 40
	white := color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	for _, width := range []float64{0.3, 0.9, 1.35, 2.7, 6} {
		for deg := 0.0; deg < 180; deg += 7.5 {
			t.Run(fmt.Sprint(width, " wide at ", deg), func(t *testing.T) {
				s, c := math.Sincos(deg * math.Pi / 180)
				m := r2.Point{X: 20.3, Y: 19.6}
				a, b := r2.Point{X: m.X - 13*c, Y: m.Y - 13*s}, r2.Point{X: m.X + 13*c, Y: m.Y + 13*s}
				img := image.NewRGBA(image.Rect(0, 0, size, size))
				r := NewRaster(img, 1)
				r.Paper(white)
				var p Path
				p.Line(a.X, a.Y, b.X, b.Y)
				r.Path(&p, &Style{Stroke: color.NRGBA{A: 255}, Width: width, Apart: true})
				require.NoError(t, r.Flush())
				sum, want := 0.0, 0.0
				for y := range size {
					for x := range size {
						got, ref := 1-float64(img.RGBAAt(x, y).R)/255, coverOf(x, y, a, b, width)
						sum, want = sum+got, want+ref
						along := (float64(x)+0.5-a.X)*c + (float64(y)+0.5-a.Y)*s
						if along > 1 && along < 25 {
							assert.InDelta(t, ref, got, 2.5/32, "pixel %d,%d", x, y)
						} else {
							assert.InDelta(t, ref, got, 0.3, "pixel %d,%d at an end", x, y)
						}
					}
				}
				assert.InDelta(t, 26*width, want, 26*width*0.03+0.3, "the count itself")
				assert.InDelta(t, 26*width, sum, 26*width*0.01+0.1, "ink: length times width")
			})
		}
	}
}

// The outlined stroke and the line of a table are the same picture, at another
// scale, behind a clip and cut by the picture's edge.
func TestLinesApartLookLikeStrokes(t *testing.T) {
	draw := func(apart bool) *image.RGBA {
		return drawn(t, 300, 200, 1.7, func(r *Raster) {
			r.Paper(paper)
			ClipRect(r, 20, 10, 120, 90)
			var p Path
			for i := range 60 {
				p.Line(float64(i)*6-120, -40, float64(i)*6, 160)
			}
			r.Path(&p, &Style{Stroke: tint, Width: 0.9, Apart: apart})
			r.PopClip()
		})
	}
	assert.LessOrEqual(t, mostDifferent(draw(false), draw(true)), 8)
}

// What is not straight pieces with flat ends is drawn as any stroke.
func TestApartOfOtherShapesIsAStroke(t *testing.T) {
	shapes := map[string]func(p *Path, s *Style){
		"bent": func(p *Path, _ *Style) {
			p.Polyline(r2.Point{X: 10, Y: 10}, r2.Point{X: 60, Y: 40}, r2.Point{X: 20, Y: 80})
		},
		"closed": func(p *Path, _ *Style) { p.Circle(50, 50, 30) },
		"dashed": func(p *Path, s *Style) { p.Line(10, 10, 80, 70); s.Dash = []float64{4, 3} },
		"round":  func(p *Path, s *Style) { p.Line(10, 10, 80, 70); s.Cap, s.Width = RoundCap, 6 },
		"wide":   func(p *Path, s *Style) { p.Line(10, 10, 80, 70); s.Width = 30 },
		"no way": func(p *Path, _ *Style) { p.Line(30, 30, 30, 30) },
	}
	for name, shape := range shapes {
		t.Run(name, func(t *testing.T) {
			draw := func(apart bool) *image.RGBA {
				return drawn(t, 100, 100, 1, func(r *Raster) {
					r.Paper(paper)
					s := Style{Stroke: ink, Width: 2, Apart: apart}
					var p Path
					shape(&p, &s)
					r.Path(&p, &s)
				})
			}
			assert.Zero(t, mostDifferent(draw(false), draw(true)))
		})
	}
}

// Lines of one path that turn back and forth look as each on its own, and a thousand
// crosses keep the tones of their two directions, no more: a survey has that many.
func TestLinesOfAPathShareTheirTones(t *testing.T) {
	black := Style{Stroke: color.NRGBA{A: 255}, Width: 1.2}
	at := func(i int) (x, y, dx, dy float64) { // upright, level, one way aslant, and the other
		sn, cs := math.Sincos(float64(i*i%4) * math.Pi / 8)
		return 12.3 + float64(i%8)*24, 12.1 + float64(i/8)*24, 9 * cs, 9 * sn
	}
	together, apart := image.NewRGBA(image.Rect(0, 0, 200, 200)), image.NewRGBA(image.Rect(0, 0, 200, 200))
	r, own := NewRaster(together, 1), NewRaster(apart, 1)
	var all Path
	for i := range 64 {
		x, y, dx, dy := at(i)
		var one Path
		for _, p := range []*Path{&all, &one} {
			p.Line(x-dx, y-dy, x+dx, y+dy)
		}
		own.Path(&one, &black)
	}
	r.Path(&all, &black)
	require.NoError(t, r.Flush())
	require.NoError(t, own.Flush())
	assert.True(t, bytes.Equal(apart.Pix, together.Pix))

	var crosses Path
	for i := range 1000 {
		x, y := float64(i%40)*5, float64(i/40)*8
		crosses.Line(x-2, y, x+2, y)
		crosses.Line(x, y-2, x, y+2)
	}
	r.Path(&crosses, &black)
	assert.Len(t, r.tones, 2*len(addHairTones(nil, premultiply(black.Stroke), r2.Point{X: 1}, black.Width)))
}
