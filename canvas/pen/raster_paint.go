package pen

import (
	"encoding/binary"
	"image/color"
)

// premultiplied is a colour times its alpha, each 0 to 65535.
type premultiplied struct{ r, g, b, a uint32 }

func premultiply(c color.NRGBA) premultiplied {
	a := uint32(c.A) * 257
	times := func(v uint8) uint32 { return uint32(v) * 257 * uint32(c.A) / 255 }
	return premultiplied{times(c.R), times(c.G), times(c.B), a}
}

// glaze is a premultiplied colour ready to be laid over pixels: its channels
// in four lanes of 16 bits of one word, and what it leaves of the pixel below.
type glaze struct {
	lanes uint64 // r, g, b, a from the low end, each 0 to 255
	rest  uint64 // 255 − a
}

const (
	laneBytes = 0x00FF00FF00FF00FF
	laneHalf  = 0x0080008000800080 // half of 256 in each lane
)

// times is the colour at a coverage of 0 to 255.
func (p premultiplied) times(cover uint32) glaze {
	// 65535·255 parts make 255: round to the nearest.
	part := func(v uint32) uint64 { return uint64((v*cover + 65535/2) / 65535) }
	a := part(p.a)
	return glaze{part(p.r) | part(p.g)<<16 | part(p.b)<<32 | a<<48, 255 - a}
}

// over lays the glaze over one pixel, all four channels at once.
//
//	out = source + below · (1 − source alpha)
//
// A product of two bytes is divided by 255, rounded, as (t + t/256)/256 with t
// half of 256 more than the product; no lane can carry into the next.
func (g glaze) over(pix []uint8) {
	x := uint64(binary.LittleEndian.Uint32(pix))
	x = (x | x<<16) & 0x0000FFFF0000FFFF
	x = (x | x<<8) & laneBytes
	t := x*g.rest + laneHalf
	t = (t+(t>>8&laneBytes))>>8&laneBytes + g.lanes
	t = (t | t>>8) & 0x0000FFFF0000FFFF
	binary.LittleEndian.PutUint32(pix, uint32(t|t>>16))
}

// overAll lays the glaze over a run of pixels, two at once: their even bytes in one
// word, the odd ones in another, each byte by the rule of over. Ground is mostly of
// one colour: what the two before came to is what the next two do.
func (g glaze) overAll(pix []uint8) {
	even := g.lanes&0xFFFF | g.lanes>>16&0xFFFF0000
	odd := g.lanes>>16&0xFFFF | g.lanes>>32&0xFFFF0000
	even, odd = even|even<<32, odd|odd<<32
	below, laid := uint64(0), even|odd<<8
	for ; len(pix) >= 8; pix = pix[8:] {
		if x := binary.LittleEndian.Uint64(pix); x != below {
			t, u := x&laneBytes*g.rest+laneHalf, x>>8&laneBytes*g.rest+laneHalf
			t = (t+(t>>8&laneBytes))>>8&laneBytes + even
			u = (u+(u>>8&laneBytes))>>8&laneBytes + odd
			below, laid = x, t|u<<8
		}
		binary.LittleEndian.PutUint64(pix, laid)
	}
	if len(pix) >= 4 {
		g.over(pix)
	}
}

// solid is an opaque colour as a pixel's four bytes.
func (p premultiplied) solid() uint32 {
	return p.r/257 | p.g/257<<8 | p.b/257<<16 | 255<<24
}

// paint draws the spans of one row; mask, if any, is a coverage a pixel.
func (p premultiplied) paint(line []uint8, spans []span, mask []uint8) {
	for _, s := range spans {
		if mask != nil {
			for x := s.x0; x < s.x1; x++ {
				if m := uint32(mask[x]); m > 0 {
					p.times(s.cover * m / 255).over(line[4*x:])
				}
			}
			continue
		}
		g := p.times(s.cover)
		pix := line[4*s.x0 : 4*s.x1]
		if g.rest == 0 {
			for c := p.solid(); len(pix) >= 4; pix = pix[4:] {
				binary.LittleEndian.PutUint32(pix, c)
			}
			continue
		}
		g.overAll(pix)
	}
}
