package pen

import (
	"bytes"
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"
	"slices"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"github.com/golang/geo/r2"

	"kedge/solver/quantity"
)

// PDF writes pages in millimetres, y down. Lines are as wide on paper as they
// say, text is text (searchable, in the embedded font's subset), and viewers
// are asked to print at actual size. The same calls give the same bytes.
type PDF struct {
	doc    *fpdf.Fpdf
	first  error
	pages  int
	h      float64 // of the page, mm
	state  pdfState
	saved  []pdfState
	hatch  hatcher
	buf    []byte
	photos pdfPhotos
	marks  []bookmark
	ended  bool
	lo, hi r2.Point
}

// pdfState is what is set in the page's graphics state, saved with clips.
type pdfState struct {
	font   string
	alpha  uint8
	stroke string
}

// About is what a document says about itself. When is its date of creation;
// zero is 1 January 2000, UTC, so that documents do not depend on the clock.
type About struct {
	Title, Subject, Author, Keywords, Creator string
	Language                                  string // as in "en-GB"
	When                                      time.Time
}

const (
	pointsPerMM = 72 / 25.4
	// pdfTextSize is the size fonts are set at, in text units; each text is
	// scaled from it, because fpdf rounds sizes and places to 0.01 pt.
	pdfTextSize = 10.0
)

// ErrNoPage says that something was drawn before NewPage.
var ErrNoPage = errors.New("pen: PDF: drawn before the first page")

// NewPDF starts a document without pages.
func NewPDF(about About) *PDF {
	p := &PDF{}
	doc := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", SizeStr: "A4"})
	p.doc = doc
	when := about.When
	if when.IsZero() {
		when = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	doc.SetCatalogSort(true)
	doc.SetCreationDate(when.UTC())
	doc.SetModificationDate(when.UTC())
	doc.SetProducer("Kedge", true)
	for _, e := range []struct {
		text string
		set  func(string, bool)
	}{
		{about.Title, doc.SetTitle}, {about.Subject, doc.SetSubject}, {about.Author, doc.SetAuthor},
		{about.Keywords, doc.SetKeywords}, {about.Creator, doc.SetCreator},
	} {
		if e.text != "" {
			e.set(quantity.OneLine(e.text), true)
		}
	}
	if isLanguage(about.Language) {
		doc.SetLang(about.Language)
	}
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	both, err := faces()
	if err != nil {
		p.fail(err)
		return p
	}
	doc.AddUTF8FontFromBytes(pdfFamily, "", slices.Clone(both[0].file))
	doc.AddUTF8FontFromBytes(pdfFamily, "B", slices.Clone(both[1].file))
	return p
}

const pdfFamily = "notosans"

// isLanguage keeps what would end the string it is written into out of it.
func isLanguage(tag string) bool {
	for _, c := range tag {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return tag != ""
}

func (p *PDF) fail(err error) {
	if p.first == nil {
		p.first = err
	}
}

// Err implements Pen.
func (p *PDF) Err() error {
	if p.first == nil && p.doc.Err() {
		return fmt.Errorf("pen: PDF: %w", p.doc.Error())
	}
	return p.first
}

// NewPage starts a page of the given size in mm. Clips end with their page.
func (p *PDF) NewPage(widthMM, heightMM float64) {
	if !(widthMM > 0) || !(heightMM > 0) || !finite(widthMM) || !finite(heightMM) {
		p.fail(fmt.Errorf("pen: PDF: page of %g × %g mm", widthMM, heightMM))
		return
	}
	p.endPage()
	p.doc.AddPageFormat("P", fpdf.SizeType{Wd: widthMM, Ht: heightMM})
	p.pages++
	p.h = heightMM
	p.lo, p.hi = r2.Point{}, r2.Point{X: widthMM, Y: heightMM}
	p.state = pdfState{alpha: 255}
	// From here on a unit is a millimetre and y runs down.
	p.buf = append(p.buf[:0], "q "...)
	p.matrix(Affine{A: pointsPerMM, D: -pointsPerMM, F: heightMM * pointsPerMM})
	p.buf = strconv.AppendInt(p.buf, MiterLimit, 10)
	p.buf = append(p.buf, " M"...)
	p.flush()
}

func (p *PDF) endPage() {
	if p.pages == 0 {
		return
	}
	for range p.saved {
		p.doc.RawWriteStr("Q")
	}
	p.saved = p.saved[:0]
	p.doc.RawWriteStr("Q")
}

func (p *PDF) onPage() bool {
	if p.pages == 0 {
		p.fail(ErrNoPage)
	}
	return p.pages > 0 && !p.doc.Err()
}

// bookmark is kept to the end: fpdf places it by the height of the last page.
type bookmark struct {
	text        string
	level, page int
	h           float64
}

// Bookmark adds an entry to the document's outline that leads to the top of
// the page begun last. Level 0 is the top; one more than a level deeper than
// the entry before is brought to that.
func (p *PDF) Bookmark(text string, level int) {
	if !p.onPage() {
		return
	}
	deepest := 0
	if n := len(p.marks); n > 0 {
		deepest = p.marks[n-1].level + 1
	}
	p.marks = append(p.marks, bookmark{text, max(0, min(level, deepest)), p.pages, p.h})
}

func (p *PDF) putBookmarks() {
	if len(p.marks) == 0 {
		return
	}
	p.setFont(false) // a UTF-8 font makes fpdf write titles in UTF-16
	for _, m := range p.marks {
		p.doc.SetPage(m.page)
		y := p.h - m.h
		if y == -1 {
			y = math.Nextafter(y, 0) // fpdf takes -1 for "here"
		}
		p.doc.Bookmark(m.text, m.level, y)
	}
	p.doc.SetPage(p.pages)
}

// Bytes ends the document and returns it.
func (p *PDF) Bytes() ([]byte, error) {
	var out bytes.Buffer
	if _, err := p.WriteTo(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// WriteTo ends the document and writes it. An empty one, or one with Err, is
// refused: a sheet with something missing must not look finished.
func (p *PDF) WriteTo(w io.Writer) (int64, error) {
	if p.pages == 0 {
		p.fail(errors.New("pen: PDF: no page"))
	}
	if err := p.Err(); err != nil {
		return 0, err
	}
	if p.ended {
		return 0, errors.New("pen: PDF: document was already written")
	}
	p.putBookmarks()
	p.endPage()
	p.ended = true
	var raw bytes.Buffer
	if err := p.doc.Output(&raw); err != nil {
		return 0, fmt.Errorf("pen: PDF: %w", err)
	}
	file, err := actualSize(raw.Bytes())
	if err != nil {
		return 0, err
	}
	n, err := w.Write(file)
	return int64(n), err
}

// actualSize adds the viewer preference not to scale when printing
// (ISO 32000-1, table 150; since PDF 1.6). The catalog is the last object, so
// only the place of the cross-reference table moves.
func actualSize(file []byte) ([]byte, error) {
	const catalog, start = "/Type /Catalog\n", "startxref\n"
	const entry = "/ViewerPreferences <</PrintScaling /None>>\n"
	at, from := bytes.LastIndex(file, []byte(catalog)), bytes.LastIndex(file, []byte(start))
	if !bytes.HasPrefix(file, []byte("%PDF-1.")) || at < 0 || from < at {
		return nil, errors.New("pen: PDF: catalog not found")
	}
	at += len(catalog)
	from += len(start)
	end := bytes.IndexByte(file[from:], '\n')
	if end < 0 {
		return nil, errors.New("pen: PDF: cross-reference not found")
	}
	xref, err := strconv.Atoi(string(file[from : from+end]))
	if err != nil {
		return nil, fmt.Errorf("pen: PDF: cross-reference: %w", err)
	}
	out := make([]byte, 0, len(file)+len(entry)+2)
	out = append(out, file[:at]...)
	out = append(out, entry...)
	out = append(out, file[at:from]...)
	out = strconv.AppendInt(out, int64(xref+len(entry)), 10)
	out = append(out, file[from+end:]...)
	copy(out, "%PDF-1.6")
	return out, nil
}

func (p *PDF) flush() {
	p.doc.RawWriteStr(string(p.buf))
	p.buf = p.buf[:0]
}

func (p *PDF) num(v float64) {
	p.buf = appendShort(p.buf, v)
	p.buf = append(p.buf, ' ')
}

// fine writes matrix entries, which multiply lengths, to 7 decimals.
func (p *PDF) fine(v float64) {
	p.buf = strconv.AppendFloat(p.buf, math.Round(v*1e7)/1e7, 'f', -1, 64)
	p.buf = append(p.buf, ' ')
}

func (p *PDF) matrix(m Affine) {
	for _, v := range [6]float64{m.A, m.B, m.C, m.D, m.E, m.F} {
		p.fine(v)
	}
	p.buf = append(p.buf, "cm\n"...)
}

func (p *PDF) colour(c color.NRGBA, op string) {
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		p.num(float64(v) / 255)
	}
	p.buf = append(p.buf, op...)
	p.buf = append(p.buf, '\n')
}

func (p *PDF) setAlpha(a uint8) {
	if p.state.alpha != a {
		p.doc.SetAlpha(float64(a)/255, "Normal")
		p.state.alpha = a
	}
}

func (p *PDF) setFont(bold bool) {
	style := ""
	if bold {
		style = "B"
	}
	if p.state.font != "set"+style {
		p.doc.SetFont(pdfFamily, style, pdfTextSize)
		p.doc.SetFontSize(pdfTextSize) // SetFont says nothing if fpdf believes it is set
		p.state.font = "set" + style
	}
}

func (p *PDF) steps(q *Path) {
	var cur r2.Point
	q.Each(func(v Verb, pts []r2.Point) {
		switch v {
		case QuadVerb: // as a cubic: controls two thirds of the way to the one
			c, e := pts[0], pts[1]
			for _, s := range [3]r2.Point{
				{X: cur.X + (c.X-cur.X)*2/3, Y: cur.Y + (c.Y-cur.Y)*2/3},
				{X: e.X + (c.X-e.X)*2/3, Y: e.Y + (c.Y-e.Y)*2/3}, e} {
				p.num(s.X)
				p.num(s.Y)
			}
		default:
			for _, s := range pts {
				p.num(s.X)
				p.num(s.Y)
			}
		}
		p.buf = append(p.buf, "mlcch"[v], '\n')
		if len(pts) > 0 {
			cur = pts[len(pts)-1]
		}
	})
}

// Path implements Pen.
func (p *PDF) Path(q *Path, s *Style) {
	if !p.onPage() {
		return
	}
	if q.Bounds().IsEmpty() {
		if !q.Empty() {
			p.fail(ErrNotFinite)
		}
		return
	}
	fill, stroke := s.Fill.A > 0, s.stroked()
	both := fill && stroke && s.Fill.A == 255 && s.Stroke.A == 255 && !s.Hatch.on()
	if fill {
		p.setAlpha(s.Fill.A)
		p.colour(s.Fill, "rg")
		if both {
			p.pencil(s)
		}
		p.steps(q)
		if both {
			p.buf = append(p.buf, 'B')
		} else {
			p.buf = append(p.buf, 'f')
		}
		p.flush()
	}
	if s.Hatch.on() {
		p.hatch.draw(p, q, &s.Hatch, p.lo, p.hi)
	}
	if stroke && !both {
		p.setAlpha(s.Stroke.A)
		p.pencil(s)
		p.steps(q)
		p.buf = append(p.buf, 'S')
		p.flush()
	}
}

// pencil sets how lines are drawn, if not so already.
func (p *PDF) pencil(s *Style) {
	from := len(p.buf)
	p.colour(s.Stroke, "RG")
	p.num(s.Width)
	p.buf = append(p.buf, "w "...)
	p.buf = strconv.AppendInt(p.buf, int64(s.Cap), 10)
	p.buf = append(p.buf, " J "...)
	p.buf = strconv.AppendInt(p.buf, int64(s.Join), 10)
	p.buf = append(p.buf, " j ["...)
	if pattern, _ := s.dashes(); pattern != nil {
		for _, d := range pattern {
			p.num(d)
		}
		p.buf = append(p.buf, "] "...)
		p.num(nonNegativePhase(s))
		p.buf = append(p.buf, "d\n"...)
	} else {
		p.buf = append(p.buf, "] 0 d\n"...)
	}
	if now := string(p.buf[from:]); now == p.state.stroke {
		p.buf = p.buf[:from]
	} else {
		p.state.stroke = now
	}
}

// nonNegativePhase is the dash offset brought into the pattern, which PDF
// requires not to be negative.
func nonNegativePhase(s *Style) float64 {
	pattern, period := s.dashes()
	if len(pattern)%2 == 1 {
		period *= 2
	}
	o := math.Mod(s.DashOffset, period)
	if o < 0 {
		o += period
	}
	return o
}

// PushClip implements Pen.
func (p *PDF) PushClip(q *Path) {
	if !p.onPage() {
		return
	}
	p.saved = append(p.saved, p.state)
	p.buf = append(p.buf, "q\n"...)
	if !q.Bounds().IsEmpty() {
		p.steps(q)
	} else {
		if !q.Empty() {
			p.fail(ErrNotFinite)
		}
		p.buf = append(p.buf, "0 0 0 0 re\n"...) // nothing is inside
	}
	p.buf = append(p.buf, "W n"...)
	p.flush()
}

// PopClip implements Pen.
func (p *PDF) PopClip() {
	if n := len(p.saved); n > 0 {
		p.state, p.saved = p.saved[n-1], p.saved[:n-1]
		// The document below knows nothing of the restored state: it would note
		// further letters in the subset of the font it chose last.
		p.state.font = ""
		p.doc.RawWriteStr("Q")
	}
}
