package pen

import (
	"image"
	"image/draw"
	"math"
	"reflect"

	"github.com/golang/geo/r2"
)

// photo is a picture ready for sampling: premultiplied, with halved copies so
// that a large picture drawn small is averaged, not skipped through.
type photo struct {
	levels []*image.RGBA // each half the size of the one before
}

// maxPhotos is how many pictures a raster keeps ready: an underlay and its
// replacement.
const maxPhotos = 2

type photoCache struct {
	keys   []image.Image
	photos []*photo
}

func (c *photoCache) get(img image.Image) *photo {
	byPointer := reflect.ValueOf(img).Kind() == reflect.Pointer
	if byPointer {
		for i, k := range c.keys {
			if k == img {
				return c.photos[i]
			}
		}
	}
	p := newPhoto(img)
	if byPointer {
		if len(c.keys) >= maxPhotos {
			c.keys, c.photos = c.keys[1:], c.photos[1:]
		}
		c.keys, c.photos = append(c.keys, img), append(c.photos, p)
	}
	return p
}

func newPhoto(img image.Image) *photo {
	b := img.Bounds()
	full := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(full, full.Rect, img, b.Min, draw.Src)
	p := &photo{levels: []*image.RGBA{full}}
	for last := full; last.Rect.Dx() > 1 && last.Rect.Dy() > 1; {
		last = halve(last)
		p.levels = append(p.levels, last)
	}
	return p
}

// halve averages blocks of four pixels; an odd last row or column is repeated.
func halve(src *image.RGBA) *image.RGBA {
	w, h := (src.Rect.Dx()+1)/2, (src.Rect.Dy()+1)/2
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		ya, yb := 2*y, min(2*y+1, src.Rect.Dy()-1)
		for x := range w {
			xa, xb := 2*x, min(2*x+1, src.Rect.Dx()-1)
			for i := range 4 {
				sum := int(src.Pix[ya*src.Stride+4*xa+i]) + int(src.Pix[ya*src.Stride+4*xb+i]) +
					int(src.Pix[yb*src.Stride+4*xa+i]) + int(src.Pix[yb*src.Stride+4*xb+i])
				dst.Pix[y*dst.Stride+4*x+i] = uint8((sum + 2) / 4)
			}
		}
	}
	return dst
}

// Image implements Pen.
func (r *Raster) Image(img image.Image, m Affine, alpha float64) {
	b := img.Bounds()
	if b.Empty() || alpha <= 0 {
		return
	}
	if !m.finite() || !finite(alpha) {
		r.fail(ErrNotFinite)
		return
	}
	toPx := r.base.After(m)
	back, ok := toPx.invert()
	if !ok || !back.finite() {
		return // no area
	}
	var p Path
	p.Rect(0, 0, float64(b.Dx()), float64(b.Dy()))
	var quad Path
	quad.Append(&p, toPx)
	box := quad.Bounds()
	if box.IsEmpty() {
		r.fail(ErrNotFinite)
		return
	}
	ph := r.photos.get(img)
	shrink := math.Sqrt(math.Abs(back.A*back.D - back.B*back.C))
	level := 0
	for level+1 < len(ph.levels) && shrink >= 2 {
		shrink /= 2
		level++
	}
	l := ph.levels[level]
	sx, sy := float64(l.Rect.Dx())/float64(b.Dx()), float64(l.Rect.Dy())/float64(b.Dy())
	op := rasterOp{kind: photoOp, clip: r.clip(), alpha: math.Min(alpha, 1),
		photo: &photo{levels: ph.levels[level : level+1]},
		place: Affine{A: sx, D: sy}.After(back)}
	op.contours[0], op.contours[1] = r.flat.add(&quad, Identity(), flatTolerance)
	r.list(op, box.Y.Lo, box.Y.Hi)
}

// paint draws one row of the picture, each pixel the mean of its four nearest
// samples weighted by distance.
func (p *photo) paint(line []uint8, y int, spans []span, mask []uint8, op *rasterOp) {
	src := p.levels[0]
	w, h := src.Rect.Dx(), src.Rect.Dy()
	clampTo := func(v, n int) int { return max(0, min(v, n-1)) }
	for _, s := range spans {
		for x := s.x0; x < s.x1; x++ {
			cover := s.cover
			if mask != nil {
				cover = cover * uint32(mask[x]) / 255
			}
			if cover == 0 {
				continue
			}
			at := op.place.Apply(r2.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5})
			u, v := at.X-0.5, at.Y-0.5
			fu, fv := math.Floor(u), math.Floor(v)
			wu, wv := uint32((u-fu)*256), uint32((v-fv)*256)
			xa, xb := clampTo(int(fu), w), clampTo(int(fu)+1, w)
			ya, yb := clampTo(int(fv), h), clampTo(int(fv)+1, h)
			k := uint32(op.alpha*float64(cover)*257 + 0.5) // 0 to 65535
			var lanes uint64
			for i := range 4 {
				top := uint32(src.Pix[ya*src.Stride+4*xa+i])*(256-wu) + uint32(src.Pix[ya*src.Stride+4*xb+i])*wu
				low := uint32(src.Pix[yb*src.Stride+4*xa+i])*(256-wu) + uint32(src.Pix[yb*src.Stride+4*xb+i])*wu
				// 16 bits of fraction from the weights, 16 from k.
				v := (uint64(top*(256-wv)+low*wv)*uint64(k) + 65536*65535/2) / (65536 * 65535)
				lanes |= v << (16 * i)
			}
			glaze{lanes, 255 - lanes>>48}.over(line[4*x:])
		}
	}
}
