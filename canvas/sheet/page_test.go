package sheet_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Sizes of paper: ISO 216 and ANSI/ASME Y14.1.
func TestPagesHaveTheSizeOfTheirPaper(t *testing.T) {
	for _, c := range []struct {
		name      string
		landscape bool
		w, h      float64
	}{
		{"A4", false, 210, 297}, {"A4", true, 297, 210}, {"a3", false, 297, 420}, {"A2", true, 594, 420},
		{"Letter", false, 215.9, 279.4}, {"tabloid", false, 279.4, 431.8},
	} {
		t.Run(fmt.Sprint(c.name, c.landscape), func(t *testing.T) {
			paper, err := sheet.PaperByName(c.name)
			require.NoError(t, err)
			b := booklet(t, example(t, "redirect"), sheet.Options{Paper: paper, Landscape: c.landscape})
			for _, g := range b.Pages {
				assert.Equal(t, [2]float64{c.w, c.h}, [2]float64{g.W, g.H})
			}
		})
	}
	_, err := sheet.PaperByName("B5")
	assert.ErrorIs(t, err, sheet.ErrOption)
}

// The media box of every page in the file is its paper, in points of 1/72 inch.
func TestMediaBoxesAreThePaper(t *testing.T) {
	box := regexp.MustCompile(`/Type /Page\n/Parent [^\n]*\n/MediaBox \[0 0 ([0-9.]+) ([0-9.]+)\]`)
	for _, paper := range sheet.Papers() {
		for _, landscape := range []bool{false, true} {
			b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Diagram, sheet.Loads}, Paper: paper, Landscape: landscape})
			file, err := b.PDF()
			require.NoError(t, err)
			w, h := paper.W*72/25.4, paper.H*72/25.4
			if landscape {
				w, h = h, w
			}
			found := box.FindAllStringSubmatch(string(file), -1)
			require.Len(t, found, len(b.Pages), "every page says its own")
			for _, m := range found {
				x, err := strconv.ParseFloat(m[1], 64)
				require.NoError(t, err)
				y, err := strconv.ParseFloat(m[2], 64)
				require.NoError(t, err)
				near(t, w, x, 0.01, paper.Name+" wide, pt")
				near(t, h, y, 0.01, paper.Name+" high, pt")
			}
		}
	}
}

// Every mark and every text of every kind of sheet lies on the paper; no letter
// is smaller than ISO 3098-1 allows; no text has lost its words.
func TestEverythingStaysOnThePaper(t *testing.T) {
	for _, name := range []string{"redirect", "straight", "doubled"} {
		for _, landscape := range []bool{false, true} {
			t.Run(fmt.Sprint(name, landscape), func(t *testing.T) {
				kinds := everything()
				if name == "straight" { // refused: it has no exercise
					kinds = kinds[:len(kinds)-3]
				}
				b := booklet(t, example(t, name), sheet.Options{Sheets: kinds, Landscape: landscape})
				for i, g := range b.Pages {
					onPaper(t, i, g)
				}
			})
		}
	}
}

func onPaper(t *testing.T, i int, g *sheet.Page) {
	t.Helper()
	var r pen.Recorder
	g.Draw(&r)
	clips := 0
	for _, m := range r.Marks {
		switch m.Kind {
		case pen.ClipMark:
			clips++
		case pen.UnclipMark:
			clips--
		case pen.PathMark:
			if box := m.Path.Bounds(); !box.IsEmpty() && clips == 0 {
				assert.True(t, box.X.Lo >= 0 && box.Y.Lo >= 0 && box.X.Hi <= g.W && box.Y.Hi <= g.H, "page %d (%s): a path in %v", i+1, g.Name, box)
			}
		case pen.TextMark:
			assert.NotContains(t, m.Text, "[sheet-", "page %d (%s)", i+1, g.Name)
			assert.GreaterOrEqual(t, pen.CapHeight(&m.Type), sheet.TextCap, "page %d (%s): %q", i+1, g.Name, m.Text)
			if clips == 0 {
				w, _, _ := pen.Measure(m.Text, &m.Type)
				x := m.X - map[pen.Anchor]float64{pen.Start: 0, pen.Middle: w / 2, pen.End: w}[m.Type.Anchor]
				assert.True(t, x >= 10 && x+w <= g.W-10+0.1 && m.Y <= g.H-10 && m.Y >= 10, "page %d (%s): %q from %.1f to %.1f at %.1f", i+1, g.Name, m.Text, x, x+w, m.Y)
			}
		}
	}
	assert.Zero(t, clips)
}

// Basis, what it was planned on and the two sentences on people stand on every
// page, these in heavy letters; a plan on another resistance carries its chip.
func TestEveryPageSaysWhatItRestsOn(t *testing.T) {
	p := example(t, "redirect")
	b := booklet(t, p, sheet.Options{Sheets: everything()})
	for _, g := range b.Pages {
		s := allText(g)
		for _, want := range []string{"Basis: pulling", "Planned for HIGH resistance, LOW anchor hold", "100 mm", "kN, m, kg"} {
			assert.Contains(t, s, want, g.Name)
		}
		assert.Contains(t, heavy(g), "People stay outside the zones whatever the figures say. A place outside a zone is not thereby out of reach.", g.Name)
		assert.Contains(t, s, "figures "+facts.Revision(), g.Name)
		assert.Equal(t, g.Key, strings.Contains(s, "KEY · NOT FOR STUDENTS"), g.Name)
	}
	v := p.Site.Vehicles[0]
	stuck := *v.Stuck
	stuck.PlanOn = plan.PlanLikely
	v.Stuck = &stuck
	for _, g := range booklet(t, plan.WithVehicle(p, 0, v), sheet.Options{Sheets: []sheet.Kind{sheet.Overview, sheet.Kit}}).Pages {
		assert.Contains(t, allText(g), "PLANNED FOR LIKELY")
		assert.NotContains(t, allText(g), "HIGH resistance, LOW anchor hold")
	}
}

// What the figures rest on stands in the title block in full, in every language, on
// every paper either way: a title may be cut, that not.
func TestTheTitleBlockCutsNoBasis(t *testing.T) {
	for _, lang := range words.Languages() {
		w, err := words.New(lang, quantity.Metric)
		require.NoError(t, err)
		a, _ := answered(example(t, "doubled"), "R1", w)
		planned := []rune(quantity.PlainSpaces(w.PlannedOn(a)))
		for _, paper := range sheet.Papers() {
			for _, landscape := range []bool{false, true} {
				g := booklet(t, example(t, "doubled"), sheet.Options{Sheets: []sheet.Kind{sheet.Order}, Words: w, Paper: paper, Landscape: landscape}).Pages[0]
				s := allText(g)
				for _, want := range []string{string(planned[1:]), w.Label("basis-" + a.Basis()), w.Label("sheet-no-scale")} {
					assert.Contains(t, s, quantity.PlainSpaces(want), "%s %s %v", lang, paper.Name, landscape)
				}
			}
		}
	}
}

// heavy is what is written on a page in heavy letters, in one piece.
func heavy(g *sheet.Page) string {
	var pages pen.Recorder
	g.Draw(&pages)
	var all []string
	for i := range pages.Marks {
		if m := &pages.Marks[i]; m.Kind == pen.TextMark && m.Type.Bold {
			all = append(all, m.Text)
		}
	}
	return quantity.PlainSpaces(strings.Join(all, " "))
}

// The cautions and what is not checked stand once in each handout, word for word
// as in the window and in kedge check: on the first page of a booklet, behind a
// single sheet, behind a key, behind each variant of an exercise.
func TestCautionsStandOnceInAHandout(t *testing.T) {
	w := english(t, quantity.Metric)
	handouts := func(o sheet.Options) map[string][]string {
		all := map[string][]string{}
		for _, g := range booklet(t, example(t, "redirect"), o).Pages {
			k := fmt.Sprint(g.Key, " ", g.Variant)
			all[k] = append(all[k], allText(g))
		}
		return all
	}
	cases := []sheet.Options{{Sheets: everything()}, {Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Variants: 3}, {Sheets: []sheet.Kind{sheet.Exercise}}}
	for _, k := range everything() {
		cases = append(cases, sheet.Options{Sheets: []sheet.Kind{k}, Landscape: true})
	}
	for i, o := range cases {
		for k, pages := range handouts(o) {
			text := strings.Join(pages, " ")
			for _, s := range w.Cautions() {
				assert.Equal(t, 1, strings.Count(text, quantity.PlainSpaces(s)), "case %d, %s: %s", i, k, s)
			}
			for _, s := range w.NotChecked() {
				first, _, _ := strings.Cut(quantity.PlainSpaces(s), ",")
				assert.Contains(t, text, first, "case %d, %s", i, k)
			}
			assert.Equal(t, 1, strings.Count(text, "Not checked"), "case %d, %s", i, k)
			at := len(pages) - 1
			if i == 0 && k == "false 0" { // the booklet
				at = 0
			}
			assert.Contains(t, pages[at], quantity.PlainSpaces(w.Cautions()[0]), "case %d, %s", i, k)
		}
	}
}

// word is a word of a page as pdftotext finds it, points.
type word struct {
	X0 float64 `xml:"xMin,attr"`
	Y0 float64 `xml:"yMin,attr"`
	X1 float64 `xml:"xMax,attr"`
	Y1 float64 `xml:"yMax,attr"`
	S  string  `xml:",chardata"`
}

func wordsOf(t *testing.T, file []byte) [][]word {
	t.Helper()
	name := temp(t, "page.pdf")
	require.NoError(t, os.WriteFile(name, file, 0o600))
	out, err := exec.Command(tool(t, "pdftotext"), "-bbox", name, "-").Output()
	require.NoError(t, err)
	var doc struct {
		Pages []struct {
			Words []word `xml:"word"`
		} `xml:"body>doc>page"`
	}
	d := xml.NewDecoder(bytes.NewReader(out))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	require.NoError(t, d.Decode(&doc))
	pages := make([][]word, len(doc.Pages))
	for i, p := range doc.Pages {
		pages[i] = p.Words
	}
	return pages
}

// labelMiddles are the middles of a "0" and of a figure with its unit on one
// line to the right of it, points.
func labelMiddles(t *testing.T, page []word, figure, unit string) (zero, end float64) {
	t.Helper()
	for i := 0; i+1 < len(page); i++ {
		if page[i].S != figure || page[i+1].S != unit {
			continue
		}
		end = (page[i].X0 + page[i+1].X1) / 2
		best := math.Inf(1)
		for _, w := range page {
			if w.S == "0" && math.Abs(w.Y0-page[i].Y0) < 1 && w.X1 < page[i].X0 && page[i].X0-w.X1 < best {
				best, zero = page[i].X0-w.X1, (w.X0+w.X1)/2
			}
		}
		return zero, end
	}
	t.Fatalf("there is no %s %s on the page", figure, unit)
	return 0, 0
}

// 100 mm are 283.46 pt; 10 m at 1 : 200 are 50 mm, at 1 : 100 100 mm. (closed
// form)
func TestRulerAndScaleBarAreTrue(t *testing.T) {
	const pt = 72 / 25.4
	for _, c := range []struct {
		paper sheet.Paper
		scale float64
		m     string
		mm    float64
	}{{sheet.A3, 200, "10", 50}, {sheet.A2, 100, "5", 50}, {sheet.A4, 500, "20", 40}} {
		t.Run(fmt.Sprint(c.scale), func(t *testing.T) {
			b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Diagram}, Paper: c.paper, Landscape: true, Scale: c.scale})
			file, err := b.PDF()
			require.NoError(t, err)
			page := wordsOf(t, file)[0]
			zero, end := labelMiddles(t, page, "100", "mm")
			near(t, 283.46, end-zero, 0.5, "ruler, pt")
			zero, end = labelMiddles(t, page, c.m, "m")
			near(t, c.mm*pt, end-zero, 0.5, "scale bar, pt")
			assert.Equal(t, c.scale, b.Pages[0].Scale)
		})
	}
}

// Places on the page are those of the plan at the scale: 12.48 m of stretch are
// 62.4 mm at 1 : 200. (closed form)
func TestPlacesAreToScale(t *testing.T) {
	b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Diagram}, Paper: sheet.A3, Landscape: true})
	g := b.Pages[0]
	require.Equal(t, 200.0, g.Scale, "the largest scale of ISO 5455 that fits")
	at := map[string]sheet.Place{}
	for _, q := range g.Places {
		at[q.Name] = q
	}
	long := func(id string) float64 {
		a, b := at[id+"/a"], at[id+"/b"]
		return math.Hypot(a.X-b.X, a.Y-b.Y)
	}
	near(t, 62.4, long("L1/1"), 0.7, "first stretch, mm")
	near(t, 92.7, long("L1/2"), 1.0, "second stretch, mm")
}

func TestPDFIsWholeAndReproducible(t *testing.T) {
	p := example(t, "redirect")
	o := sheet.Options{Sheets: everything(), Date: "2026-11-25"}
	first, err := booklet(t, p, o).PDF()
	require.NoError(t, err)
	again, err := booklet(t, p, o).PDF()
	require.NoError(t, err)
	assert.True(t, bytes.Equal(first, again), "the same plan and options give the same bytes")
	name := temp(t, "all.pdf")
	require.NoError(t, os.WriteFile(name, first, 0o600))
	fonts, err := exec.Command(tool(t, "pdffonts"), name).Output()
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSpace(string(fonts)), "\n")
	require.Greater(t, len(lines), 2)
	for _, l := range lines[2:] {
		f := strings.Fields(l)
		require.GreaterOrEqual(t, len(f), 6)
		assert.Equal(t, "yes", f[len(f)-5], "embedded: %s", l)
	}
	assert.Contains(t, string(first), "/PrintScaling /None", "printed at actual size")
	assert.Contains(t, string(first), "/Outlines")
	assert.Contains(t, string(first), "D:20261125", "dated by the option, not by a clock")
}

func TestEveryFormat(t *testing.T) {
	b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Overview, sheet.Loads}, DPI: 40})
	for i := range b.Pages {
		svg, err := b.SVG(i)
		require.NoError(t, err)
		assert.Contains(t, string(svg), `width="210mm" height="297mm"`)
		assert.Contains(t, string(svg), "<text")
		d := xml.NewDecoder(bytes.NewReader(svg))
		for {
			if _, err := d.Token(); err != nil {
				assert.Equal(t, "EOF", err.Error())
				break
			}
		}
		data, err := b.PNG(i, 0)
		require.NoError(t, err)
		img, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		assert.Equal(t, image.Pt(331, 468), img.Bounds().Size(), "210 × 297 mm at 40 dots an inch, rounded up")
		finer, err := b.PNG(i, 80)
		require.NoError(t, err)
		assert.Greater(t, len(finer), len(data))
	}
	for _, err := range []error{second(b.SVG(99)), second(b.PNG(-1, 0)), second(b.PNG(0, 1e9))} {
		assert.ErrorIs(t, err, sheet.ErrOption)
	}
	outlines := booklet(t, example(t, "redirect"), sheet.Options{SVGOutlines: true})
	svg, err := outlines.SVG(0)
	require.NoError(t, err)
	assert.NotContains(t, string(svg), "<text")
}

func second[T any](_ T, err error) error { return err }

func TestWrongOptionsAreSentences(t *testing.T) {
	p := example(t, "redirect")
	far := plan.New()
	far.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorTree}, {Head: plan.Head{ID: "T2"}, Kind: plan.AnchorTree, At: plan.Point{X: 9000}}}
	var bomb bytes.Buffer
	require.NoError(t, png.Encode(&bomb, image.NewGray(image.Rect(0, 0, 5000, 5000))))
	for _, c := range []struct {
		name string
		p    *plan.Plan
		o    sheet.Options
		want error
	}{
		{"no plan", nil, sheet.Options{}, sheet.ErrEmpty},
		{"empty plan", plan.New(), sheet.Options{}, sheet.ErrEmpty},
		{"empty plan, steps", plan.New(), sheet.Options{Sheets: []sheet.Kind{sheet.Steps}}, sheet.ErrEmpty},
		{"larger than a page", far, sheet.Options{}, sheet.ErrTooLarge},
		{"too many tiles", far, sheet.Options{Scale: 100}, sheet.ErrTooLarge},
		{"kind", p, sheet.Options{Sheets: []sheet.Kind{"poster"}}, sheet.ErrOption},
		{"rig", p, sheet.Options{Rig: "R9"}, sheet.ErrOption},
		{"scale", p, sheet.Options{Scale: 250}, sheet.ErrOption},
		{"scale NaN", p, sheet.Options{Scale: math.NaN()}, sheet.ErrOption},
		{"paper", p, sheet.Options{Paper: sheet.Paper{Name: "A4", W: 1, H: 1}}, sheet.ErrOption},
		{"dpi", p, sheet.Options{DPI: math.Inf(1)}, sheet.ErrOption},
		{"variants", p, sheet.Options{Variants: 1e6}, sheet.ErrOption},
		{"vary", p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Variants: 2, Vary: exercise.Vary{PlaceM: math.NaN()}}, sheet.ErrOption},
		{"logo that is none", p, sheet.Options{Logo: []byte("GIF89a")}, sheet.ErrLogo},
		{"logo that unpacks to much", p, sheet.Options{Logo: bomb.Bytes()}, sheet.ErrLogo},
		{"logo cut short", p, sheet.Options{Logo: bomb.Bytes()[:60]}, sheet.ErrLogo},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := sheet.Make(c.p, c.o)
			require.ErrorIs(t, err, c.want)
			assert.Nil(t, b)
			assert.Greater(t, len(err.Error()), len("sheet: a word"))
		})
	}
}

func TestEmptyRigHasItsSheets(t *testing.T) {
	p := example(t, "redirect")
	p = plan.WithRig(p, 0, plan.Rig{Head: plan.Head{ID: "R1", Name: "Nothing yet"}})
	b := booklet(t, p, sheet.Options{Sheets: everything()[:15]})
	assert.NotEmpty(t, b.Pages)
	_, err := sheet.Make(p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}})
	assert.ErrorIs(t, err, sheet.ErrQuestion)
}

func TestTitleBlockAndLogo(t *testing.T) {
	p := *example(t, "redirect")
	p.TitleInfo = plan.TitleInfo{School: "Curlew Moss wardens", Author: "A. Moor", Approver: "B. Sedge", Date: "2026-11-25", Number: "B-3"}
	img := image.NewNRGBA(image.Rect(0, 0, 40, 20))
	for i := range img.Pix {
		img.Pix[i] = 0x40
	}
	img.Set(1, 1, color.Black)
	var logo bytes.Buffer
	require.NoError(t, png.Encode(&logo, img))
	b := booklet(t, &p, sheet.Options{Logo: logo.Bytes()})
	s := allText(b.Pages[0])
	for _, want := range []string{"Curlew Moss wardens", "Drawn: A. Moor", "Approved: B. Sedge", "2026-11-25", "No. B-3", "Sheet 1 of " + strconv.Itoa(len(b.Pages)), "1 : 500"} {
		assert.Contains(t, s, want)
	}
	var r pen.Recorder
	b.Pages[0].Draw(&r)
	pictures := 0
	for _, m := range r.Marks {
		if m.Kind == pen.ImageMark {
			pictures++
		}
	}
	assert.Equal(t, 1, pictures)
	_, err := b.PDF()
	assert.NoError(t, err)
}

func TestTilesCoverThePlan(t *testing.T) {
	b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Diagram}, Scale: 100})
	require.Greater(t, len(fronts(b)), 1)
	seen := map[string]bool{}
	for _, g := range fronts(b) {
		assert.Equal(t, 100.0, g.Scale)
		for _, q := range g.Places {
			seen[q.Name] = true
		}
	}
	for _, want := range []string{"L1/1/a", "L1/1/b", "L1/2/a", "L1/2/b"} {
		assert.True(t, seen[want], want)
	}
}

func TestProgressAndCancel(t *testing.T) {
	p := example(t, "redirect")
	var done []int
	o := sheet.Options{Sheets: []sheet.Kind{sheet.Overview, sheet.Loads, sheet.Kit}, Progress: func(n, of int) {
		done = append(done, n)
		assert.GreaterOrEqual(t, of, n)
	}}
	b := booklet(t, p, o)
	assert.GreaterOrEqual(t, len(done), len(b.Pages))
	assert.IsIncreasing(t, done)
	ctx, cancel := context.WithCancel(context.Background())
	o.Progress = func(n, _ int) {
		if n == 2 {
			cancel()
		}
	}
	b, err := sheet.MakeContext(ctx, p, o)
	assert.True(t, errors.Is(err, context.Canceled))
	assert.Nil(t, b)
}

// The words of every kind and question are there.
func TestKindsHaveTheirWords(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, k := range sheet.Kinds() {
		assert.True(t, w.HasLabel("sheet-kind-"+string(k)), k)
		got, err := sheet.KindByName(strings.ToUpper(string(k)))
		require.NoError(t, err)
		assert.Equal(t, k, got)
	}
	for _, k := range exercise.QuestionKinds() {
		assert.True(t, w.HasLabel("sheet-ask-"+string(k)), k)
	}
}

func TestOtherUnits(t *testing.T) {
	b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: everything(), Words: english(t, quantity.Imperial)})
	assert.Contains(t, allText(b.Pages[0]), "lbf, ft, lb")
	for _, g := range b.Pages {
		assert.NotContains(t, allText(g), " kN ", g.Name)
	}
}

// What goes wrong is said in the language of the sheets, and to a window without
// the package's name.
func TestTroubleIsSaidInTheLanguageOfTheSheets(t *testing.T) {
	de, err := words.New("de", quantity.Metric)
	require.NoError(t, err)
	p := example(t, "redirect")
	for _, c := range []struct {
		p    *plan.Plan
		o    sheet.Options
		want string
	}{
		{plan.New(), sheet.Options{}, "Der Plan ist noch leer"},
		{p, sheet.Options{Logo: []byte("GIF89a")}, "weder PNG noch JPEG"},
		{p, sheet.Options{Scale: 1}, "größeres Papier nehmen"},
		{p, sheet.Options{Sheets: []sheet.Kind{sheet.Steps}, Scale: 50}, "in ein Bild dieser Seite"},
		{p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Questions: []exercise.Question{{Kind: exercise.AskAngle, Part: "K1"}}}, "Frage 1 ist von ihrer Seite aus nicht zu beantworten"},
		{p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Variants: 2, Questions: []exercise.Question{{Kind: exercise.AskAngle, Part: "K1"}}}, "Variante 1"},
	} {
		c.o.Words = de
		_, err := sheet.Make(c.p, c.o)
		require.Error(t, err)
		var said interface{ Sentence() string }
		require.True(t, errors.As(err, &said), "%v", err)
		assert.Contains(t, quantity.PlainSpaces(said.Sentence()), c.want)
		assert.NotContains(t, said.Sentence(), "sheet")
		assert.Equal(t, "sheet: "+said.Sentence(), err.Error())
	}
}
