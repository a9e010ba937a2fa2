package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// The damper of the redirect lies on its first stretch, 12.48 m long
// (storyboard A), from the fairlead to the block.
func TestDamperSlides(t *testing.T) {
	place := func(h *hand) [2]float64 {
		s := h.b.Answer().Stretches[0]
		k := h.b.Plan().Rigs[0].Dampers[0].Share
		return [2]float64{s.A.X + k*(s.B.X-s.A.X), s.A.Y + k*(s.B.Y-s.A.Y)}
	}
	tests := []struct {
		name string
		do   func(h *hand)
		want float64 // metres from the fairlead
		tol  float64
		said string
	}{
		{"typed while dragged along its stretch", func(h *hand) {
			p := place(h)
			h.move(p[0], p[1])
			h.down(p[0], p[1])
			h.move(p[0]-1, p[1]+2)
			h.keys("4")
			h.up(p[0]-1, p[1]+2)
		}, 4, 0.001, ""},
		{"typed while dragged off every line: along its own", func(h *hand) {
			p := place(h)
			h.move(p[0], p[1])
			h.down(p[0], p[1])
			h.move(38, 25)
			h.keys("4.5 m", "<Enter>")
		}, 4.5, 0.001, ""},
		{"a key at a time", func(h *hand) { h.keys("}}") }, 7, 0.12, "7.0 m from the hauling end"},
		{"back", func(h *hand) { h.keys("{{{{") }, 4, 0.12, ""},
		{"by command", func(h *hand) {
			h.b.Handle(board.Command{ID: "strap-up"})
			h.b.Handle(board.Command{ID: "strap-up"})
		}, 7, 0.12, ""},
		{"to its end and no further", func(h *hand) {
			for range 40 {
				h.keys("{")
			}
		}, 0, 1e-9, ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := withDamper(t)
			h.b.Select("D1")
			assert.Equal(t, "Drag the damper along the line, or press { }; a number typed meanwhile is how far from the hauling end", h.b.Prompt())
			before, had := h.bytes(), undoSteps(h.b)
			h.b.Select("D1")
			tt.do(h)
			if tt.said != "" {
				assert.Contains(t, plain(h.b.Prompt()), "from the hauling end")
			}
			k := h.b.Plan().Rigs[0].Dampers[0]
			near(t, tt.want, k.Share*float64(h.b.Answer().Stretches[0].Length), tt.tol, "along the stretch")
			assert.Equal(t, "Move Damper 1", h.b.UndoName())
			assert.Equal(t, had+1, undoSteps(h.b), "one step")
			h.b.Undo()
			assert.Equal(t, before, h.bytes())
		})
	}
	h := withDamper(t) // no further than the stretch is long
	before := h.bytes()
	p := place(h)
	h.move(p[0], p[1])
	h.down(p[0], p[1])
	h.move(p[0]-1, p[1]+2)
	h.keys("14", "<Enter>")
	assert.Contains(t, plain(h.b.Prompt()), "long: the damper lies no further along it")
	assert.Equal(t, before, h.bytes())
}

// While the end of a line is hung elsewhere a number is the length of the sling
// it ends in; where there is none it says so.
func TestEndHungWithATypedSling(t *testing.T) {
	h := rigged1(t)
	before := h.bytes()
	h.move(front[0], front[1])
	h.down(front[0], front[1])
	h.move(10, 14)
	h.move(12, 21.3)
	h.keys("5")
	assert.Contains(t, plain(h.b.Overlay().Texts[0].Text), "5")
	shown := bytesOf(t, h.b.Shown())
	h.up(12, 21.3)
	assert.Equal(t, shown, h.bytes(), "what was previewed is what is kept")
	r := h.b.Plan().Rigs[0]
	require.Len(t, r.Slings, 1)
	near(t, 5, float64(r.Slings[0].Length), 0, "as typed")
	assert.Equal(t, plan.ID("T2"), r.Slings[0].On.Thing)
	h.b.Undo()
	assert.Equal(t, before, h.bytes())

	h.b.Select("L1")
	h.move(front[0], front[1])
	h.down(front[0], front[1])
	h.move(10, 14)
	h.move(12, 21.3)
	h.keys("0.5", "<Enter>")
	assert.Contains(t, h.b.Prompt(), "does not close round", "it does not close round the trunk of 0.34 m")
	assert.Equal(t, before, h.bytes())
	h.b.Select("L1")
	h.move(front[0], front[1])
	h.down(front[0], front[1])
	h.move(10, 14)
	h.move(2.9, 8.5)
	h.keys("3", "<Enter>")
	assert.Contains(t, h.b.Prompt(), "There is no sling at")
	assert.Equal(t, before, h.bytes())
}
