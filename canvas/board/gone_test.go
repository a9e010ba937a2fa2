package board_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// Deleting says what went, what went with it and what hangs on nothing now, the
// same by keyboard and by menu.
func TestDeletingSaysWhatWent(t *testing.T) {
	tests := []struct {
		name string
		ids  []plan.ID
		do   func(h *hand)
		want string
	}{
		{"a tree under a sling", []plan.ID{"T1"}, nil, "Deleted: Tree 1 · now loose: Sling 1 · undo: Ctrl+Z"},
		{"a tree under nothing", []plan.ID{"T2"}, nil, "Deleted: Tree 2 · undo: Ctrl+Z"},
		{"a block", []plan.ID{"B1"}, nil, "Deleted: Block 1 · deleted too: Sling 1 and Shackle 1 · line re-run past it: Line · undo: Ctrl+Z"},
		{"a sling", []plan.ID{"S1"}, nil, "Deleted: Sling 1 · deleted too: Shackle 1 · now loose: Block 1 · undo: Ctrl+Z"},
		{"a line", []plan.ID{"L1"}, nil, "Deleted: Line · undo: Ctrl+Z"},
		{"many", []plan.ID{"V1", "V2", "T1", "T2", "T3", "O1"}, nil, "Deleted: 6 items · deleted too: Line · now loose: Sling 1 · undo: Ctrl+Z"},
		{"one of them locked", []plan.ID{"T2", "T3"}, func(h *hand) { h.b.Select("T3"); h.ctrl("l") }, "Deleted: Tree 2 · locked, kept: Tree 3 · undo: Ctrl+Z"},
		{"hooked to in another rig too", []plan.ID{"T1"}, func(h *hand) { h.b.Handle(board.Command{ID: "rig.duplicate"}); h.b.ShowRig("R1") },
			"Deleted: Tree 1 · now loose: Sling 1 · changed too: Redirect, copy · undo: Ctrl+Z"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var kept []string
			for _, by := range []func(h *hand){
				func(h *hand) { h.keys("<Delete>") },
				func(h *hand) { h.b.Handle(board.Command{ID: "delete"}) },
				func(h *hand) { h.keys("<Backspace>") },
			} {
				h := redirect(t)
				if tt.do != nil {
					tt.do(h)
				}
				before, steps := h.bytes(), undoSteps(h.b)
				h.b.Select(tt.ids...)
				by(h)
				assert.Equal(t, tt.want, h.b.Prompt())
				assert.Equal(t, steps+1, undoSteps(h.b), "one step")
				kept = append(kept, h.bytes())
				h.b.Undo()
				assert.Equal(t, before, h.bytes())
			}
			assert.Equal(t, kept[0], kept[1])
			assert.Equal(t, kept[0], kept[2])
		})
	}
	h := redirect(t)
	h.b.Select("T2")
	h.ctrl("l")
	before := h.bytes()
	h.keys("<Delete>")
	assert.Equal(t, "Nothing to delete: what is selected is locked, or nothing is", h.b.Prompt())
	assert.Equal(t, before, h.bytes())
	h.b.Handle(board.Command{ID: "rig.delete"})
	require.Equal(t, "Deleted: Redirect · undo: Ctrl+Z", h.b.Prompt())
}

// Of a thing whose part was chosen in the list of loads, Delete takes nothing but a bend of
// its exit path that is taken: that is no part of the answer.
func TestABendGoesThoughAPartIsChosen(t *testing.T) {
	p := *seeded.Example(t, "redirect")
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := p.Site.Vehicles[i]
	stuck := *v.Stuck
	stuck.Way, stuck.WayLength, stuck.Bends = plan.WayForward, 20, []plan.Point{v.Place(8, 0), v.Place(14, 4)}
	v.Stuck = &stuck
	h := sit(t, plan.WithVehicle(&p, i, v))
	bends := func() int { return len(h.b.Plan().Site.Vehicles[i].Stuck.Bends) }
	var parts []string
	for _, q := range h.b.Answer().Parts {
		if q.Thing == v.ID {
			parts = append(parts, q.ID)
		}
	}
	require.Greater(t, len(parts), 1)
	h.b.SelectOf(parts[0])
	before := h.bytes()
	h.keys("<Delete>")
	require.Equal(t, before, h.bytes())
	require.Contains(t, h.b.Prompt(), "cannot be deleted alone")
	h.ctrl("x")
	require.Equal(t, before, h.bytes())
	require.Contains(t, h.b.Prompt(), "cannot be deleted alone")
	h.keys("e", "<Tab>")
	for range 4 {
		if h.keys("<Delete>"); bends() < 2 {
			break
		}
		h.keys("<Tab>")
	}
	require.Less(t, bends(), 2)
	require.NotNil(t, h.b.Plan().Casualty())
}
