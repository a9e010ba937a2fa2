package pen

import (
	"encoding/binary"
	"math"

	"github.com/golang/geo/r2"
)

// Halos of labels are drawn from cached coverage instead of outlines: a halo
// has six times the pieces of its letter, and nobody sees a quarter of a pixel
// in its place. Larger or translucent halos are outlined like any stroke, the
// latter because the halos of neighbouring letters overlap.
//
// Letters of the sizes of a screen are too: an eighth of a pixel out of place at
// most, which is what hinted text gives away many times over. Larger ones, as
// on a page of 300 dots an inch, are outlined.
const (
	maxHaloSizePx  = 64
	maxStampSizePx = 24
	haloSteps      = 4       // places within a pixel, each way
	maxHaloBytes   = 8 << 20 // of cached coverage
)

// haloKey is a glyph, or its halo, at a place within a pixel, in 1/haloSteps.
type haloKey struct {
	glyphKey
	subX, subY uint8
}

// stencil is coverage about a glyph's origin, w bytes a row.
type stencil struct {
	x0, y0, w, h int
	pix          []uint8
}

type placedStencil struct {
	s    *stencil
	x, y int // pixel of the glyph's origin
}

// stamp returns the stencil for a glyph at (x, y) and the pixel it belongs to.
func (c *glyphCache) stamp(f *face, key glyphKey, x, y float64) (placedStencil, error) {
	// Rounded to the nearest step; a step of 4 carries into the next pixel.
	sx, sy := math.Round(x*haloSteps), math.Round(y*haloSteps)
	px, py := math.Floor(sx/haloSteps), math.Floor(sy/haloSteps)
	k := haloKey{key, uint8(sx - px*haloSteps), uint8(sy - py*haloSteps)}
	s, ok := c.halos[k]
	if !ok {
		edges, err := c.outline(f, key)
		if err != nil {
			return placedStencil{}, err
		}
		s = c.stencil(edges, float64(k.subX)/haloSteps, float64(k.subY)/haloSteps)
		if c.halos == nil || c.haloBytes > maxHaloBytes {
			c.halos, c.haloBytes = make(map[haloKey]*stencil, 256), 0
		}
		c.halos[k] = s
		c.haloBytes += len(s.pix)
	}
	return placedStencil{s, int(px), int(py)}, nil
}

// stencil sums the edges moved by less than a pixel.
func (c *glyphCache) stencil(edges []edge, dx, dy float64) *stencil {
	s := &stencil{}
	if len(edges) == 0 {
		return s
	}
	lo, hi := r2.Point{X: math.Inf(1), Y: math.Inf(1)}, r2.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, e := range edges {
		for _, p := range [2]r2.Point{{X: float64(e.x0), Y: float64(e.y0)}, {X: float64(e.x1), Y: float64(e.y1)}} {
			lo.X, lo.Y = math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)
			hi.X, hi.Y = math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)
		}
	}
	s.x0, s.y0 = int(math.Floor(lo.X)), int(math.Floor(lo.Y))
	s.w, s.h = int(math.Ceil(hi.X))+1-s.x0, int(math.Ceil(hi.Y))+1-s.y0
	s.pix = make([]uint8, s.w*s.h)
	box := Box(0, 0, float64(s.w), float64(s.h))
	dx, dy = dx-float64(s.x0), dy-float64(s.y0)
	moved := c.moved[:0]
	for _, e := range edges {
		moved = addEdge(moved, &box, float64(e.x0)+dx, float64(e.y0)+dy, float64(e.x1)+dx, float64(e.y1)+dy)
	}
	c.moved = moved
	c.sum.size(s.w)
	for y := 0; y < s.h; y += bandRows {
		c.sum.y0, c.sum.y1 = y, min(y+bandRows, s.h)
		c.sum.accumulate(moved)
		for row := c.sum.rowFrom; row < c.sum.rowTo; row++ {
			c.sum.sweep(row)
			line := s.pix[(y+row)*s.w : (y+row+1)*s.w]
			for _, r := range c.sum.spans {
				for x := r.x0; x < r.x1; x++ {
					line[x] = uint8(r.cover)
				}
			}
		}
	}
	return s
}

// stamp draws stencils into the rows y0…y1−1.
func (b *bandBuffer) stamp(r *Raster, op *rasterOp) {
	c := &r.clips[op.clip]
	if c.masked {
		b.mask(r, op.clip)
	}
	solid, opaque := op.colour.solid(), op.colour.a == 65535
	for _, p := range r.stencils[op.contours[0]:op.contours[1]] {
		s := p.s
		x0, y0 := p.x+s.x0, p.y+s.y0
		xa, xb := max(x0, c.x0), min(x0+s.w, c.x1)
		for y := max(y0, b.y0, c.y0); y < min(y0+s.h, b.y1, c.y1) && xa < xb; y++ {
			cover := s.pix[(y-y0)*s.w:]
			line := r.img.Pix[y*r.img.Stride:]
			for x := xa; x < xb; x++ {
				k := uint32(cover[x-x0])
				if k == 0 {
					continue
				}
				if c.masked {
					k = k * uint32(b.maskPix[(y-b.y0)*b.w+x]) / 255
				}
				if k == 255 && opaque {
					binary.LittleEndian.PutUint32(line[4*x:], solid)
					continue
				}
				op.colour.times(k).over(line[4*x:])
			}
		}
	}
}
