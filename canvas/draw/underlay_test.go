package draw_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// A photograph of 12 million pixels under the sheet, turned, while the picture
// is moved: decoded once, drawn each frame.
func BenchmarkUnderlay12Megapixels(b *testing.B) {
	img := image.NewYCbCr(image.Rect(0, 0, 4000, 3000), image.YCbCrSubsampleRatio420)
	for i := range img.Y {
		img.Y[i] = uint8(i * 7)
	}
	var data bytes.Buffer
	require.NoError(b, jpeg.Encode(&data, img, nil))
	p := plan.New()
	p.Site.Underlay = &plan.Underlay{Type: "image/jpeg", Bytes: data.Bytes(), At: plan.Point{X: 20, Y: 11}, Metres: 0.01, Turn: 12, Fade: 0.4}
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
