package sheet_test

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/sheet"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func excerptOf(t *testing.T, name string) sheet.Excerpt {
	p := example(t, name)
	return sheet.Excerpt{Plan: p, Rig: p.Rigs[0].ID, Answer: solver.Assess(p, p.Rigs[0].ID), Words: english(t, quantity.Metric),
		View: draw.View{Middle: plan.Point{X: 20, Y: 12}, PerM: 25, W: 1000, H: 700, UnitsPerPx: 1}}
}

// A picture by itself carries the verdict, what it was planned on and the
// caution, however small it is.
func TestAnExcerptSaysWhatItsFiguresStandOn(t *testing.T) {
	whole := excerptOf(t, "redirect")
	piece, ok := whole.Round([]plan.ID{whole.Plan.Site.Anchors[0].ID})
	require.True(t, ok)
	assert.Less(t, piece.View.W, whole.View.W)
	for name, x := range map[string]sheet.Excerpt{"board": whole, "selection": piece} {
		t.Run(name, func(t *testing.T) {
			file, err := x.SVG(false)
			require.NoError(t, err)
			said := svgText(t, file)
			verdict := x.Words.VerdictLine(x.Answer, x.Words.Naming(x.Answer, x.Words.Names(x.Plan, x.Rig)))
			for _, want := range []string{verdict, "lanned for HIGH resistance, LOW anchor hold", strings.Join(x.Words.Cautions(), " "), "zones go on"} {
				assert.Contains(t, said, strings.Join(strings.Fields(want), " "))
			}
			again, err := x.SVG(false)
			require.NoError(t, err)
			assert.Equal(t, file, again, "the same bytes")

			data, err := x.PNG()
			require.NoError(t, err)
			img, err := png.DecodeConfig(bytes.NewReader(data))
			require.NoError(t, err)
			assert.InDelta(t, 2*x.View.W, float64(img.Width), 1, "two pixels for each of the screen")
			assert.Greater(t, float64(img.Height), 2*x.View.H, "the texts have room of their own")
		})
	}
}

func TestAnExcerptIsRoundWhatIsSelected(t *testing.T) {
	whole := excerptOf(t, "redirect")
	p := whole.Plan
	tree, line := p.Site.Anchors[0], p.Rigs[0].Lines[0].ID
	inside := func(x sheet.Excerpt, q plan.Point) bool {
		px, py := x.View.ToPen(q)
		return px >= 0 && px <= x.View.W && py >= 0 && py <= x.View.H
	}
	x, ok := whole.Round([]plan.ID{tree.ID})
	require.True(t, ok)
	assert.InDelta(t, tree.At.X, x.View.Middle.X, 1e-9)
	assert.Equal(t, whole.View.PerM, x.View.PerM, "at the scale of the board")
	assert.False(t, inside(x, p.Casualty().At))

	x, ok = whole.Round([]plan.ID{line, p.Casualty().ID})
	require.True(t, ok)
	assert.True(t, inside(x, p.Casualty().At))
	for _, s := range whole.Answer.Stretches {
		assert.True(t, inside(x, plan.Point{X: s.A.X, Y: s.A.Y}) && inside(x, plan.Point{X: s.B.X, Y: s.B.Y}), s.Part)
	}

	_, ok = whole.Round(nil)
	assert.False(t, ok)
	_, ok = whole.Round([]plan.ID{"nobody"})
	assert.False(t, ok)
	whole.View.PerM = 1e5 // zoomed in on a shackle
	x, ok = whole.Round([]plan.ID{line})
	require.True(t, ok)
	assert.LessOrEqual(t, max(x.View.W, x.View.H), 4001.0, "a picture of bounded size")
}

// svgText is all text of an SVG file, spaces plain.
func svgText(t *testing.T, file []byte) string {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(file))
	var words []string
	for in := false; ; {
		tok, err := d.Token()
		if tok == nil {
			require.ErrorContains(t, err, "EOF")
			return strings.Join(words, " ")
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			in = tok.Name.Local == "text" || in && tok.Name.Local == "tspan"
		case xml.EndElement:
			in = in && tok.Name.Local != "text"
		case xml.CharData:
			if in {
				words = append(words, strings.Fields(string(tok))...)
			}
		}
	}
}
