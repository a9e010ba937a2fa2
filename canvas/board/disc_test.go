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
	h.keys("p")
	h.click(from.X+6, from.Y)
	require.Len(t, h.b.Plan().Site.People, 1)
	assert.InDelta(t, math.Ceil(h.b.Plan().Site.People[0].At.Dist(from)/20*100)/100, float64(firstOf(h.b.Plan().Site.People[0].PlaceDoubt())), 1e-9)
	h.keys("<Escape>", "<Escape>", "o")
	for _, c := range [][2]float64{{2, 0}, {4, 0}, {4, 1}, {2, 1}} {
		h.click(from.X+c[0], from.Y+c[1])
	}
	h.keys("<Enter>", "<Escape>", "<Escape>")
	require.Len(t, h.b.Plan().Site.Obstacles, 1)
	o := h.b.Plan().Site.Obstacles[0]
	most := 0.0
	for _, c := range o.Outline {
		most = max(most, c.Dist(from))
	}
	assert.InDelta(t, math.Ceil(most/20*100)/100, float64(firstOf(o.PlaceDoubt())), 1e-9, "its corner that is known least")
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

// Obstacles and people have discs as anchors have: typed, dragged by the rim, carried along;
// an obstacle's is about its middle.
func TestDiscsOfObstaclesAndPeople(t *testing.T) {
	h := sit(t, nil)
	h.keys("o")
	for _, c := range [][2]float64{{10, 10}, {14, 10}, {14, 13}, {10, 13}} {
		h.click(c[0], c[1])
	}
	h.keys("<Enter>", "<Escape>", "<Escape>", "p")
	h.click(20, 12)
	h.keys("<Escape>", "<Escape>")
	rock, who := h.b.Plan().Site.Obstacles[0].ID, h.b.Plan().Site.People[0].ID
	known := func(id plan.ID) (east, north float64, at plan.Point, doubts []plan.Doubt) {
		if id == who {
			q := &h.b.Plan().Site.People[0]
			e, n := q.PlaceDoubt()
			return float64(e), float64(n), q.At, q.Doubts
		}
		o := &h.b.Plan().Site.Obstacles[0]
		e, n := o.PlaceDoubt()
		return float64(e), float64(n), plan.Centroid(o.Outline), o.Doubts
	}
	for _, id := range []plan.ID{rock, who} {
		require.NoError(t, h.b.Set(id, "at/doubt", "0.8"))
		east, north, at, _ := known(id)
		assert.InDelta(t, 0.8, east, 1e-9)
		assert.InDelta(t, 0.8, north, 1e-9)
		h.b.Select(id)
		h.keys("<ArrowRight>", "<ArrowUp>")
		_, _, moved, doubts := known(id)
		assert.InDelta(t, at.X+0.5, moved.X, 1e-9)
		require.Len(t, doubts, 2)
		assert.InDelta(t, moved.X, (doubts[0].Low+doubts[0].High)/2, 1e-9)
		assert.InDelta(t, moved.Y, (doubts[1].Low+doubts[1].High)/2, 1e-9)
		h.b.Select(id)
		rim := h.handle("end")
		h.drag([2]float64{rim.X, rim.Y}, [2]float64{rim.X + 0.3, rim.Y - 0.3}, [2]float64{rim.X + 1/math.Sqrt2, rim.Y - 1/math.Sqrt2})
		east, _, still, _ := known(id)
		assert.Equal(t, moved, still)
		assert.InDelta(t, 1.8, east, 0.05+1e-9, "1 m more, to a decimetre")
		require.NoError(t, h.b.Set(id, "at/doubt", ""))
		_, _, _, doubts = known(id)
		assert.Empty(t, doubts)
	}
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
