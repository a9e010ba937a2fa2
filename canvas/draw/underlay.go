package draw

import (
	"bytes"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"

	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// maxUnderlay bounds the pixels of a picture to trace: a file of few bytes can
// claim to be huge. 100 million take 400 MB. (ours)
const maxUnderlay = 100e6

// decodePicture is the underlay as an image, nil if it is none.
func decodePicture(u *plan.Underlay) image.Image {
	c, _, err := image.DecodeConfig(bytes.NewReader(u.Bytes))
	if err != nil || c.Width <= 0 || c.Height <= 0 || float64(c.Width)*float64(c.Height) > maxUnderlay {
		return nil
	}
	img, _, err := image.Decode(bytes.NewReader(u.Bytes))
	if err != nil {
		return nil
	}
	return img
}

// picture is the decoded underlay, kept in the scene's Labels between frames:
// the raster too knows a picture again by its pointer.
func (d *drawing) picture(u *plan.Underlay) image.Image {
	if len(u.Bytes) == 0 {
		return nil
	}
	l := d.s.Labels
	if l == nil {
		return decodePicture(u)
	}
	if key := &u.Bytes[0]; l.pictureOf != key {
		l.pictureOf, l.picture = key, decodePicture(u)
	}
	return l.picture
}

// SharePicture takes over the picture to trace that another view of the same
// plan has decoded, so that it is decoded once however many views there are.
func (l *Labels) SharePicture(from *Labels) {
	l.pictureOf, l.picture = from.pictureOf, from.picture
}

func (d *drawing) underlay() {
	u := d.s.Plan.Site.Underlay
	if u == nil || d.s.Show.HideUnderlay || u.Fade >= 1 || !(u.Metres > 0) {
		return
	}
	img := d.picture(u)
	if img == nil {
		return
	}
	b := img.Bounds()
	c, k := d.at(u.At), d.m(u.Metres)
	sin, cos := math.Sincos(u.Turn.Radians())
	m := pen.Affine{A: k * cos, B: k * sin, C: -k * sin, D: k * cos}
	m.E = c.X - m.A*float64(b.Dx())/2 - m.C*float64(b.Dy())/2
	m.F = c.Y - m.B*float64(b.Dx())/2 - m.D*float64(b.Dy())/2
	d.pen.Image(img, m, 1-math.Max(0, u.Fade))
}

// decodeSize is the size of the underlay in pixels, zero if it is no picture.
func decodeSize(u *plan.Underlay) image.Point {
	c, _, err := image.DecodeConfig(bytes.NewReader(u.Bytes))
	if err != nil {
		return image.Point{}
	}
	return image.Pt(c.Width, c.Height)
}
