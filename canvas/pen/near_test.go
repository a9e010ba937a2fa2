package pen

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// near fails on NaN, which testify's InDelta lets pass when both are.
func near(t require.TestingT, want, got, tolerance float64, what ...any) {
	if h, ok := t.(interface{ Helper() }); ok {
		h.Helper()
	}
	require.False(t, math.IsNaN(want) || math.IsNaN(got), what...)
	require.InDelta(t, want, got, tolerance, what...)
}

var black = color.NRGBA{A: 255}

// drawn is a white picture with what f draws.
func drawn(t require.TestingT, w, h int, scale float64, f func(r *Raster)) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := NewRaster(img, scale)
	r.Paper(paper)
	f(r)
	require.NoError(t, r.Flush())
	return img
}

// inked is the area drawn in black on white, in pixels.
func inked(img *image.RGBA) (sum float64) {
	for i := 0; i < len(img.Pix); i += 4 {
		sum += float64(255-img.Pix[i]) / 255
	}
	return sum
}

// inkCentre is the ink's centre of area in pixels.
func inkCentre(img *image.RGBA) (x, y float64) {
	var sum float64
	for i := 0; i < len(img.Pix); i += 4 {
		k := float64(255-img.Pix[i]) / 255
		x += k * (float64(i/4%img.Rect.Dx()) + 0.5)
		y += k * (float64(i/4/img.Rect.Dx()) + 0.5)
		sum += k
	}
	return x / sum, y / sum
}

// mostDifferent is the greatest difference of any channel of any pixel.
func mostDifferent(a, b *image.RGBA) (most int) {
	for i := range a.Pix {
		d := int(a.Pix[i]) - int(b.Pix[i])
		most = max(most, d, -d)
	}
	return most
}

// filled draws one path in black.
func filled(t testing.TB, w, h int, p *Path) *image.RGBA {
	return drawn(t, w, h, 1, func(r *Raster) { r.Path(p, &Style{Fill: black}) })
}
