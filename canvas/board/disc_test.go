package board_test

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// The rim of a disc dragged is what its radius typed is, byte for byte, and one step; it
// goes with the thing, and to nothing when it is dragged in.
func TestDiscByRimAndTyped(t *testing.T) {
	h, k := sit(t, seeded.Example(t, "redirect")), sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[0]
	before := h.bytes()
	require.NoError(t, h.b.Set(tree.ID, "at/doubt", "0.8"))
	n := undoSteps(h.b)
	h.b.Select(tree.ID)
	rim := func() (x, y float64) {
		east, _ := h.b.Plan().Site.Anchors[0].PlaceDoubt()
		at := h.b.Plan().Site.Anchors[0].At
		return at.X + float64(east)/math.Sqrt2, at.Y - float64(east)/math.Sqrt2
	}
	x, y := rim()
	h.drag([2]float64{x, y}, [2]float64{x + 0.3, y - 0.3}, [2]float64{tree.At.X + 1.5, tree.At.Y})
	assert.Equal(t, n+1, undoSteps(h.b))
	require.NoError(t, k.b.Set(tree.ID, "at/doubt", "± 0.8"))
	require.NoError(t, k.b.Set(tree.ID, "at/doubt", "1.5"))
	assert.Equal(t, k.bytes(), h.bytes())
	assert.Equal(t, []plan.Doubt{{Member: "at.x_m", Low: tree.At.X - 1.5, High: tree.At.X + 1.5, PlusMinus: true}, {Member: "at.y_m", Low: tree.At.Y - 1.5, High: tree.At.Y + 1.5, PlusMinus: true}}, h.b.Plan().Site.Anchors[0].Doubts)

	h.b.Select(tree.ID)
	h.keys("<ArrowRight>", "<ArrowUp>")
	moved := h.b.Plan().Site.Anchors[0]
	east, north := moved.PlaceDoubt()
	assert.InDelta(t, 1.5, float64(east), 1e-9)
	assert.InDelta(t, 1.5, float64(north), 1e-9)
	assert.InDelta(t, moved.At.X, (moved.Doubts[0].Low+moved.Doubts[0].High)/2, 1e-9, "about where it stands now")
	assert.InDelta(t, moved.At.Y, (moved.Doubts[1].Low+moved.Doubts[1].High)/2, 1e-9)
	for _, f := range h.b.Fields(tree.ID) {
		switch f.Member {
		case "at/x_m", "at/y_m":
			assert.Contains(t, f.Value, "± 1.5", f.Member)
		case "at/doubt":
			assert.Equal(t, "1.5", f.Value)
		}
	}
	h.b.Select(tree.ID)
	x, y = rim()
	h.drag([2]float64{x, y}, [2]float64{moved.At.X + 0.5, moved.At.Y}, [2]float64{moved.At.X, moved.At.Y})
	assert.Empty(t, h.b.Plan().Site.Anchors[0].Doubts, "it is known again")
	require.Error(t, h.b.Set(tree.ID, "at/doubt", "-1"))
	require.Error(t, h.b.Set(tree.ID, "at/doubt", "far"))
	for range undoSteps(h.b) {
		h.b.Undo()
	}
	assert.Equal(t, before, h.bytes())
}

// What is set down over a picture whose scale is known to ± is known to that share of
// its distance from the point that the length was measured from; beyond the picture, and
// over one whose length is sure, nothing is said. The figures: 10 m ± 0.5 m is 1 in 20.
func TestTracedThingsTakeThePicturesDoubt(t *testing.T) {
	var buf bytes.Buffer
	require.NoError(t, png.Encode(&buf, image.NewGray(image.Rect(0, 0, 400, 300))))
	place := func(length string) *hand {
		h := sit(t, nil)
		require.NoError(t, h.b.PlacePicture(plan.Underlay{Type: "image/png", Bytes: buf.Bytes()}, ""))
		at := h.b.View().Middle
		h.click(at.X-2, at.Y)
		h.click(at.X+2, at.Y)
		h.keys(length, "<Enter>", "1")
		require.NotNil(t, h.b.Picture().Scaled)
		return h
	}
	h := place("10 ± 0.5")
	assert.InDelta(t, 0.5, float64(h.b.Picture().Scaled.Doubt), 1e-9)
	from := h.b.Picture().Scaled.A
	h.keys("a")
	h.click(from.X+8, from.Y)
	require.Len(t, h.b.Plan().Site.Anchors, 1)
	a := h.b.Plan().Site.Anchors[0]
	east, north := a.PlaceDoubt()
	want := math.Ceil(a.At.Dist(from)/20*100) / 100
	assert.InDelta(t, want, float64(east), 1e-9)
	assert.InDelta(t, want, float64(north), 1e-9)
	h.keys("v")
	far := h.b.Picture().Metres * 400
	h.click(from.X+2*far, from.Y)
	require.Len(t, h.b.Plan().Site.Vehicles, 1)
	east, _ = h.b.Plan().Site.Vehicles[0].PlaceDoubt()
	assert.Zero(t, east, "it stands beside the picture")

	h = place("10")
	h.keys("a")
	h.click(from.X+8, from.Y)
	require.Len(t, h.b.Plan().Site.Anchors, 1)
	assert.Equal(t, quantity.Length(0), firstOf(h.b.Plan().Site.Anchors[0].PlaceDoubt()))
}

func firstOf(east, _ quantity.Length) quantity.Length { return east }

// A place that is well known keeps the rim of its disc off what is taken to move the
// thing, which moves as any other; the rim is taken beside it and dragged as any other.
func TestASmallDiscLeavesItsThingToBeMoved(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	tree := h.b.Plan().Site.Anchors[0]
	require.NoError(t, h.b.Set(tree.ID, "at/doubt", "0.05"))
	h.b.Select(tree.ID)
	h.drag([2]float64{tree.At.X, tree.At.Y}, [2]float64{tree.At.X + 1, tree.At.Y}, [2]float64{tree.At.X + 2, tree.At.Y})
	moved := h.b.Plan().Site.Anchors[0]
	assert.NotEqual(t, tree.At, moved.At)
	assert.InDelta(t, 0.05, float64(firstOf(moved.PlaceDoubt())), 1e-9)

	from := h.handle("end")
	h.drag([2]float64{from.X, from.Y}, [2]float64{from.X + 0.3, from.Y - 0.3}, [2]float64{from.X + math.Sqrt2/2, from.Y - math.Sqrt2/2})
	wider := h.b.Plan().Site.Anchors[0]
	assert.Equal(t, moved.At, wider.At)
	assert.InDelta(t, 1.05, float64(firstOf(wider.PlaceDoubt())), 0.05+1e-9, "1 m more, to a decimetre")
}
