package panel

import (
	"encoding/binary"
	"hash"
	"hash/fnv"
	"image"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
)

// digest is a pen that draws nothing: it sums up what it is given, so that a
// panel whose drawing is the same as before need not be rasterised.
type digest struct {
	h   hash.Hash64
	buf [8]byte
}

func newDigest() *digest { return &digest{h: fnv.New64a()} }

func (t *digest) number(v uint64) {
	binary.LittleEndian.PutUint64(t.buf[:], v)
	_, _ = t.h.Write(t.buf[:]) // a hash takes everything
}

func (t *digest) floats(vs ...float64) {
	for _, v := range vs {
		t.number(math.Float64bits(v))
	}
}

func (t *digest) path(p *pen.Path) {
	p.Each(func(v pen.Verb, pts []r2.Point) {
		t.number(uint64(v))
		for _, q := range pts {
			t.floats(q.X, q.Y)
		}
	})
}

// Path implements pen.Pen.
func (t *digest) Path(p *pen.Path, s *pen.Style) {
	t.path(p)
	for _, c := range [...]struct{ R, G, B, A uint8 }{
		{s.Fill.R, s.Fill.G, s.Fill.B, s.Fill.A}, {s.Stroke.R, s.Stroke.G, s.Stroke.B, s.Stroke.A},
		{s.Hatch.Colour.R, s.Hatch.Colour.G, s.Hatch.Colour.B, s.Hatch.Colour.A},
	} {
		t.number(uint64(c.R)<<24 | uint64(c.G)<<16 | uint64(c.B)<<8 | uint64(c.A))
	}
	t.floats(s.Width, s.DashOffset, s.Hatch.AngleDeg, s.Hatch.Spacing, s.Hatch.Width)
	t.floats(s.Dash...)
}

// Text implements pen.Pen.
func (t *digest) Text(x, y float64, text string, s *pen.TextStyle) {
	t.floats(x, y, s.Size, s.RotateDeg)
	t.number(uint64(s.Anchor)<<40 | uint64(s.Colour.R)<<24 | uint64(s.Colour.G)<<16 | uint64(s.Colour.B)<<8 | uint64(s.Colour.A))
	if s.Bold {
		t.number(1)
	}
	_, _ = t.h.Write([]byte(text))
	t.number(uint64(len(text)))
}

// Image implements pen.Pen.
func (t *digest) Image(_ image.Image, m pen.Affine, alpha float64) { t.floats(alpha) }

// PushClip implements pen.Pen.
func (t *digest) PushClip(p *pen.Path) { t.path(p) }

// PopClip implements pen.Pen.
func (t *digest) PopClip() { t.number(2) }

// Err implements pen.Pen.
func (t *digest) Err() error { return nil }
