package sheet

import (
	"bytes"
	"cmp"
	"context"
	"image"
	"image/color"
	"image/gif"
	"slices"

	"kedge/canvas/pen"
)

// Of animated pictures. (ours)
const (
	gifColours = 64 // a drawing has few; edges of letters need the rest
	frameDelay = 40 // hundredths of a second
	endDelay   = 250
)

// pixels is a frame as pixels.
func (x *Excerpt) pixels(dpi float64) (*image.RGBA, error) {
	l := x.lay()
	r, img, err := pen.NewSheetRaster(l.w, l.h, dpi)
	if err != nil {
		return nil, badPicture.At("").Because(err)
	}
	x.draw(r, l)
	if err := r.Flush(); err != nil {
		return nil, badPicture.At("").Because(err)
	}
	return img, nil
}

// animated is the film as one file that plays by itself, over and over. A frame holds
// what differs from the one before.
func (x Film) animated(ctx context.Context, frames []Excerpt) ([]byte, error) {
	all := make([]*image.RGBA, len(frames))
	for i := range frames {
		if err := x.tell(ctx, i, len(frames)); err != nil {
			return nil, err
		}
		img, err := frames[i].pixels(filmDPI)
		if err != nil {
			return nil, err
		}
		all[i] = img
	}
	reduce := newReducer(all)
	file := gif.GIF{Config: image.Config{ColorModel: reduce.palette, Width: all[0].Rect.Dx(), Height: all[0].Rect.Dy()}}
	var last *image.Paletted
	for _, img := range all {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		now := reduce.picture(img)
		file.Image = append(file.Image, differing(last, now))
		file.Delay = append(file.Delay, frameDelay)
		file.Disposal = append(file.Disposal, gif.DisposalNone)
		last = now
	}
	file.Delay[len(file.Delay)-1] = endDelay
	var out bytes.Buffer
	if err := gif.EncodeAll(&out, &file); err != nil {
		return nil, badPicture.At("").Because(err)
	}
	return out.Bytes(), nil
}

// reducer maps the colours of pictures to few.
type reducer struct {
	palette color.Palette
	known   map[color.RGBA]uint8
}

// newReducer takes the colours that pictures use most.
func newReducer(all []*image.RGBA) *reducer {
	n := map[color.RGBA]int{}
	for _, img := range []*image.RGBA{all[0], all[len(all)/2], all[len(all)-1]} {
		for i := 0; i < len(img.Pix); i += 4 {
			n[color.RGBA{R: img.Pix[i], G: img.Pix[i+1], B: img.Pix[i+2], A: 255}]++
		}
	}
	colours := make([]color.RGBA, 0, len(n))
	for c := range n {
		colours = append(colours, c)
	}
	key := func(c color.RGBA) int { return int(c.R)<<16 | int(c.G)<<8 | int(c.B) }
	slices.SortFunc(colours, func(a, b color.RGBA) int { return cmp.Or(cmp.Compare(n[b], n[a]), cmp.Compare(key(a), key(b))) })
	r := &reducer{known: map[color.RGBA]uint8{}}
	for _, c := range colours[:min(len(colours), gifColours)] {
		r.palette = append(r.palette, c)
	}
	return r
}

func (r *reducer) picture(img *image.RGBA) *image.Paletted {
	out := image.NewPaletted(img.Rect, r.palette)
	for i := range out.Pix {
		c := color.RGBA{R: img.Pix[4*i], G: img.Pix[4*i+1], B: img.Pix[4*i+2], A: 255}
		k, seen := r.known[c]
		if !seen {
			k = uint8(r.palette.Index(c))
			r.known[c] = k
		}
		out.Pix[i] = k
	}
	return out
}

// differing is the least box of a picture outside which the one before is the same.
func differing(last, now *image.Paletted) *image.Paletted {
	if last == nil {
		return now
	}
	box := image.Rectangle{}
	for y := range now.Rect.Dy() {
		a, b := last.Pix[y*last.Stride:(y+1)*last.Stride], now.Pix[y*now.Stride:(y+1)*now.Stride]
		for x := range a {
			if a[x] != b[x] {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	return now.SubImage(box).(*image.Paletted)
}
