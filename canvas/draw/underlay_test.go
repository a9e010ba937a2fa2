package draw_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// photograph is a file of 12 million pixels.
func photograph(b *testing.B) []byte {
	b.Helper()
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		img.Y[i] = uint8(i * 7)
	}
	var data bytes.Buffer
	require.NoError(b, jpeg.Encode(&data, img, nil))
	return data.Bytes()
}

// A photograph of 12 million pixels under the sheet, turned, while the picture
// is moved: decoded once, drawn each frame.
func BenchmarkUnderlay12Megapixels(b *testing.B) {
	p := plan.New()
	p.Site.Underlay = &plan.Underlay{Type: "image/jpeg", Bytes: photograph(b), At: plan.Point{X: 20, Y: 11}, Metres: 0.01, Turn: 12, Fade: 0.4}
	s := &draw.Scene{Plan: p, View: draw.View{Middle: plan.Point{X: 20, Y: 11}, PerM: 25, W: 1000, H: 700, UnitsPerPx: 1}, Labels: &draw.Labels{}}
	to := image.NewRGBA(image.Rect(0, 0, 1000, 700))
	r := pen.NewRaster(to, 1)
	b.ReportAllocs()
	for b.Loop() {
		s.View.Middle.X += 0.01
		r.Target(to, 1, 0, 0)
		draw.DrawStatic(r, s)
		if err := r.Flush(); err != nil {
			b.Fatal(err)
		}
	}
}

// slanted is what a pinhole 4 m above (3, -8) sees, that looks north and 20° down: the ground
// in squares of a metre, the sky above it. Closed form: central projection.
func slanted(w, h int) (u *plan.Underlay, sees func(plan.Point) (right, down float64)) {
	sin, cos := math.Sincos(20 * math.Pi / 180)
	const height, focal = 4, 0.8
	size := float64(w)
	sees = func(p plan.Point) (right, down float64) {
		x, y := p.X-3, p.Y+8
		depth := y*cos + height*sin
		return size * (0.5 + focal*x/depth), float64(h)/2 + size*focal*(height*cos-y*sin)/depth
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for j := range h {
		for i := range w {
			r, d := (float64(i)+0.5-size/2)/(size*focal), (float64(j)+0.5-float64(h)/2)/(size*focal)
			c := color.RGBA{120, 160, 255, 255}
			if fall := d*cos + sin; fall > 0 {
				t := height / fall
				c = square(plan.Point{X: 3 + r*t, Y: -8 + t*(cos-d*sin)})
			}
			img.SetRGBA(i, j, c)
		}
	}
	var data bytes.Buffer
	if err := png.Encode(&data, img); err != nil {
		panic(err)
	}
	u = &plan.Underlay{Type: "image/png", Bytes: data.Bytes(), Metres: 0.01}
	for _, p := range []plan.Point{{X: 0, Y: 2}, {X: 6, Y: 2}, {X: 8, Y: 14}, {X: -2, Y: 14}} {
		right, down := sees(p)
		u.Points = append(u.Points, plan.PicturePoint{Right: right, Down: down, At: p})
	}
	return u, sees
}

// square is the colour of the ground at a place: each square metre has one.
func square(p plan.Point) color.RGBA {
	x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
	return color.RGBA{uint8(40 + (x&7)*20), uint8(40 + (y&7)*20), uint8((x + y) & 1 * 200), 255}
}

// The grid is seen over a picture of any brightness, faded or not, in each look: a bold line
// or its edge differs from the picture beside it as much as it does from paper: 1.3 to 1.
func TestGridIsSeenOverAPicture(t *testing.T) {
	for _, grey := range []uint8{0, 60, 128, 200, 255} {
		img := image.NewGray(image.Rect(0, 0, 100, 100))
		for i := range img.Pix {
			img.Pix[i] = grey
		}
		var data bytes.Buffer
		require.NoError(t, png.Encode(&data, img))
		for _, look := range []draw.Look{{}, {Dark: true}, {Print: true}} {
			for _, fade := range []float64{0, 0.4} {
				p := plan.New()
				p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: data.Bytes(), Metres: 0.2, Fade: fade}
				to := image.NewRGBA(image.Rect(0, 0, 400, 400))
				r := pen.NewRaster(to, 1)
				draw.DrawStatic(r, &draw.Scene{Plan: p, Look: look, View: draw.View{PerM: 25, W: 400, H: 400, UnitsPerPx: 1}})
				require.NoError(t, r.Flush())
				at := func(x int) color.NRGBA { return color.NRGBAModel.Convert(to.At(x, 212)).(color.NRGBA) } // 5 m is a bold line, 212 none
				best := 1.0
				for x := 200 + 125 - 2; x <= 200+125+2; x++ {
					best = math.Max(best, draw.Contrast(at(x), at(200+125+8)))
				}
				assert.Greater(t, best, 1.3, "grey %d, look %+v, faded %g", grey, look, fade)
			}
		}
	}
}

// A picture that lies by measured points shows each place of the ground where it is.
func TestSlantedPictureLiesOnTheGround(t *testing.T) {
	u, sees := slanted(1600, 1200)
	p := plan.New()
	p.Site.Underlay = u
	box := draw.Bounds(p, nil)
	require.False(t, box.IsEmpty())
	assert.InDelta(t, 1.5*(22*math.Cos(20*math.Pi/180)+4*math.Sin(20*math.Pi/180)), (box.Y.Hi+8)*math.Cos(20*math.Pi/180)+4*math.Sin(20*math.Pi/180), 1e-6,
		"it ends half as far again from the camera as the farthest point")
	s := &draw.Scene{Plan: p, View: draw.View{Middle: plan.Point{X: 3, Y: 10}, PerM: 30, W: 900, H: 900, UnitsPerPx: 1}, Show: draw.Show{HideGrid: true}, Labels: &draw.Labels{}}
	to := image.NewRGBA(image.Rect(0, 0, 900, 900))
	r := pen.NewRaster(to, 1)
	draw.DrawStatic(r, s)
	require.NoError(t, r.Flush())
	seen := 0
	for x := -4; x < 12; x++ {
		for y := -4; y < 16; y++ {
			at := plan.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}
			right, down := sees(at)
			px, py := s.View.ToPen(at)
			got := to.RGBAAt(int(px), int(py))
			if right < 2 || right > 1598 || down > 1198 {
				continue
			}
			seen++
			want := square(at)
			for i, d := range []int{int(got.R) - int(want.R), int(got.G) - int(want.G), int(got.B) - int(want.B)} {
				assert.LessOrEqual(t, max(d, -d), 24, "channel %d of %v: %v, not %v", i, at, got, want)
			}
		}
	}
	assert.Greater(t, seen, 150)
	for _, at := range []plan.Point{{X: 3, Y: -4.5}, {X: -9, Y: 2}, {X: 16, Y: 2}} { // below its edge, beside it
		px, py := s.View.ToPen(at)
		assert.Equal(t, to.RGBAAt(1, 898), to.RGBAAt(int(px), int(py)), "%v", at)
	}
}

// It is laid once, and again only where its points change.
func TestSlantedPictureIsLaidOnce(t *testing.T) {
	u, _ := slanted(400, 300)
	p := plan.New()
	p.Site.Underlay = u
	s := &draw.Scene{Plan: p, View: draw.View{Middle: plan.Point{X: 3, Y: 10}, PerM: 10, W: 300, H: 300, UnitsPerPx: 1}, Labels: &draw.Labels{}}
	picture := func() image.Image {
		var r pen.Recorder
		draw.DrawStatic(&r, s)
		for _, op := range r.Marks {
			if op.Image != nil {
				return op.Image
			}
		}
		return nil
	}
	first := picture()
	require.NotNil(t, first)
	s.View.PerM = 20
	assert.Same(t, first, picture())
	var other draw.Labels
	other.SharePicture(s.Labels)
	s.Labels = &other
	assert.Same(t, first, picture(), "another view of the plan takes it over")
	v := *u
	v.Points = append([]plan.PicturePoint{}, u.Points...)
	v.Points[0].At.X += 0.5
	q := *p
	q.Site.Underlay = &v
	s.Plan = &q
	assert.NotSame(t, first, picture())
}

// A photograph of 12 million pixels laid on the ground, beside its decoding.
func BenchmarkLay12Megapixels(b *testing.B) {
	small, _ := slanted(400, 300)
	p := plan.New()
	u := *small
	u.Bytes, p.Site.Underlay = photograph(b), &u
	to := image.NewRGBA(image.Rect(0, 0, 1000, 700))
	for name, points := range map[string][]plan.PicturePoint{"straight down": nil, "laid": small.Points} {
		b.Run(name, func(b *testing.B) {
			u.Points = nil
			for _, q := range points {
				q.Right, q.Down = q.Right*10, q.Down*10
				u.Points = append(u.Points, q)
			}
			for b.Loop() {
				s := &draw.Scene{Plan: p, View: draw.View{Middle: plan.Point{X: 3, Y: 10}, PerM: 25, W: 1000, H: 700, UnitsPerPx: 1}, Labels: &draw.Labels{}}
				r := pen.NewRaster(to, 1)
				draw.DrawStatic(r, s)
				if err := r.Flush(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
