package sheet_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"kedge/canvas/words"
	"slices"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/pen"
	"kedge/canvas/sheet"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// A plan with eleven parts and twenty-six findings takes a drawing and a page of
// tables, or two on the shorter paper and on paper that lies; on A3 and larger a single page. (ours)
// All findings stand there, none twice.
func TestOverviewOfABusyPlanTakesFewPages(t *testing.T) {
	p := example(t, "redirect")
	w := english(t, quantity.Metric)
	answer, names := answered(p, "R1", w)
	require.Greater(t, len(answer.Findings), 15)
	for _, c := range []struct {
		paper     sheet.Paper
		landscape bool
		most      int
	}{{sheet.A4, true, 3}, {sheet.A4, false, 2}, {sheet.Letter, true, 3}, {sheet.Letter, false, 3}, {sheet.A3, false, 1}, {sheet.A3, true, 1}, {sheet.A2, true, 1}, {sheet.A2, false, 1}} {
		t.Run(c.paper.Name+map[bool]string{true: " landscape"}[c.landscape], func(t *testing.T) {
			b := booklet(t, p, sheet.Options{Paper: c.paper, Landscape: c.landscape})
			assert.LessOrEqual(t, len(fronts(b)), c.most)
			all := ""
			for i, g := range b.Pages {
				onPaper(t, i, g)
				found, _ := overlaps(g)
				assert.Empty(t, found, g.Name)
				all += " " + allText(g)
			}
			for _, c := range words.Cards(answer.Findings) {
				card := w.Card(c, answer.Findings, names)
				for _, word := range strings.Fields(quantity.PlainSpaces(card.Title + " " + strings.Join(card.Texts(), " "))) {
					assert.Contains(t, all, word)
				}
			}
			assert.LessOrEqual(t, strings.Count(all, " "+w.Level(part.Caution)+" "), 2, "cautions are joined")
			for _, q := range answer.Parts {
				assert.Contains(t, all, quantity.PlainSpaces(w.PartName(&q, names)))
			}
		})
	}
}

// With few findings everything is on one page.
func TestOverviewOfASmallPlanIsOnePage(t *testing.T) {
	p := *example(t, "redirect")
	p.Rigs = nil
	b := booklet(t, &p, sheet.Options{})
	assert.Len(t, fronts(b), 1)
}

// fronts are the pages without the back, on which the cautions stand.
func fronts(b *sheet.Booklet) []*sheet.Page {
	return slices.DeleteFunc(slices.Clone(b.Pages), func(g *sheet.Page) bool { return g.Name == "Cautions" })
}

// A picture to trace is decoded once for a booklet and stands once in its file,
// however many pages show it.
func TestAPictureToTraceIsDecodedOnce(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 64, 48))
	for i := range img.Pix {
		img.Pix[i] = uint8(i)
	}
	img.Set(0, 0, color.White)
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, img))
	p := *example(t, "redirect")
	p.Site.Underlay = &plan.Underlay{Bytes: file.Bytes(), Metres: 0.5, At: plan.Point{X: 20, Y: 12}}
	b := booklet(t, &p, sheet.Options{Sheets: []sheet.Kind{sheet.Overview, sheet.Diagram, sheet.Zones, sheet.Steps}})
	var seen []image.Image
	for _, g := range b.Pages {
		var r pen.Recorder
		g.Draw(&r)
		for _, m := range r.Marks {
			if m.Kind == pen.ImageMark {
				seen = append(seen, m.Image)
			}
		}
	}
	require.GreaterOrEqual(t, len(seen), 6, "three drawings and the frames")
	for _, s := range seen {
		assert.Same(t, seen[0], s)
	}
	doc, err := b.PDF()
	require.NoError(t, err)
	assert.LessOrEqual(t, bytes.Count(doc, []byte("/Subtype /Image")), 2, "the picture, and its mask if it has one")
}

// Where the zones are larger than the picture, its page says that they go on; drawn so
// small that all lie on it, or without zones, it does not.
func TestAPageSaysWhereZonesGoOn(t *testing.T) {
	p := example(t, "redirect")
	answer, _ := answered(p, "R1", english(t, quantity.Metric))
	box := r2.EmptyRect() // of all zones, metres
	for i := range answer.Zones {
		box = box.Union(terrain.Bounds(answer.Zones[i].Outline))
	}
	const says = "zones go on beyond this picture"
	for _, landscape := range []bool{false, true} {
		for _, k := range []sheet.Kind{sheet.Overview, sheet.Zones} {
			g := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{k}, Landscape: landscape}).Pages[0]
			require.False(t, holds(g, box), "%s, landscape %v", k, landscape)
			assert.Contains(t, allText(g), says, "%s, landscape %v", k, landscape)
		}
		small := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Zones}, Landscape: landscape, Scale: 1000}).Pages[0]
		require.True(t, holds(small, box))
		lacks(t, allText(small), says, "all lie on it")
		bare := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Diagram}, Landscape: landscape}).Pages[0]
		lacks(t, allText(bare), says, "none are drawn")
	}
}

// holds reports whether the picture of a page is as large as a box of the plan, metres,
// at its scale: the first thing clipped is a picture's frame.
func holds(g *sheet.Page, box r2.Rect) bool {
	var r pen.Recorder
	g.Draw(&r)
	i := slices.IndexFunc(r.Marks, func(m pen.Mark) bool { return m.Kind == pen.ClipMark })
	frame := r.Marks[i].Path.Bounds()
	return box.X.Length()*1000/g.Scale <= frame.X.Length() && box.Y.Length()*1000/g.Scale <= frame.Y.Length()
}
