package pen

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"

	"github.com/golang/geo/r2"
)

var (
	ink    = color.NRGBA{R: 0x20, G: 0x24, B: 0x28, A: 255}
	paper  = color.NRGBA{R: 255, G: 255, B: 255, A: 255}
	red    = color.NRGBA{R: 0x9B, G: 0x24, B: 0x23, A: 255}
	yellow = color.NRGBA{R: 0xF9, G: 0xA8, A: 255}
	tint   = color.NRGBA{R: 0xD0, G: 0x5D, B: 0x29, A: 60}
)

// trialScene is the drawing all pens were compared with when the raster was
// chosen: 180 lines of two stretches, a third dashed, 40 trees, 30 vehicles,
// 50 blocks, 60 texts, 20 translucent dashed zones and a grid, over w×h units.
func trialScene(p Pen, w, h float64) {
	rnd := rand.New(rand.NewPCG(7, 11)) // fixed: the same scene every time
	at := func() r2.Point { return r2.Point{X: rnd.Float64() * w, Y: rnd.Float64() * h} }
	var path Path
	for x := 0.0; x < w; x += 50 {
		path.Line(x, 0, x, h)
	}
	for y := 0.0; y < h; y += 50 {
		path.Line(0, y, w, y)
	}
	p.Path(&path, &Style{Stroke: color.NRGBA{A: 30}, Width: 1})
	for range 20 {
		c := at()
		path.Reset()
		for i := range 12 {
			s, co := math.Sincos(float64(i) / 12 * 2 * math.Pi)
			r := 60 + 60*rnd.Float64()
			if i == 0 {
				path.MoveTo(c.X+r*co, c.Y+r*s)
			} else {
				path.LineTo(c.X+r*co, c.Y+r*s)
			}
		}
		path.Close()
		p.Path(&path, &Style{Fill: tint, Stroke: red, Width: 1.5, Dash: []float64{8, 5}})
	}
	for range 40 {
		c := at()
		path.Reset()
		path.Circle(c.X, c.Y, 12)
		p.Path(&path, &Style{Fill: color.NRGBA{R: 0xE4, G: 0xE2, B: 0xDA, A: 255}, Stroke: ink, Width: 1.2})
	}
	for range 30 {
		c := at()
		var body Path
		path.Reset()
		body.RoundRect(-30, -13, 60, 26, 5)
		s, co := math.Sincos(rnd.Float64() * 2 * math.Pi)
		path.Append(&body, Affine{A: co, B: s, C: -s, D: co, E: c.X, F: c.Y})
		p.Path(&path, &Style{Fill: color.NRGBA{R: 0xC8, G: 0xCC, B: 0xD0, A: 255}, Stroke: ink, Width: 1.5, Join: RoundJoin})
	}
	for i := range 180 {
		a, b, c := at(), at(), at()
		path.Reset()
		path.Polyline(a, b)
		style := Style{Stroke: ink, Width: 2.4, Cap: RoundCap, Join: RoundJoin}
		if i%3 == 0 {
			style.Dash = []float64{10, 6}
		}
		p.Path(&path, &style)
		path.Reset()
		path.Polyline(b, c)
		p.Path(&path, &style)
	}
	for range 50 {
		c := at()
		path.Reset()
		path.Circle(c.X, c.Y, 6)
		p.Path(&path, &Style{Fill: paper, Stroke: ink, Width: 1.5})
	}
	for range 60 {
		c := at()
		p.Text(c.X, c.Y, "41.8 kN on Block 1", &TextStyle{Size: 12, Colour: ink, Halo: paper, HaloWidth: 2})
	}
}

// gallery shows every feature once, small, over 420×300 units.
func gallery(p Pen) {
	var q Path
	for i, c := range []Cap{ButtCap, RoundCap, SquareCap} {
		q.Reset()
		y := 20 + 22*float64(i)
		q.Polyline(r2.Point{X: 20, Y: y}, r2.Point{X: 80, Y: y})
		p.Path(&q, &Style{Stroke: ink, Width: 12, Cap: c})
		q.Reset()
		q.Line(95, y, 180, y)
		p.Path(&q, &Style{Stroke: red, Width: 4, Cap: c, Dash: []float64{12, 8}, DashOffset: 4})
	}
	for i, j := range []Join{MiterJoin, RoundJoin, BevelJoin} {
		q.Reset()
		x := 200 + 70*float64(i)
		q.Polyline(r2.Point{X: x, Y: 60}, r2.Point{X: x + 25, Y: 18}, r2.Point{X: x + 50, Y: 60})
		p.Path(&q, &Style{Stroke: ink, Width: 10, Join: j})
	}
	zone := func(x float64, h Hatch, dash []float64) {
		q.Reset()
		q.MoveTo(x, 90)
		q.CubeTo(x+40, 75, x+90, 100, x+85, 140)
		q.LineTo(x+50, 170)
		q.LineTo(x, 150)
		q.Close()
		p.Path(&q, &Style{Fill: tint, Hatch: h, Stroke: red, Width: 1.5, Dash: dash})
	}
	zone(15, Hatch{Colour: red, AngleDeg: 45, Spacing: 7, Width: 1}, nil)
	zone(115, Hatch{Colour: red, AngleDeg: 135, Spacing: 14, Width: 1}, []float64{12, 5})
	zone(215, Hatch{Colour: red, Spacing: 8, Width: 2.4, Dots: true}, []float64{8, 3, 1, 3, 1, 3})
	q.Reset()
	q.Circle(360, 130, 35)
	p.PushClip(&q)
	q.Reset()
	q.Rect(320, 90, 80, 42)
	p.Path(&q, &Style{Fill: yellow})
	p.Image(checker(), BoxAffine(8, 8, 330, 110, 60, 60, 20), 0.8)
	p.PopClip()
	q.Reset()
	q.Circle(360, 130, 35)
	p.Path(&q, &Style{Stroke: ink, Width: 2})
	t := TextStyle{Size: 16, Colour: ink}
	p.Text(15, 200, "▲ 41.8 kN · 127 % ▸ 12° ± 3 ≤ 5 ≥ 2 − ½ ² ³ µΩ", &t)
	t.Bold = true
	p.Text(15, 225, "▲ Fähre Ελλάς Кран “bold” → × ÷ ≠ ≈ √ ∞ ⚠", &t)
	t.Bold = false
	t.Size = 13
	p.Text(15, 247, "△▼▽▴▾◂▶◀●○◦■□∠⟂∥⌀←↑↓↔✕∑∆⋅ … – —", &t)
	q.Reset()
	q.Rect(15, 255, 120, 35)
	p.Path(&q, &Style{Fill: color.NRGBA{R: 0x33, G: 0x44, B: 0x55, A: 255}})
	p.Text(75, 277, "halo", &TextStyle{Size: 18, Colour: ink, Halo: paper, HaloWidth: 3, Anchor: Middle, Bold: true})
	for i := range 8 {
		p.Text(220, 272, "      turned", &TextStyle{Size: 9, Colour: ink, RotateDeg: float64(i) * 45})
	}
	p.Text(410, 290, "end of line", &TextStyle{Size: 12, Colour: ink, Anchor: End})
}

func checker() image.Image {
	img := image.NewNRGBA(image.Rect(0, 0, 8, 8))
	for y := range 8 {
		for x := range 8 {
			c := color.NRGBA{R: 0x33, G: 0x66, B: 0xAA, A: 255}
			if (x+y)%2 == 0 {
				c = color.NRGBA{R: 0xEE, G: 0xEE, B: 0xDD, A: 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}
