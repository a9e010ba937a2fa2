package pen

import (
	"bytes"
	"image"
	"image/color"
	"math"

	"kedge/solver/quantity"

	"codeberg.org/go-pdf/fpdf"
)

// Text implements Pen. A halo is marked as having no text of its own, so that
// the text is found once.
func (p *PDF) Text(x, y float64, text string, t *TextStyle) {
	if !p.onPage() {
		return
	}
	if !finite(x) || !finite(y) || !finite(t.Size) || !finite(t.RotateDeg) {
		p.fail(ErrNotFinite)
		return
	}
	f, err := faceOf(t.Bold)
	if err != nil {
		p.fail(err)
		return
	}
	if t.Size <= 0 || text == "" {
		return
	}
	sin, cos := quantity.Degrees(t.RotateDeg).SinCos()
	along, k := f.startShift(text, t.Anchor)*t.Size, t.Size/pdfTextSize
	place := Affine{A: k * cos, B: -k * sin, C: -k * sin, D: -k * cos, E: x + cos*along, F: y - sin*along}
	write := func(c color.NRGBA, op, how string, strokeWidth float64) {
		p.setAlpha(c.A)
		p.setFont(t.Bold)
		p.buf = append(p.buf, "q "...)
		p.matrix(place)
		p.colour(c, op)
		if strokeWidth > 0 {
			p.num(strokeWidth / k)
			p.buf = append(p.buf, "w "...)
		}
		p.buf = append(p.buf, how...)
		p.flush()
		p.doc.Text(0, p.h, f.shown(text)) // the origin, in fpdf's y up
		p.doc.RawWriteStr("Q")
	}
	if t.haloed() {
		// Letters as outlines only; read aloud and searched for as nothing.
		p.doc.RawWriteStr("/Span <</ActualText <FEFF>>> BDC")
		write(t.Halo, "RG", "1 Tr 1 J 1 j [] 0 d", 2*t.HaloWidth)
		p.doc.RawWriteStr("EMC")
	}
	if t.Colour.A > 0 {
		write(t.Colour, "rg", "", 0)
	}
}

// Image implements Pen.
func (p *PDF) Image(img image.Image, m Affine, alpha float64) {
	b := img.Bounds()
	if !p.onPage() || b.Empty() || alpha <= 0 {
		return
	}
	if !m.finite() || !finite(alpha) {
		p.fail(ErrNotFinite)
		return
	}
	name, kind, data, w, err := p.photos.add(img)
	if err != nil {
		p.fail(err)
		return
	}
	if data != nil {
		p.doc.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: kind}, bytes.NewReader(data))
	}
	p.setAlpha(uint8(math.Round(math.Min(alpha, 1) * 255)))
	// A PDF picture fills the unit square, y up.
	p.buf = append(p.buf, "q "...)
	p.matrix(m.After(Affine{A: float64(w), D: -float64(b.Dy()), F: float64(b.Dy())}))
	p.flush()
	const unit = 1 / pointsPerMM
	p.doc.ImageOptions(name, 0, p.h-unit, unit, unit, false, fpdf.ImageOptions{ImageType: kind}, 0, "")
	p.doc.RawWriteStr("Q")
}
