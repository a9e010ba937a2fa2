package pen

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"
	"reflect"
)

// Pictures inside documents.
const (
	// photoPixels is the size from which an opaque picture is a photograph,
	// written as JPEG: as PNG an underlay would be ten times the size.
	photoPixels  = 256 * 256
	photoQuality = 85 // JPEG's scale to 100; artefacts are not seen at 85
)

// encodePicture returns the picture as a file and its kind, "png" or "jpg".
func encodePicture(img image.Image) (data []byte, kind string, err error) {
	var out bytes.Buffer
	b := img.Bounds()
	solid, ok := img.(interface{ Opaque() bool })
	if ok && b.Dx()*b.Dy() >= photoPixels && solid.Opaque() {
		kind, err = "jpg", jpeg.Encode(&out, img, &jpeg.Options{Quality: photoQuality})
	} else {
		// Eight bits a channel: the PDF writer takes no sixteen.
		flat := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
		draw.Draw(flat, flat.Rect, img, b.Min, draw.Src)
		kind, err = "png", png.Encode(&out, flat)
	}
	if err != nil {
		return nil, "", fmt.Errorf("pen: picture of %d × %d pixels: %w", b.Dx(), b.Dy(), err)
	}
	return out.Bytes(), kind, nil
}

// pdfPhotos names the pictures of a document. fpdf orders pictures by width
// and leaves those of one width in the order of a map: to keep documents
// reproducible, each picture here has a width of its own, widened by columns
// of nothing on the right.
type pdfPhotos struct {
	known  []pdfPhoto
	widths map[int]bool
}

type pdfPhoto struct {
	img   image.Image
	name  string
	kind  string
	width int
}

// add returns the picture's name and stored width; data is nil if it is stored
// already.
func (p *pdfPhotos) add(img image.Image) (name, kind string, data []byte, width int, err error) {
	byPointer := reflect.ValueOf(img).Kind() == reflect.Pointer
	if byPointer {
		for _, k := range p.known {
			if k.img == img {
				return k.name, k.kind, nil, k.width, nil
			}
		}
	}
	if p.widths == nil {
		p.widths = map[int]bool{}
	}
	b := img.Bounds()
	width = b.Dx()
	for p.widths[width] {
		width++
	}
	stored := img
	if width != b.Dx() {
		wide := image.NewNRGBA(image.Rect(0, 0, width, b.Dy()))
		draw.Draw(wide, image.Rect(0, 0, b.Dx(), b.Dy()), img, b.Min, draw.Src)
		stored = wide
	}
	if data, kind, err = encodePicture(stored); err != nil {
		return "", "", nil, 0, err
	}
	p.widths[width] = true
	name = fmt.Sprintf("picture%d", len(p.known)+1)
	k := pdfPhoto{name: name, kind: kind, width: width}
	if byPointer {
		k.img = img
	}
	p.known = append(p.known, k)
	return name, kind, data, width, nil
}
