package pen

import "image/color"

// Cap is how an open end of a stroke, and of each dash, looks.
type Cap uint8

const (
	ButtCap Cap = iota
	RoundCap
	SquareCap
)

// Join is how two pieces of a stroke meet.
type Join uint8

const (
	MiterJoin Join = iota // pointed up to MiterLimit, bevelled beyond
	RoundJoin
	BevelJoin
)

// MiterLimit is the longest miter, in stroke widths, on every pen (SVG's
// default; PDF and the raster are set to it).
const MiterLimit = 4

// Style is how a path is drawn: fill first, then hatch, then stroke. The zero
// value draws nothing. Colours are not premultiplied; alpha 0 means none.
// Lengths are pen units.
type Style struct {
	Fill  color.NRGBA
	Hatch Hatch

	Stroke color.NRGBA
	Width  float64 // of the stroke; 0 or less draws no stroke
	Cap    Cap
	Join   Join
	// Dash lists drawn and blank lengths in turn, starting anew with each
	// contour; an odd list is used twice over. Empty, or without any positive
	// length, is a solid line. DashOffset is how far into the list a contour
	// starts.
	Dash       []float64
	DashOffset float64
	// Apart says that no two contours of the path touch each other and each is
	// one straight step, as the lines of a hatch are: a raster draws them
	// faster. Where it is not so they are still drawn, but a translucent colour
	// is laid twice where two meet.
	Apart bool
}

// Hatch fills an outline with parallel lines or with dots. It is resolved into
// plain paths before a pen sees it, so that all pens draw the same lines.
// The zero value is no hatch.
type Hatch struct {
	Colour   color.NRGBA
	AngleDeg float64 // of the lines, counter-clockwise as seen
	Spacing  float64 // between lines or dots; 0 is no hatch
	Width    float64 // of a line, or diameter of a dot
	Dots     bool
	// OriginX, OriginY is a point the pattern passes through: tie it to the
	// ground and the pattern moves with the drawing.
	OriginX, OriginY float64
}

func (h *Hatch) on() bool {
	return h.Colour.A > 0 && h.Spacing > 0 && h.Width > 0 &&
		finite(h.AngleDeg) && finite(h.Spacing) && finite(h.OriginX) && finite(h.OriginY)
}

func (s *Style) stroked() bool { return s.Stroke.A > 0 && s.Width > 0 && finite(s.Width) }

// dashes returns the pattern to use and its period, nil for a solid line.
func (s *Style) dashes() (pattern []float64, period float64) {
	for _, d := range s.Dash {
		if d < 0 || !finite(d) {
			return nil, 0
		}
		period += d
	}
	if period <= 0 || !finite(s.DashOffset) {
		return nil, 0
	}
	return s.Dash, period
}

// scaled is the style with all lengths times k; dash uses the given memory.
func (s *Style) scaled(k float64, dash []float64) Style {
	c := *s
	c.Width *= k
	c.DashOffset *= k
	c.Hatch.Spacing *= k
	c.Hatch.Width *= k
	if len(s.Dash) > 0 {
		c.Dash = dash[:0]
		for _, d := range s.Dash {
			c.Dash = append(c.Dash, d*k)
		}
	}
	return c
}
