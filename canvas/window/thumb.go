package window

import (
	"bytes"
	"image"

	"golang.org/x/image/draw"

	"kedge/canvas/panel"
	"kedge/canvas/pen"
	"kedge/canvas/store"
	"kedge/solver/plan"
)

// How large Details shows a picture of evidence. (ours: a tag is told from a break)
const (
	thumbHigh  = 160 // pixels before the scale of the text
	thumbSide  = 900 // pixels that are kept of its longer side: the panel at its widest
	thumbHash  = 16  // digits of the hash that are said beside it
	thumbInset = 14
)

// thumb is the picture of evidence that Details shows, unpacked once; the worker's own.
type thumb struct {
	of  *byte
	img image.Image
}

// picture is a picture unpacked; nil: it is none, or too large.
func (t *thumb) picture(data []byte) image.Image {
	if len(data) == 0 {
		return nil
	}
	if key := &data[0]; t.of != key {
		t.of, t.img = key, unpacked(data)
	}
	return t.img
}

func unpacked(data []byte) image.Image {
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || c.Width <= 0 || c.Height <= 0 || float64(c.Width)*float64(c.Height) > store.MaxPicturePixels {
		return nil
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil
	}
	k := min(1, thumbSide/float64(max(c.Width, c.Height)))
	to := image.NewRGBA(image.Rect(0, 0, max(1, int(k*float64(c.Width))), max(1, int(k*float64(c.Height)))))
	draw.ApproxBiLinear.Scale(to, to.Rect, img, img.Bounds(), draw.Src, nil)
	return to
}

// show draws a picture of evidence with the beginning of its file's hash.
func (t *thumb) show(d *panel.Drawing, q *plan.Photo) {
	img := t.picture(q.Bytes)
	if img == nil {
		return
	}
	w, h := float64(img.Bounds().Dx()), float64(img.Bounds().Dy())
	k := min((d.W-2*d.Px(thumbInset))/w, d.Px(thumbHigh)/h)
	d.Y += d.Px(6)
	d.Pen.Image(img, pen.ScaleMove(k, d.Px(thumbInset), d.Y), 1)
	d.Y += k*h + d.Px(4)
	d.Note(q.File+" · SHA-256 "+q.Original[:min(thumbHash, len(q.Original))]+"…", d.Small(), 0)
}

// photo is the picture of the piece of evidence that is selected alone; nil: none is, or it
// has none.
func (dp *detailsPanel) photo() *plan.Photo {
	p, sel := dp.w.board.Plan(), dp.w.board.Selection()
	if r, ok := p.Rig(dp.w.board.Rig()); ok && len(sel) == 1 {
		if letter, pin := plan.RefPin(sel[0]); pin {
			if q := r.Incident.Pin(letter); q != nil {
				return p.Photo(q.Shows)
			}
		}
	}
	return nil
}
