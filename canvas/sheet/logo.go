package sheet

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // the two kinds of picture a logo may be
	_ "image/png"
)

// Bounds of a logo: what a small file may unpack to is checked before it is
// unpacked. (ours)
const (
	maxLogoBytes  = 4 << 20
	maxLogoPixels = 4e6
)

func readLogo(data []byte) (image.Image, error) {
	if len(data) == 0 {
		return nil, nil
	}
	if len(data) > maxLogoBytes {
		return nil, fmt.Errorf("%w: %d bytes; at most %d. Take a smaller picture", ErrLogo, len(data), maxLogoBytes)
	}
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w: it is neither PNG nor JPEG (%w)", ErrLogo, err)
	}
	if c.Width <= 0 || c.Height <= 0 || float64(c.Width)*float64(c.Height) > maxLogoPixels {
		return nil, fmt.Errorf("%w: %d × %d pixels; at most 4 million in all. Take a smaller picture", ErrLogo, c.Width, c.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("%w: it is damaged (%w)", ErrLogo, err)
	}
	return img, nil
}
