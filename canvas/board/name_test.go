package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// People talk of Tree 3: it stays Tree 3 whatever is done to the others, and
// what is new is called what nothing else is.
func TestNamesStayThroughEdits(t *testing.T) {
	tests := []struct {
		name string
		do   func(h *hand)
		want map[plan.ID]string
	}{
		{"Tree 1 is deleted by keyboard", func(h *hand) { h.b.Select("T1"); h.keys("<Delete>") }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3"}},
		{"Tree 1 is deleted by pointer", func(h *hand) { h.click(24, 19.5); h.b.Handle(board.Command{ID: "delete"}) }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3"}},
		{"Tree 1 gets a name", func(h *hand) { require.NoError(h.t, h.b.Set("T1", "name", "Old pine")) }, map[plan.ID]string{"T1": "Old pine", "T2": "Tree 2", "T3": "Tree 3"}},
		{"Tree 2 becomes a rated recovery point", func(h *hand) { require.NoError(h.t, h.b.Set("T2", "kind", plan.AnchorPickets)) }, map[plan.ID]string{"T1": "Tree 1", "T2": "Picket holdfast 1", "T3": "Tree 3"}},
		{"Tree 1 is copied, then deleted", func(h *hand) { h.b.Select("T1"); h.ctrl("d"); h.b.Select("T1"); h.keys("<Delete>") }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3", "T4": "Tree 4"}},
		{"Tree 1 is deleted, then a tree is placed", func(h *hand) { h.b.Select("T1"); h.keys("<Delete>", "a"); h.click(35, 20) }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3", "T4": "Tree 4"}},
		{"Tree 1 is cut and pasted", func(h *hand) { h.b.Select("T1"); h.ctrl("x"); h.ctrl("v") }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3", "T4": "Tree 4"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := sit(t, nil)
			site(h)
			h.keys("<Escape>", "<Escape>")
			tt.do(h)
			p := h.b.Plan()
			names := plan.Names(p, &p.Rigs[0])
			for id, want := range tt.want {
				assert.Equal(t, want, names[id])
				assert.Equal(t, want, h.b.Words().Names(p, h.b.Rig())(id), "the words call it the same")
			}
			data := bytesOf(t, p)
			again, err := plan.ParsePlan([]byte(data))
			require.NoError(t, err)
			assert.Equal(t, names, plan.Names(again, &again.Rigs[0]), "stored")
		})
	}
}

// A line that was one of two keeps its number, and so does a rig; undone, the
// file is what it was.
func TestNamesOfPartsAndRigsStay(t *testing.T) {
	h := sit(t, nil)
	site(h)
	h.keys("l")
	h.drag(fairlead, front)
	h.keys("l")
	h.drag(fairlead, [2]float64{27, 2})
	require.Len(t, h.b.Plan().Rigs[0].Lines, 2)
	h.b.Handle(board.Command{ID: "rig.new"})
	h.b.Handle(board.Command{ID: "rig.new"})
	h.b.ShowRig("R1")
	before := h.bytes()
	h.b.Select("L1")
	h.keys("<Delete>")
	assert.Equal(t, "Line 2", h.b.Words().Names(h.b.Plan(), "R1")("L2"))
	h.b.Undo()
	assert.Equal(t, before, h.bytes())
	h.b.Handle(board.Command{ID: "rig.delete"})
	p := h.b.Plan()
	assert.Equal(t, []string{"Rig 2", "Rig 3"}, []string{plan.RigName(p, 0), plan.RigName(p, 1)})
	assert.Equal(t, "Rig 2 · –", h.b.Tabs()[0].Text)
	h.b.Handle(board.Command{ID: "rig.new"})
	assert.Equal(t, "Rig 4", plan.RigName(h.b.Plan(), 2))
	h.b.Handle(board.Command{ID: "rig.duplicate"})
	seen := map[string]bool{}
	for _, tab := range h.b.Tabs() {
		assert.False(t, seen[tab.Name], "two are called %s", tab.Name)
		seen[tab.Name] = true
	}
	h.b.ShowRig("R4")
	h.b.Handle(board.Command{ID: "rig.duplicate"})
	seen = map[string]bool{}
	for _, tab := range h.b.Tabs() {
		assert.False(t, seen[tab.Name], "two are called %s", tab.Name)
		seen[tab.Name] = true
	}
}

// A second winch vehicle takes nothing from the name of the first but that it
// was the only one, and gone again it leaves it its number.
func TestASecondWinchVehicle(t *testing.T) {
	h := rigged(t)
	called := func(id plan.ID) string { return h.b.Words().Names(h.b.Plan(), h.b.Rig())(id) }
	require.Equal(t, "Winch vehicle", called("V2"))
	h.keys("v")
	h.click(36, 20)
	h.keys("<Escape>", "<Escape>")
	require.NotNil(t, h.b.Plan().Site.Vehicles[2].Winch)
	assert.Equal(t, []string{"Winch vehicle 1", "Winch vehicle 2"}, []string{called("V2"), called("V3")})
	h.b.Select("V2")
	h.keys("<Delete>")
	assert.Equal(t, "Winch vehicle 2", called("V3"))
}
