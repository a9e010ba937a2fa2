package store

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/draw"
)

// upright is the turn of a picture that needs none. Turns are the values 1 to 8
// of the Orientation tag, as TIFF 6.0 (1992), section 8, names them after where
// the first row and the first column are to be seen.
const upright = 1

// exifTurn is the Orientation tag of a JPEG file, upright if it has none or a
// value that means nothing. The tag is 274, a SHORT, in the first directory of
// the TIFF structure in an APP1 segment that begins with "Exif" and two zero
// bytes (JEITA CP-3451, 4.5.2 and 4.6.4).
func exifTurn(jpg []byte) int {
	const (
		app1        = 0xE1
		startOfScan = 0xDA
	)
	for i := 2; i+4 <= len(jpg) && jpg[i] == 0xFF; {
		marker, size := jpg[i+1], int(binary.BigEndian.Uint16(jpg[i+2:]))
		if marker == startOfScan || size < 2 || i+2+size > len(jpg) {
			return upright
		}
		body := jpg[i+4 : i+2+size]
		if tiff, is := bytes.CutPrefix(body, []byte("Exif\x00\x00")); marker == app1 && is {
			return tiffTurn(tiff)
		}
		i += 2 + size
	}
	return upright
}

func tiffTurn(tiff []byte) int {
	if len(tiff) < 8 {
		return upright
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return upright
	}
	const (
		entryBytes     = 12
		tagOrientation = 274
		typeShort      = 3
	)
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return upright
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < entryBytes {
			return upright
		}
		if order.Uint16(entries) == tagOrientation && order.Uint16(entries[2:]) == typeShort {
			if turn := int(order.Uint16(entries[8:])); turn >= 1 && turn <= 8 {
				return turn
			}
			return upright
		}
		entries = entries[entryBytes:]
	}
	return upright
}

// turned is img as it is to be seen.
func turned(img image.Image, turn int) image.Image {
	if turn == upright {
		return img
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	from := image.NewNRGBA(image.Rect(0, 0, w, h))
	draw.Draw(from, from.Rect, img, b.Min, draw.Src)
	size := image.Pt(w, h)
	if turn >= 5 { // rows become columns
		size = image.Pt(h, w)
	}
	to := image.NewNRGBA(image.Rectangle{Max: size})
	for y := range h {
		for x := range w {
			var tx, ty int
			switch turn {
			case 2:
				tx, ty = w-1-x, y
			case 3:
				tx, ty = w-1-x, h-1-y
			case 4:
				tx, ty = x, h-1-y
			case 5:
				tx, ty = y, x
			case 6:
				tx, ty = h-1-y, x
			case 7:
				tx, ty = h-1-y, w-1-x
			case 8:
				tx, ty = y, w-1-x
			}
			copy(to.Pix[to.PixOffset(tx, ty):][:4], from.Pix[from.PixOffset(x, y):][:4])
		}
	}
	return to
}
