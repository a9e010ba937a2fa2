package sheet

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"
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

// A file that grew by a frame at a time is, byte for byte, the one that image/gif writes of
// all frames at once.
func TestAFilmGrowsByFrames(t *testing.T) {
	for _, colours := range []int{2, 3, 64} {
		whole := gif.GIF{Config: image.Config{Width: 20, Height: 10}}
		var palette color.Palette
		for i := range colours {
			palette = append(palette, color.RGBA{R: uint8(i), A: 255})
		}
		whole.Config.ColorModel = palette
		grown := &gifFile{config: whole.Config}
		for i := range 3 {
			img := image.NewPaletted(image.Rect(i, 0, 20, 10-i), palette)
			img.Pix[5+i] = 1
			whole.Image, whole.Delay, whole.Disposal = append(whole.Image, img), append(whole.Delay, 40+i), append(whole.Disposal, gif.DisposalNone)
			assert.NoError(t, grown.add(img, 40+i))
		}
		var b bytes.Buffer
		assert.NoError(t, gif.EncodeAll(&b, &whole))
		assert.Equal(t, b.Bytes(), append(grown.data, gifEnd), colours)
	}
}

// What a picture has otherwise than the one before makes of that one the picture again,
// and where little differs it is little.
func TestWhatIsApartMakesThePictureAgain(t *testing.T) {
	last := image.NewRGBA(image.Rect(0, 0, 300, 200))
	for i := range last.Pix {
		last.Pix[i] = uint8(i * i / 7)
	}
	now := image.NewRGBA(last.Rect)
	copy(now.Pix, last.Pix)
	for x := range 10 {
		now.SetRGBA(290+x, 5, color.RGBA{R: 3, A: 255})
	}
	r := apart(last, now)
	assert.LessOrEqual(t, r.bytes(), (1+10+1)*8, "ten pixels, and what is the same before and behind")
	r.onto(last)
	assert.Equal(t, now, last)
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
	uses := colourUses{}
	uses.add(img)
	r := newReducer(uses, img.Rect)
	assert.Len(t, r.palette, gifColours)
	out := r.picture(img)
	assert.Equal(t, color.RGBA{A: 255}, out.At(7, 0))
	assert.Equal(t, color.RGBA{R: 200, A: 255}, out.At(7, 1))
	_, g, b, _ := out.At(99, 2).RGBA()
	assert.InDelta(t, 90, b>>8, 1)
	assert.InDelta(t, 2*61, g>>8, 1, "the 62 lowest greens of as many uses are kept, the last of them is nearest")
}
