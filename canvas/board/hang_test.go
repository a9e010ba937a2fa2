package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// What the keyboard hangs, bends and fixes gives the bytes that dragging there
// gives, as one undo step of the same name.
func TestHangingByKeyboard(t *testing.T) {
	tests := []struct {
		name    string
		start   func(t *testing.T) *hand
		pointer func(h *hand)
		keys    func(h *hand)
		want    func(t *testing.T, r *plan.Rig)
	}{
		{"a stretch is bent: crosshair on it, Enter selects, Enter bends, Tab, Enter", rigged1,
			func(h *hand) { bendOnTree(h) },
			func(h *hand) {
				h.keys("<Escape>", "19;8.05", "<Enter>", "<Enter>")
				require.Equal(h.t, []plan.ID{"L1"}, h.b.Selection())
				h.keys("<Enter>")
				assert.Contains(h.t, h.b.Prompt(), "Redirect Line, stretch 1 of 1")
				h.tabTo(24, 19.5)
				assert.True(h.t, h.b.Overlay().Preview, "shown as it will be")
				h.keys("<Enter>")
			}, func(t *testing.T, r *plan.Rig) { assert.Len(t, r.Lines[0].Path, 3) }},
		{"a stretch is bent: H, arrows, Enter", rigged1,
			func(h *hand) { bendOnTree(h) },
			func(h *hand) {
				h.tabSelect("L1")
				h.keys("h", "24;19.5", "<Enter>", "<Enter>")
			}, func(t *testing.T, r *plan.Rig) { assert.Len(t, r.Lines[0].Path, 3) }},
		{"the second stretch is bent: H twice", redirect,
			func(h *hand) { h.drag([2]float64{16, 13.5}, [2]float64{14, 18}, [2]float64{12, 21.5}) },
			func(h *hand) {
				h.tabSelect("L1")
				h.keys("h")
				if h.b.Prompt()[:len("Redirect Line, stretch 1")] == "Redirect Line, stretch 1" {
					h.keys("h")
				}
				assert.Contains(h.t, h.b.Prompt(), "Redirect Line, stretch 2 of 2")
				h.tabTo(12, 21.5)
				h.keys("<Enter>")
			}, func(t *testing.T, r *plan.Rig) { assert.Len(t, r.Lines[0].Path, 4) }},
		{"the far end is hung elsewhere: E", rigged1,
			func(h *hand) { h.b.Select("L1"); h.drag(front, [2]float64{10, 5}, [2]float64{2.9, 8.5}) },
			func(h *hand) { h.tabSelect("L1"); h.keys("e"); h.tabTo(2.9, 8.5); h.keys("<Enter>") },
			func(t *testing.T, r *plan.Rig) {
				assert.Equal(t, plan.Port{Thing: "V1", Point: "rear"}, r.Lines[0].Path[1])
			}},
		{"the far end goes round a tree: E", rigged1,
			func(h *hand) { h.b.Select("L1"); h.drag(front, [2]float64{10, 12}, [2]float64{12, 21.5}) },
			func(h *hand) { h.tabSelect("L1"); h.keys("e"); h.tabTo(12, 21.5); h.keys("<Enter>") },
			func(t *testing.T, r *plan.Rig) {
				require.Len(t, r.Slings, 1)
				assert.Equal(t, plan.ID("T2"), r.Slings[0].On.Thing)
			}},
		{"a block is fixed to a point: H twice", redirect,
			func(h *hand) {
				at, _ := nodeOf(h, "B1")
				c := board.Mods{Ctrl: true}
				h.move(at.X, at.Y, c)
				h.down(at.X, at.Y, c)
				h.move(10, 10, c)
				h.move(2.9, 8.5, c)
				h.up(2.9, 8.5, c)
			},
			func(h *hand) { h.tabSelect("B1"); h.keys("hh"); h.tabTo(2.9, 8.5); h.keys("<Enter>") },
			func(t *testing.T, r *plan.Rig) {
				assert.Equal(t, plan.Port{Thing: "V1", Point: "rear"}, r.Blocks[0].Fixed)
			}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p, k := tt.start(t), tt.start(t)
			before, steps := p.bytes(), undoSteps(p.b)
			tt.pointer(p)
			tt.keys(k)
			assert.Equal(t, p.bytes(), k.bytes())
			assert.Equal(t, p.b.UndoName(), k.b.UndoName())
			assert.Equal(t, steps+1, undoSteps(k.b), "one step")
			tt.want(t, &k.b.Plan().Rigs[0])
			k.b.Undo()
			assert.Equal(t, before, k.bytes())
		})
	}
}

// rigged1 is the straight line, selected.
func rigged1(t *testing.T) *hand {
	h := rigged(t)
	straight(h)
	return h
}

// Where nothing can be hung Enter says so and goes on; Esc, a tool or a press of
// the pointer ends it, the plan untouched. The other end is E again.
func TestHangingIsGivenUp(t *testing.T) {
	for _, end := range []func(h *hand){
		func(h *hand) { h.keys("<Escape>") },
		func(h *hand) { h.keys("v") },
		func(h *hand) { h.click(40, 25) },
		func(h *hand) { h.b.Handle(board.Command{ID: "tool.person"}) },
	} {
		h := rigged1(t)
		before := h.bytes()
		h.keys("h", "36;26", "<Enter>", "<Enter>")
		assert.Equal(t, "Drag a stretch on to an anchor to redirect the line there", h.b.Prompt())
		h.tabTo(24, 19.5)
		end(h)
		assert.Equal(t, before, bytesOf(t, h.b.Shown()), "no preview is left")
		assert.Equal(t, before, h.bytes())
	}
	h := rigged1(t)
	h.keys("e")
	assert.Contains(t, h.b.Prompt(), "Hang the end of Line on")
	c := h.b.Overlay().Cross
	require.NotNil(t, c)
	near(t, front[0], c.X, 0.05, "the far end first")
	h.keys("e")
	near(t, fairlead[0], h.b.Overlay().Cross.X, 0.05, "then the winch's")
	h.b.Select("L1")
	h.ctrl("l")
	h.keys("<Escape>")
	h.b.Select("L1")
	h.keys("h")
	assert.Contains(t, h.b.Prompt(), "locked")
}

// A key that has nothing to work on says what it is for.
func TestKeysWithNothingToWorkOn(t *testing.T) {
	for _, c := range []struct {
		pick plan.ID
		key  string
		want string
	}{
		{"", "h", "H hangs a block elsewhere or redirects a line: select one first"},
		{"T1", "h", "H hangs a block elsewhere or redirects a line: select one first"},
		{"", "e", "E hangs the end of a line elsewhere, or shapes an exit path: select a line or the casualty first"},
		{"B1", "e", "E hangs the end of a line elsewhere, or shapes an exit path: select a line or the casualty first"},
		{"", "r", "R turns a vehicle: select one first"},
		{"S1", "r", "R turns a vehicle: select one first"},
		{"", "]", "[ and ] change the length of a sling: select it, or the block it holds, first"},
		{"T1", "]", "It hangs from no sling"},
		{"", "{", "Select a sling round a trunk, or a damper, first"},
	} {
		h := redirect(t)
		h.keys("<Escape>", "<Escape>")
		before := h.bytes()
		if c.pick != "" {
			h.b.Select(c.pick)
		}
		h.keys(c.key)
		assert.Equal(t, c.want, h.b.Prompt(), "%s with %q", c.key, c.pick)
		assert.Equal(t, before, h.bytes())
	}
}
