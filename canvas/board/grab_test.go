package board_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// grab takes hold at a place by keyboard.
func (h *hand) grab(x, y float64) {
	h.keys(fmt.Sprintf("%g;%g", x, y), "<Enter>", " ")
}

// times presses a key so often.
func (h *hand) times(n int, key string, m ...board.Mods) {
	for range n {
		h.b.Handle(board.Key{Name: key, Mods: mods(m)})
	}
}

// Whatever the pointer drags, Space takes hold of at the crosshair: the same
// bytes, as one undo step of the same name, and Esc leaves it as it was.
func TestGrabByKeyboard(t *testing.T) {
	turn := func(h *hand) plan.Point { return h.handle("turn") }
	tests := []struct {
		name    string
		start   func(t *testing.T) *hand
		pick    plan.ID // selected first; empty: nothing
		pointer func(h *hand)
		keys    func(h *hand)
		undo    string
	}{
		{"a tree", rigged, "", func(h *hand) { h.drag([2]float64{24, 19.5}, [2]float64{25, 20}, [2]float64{26, 21}) },
			func(h *hand) { h.grab(24, 19.5); h.times(4, "ArrowRight"); h.times(3, "ArrowUp") }, "Move Tree 1"},
		{"a tree by a typed length", rigged, "", func(h *hand) { h.held([2]float64{24, 19.5}, [2]float64{30, 19.5}, "8") },
			func(h *hand) { h.grab(24, 19.5); h.times(4, "ArrowRight"); h.keys("8") }, "Move Tree 1"},
		{"a vehicle, with what hangs on it", redirect, "", func(h *hand) { h.drag([2]float64{32.5, 7}, [2]float64{34, 7}, [2]float64{36.5, 6}) },
			func(h *hand) { h.grab(32.5, 7); h.times(8, "ArrowRight"); h.times(2, "ArrowDown") }, "Move Winch vehicle"},
		{"the turn handle", rigged, "V2", func(h *hand) {
			at := turn(h)
			h.held([2]float64{at.X, at.Y}, [2]float64{at.X, at.Y + 3}, "45")
		}, func(h *hand) {
			at := turn(h)
			h.keys(fmt.Sprintf("%.4f;%.4f", at.X, at.Y), "<Enter>", " ")
			h.times(2, "ArrowUp")
			h.keys("45")
		}, "Turn Winch vehicle"},
		{"a corner", rigged, "O1", func(h *hand) { h.drag([2]float64{16.5, 6.5}, [2]float64{16, 6}, [2]float64{15.5, 6}) },
			func(h *hand) { h.grab(16.5, 6.5); h.times(2, "ArrowLeft"); h.times(1, "ArrowDown") }, "Move a corner of Boulder 1"},
		{"an end of a line", rigged1, "L1", func(h *hand) { h.drag(front, [2]float64{6, 8.5}, [2]float64{2.9, 8.5}) },
			func(h *hand) {
				h.grab(front[0], front[1])
				h.times(1, "ArrowLeft", board.Mods{Ctrl: true})
				h.times(2, "ArrowLeft", board.Mods{Shift: true})
			}, "Re-hang line"},
		{"a stretch on to a tree", rigged1, "", func(h *hand) { bendOnTree(h) },
			func(h *hand) {
				h.grab(20, 8.05)
				h.times(7, "ArrowRight")
				h.times(2, "ArrowUp", board.Mods{Ctrl: true})
			}, "Redirect line"},
		{"a strap by a typed height", redirect, "S1", func(h *hand) {
			at := h.handle("strap")
			h.held([2]float64{at.X, at.Y}, [2]float64{at.X, at.Y + 1}, "0.9")
		}, func(h *hand) {
			at := h.handle("strap")
			h.keys(fmt.Sprintf("%.4f;%.4f", at.X, at.Y), "<Enter>", " ")
			h.times(1, "ArrowUp")
			h.keys("0.9")
		}, "Height of Sling 1"},
		{"a damper by a typed length", withDamper, "", func(h *hand) { h.held(damperAt(h), [2]float64{38, 25}, "4") },
			func(h *hand) {
				at := damperAt(h)
				h.keys(fmt.Sprintf("%.4f;%.4f", at[0], at[1]), "<Enter>", " ")
				h.times(3, "ArrowRight", board.Mods{Ctrl: true})
				h.keys("4")
			}, "Move Damper 1"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, k := tt.start(t), tt.start(t)
			for _, h := range []*hand{p, k} {
				h.keys("<Escape>", "<Escape>")
				if tt.pick != "" {
					h.b.Select(tt.pick)
				}
			}
			before := k.bytes()
			tt.pointer(p)
			p.up(p.at())
			tt.keys(k)
			shown := bytesOf(t, k.b.Shown())
			require.NotEqual(t, before, shown, "shown before it is let go: %s", k.b.Prompt())
			assert.Equal(t, before, k.bytes())
			k.keys("<Enter>")
			assert.Equal(t, shown, k.bytes(), "what was previewed is what is kept")
			assert.Equal(t, p.bytes(), k.bytes())
			assert.Equal(t, tt.undo, p.b.UndoName())
			assert.Equal(t, tt.undo, k.b.UndoName())
			k.b.Undo()
			assert.Equal(t, before, k.bytes(), "one step")
			k.keys("<Escape>", "<Escape>")
			if tt.pick != "" {
				k.b.Select(tt.pick)
			}
			tt.keys(k)
			k.keys("<Escape>", "<Escape>")
			assert.Equal(t, before, k.bytes(), "Esc leaves it")
			assert.Equal(t, before, bytesOf(t, k.b.Shown()))
		})
	}
}

// at is where the pointer is.
func (h *hand) at() (x, y float64) {
	if c := h.b.Overlay().Cross; c != nil {
		return c.X, c.Y
	}
	return h.lastX, h.lastY
}

func damperAt(h *hand) [2]float64 {
	s := h.b.Answer().Stretches[0]
	k := h.b.Plan().Rigs[0].Dampers[0].Share
	return [2]float64{s.A.X + k*(s.B.X-s.A.X), s.A.Y + k*(s.B.Y-s.A.Y)}
}

// A frame, more of a selection and all of a kind without a pointer.
func TestSelectingByKeyboard(t *testing.T) {
	p, k := redirect(t), redirect(t)
	p.keys("<Escape>", "<Escape>")
	k.keys("<Escape>", "<Escape>")
	p.drag([2]float64{10, 23}, [2]float64{18, 20}, [2]float64{26, 17})
	k.grab(10, 23)
	require.Contains(t, k.b.Prompt(), "Holding it")
	k.times(3, "ArrowRight", board.Mods{Ctrl: true})
	k.times(2, "ArrowRight")
	k.times(12, "ArrowDown")
	assert.NotNil(t, k.b.Overlay().Frame)
	k.keys("<Enter>")
	assert.Equal(t, p.b.Selection(), k.b.Selection())
	assert.Contains(t, k.b.Selection(), plan.ID("B1"))

	shift := board.Mods{Shift: true}
	k.keys("<Escape>", "<Escape>", "24;19.5", "<Enter>", "<Enter>")
	assert.Equal(t, []plan.ID{"T1"}, k.b.Selection())
	k.keys("12;21.5", "<Enter>")
	k.times(1, "Enter", shift)
	assert.Equal(t, []plan.ID{"T1", "T2"}, k.b.Selection())
	k.keys("24;19.5", "<Enter>")
	k.times(1, "Enter", shift)
	assert.Equal(t, []plan.ID{"T2"}, k.b.Selection())
	k.keys("<Escape>", "<Escape>", "<Escape>", " ")
	assert.Contains(t, k.b.Prompt(), "Move the crosshair on to what is to be moved")
}

// Arranging what is in order already says so and is no edit.
func TestArrangingWhatIsSoAlready(t *testing.T) {
	for _, id := range []string{"align-west", "align-south", "distribute"} {
		h := rigged(t)
		h.b.Select("T1", "T2", "T3")
		h.b.Handle(board.Command{ID: id})
		before, undo := h.bytes(), h.b.UndoName()
		h.b.Handle(board.Command{ID: id})
		assert.Equal(t, "Nothing to change: it is so already", h.b.Prompt(), id)
		assert.Equal(t, before, h.bytes())
		assert.Equal(t, undo, h.b.UndoName())
	}
}

// Length and bearing stand at what is being drawn while it grows.
func TestLiveLengthAndBearing(t *testing.T) {
	for _, c := range []struct{ key, want string }{{"m", "5.0 m · 053°"}, {"o", "5.0 m · 053°"}} { // 4 east, 3 north
		h := sit(t, nil)
		h.keys(c.key)
		h.click(10, 10)
		h.move(14, 13)
		assert.Contains(t, plainTexts(h.b.Overlay()), c.want, c.key)
	}
	h := rigged(t)
	h.keys("l")
	h.click(fairlead[0], fairlead[1])
	h.move(fairlead[0], fairlead[1]+8)
	assert.Contains(t, plainTexts(h.b.Overlay())[0], "m · 000°")
}
