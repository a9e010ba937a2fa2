package pen

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"
)

// maxSheetPixels bounds a picture to 400 MB of memory.
const maxSheetPixels = 100e6

// NewSheetRaster returns a pen in millimetres on a new image of a sheet at the
// given resolution, rounded up to whole pixels.
func NewSheetRaster(widthMM, heightMM, dpi float64) (*Raster, *image.RGBA, error) {
	w, h := math.Ceil(widthMM/25.4*dpi), math.Ceil(heightMM/25.4*dpi)
	if !(w >= 1) || !(h >= 1) || !(w*h <= maxSheetPixels) {
		return nil, nil, fmt.Errorf("pen: no picture of %g × %g mm at %g dots an inch", widthMM, heightMM, dpi)
	}
	img := image.NewRGBA(image.Rect(0, 0, int(w), int(h)))
	return NewRaster(img, dpi/25.4), img, nil
}

// WritePNG writes the image with its resolution, so that it opens and prints
// at its size.
//
//	pixels per metre = dpi / 0.0254   (PNG specification, chunk pHYs)
func WritePNG(w io.Writer, img image.Image, dpi float64) error {
	if !(dpi > 0) || dpi > 1e5 {
		return fmt.Errorf("pen: PNG: %g dots an inch", dpi)
	}
	var file bytes.Buffer
	if err := png.Encode(&file, img); err != nil {
		return fmt.Errorf("pen: PNG: %w", err)
	}
	const header = 8 + 25 // signature and IHDR, always first
	perMetre := uint32(math.Round(dpi / 0.0254))
	body := append([]byte("pHYs"), 0, 0, 0, 0, 0, 0, 0, 0, 1) // 1: the metre
	be.PutUint32(body[4:], perMetre)
	be.PutUint32(body[8:], perMetre)
	chunk := be.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	chunk = be.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	out := append([]byte(nil), file.Bytes()[:header]...)
	out = append(out, chunk...)
	out = append(out, file.Bytes()[header:]...)
	_, err := w.Write(out)
	return err
}
