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
	gifMostPx  = 1920     // across
	mostHeld   = 96 << 20 // bytes, of frames on the way
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
	waiting, reduce, err := x.drawn(ctx, frames)
	if err != nil {
		return nil, err
	}
	img := image.NewRGBA(reduce.rect)
	out := &gifFile{config: image.Config{ColorModel: reduce.palette, Width: img.Rect.Dx(), Height: img.Rect.Dy()}}
	var last *image.Paletted
	for i := range waiting {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		waiting[i].onto(img)
		now, delay := reduce.picture(img), frameDelay
		if i == len(waiting)-1 {
			delay = endDelay
		}
		if err := out.add(differing(last, now), delay); err != nil {
			return nil, badPicture.At("").Because(err)
		}
		if len(out.data) > mostHeld {
			return nil, largeFilm.At("")
		}
		waiting[i], last = nil, now
	}
	return append(out.data, gifEnd), nil
}

// gifFile is a GIF that grows by a frame at a time; image/gif wants all of them at once.
type gifFile struct {
	config image.Config
	data   []byte // without gifEnd
}

// Of the form GIF89a: after the head, whose 11th byte tells how many colours follow it,
// stands what plays the film over and over; then the frames.
const (
	gifHead  = 13
	gifFlags = 10
	gifEnd   = 0x3b
	gifLoop  = "\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00"
)

func (o *gifFile) add(img *image.Paletted, delay int) error {
	var b bytes.Buffer
	err := gif.EncodeAll(&b, &gif.GIF{Config: o.config, Image: []*image.Paletted{img}, Delay: []int{delay}, Disposal: []byte{gif.DisposalNone}})
	if err != nil {
		return err
	}
	one := b.Bytes()
	head := gifHead + 3<<(one[gifFlags]&7+1)
	if o.data == nil {
		o.data = append(append(o.data, one[:head]...), gifLoop...)
	}
	o.data = append(o.data, one[head:len(one)-1]...)
	return nil
}

// drawn are the frames, each by what differs from the one before, and their colours.
func (x Film) drawn(ctx context.Context, frames []Excerpt) ([]runs, *reducer, error) {
	waiting, uses, held := make([]runs, len(frames)), colourUses{}, 0
	var before *image.RGBA
	for i := range frames {
		if err := x.tell(ctx, i, len(frames)); err != nil {
			return nil, nil, err
		}
		img, err := frames[i].pixels(filmDPI)
		if err != nil {
			return nil, nil, err
		}
		if before == nil {
			before = image.NewRGBA(img.Rect)
		}
		for _, at := range []int{0, len(frames) / 2, len(frames) - 1} {
			if i == at {
				uses.add(img)
			}
		}
		waiting[i], before = apart(before, img), img
		if held += waiting[i].bytes(); held > mostHeld {
			return nil, nil, largeFilm.At("")
		}
	}
	return waiting, newReducer(uses, before.Rect), nil
}

// runs is what a picture has otherwise than the one before, by how many pixels in a row
// have it: in a film little. The frames wait so for its colours to be known.
type runs []run

type run struct {
	other [4]uint8 // what each of a pixel's colours is changed by, bit by bit
	n     uint32
}

func (r runs) bytes() int { return 8 * len(r) }

// apart are the pixels of now that are others in last, of the same size.
func apart(last, now *image.RGBA) runs {
	var r runs
	for i := 0; i < len(now.Pix); i += 4 {
		var other [4]uint8
		for k := range other {
			other[k] = now.Pix[i+k] ^ last.Pix[i+k]
		}
		if k := len(r) - 1; k >= 0 && r[k].other == other {
			r[k].n++
		} else {
			r = append(r, run{other, 1})
		}
	}
	return slices.Clone(r) // what was room to grow goes
}

// onto makes of the picture before the one that the runs are of.
func (r runs) onto(img *image.RGBA) {
	i := 0
	for _, run := range r {
		if run.other == [4]uint8{} {
			i += 4 * int(run.n)
			continue
		}
		for range run.n {
			for k := range run.other {
				img.Pix[i+k] ^= run.other[k]
			}
			i += 4
		}
	}
}

// reducer maps the colours of pictures to few.
type reducer struct {
	rect    image.Rectangle
	palette color.Palette
	known   map[color.RGBA]uint8
}

// colourUses says how many pixels have a colour.
type colourUses map[color.RGBA]int

func (n colourUses) add(img *image.RGBA) {
	for i := 0; i < len(img.Pix); i += 4 {
		n[color.RGBA{R: img.Pix[i], G: img.Pix[i+1], B: img.Pix[i+2], A: 255}]++
	}
}

// newReducer takes the colours that are used most, for pictures of that size: of a film,
// in its first, a middle and its last.
func newReducer(n colourUses, rect image.Rectangle) *reducer {
	colours := make([]color.RGBA, 0, len(n))
	for c := range n {
		colours = append(colours, c)
	}
	key := func(c color.RGBA) int { return int(c.R)<<16 | int(c.G)<<8 | int(c.B) }
	slices.SortFunc(colours, func(a, b color.RGBA) int { return cmp.Or(cmp.Compare(n[b], n[a]), cmp.Compare(key(a), key(b))) })
	r := &reducer{rect: rect, known: map[color.RGBA]uint8{}}
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
