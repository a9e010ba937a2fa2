package sheet

import (
	"image"
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Frames laid over one another are the pictures again, and no larger than what differs.
func TestFramesHoldWhatDiffers(t *testing.T) {
	palette := color.Palette{color.White, color.Black}
	blank := image.NewPaletted(image.Rect(0, 0, 9, 7), palette)
	two := image.NewPaletted(blank.Rect, palette)
	two.SetColorIndex(2, 1, 1)
	two.SetColorIndex(5, 4, 1)
	d := differing(blank, two)
	assert.Equal(t, image.Rect(2, 1, 6, 5), d.Rect)
	assert.Equal(t, uint8(1), d.ColorIndexAt(5, 4))
	assert.Same(t, blank, differing(nil, blank))
	assert.Equal(t, 1, differing(two, two).Rect.Dx(), "no frame is empty")
}

// Pictures of few colours keep them all; of many, those used most, and the rest goes to
// the nearest.
func TestColoursAreReduced(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 100, 3))
	for x := range 100 {
		img.SetRGBA(x, 0, color.RGBA{A: 255})
		img.SetRGBA(x, 1, color.RGBA{R: 200, A: 255})
		img.SetRGBA(x, 2, color.RGBA{G: uint8(2 * x), B: 90, A: 255})
	}
	r := newReducer([]*image.RGBA{img})
	assert.Len(t, r.palette, gifColours)
	out := r.picture(img)
	assert.Equal(t, color.RGBA{A: 255}, out.At(7, 0))
	assert.Equal(t, color.RGBA{R: 200, A: 255}, out.At(7, 1))
	_, g, b, _ := out.At(99, 2).RGBA()
	assert.InDelta(t, 90, b>>8, 1)
	assert.InDelta(t, 2*61, g>>8, 1, "the 62 lowest greens of as many uses are kept, the last of them is nearest")
}
