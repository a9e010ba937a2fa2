package pen

import (
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"

	"github.com/golang/geo/r2"
)

// MarkKind says what a Mark is.
type MarkKind uint8

const (
	PathMark MarkKind = iota
	TextMark
	ImageMark
	ClipMark
	UnclipMark
)

// Mark is one primitive a Recorder was given, copied.
type Mark struct {
	Kind  MarkKind
	Path  Path  // of a path or clip
	Style Style // of a path; its hatch, if any, follows as a mark of its own
	X, Y  float64
	Text  string
	Type  TextStyle
	Image image.Image
	Place Affine
	Alpha float64
}

// Recorder is a Pen that lists what it is given, for tests that compare
// primitives instead of pixels. Hatches are resolved as on every other pen:
// the path's mark has no hatch, the hatch's lines follow as a stroked path.
// Lo and Hi bound hatches; left zero, nothing bounds them. The zero value is
// ready.
type Recorder struct {
	Marks  []Mark
	Lo, Hi r2.Point
	hatch  hatcher
	first  error
}

func (r *Recorder) fail() {
	if r.first == nil {
		r.first = ErrNotFinite
	}
}

// Err implements Pen.
func (r *Recorder) Err() error { return r.first }

// Path implements Pen. A path that would draw nothing is not listed.
func (r *Recorder) Path(p *Path, s *Style) {
	if p.Bounds().IsEmpty() {
		if !p.Empty() {
			r.fail()
		}
		return
	}
	base := *s
	base.Dash = append([]float64(nil), s.Dash...)
	base.Hatch = Hatch{}
	if s.Hatch.on() {
		if s.Fill.A > 0 {
			fill := Style{Fill: s.Fill}
			r.Marks = append(r.Marks, Mark{Kind: PathMark, Path: clonePath(p), Style: fill})
			base.Fill.A = 0
		}
		lo, hi := r.Lo, r.Hi
		if lo == hi {
			lo, hi = r2.Point{X: math.Inf(-1), Y: math.Inf(-1)}, r2.Point{X: math.Inf(1), Y: math.Inf(1)}
		}
		r.hatch.draw(r, p, &s.Hatch, lo, hi)
	}
	if base.Fill.A > 0 || base.stroked() {
		r.Marks = append(r.Marks, Mark{Kind: PathMark, Path: clonePath(p), Style: base})
	}
}

func clonePath(p *Path) (c Path) {
	c.Append(p, Identity())
	return c
}

// Text implements Pen.
func (r *Recorder) Text(x, y float64, text string, t *TextStyle) {
	if !finite(x) || !finite(y) || !finite(t.Size) || !finite(t.RotateDeg) {
		r.fail()
		return
	}
	r.Marks = append(r.Marks, Mark{Kind: TextMark, X: x, Y: y, Text: text, Type: *t})
}

// Image implements Pen.
func (r *Recorder) Image(img image.Image, m Affine, alpha float64) {
	if !m.finite() || !finite(alpha) {
		r.fail()
		return
	}
	r.Marks = append(r.Marks, Mark{Kind: ImageMark, Image: img, Place: m, Alpha: alpha})
}

// PushClip implements Pen.
func (r *Recorder) PushClip(p *Path) {
	r.Marks = append(r.Marks, Mark{Kind: ClipMark, Path: clonePath(p)})
}

// PopClip implements Pen.
func (r *Recorder) PopClip() { r.Marks = append(r.Marks, Mark{Kind: UnclipMark}) }

// Texts lists the texts written, in order.
func (r *Recorder) Texts() []string {
	var all []string
	for _, m := range r.Marks {
		if m.Kind == TextMark {
			all = append(all, m.Text)
		}
	}
	return all
}

// String has one line a mark, coordinates to a thousandth of a unit: short
// enough to compare whole drawings.
func (r *Recorder) String() string {
	var b strings.Builder
	for i := range r.Marks {
		m := &r.Marks[i]
		switch m.Kind {
		case PathMark:
			b.WriteString("path")
			writeSteps(&b, &m.Path)
			writeStyle(&b, &m.Style)
		case TextMark:
			fmt.Fprintf(&b, "text %s %s %q size %s %s", short(m.X), short(m.Y), m.Text, short(m.Type.Size), colourName(m.Type.Colour))
			if m.Type.Bold {
				b.WriteString(" bold")
			}
			if m.Type.Anchor != Start {
				b.WriteString([...]string{"", " middle", " end"}[m.Type.Anchor%3])
			}
			if m.Type.RotateDeg != 0 {
				b.WriteString(" turned " + short(m.Type.RotateDeg))
			}
		case ImageMark:
			p := m.Place
			fmt.Fprintf(&b, "image %v by %s %s %s %s %s %s alpha %s", m.Image.Bounds().Size(),
				short(p.A), short(p.B), short(p.C), short(p.D), short(p.E), short(p.F), short(m.Alpha))
		case ClipMark:
			b.WriteString("clip")
			writeSteps(&b, &m.Path)
		case UnclipMark:
			b.WriteString("unclip")
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func writeStyle(b *strings.Builder, s *Style) {
	if s.Fill.A > 0 {
		b.WriteString(" fill " + colourName(s.Fill))
	}
	if !s.stroked() {
		return
	}
	b.WriteString(" stroke " + colourName(s.Stroke) + " width " + short(s.Width))
	if s.Cap != ButtCap || s.Join != MiterJoin {
		fmt.Fprintf(b, " cap %d join %d", s.Cap, s.Join)
	}
	if len(s.Dash) > 0 {
		b.WriteString(" dash")
		for _, d := range s.Dash {
			b.WriteString(" " + short(d))
		}
		b.WriteString(" from " + short(s.DashOffset))
	}
}

func writeSteps(b *strings.Builder, p *Path) {
	p.Each(func(v Verb, pts []r2.Point) {
		b.WriteByte(' ')
		b.WriteByte("MLQCZ"[v])
		for i, q := range pts {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(short(q.X) + "," + short(q.Y))
		}
	})
}

// colourName is #rrggbb, with the alpha added unless opaque.
func colourName(n color.NRGBA) string {
	if n.A == 255 {
		return fmt.Sprintf("#%02x%02x%02x", n.R, n.G, n.B)
	}
	return fmt.Sprintf("#%02x%02x%02x%02x", n.R, n.G, n.B, n.A)
}
