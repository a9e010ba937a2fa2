package draw

import (
	"image/color"
	"math"
)

// Contrast is the contrast ratio of two opaque colours, 1 to 21.
//
//	(L₁ + 0.05) / (L₂ + 0.05), L the relative luminance   (WCAG 2.1)
func Contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	if la < lb {
		la, lb = lb, la
	}
	return (la + 0.05) / (lb + 0.05)
}

func luminance(c color.NRGBA) float64 {
	part := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 { // sRGB, IEC 61966-2-1
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func faded(c color.NRGBA, alpha float64) color.NRGBA {
	c.A = uint8(float64(c.A)*alpha + 0.5)
	return c
}
