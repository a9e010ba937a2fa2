package sheet

import (
	"bytes"
	"image"
	_ "image/jpeg" // the two kinds of picture a logo may be
	_ "image/png"

	"kedge/canvas/words"
	"kedge/solver/part"
)

// Bounds of a logo: what a small file may unpack to is checked before it is
// unpacked. (ours)
const (
	maxLogoBytes  = 4 << 20
	maxLogoPixels = 4e6
)

// readLogo is the school's logo, nil without one. Its errors are [ErrLogo] with
// a sentence.
func readLogo(data []byte, w *words.Words) (image.Image, error) {
	refuse := func(id string, values ...part.Value) error {
		return &trouble{ErrLogo, w.Label("sheet-logo-"+id, values...)}
	}
	if len(data) == 0 {
		return nil, nil
	}
	if len(data) > maxLogoBytes {
		return nil, refuse("bytes", part.Count("most", maxLogoBytes>>20))
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, refuse("kind")
	}
	if c.Width <= 0 || c.Height <= 0 || float64(c.Width)*float64(c.Height) > maxLogoPixels {
		return nil, refuse("pixels", part.Count("width", c.Width), part.Count("height", c.Height))
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, refuse("damaged")
	}
	return img, nil
}
