package pen

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"io"
	"slices"
	"strings"

	"github.com/golang/geo/r2"
)

// SVG writes one page in millimetres, y down. Text is text in the embedded
// font, of which the file carries the letters used; with TextAsOutlines it is
// drawn as paths, for programs that ignore fonts in files. The same calls give
// the same bytes.
type SVG struct {
	// TextAsOutlines draws texts as paths. Set it before drawing.
	TextAsOutlines bool
	// Title names the page for readers and screen readers.
	Title string

	w, h  float64
	body  bytes.Buffer
	clips int // clip paths defined
	open  int // groups open
	used  [2]map[rune]bool
	hatch hatcher
	text  Path
	first error
}

// NewSVG starts a page of the given size in mm.
func NewSVG(widthMM, heightMM float64) *SVG {
	s := &SVG{w: widthMM, h: heightMM, used: [2]map[rune]bool{{}, {}}}
	if !(widthMM > 0) || !(heightMM > 0) || !finite(widthMM) || !finite(heightMM) {
		s.fail(fmt.Errorf("pen: SVG: page of %g × %g mm", widthMM, heightMM))
	}
	return s
}

func (s *SVG) fail(err error) {
	if s.first == nil {
		s.first = err
	}
}

// Err implements Pen.
func (s *SVG) Err() error { return s.first }

// Path implements Pen.
func (s *SVG) Path(p *Path, style *Style) {
	if p.Bounds().IsEmpty() {
		if !p.Empty() {
			s.fail(ErrNotFinite)
		}
		return
	}
	fill, stroke, hatch := style.Fill.A > 0, style.stroked(), style.Hatch.on()
	if hatch {
		if fill {
			s.element(p, &Style{Fill: style.Fill})
		}
		s.hatch.draw(s, p, &style.Hatch, r2.Point{}, r2.Point{X: s.w, Y: s.h})
		fill = false
	}
	if fill || stroke {
		line := *style
		if !fill {
			line.Fill = color.NRGBA{}
		}
		s.element(p, &line)
	}
}

func (s *SVG) element(p *Path, style *Style) {
	s.body.WriteString("<path")
	s.paint("fill", style.Fill)
	if style.stroked() {
		s.paint("stroke", style.Stroke)
		s.attr("stroke-width", short(style.Width))
		if style.Cap != ButtCap {
			s.attr("stroke-linecap", [...]string{"butt", "round", "square"}[style.Cap%3])
		}
		if style.Join != MiterJoin {
			s.attr("stroke-linejoin", [...]string{"miter", "round", "bevel"}[style.Join%3])
		}
		if pattern, _ := style.dashes(); pattern != nil {
			var list []string
			for _, d := range pattern {
				list = append(list, short(d))
			}
			s.attr("stroke-dasharray", strings.Join(list, " "))
			if style.DashOffset != 0 {
				s.attr("stroke-dashoffset", short(style.DashOffset))
			}
		}
	}
	s.data(p)
	s.body.WriteString("/>\n")
}

func (s *SVG) data(p *Path) {
	s.body.WriteString(` d="`)
	p.Each(func(v Verb, pts []r2.Point) {
		s.body.WriteByte("MLQCZ"[v])
		for i, q := range pts {
			if i > 0 {
				s.body.WriteByte(' ')
			}
			s.body.WriteString(short(q.X) + " " + short(q.Y))
		}
	})
	s.body.WriteByte('"')
}

func (s *SVG) attr(name, value string) {
	fmt.Fprintf(&s.body, ` %s="%s"`, name, escapeXML(value))
}

// paint writes a colour; alpha 0 is none.
func (s *SVG) paint(name string, c color.NRGBA) {
	if c.A == 0 {
		s.attr(name, "none")
		return
	}
	s.attr(name, fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B))
	if c.A < 255 {
		s.attr(name+"-opacity", short(float64(c.A)/255))
	}
}

// escapeXML also drops what XML 1.0 does not allow at all.
func escapeXML(text string) string {
	var b strings.Builder
	for _, c := range text {
		switch {
		case c == '&':
			b.WriteString("&amp;")
		case c == '<':
			b.WriteString("&lt;")
		case c == '>':
			b.WriteString("&gt;")
		case c == '"':
			b.WriteString("&quot;")
		case c < 0x20 && c != '\t' && c != '\n' && c != '\r', c == 0xFFFE, c == 0xFFFF:
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

// svgFamily names the embedded letters; programs that ignore them fall back to
// the same face where it is installed.
const svgFamily = "'Kedge Sans','Noto Sans',sans-serif"

// Text implements Pen.
func (s *SVG) Text(x, y float64, text string, t *TextStyle) {
	if !finite(x) || !finite(y) || !finite(t.Size) || !finite(t.RotateDeg) {
		s.fail(ErrNotFinite)
		return
	}
	f, err := faceOf(t.Bold)
	if err != nil {
		s.fail(err)
		return
	}
	if t.Size <= 0 || text == "" {
		return
	}
	text = f.shown(text)
	if s.TextAsOutlines {
		s.outlined(x, y, text, t)
		return
	}
	weight := 0
	s.body.WriteString("<text")
	s.attr("x", short(x))
	s.attr("y", short(y))
	s.attr("font-size", short(t.Size))
	if t.Bold {
		weight = 1
		s.attr("font-weight", "700")
	}
	if t.Anchor != Start {
		s.attr("text-anchor", [...]string{"start", "middle", "end"}[t.Anchor%3])
	}
	if t.RotateDeg != 0 {
		s.attr("transform", fmt.Sprintf("rotate(%s %s %s)", short(-t.RotateDeg), short(x), short(y)))
	}
	s.paint("fill", t.Colour)
	if t.haloed() {
		s.paint("stroke", t.Halo)
		s.attr("stroke-width", short(2*t.HaloWidth))
		s.attr("stroke-linejoin", "round")
		s.attr("paint-order", "stroke")
	}
	s.body.WriteString(">" + escapeXML(text) + "</text>\n")
	for _, c := range text {
		s.used[weight][c] = true
	}
}

func (s *SVG) outlined(x, y float64, text string, t *TextStyle) {
	s.text.Reset()
	if err := TextPath(&s.text, x, y, text, t); err != nil {
		s.fail(err)
		return
	}
	s.body.WriteString(`<g role="img"`)
	s.attr("aria-label", text)
	s.body.WriteString(">\n")
	if t.haloed() {
		s.element(&s.text, &Style{Stroke: t.Halo, Width: 2 * t.HaloWidth, Cap: RoundCap, Join: RoundJoin})
	}
	s.element(&s.text, &Style{Fill: t.Colour})
	s.body.WriteString("</g>\n")
}

// Image implements Pen.
func (s *SVG) Image(img image.Image, m Affine, alpha float64) {
	b := img.Bounds()
	if b.Empty() || alpha <= 0 {
		return
	}
	if !m.finite() || !finite(alpha) {
		s.fail(ErrNotFinite)
		return
	}
	data, kind, err := encodePicture(img)
	if err != nil {
		s.fail(err)
		return
	}
	mime := map[string]string{"png": "image/png", "jpg": "image/jpeg"}[kind]
	fmt.Fprintf(&s.body, `<image width="%d" height="%d" preserveAspectRatio="none"`, b.Dx(), b.Dy())
	s.attr("transform", fmt.Sprintf("matrix(%.7g %.7g %.7g %.7g %.7g %.7g)", m.A, m.B, m.C, m.D, m.E, m.F))
	if alpha < 1 {
		s.attr("opacity", short(alpha))
	}
	s.body.WriteString(` href="data:` + mime + `;base64,`)
	s.body.WriteString(base64.StdEncoding.EncodeToString(data))
	s.body.WriteString("\"/>\n")
}

// PushClip implements Pen.
func (s *SVG) PushClip(p *Path) {
	s.clips++
	s.open++
	fmt.Fprintf(&s.body, `<defs><clipPath id="clip%d">`, s.clips)
	if !p.Bounds().IsEmpty() {
		s.body.WriteString("<path")
		s.data(p)
		s.body.WriteString("/>")
	} else if !p.Empty() {
		s.fail(ErrNotFinite)
	}
	fmt.Fprintf(&s.body, "</clipPath></defs>\n<g clip-path=\"url(#clip%d)\">\n", s.clips)
}

// PopClip implements Pen.
func (s *SVG) PopClip() {
	if s.open > 0 {
		s.open--
		s.body.WriteString("</g>\n")
	}
}

// WriteTo ends the page and writes it; a page with Err is refused.
func (s *SVG) WriteTo(w io.Writer) (int64, error) {
	for s.open > 0 {
		s.PopClip()
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"+
		"<svg xmlns=\"http://www.w3.org/2000/svg\" xml:space=\"preserve\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" fill=\"none\" stroke-miterlimit=\"%d\">\n",
		short(s.w), short(s.h), short(s.w), short(s.h), MiterLimit)
	if s.Title != "" {
		out.WriteString("<title>" + escapeXML(s.Title) + "</title>\n")
	}
	if err := s.letters(&out); err != nil {
		s.fail(err)
	}
	if s.first != nil {
		return 0, s.first
	}
	out.Write(s.body.Bytes())
	out.WriteString("</svg>\n")
	n, err := w.Write(out.Bytes())
	return int64(n), err
}

// letters writes the style sheet with the subset of each weight in use.
func (s *SVG) letters(out *bytes.Buffer) error {
	if len(s.used[0])+len(s.used[1]) == 0 {
		return nil
	}
	out.WriteString("<style>\n")
	for weight, used := range s.used {
		if len(used) == 0 {
			continue
		}
		f, err := faceOf(weight == 1)
		if err != nil {
			return err
		}
		runes := make([]rune, 0, len(used))
		for c := range used {
			runes = append(runes, c)
		}
		slices.Sort(runes)
		file, err := cutFont(f.file, runes, nil)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "@font-face{font-family:'Kedge Sans';font-weight:%d;src:url(data:font/ttf;base64,%s)}\n",
			[...]int{400, 700}[weight], base64.StdEncoding.EncodeToString(file))
	}
	out.WriteString("text{font-family:" + svgFamily + ";white-space:pre;font-kerning:none}\n</style>\n")
	return nil
}
