package sheet

import (
	"bytes"
	"image/color"
	"slices"

	"kedge/canvas/exercise"
	"kedge/canvas/pen"
	"kedge/solver/plan"
)

// Booklet is the pages of a plan, drawn and ready to be written. It is
// read-only and may be shared by goroutines.
type Booklet struct {
	Pages []*Page
	Title string // of the document
	// Redrawn is how many variants were thrown away because their rig could not
	// be computed or a question had no answer.
	Redrawn int
	// Giveaways are the figures that were left off the exercise because they
	// would have answered one of its questions; of the last variant.
	Giveaways []exercise.Giveaway
	// Answers are the questions of every variant with what is right.
	Answers []Answer
	// Variants are the plans of the variants, the first of variant 1; empty
	// where there is only the plan itself.
	Variants []*plan.Plan

	o        Options
	author   string
	subject  string
	language string
}

// Answer is a question of an exercise with its answer.
type Answer struct {
	exercise.Question
	Variant int    // from 1; 0: there are no variants
	N       int    // the question's number, from 1
	Drawn   bool   // it is a blank of the drawing, not a question of its own
	Asks    string // as printed
	Right   string // as printed on the key
	Also    string // what else counts, of a question for a part
	// X is the answer in SI, newtons, degrees or metres, and Plus the ± within which it
	// counts as right; of a question for a part, its share, and zero.
	X, Plus float64
}

// Page is one page.
type Page struct {
	Kind    Kind
	Name    string  // of the page, as its bookmark says it
	Also    []Also  // short sheets that share the page, in their order
	W, H    float64 // of the paper, mm
	Scale   float64 // n of its diagram's 1 : n; 0: it has none
	Variant int     // which variant it belongs to, from 1; 0: none
	Key     bool    // it holds answers
	Level   int     // of its bookmark, 0 the top

	Figures []Figure // figures that can be made blank, where they are printed
	Places  []Place  // places of the plan on the page, to be measured by ruler

	ends  [2]float64 // how far its columns are filled, mm from the paper's top
	cols  int        // columns it is set in
	full  bool       // it has the cautions in full
	body  body       // between heading and footer
	block blockText
	marks pen.Recorder
}

// Also is a sheet that shares the page of another.
type Also struct {
	Kind  Kind
	Name  string
	Level int // of its bookmark
}

// Has reports whether a sheet of the kind stands on the page, or a part of one.
func (g *Page) Has(k Kind) bool {
	return g.Kind == k || slices.ContainsFunc(g.Also, func(a Also) bool { return a.Kind == k })
}

// taken notes that the page is filled down to y, over its whole width.
func (g *Page) taken(y float64) {
	g.ends[0], g.ends[1] = max(g.ends[0], y), max(g.ends[1], y)
}

// Filled is how much of the page's room for its own matter is taken, 0 to 1.
func (g *Page) Filled() float64 {
	return ((g.ends[0]+g.ends[1])/2 - g.body.y) / g.body.h
}

// Figure is a printed figure that can be made a blank.
type Figure struct {
	Part           string  // id of the part whose load it is
	X0, Y0, X1, Y1 float64 // mm
	Blank          bool
}

// Place is where a point of the plan lies on a page, mm.
type Place struct {
	Name string
	X, Y float64
}

// Draw puts the page on a pen whose unit is a millimetre.
func (g *Page) Draw(p pen.Pen) {
	for i := range g.marks.Marks {
		m := &g.marks.Marks[i]
		switch m.Kind {
		case pen.PathMark:
			p.Path(&m.Path, &m.Style)
		case pen.TextMark:
			p.Text(m.X, m.Y, m.Text, &m.Type)
		case pen.ImageMark:
			p.Image(m.Image, m.Place, m.Alpha)
		case pen.ClipMark:
			p.PushClip(&m.Path)
		case pen.UnclipMark:
			p.PopClip()
		}
	}
}

// Texts are the texts of the page in the order they were written.
func (g *Page) Texts() []string { return g.marks.Texts() }

// PDF is the whole booklet: printed at actual size, searchable, with an
// outline. The same booklet gives the same bytes.
func (b *Booklet) PDF() ([]byte, error) {
	if len(b.Pages) == 0 {
		return nil, noPages.At("")
	}
	doc := pen.NewPDF(pen.About{Title: b.Title, Subject: b.subject, Author: b.author, Creator: "Kedge", Language: b.language,
		When: when(b.o.Date)})
	for _, g := range b.Pages {
		doc.NewPage(g.W, g.H)
		doc.Bookmark(g.Name, g.Level)
		for _, a := range g.Also {
			doc.Bookmark(a.Name, a.Level)
		}
		g.Draw(doc)
	}
	return doc.Bytes()
}

// SVG is one page, counted from 0.
func (b *Booklet) SVG(page int) ([]byte, error) {
	g, err := b.page(page)
	if err != nil {
		return nil, err
	}
	s := pen.NewSVG(g.W, g.H)
	s.TextAsOutlines = b.o.SVGOutlines
	s.Title = b.Title + ", " + g.Name
	boxed(s, 0, 0, g.W, g.H, &pen.Style{Fill: paper})
	g.Draw(s)
	var out bytes.Buffer
	if _, err := s.WriteTo(&out); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// PNG is one page, counted from 0, at a number of dots an inch; 0: that of the
// options.
func (b *Booklet) PNG(page int, dpi float64) ([]byte, error) {
	g, err := b.page(page)
	if err != nil {
		return nil, err
	}
	if dpi == 0 {
		dpi = b.o.DPI
	}
	r, img, err := pen.NewSheetRaster(g.W, g.H, dpi)
	if err != nil {
		return nil, badPicture.At("").Because(err)
	}
	r.Paper(color.NRGBA{R: 255, G: 255, B: 255, A: 255})
	g.Draw(r)
	if err := r.Flush(); err != nil {
		return nil, err
	}
	var out bytes.Buffer
	if err := pen.WritePNG(&out, img, dpi); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

func (b *Booklet) page(i int) (*Page, error) {
	if i < 0 || i >= len(b.Pages) {
		return nil, noPage.At("", i+1, len(b.Pages))
	}
	return b.Pages[i], nil
}

// Split is the booklet in two: what students get, and what holds answers. Each
// may be nil.
func (b *Booklet) Split() (open, key *Booklet) {
	part := func(wanted bool) *Booklet {
		c := *b
		c.Pages = nil
		for _, g := range b.Pages {
			if g.Key == wanted {
				c.Pages = append(c.Pages, g)
			}
		}
		if len(c.Pages) == 0 {
			return nil
		}
		return &c
	}
	return part(false), part(true)
}
