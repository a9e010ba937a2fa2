package store

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"

	"golang.org/x/image/draw"

	"kedge/solver/plan"
)

// Limits of a picture to trace, and how it is made to fit.
const (
	MaxPictureBytes  = 32 << 20   // of the file
	MaxPictureSide   = 30_000     // pixels along its longer side: a strip is no picture of a place
	MaxPicturePixels = 40_000_000 // more than any camera of a handset gives; 160 MB unpacked

	typePNG  = "image/png"
	typeJPEG = "image/jpeg"

	jpegQuality = 90   // above it a file grows fast and the eye sees no gain; common practice
	shrinkAim   = 0.9  // of the room there is: one round mostly suffices
	shrinkMost  = 0.95 // of a side at most, so that every round gets somewhere
	maxShrinks  = 12
)

// Picture is a picture as a plan's underlay holds it.
type Picture struct {
	Type          string // "image/png" or "image/jpeg"
	Bytes         []byte // at most plan.MaxUnderlayBytes
	Width, Height int    // pixels
	Original      string // SHA-256 of the file, hexadecimal
	Note          error  // what was done to it, to be said; nil: it is the file's bytes
}

// ReadPicture takes in the PNG or JPEG picture at path, of at most
// MaxPictureBytes and MaxPicturePixels. Its header is checked before it is
// unpacked, and it is unpacked whole, so that a damaged one is refused. A
// photograph that was taken turned is turned upright. A picture that takes more
// room than an underlay may is made smaller, and its Note says so: set its scale
// only afterwards.
func (s *Store) ReadPicture(path string) (Picture, error) {
	return s.readPicture(path, plan.MaxUnderlayBytes)
}

// ReadPhoto is ReadPicture of one that shows evidence, which may take less room.
func (s *Store) ReadPhoto(path string) (Picture, error) {
	return s.readPicture(path, plan.MaxPhotoBytes)
}

func (s *Store) readPicture(path string, most int) (Picture, error) {
	data, _, err := readWhole(s.Disk, path, MaxPictureBytes)
	if err != nil {
		return Picture{}, explain(reading, path, err)
	}
	p, err := takePicture(path, data, most)
	p.Original = NewContent("", data).Hash
	return p, err
}

// takePicture is ReadPicture of what the file holds, which may take so many bytes; name is for
// the sentences.
func takePicture(name string, data []byte, most int) (Picture, error) {
	head, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || format != "png" && format != "jpeg" {
		return Picture{}, notAPicture.At(named(name)).Because(err)
	}
	if max(head.Width, head.Height) > MaxPictureSide {
		return Picture{}, longPicture.At(named(name), head.Width, head.Height, MaxPictureSide)
	}
	pixels := float64(head.Width) * float64(head.Height)
	switch head.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model, color.Gray16Model:
		pixels *= 2 // each takes twice the room
	}
	if pixels > MaxPicturePixels {
		return Picture{}, manyPixels.At(named(name), head.Width, head.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Picture{}, pictureDamaged.At(named(name)).Because(err)
	}
	p := Picture{Type: "image/" + format, Bytes: data, Width: head.Width, Height: head.Height}
	turn := upright
	if format == "jpeg" {
		turn = exifTurn(data)
	}
	if turn == upright && len(data) <= most {
		return p, nil
	}
	return fit(name, turned(img, turn), p.Type, turn != upright, most)
}

// fit packs img into so many bytes, smaller if it must.
func fit(name string, img image.Image, kind string, wasTurned bool, most int) (Picture, error) {
	full := img.Bounds().Size()
	size := full
	for range maxShrinks {
		small := img
		if size != full {
			small = scaled(img, size)
		}
		data, err := packed(small, kind)
		if err != nil {
			return Picture{}, notSmaller.At(named(name)).Because(err)
		}
		if len(data) <= most {
			return Picture{Type: kind, Bytes: data, Width: size.X, Height: size.Y, Note: note(full, size, wasTurned)}, nil
		}
		share := min(shrinkMost, math.Sqrt(shrinkAim*float64(most)/float64(len(data))))
		size.X = max(1, int(float64(size.X)*share))
		size.Y = max(1, int(float64(full.Y)*float64(size.X)/float64(full.X)+0.5))
	}
	return Picture{}, notSmallEnough.At(named(name))
}

// scaled is img at a smaller size. It is halved as often as it can be and brought to its
// size from there: so each pixel counts, and no more is held than the pictures. (A
// resampler of more points holds 32 bytes for each pixel of its first half: most of a
// gigabyte for a photograph.)
func scaled(img image.Image, size image.Point) image.Image {
	for now := img.Bounds().Size(); ; now = img.Bounds().Size() {
		next := size
		if now.X > 2*size.X && now.Y > 2*size.Y {
			next = now.Div(2)
		}
		to := image.NewRGBA(image.Rectangle{Max: next})
		draw.ApproxBiLinear.Scale(to, to.Rect, img, img.Bounds(), draw.Src, nil)
		if img = to; next == size {
			return img
		}
	}
}

// note is what was done to a picture of a full size to make it one of another.
func note(full, size image.Point, wasTurned bool) error {
	switch {
	case size == full && wasTurned:
		return pictureTurned.At("")
	case size == full:
		return picturePacked.At("", full.X, full.Y)
	case wasTurned:
		return pictureTurnedSmaller.At("", full.X, full.Y, size.X, size.Y)
	}
	return pictureSmaller.At("", full.X, full.Y, size.X, size.Y)
}

func packed(img image.Image, kind string) ([]byte, error) {
	var b bytes.Buffer
	var err error
	switch kind {
	case typePNG:
		err = png.Encode(&b, img)
	case typeJPEG:
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: jpegQuality})
	default:
		err = errors.New("store: picture of unknown type " + kind)
	}
	return b.Bytes(), err
}
