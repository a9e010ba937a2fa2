package draw_test

import (
	"image"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver/plan"
)

// pinnedAt is a scene of an empty sheet with pins, 40 pixels a metre.
func pinnedAt(t *testing.T, look draw.Look, pins ...plan.Pin) *draw.Scene {
	t.Helper()
	p := plan.New()
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}, Incident: &plan.Incident{Pins: pins}}}
	require.NoError(t, plan.Validate(p))
	return &draw.Scene{Plan: p, Rig: "R1", Words: &words.Words{}, Look: look, Show: draw.Show{HideGrid: true, HideNames: true},
		View: draw.View{PerM: 40, W: 400, H: 200, UnitsPerPx: 1}}
}

// inkOf is how much of the edge of a pin's head differs from the paper, 0 to 1 of its
// pixels, seen in grey.
func inkOf(t *testing.T, s *draw.Scene, i int) float64 {
	t.Helper()
	r, _ := s.Plan.Rig("R1")
	m := draw.Pins(plan.NewIndex(s.Plan, r), nil, s.View.PerM)[i]
	x, y := s.View.ToPen(m.Tip)
	img := paint(t, s)
	grey := func(x, y int) int { c := img.RGBAAt(x, y); return (int(c.R) + int(c.G) + int(c.B)) / 3 }
	paper, dark, all := grey(5, 5), 0, 0
	cx, cy := int(x+m.Beside), int(y)-draw.PinStemPx
	for _, q := range []image.Point{{X: -draw.PinHeadPx}, {X: draw.PinHeadPx}} { // its two sides
		for k := -4; k <= 9; k++ {
			if d := grey(cx+q.X, cy+k) - paper; d > 60 || d < -60 {
				dark++
			}
			all++
		}
	}
	return float64(dark) / float64(all)
}

// Pins nearer than their heads are wide stand in one row; far enough apart, seen from
// nearer, each over its own tip.
func TestPinsTooNearStandInARow(t *testing.T) {
	s := pinnedAt(t, draw.Look{}, plan.Pin{ID: "A", Kind: plan.PinWhole, At: &plan.Point{}}, plan.Pin{ID: "B", Kind: plan.PinWhole, At: &plan.Point{X: 0.3, Y: 0.2}})
	x := plan.NewIndex(s.Plan, &s.Plan.Rigs[0])
	far, near := draw.Pins(x, nil, 40), draw.Pins(x, nil, 400)
	assert.Equal(t, far[0].Tip, far[1].Over)
	assert.Greater(t, far[1].Beside-far[0].Beside, 2.0*draw.PinHeadPx)
	assert.Equal(t, near[1].Tip, near[1].Over)
	assert.Zero(t, near[1].Beside)
}

// How a pin is known is told by its edge without colour: whole if
// observed, in dashes if told, in dots if assumed or not said; one about what is gone is
// struck out. (ours: dashes have 2 of 3, dots 9 of 20 of the edge)
func TestEdgeOfAPinTellsHowItIsKnown(t *testing.T) {
	at := func(x float64) *plan.Point { return &plan.Point{X: x} }
	for _, look := range []draw.Look{{}, {Dark: true}, {Print: true}} { // in the field symbols are larger: the places looked at here are others
		s := pinnedAt(t, look,
			plan.Pin{ID: "A", Kind: plan.PinWhole, At: at(-4), Known: plan.KnownObserved}, plan.Pin{ID: "B", Kind: plan.PinWhole, At: at(-2), Known: plan.KnownTold},
			plan.Pin{ID: "C", Kind: plan.PinWhole, At: at(0), Known: plan.KnownAssumed}, plan.Pin{ID: "D", Kind: plan.PinWhole, At: at(2)})
		whole, dashes, dots, unsaid := inkOf(t, s, 0), inkOf(t, s, 1), inkOf(t, s, 2), inkOf(t, s, 3)
		assert.Equal(t, 1.0, whole, "%+v", look)
		assert.InDelta(t, 0.67, dashes, 0.2, "%+v", look)
		assert.Less(t, dots, dashes, "%+v", look)
		assert.InDelta(t, dots, unsaid, 1e-9, "%+v: not said counts as assumed", look)

		gone := pinnedAt(t, look, plan.Pin{ID: "A", Kind: plan.PinWhole, Thing: "S9", At: at(-4)})
		there := pinnedAt(t, look, plan.Pin{ID: "A", Kind: plan.PinWhole, At: at(-4)})
		assert.NotEqual(t, paint(t, gone).Pix, paint(t, there).Pix, "%+v", look)
	}
}

// Heads of pins at one place lie side by side, over it, and none over another; a pin
// away from its thing knows where that is.
func TestPinsOfOnePlaceLieInARow(t *testing.T) {
	p := example(t, "redirect.kedge")
	tree := p.Site.Anchors[0]
	for i := range 5 {
		p = plan.WithPin(p, 0, plan.Pin{ID: plan.ID(rune('A' + i)), Kind: plan.PinWhole, Thing: tree.ID})
	}
	p = plan.WithPin(p, 0, plan.Pin{ID: "F", Kind: plan.PinResting, Thing: tree.ID, At: &plan.Point{X: 3, Y: 4}})
	marks := draw.Pins(plan.NewIndex(p, &p.Rigs[0]), nil, 40)
	require.Len(t, marks, 6)
	sum := 0.0
	for i := range 5 {
		assert.Equal(t, tree.At, marks[i].Tip)
		assert.Nil(t, marks[i].Of)
		if i > 0 {
			assert.Greater(t, marks[i].Beside-marks[i-1].Beside, 2.0*draw.PinHeadPx)
		}
		sum += marks[i].Beside
	}
	assert.InDelta(t, 0, sum, 1e-9)
	assert.Equal(t, plan.Point{X: 3, Y: 4}, marks[5].Tip)
	require.NotNil(t, marks[5].Of)
	assert.Equal(t, tree.At, *marks[5].Of)
	assert.Zero(t, marks[5].Beside)
	for i := range p.Rigs[0].Slings { // every part has a place, solved or not
		id := p.Rigs[0].Slings[i].ID
		q := plan.WithPin(p, 0, plan.Pin{ID: "G", Kind: plan.PinWhole, Thing: id})
		m := draw.Pins(plan.NewIndex(q, &q.Rigs[0]), nil, 40)[6]
		assert.NotEqual(t, plan.Point{}, m.Tip, id)
		assert.False(t, m.Gone, id)
	}
}
