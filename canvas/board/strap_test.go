package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

func strapM(h *hand) float64 { return float64(h.b.Shown().Rigs[0].Slings[0].Height) }

// A strap slides by its handle, 0.1 m for eight pixels, with the loads live.
func TestStrapSlidesByItsHandle(t *testing.T) {
	h := redirect(t)
	require.Zero(t, strapM(h), "nobody said: 0.5 m by preset")
	h.b.Select("S1")
	before, answer := h.bytes(), h.b.Answer()
	at := h.handle("strap")
	near(t, 0.24+18/h.b.View().PerM, hyp(at.X-24, at.Y-19.5), 1e-9, "beside the bark of 0.48 m")
	x, y := h.px(at.X, at.Y)
	h.b.Handle(board.PointerMove{X: x, Y: y})
	h.b.Handle(board.PointerDown{X: x, Y: y})
	h.b.Handle(board.PointerMove{X: x + 3, Y: y - 8})
	assert.Contains(t, plainTexts(h.b.Overlay()), "0.6 m up the trunk")
	near(t, 0.6, strapM(h), 0, "height")
	h.b.Handle(board.PointerMove{X: x + 3, Y: y - 80})
	near(t, 1.5, strapM(h), 0, "height")
	up := h.b.Answer()
	assert.NotEqual(t, answer.Parts, up.Parts, "the loads are live")
	h.b.Handle(board.PointerMove{X: x, Y: y - 800})
	near(t, 3, strapM(h), 0, "no higher than one reaches")
	h.b.Handle(board.PointerMove{X: x, Y: y + 800})
	near(t, 0.1, strapM(h), 0, "no lower than the roots")
	h.b.Handle(board.PointerMove{X: x, Y: y - 80})
	shown := bytesOf(t, h.b.Shown())
	h.b.Handle(board.PointerUp{X: x, Y: y - 80})
	assert.Equal(t, shown, h.bytes(), "the preview is what is kept")
	assert.Equal(t, up.Parts, h.b.Answer().Parts)
	assert.Equal(t, "Height of Sling 1", h.b.UndoName())
	h.b.Undo()
	assert.Equal(t, before, h.bytes())
}

func TestStrapSlidesByKeysAndWheel(t *testing.T) {
	alt := board.Mods{Alt: true}
	cases := []struct {
		name string
		do   func(h *hand)
		want float64
	}{
		{"higher", func(h *hand) { h.keys("}") }, 0.6},
		{"thrice", func(h *hand) { h.keys("}}}") }, 0.8},
		{"to the roots", func(h *hand) { h.keys("{{{{{{{{") }, 0.1},
		{"wheel", func(h *hand) { h.b.Handle(board.Wheel{X: 10, Y: 10, DY: 2, Mods: alt}) }, 0.7},
		{"wheel by less than a click", func(h *hand) { h.b.Handle(board.Wheel{X: 10, Y: 10, DY: -0.2, Mods: alt}) }, 0.4},
		{"commands", func(h *hand) {
			h.b.Handle(board.Command{ID: "strap-up"})
			h.b.Handle(board.Command{ID: "strap-up"})
		}, 0.7},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h := redirect(t)
			h.b.Select("S1")
			before, had := h.bytes(), undoSteps(h.b)
			h.b.Select("S1")
			view := h.b.View()
			c.do(h)
			near(t, c.want, strapM(h), 0, "height")
			assert.Contains(t, plain(h.b.Prompt()), "m up the trunk")
			assert.Equal(t, had+1, undoSteps(h.b), "steps in a row are one undo step")
			assert.Equal(t, view, h.b.View(), "the picture stays")
			h.b.Undo()
			assert.Equal(t, before, h.bytes())
		})
	}
	h := redirect(t)
	h.b.Select("T1")
	h.keys("}")
	assert.Equal(t, "Select a sling round a trunk, or a damper, first", h.b.Prompt())
}

func TestStrapAtATypedHeight(t *testing.T) {
	h := redirect(t)
	h.b.Select("S1")
	at := h.handle("strap")
	h.held([2]float64{at.X, at.Y}, [2]float64{at.X, at.Y + 1}, "0.85")
	h.up(at.X, at.Y+1)
	near(t, 0.85, strapM(h), 0, "height")
	before := h.b.Plan()
	h.held([2]float64{at.X, at.Y}, [2]float64{at.X, at.Y + 1}, "4")
	assert.Equal(t, "A sling lies 0.1 m to 3 m up its trunk", plain(h.b.Prompt()))
	h.up(at.X, at.Y+1)
	assert.True(t, before == h.b.Plan())
}

// What a preset or a doubt said of the height goes with it.
func TestStrapHeightIsNoPresetOnceSlid(t *testing.T) {
	h := redirect(t)
	p := h.b.Plan()
	r := p.Rigs[0]
	s := r.Slings[0]
	s.Height, s.Presets = 0.5, append([]string{"height_m"}, s.Presets...)
	r.Slings = []plan.Sling{s}
	h = sit(t, plan.WithRig(p, 0, r))
	h.b.Select("S1")
	h.keys("}")
	near(t, 0.6, strapM(h), 0, "height")
	assert.NotContains(t, h.b.Plan().Rigs[0].Slings[0].Presets, "height_m")
}

func TestStrapThatStays(t *testing.T) {
	h := redirect(t)
	h.b.Select("S1")
	h.ctrl("l")
	for _, x := range h.b.Overlay().Handles {
		assert.NotEqual(t, "strap", x.Kind, "locked, it has no handle")
	}
	before := h.b.Plan()
	h.keys("}")
	assert.True(t, before == h.b.Plan())
}
