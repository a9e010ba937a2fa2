package pen

import (
	"image"
	"math"
)

// Projective is a map from plane to plane, row by row: (x, y, 1) to (x'·w, y'·w, w).
type Projective [9]float64

// Warped is img as a flat thing seen from another side: w by h pixels, of which back leads
// to the place in img, pixels with the first one's corner at the origin. Where it leads
// beyond img its edge goes on; where w is not above 0 nothing is seen, and it is white. Each
// pixel is the mean of the four nearest of img, or of a copy of it halved as often as its
// pixels are smaller there.
func Warped(img image.Image, back Projective, w, h int) *image.RGBA {
	to := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range to.Pix {
		to.Pix[i] = 255
	}
	if img.Bounds().Empty() {
		return to
	}
	p := newPhoto(img)
	area := math.Abs(back.determinant()) // over w³: how many pixels of img become one
	for y := range h {
		line := to.Pix[y*to.Stride:]
		for x := range w {
			cx, cy := float64(x)+0.5, float64(y)+0.5
			k := back[6]*cx + back[7]*cy + back[8]
			if !(k > 0) {
				continue
			}
			u, v := (back[0]*cx+back[1]*cy+back[2])/k, (back[3]*cx+back[4]*cy+back[5])/k
			level, many := 0, area/(k*k*k)
			for level+1 < len(p.levels) && many >= 4 {
				many, level = many/4, level+1
			}
			l, full := p.levels[level].Rect, p.levels[0].Rect
			mixed(line[4*x:], p.levels[level], u*float64(l.Dx())/float64(full.Dx()), v*float64(l.Dy())/float64(full.Dy()))
		}
	}
	return to
}

func (m *Projective) determinant() float64 {
	return m[0]*(m[4]*m[8]-m[5]*m[7]) - m[1]*(m[3]*m[8]-m[5]*m[6]) + m[2]*(m[3]*m[7]-m[4]*m[6])
}

// mixed sets the pixel that to begins with to the mean of the four of src nearest to a place,
// weighted by distance.
func mixed(to []uint8, src *image.RGBA, u, v float64) {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	u, v = math.Max(0, math.Min(u-0.5, float64(w-1))), math.Max(0, math.Min(v-0.5, float64(h-1)))
	x, y := int(u), int(v)
	wu, wv := uint32((u-float64(x))*256), uint32((v-float64(y))*256)
	a, b := y*src.Stride, min(y+1, h-1)*src.Stride
	c, d := 4*x, 4*min(x+1, w-1)
	for i := range 4 {
		top := uint32(src.Pix[a+c+i])*(256-wu) + uint32(src.Pix[a+d+i])*wu
		low := uint32(src.Pix[b+c+i])*(256-wu) + uint32(src.Pix[b+d+i])*wu
		to[i] = uint8((top*(256-wv) + low*wv + 1<<15) >> 16)
	}
}
