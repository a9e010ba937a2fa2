package draw

import (
	"image"

	"kedge/canvas/pen"
)

// fadePen draws everything translucent on another pen.
type fadePen struct {
	pen.Pen
	alpha float64
}

func (f *fadePen) Path(p *pen.Path, s *pen.Style) {
	c := *s
	c.Fill, c.Stroke, c.Hatch.Colour = faded(s.Fill, f.alpha), faded(s.Stroke, f.alpha), faded(s.Hatch.Colour, f.alpha)
	f.Pen.Path(p, &c)
}

func (f *fadePen) Text(x, y float64, text string, t *pen.TextStyle) {
	c := *t
	c.Colour, c.Halo = faded(t.Colour, f.alpha), faded(t.Halo, f.alpha)
	f.Pen.Text(x, y, text, &c)
}

func (f *fadePen) Image(img image.Image, m pen.Affine, alpha float64) {
	f.Pen.Image(img, m, alpha*f.alpha)
}
