package pen

import (
	"image"

	"github.com/golang/geo/r2"
)

// Pen draws primitives in the order it is given them. A pen belongs to one
// goroutine. It keeps nothing of its arguments after a call, pictures apart,
// which must not change before the pen is finished.
type Pen interface {
	// Path fills, hatches and strokes p as s says.
	Path(p *Path, s *Style)
	// Text writes one line with its baseline at (x, y); see TextStyle.
	Text(x, y float64, text string, t *TextStyle)
	// Image draws a picture; m maps its pixels (y down, first pixel's corner at
	// the origin) to pen units, alpha 0 to 1 is its opacity.
	Image(img image.Image, m Affine, alpha float64)
	// PushClip keeps what follows inside p (non-zero) and inside all clips
	// already in force, until PopClip. A raster snaps an upright rectangle to
	// whole pixels.
	PushClip(p *Path)
	// PopClip takes the last clip away; without one it does nothing.
	PopClip()
	// Err is the first reason why something was left out: a coordinate that is
	// not finite, a picture that could not be encoded. Nil if all was drawn.
	Err() error
}

// ClipRect pushes an upright rectangle as clip.
func ClipRect(pen Pen, x, y, w, h float64) {
	var p Path
	p.Rect(x, y, w, h)
	pen.PushClip(&p)
}

// ImageBox draws img into the box with top left corner (x, y), turned by
// rotateDeg counter-clockwise about the box's centre.
func ImageBox(pen Pen, img image.Image, x, y, w, h, rotateDeg, alpha float64) {
	b := img.Bounds()
	if b.Empty() {
		return
	}
	pen.Image(img, BoxAffine(b.Dx(), b.Dy(), x, y, w, h, rotateDeg), alpha)
}

// At is a pen that draws on the given one with coordinates and all lengths
// times scale, moved by (dx, dy): a figure drawn in its own units placed on a
// sheet in millimetres.
func At(on Pen, scale, dx, dy float64) Pen {
	return &placed{on: on, m: ScaleMove(scale, dx, dy), scale: scale}
}

type placed struct {
	on    Pen
	m     Affine
	scale float64
	path  Path
	dash  []float64
}

func (a *placed) mapped(p *Path) *Path {
	a.path.Reset()
	a.path.Append(p, a.m)
	return &a.path
}

func (a *placed) Path(p *Path, s *Style) {
	c := s.scaled(a.scale, a.dash)
	if len(c.Dash) > 0 {
		a.dash = c.Dash
	}
	o := a.m.Apply(r2.Point{X: s.Hatch.OriginX, Y: s.Hatch.OriginY})
	c.Hatch.OriginX, c.Hatch.OriginY = o.X, o.Y
	a.on.Path(a.mapped(p), &c)
}

func (a *placed) Text(x, y float64, text string, t *TextStyle) {
	c := *t
	c.Size *= a.scale
	c.HaloWidth *= a.scale
	p := a.m.Apply(r2.Point{X: x, Y: y})
	a.on.Text(p.X, p.Y, text, &c)
}

func (a *placed) Image(img image.Image, m Affine, alpha float64) {
	a.on.Image(img, a.m.After(m), alpha)
}

func (a *placed) PushClip(p *Path) { a.on.PushClip(a.mapped(p)) }
func (a *placed) PopClip()         { a.on.PopClip() }
func (a *placed) Err() error       { return a.on.Err() }
