package pen

import "image/color"

// premultiplied is a colour times its alpha, each 0 to 65535.
type premultiplied struct{ r, g, b, a uint32 }

func premultiply(c color.NRGBA) premultiplied {
	a := uint32(c.A) * 257
	times := func(v uint8) uint32 { return uint32(v) * 257 * uint32(c.A) / 255 }
	return premultiplied{times(c.R), times(c.G), times(c.B), a}
}

// times is the colour at a coverage of 0 to 255.
func (p premultiplied) times(cover uint32) premultiplied {
	if cover == 255 {
		return p
	}
	return premultiplied{p.r * cover / 255, p.g * cover / 255, p.b * cover / 255, p.a * cover / 255}
}

// over draws the colour over one pixel.
//
//	out = source + below · (1 − source alpha)
func (p *premultiplied) over(pix []uint8) {
	rest := (65535 - p.a) * 257
	pix = pix[:4:4]
	pix[0] = uint8((p.r + (uint32(pix[0]) * rest >> 16)) >> 8)
	pix[1] = uint8((p.g + (uint32(pix[1]) * rest >> 16)) >> 8)
	pix[2] = uint8((p.b + (uint32(pix[2]) * rest >> 16)) >> 8)
	pix[3] = uint8((p.a + (uint32(pix[3]) * rest >> 16)) >> 8)
}

// paint draws the spans of one row; mask, if any, is a coverage a pixel.
func (p premultiplied) paint(line []uint8, spans []span, mask []uint8) {
	for _, s := range spans {
		if mask != nil {
			for x := s.x0; x < s.x1; x++ {
				if m := uint32(mask[x]); m > 0 {
					c := p.times(s.cover * m / 255)
					c.over(line[4*x:])
				}
			}
			continue
		}
		c := p.times(s.cover)
		pix := line[4*s.x0 : 4*s.x1]
		if c.a == 65535 {
			r, g, b := uint8(c.r/257), uint8(c.g/257), uint8(c.b/257)
			for i := 0; i+4 <= len(pix); i += 4 {
				pix[i], pix[i+1], pix[i+2], pix[i+3] = r, g, b, 255
			}
			continue
		}
		for i := 0; i+4 <= len(pix); i += 4 {
			c.over(pix[i:])
		}
	}
}
