package draw

import (
	"bytes"
	"image"
	_ "image/jpeg"
	_ "image/png"
	"math"

	"github.com/golang/geo/r2"

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

// traced is the picture to trace, decoded, and laid on the ground where it lies by measured
// points. It is kept in the scene's Labels between frames: the raster too knows a picture
// again by its pointer.
type traced struct {
	of   *byte
	img  image.Image
	by   [9]float64 // the fit it is laid by
	laid *laid
}

// laid is a picture that does not look straight down as it would look from above: north up,
// to be seen within its outline.
type laid struct {
	img     *image.RGBA
	corner  plan.Point // of its upper left corner
	metres  float64    // of one of its pixels
	outline []plan.Point
}

// maxLaid is how many pixels a picture laid on the ground has at most: more than a screen
// shows, and it is made in a fraction of a second. (ours)
const maxLaid = 4e6

// picture is the decoded underlay, nil if it is none.
func (l *traced) picture(u *plan.Underlay) image.Image {
	if len(u.Bytes) == 0 {
		return nil
	}
	if key := &u.Bytes[0]; l.of != key {
		*l = traced{of: key, img: decodePicture(u)}
	}
	return l.img
}

// lay is the picture as it lies by a fit; nil if nothing of it is to be seen.
func (l *traced) lay(f *plan.PictureFit) *laid {
	if l.by != f.H {
		l.by, l.laid = f.H, layPicture(l.img, f)
	}
	return l.laid
}

func layPicture(img image.Image, f *plan.PictureFit) *laid {
	size := img.Bounds().Size()
	outline := f.Outline(size.X, size.Y)
	box, finest := r2.EmptyRect(), math.Inf(1)
	for _, p := range outline {
		box, finest = box.AddPoint(r2.Point(p)), math.Min(finest, f.PixelM(p))
	}
	area := box.X.Length() * box.Y.Length()
	m := math.Max(finest, math.Sqrt(area/maxLaid))
	if !(area > 0) || !(m > 0) || math.IsInf(m, 1) { // no number is not
		return nil
	}
	x, y := box.X.Lo, box.Y.Hi
	b, back := f.Back(), pen.Projective{}
	for row := 0; row < 9; row += 3 { // from pixels of the new picture to the ground first
		back[row], back[row+1], back[row+2] = b[row]*m, -b[row+1]*m, b[row]*x+b[row+1]*y+b[row+2]
	}
	w, h := int(math.Ceil(box.X.Length()/m)), int(math.Ceil(box.Y.Length()/m))
	return &laid{img: pen.Warped(img, back, w, h), corner: plan.Point{X: x, Y: y}, metres: m, outline: outline}
}

// SharePicture takes over the picture to trace that another view of the same
// plan has decoded, so that it is decoded once however many views there are.
func (l *Labels) SharePicture(from *Labels) { l.traced = from.traced }

func (d *drawing) underlay() {
	u := d.s.Plan.Site.Underlay
	if u == nil || d.s.Show.HideUnderlay || u.Fade >= 1 || !(u.Metres > 0) {
		return
	}
	l := &traced{}
	if d.s.Labels != nil {
		l = &d.s.Labels.traced
	}
	img, alpha := l.picture(u), 1-math.Max(0, u.Fade)
	if img == nil {
		return
	}
	if f := u.Fit(); f != nil {
		d.laid(l.lay(f), alpha)
		return
	}
	b := img.Bounds()
	c, k := d.at(u.At), d.m(u.Metres)
	sin, cos := math.Sincos(u.Turn.Radians())
	m := pen.Affine{A: k * cos, B: k * sin, C: -k * sin, D: k * cos}
	m.E = c.X - m.A*float64(b.Dx())/2 - m.C*float64(b.Dy())/2
	m.F = c.Y - m.B*float64(b.Dx())/2 - m.D*float64(b.Dy())/2
	d.pen.Image(img, m, alpha)
	w, h := float64(b.Dx()), float64(b.Dy())
	var corners []r2.Point
	d.photo = &pen.Path{}
	for _, q := range [...]r2.Point{{}, {X: w}, {X: w, Y: h}, {Y: h}} {
		corners = append(corners, m.Apply(q))
	}
	d.photo.Polygon(corners...)
}

// laid draws a picture that lies by measured points: as much of it as its outline holds.
func (d *drawing) laid(l *laid, alpha float64) {
	if l == nil {
		return
	}
	d.photo = &pen.Path{}
	var corners []r2.Point
	for _, p := range l.outline {
		corners = append(corners, d.at(p))
	}
	d.photo.Polygon(corners...)
	d.pen.PushClip(d.photo)
	c := d.at(l.corner)
	d.pen.Image(l.img, pen.ScaleMove(d.m(l.metres), c.X, c.Y), alpha)
	d.pen.PopClip()
}

// decodeSize is the size of the underlay in pixels, zero if it is no picture.
func decodeSize(u *plan.Underlay) image.Point {
	c, _, err := image.DecodeConfig(bytes.NewReader(u.Bytes))
	if err != nil {
		return image.Point{}
	}
	return image.Pt(c.Width, c.Height)
}
